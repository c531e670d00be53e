package load

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"boxwalk/model/units"
)

// eightPads lift a carrier of 60 kN with its wheels at 0 and 6 m and its screw
// jacks between them.
var eightPads = Lifting{Weight: 60, Gauge: 2, Pads: []units.Length{0.5, 2, 4, 5.5}, Stands: []units.Length{0, 1, 5, 6}, Along: 3}

func TestOnePadCanTakeHalfOfACentralLoad(t *testing.T) {
	p := must(eightPads.Loads())
	near(t, "worst", float64(p.Worst), 30) // it and the diagonal place alone
	near(t, "even", float64(p.Even), 7.5)  // 60 / 8
}

func TestLoadOffCentreGoesToThePadOfItsSide(t *testing.T) {
	l := eightPads
	l.Left = 0.1
	p := must(l.Loads())
	// moments about the right sill: 60 x (1 + 0.1) / 2
	near(t, "worst", float64(p.Worst), 33)
	if !p.Left {
		t.Error("the load stands left of the middle and the worst pad right")
	}
	// W/2n (1 + 2 ex/b) = 7.5 x 1.1
	near(t, "even", float64(p.Even), 8.25)
}

func TestPadThatThreePlacesHaveByHand(t *testing.T) {
	// stands only at the rear line: a pad x ahead of it takes W a/x by moments
	// about that line, at most all of its side; here 60 x 2 / 5 = 24 of 30
	l := Lifting{Weight: 60, Gauge: 2, Pads: []units.Length{5, 6}, Stands: []units.Length{0, 0}, Along: 2}
	p := must(l.Loads())
	near(t, "worst", float64(p.Worst), 24)
	near(t, "at", float64(p.At), 5)
}

func TestPadsAmongThemselvesRockAsWheelsDo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWheels(t)
		l := Lifting{Weight: w.Weight, Gauge: w.Gauge, Pads: w.Lines, Stands: w.Lines, Along: w.Along, Left: w.Left}
		got, want := must(l.Loads()), must(w.Rocking()).Load
		if math.Abs(float64(got.Worst-want)) > 1e-9*float64(w.Weight) {
			t.Fatalf("%v on a pad, %v rocking on wheels", got.Worst, want)
		}
	})
}

func TestNoPadTakesMoreThanItsSideOrLessThanItsShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWheels(t)
		l := Lifting{Weight: w.Weight, Gauge: w.Gauge, Pads: []units.Length{w.Along - 0.4, w.Along + 0.5}, Stands: w.Lines, Along: w.Along, Left: w.Left}
		p := must(l.Loads())
		side := float64(w.Weight) * (0.5 + math.Abs(float64(w.Left))/float64(w.Gauge))
		if float64(p.Worst) > side*(1+1e-9) || float64(p.Worst) < float64(p.Even)*(1-1e-9) {
			t.Fatalf("worst %v, side %v, even %v", p.Worst, side, p.Even)
		}
	})
}

func TestLoadBeyondAllPlacesIsRefused(t *testing.T) {
	l := eightPads
	l.Along = 7
	if _, err := l.Loads(); !errors.Is(err, ErrRange) {
		t.Errorf("error %v", err)
	}
	l = eightPads
	l.Pads = l.Pads[:1]
	if _, err := l.Loads(); !errors.Is(err, ErrRange) {
		t.Errorf("error %v", err)
	}
}

func TestStrokeAndTiltByHand(t *testing.T) {
	near(t, "stroke", float64(must(Stroke(0.120, 0.010))), 0.130)
	near(t, "tilt", float64(must(Tilt(0.010, 2.4))), 1/240.0)
	if _, err := Tilt(0.010, 0); !errors.Is(err, ErrRange) {
		t.Errorf("no distance: %v", err)
	}
}
