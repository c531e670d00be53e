package sweep

import (
	"math"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// carried is the plane bound for a plane that a moving body carries along, the
// other solid standing still; -Inf if neither or both move. n is the normal
// from A to B at s = at, where pose holds the moving body. It serves where a
// face turns while it passes an edge: there a plane fixed in space loses in
// first order of the interval, because the face's far corners swing through it.
//
// Seen from the moving body (point c, angular velocity ω) a point w at rest
// has, with u = w - c, the acceleration
//
//	-c” + 2 ω x c' + ω x (ω x u) - ω' x u,
//
// at most K_w = A + 2 Ω |c'| + (Ω² + α) ρ, where ρ is the distance of w from
// the turning line (from c without an axis). |c'| is at most its mean over the
// interval, |Δc|/D, plus A D/2; ρ at most the larger end value plus A D²/8. In
// the body's frame the plane stands still, and the plane bound holds as it is.
func (t *stretch) carried(n gap.XYZ, pose *geom.Pose) float64 {
	mover, other := &t.a, &t.b
	if t.a.still {
		mover, other = &t.b, &t.a
		n = n.Mul(-1)
	}
	if mover.still || !other.still {
		return math.Inf(-1)
	}
	inBody := gap.TurnBack(&pose.R, n)
	top := math.Inf(-1)
	for _, v := range mover.part.Solid.Vertices() {
		top = math.Max(top, inBody.Dot(v))
	}
	f := mover.passing(other, inBody, t.s1-t.s0) - top - 2*t.e
	if math.IsNaN(f) {
		return math.Inf(-1)
	}
	return down(f)
}

// passing is the least, over the vertices w of other, of m for n.w in the
// coordinates of the moving body v.
func (v *moving) passing(other *moving, n gap.XYZ, d float64) float64 {
	n0, n1 := gap.Turn(&v.p0.R, n), gap.Turn(&v.p1.R, n)
	t0, t1 := n0.Dot(gap.FromVec(v.p0.T)), n1.Dot(gap.FromVec(v.p1.T))
	b := &v.bound
	c := gap.FromVec(b.C)
	c0, c1 := gap.Apply(&v.p0, c), gap.Apply(&v.p1, c)
	axis := gap.Turn(&v.p0.R, gap.FromVec(b.Axis))
	base := b.A + 2*b.Omega*(c1.Sub(c0).Len()/d+b.A*d/2)
	turning := b.Omega*b.Omega + b.Alpha
	least := math.Inf(1)
	for _, p := range other.part.Solid.Vertices() {
		w := gap.Apply(&other.p0, p)
		rho := math.Max(off(w.Sub(c0), axis), off(w.Sub(c1), axis)) + b.A*d*d/8
		k := (base + turning*rho) * raise
		if f := dip(n0.Dot(w)-t0, n1.Dot(w)-t1, k*d*d); f < least {
			least = f
		}
	}
	return least
}
