package gap

import (
	"math"

	"boxwalk/model/geom"
	"github.com/go-gl/mathgl/mgl64"
)

// pair is the two solids in A's body frame: b is at r b + t.
type pair struct {
	a, b  *Solid
	r     mgl64.Mat3
	t     XYZ
	scale float64
}

// relative is q's first end in A's body frame. The product of two rotations,
// each orthonormal to a few u, moves a vertex by a few u of its length.
func relative(q *query) pair {
	p := &q.at[0]
	return pair{a: q.a, b: q.b, r: p.ra.Transpose().Mul3(*p.rb), t: TurnBack(p.ra, p.t), scale: q.scale}
}

func (p *pair) finite() bool {
	sum := p.t.X + p.t.Y + p.t.Z
	for _, x := range p.r {
		sum += x
	}
	return !math.IsNaN(sum - sum)
}

// facet is a supporting direction of B - A in A's body frame, its separation,
// and two points of the solids that witness it.
type facet struct {
	n      XYZ
	sep    float64
	value  float64 // the signed distance it stands for; sep unless set by features
	pa, pb XYZ
}

// atB is vertex i of B in A's frame.
func (p *pair) atB(i int) XYZ { return Turn(&p.r, p.b.vertices[i]).Add(p.t) }

// faces is the best of all face normals.
func (p *pair) faces() facet {
	best := facet{sep: math.Inf(-1)}
	for i := range p.a.faces {
		f := &p.a.faces[i]
		ib, low := lowest(p.b.vertices, TurnBack(&p.r, f.n))
		if sep := low + f.n.Dot(p.t) - f.offset; sep > best.sep {
			b := p.atB(ib)
			best = facet{n: f.n, sep: sep, pb: b, pa: b.Sub(f.n.Mul(sep))}
		}
	}
	for i := range p.b.faces {
		f := &p.b.faces[i]
		n := Turn(&p.r, f.n).Mul(-1)
		ia, top := highest(p.a.vertices, n)
		if sep := n.Dot(p.t) - f.offset - top; sep > best.sep {
			a := p.a.vertices[ia]
			best = facet{n: n, sep: sep, pa: a, pb: a.Add(n.Mul(sep))}
		}
	}
	best.value = best.sep
	return best
}

// arcSlack widens the test for crossing Gauss arcs: a face normal of a 3 mm
// sliver 100 m from its origin is known to 4e-12 only. Extra candidates cost
// time, not correctness: sep(n) is a valid bound for any n.
const arcSlack = 1e-10

// edges improves best by the pairs of edges whose Gauss arcs cross.
func (p *pair) edges(best *facet) {
	for j := range p.b.edges {
		f := &p.b.edges[j]
		q := Turn(&p.r, f.dir)
		c1, c2 := Turn(&p.r, f.n1).Mul(-1), Turn(&p.r, f.n2).Mul(-1)
		at := p.atB(f.a)
		for i := range p.a.edges {
			e := &p.a.edges[i]
			if arcsCross(e, q, c1, c2) {
				p.tryEdges(best, e, f, q, at)
			}
		}
	}
}

// arcsCross is false only when the arc e.n1-e.n2 certainly misses the arc
// c1-c2 (with q a positive multiple of c2 x c1): the ends of one lie on the
// same side of the other's great circle, or they cross on opposite sides of
// the sphere.
func arcsCross(e *edge, q, c1, c2 XYZ) bool {
	x, y := c1.Dot(e.dir), c2.Dot(e.dir)
	if x > arcSlack && y > arcSlack || x < -arcSlack && y < -arcSlack {
		return false
	}
	z, w := e.n1.Dot(q), e.n2.Dot(q)
	if z > arcSlack && w > arcSlack || z < -arcSlack && w < -arcSlack {
		return false
	}
	return !(x > arcSlack && w < -arcSlack || x < -arcSlack && w > arcSlack)
}

// tryEdges tests the direction across edges e of A and f of B (direction q and
// a point at, in A's frame). With s the sign of p.q, p x q = p x (q - s p); the
// difference is exact to rounding for nearly parallel edges, so the direction
// is square to both edges within a few u, however small their angle, and the
// separation lost is a few u of their lengths.
func (p *pair) tryEdges(best *facet, e, f *edge, q, at XYZ) {
	d := q.Sub(e.dir)
	if q.Dot(e.dir) < 0 {
		d = q.Add(e.dir)
	}
	n := e.dir.Cross(d)
	if n.Dot(e.n1.Add(e.n2)) < 0 {
		n = n.Mul(-1)
	}
	ea := p.a.vertices[e.a]
	ll, h := n.Dot(n), n.Dot(at.Sub(ea))
	if ll < 16*epsilon*epsilon || h < 0 && best.sep < 0 && h*h >= best.sep*best.sep*ll {
		return // parallel: a face normal serves as well, to 4u of their lengths; or no better
	}
	l := math.Sqrt(ll)
	if h <= best.sep*l {
		return
	}
	n = n.Mul(1 / l)
	sep := p.along(n)
	if sep <= best.sep {
		return
	}
	pa, pb, _ := nearestOnEdges(ea, p.a.vertices[e.b], at, p.atB(f.b))
	if math.Abs(n.Dot(pb.Sub(pa))-sep) > rounding(p.scale) {
		pa, pb = p.extremes(n) // the edges were let in by arcSlack only
	}
	*best = facet{n: n, sep: sep, value: sep, pa: pa, pb: pb}
}

// along is sep(n).
func (p *pair) along(n XYZ) float64 {
	_, top := highest(p.a.vertices, n)
	_, low := lowest(p.b.vertices, TurnBack(&p.r, n))
	return low + n.Dot(p.t) - top
}

// extremes is A's vertex farthest along n and B's farthest back.
func (p *pair) extremes(n XYZ) (a, b XYZ) {
	i, _ := highest(p.a.vertices, n)
	j, _ := lowest(p.b.vertices, TurnBack(&p.r, n))
	return p.a.vertices[i], p.atB(j)
}

// result takes a facet to the frame of the poses.
func (p *pair) result(f facet, aPose *geom.Pose) Result {
	return Result{
		Distance: f.value,
		Slack:    math.Abs(f.value-f.sep) + 2*rounding(p.scale) + p.doubt(f),
		N:        Turn(&aPose.R, f.n).Vec(),
		A:        Apply(aPose, f.pa).Vec(), B: Apply(aPose, f.pb).Vec(),
	}
}

// doubt is what a contact may be farther apart than its separation says: up to
// wanted, when the iteration ended within rounding of zero.
func (p *pair) doubt(f facet) float64 {
	if f.value == f.sep && f.sep > -wanted(p.scale) {
		return wanted(p.scale)
	}
	return 0
}
