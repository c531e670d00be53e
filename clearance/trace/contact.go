package trace

// meant tells whether a pair is declared to touch in the claim's step.
func (t *tree) meant(a, b int) bool {
	if t.place == nil {
		return t.carrier.seams[[2]int{min(a, b), max(a, b)}]
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
	set := func(list [][2]int) map[[2]int]bool {
		out := map[[2]int]bool{}
		for _, pair := range list {
			out[pair] = true
		}
		return out
	}
	c.pinned, c.seams = set(c.Pinned), set(c.Seam)
	for _, s := range c.Steps {
		s.index(c)
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
