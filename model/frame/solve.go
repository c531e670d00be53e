package frame

import (
	"errors"
	"math"

	"boxwalk/model/load"
	"boxwalk/model/units"
)

// model is a beam cut at its nodes.
type model struct {
	beam     Beam
	nodes    []float64
	elements []element
	stiff    [][4][4]number // of each element
}

// Solve returns what the beam does under each loading by itself, exact but for
// the rounding of the answer: between two places where something begins, ends
// or acts the deflection is a polynomial, whose end values follow from the
// stiffness of the parts (slope-deflection equations), solved in 512 bits. All
// answers share their places, so that they can be added. kN, m. Errors: lengths,
// stiffness, places or loads out of range, no loading, a beam that can move
// freely. Source: Euler–Bernoulli beam (derived).
func (b Beam) Solve(cases ...Loading) ([]Response, error) {
	err := errors.Join(b.check(), count("loadings", len(cases), 1))
	if err != nil {
		return nil, err
	}
	for _, c := range cases {
		err = errors.Join(err, b.checkLoading(c))
	}
	if err != nil {
		return nil, err
	}
	m := &model{beam: b, nodes: b.nodes(cases)}
	if err := count("places on a beam", len(m.nodes), 2); err != nil {
		return nil, err
	}
	m.elements = b.elements(m.nodes)
	system := m.assemble()
	if !system.factor() {
		return nil, refused("the beam can move freely: its supports do not hold it")
	}
	out := make([]Response, len(cases))
	for i, c := range cases {
		out[i] = m.respond(system, c)
		if err := out[i].finite(); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// stiffness of a bar in bending between two nodes that move down and turn.
func (e element) stiffness() [4][4]number {
	l := sub(exact(e.to), exact(e.from))
	k := quo(exact(e.ei), mul(l, mul(l, l)))
	kl, kll := mul(k, l), mul(mul(k, l), l)
	a, b, c, d := times(k, 12), times(kl, 6), times(kll, 4), times(kll, 2)
	na, nb := times(a, -1), times(b, -1)
	return [4][4]number{{a, b, na, b}, {b, c, nb, d}, {na, nb, a, nb}, {b, d, nb, c}}
}

// carried are the forces and couples by which a straight load goes to the nodes.
func (e element) carried(q [2]float64) [4]number {
	l := sub(exact(e.to), exact(e.from))
	a, b, ll := exact(q[0]), exact(q[1]), mul(l, l)
	return [4]number{
		part(mul(l, add(times(a, 7), times(b, 3))), 1, 20), part(mul(ll, add(times(a, 3), times(b, 2))), 1, 60),
		part(mul(l, add(times(a, 3), times(b, 7))), 1, 20), part(mul(ll, add(times(a, 2), times(b, 3))), -1, 60),
	}
}

func (m *model) assemble() *system {
	s := newSystem(2 * len(m.nodes))
	for i, e := range m.elements {
		k := e.stiffness()
		m.stiff = append(m.stiff, k)
		for r := range k {
			for c := range k[r] {
				s.add(2*i+r, 2*i+c, k[r][c])
			}
		}
	}
	for _, p := range m.beam.Supports {
		i := 2 * nodeAt(m.nodes, float64(p.At))
		s.held[i], s.held[i+1] = p.Down.Rigid, p.Turn.Rigid
		s.add(i, i, exact(p.Down.Spring))
		s.add(i+1, i+1, exact(p.Turn.Spring))
	}
	for _, l := range m.beam.Links {
		i, by := 2*nodeAt(m.nodes, float64(l.At)), l.by()
		for r := range by {
			for c := range by {
				s.add(i+r, i+c, mul(exact(l.Axial), mul(by[r], by[c])))
			}
		}
	}
	return s
}

// by is how much a link shortens as its node moves down and as it turns.
func (l Link) by() [2]number {
	sin, cos := math.Sincos(float64(l.Angle))
	return [2]number{exact(cos), exact(-float64(l.Arm) * sin)}
}

func (m *model) respond(s *system, c Loading) Response {
	loads := c.loads(m.nodes)
	right := make([]number, 2*len(m.nodes))
	for i := range right {
		right[i] = exact(0)
	}
	for i, e := range m.elements {
		for r, f := range e.carried(loads[i]) {
			right[2*i+r] = add(right[2*i+r], f)
		}
	}
	for _, p := range c.Points {
		i := 2 * nodeAt(m.nodes, float64(p.At))
		right[i] = add(right[i], exact(float64(p.Down)))
		right[i+1] = add(right[i+1], exact(float64(p.Turn)))
	}
	moved := s.solve(right)
	return m.answer(moved, right, loads)
}

// answer works the forces out from how the nodes moved. left is what the nodes
// take beyond their loads: the supports' share.
func (m *model) answer(moved, right []number, loads [][2]float64) Response {
	left := make([]number, len(right))
	for i := range left {
		left[i] = exact(0).Neg(right[i])
	}
	var out Response
	for i, e := range m.elements {
		at := moved[2*i : 2*i+4]
		var force [4]number
		for r := range force {
			force[r] = exact(0)
			for c, k := range m.stiff[i][r] {
				force[r] = add(force[r], mul(k, at[c]))
			}
			left[2*i+r] = add(left[2*i+r], force[r])
		}
		own := e.carried(loads[i])
		out.pieces = append(out.pieces, piece{
			element: e, load: loads[i],
			shear: -float(sub(force[0], own[0])), moment: float(sub(force[1], own[1])),
			down: float(at[0]), slope: float(at[1]),
		})
	}
	for _, l := range m.beam.Links {
		i, by := 2*nodeAt(m.nodes, float64(l.At)), l.by()
		n := mul(exact(l.Axial), add(mul(by[0], moved[i]), mul(by[1], moved[i+1])))
		left[i], left[i+1] = add(left[i], mul(n, by[0])), add(left[i+1], mul(n, by[1]))
		out.Links = append(out.Links, units.Force(float(n)))
	}
	for _, p := range m.beam.Supports {
		i := 2 * nodeAt(m.nodes, float64(p.At))
		out.Supports = append(out.Supports, Reaction{
			Up:   units.Force(p.Down.force(left[i], moved[i])),
			Turn: load.Moment(p.Turn.force(left[i+1], moved[i+1])),
		})
	}
	return out
}

// force by which a support holds against a movement: what is left over at its
// node where it is rigid, so that it has no part in a free movement.
func (r Restraint) force(left, moved number) float64 {
	switch {
	case r.Rigid:
		return -float(left)
	case r.Spring > 0:
		return float(mul(exact(r.Spring), moved))
	}
	return 0
}
