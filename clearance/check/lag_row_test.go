package check

import (
	"slices"
	"strings"
	"testing"
)

// What comes off the gaps for adjusters out of step holds as long as the crew keeps
// the number: each step that turns two of them tells it, down and up again, and a step
// that turns jacks only does not. Walls come in by two braces, one on each side.
func TestEachStepTellsHowFarItsAdjustersMayGetOutOfStep(t *testing.T) {
	for words, jobs := range map[string][][2]string{
		"more than 10.0 mm": nil,
		"more than 4.0 mm":  {{"gear: gear.yaml", "tolerance: {lag: 4 mm}\ngear: gear.yaml"}},
		"more than 0.15 in": {{"gear: gear.yaml", "tolerance: {lag: 4 mm}\ngear: gear.yaml"}, {"number: W-24", "number: W-24, units: imperial"}},
	} {
		r := checked(t, chain{Gear: "roof-halves-24", Jobs: jobs})
		kept := 0.010
		if jobs != nil {
			kept = 0.004
		}
		for _, name := range []string{"wall bottoms in", "header arms in (stage 1)"} {
			l := rowOf(t, r, name).Lag
			if l == nil || l.Kept != kept || !strings.Contains(l.Say, words) {
				t.Errorf("%s: %+v, not %q", name, l, words)
			}
			for _, row := range r.Raising {
				if row.Name == "take back: "+name && (row.Lag == nil || *row.Lag != *l) {
					t.Errorf("%s: %+v going up", name, row.Lag)
				}
			}
		}
		if l := rowOf(t, r, "ease down to break the bond").Lag; l != nil {
			t.Errorf("%+v in a step that turns jacks only", l)
		}
	}
}

// Whatever is taken off a gap for adjusters out of step is taken off in a step that
// tells the crew how far they may be: part by part, of both kinds of collapse.
func TestNothingIsTakenOffForAdjustersOutOfStepWithoutTheCrewBeingTold(t *testing.T) {
	taken := 0
	for _, gear := range []string{"roof-halves-24", "roof-whole-24"} {
		s := chain{Gear: gear}.Study(t)
		b := inspected(s, 0)
		for _, step := range slices.Concat(b.Steps, b.Raising) {
			for p := range b.Carrier.Parts {
				for q := range b.Carrier.Parts[:p] {
					if b.Lag(step, p) > 0 || b.LagBetween(step, p, q) > 0 {
						if taken++; b.lagRow(step) == nil {
							t.Fatalf("%s: %s, %s", gear, step.Name, b.label(p))
						}
					}
				}
			}
		}
	}
	if taken == 0 {
		t.Error("nothing is taken off anywhere")
	}
}
