package proof

import "strings"

func (m *model) place(t *text) {
	if !t.want(4, 4, true) {
		return
	}
	m.close(t)
	w := t.words
	m.id(t, w[1], len(m.places))
	c := t.whole(w[2], 0, len(m.carriers)-1)
	p := &place{id: len(m.places), shift: t.number(w[3]), names: []string{t.name},
		face: map[[2]int]int{}, lands: map[[2]int]int{}, stands: map[[2]int]bool{}, rolls: map[[2]int]bool{}}
	if t.bad == nil {
		p.carrier = m.carriers[c]
		m.places = append(m.places, p)
	}
	m.step = nil
}

func (m *model) lastPlace(t *text) *place {
	if len(m.places) == 0 {
		t.fail("a %s before the first place", t.words[0])
		return nil
	}
	return m.places[len(m.places)-1]
}

// twin is another pour that is the same.
func (m *model) twin(t *text) {
	if !t.want(1, 1, true) {
		return
	}
	if p := m.lastPlace(t); p != nil {
		p.names = append(p.names, t.name)
	}
}

func (m *model) solid(t *text) {
	if !t.want(8, -1, false) {
		return
	}
	p, w := m.lastPlace(t), t.words
	if p == nil {
		return
	}
	m.id(t, w[1], len(p.solids))
	zone, kind, _ := strings.Cut(w[2], ":")
	if _, ok := m.zones[zone]; !ok {
		t.fail("%q is no zone", zone)
	}
	if strings.Trim(w[3], "sra") != "" {
		t.fail("%q is no list of scenes", w[3])
	}
	s := solid{zone: zone, kind: kind, scenes: w[3], v: t.vertices(w[4:])}
	for i := range s.v {
		s.v[i][0] -= p.shift
	}
	s.size = size(s.v)
	p.solids = append(p.solids, s)
}

// face reads `face SOLID UNTIL PARTS` and `lands SOLID FROM PARTS`: parts that
// touch a solid as raised, and may until, or from, a step.
func (m *model) face(t *text) {
	if !t.want(4, 4, false) {
		return
	}
	p, k, list := m.contact(t, 3)
	if t.bad != nil {
		return
	}
	s := &p.solids[k]
	life, scene := p.face, "s"
	if t.is("lands") {
		life, scene = p.lands, "r"
	}
	if s.zone == "invert" || s.zone == "steel_ahead" || !strings.Contains(s.scenes, scene) {
		t.fail("nothing is declared to touch a solid of zone %s, or one that is not there", s.zone)
	}
	step := t.whole(t.words[2], 0, mostThings)
	for _, i := range list {
		t.charge(8 + len(p.carrier.parts[i].v) + len(s.v))
		t.keep(8)
		if t.bad != nil {
			return
		}
		if _, twice := life[[2]int{i, k}]; twice {
			t.fail("the pair of part %d and solid %d is declared twice", i, k)
		}
		if !near(p.carrier.parts[i].v, s.v) {
			t.fail("part %s and solid %d do not touch as raised", p.carrier.parts[i].mark, k)
		}
		life[[2]int{i, k}] = step
	}
}

// contact reads the solid and the parts of a declared contact.
func (m *model) contact(t *text, parts int) (p *place, solid int, list []int) {
	if p = m.lastPlace(t); p == nil {
		return nil, 0, nil
	}
	return p, t.whole(t.words[1], 0, len(p.solids)-1), t.ids(t.words[parts], p.carrier.all)
}

// stands reads `stands SOLID PARTS` and `rolls SOLID PARTS`.
func (m *model) stands(t *text) {
	if !t.want(3, 3, false) {
		return
	}
	p, k, list := m.contact(t, 2)
	if t.bad != nil {
		return
	}
	if p.solids[k].zone != "invert" {
		t.fail("what carries stands on the invert, not on zone %s", p.solids[k].zone)
	}
	pairs := p.stands
	if t.is("rolls") {
		pairs = p.rolls
	}
	t.keep(8 * len(list))
	for _, i := range list {
		if pairs[[2]int{i, k}] {
			t.fail("the pair of part %d and solid %d is declared twice", i, k)
		}
		pairs[[2]int{i, k}] = true
	}
}

// touches tells whether a part may touch a solid in a step.
func (p *place) touches(s *step, part, solid int) bool {
	pair := [2]int{part, solid}
	switch s.kind {
	case roll:
		return p.rolls[pair]
	case raise:
		from, ok := p.lands[pair]
		return p.stands[pair] || (ok && s.id >= from)
	case end:
		return p.stands[pair]
	}
	until, ok := p.face[pair]
	return p.stands[pair] || (ok && s.id <= until)
}
