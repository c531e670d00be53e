package check

import (
	"math"
	"slices"
	"strings"
	"testing"

	"boxwalk/clearance/result"
)

// joints is a line of two pours whose joint is open by a gap, as its invert is.
func joints(t *testing.T, gap, cover string) *result.Result {
	t.Helper()
	return checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{{"  pours: [2.3 m]\n", "  pours: [2.3 m, 2.3 m]\n  joint_gap: " + gap + "\n" + cover}}})
}

// A wheel of 200 sinks 2 into a joint of 2 sqrt(2 (200 - 2)) = 39.8.
func TestAJointThatIsOpenWiderThanAWheelBridgesFails(t *testing.T) {
	most := 2 * math.Sqrt(0.002*(0.200-0.002))
	for gap, want := range map[string]result.Verdict{"30 mm": result.Pass, "39.7 mm": result.Pass, "39.9 mm": result.Fail, "400 mm": result.Fail} {
		e, ok := checkOf(joints(t, gap, ""), "roll.support", 1, 1, openJoints)
		if !ok || e.Verdict != want || math.Abs(*e.Limit-most) > 1e-9 {
			t.Errorf("%s: %v %v", gap, e.Verdict, e.Limit)
		}
		if want == result.Fail && !strings.Contains(e.Remedy, "culvert.joint_cover") {
			t.Errorf("%s: %s", gap, e.Remedy)
		}
	}
}

func TestJointsThatAreCountedAsClosedAreNamedWhereverTheVerdictIs(t *testing.T) {
	r := joints(t, "100 mm", "  joint_cover: true\n")
	if e, ok := checkOf(r, "roll.support", 1, 1, openJoints); !ok || e.Verdict != result.Pass {
		t.Errorf("%v: %s", e.Verdict, e.Text)
	}
	if said := strings.Join(r.Reservations(), " "); !strings.Contains(said, "joints of 100 mm are counted as closed flush") {
		t.Error(said)
	}
	if first := r.Steps[0].Hold; !slices.Contains(first, jointsHold) {
		t.Errorf("nobody is asked whether the joints are closed: %q", first)
	}
	for _, row := range joints(t, "30 mm", "").Steps {
		if slices.Contains(row.Hold, jointsHold) {
			t.Errorf("%s asks after joints that nobody has to close", row.Name)
		}
	}
}

// With all pads under one end the other is not lifted, whatever each carries.
func TestPadsThatAreAllUnderOneEndLeaveLiftingOpen(t *testing.T) {
	for _, pads := range []string{"[0.05 m, 0.5 m]", "[1.9 m, 2.3 m]"} {
		c := chain{Gear: "roof-halves-24", Swap: [][2]string{{"pads: [0.45 m, 1.95 m]", "pads: " + pads}}}
		e, ok := checkOf(checked(t, c), "raise.lift", 1, 1, liftLoad)
		if !ok || e.Verdict != result.Open || !strings.Contains(e.Text, "does not lie between the outer pads") || !strings.Contains(e.Remedy, "centre of gravity") {
			t.Errorf("%s: %v: %s (%s)", pads, e.Verdict, e.Text, e.Remedy)
		}
	}
}

func TestARoofThatNoHangersKeepHasAHoldOfItsOwn(t *testing.T) {
	r := checked(t, chain{Gear: "roof-halves-24", Jobs: noHangers})
	for _, row := range r.Steps {
		for _, h := range row.Hold {
			if h == noHangersHold {
				return
			}
		}
	}
	t.Error("no hold asks what keeps the roof")
}
