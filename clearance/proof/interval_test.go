package proof

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// prec is far beyond double precision.
const prec = 300

func exact(x float64) *big.Float { return new(big.Float).SetPrec(prec).SetFloat64(x) }

func holds(a iv, x *big.Float) bool {
	if math.IsNaN(a.lo) || math.IsNaN(a.hi) {
		return false
	}
	return (math.IsInf(a.lo, -1) || exact(a.lo).Cmp(x) <= 0) && (math.IsInf(a.hi, 1) || exact(a.hi).Cmp(x) >= 0)
}

func drawNumber(t *rapid.T, name string) float64 {
	m := rapid.Float64Range(-1, 1).Draw(t, name)
	return math.Ldexp(m, rapid.IntRange(-30, 20).Draw(t, name+" exponent"))
}

// drawInterval and a number in it.
func drawInterval(t *rapid.T, name string) (iv, float64) {
	x, y := drawNumber(t, name), drawNumber(t, name)
	a := iv{math.Min(x, y), math.Max(x, y)}
	if rapid.Bool().Draw(t, name+" is one number") {
		a = at(x)
	}
	in := a.lo + (a.hi-a.lo)*rapid.Float64Range(0, 1).Draw(t, name+" at")
	return a, math.Max(a.lo, math.Min(a.hi, in))
}

func TestIntervalArithmeticEncloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, x := drawInterval(t, "a")
		b, y := drawInterval(t, "b")
		f, g := exact(x), exact(y)
		of := func() *big.Float { return new(big.Float).SetPrec(prec) }
		for name, c := range map[string]struct {
			got  iv
			want *big.Float
		}{
			"add": {a.add(b), of().Add(f, g)},
			"sub": {a.sub(b), of().Sub(f, g)},
			"mul": {a.mul(b), of().Mul(f, g)},
			"sqr": {a.sqr(), of().Mul(f, f)},
			"neg": {a.neg(), of().Neg(f)},
		} {
			if !holds(c.got, c.want) {
				t.Fatalf("%s of %v and %v is %v, which leaves out %v", name, a, b, c.got, c.want)
			}
		}
		if y != 0 && !holds(a.div(b), of().Quo(f, g)) {
			t.Fatalf("%v / %v is %v, which leaves out %g", a, b, a.div(b), x/y)
		}
		if x >= 0 && !holds(a.sqrt(), of().Sqrt(f)) {
			t.Fatalf("root of %v is %v", a, a.sqrt())
		}
	})
}

// bigCos is the series, after x is halved until it is small: cos 2x = 2 cos² x - 1.
func bigCos(x float64) *big.Float {
	y, halved := exact(x), 0
	for y.MantExp(nil) > -8 && y.Sign() != 0 {
		y.Quo(y, exact(2))
		halved++
	}
	sq := new(big.Float).SetPrec(prec).Mul(y, y)
	sum, term := exact(1), exact(1)
	for k := 1; k < 30; k++ {
		term.Mul(term, sq)
		term.Quo(term, exact(-float64(2*k*(2*k-1))))
		sum.Add(sum, term)
	}
	for range halved {
		sum.Mul(sum, sum)
		sum.Mul(sum, exact(2))
		sum.Sub(sum, exact(1))
	}
	return sum
}

func TestCosineEncloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-40, 40).Draw(t, "from")
		a := iv{x, x + rapid.SampledFrom([]float64{0, 1e-12, 1e-3, 0.5, 2.9, 7}).Draw(t, "width")}
		in := math.Min(a.hi, a.lo+(a.hi-a.lo)*rapid.Float64Range(0, 1).Draw(t, "at"))
		if c := a.cos(); !holds(c, bigCos(in)) {
			t.Fatalf("cos %v is %v, which leaves out that of %v", a, c, in)
		}
	})
}

// The cosine falls from 0 to pi, so an enclosure of an angle has the cosine
// between those of its ends.
func TestArcCosineEncloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SampledFrom([]float64{-1, -0.99875, 0.99875, 1, 0}).Draw(t, "near") +
			rapid.Float64Range(-1e-3, 1e-3).Draw(t, "off")
		if math.Abs(x) > 1 {
			return
		}
		a := at(x).acos()
		if (a.hi < math.Pi && bigCos(a.hi).Cmp(exact(x)) > 0) || (a.lo > 0 && bigCos(a.lo).Cmp(exact(x)) < 0) {
			t.Fatalf("acos %.17g is not in %v", x, a)
		}
		if a.hi-a.lo > 1e-14 {
			t.Fatalf("acos %.17g is only known to %g", x, a.hi-a.lo)
		}
	})
}

func TestAngleOfAVectorEncloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q, r := rapid.Float64Range(-3.1, 3.1).Draw(t, "q"), rapid.Float64Range(0.1, 10).Draw(t, "r")
		w := rapid.SampledFrom([]float64{0, 1e-9, 1e-2}).Draw(t, "half width") * r
		x, y := r*math.Cos(q), r*math.Sin(q)
		a := angle(iv{x - w, x + w}, iv{y - w, y + w})
		for _, d := range [][2]float64{{0, 0}, {w, w}, {w, -w}, {-w, w}, {-w, -w}} {
			// square to the direction of either end: the point lies between
			px, py := x+d[0], y+d[1]
			got := math.Atan2(py, px)
			if turns := math.Round((a.mid() - got) / (2 * math.Pi)); turns != 0 {
				got += 2 * math.Pi * turns
			}
			if got < a.lo-1e-15 || got > a.hi+1e-15 {
				t.Fatalf("angle of %g, %g is not in %v", px, py, a)
			}
		}
	})
}

func TestAngleOfWhatMayBeNothingIsAnything(t *testing.T) {
	for _, a := range []iv{angle(iv{-1, 1}, iv{-1, 1}), angle(iv{}, iv{}), angle(anything(), at(1)), at(1).div(iv{-1, 1})} {
		if !math.IsInf(a.lo, -1) || !math.IsInf(a.hi, 1) {
			t.Errorf("%v, not anything", a)
		}
	}
	if m := (iv{math.NaN(), 1}).most(); !math.IsInf(m, 1) {
		t.Errorf("the size of what is no number is %g", m)
	}
	if c := at(1e300).cos(); c != (iv{-1, 1}) {
		t.Errorf("the cosine of 1e300 is %v", c)
	}
}

// The least of a function with a bounded second derivative: a parabola attains it.
func TestChordBoundIsTheLeastOfAParabola(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f0, f1 := rapid.Float64Range(-2, 2).Draw(t, "f0"), rapid.Float64Range(-2, 2).Draw(t, "f1")
		k := rapid.Float64Range(1e-3, 10).Draw(t, "K")
		low := math.Inf(1)
		for n := range 1001 {
			s := float64(n) / 1000
			low = math.Min(low, f0+(f1-f0)*s-k/2*s*(1-s))
		}
		if got := least(f0, f1, k); got > low+1e-12 || got < low-k*1e-6 {
			t.Fatalf("%g, the parabola's least is %g", got, low)
		}
	})
}

func TestQuotientBeyondTheLargestNumberIsEnclosed(t *testing.T) {
	if q := at(1).div(at(5.5e-309)); !(q.hi == math.Inf(1)) || math.IsNaN(q.lo) {
		t.Errorf("%v", q)
	}
	if q := at(-1).div(at(5.5e-309)); !(q.lo == math.Inf(-1)) || math.IsNaN(q.hi) {
		t.Errorf("%v", q)
	}
}
