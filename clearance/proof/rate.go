package proof

import "math"

// rate is a number that changes with s: its value and its first and second
// derivative over an interval.
type rate struct{ v, d, dd iv }

// steady runs from one value at s = 0 to another at s = 1.
func steady(from, to, s0, s1 float64) rate {
	if from == to {
		return rate{v: at(from)}
	}
	x0, x1 := from+(to-from)*s0, from+(to-from)*s1
	return rate{v: wide(math.Min(x0, x1), math.Max(x0, x1)), d: wide(to-from, to-from)}
}

func (a rate) add(b rate) rate      { return rate{a.v.add(b.v), a.d.add(b.d), a.dd.add(b.dd)} }
func (a rate) times(k float64) rate { return rate{a.v.times(k), a.d.times(k), a.dd.times(k)} }
func (a rate) hull(b rate) rate     { return rate{a.v.hull(b.v), a.d.hull(b.d), a.dd.hull(b.dd)} }

// turning is the angle of the moving vector (x, y): q' = (x y' - y x')/d², q” =
// (x y” - y x” - 2 q' (x x' + y y'))/d², d² = x² + y².
func turning(x, y rate) rate {
	d2 := x.v.sqr().add(y.v.sqr())
	q := rate{v: angle(x.v, y.v)}
	q.d = x.v.mul(y.d).sub(y.v.mul(x.d)).div(d2)
	q.dd = x.v.mul(y.dd).sub(y.v.mul(x.dd)).sub(q.d.mul(x.v.mul(x.d).add(y.v.mul(y.d))).times(2)).div(d2)
	return q
}

// hypot is d = sqrt(x² + y²): d' = (x x' + y y')/d, d” = (x'² + y'² + x x” +
// y y” - d'²)/d.
func hypot(x, y rate) rate {
	d := rate{v: x.v.sqr().add(y.v.sqr()).sqrt()}
	d.d = x.v.mul(x.d).add(y.v.mul(y.d)).div(d.v)
	d.dd = x.d.sqr().add(y.d.sqr()).add(x.v.mul(x.dd)).add(y.v.mul(y.dd)).sub(d.d.sqr()).div(d.v)
	return d
}

// field is a vector of intervals.
type field [3]iv

func (a field) add(b field) field { return field{a[0].add(b[0]), a[1].add(b[1]), a[2].add(b[2])} }
func (a field) mul(k iv) field    { return field{a[0].mul(k), a[1].mul(k), a[2].mul(k)} }
func (a field) to(k vec) iv {
	return a[0].times(k[0]).add(a[1].times(k[1])).add(a[2].times(k[2]))
}
func (a field) with(b field) iv {
	return a[0].mul(b[0]).add(a[1].mul(b[1])).add(a[2].mul(b[2]))
}

// across is k x a.
func (a field) across(k vec) field {
	return field{
		a[2].times(k[1]).sub(a[1].times(k[2])),
		a[0].times(k[2]).sub(a[2].times(k[0])),
		a[1].times(k[0]).sub(a[0].times(k[1])),
	}
}

// track is a moving point: place, velocity, acceleration.
type track [3]field

func fixed(p vec) track { return track{{at(p[0]), at(p[1]), at(p[2])}} }

func (a track) shift(p vec) track {
	a[0] = a[0].add(field{at(p[0]), at(p[1]), at(p[2])})
	return a
}

// along is the component in the fixed direction k.
func (a track) along(k vec) rate { return rate{a[0].to(k), a[1].to(k), a[2].to(k)} }

// slid is a moved by q times u.
func (a track) slid(u vec, q rate) track {
	f := field{at(u[0]), at(u[1]), at(u[2])}
	return track{a[0].add(f.mul(q.v)), a[1].add(f.mul(q.d)), a[2].add(f.mul(q.dd))}
}

// spun is a turned by q about the unit axis k through pin. With r = R(q)(a -
// pin) and the same turn of a' and a”, and w = q' k:
//
//	a' -> R a' + w x r,  a” -> R a” + 2 w x R a' + q” k x r + w x (w x r).
func (a track) spun(pin, k vec, q rate) track {
	c, s := q.v.cos(), q.v.sin()
	turn := func(x field) field {
		h := x.to(k)
		axial := field{h.times(k[0]), h.times(k[1]), h.times(k[2])}
		return axial.add(x.add(axial.mul(at(-1))).mul(c)).add(x.across(k).mul(s))
	}
	r, r1, r2 := turn(a.shift(pin.mul(-1))[0]), turn(a[1]), turn(a[2])
	kr := r.across(k)
	return track{
		r,
		r1.add(kr.mul(q.d)),
		r2.add(r1.across(k).mul(q.d.times(2))).add(kr.mul(q.dd)).add(kr.across(k).mul(q.d.sqr())),
	}.shift(pin)
}
