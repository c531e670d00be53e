package check

import (
	"os"
	"strings"
	"testing"

	"boxwalk/model/job"
	"boxwalk/model/units"
)

// What the crew is told to keep is what the checks are made with, rounded to
// the safe side: 2.5 mm by default, and 3 mm are 0.118 in, printed as 0.11.
func TestTheCautionsStateTheJackLevelThatIsProved(t *testing.T) {
	three := units.Length(0.003)
	for _, c := range []struct {
		job  job.Job
		want string
	}{
		{job.Job{}, "by more than 2.5 mm."},
		{job.Job{Tolerance: job.Tolerance{JackLevel: &three}}, "by more than 3.0 mm."},
		{job.Job{Job: job.Title{Units: "imperial"}, Tolerance: job.Tolerance{JackLevel: &three}}, "by more than 0.11 in."},
	} {
		all := strings.Join(CautionsOf(&c.job, nil), "\n")
		if !strings.Contains(all, c.want) || strings.Contains(all, "10 mm") {
			t.Errorf("no %q in\n%s", c.want, all)
		}
	}
}

// The pass that pads are lifted in is the gear's, and its last one the last lift's:
// 10 mm are 0.393 in, printed as 0.39, 3 mm 0.11.
func TestTheCautionsStateThePassThatIsProved(t *testing.T) {
	ten, three := units.Length(0.010), units.Length(0.003)
	for _, c := range []struct {
		job  job.Job
		last *units.Length
		want string
	}{
		{job.Job{}, &three, "no pad ahead of any other by more than 10.0 mm, in the last lift 3.0 mm; nobody reaches"},
		{job.Job{}, nil, "no pad ahead of any other by more than 10.0 mm; nobody reaches"},
		{job.Job{Job: job.Title{Units: "imperial"}}, &three, "more than 0.39 in, in the last lift 0.11 in;"},
	} {
		all := strings.Join(CautionsOf(&c.job, &job.Gear{Lifting: &job.Lifting{Pass: ten, Last: c.last}}), "\n")
		if !strings.Contains(all, c.want) {
			t.Errorf("no %q in\n%s", c.want, all)
		}
	}
}

func TestTheReadmeHasTheCautionsOfAJob(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	list := "\n- " + strings.Join(CautionsOf(&job.Job{}, nil), "\n- ") + "\n"
	if !strings.Contains(string(text), list) {
		t.Errorf("README.md has not these cautions:%s", list)
	}
}

// The hazards that a crew meets with such a carrier, each by a word that no caution
// about another one has.
func TestEveryHazardHasItsCaution(t *testing.T) {
	all := strings.Join(CautionsOf(&job.Job{}, nil), "\n")
	for hazard, word := range map[string]string{
		"confined space": "confined space", "air and fumes": "no engine inside", "a way out": "way out", "rescue": "rescue plan",
		"flood": "flow upstream", "lighting": "Light every", "height": "at height", "projecting bars": "projecting bars",
		"ropes and anchors": "ropes, hooks, anchors", "hands": "Hands clear", "young concrete": "Young concrete", "a roof that hangs": "young roof hangs",
		"packing": "pack as it rises", "a form freed of its ties": "freed of its ties", "filler drop": "nobody passes beneath",
		"bond breaks": "once the bond breaks", "runaway": "Restraint on and wheels chocked", "rope snap-back": "snap-back zone",
		"who decides": "engineer of record", "permission": "released it in writing",
	} {
		if !strings.Contains(all, word) {
			t.Errorf("no caution for %s (%q)", hazard, word)
		}
	}
}
