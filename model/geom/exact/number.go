// Package exact is arithmetic of 240 bits on numbers and points: what the tests of
// other packages hold float64 and its bounds on rounding against. It is slow, and
// nothing but tests imports it.
package exact

import "math/big"

// digits is the precision in bits: so much beyond float64's 53 that what is lost
// here does not count.
const digits = 240

// Number is a real number to 240 bits; the zero value is none, start from Of.
type Number struct{ f *big.Float }

func fresh() *big.Float { return new(big.Float).SetPrec(digits) }

// Of is x itself.
func Of(x float64) Number { return Number{fresh().SetFloat64(x)} }

// Add is a + b.
func (a Number) Add(b Number) Number { return Number{fresh().Add(a.f, b.f)} }

// Sub is a - b.
func (a Number) Sub(b Number) Number { return Number{fresh().Sub(a.f, b.f)} }

// Mul is a b.
func (a Number) Mul(b Number) Number { return Number{fresh().Mul(a.f, b.f)} }

// Quo is a / b.
func (a Number) Quo(b Number) Number { return Number{fresh().Quo(a.f, b.f)} }

// Sqrt of a number that is not negative.
func (a Number) Sqrt() Number { return Number{fresh().Sqrt(a.f)} }

// Less tells whether a < b.
func (a Number) Less(b Number) bool { return a.f.Cmp(b.f) < 0 }

// Float is the nearest float64.
func (a Number) Float() float64 {
	x, _ := a.f.Float64()
	return x
}

// Turn is sine and cosine of an angle of a few radians, by their series.
func Turn(angle Number) (sine, cosine Number) {
	sum := [2]Number{Of(1), Of(0)} // cosine, sine
	term := Of(1)
	for n := 1; n < 120; n++ {
		term = term.Mul(angle).Quo(Of(float64(n)))
		signed := term
		if n%4 >= 2 {
			signed = Of(0).Sub(term)
		}
		sum[n%2] = sum[n%2].Add(signed)
	}
	return sum[1], sum[0]
}
