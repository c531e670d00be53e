package sweep

import (
	"math"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// moving is one solid over one interval: its poses at the two ends and a bound
// on the second derivative of each vertex.
type moving struct {
	part       Part
	s0, s1     float64
	loaded     bool // the fields below are those of part's body over [s0, s1]
	home       bool // it is the frame itself that carries the part
	p0, p1     geom.Pose
	errorBound geom.ErrorBound // the larger of both ends
	bound      geom.Bound
	still      bool         // no pose between the ends differs from p0
	offset     float64      // the larger distance of the body's origin at the ends
	k          []float64    // per vertex; empty when every vertex has the curvature most
	most       float64      // the largest
	f          [][2]float64 // n.v at both ends, see project
	at         [][2]gap.XYZ // vertices at both ends, see stand
}

// raise covers the rounding of a computed curvature and of its use.
const raise = 1 + 0x1p-40

// curvature is the bound A + (Ω² + α) ρ on |p”| of a body point, rounded up.
// The distance ρ from the turning line is the length of a cross product: the
// difference of two squares would lose a point near the axis but far along it.
// Its error is at most 8u of the distance from c.
func curvature(b *geom.Bound, p gap.XYZ) float64 {
	turning := b.Omega*b.Omega + b.Alpha
	if turning == 0 {
		return b.A * raise
	}
	return (b.A + turning*off(p.Sub(gap.FromVec(b.C)), gap.FromVec(b.Axis))) * raise
}

// off is the length of u square to the unit axis, or all of it if the axis is
// zero; rounded up.
func off(u, axis gap.XYZ) float64 {
	l := u.Len()
	if axis == (gap.XYZ{}) {
		return l * raise
	}
	return u.Cross(axis).Len() + 8*0x1p-53*l
}

// load reads the motion of p over [s0, s1]. It is false when the motion gives
// numbers that are no numbers, or negative bounds.
func (v *moving) load(c *cache, p Part, s0, s1 float64) bool {
	same := v.loaded && v.part.Body == p.Body && v.s0 == s0 && v.s1 == s1
	if same && (v.still || v.part.Solid == p.Solid) {
		v.part = p
		return true
	}
	v.part = p
	if !same {
		v.s0, v.s1 = s0, s1
		v.loaded = v.read(c)
	}
	v.loaded = v.loaded && v.curve()
	return v.loaded
}

// read asks for the poses and the bound.
func (v *moving) read(c *cache) bool {
	at := *c.pose(v.part.Body, v.s0)
	v.p0, v.p1, v.errorBound, v.bound, v.home = at.pose, at.pose, at.errorBound, geom.Bound{}, v.part.Body == c.ref
	if v.s1 != v.s0 {
		end := c.pose(v.part.Body, v.s1)
		v.p1, v.errorBound = end.pose, larger(at.errorBound, end.errorBound)
		v.bound = *c.bound(v.part.Body, v.s0, v.s1)
	}
	v.offset = math.Sqrt(math.Max(v.p0.T.Dot(v.p0.T), v.p1.T.Dot(v.p1.T)))
	b := &v.bound
	return b.A >= 0 && b.Omega >= 0 && b.Alpha >= 0 && finite(&v.p0) && finite(&v.p1) && bounds(v.errorBound)
}

// curve fills the curvatures.
func (v *moving) curve() bool {
	v.k, v.still = v.k[:0], false
	b := &v.bound
	v.most = b.A * raise
	if b.Omega == 0 && b.Alpha == 0 {
		v.still = v.most == 0 && v.p0 == v.p1
		return true
	}
	for _, p := range v.part.Solid.Vertices() {
		k := curvature(b, p)
		if !(k >= 0) {
			return false
		}
		if k > v.most {
			v.most = k
		}
		v.k = append(v.k, k)
	}
	return true
}

// bounds tells whether an error bound says anything.
func bounds(d geom.ErrorBound) bool {
	return d.Turn >= 0 && d.Shift >= 0 && !math.IsInf(d.Turn+d.Shift, 1)
}

func finite(p *geom.Pose) bool {
	sum := p.T[0] + p.T[1] + p.T[2]
	for _, x := range p.R {
		sum += x
	}
	return sum-sum == 0
}

// lowest is min over the vertices of m(n.v(s0), n.v(s1), K_v, d).
func (v *moving) lowest(n gap.XYZ, d float64) float64 {
	vs := v.part.Solid.Vertices()
	l0, c0 := gap.TurnBack(&v.p0.R, n), n.Dot(gap.FromVec(v.p0.T))
	least := math.Inf(1)
	if v.still {
		for i := range vs {
			if f := l0.Dot(vs[i]); f < least {
				least = f
			}
		}
		return least + c0
	}
	l1, c1 := gap.TurnBack(&v.p1.R, n), n.Dot(gap.FromVec(v.p1.T))
	k := v.most * d * d
	for i := range vs {
		if len(v.k) > 0 {
			k = v.k[i] * d * d
		}
		if f := dip(l0.Dot(vs[i])+c0, l1.Dot(vs[i])+c1, k); f < least {
			least = f
		}
	}
	return least
}

// dip is m(f0, f1, K, D) of the package comment for kdd = K D².
func dip(f0, f1, kdd float64) float64 {
	d := f1 - f0
	if 2*math.Abs(d) >= kdd || !(kdd > 0) {
		if d < 0 {
			return f1
		}
		return f0
	}
	return (f0+f1)/2 - kdd/8 - d*d/(2*kdd)
}

// larger is an error bound of two poses.
func larger(a, b geom.ErrorBound) geom.ErrorBound {
	return geom.ErrorBound{Turn: math.Max(a.Turn, b.Turn), Shift: math.Max(a.Shift, b.Shift)}
}

// off is the body's part of E of the package comment.
func (v *moving) off() float64 {
	if v.home {
		return atHome * v.part.Solid.Reach()
	}
	return offAt(v.part.Solid, v.offset, v.errorBound)
}

// offAt is that of a solid which a pose of the given offset carries.
func offAt(s *gap.Solid, offset float64, errorBound geom.ErrorBound) float64 {
	return underway*(s.Reach()+offset) + errorBound.At(s.Reach())
}

// What E allows for arithmetic alone, per length: see the package comment.
const (
	atHome   = 7 * 0x1p-53 * raise
	underway = 26 * 0x1p-53
)

// stretch is a pair of solids over an interval.
type stretch struct {
	a, b   moving
	s0, s1 float64
	e      float64 // E of the package comment
}

func (t *stretch) load(c *cache, a, b Part, s0, s1 float64) bool {
	t.s0, t.s1 = s0, s1
	if !t.a.load(c, a, s0, s1) || !t.b.load(c, b, s0, s1) {
		return false
	}
	t.e = t.a.off() + t.b.off()
	return true
}

// plane is the plane bound for the unit normal n, rounded down; -Inf if it
// cannot be formed.
func (t *stretch) plane(n gap.XYZ) float64 {
	d := t.s1 - t.s0
	var f float64
	if t.a.still || t.b.still {
		f = t.b.lowest(n, d) + t.a.lowest(n.Mul(-1), d)
	} else {
		f = t.together(n, d)
	}
	if f -= t.e; !math.IsNaN(f) {
		return down(f)
	}
	return math.Inf(-1)
}

// together is the plane bound over pairs of vertices. With one curvature for
// each body the pair with the least ends has the least bound (m grows with
// either end).
func (t *stretch) together(n gap.XYZ, d float64) float64 {
	t.a.project(n)
	t.b.project(n)
	least := math.Inf(1)
	if len(t.a.k) == 0 && len(t.b.k) == 0 {
		a, b := spread(t.a.f), spread(t.b.f)
		return dip(b.low[0]-a.high[0], b.low[1]-a.high[1], (t.a.most+t.b.most)*d*d)
	}
	for i, v := range t.a.f {
		ka := t.a.curvature(i)
		for j, w := range t.b.f {
			k := (ka + t.b.curvature(j)) * d * d
			if f := dip(w[0]-v[0], w[1]-v[1], k); f < least {
				least = f
			}
		}
	}
	return least
}

// project fills f with n.v of every vertex at the two ends.
func (v *moving) project(n gap.XYZ) {
	l0, c0 := gap.TurnBack(&v.p0.R, n), n.Dot(gap.FromVec(v.p0.T))
	l1, c1 := gap.TurnBack(&v.p1.R, n), n.Dot(gap.FromVec(v.p1.T))
	v.f = v.f[:0]
	for _, p := range v.part.Solid.Vertices() {
		v.f = append(v.f, [2]float64{l0.Dot(p) + c0, l1.Dot(p) + c1})
	}
}

func (v *moving) curvature(i int) float64 {
	if len(v.k) > 0 {
		return v.k[i]
	}
	return v.most
}

// ends is the least and the largest of many functions at both ends.
type ends struct{ low, high [2]float64 }

func spread(fs [][2]float64) ends {
	inf := math.Inf(1)
	e := ends{[2]float64{inf, inf}, [2]float64{-inf, -inf}}
	for _, f := range fs {
		for i, x := range f {
			e.low[i] = math.Min(e.low[i], x)
			e.high[i] = math.Max(e.high[i], x)
		}
	}
	return e
}

// bow is how far the solids may leave the hull of their two ends together.
func (t *stretch) bow() float64 {
	d := t.s1 - t.s0
	return (t.a.most + t.b.most) * d * d / 8
}

func down(x float64) float64 { return math.Nextafter(x, math.Inf(-1)) }
func up(x float64) float64   { return math.Nextafter(x, math.Inf(1)) }
