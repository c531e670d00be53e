package check

import (
	"math"
	"testing"

	"boxwalk/clearance/worked"
)

// A crossfall to the left is negative; it adds to the track's level all the same.
func TestCrossfallTipsAsMuchToTheLeftAsToTheRight(t *testing.T) {
	tip := func(fall string) float64 {
		for _, c := range checked(t, worked.OnRoute("  crossfall: "+fall)).Checks {
			if c.ID == "roll.tip" && c.Subject.String() == "cell 1, pour 1, across" {
				return c.Value.Lower
			}
		}
		t.Fatal("no roll.tip across")
		return 0
	}
	if right, left := tip("0.8 %"), tip("-0.8 %"); math.Abs(right-left) > 1e-9*right {
		t.Errorf("restoring over overturning %.2f falling right, %.2f falling left", right, left)
	}
}

// Pitches add up in the frame that is tilted with the first pour only where the
// line does not turn.
func TestGradeOfAPourDoesNotChangeWithTheTurn(t *testing.T) {
	s := worked.OnRoute("  grade: 5 %\n  plan: [{tangent: 2.3 m}, {turn: 30 deg left}, {tangent: 2.3 m}, {turn: 30 deg left}, {tangent: 2.3 m}]").Study(t)
	for _, p := range s.Culvert.Pours {
		if g := s.Culvert.GradeOf(p); math.Abs(g-0.05) > 1e-9 {
			t.Errorf("pour %d: %.3f %%, the line has 5 %%", p.Number, 100*g)
		}
	}
}

// An angle point or a grade break may lie between the places that are looked at
// first.
func TestMidOrdinateOfABreakInsideAPourIsTheTriangleHeight(t *testing.T) {
	s := worked.OnRoute("  start: {elevation: 10 m}\n  profile: [{station: 0, elevation: 10 m}, {station: 5.9 m, elevation: 10 m}, {station: 6.9 m, elevation: 9.96 m}]").Study(t)
	// 1.3 and 1 m from the ends, 4 %, square to the chord
	want := 1.3 * 1 / 2.3 * 0.04 * math.Cos(math.Atan(0.04/2.3))
	if got := s.Culvert.Pours[2].MidOrdinate; math.Abs(got-want) > 1e-6 {
		t.Errorf("%.3f mm, by hand %.3f mm", 1e3*got, 1e3*want)
	}
}

// Headings are the directions of chords from -180 to 180 deg; where a line turns
// through that, its joint does not turn by a whole turn.
func TestTurnOfAJointIsLessThanHalfATurn(t *testing.T) {
	s := worked.OnRoute("  plan: [{curve: {radius: 12 m, length: 46 m, turn: left}}]", [2]string{"[2.3 m, 2.3 m, 2.3 m]", "{each: 2.3 m, total: 46 m}"}).Study(t)
	for _, p := range s.Culvert.Pours[1:] {
		if want := 2.3 / 12; math.Abs(p.Turn-want) > 1e-9 {
			t.Errorf("joint before pour %d turns by %.2f deg, the curve by %.2f", p.Number, p.Turn*180/math.Pi, want*180/math.Pi)
		}
	}
}
