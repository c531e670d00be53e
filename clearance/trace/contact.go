package trace

import "slices"

// meant tells whether a pair is declared to touch in the claim's step.
func (t *tree) meant(a, b int) bool {
	if t.place == nil {
		return slices.Contains(t.carrier.seams[a], b)
	}
	return t.place.touches(t.Step, [2]int{a, b})
}

// touches tells whether a part may touch a solid in a step.
func (p *Place) touches(s *Step, pair [2]int) bool {
	switch s.Kind {
	case Roll:
		return p.rolls[pair]
	case Raise:
		from, ok := p.lands[pair]
		return p.stands[pair] || ok && s.ID >= from
	case End:
		return p.stands[pair]
	}
	until, ok := p.faces[pair]
	return p.stands[pair] || ok && s.ID <= until
}

// index prepares the lookups of a place.
func (p *Place) index() {
	lives := func(list []Contact) map[[2]int]int {
		out := map[[2]int]int{}
		for _, c := range list {
			for _, part := range c.Parts {
				out[[2]int{part, c.Solid}] = c.Step
			}
		}
		return out
	}
	always := func(list []Contact) map[[2]int]bool {
		out := map[[2]int]bool{}
		for pair := range lives(list) {
			out[pair] = true
		}
		return out
	}
	p.faces, p.lands = lives(p.Faces), lives(p.Lands)
	p.stands, p.rolls = always(p.Stands), always(p.Rolls)
	p.lows = standing(p.Solids)
}

// index prepares the lookups of a carrier.
func (c *Carrier) index() {
	c.pinned, c.seams = c.partners(c.Pinned), c.partners(c.Seam)
	for k, s := range c.Steps {
		s.index(c)
		s.groups(c, k == 0)
	}
}

// partners lists for each part those that it is paired with.
func (c *Carrier) partners(pairs [][2]int) [][]int {
	out := make([][]int, len(c.Parts))
	for _, p := range pairs {
		out[p[0]], out[p[1]] = append(out[p[0]], p[1]), append(out[p[1]], p[0])
	}
	return out
}

// groups takes each body to the outermost that it rests on; in the first step what
// rests is proved too, and each body stands for itself.
func (s *Step) groups(c *Carrier, first bool) {
	s.group = make([]int, len(c.Bodies))
	for i, b := range c.Bodies {
		switch {
		case first || !s.Rests(b.Parent, i):
			s.group[i] = i
		case b.Parent == Ground:
			s.group[i] = Ground
		default:
			s.group[i] = s.group[b.Parent]
		}
	}
}

// index lists the parts that are there.
func (s *Step) index(c *Carrier) {
	gone := map[int]bool{}
	for _, i := range s.Absent {
		gone[i] = true
	}
	for i := range c.Parts {
		if !gone[i] {
			s.present = append(s.present, i)
		}
	}
	s.tables = tables{}
}

// table is the lows of the step's parts seen from a frame.
func (s *Step) table(c *Carrier, frame int) *lows {
	s.mu.Lock()
	defer s.mu.Unlock()
	if l := s.tables[frame]; l != nil {
		return l
	}
	below := func(body int) bool {
		for body > frame {
			body = c.Bodies[body].Parent
		}
		return body == frame
	}
	if s.Kind == Roll {
		below = func(int) bool { return true } // seen from the ground, where everything is
	}
	l := moving(s, below, frame)
	s.tables[frame] = l
	return l
}
