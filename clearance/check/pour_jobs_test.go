package check

import (
	"math"
	"testing"

	"boxwalk/clearance/result"
)

// Four small jobs of the pour. All have the worked cell of 3.0 m by 2.4 m, walls of
// 250 mm, a roof of 300 mm and a kicker of 300 mm: fresh concrete of 25 kN/m3 stands
// from 0.3 to 2.7 m above the invert, 2.4 m.

// between is the resultant of the full head on a metre of wall from one height to
// another, kN.
func between(low, high float64) float64 {
	return 25 * (2.7*(high-low) - (high*high-low*low)/2)
}

func TestTansyBrookPumpsAgainstPanelsThatAreNotStatedForIt(t *testing.T) {
	r := checkFile(t, "tansy-brook")
	e := governs(t, r, "pour.pressure", "wall panel", result.Fail, 1.25*25*2.4, 1e-9)
	says(t, e, "a quarter more", "is stated for 70.00 kPa")
	failsBy(t, r, "pour.pressure")
}

// A tie of the lowest row holds what is nearer to it than to another: 2.4 m along, and
// from the kicker up to halfway between 0.50 and 1.20 m: 70.1 kN of its own. The beam
// brings it half of the 4.8 m as well, of a row that takes a sixth more: the panel leans on it from below its rows.
func TestTeaselLaneHasTiesTooFarApart(t *testing.T) {
	r := checkFile(t, "teasel-lane")
	own := 2.4 * between(0.3, 0.85)
	if math.Abs(own-70.125) > 1e-3 {
		t.Fatalf("by hand %v", own)
	}
	for _, e := range r.Checks {
		if e.ID == "pour.ties" && e.Verdict == result.Fail {
			if e.Value.Upper < own || e.Value.Upper > 1.2*own {
				t.Errorf("%s: %v, by its own area %.2f kN", e.Subject, e.Value, own)
			}
			says(t, e, "own area is 70.1", "a tie takes 65.00 kN")
		}
	}
	failsBy(t, r, "pour.ties")
}

// With one brace the wall stands on hinge and brace where ties are not counted: the
// moment of the pressure about the hinge, 2.25 m up and 0.16 m behind the face, is 83.2
// kNm on a metre; the brace from (0.21 m, 0.50 m) to 0.56 m from the centreline and
// 0.14 m above the sill passes the hinge at its lever. Of
// a wall over four bents l = 1.2 m apart that stands out by l/2 the outer one has, by the
// three-moment equation, M1 = -q l2/8, M1 + 4 M2 + M2 = -q l2/2, M2 = -3 q l2/40, and so
// q (l/2 + l/2) + (M2 - M1)/l = 1.05 q l.
func TestSorrelLaneHasOneBraceWhereTwoShouldBe(t *testing.T) {
	r := checkFile(t, "sorrel-lane")
	const hinge = 2.25
	moment := 0.0
	const n = 200000
	for i := range n { // by strips, as a hand would
		z := 0.3 + (hinge-0.3)*(float64(i)+0.5)/n
		moment += 25 * (2.7 - z) * (hinge - z) * (hinge - 0.3) / n
	}
	s := jobFile(t, "sorrel-lane")
	jack := s.Bays[0].Carrier.Jack
	pinY, pinZ, farY, farZ := 1.5-0.21, 0.5, 0.56, jack+0.14
	y, z := pinY-(1.5-0.16), pinZ-hinge
	long := math.Hypot(farY-pinY, farZ-pinZ)
	lever := math.Abs(y*(farZ-pinZ)-z*(farY-pinY)) / long
	want := moment / lever * 1.05 * 1.2
	e := governs(t, r, "pour.braces", "low brace, left", result.Fail, want, 1e-3)
	says(t, e, "it takes 50.00 kN")
	failsBy(t, r, "pour.braces")
}

// The thrust on the bulkhead of the second pour, beyond which nothing stands: two walls,
// the roof over all 3.5 m and two haunches of 200 x 200 mm whose pressure acts at their
// centroid.
func TestFallowBrooksAnchorHoldsLessThanItsBulkheadPushes(t *testing.T) {
	r := checkFile(t, "fallow-brook")
	thrust := 2*0.25*between(0.3, 2.4) + 3.5*between(2.4, 2.7) + 2*(0.2*0.2/2)*25*(2.7-(2.4-0.2/3))
	e := governs(t, r, "pour.slide", "cell 1, pour 2, sliding", result.Fail, thrust, 0.05)
	says(t, e, "one bulkhead, at the front", "holds 35.00 kN")
	failsBy(t, r, "pour.slide")
}
