package motion

import (
	"math"

	"boxwalk/model/geom"
)

// Bound encloses the motion over [s0, s1] seen from Ground. The body's x is
// e(s) = m + k l with m = p + q s affine and square to k, l = sqrt(1 - m²), so
//
//	e' = q + k l',  l' = -(m.q)/l,  e'' = k l'',  l'' = -(q² + l'²)/l.
//
// In the axes of the front straight, t along it, n left and z up, k has no n:
// e_n is affine. With c² = e_t² + e_n² = 1 - e_z², yaw psi and pitch theta,
//
//	psi'   = (e_t e_n' - e_n e_t')/c²
//	psi''  = (2 e_z e_z' psi' - e_n e_t'')/c²
//	theta' = e_z'/c,  theta'' = (e_z'' + e_z theta'²)/c.
//
// The body turns about z by psi' and about its level y by -theta'; that y turns
// with psi, so that z, y and the third direction square to them carry psi”,
// theta” and psi' theta' of the angular acceleration: the three are square to
// each other and so are psi' and theta', hence
//
//	Omega = sqrt(psi'² + theta'²), Alpha = sqrt(psi''² + theta''² + psi'² theta'²).
//
// C is the rear guide at axle height: even in plan, its height is
// c + q_l.(P + a e) - a e_z by the rear wheel that carries, which has
// |z”| = |a (q_l.k - k_z) l”|. Where only one of psi and theta moves, its axis
// keeps its direction: z, or the body's y.
func (d *Glide) Bound(ref, body int, s0, s1 float64) geom.Bound {
	if body == ref {
		return geom.Bound{}
	}
	b := geom.Bound{C: d.g.carriage.anchor()}
	if d.Level() {
		return b
	}
	r := d.rates(s0, s1)
	front := d.g.course[d.on.front]
	u, n := front.along(), front.left()
	kt, qt, qn := u[0]*d.k[0]+u[1]*d.k[1], u[0]*d.q[0]+u[1]*d.q[1], n[0]*d.q[0]+n[1]*d.q[1]
	if d.straight() {
		qn = 0
	}
	e0, e1 := d.ahead(s0), d.ahead(s1)
	turned := func(v geom.Vec, w [2]float64) float64 { return w[0]*v[0] + w[1]*v[1] }
	et := r.between(turned(e0, u), turned(e1, u), kt)
	en := outward2(math.Min(turned(e0, n), turned(e1, n)), math.Max(turned(e0, n), turned(e1, n)))
	ez := r.between(e0[2], e1[2], d.k[2])
	et1, ez1 := fine(qt).add(fine(kt).mul(r.l1)), fine(d.q[2]).add(fine(d.k[2]).mul(r.l1))
	et2, ez2 := fine(kt).mul(r.l2), fine(d.k[2]).mul(r.l2)

	c2 := point(1).sub(ez.sqr())
	c := c2.sqrt()
	yaw := et.mul(fine(qn)).sub(en.mul(et1)).mul(c2.inv())
	yaw2 := point(2).mul(ez.mul(ez1).mul(yaw)).sub(en.mul(et2)).mul(c2.inv())
	pitch := ez1.mul(c.inv())
	pitch2 := ez2.add(ez.mul(pitch.sqr())).mul(c.inv())

	a := d.g.lever(d.on.low)
	slope := d.g.planes[d.on.lowOn].slope()
	b.A = math.Abs(a*(slope.Dot(flat(d.k))-d.k[2])) * r.l2.mag()
	switch {
	case pitch.zero():
		b.Axis = geom.Vec{e0[2], 0, math.Sqrt(1 - e0[2]*e0[2])}
		b.Omega, b.Alpha = yaw.mag(), yaw2.mag()
	case d.straight():
		b.Axis = geom.Vec{0, 1, 0}
		b.Omega, b.Alpha = pitch.mag(), pitch2.mag()
	default:
		b.Omega = math.Hypot(yaw.mag(), pitch.mag())
		b.Alpha = math.Hypot(math.Hypot(yaw2.mag(), pitch2.mag()), yaw.mag()*pitch.mag())
	}
	return grown(b)
}

// straight tells whether both guides are on one straight, so that the body
// does not yaw.
func (d *Glide) straight() bool {
	return d.g.course[d.on.rear].heading == d.g.course[d.on.front].heading
}

// rates are l' and l” over an interval.
type rates struct {
	s0, s1 float64
	l1, l2 interval
}

// between encloses a component of e over the interval from its values at the
// ends: between them it leaves their chord by at most its second derivative,
// k l”, times D²/8.
func (r rates) between(a, b, k float64) interval {
	if a == b && k == 0 {
		return point(a)
	}
	sag := math.Abs(k) * r.l2.mag() * (r.s1 - r.s0) * (r.s1 - r.s0) / 8
	return outward2(math.Min(a, b)-sag, math.Max(a, b)+sag)
}

// fine is a number worked out by a few operations; zero stays zero.
func fine(x float64) interval {
	if x == 0 {
		return interval{}
	}
	return outward2(x, x)
}

// rates over [s0, s1]: m.q is linear in s and m² convex, so that the ends of the
// interval hold the extremes of m.q and the least l; the greatest is 1.
func (d *Glide) rates(s0, s1 float64) rates {
	m0, m1 := d.p.Add(d.q.Mul(s0)), d.p.Add(d.q.Mul(s1))
	x0, x1 := m0.Dot(d.q), m1.Dot(d.q)
	dot := outward2(math.Min(x0, x1), math.Max(x0, x1))
	least := point(1).sub(outward2(0, math.Max(m0.Dot(m0), m1.Dot(m1)))).sqrt().lo
	// the least m²: on the way, where m.q = 0, or at an end
	small := math.Min(m0.Dot(m0), m1.Dot(m1))
	if dot.lo <= 0 && dot.hi >= 0 {
		small = 0
	}
	most := point(1).sub(outward2(small, small)).sqrt().hi
	l := interval{least, math.Min(1, most)}
	l1 := dot.neg().mul(l.inv())
	q2 := d.q.Dot(d.q)
	return rates{s0, s1, l1, outward2(q2, q2).add(l1.sqr()).neg().mul(l.inv())}
}
