package units

import (
	"math"
	"testing"
)

// A gap of 24.96 mm is no 25.0, one of 25 is; what must stay below a limit is rounded
// the other way; an overlap reads deeper, never less deep.
func TestWhatIsPrintedIsOnTheUnsafeSideByNoMoreThanRounding(t *testing.T) {
	for _, c := range []struct{ x, down, up float64 }{
		{24.96, 24.9, 25.0}, {25, 25, 25}, {0.1 + 0.2, 0.3, 0.3}, {-0.04, -0.1, 0}, {-6.41, -6.5, -6.4}, {0, 0, 0}, {24.999999999, 25, 25},
	} {
		if d, u := Down(c.x, 1), Up(c.x, 1); math.Abs(d-c.down) > 1e-12 || math.Abs(u-c.up) > 1e-12 {
			t.Errorf("%v is printed %v and %v, want %v and %v", c.x, d, u, c.down, c.up)
		}
	}
}
