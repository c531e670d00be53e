package check

import (
	"slices"
	"testing"

	"boxwalk/clearance/result"
)

func TestEveryCheckBelongsToOneDutyOfARelease(t *testing.T) {
	count := map[string]int{}
	for _, d := range duties {
		for _, id := range d.Checks {
			count[id]++
		}
	}
	for _, id := range IDs() {
		if count[id] != 1 {
			t.Errorf("%s stands in %d duties of a release; it belongs to one", id, count[id])
		}
		delete(count, id)
	}
	for id := range count {
		t.Errorf("a duty names %s, which is no check", id)
	}
}

func TestWhatAResultDoesNotAnswerForIsNamed(t *testing.T) {
	r := Run(jobFile(t, "one-pour"), Options{})
	names := r.NotCheckedNames()
	for _, want := range []string{"strength of walls and roof at release", "ties and braces under the pour", "hangers or shores that keep the roof"} {
		if !slices.Contains(names, want) {
			t.Errorf("%q is not named among %q", want, names)
		}
	}
	if slices.Contains(names, "tipping on the wheels") {
		t.Error("what was checked is named as not checked")
	}
}

func TestWhatWasNotAskedForIsNotChecked(t *testing.T) {
	r := Run(jobFile(t, "one-pour"), Options{Only: []string{"roll", "setup.range"}})
	if r.Verdict != result.Open || r.Cleared() || !r.PartHolds() {
		t.Errorf("a part of the checks, all of which hold, makes the job %v", r.Verdict)
	}
	names := r.NotCheckedNames()
	for _, want := range []string{"reach and setting of the carrier", "raising"} {
		if !slices.Contains(names, want) {
			t.Errorf("%q is not named among %q", want, names)
		}
	}
	if slices.Contains(names, "pull and restraint") {
		t.Error("what was asked for whole is named as not checked")
	}
}
