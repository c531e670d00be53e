package gap

import (
	"math"

	"boxwalk/model/geom"
)

// Shares are a point of solid A and one of solid B as shares of their vertices:
// portion i of vertex A[i] and of vertex B[i], N of them. The same vertex may
// stand there more than once.
type Shares struct {
	N       int
	A, B    [4]int
	Portion [4]float64
}

// Nearest tells two points of the solids that are as near as the solids are, to
// within the slack of Between; where they overlap, a point that both hold.
func Nearest(a, b *Solid, aPose, bPose *geom.Pose) Shares {
	var q query
	q.at[0].ra, q.at[0].rb = &aPose.R, &bPose.R
	q.between(a, b, &aPose.T, &bPose.T)
	var f found
	q.run(&f, q.start(), math.Inf(1))
	s := Shares{N: f.s.n}
	for i := range f.s.n {
		c := &f.s.c[i]
		s.A[i], s.B[i], s.Portion[i] = int(c.ia), int(c.ib), c.portion
	}
	return s
}

// carried is the point of A in its own body that the simplex carries.
func (q *query) carried(s *simplex) (p XYZ) {
	for i := range s.n {
		c := &s.c[i]
		p = p.Add(q.a.vertices[c.ia].Mul(c.portion))
	}
	return p
}
