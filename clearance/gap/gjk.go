package gap

import (
	"math"

	"boxwalk/model/geom"
	"github.com/go-gl/mathgl/mgl64"
)

// place is one relative placing of the two solids: B - A at this end is
// rb b - ra a + t. Only the difference of the two origins enters, so a common
// offset of a kilometre costs no accuracy.
type place struct {
	ra, rb *mgl64.Mat3
	t      XYZ
}

func placed(aPose, bPose *geom.Pose) place {
	return place{&aPose.R, &bPose.R, FromVec(bPose.T).Sub(FromVec(aPose.T))}
}

// query is a GJK run over the convex hull of B - A at one or two ends.
type query struct {
	a, b  *Solid
	at    [2]place
	ends  int
	scale float64 // S of the package comment
}

// between makes q, whose first placing has its turns, the query at that placing
// alone. It is made where it stands, for copies cost as much as a turn of the
// iteration; and by callers that set the turns, for a pointer kept here would
// send every pose to the heap.
func (q *query) between(a, b *Solid, aAt, bAt *geom.Vec) {
	q.a, q.b, q.ends = a, b, 1
	q.at[0].t = XYZ{bAt[0] - aAt[0], bAt[1] - aAt[1], bAt[2] - aAt[2]}
	q.scale = a.reach + b.reach + q.at[0].t.Len()
}

// overEnds is the query over the hull of two placings.
func overEnds(a, b *Solid, p0, p1 place) query {
	far := math.Sqrt(math.Max(p0.t.Dot(p0.t), p1.t.Dot(p1.t)))
	return query{a: a, b: b, at: [2]place{p0, p1}, ends: 2, scale: a.reach + b.reach + far}
}

// found is what a GJK run knows when it ends: the nearest point v of the hull
// (length d), the largest sep seen and its unit direction, and the simplex.
// touch means the origin is in the hull or within rounding of it: d is then an
// upper bound on its distance and n, low may be anything valid.
type found struct {
	d, low float64
	n      XYZ
	s      simplex
	touch  bool
}

// turns is the iteration limit. Convergence takes 3 to 10; running out leaves
// a gap between d and low that the caller handles.
const turns = 64

// epsilon is u, half the spacing of floating-point numbers at 1.
const epsilon = 0x1p-53

// run iterates until d and low meet, or no progress is possible, or low
// exceeds cut (the caller then needs no more).
func (q *query) run(f *found, dir XYZ, cut float64) {
	noise := 4 * epsilon * q.scale
	f.low = math.Inf(-1)
	q.support(dir, &f.s.c[0])
	f.s.c[0].portion, f.s.n = 1, 1
	v := f.s.c[0].w
	vv := v.Dot(v)
	for range turns {
		f.d = math.Sqrt(vv)
		if f.d <= noise {
			f.touch = true
			return
		}
		c := &f.s.c[f.s.n]
		if low := q.support(v, c) / f.d; low > f.low {
			f.low, f.n = low, v.Mul(1/f.d)
		}
		if f.d-f.low <= noise/2 || f.low > cut || f.s.has(c) {
			return
		}
		f.s.n++
		p, inside := f.s.nearest()
		pp := p.Dot(p)
		if inside || !(pp < vv) {
			f.d, f.touch = math.Sqrt(pp), inside // p is a point of the hull, progress or not
			return
		}
		v, vv = p, pp
	}
	f.d = math.Sqrt(vv)
}

func (s *simplex) has(c *corner) bool {
	for i := range s.n {
		if s.c[i].ia == c.ia && s.c[i].ib == c.ib && s.c[i].end == c.end {
			return true
		}
	}
	return false
}

// support sets c to the corner of the hull lowest along n and returns its
// height n.w.
func (q *query) support(n XYZ, c *corner) (low float64) {
	low = math.Inf(1)
	for e := range q.ends {
		p := &q.at[e]
		ia, top := highest(q.a.vertices, TurnBack(p.ra, n))
		ib, bottom := lowest(q.b.vertices, TurnBack(p.rb, n))
		if sep := bottom - top + n.Dot(p.t); sep < low {
			low = sep
			c.ia, c.ib, c.end = int32(ia), int32(ib), int32(e)
		}
	}
	p := &q.at[c.end]
	c.w = Turn(p.rb, q.b.vertices[c.ib]).Sub(Turn(p.ra, q.a.vertices[c.ia])).Add(p.t)
	return low
}

// start is a direction from A towards B.
func (q *query) start() XYZ {
	p := &q.at[0]
	d := Turn(p.rb, q.b.center).Sub(Turn(p.ra, q.a.center)).Add(p.t)
	if d == (XYZ{}) {
		return XYZ{1, 0, 0}
	}
	return d
}
