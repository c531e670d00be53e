package check

import (
	"slices"
	"testing"

	"boxwalk/clearance/result"
)

func TestEveryCheckBelongsToADutyOfARelease(t *testing.T) {
	for _, c := range Table() {
		if !slices.Contains(duties, c.Duty) {
			t.Errorf("%s answers for %q, which is no duty of a release", c.ID, c.Duty)
		}
	}
}

func TestWhatAResultDoesNotAnswerForIsNamed(t *testing.T) {
	r := Run(jobFile(t, "one-pour"), Options{})
	names := r.NotCheckedNames()
	for _, want := range []string{"punching and bending of the slabs, but under hanger plates", "steel, pins and welds of the carrier", "how far the form springs back into release gaps when the load leaves it"} {
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
