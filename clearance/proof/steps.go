package proof

import "math"

// newStep opens a step: of the carrier, or, for the roll, of the last place.
func (m *model) newStep(t *text) {
	if !t.want(3, 3, true) {
		return
	}
	m.close(t)
	c, w := m.carrier(t), t.words
	s := &step{id: t.whole(w[1], 1, mostThings), kind: w[2], name: t.name, absent: map[int]bool{}, driven: map[int]bool{}}
	list := &c.steps
	if _, ok := scenes[s.kind]; !ok || (s.kind == roll) != (len(m.places) > 0) {
		t.fail("%q is no kind of step that may stand here", s.kind)
	}
	if s.kind == roll && t.bad == nil {
		p := m.places[len(m.places)-1]
		c, list = p.carrier, &p.steps
		if len(*list) == 0 && len(c.steps) > 0 && s.id <= c.steps[len(c.steps)-1].id {
			t.fail("step %d is there twice", s.id)
		}
	}
	if n := len(*list); n > 0 && (*list)[n-1].id >= s.id {
		t.fail("step %d stands behind step %d", s.id, (*list)[n-1].id)
	}
	s.first = s.kind == strip
	for _, before := range *list {
		s.first = s.first && before.kind != strip
	}
	t.charge(2*len(c.bodies) + len(*list))
	if t.keep(2 * len(c.bodies)); t.bad != nil {
		return
	}
	s.drives = make([]drive, len(c.bodies))
	for i, b := range c.bodies {
		if b.link >= 0 && b.kind != isAim && t.bad == nil {
			l := c.links[b.link].raised()
			s.drives[i] = drive{l, l}
		}
	}
	*list = append(*list, s)
	m.step = s
	s.present = c.all
}

// owner is the carrier of the step being read.
func (m *model) owner(t *text) *carrier {
	if m.step == nil {
		t.fail("a %s before the first step", t.words[0])
		return m.carrier(t)
	}
	if len(m.places) > 0 {
		return m.places[len(m.places)-1].carrier
	}
	return m.carrier(t)
}

func (m *model) drive(t *text) {
	if !t.want(4, 4, false) {
		return
	}
	c, w := m.owner(t), t.words
	i := t.whole(w[1], 0, len(c.bodies)-1)
	d := drive{t.number(w[2]), t.number(w[3])}
	if t.bad != nil {
		return
	}
	if k := c.bodies[i].kind; k != isSlide && k != isTurn {
		t.fail("the joint of body %d takes no drive", i)
	}
	if c.bodies[i].link >= 0 && !(math.Min(d.from, d.to) > 0) {
		t.fail("a link without a length")
	}
	if m.step.driven[i] {
		t.fail("body %d is driven twice", i)
	}
	m.step.driven[i] = true
	if m.step.kind == end && d.from != d.to {
		t.fail("something moves when the collapse is at its end")
	}
	m.step.drives[i] = d
}

func (m *model) absent(t *text) {
	if !t.want(2, 2, false) {
		return
	}
	c := m.owner(t)
	list := t.ids(t.words[1], c.all)
	t.keep(len(c.all) + 8*len(list))
	if t.bad != nil {
		return
	}
	if len(m.step.absent) > 0 {
		t.fail("the step says twice what is absent")
	}
	for _, p := range list {
		m.step.absent[p] = true
	}
	m.step.present = nil
	for _, p := range c.all {
		if !m.step.absent[p] {
			m.step.present = append(m.step.present, p)
		}
	}
}

// follow holds that each strip step begins where the one before ends, for every
// body that is looked at and all that its place depends on: pairs that rest are
// looked at in the first step only. What little steps differ by must not add up
// to more than rounding.
func (c *carrier) follow(t *text) (from, to *step, ok bool) {
	var last *step
	slip := make([]float64, len(c.bodies))
	for _, s := range c.steps {
		if s.kind != strip && s.kind != end || t.bad != nil {
			continue
		}
		t.charge(2*len(s.present) + 4*len(c.bodies))
		if last != nil && !c.follows(last, s, slip) {
			return last, s, false
		}
		last = s
	}
	return nil, nil, true
}

// joinedTo is how far a coordinate may slip between the steps, in all.
const joinedTo = 1e-9

func (c *carrier) follows(last, s *step, slip []float64) bool {
	for b, on := range c.concerned(s) {
		if !on {
			continue
		}
		if slip[b] += math.Abs(last.drives[b].to - s.drives[b].from); slip[b] > joinedTo {
			return false
		}
	}
	for _, p := range s.present {
		if last.absent[p] {
			return false
		}
	}
	return true
}

// concerned marks the bodies of the parts of a step, those that they hang on,
// and those that the far pins of their links hang on.
func (c *carrier) concerned(s *step) []bool {
	on := make([]bool, len(c.bodies))
	var open []int
	reach := func(b int) {
		if b != ground && !on[b] {
			on[b], open = true, append(open, b)
		}
	}
	for _, p := range s.present {
		reach(c.parts[p].body)
	}
	for len(open) > 0 {
		b := c.bodies[open[len(open)-1]]
		open = open[:len(open)-1]
		if reach(b.parent); b.link >= 0 {
			reach(c.links[b.link].a)
			reach(c.links[b.link].b)
		}
	}
	return on
}
