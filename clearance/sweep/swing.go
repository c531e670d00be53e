package sweep

import (
	"math"

	"boxwalk/clearance/gap"
)

// swing is the bound of a plane that turns from n0 at s0 to n1 at s1, rounded
// down; -Inf if the two are more than 120 degrees apart. It serves where the
// contact normal turns with a body: a face that turns while it passes an edge,
// an edge that turns across an edge, an overlap whose way out changes. There a
// plane fixed in space loses in first order of the interval, because the far
// corners of the face or edge swing through it; this one in second order.
//
// Let n(s) run straight from n0 to n1, and u = w - v for a vertex w of B and v
// of A. Then n.u has the end values n0.u(s0) and n1.u(s1) and, with n” = 0,
//
//	(n.u)” = 2 n'.u' + n.u” <= 2 |n'| |u'| + K,    K = K_v + K_w,
//
// where |n'| = |n1 - n0|/D, and |u'| is at most its mean |Δu|/D plus K D/2. So m
// bounds every n.u from below, and their least, g, bounds sep(n(s)). n is not
// of unit length but between h = |n0 + n1|/2 and 1, and sd >= sep(n)/|n|, which
// is at least g if g is not negative and g/h otherwise.
func (t *stretch) swing(n0, n1 gap.XYZ) float64 {
	h := n0.Add(n1).Len() / 2
	if !(h > 0.5) {
		return math.Inf(-1)
	}
	d := t.s1 - t.s0
	dd, turn := d*d, n1.Sub(n0).Len()
	t.a.stand()
	t.b.stand()
	g := math.Inf(1)
	for i, v := range t.a.at {
		kv := t.a.curvature(i)
		v0, v1 := n0.Dot(v[0]), n1.Dot(v[1])
		for j, w := range t.b.at {
			k := (kv + t.b.curvature(j)) * dd
			step := w[1].Sub(w[0]).Sub(v[1].Sub(v[0])).Len()
			k += 2 * turn * (step + k/2) * raise
			if f := dip(n0.Dot(w[0])-v0, n1.Dot(w[1])-v1, k); f < g {
				g = f
			}
		}
	}
	if g -= 2 * t.e; g < 0 {
		g /= h
	}
	if math.IsNaN(g) {
		return math.Inf(-1)
	}
	return down(g)
}

// stand fills at with the vertices where they are at the two ends.
func (v *moving) stand() {
	v.at = v.at[:0]
	for _, p := range v.part.Solid.Vertices() {
		v.at = append(v.at, [2]gap.XYZ{gap.Apply(&v.p0, p), gap.Apply(&v.p1, p)})
	}
}

// turns tells whether either body turns.
func (t *stretch) turns() bool {
	a, b := &t.a.bound, &t.b.bound
	return a.Omega > 0 || a.Alpha > 0 || b.Omega > 0 || b.Alpha > 0
}
