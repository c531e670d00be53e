package motion

import (
	"math"

	"boxwalk/model/geom"
)

// jet is a quantity with its first and second derivative by s, each enclosed
// over the same interval of s.
type jet struct{ v, d, dd interval }

func constant(x float64) jet { return jet{v: point(x)} }

// steady is a quantity that goes from one value at s = 0 to another at s = 1
// at a constant rate, over [s0, s1].
func steady(from, to, s0, s1 float64) jet {
	if from == to {
		return constant(from)
	}
	rate := outward(to-from, to-from)
	v0, v1 := enclosed(from, to, s0), enclosed(from, to, s1)
	return jet{v: interval{math.Min(v0.lo, v1.lo), math.Max(v0.hi, v1.hi)}, d: rate}
}

// enclosed is from + (to - from) s. lerp is off by two roundings of to - from,
// which is at most twice the larger of both, and one of the value, which may be
// near zero.
func enclosed(from, to, s float64) interval {
	v := lerp(from, to, s)
	if s == 0 || s == 1 {
		return point(v)
	}
	off := 3 * ulp * math.Max(math.Abs(from), math.Abs(to))
	return outward(v-off, v+off)
}

// lerp is exact at both ends.
func lerp(from, to, s float64) float64 {
	if s == 1 {
		return to
	}
	return from + (to-from)*s
}

func (a jet) add(b jet) jet { return jet{a.v.add(b.v), a.d.add(b.d), a.dd.add(b.dd)} }
func (a jet) sub(b jet) jet { return jet{a.v.sub(b.v), a.d.sub(b.d), a.dd.sub(b.dd)} }

func (a jet) scale(k float64) jet {
	p := point(k)
	return jet{a.v.mul(p), a.d.mul(p), a.dd.mul(p)}
}

// mul by Leibniz: (ab)' = a'b + ab', (ab)” = a”b + 2a'b' + ab”.
func (a jet) mul(b jet) jet {
	return jet{
		v:  a.v.mul(b.v),
		d:  a.d.mul(b.v).add(a.v.mul(b.d)),
		dd: a.dd.mul(b.v).add(point(2).mul(a.d.mul(b.d))).add(a.v.mul(b.dd)),
	}
}

func (a jet) sqr() jet {
	return jet{
		v:  a.v.sqr(),
		d:  point(2).mul(a.v.mul(a.d)),
		dd: point(2).mul(a.d.sqr().add(a.v.mul(a.dd))),
	}
}

// chain applies a function with enclosed value f, slope f1 and curvature f2:
// (f(a))' = f1 a', (f(a))” = f2 a'^2 + f1 a”.
func (a jet) chain(f, f1, f2 interval) jet {
	return jet{v: f, d: f1.mul(a.d), dd: f2.mul(a.d.sqr()).add(f1.mul(a.dd))}
}

func (a jet) inv() jet {
	f := a.v.inv()
	f2 := f.sqr()
	return a.chain(f, f2.neg(), point(2).mul(f2.mul(f)))
}

// sqrt: slope 1/(2 r), curvature -1/(4 r^3).
func (a jet) sqrt() jet {
	r := a.v.sqrt()
	i := r.inv()
	return a.chain(r, i.mul(point(0.5)), i.mul(i.sqr()).mul(point(-0.25)))
}

// acos: slope -1/S, curvature -C/S^3 with C the cosine and S the sine.
func (a jet) acos() jet {
	c := interval{math.Max(-1, a.v.lo), math.Min(1, a.v.hi)}
	s := point(1).sub(c.sqr()).sqrt()
	i := s.inv()
	return a.chain(c.acos(), i.neg(), c.mul(i.mul(i.sqr())).neg())
}

func (a jet) cos() jet {
	c, s := a.v.cos(), a.v.sin()
	return a.chain(c, s.neg(), c.neg())
}

func (a jet) sin() jet {
	c, s := a.v.cos(), a.v.sin()
	return a.chain(s, c, s.neg())
}

// direction is the angle of the vector (x, y) near the reference angle ref:
// the vector is first turned back by ref, so that its angle is small and no
// branch cut is near; atan(t) then has slope 1/(1+t^2) and curvature
// -2t/(1+t^2)^2. The vector must stay within a right angle of ref.
func direction(x, y jet, ref float64) jet {
	cos, sin := math.Cos(ref), math.Sin(ref)
	c, s := jet{v: outward2(cos, cos)}, jet{v: outward2(sin, sin)}
	along := x.mul(c).add(y.mul(s))
	across := y.mul(c).sub(x.mul(s))
	t := across.mul(along.inv())
	i := point(1).add(t.v.sqr()).inv()
	angle := outward2(math.Atan(t.v.lo), math.Atan(t.v.hi))
	j := t.chain(angle, i, point(-2).mul(t.v).mul(i.sqr()))
	if !(along.v.lo > 0) {
		everything := interval{math.Inf(-1), math.Inf(1)}
		return jet{everything, everything, everything}
	}
	return j.add(constant(ref))
}

// vec is a moving point.
type vec [3]jet

func still(p geom.Vec) vec { return vec{constant(p[0]), constant(p[1]), constant(p[2])} }

func (a vec) add(b vec) vec { return vec{a[0].add(b[0]), a[1].add(b[1]), a[2].add(b[2])} }
func (a vec) sub(b vec) vec { return vec{a[0].sub(b[0]), a[1].sub(b[1]), a[2].sub(b[2])} }

func (a vec) times(k jet) vec { return vec{a[0].mul(k), a[1].mul(k), a[2].mul(k)} }

func (a vec) dot(b geom.Vec) jet {
	return a[0].scale(b[0]).add(a[1].scale(b[1])).add(a[2].scale(b[2]))
}

func (a vec) length() jet {
	return a[0].sqr().add(a[1].sqr()).add(a[2].sqr()).sqrt()
}

// cross is k x a for a fixed direction k.
func (a vec) cross(k geom.Vec) vec {
	return vec{
		a[2].scale(k[1]).sub(a[1].scale(k[2])),
		a[0].scale(k[2]).sub(a[2].scale(k[0])),
		a[1].scale(k[0]).sub(a[0].scale(k[1])),
	}
}

// turned is a turned by the angle q about the line through pin along unit k
// (Rodrigues): the part along k stays, the rest takes cos q and k x it sin q.
func (a vec) turned(pin, k geom.Vec, q jet) vec {
	r := a.sub(still(pin))
	h := r.dot(k)
	along := vec{h.scale(k[0]), h.scale(k[1]), h.scale(k[2])}
	across := r.sub(along)
	return still(pin).add(along).add(across.times(q.cos())).add(across.cross(k).times(q.sin()))
}
