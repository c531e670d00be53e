package views

import (
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
)

func entryOf(unit string, v, off, limit float64, s result.Sense) result.Entry {
	e := result.Entry{Unit: unit, Value: result.Exactly(v), Allowance: off, Limit: &limit, Sense: s}
	verdict, margin := result.Judge(*e.Value, limit, off, s)
	e.Verdict, e.Margin = verdict, &margin
	return e
}

// 25.2 mm keeps 25 mm, which is 0.984 in: in sixteenths that reads 15/16" against 1".
// 24.9 mm does not, and 23.9 mm reads 15/16" against the same 15/16" of 24 mm. In
// millimetres 25.01 fails against 25.04.
func TestASheetNeverLettersANumberAsItsLimitThatIsBeyondItNorTheOtherWayRound(t *testing.T) {
	for _, c := range []struct {
		e            result.Entry
		u            sheet.Units
		value, limit string
	}{
		{entryOf("m", 0.0252, 0, 0.025, result.Min), sheet.Units{Imperial: true}, "0.99 in", "0.98 in"},
		{entryOf("m", 0.0302, 0, 0.025, result.Min), sheet.Units{Imperial: true}, `1 3/16"`, `1"`},
		{entryOf("m", 0.0239, 0, 0.024, result.Min), sheet.Units{Imperial: true}, "0.940 in", "0.945 in"},
		{entryOf("m", 0.0201, 0, 0.024, result.Min), sheet.Units{Imperial: true}, `3/4"`, `15/16"`},
		{entryOf("m", 0.02501, 0, 0.02504, result.Min), sheet.Units{Decimals: 1}, "25.01", "25.04"},
		{entryOf("m", 0.0201, 0, 0.025, result.Min), sheet.Units{Decimals: 1}, "20.1", "25"},
		{entryOf("kN", 20.009, 0, 20.007, result.Max), sheet.Units{Decimals: 1}, "20.009 kN", "20.007 kN"},
		{entryOf("kN", 12.341, 0, 20, result.Max), sheet.Units{Decimals: 1}, "12.35 kN", "20.00 kN"},
	} {
		if f := figuresOf(c.e, c.u); f.value != c.value || f.limit != c.limit {
			t.Errorf("%v %v: %s against %s, want %s against %s", *c.e.Value, *c.e.Limit, f.value, f.limit, c.value, c.limit)
		}
	}
}

func TestAClearanceIsLetteredDownAndADemandUp(t *testing.T) {
	s, r := checked()
	o := &drafter{study: s, result: r}
	for m, want := range map[float64]string{0.02499: "24.9", 0.025: "25", -0.00001: "-0.1"} {
		if got := o.bareDown(m); got != want {
			t.Errorf("%v m as %s, want %s", m, got, want)
		}
	}
	for v, want := range map[float64]string{20.001: "20.01 kN", 20: "20.00 kN", 0: "0.00 kN"} {
		if got := o.forceUp(v); got != want {
			t.Errorf("%v kN as %s, want %s", v, got, want)
		}
	}
}
