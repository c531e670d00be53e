package load

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"boxwalk/model/units"
)

// Derived (reference); the last but one is the textbook's 20 lb per ton and per
// cent of grade.
func TestPullByHand(t *testing.T) {
	rows := []struct{ w, slope, f, want float64 }{
		{100, .02, .02, 3.999200240}, {100, .02, .01, 2.999400180}, {60, .05, .02, 4.194759823}, {60, -.02, .02, 0},
		{60, -.03, .02, -0.599730182}, {40, 0, .0025, 0.1}, {60, .05, 0, 2.996257017}, {2000, .01, 0, 19.999000075},
	}
	for _, r := range rows {
		near(t, "F", float64(must(Pull(units.Force(r.w), units.Slope(r.slope), r.f))), r.want)
	}
	if f := must(Pull(60, -0.02, 0.02)); f != 0 {
		t.Errorf("balance is %g, want exactly 0", f)
	}
	nearBy(t, "textbook, lb per ton and per cent", float64(must(Pull(2000, .01, 0))), 20, 0.01)
}

// Derived (reference), W = 100 kN, D = 200 mm, axle 50 mm.
func TestLeverArmForm(t *testing.T) {
	rows := []struct{ arm, mu, rim, want float64 }{{.5, .005, .003, 0.925}, {5, .005, .003, 5.425}, {.5, .1, .005, 3.5}}
	for _, r := range rows {
		l := LeverArm{millimetres(r.arm), 0.2, 0.05, r.mu, r.rim}
		near(t, "F", 100*must(l.Coefficient()), r.want)
	}
}

func TestRestraintWhereverTheSlopeIsAboveTheLeastCoefficient(t *testing.T) {
	rows := []struct {
		slope, least units.Slope
		needs, ahead bool
		hold         float64
	}{
		{-0.03, 0.02, true, true, 0.599730182}, {-0.02, 0.02, false, false, 0}, {0.02, 0.01, true, false, 60 * 0.01 / math.Hypot(1, 0.02)},
		{0, 0, false, false, 0}, {-0.001, 0, true, true, 60 * math.Sin(math.Atan(0.001))},
	}
	for _, r := range rows {
		d := must(Rolling{60, r.slope, float64(r.least), 0.03, 2}.Demands())
		if d.NeedsHold != r.needs || d.RunsAhead != r.ahead {
			t.Errorf("slope %g, least %g: needs %v, ahead %v", r.slope, r.least, d.NeedsHold, d.RunsAhead)
		}
		near(t, "hold", float64(d.Hold), r.hold)
		if holds := must(HoldsItself(r.slope, float64(r.least))); holds == r.needs {
			t.Errorf("slope %g: holds itself %v and needs restraint %v", r.slope, holds, r.needs)
		}
	}
}

func TestStartingPullHasTheMostCoefficientAndBreakaway(t *testing.T) {
	d := must(Rolling{60, 0.018, 0, 0.02, 2}.Demands())
	near(t, "starting", float64(d.Starting), 60*(0.018+0.04)/math.Hypot(1, 0.018))
	near(t, "running", float64(d.Running), 60*(0.018+0.02)/math.Hypot(1, 0.018))
	down := must(Rolling{60, -0.1, 0, 0.02, 2}.Demands())
	if down.Starting != 0 || down.Running >= 0 {
		t.Errorf("downhill: starting %g, running %g", down.Starting, down.Running)
	}
}

func TestPullAndHoldAreOnTheSafeSideOfEveryCoefficientBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		least := rapid.Float64Range(0, 0.05).Draw(t, "least")
		most := least + rapid.Float64Range(0, 0.05).Draw(t, "more")
		r := Rolling{units.Force(rapid.Float64Range(1, 500).Draw(t, "W")), units.Slope(rapid.Float64Range(-0.2, 0.2).Draw(t, "slope")), least, most, rapid.Float64Range(1, 3).Draw(t, "breakaway")}
		d := must(r.Demands())
		f := least + (most-least)*rapid.Float64Range(0, 1).Draw(t, "between")
		between := must(Pull(r.Weight, r.Slope, f))
		if between > d.Starting+1e-9 {
			t.Fatalf("pull %g above the starting pull %g", between, d.Starting)
		}
		back := must(Pull(r.Weight, units.Slope(-math.Abs(float64(r.Slope))), f))
		if -back > d.Hold+1e-9 {
			t.Fatalf("runs with %g against a hold of %g", -back, d.Hold)
		}
	})
}

func TestCapacityAgainstNeed(t *testing.T) {
	c := must(Against(4.2, 20))
	near(t, "margin", float64(c.Margin), 15.8)
	near(t, "use", c.Use, 0.21)
	if c := must(Against(0, 0)); c.Use != 0 || c.Margin != 0 {
		t.Errorf("nothing needed: %+v", c)
	}
	for _, pair := range [][2]units.Force{{1, 0}, {-1, 5}, {1, units.Force(math.NaN())}, {units.Force(math.Inf(1)), 1}} {
		if c, err := Against(pair[0], pair[1]); !errors.Is(err, ErrRange) || c != (Capacity{}) {
			t.Errorf("%v: %v, %v", pair, c, err)
		}
	}
}

func TestPublishedCoefficientsAreOrderedAndSourced(t *testing.T) {
	for _, c := range Coefficients() {
		if !(c.Least > 0 && c.Least <= c.Most && c.Most <= 0.05) || c.Source.Text == "" || c.Source.Flag == Unmarked {
			t.Errorf("%+v", c)
		}
	}
	for _, a := range Arms() {
		if !(a.Least > 0 && a.Least <= a.Most && a.Most <= 0.05) || a.Source.Text == "" {
			t.Errorf("%+v", a)
		}
	}
}
