package sweep

import (
	"testing"

	"pgregory.net/rapid"
)

// What is told to stay a floor away stays so wherever it is sampled, and what a search
// proves with a millimetre to spare is found again.
func TestWhatClearsAFloorIsNeverSampledBelowIt(t *testing.T) {
	cleared := 0
	rapid.Check(t, func(t *rapid.T) {
		r := newDice(rapid.Int64().Draw(t, "scene"))
		m := r.tree()
		part := Part{r.Intn(4), r.solid()}
		against := []Part{{rapid.IntRange(Ground, 3).Draw(t, "other body"), r.solid()}, {r.Intn(4), r.solid()}}
		s0 := rapid.Float64Range(0, 1).Draw(t, "s0")
		s1 := rapid.Float64Range(s0, 1).Draw(t, "s1")
		b := Least(m, Ground, part, against, s0, s1, Options{})
		floor := b.Lower + rapid.Float64Range(-0.3, 0.1).Draw(t, "beyond")
		clear := Clears(m, Ground, part, against, s0, s1, floor)
		if !clear {
			return
		}
		cleared++
		if b.Upper < floor {
			t.Fatalf("clears %.15g, and a search evaluated %.15g at s = %g", floor, b.Upper, b.At)
		}
		for i := range 33 {
			s := s0 + (s1-s0)*float64(i)/32
			if got := At(m, Ground, part, against, s); got.Upper < floor {
				t.Fatalf("clears %.15g, at s = %g it is %.15g", floor, s, got.Upper)
			}
		}
	})
	if cleared < 10 {
		t.Errorf("only %d were cleared", cleared)
	}
}

func TestNothingToMeetClearsAnyFloor(t *testing.T) {
	if !Clears(slide(alongX), Ground, Part{0, block(0, 1, 0, 1, 0, 1)}, nil, 0, 1, 5) {
		t.Error("nothing is in the way")
	}
}
