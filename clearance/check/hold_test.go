package check

import (
	"strings"
	"testing"

	"boxwalk/clearance/result"
)

// stepsOf are the steps of one cell at one pour.
func stepsOf(r *result.Result, cell, pour int) []result.StepRow {
	var out []result.StepRow
	for _, s := range r.Steps {
		if s.Cell == cell && s.Pour == pour {
			out = append(out, s)
		}
	}
	return out
}

func TestNoStepBeginsBeforeAWrittenRelease(t *testing.T) {
	r := checkFile(t, "quarry-lane")
	for _, p := range [][2]int{{1, 1}, {2, 1}, {1, 4}} {
		steps := stepsOf(r, p[0], p[1])
		if len(steps) == 0 || len(steps[0].Hold) == 0 || steps[0].Hold[0] != releaseHold {
			t.Errorf("cell %d, pour %d: the first step does not wait for a release", p[0], p[1])
		}
	}
}

// The demo draws its ties in the first step; an outer cell has one inner wall, to
// the other.
func TestTiesWaitForOutsidePanelsAndForTheCarrierBeyondAnInnerWall(t *testing.T) {
	r := checkFile(t, "quarry-lane")
	for cell, other := range map[int]string{1: "cell 2", 2: "cell 1"} {
		hold := strings.Join(stepsOf(r, cell, 2)[0].Hold, "\n")
		if !strings.Contains(hold, outsideHold) {
			t.Errorf("cell %d: ties come out while nothing holds the outside panels", cell)
		}
		if !strings.Contains(hold, "wall to "+other+" hold a carrier on each side") {
			t.Errorf("cell %d: nothing of the carrier in %s in %q", cell, other, hold)
		}
	}
	if hold := strings.Join(stepsOf(checkFile(t, "one-pour"), 1, 1)[0].Hold, "\n"); strings.Contains(hold, "each side") {
		t.Errorf("a cell by itself waits for another: %q", hold)
	}
}
