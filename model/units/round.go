package units

import "math"

// roundingSlack covers what binary fractions leave over, so that 25 mm is not printed
// as 24.9: a millionth of the last decimal printed.
const roundingSlack = 1e-6

// Down rounds x to so many decimals, never to more than it is but for a millionth of
// the last one. Every gap that is printed, in a table or a sentence, is rounded by
// this, from the end of its bracket that is proved: so it never reads more than it is,
// and the same number reads the same wherever it stands. What must stay below a limit
// is rounded by Up.
func Down(x float64, decimals int) float64 {
	p := math.Pow10(decimals)
	return math.Floor(x*p+roundingSlack) / p
}

// Up rounds x to so many decimals, never to less than it is: demands, depths of
// digging, slides, and what is taken off.
func Up(x float64, decimals int) float64 { return -Down(-x, decimals) }
