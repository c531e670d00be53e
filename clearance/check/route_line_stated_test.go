package check

import (
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

// What nobody stated is not taken for granted: a line without a capacity pulls
// nothing, however light the carrier.
func TestALineThatNobodyStatedLeavesThePullOpen(t *testing.T) {
	r := checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{{"travel: {capacity: 20 kN, ", "travel: {"}}})
	pull, ok := find(r, "roll.pull", "winch", "")
	if !ok || pull.Verdict != result.Open || !strings.Contains(pull.Text, "travel.capacity") {
		t.Errorf("roll.pull is %v: %q", pull.Verdict, pull.Text)
	}
	r = checked(t, chain{Gear: "roof-halves-24", Whole: true, Job: worked.Bent("1 deg"), Jobs: [][2]string{{"travel: {capacity: 20 kN, ", "travel: {"}}})
	round, ok := find(r, "roll.bend", "pull round the bend", "")
	if !ok || round.Verdict != result.Open || !strings.Contains(round.Text, "travel.capacity") {
		t.Errorf("roll.bend is %v: %q", round.Verdict, round.Text)
	}
}
