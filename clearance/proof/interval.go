package proof

import "math"

// vec is a point or direction in metres.
type vec [3]float64

func (a vec) add(b vec) vec     { return vec{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }
func (a vec) sub(b vec) vec     { return vec{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func (a vec) mul(k float64) vec { return vec{a[0] * k, a[1] * k, a[2] * k} }
func (a vec) dot(b vec) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a vec) length() float64   { return math.Sqrt(a.dot(a)) }
func (a vec) cross(b vec) (c vec) {
	return vec{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// iv holds every number from lo to hi. Each operation widens its result by
// 2^-50 of it, more than the few roundings of 2^-53 that it makes and than the
// 2^-51 to which the functions of package math are good.
type iv struct{ lo, hi float64 }

func wide(lo, hi float64) iv {
	const ulps, least = 0x1p-50, 1e-300
	lo, hi = lo-math.Abs(lo)*ulps-least, hi+math.Abs(hi)*ulps+least
	if math.IsNaN(lo) { // of what is infinite, nothing is known
		lo = math.Inf(-1)
	}
	if math.IsNaN(hi) {
		hi = math.Inf(1)
	}
	return iv{lo, hi}
}

func at(x float64) iv { return iv{x, x} }

// anything is what is not known.
func anything() iv { return iv{math.Inf(-1), math.Inf(1)} }

func (a iv) zero() bool   { return a.lo == 0 && a.hi == 0 }
func (a iv) mid() float64 { return a.lo + (a.hi-a.lo)/2 }

// hull is the least interval that holds both; anything if either is no number.
func (a iv) hull(b iv) iv {
	lo, hi := math.Min(a.lo, b.lo), math.Max(a.hi, b.hi)
	if math.IsNaN(lo) || math.IsNaN(hi) {
		return anything()
	}
	return iv{lo, hi}
}

func (a iv) neg() iv { return iv{-a.hi, -a.lo} }

// most is the largest size in a; infinite if a holds what is no number.
func (a iv) most() float64 {
	if m := math.Max(math.Abs(a.lo), math.Abs(a.hi)); !math.IsNaN(m) {
		return m
	}
	return math.Inf(1)
}

func (a iv) add(b iv) iv {
	if a.zero() {
		return b
	}
	if b.zero() {
		return a
	}
	return wide(a.lo+b.lo, a.hi+b.hi)
}

func (a iv) sub(b iv) iv { return a.add(b.neg()) }

func (a iv) mul(b iv) iv {
	if a.zero() || b.zero() {
		return iv{}
	}
	p, q, r, s := a.lo*b.lo, a.lo*b.hi, a.hi*b.lo, a.hi*b.hi
	return wide(math.Min(math.Min(p, q), math.Min(r, s)), math.Max(math.Max(p, q), math.Max(r, s)))
}

func (a iv) times(k float64) iv { return a.mul(at(k)) }

func (a iv) sqr() iv {
	b := a.mul(a)
	if a.lo <= 0 && a.hi >= 0 || b.lo < 0 {
		b.lo = 0
	}
	return b
}

func (a iv) div(b iv) iv {
	if a.zero() {
		return a
	}
	if b.lo <= 0 && b.hi >= 0 {
		return anything()
	}
	return a.mul(wide(1/b.hi, 1/b.lo))
}

func (a iv) sqrt() iv { return wide(math.Sqrt(math.Max(0, a.lo)), math.Sqrt(math.Max(0, a.hi))) }

// acos is worked out by way of atan2, which keeps its relative precision where
// the cosine is near 1 and the angle small.
func (a iv) acos() iv {
	angle := func(x float64) float64 {
		x = math.Max(-1, math.Min(1, x))
		return math.Atan2(math.Sqrt((1-x)*(1+x)), x)
	}
	return wide(angle(a.hi), angle(a.lo))
}

// cos encloses the cosine: its values at both ends, and an extreme for every
// multiple of pi that the interval may hold.
func (a iv) cos() iv {
	if !(a.hi-a.lo < 3 && math.Abs(a.lo) < 1e7) {
		return iv{-1, 1}
	}
	c0, c1 := math.Cos(a.lo), math.Cos(a.hi)
	c := wide(math.Min(c0, c1), math.Max(c0, c1))
	for k := math.Floor(a.lo / math.Pi); k*math.Pi <= a.hi+1e-9; k++ {
		switch even := math.Mod(k, 2) == 0; {
		case k*math.Pi < a.lo-1e-9:
		case even:
			c.hi = 1
		default:
			c.lo = -1
		}
	}
	return c
}

func (a iv) sin() iv { return a.sub(wide(math.Pi/2, math.Pi/2)).cos() }

// angle of the vector (x, y): it is turned back by the angle of its middle, so
// that the rest is small.
func angle(x, y iv) iv {
	m := math.Atan2(y.mid(), x.mid())
	c, s := wide(math.Cos(m), math.Cos(m)), wide(math.Sin(m), math.Sin(m))
	along := x.mul(c).add(y.mul(s))
	if !(along.lo > 0) {
		return anything()
	}
	t := y.mul(c).sub(x.mul(s)).div(along)
	return wide(math.Atan(t.lo), math.Atan(t.hi)).add(wide(m, m))
}

// turned brings an angle near zero: by whole turns, so that its middle is
// within half a turn.
func (a iv) turned() iv {
	k := math.Round(a.mid() / (2 * math.Pi))
	if k == 0 || math.IsNaN(k) || math.IsInf(k, 0) {
		return a
	}
	return a.sub(wide(2*math.Pi*k, 2*math.Pi*k))
}
