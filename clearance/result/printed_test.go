package result

import (
	"math"
	"strconv"
	"testing"

	"boxwalk/model/units"

	"pgregory.net/rapid"
)

func judged(unit string, v, limit, off float64, s Sense) Entry {
	e := Entry{Unit: unit, Value: Exactly(v), Limit: &limit, Allowance: off, Sense: s}
	verdict, margin := Judge(*e.Value, limit, off, s)
	e.Verdict, e.Margin = verdict, &margin
	return e
}

// By hand, to the usual decimals: 20.0099 kN rounded up and 20.008 kN to the nearest are
// both 20.01; 0.376 in is 0.38 to the nearest, and 0.377 in rounded down 0.37.
func TestANumberThatFailsIsNeverPrintedAsItsLimitAndOneThatHoldsNeverAsBeyond(t *testing.T) {
	inch := 0.0254
	for _, c := range []struct {
		name         string
		e            Entry
		system       units.System
		value, limit string
		finer        bool
	}{
		{"fails by hundredths", judged("m", 0.02501, 0.02504, 0, Min), units.Metric, "25.01", "25.04", true},
		{"fails by much", judged("m", 0.0201, 0.025, 0, Min), units.Metric, "20.1", "25.0", false},
		{"pull just too much", judged("kN", 20.004, 20.0039, 0, Max), units.Metric, "20.01", "20.00", false},
		{"pull alike when rounded", judged("kN", 20.0099, 20.008, 0, Max), units.Metric, "20.010", "20.008", true},
		{"passes beside a limit between decimals", judged("m", 0.377*inch, 0.376*inch, 0, Min), units.Imperial, "0.377", "0.376", true},
		{"fails beside a limit between decimals", judged("m", 0.3751*inch, 0.376*inch, 0, Min), units.Imperial, "0.37", "0.38", false},
		{"holds with nothing left", judged("m", 0.025, 0.025, 0, Min), units.Metric, "25.0", "25.0", false},
		{"fails by rounding", judged("m", math.Nextafter(0.025, 0), 0.025, 0, Min), units.Metric, "24.9999999", "25.0000000", true},
		{"keeps a limit below the last decimal by nothing", judged("kg", 0.5390625, 0.5, 0.0390625, Min), units.Metric, "0.539062", "0.500000", true},
		{"ratio", judged("1", 1.4999, 1.5, 0, Min), units.Metric, "1.49", "1.50", false},
		{"ratio beside a limit between decimals", judged("1", 1.4918, 1.4923, 0, Min), units.Metric, "1.491", "1.492", true},
	} {
		p := c.e.Printed(c.system)
		if p.Value != c.value || p.Limit != c.limit || p.Finer != c.finer {
			t.Errorf("%s: %s against %s (finer %v), want %s against %s", c.name, p.Value, p.Limit, p.Finer, c.value, c.limit)
		}
	}
}

// Whatever value, limit and allowance, in whatever unit: what is printed says what the
// verdict says, and each number is off by less than its last decimal.
func TestPrintedNumbersSayWhatTheVerdictSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]string{"m", "kN", "kPa", "rad", "1", "kg"}).Draw(t, "unit")
		system := rapid.SampledFrom([]units.System{units.Metric, units.Imperial}).Draw(t, "system")
		sense := rapid.SampledFrom([]Sense{Min, Max}).Draw(t, "sense")
		limit := rapid.Float64Range(-2, 200).Draw(t, "limit")
		off := rapid.SampledFrom([]float64{0, rapid.Float64Range(0, 0.1).Draw(t, "off")}).Draw(t, "off or none")
		near := math.Pow(10, rapid.Float64Range(-17, 0).Draw(t, "how near")) * rapid.SampledFrom([]float64{-1, 0, 1}).Draw(t, "side")
		v := limit + off + near
		if sense == Max {
			v = limit - off - near
		}
		e := judged(unit, v, limit, off, sense)
		p := e.Printed(system)
		value, l, o := number(t, p.Value), number(t, p.Limit), 0.0
		if p.Off != "" {
			o = number(t, p.Off)
		}
		left := value - o - l
		if sense == Max {
			left = l - o - value
		}
		margin := number(t, p.Margin)
		if holds, reads := e.Verdict == Pass, left > -1e-9*math.Max(1, math.Abs(l)); holds != (margin >= 0) || holds && !reads {
			t.Fatalf("%v: %s - %s against %s, margin %s", e.Verdict, p.Value, p.Off, p.Limit, p.Margin)
		}
		if e.Verdict != Pass && (left >= 0 || off == 0 && p.Value == p.Limit) {
			t.Fatalf("%v: %s - %s against %s", e.Verdict, p.Value, p.Off, p.Limit)
		}
		last := math.Pow10(-p.Measure.Decimals)
		if times := p.Measure.Times; math.Abs(value-v*times) > 2.001*last || math.Abs(l-limit*times) > 0.501*last || math.Abs(o-off*times) > 3.001*last {
			t.Fatalf("%v, %v, %v are printed %s, %s, %s", v*times, off*times, limit*times, p.Value, p.Off, p.Limit)
		}
	})
}

func number(t *rapid.T, text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
