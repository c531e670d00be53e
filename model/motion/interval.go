package motion

import "math"

// interval holds every real number between lo and hi. Operations round
// outward, so that the true result of exact arithmetic on any members lies
// inside.
type interval struct{ lo, hi float64 }

func point(x float64) interval { return interval{x, x} }

// ulp is at least one unit in the last place of 1 for the next larger number;
// tiny covers results below the normal range.
const (
	ulp  = 0x1p-52
	tiny = 0x1p-1000
)

// outward widens each bound by at least one unit in its last place; each comes
// from one correctly rounded operation, which is off by at most half of that.
// |x| ulp lies between one and two units of x, so that one is left when the
// subtraction rounds.
func outward(lo, hi float64) interval {
	return interval{lo - math.Abs(lo)*ulp - tiny, hi + math.Abs(hi)*ulp + tiny}
}

// outward2 widens for math functions that are good to less than two units in
// the last place rather than half of one (Sqrt is exact; Acos, Atan2, Sin and
// Cos are the ones that need it).
func outward2(lo, hi float64) interval {
	o := outward(lo, hi)
	o = outward(o.lo, o.hi)
	return outward(o.lo, o.hi)
}

func (a interval) mid() float64  { return a.lo + (a.hi-a.lo)/2 }
func (a interval) mag() float64  { return math.Max(math.Abs(a.lo), math.Abs(a.hi)) }
func (a interval) zero() bool    { return a.lo == 0 && a.hi == 0 }
func (a interval) neg() interval { return interval{-a.hi, -a.lo} }

// add is exact where one side is zero, so that what does not move has rates of
// exactly zero; mul likewise.
func (a interval) add(b interval) interval {
	if a.zero() {
		return b
	}
	if b.zero() {
		return a
	}
	return outward(a.lo+b.lo, a.hi+b.hi)
}

func (a interval) sub(b interval) interval { return a.add(b.neg()) }

func (a interval) mul(b interval) interval {
	if a.zero() || b.zero() {
		return interval{}
	}
	p, q, r, s := a.lo*b.lo, a.lo*b.hi, a.hi*b.lo, a.hi*b.hi
	return outward(math.Min(math.Min(p, q), math.Min(r, s)), math.Max(math.Max(p, q), math.Max(r, s)))
}

// sqr is the square; tighter than mul because both factors are the same number.
func (a interval) sqr() interval {
	if a.zero() {
		return a
	}
	lo, hi := a.lo*a.lo, a.hi*a.hi
	if a.lo <= 0 && a.hi >= 0 {
		return interval{0, outward(0, math.Max(lo, hi)).hi}
	}
	return outward(math.Min(lo, hi), math.Max(lo, hi))
}

// inv is 1/a; infinite where a reaches zero.
func (a interval) inv() interval {
	if a.lo <= 0 && a.hi >= 0 {
		return interval{math.Inf(-1), math.Inf(1)}
	}
	return outward(1/a.hi, 1/a.lo)
}

// sqrt of the part of a that is not negative.
func (a interval) sqrt() interval {
	return outward(math.Sqrt(math.Max(0, a.lo)), math.Sqrt(math.Max(0, a.hi)))
}

// acos of the part of a within [-1, 1].
func (a interval) acos() interval {
	clamp := func(x float64) float64 { return math.Max(-1, math.Min(1, x)) }
	return outward2(math.Acos(clamp(a.hi)), math.Acos(clamp(a.lo)))
}

// cos and sin of an interval narrower than pi; the whole [-1, 1] otherwise.
func (a interval) cos() interval {
	if !(a.hi-a.lo < math.Pi) {
		return interval{-1, 1}
	}
	c0, c1 := math.Cos(a.lo), math.Cos(a.hi)
	r := outward2(math.Min(c0, c1), math.Max(c0, c1))
	// extremes where the interval holds a multiple of pi
	for k := math.Floor(a.lo / math.Pi); k <= math.Ceil(a.hi/math.Pi); k++ {
		x := k * math.Pi
		if x >= a.lo-1e-12 && x <= a.hi+1e-12 {
			if math.Mod(math.Abs(k), 2) == 0 {
				r.hi = 1
			} else {
				r.lo = -1
			}
		}
	}
	return interval{math.Max(-1, r.lo), math.Min(1, r.hi)}
}

func (a interval) sin() interval {
	return a.sub(outward2(math.Pi/2, math.Pi/2)).cos()
}
