package check

import (
	"math"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

// rolled is the least rolling clearance to a zone at pour 1.
func rolled(t *testing.T, r *result.Result, zone string) result.Bracket {
	t.Helper()
	for _, c := range r.Checks {
		if c.ID == "roll.clear" && c.Subject.String() == "cell 1, pour 1, "+zone && c.Value != nil {
			return *c.Value
		}
	}
	t.Fatalf("no roll.clear for %s", zone)
	return result.Bracket{}
}

func TestCarrierOnItsCentrelinePassesABendInsideByTheWorkedLoss(t *testing.T) {
	// Wheels on the centreline, wheelbase B = 6.60. When the angle point is under
	// the middle of the base, the body is turned by half the angle and its
	// centreline passes the point inside by (B/2) sin(phi/2): 28.8 mm at 1
	// degree, 86.4 at 3. The corner of the mitred wall stands at
	// 1.5 / cos(phi/2) from the point, the wall panel's top 1.379394 from the
	// centreline.
	for angle, degrees := range map[string]float64{"1 deg": 1, "3 deg": 3} {
		half := degrees * math.Pi / 360
		want := 1.5/math.Cos(half) - 1.379394 - 3.3*math.Sin(half)
		v := rolled(t, checked(t, chain{Gear: "roof-halves-24", Whole: true, Job: worked.Bent(angle)}), "wall")
		if math.Abs(v.Lower-want) > 0.15e-3 || math.Abs(v.Upper-want) > 0.15e-3 {
			t.Errorf("%s: wall %.2f..%.2f mm, want %.2f", angle, v.Lower*1e3, v.Upper*1e3, want*1e3)
		}
	}
}

func TestFormLongerThanItsPourRunsIntoTheKickerBeyondABend(t *testing.T) {
	// 300 mm of form beyond a joint at 1 degree: 300 sin 1 deg = 5.2 mm, less
	// what the half mitre takes: the kicker turns away at the joint itself
	r := checked(t, chain{Gear: "roof-halves-24", Whole: true, Job: worked.Bent("1 deg")})
	for _, c := range r.Checks {
		if c.ID == "strip.dig" && c.Where.Step == "fillers and ties out" && c.Where.Pour == 1 {
			if c.Verdict != result.Fail || math.Abs(c.Value.Lower+5.2e-3) > 0.3e-3 {
				t.Errorf("%v %v: %s", c.Verdict, c.Value, c.Text)
			}
			return
		}
	}
	t.Error("no strip.dig as set")
}

func TestVeryFlatBendEqualsAStraight(t *testing.T) {
	straight := checked(t, chain{Gear: "roof-halves-24", Whole: true, Job: worked.Bent("0.0000001 deg")})
	v := rolled(t, straight, "wall")
	if math.Abs(v.Lower-0.120606) > 1e-4 {
		t.Errorf("wall %v", v)
	}
}
