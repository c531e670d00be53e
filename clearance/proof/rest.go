package proof

// rests tells whether a joint keeps its coordinate through the step.
func (g *gear) rests(s *step, i int) bool {
	if s.rests == nil {
		s.rests = make([]resting, len(g.bodies))
	}
	if s.rests[i] == unknown {
		s.rests[i] = moves // until it is known, so that no circle is taken for rest
		if g.keeps(s, i) {
			s.rests[i] = rests
		}
	}
	return s.rests[i] == rests
}

// resting is what is known of a joint in a step.
type resting byte

const (
	unknown resting = iota
	moves
	rests
)

func (g *gear) keeps(s *step, i int) bool {
	b := &g.bodies[i]
	switch {
	case b.kind == isFixed:
		return true
	case b.kind == isAim:
		l := g.links[b.link]
		far := l.b
		if b.pin == l.pinB {
			far = l.a
		}
		return g.restBetween(s, far, b.parent)
	case s.drives[i].from != s.drives[i].to:
		return false
	case b.link < 0:
		return true
	}
	return g.restBetween(s, g.links[b.link].a, b.parent)
}

// restBetween tells whether two bodies keep their places to each other.
func (g *gear) restBetween(s *step, a, b int) bool {
	top := g.common(a, b)
	for _, end := range [2]int{a, b} {
		for ; end != top; end = g.bodies[end].parent {
			if !g.rests(s, end) {
				return false
			}
		}
	}
	return true
}

// restTogether tells the same of two bodies, at once: each is taken to the
// outermost body that it rests on.
func (g *gear) restTogether(s *step, a, b int) bool {
	if s.group == nil {
		s.group = make([]int, len(g.bodies))
		for i := range g.bodies {
			switch p := g.bodies[i].parent; {
			case !g.rests(s, i):
				s.group[i] = i
			case p == ground:
				s.group[i] = ground
			default:
				s.group[i] = s.group[p]
			}
		}
	}
	return s.group[a] == s.group[b]
}
