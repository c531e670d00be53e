package load

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"boxwalk/model/units"
)

func stripDays(t *testing.T, s Soffit) float64 {
	t.Helper()
	return days(must(SoffitStrip(s)).Time)
}

// ACI 347-04 §3.7.2.3, values read on a trade magazine's page.
func TestRoofTimesByClearSpan(t *testing.T) {
	rows := []struct {
		feet                          float64
		below, undisturbed, aboveDead float64
	}{{8, 4, 3, 3}, {12, 7, 3.5, 4}, {24, 10, 5, 7}, {9.99, 4, 3, 3}, {10, 7, 3.5, 4}, {20, 7, 3.5, 4}, {20.01, 10, 5, 7}}
	for _, r := range rows {
		near(t, "below", stripDays(t, Soffit{ClearSpan: feet(r.feet)}), r.below)
		near(t, "undisturbed", stripDays(t, Soffit{ClearSpan: feet(r.feet), Undisturbed: true}), r.undisturbed)
		near(t, "above", stripDays(t, Soffit{ClearSpan: feet(r.feet), Live: LiveAboveDead}), r.aboveDead)
		near(t, "above, undisturbed", stripDays(t, Soffit{ClearSpan: feet(r.feet), Live: LiveAboveDead, Undisturbed: true}), r.aboveDead)
	}
}

// Published: Concrete Construction, "safe time to strip a slab": 9.5 in roof, 18
// ft span, live less than dead, not less than 7 days at 50 °F and above (read).
func TestPublishedRoofOfEighteenFeet(t *testing.T) {
	near(t, "days", stripDays(t, Soffit{ClearSpan: feet(18)}), 7)
	s := must(SoffitStrip(Soffit{ClearSpan: feet(18)}))
	near(t, "at 50 °F, days", days(must(ReleaseAfter(s, Steady(units.Temperature(si(units.KindTemperature, 50, "degF")), daysOf(8))))), 7)
}

func TestSoffitGovernsWhereOneFormCarriesBoth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Soffit{units.Length(rapid.Float64Range(0.1, 15).Draw(t, "span")), DesignLive(rapid.IntRange(0, 1).Draw(t, "live")), rapid.Bool().Draw(t, "undisturbed")}
		both := must(CarrierStrip(s))
		if both.Time != must(SoffitStrip(s)).Time || both.Time < WallStrip().Time {
			t.Fatalf("%g h for both", float64(both.Time)/hour)
		}
		if longer := (Soffit{ClearSpan: s.ClearSpan}); must(SoffitStrip(longer)).Time < both.Time {
			t.Fatal("the default column is not the longer")
		}
	})
	near(t, "walls alone, h", float64(WallStrip().Time)/hour, 12)
}

// ACI 347: hours below 50 °F are not counted.
func TestColdHoursDoNotCount(t *testing.T) {
	air := History{{hours(24), 12}, {hours(24), 9.9}, {hours(48), 10}, {hours(48), 15}}
	near(t, "counted, h", float64(must(CountedTime(air)))/hour, 120)
	s := must(SoffitStrip(Soffit{ClearSpan: feet(8)}))
	near(t, "release, h", float64(must(ReleaseAfter(s, air)))/hour, 24+24+48+24)
	if at, err := ReleaseAfter(s, Steady(9, daysOf(30))); !errors.Is(err, ErrRange) || at != 0 {
		t.Errorf("a month at 9 °C: %g, %v", at, err)
	}
}

func TestNoSpanNoTime(t *testing.T) {
	for _, s := range []Soffit{{}, {ClearSpan: -3}, {ClearSpan: 16}, {ClearSpan: units.Length(math.NaN())}, {ClearSpan: 3, Live: 7}} {
		if got, err := CarrierStrip(s); !errors.Is(err, ErrRange) || got != (StripTime{}) {
			t.Errorf("%+v: %v, %v", s, got, err)
		}
	}
}

func TestEveryPracticeHasAValueAndASource(t *testing.T) {
	for _, p := range Practices() {
		if p.What == "" || p.Source.Text == "" || p.Source.Flag == Unmarked || (p.Ratio == 0 && p.LeastTime == 0) {
			t.Errorf("%+v", p)
		}
	}
}
