package check

import (
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/result"
)

func rowOf(t *testing.T, r *result.Result, name string) result.StepRow {
	t.Helper()
	for _, row := range r.Steps {
		if row.Name == name {
			return row
		}
	}
	t.Fatalf("no step %s", name)
	return result.StepRow{}
}

// What each step tells the crew is what the checks are made with, and what is
// still safe: 4.57 x 1800 / 2187 = 3.76 in the first lowering of the smaller
// carrier, where a tape will do, and 4.63 x 2700 / 3959 = 3.16 in that of the
// larger one; on a gauge of 2300 it is 2.69, and a tape will not. Nor does it for the
// 2.5 that is kept. Steps that turn no jack tell nothing.
func TestEachLoweringTellsTheJackDifferenceThatIsProvedAndTheOneThatIsSafe(t *testing.T) {
	for gear, c := range map[string]struct {
		job        string
		jobs       [][2]string
		safe       float64
		says, less string
	}{
		"roof-halves-24": {cell24, nil, 3.76e-3, "more than 2.5 mm", "NOT SAFE"},
		"roof-halves-43": {cell43, [][2]string{{"gear: gear.yaml", "set: {gauge: 2300 mm}\ngear: gear.yaml"}}, 2.69e-3, "A tape shows 3.0 mm at best, not 2.5 mm", "NOT SAFE"},
	} {
		r := checked(t, chain{Gear: gear, Job: c.job, Jobs: c.jobs})
		l := rowOf(t, r, "ease down to break the bond").Level
		if l == nil || l.Kept != 0.0025 || math.Abs(l.Safe-c.safe) > 0.05e-3 || !strings.Contains(l.Say, c.says) || strings.Contains(l.Say, c.less) {
			t.Errorf("%s: %+v", gear, l)
		}
		if l := rowOf(t, r, "header arms in (stage 1)").Level; l != nil {
			t.Errorf("%s: %+v in a step that turns no jack", gear, l)
		}
	}
	r := checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{{"gear: gear.yaml", "tolerance: {jack_level: 10 mm}\ngear: gear.yaml"}}})
	if l := rowOf(t, r, "ease down to break the bond").Level; l == nil || !strings.HasPrefix(l.Say, "NOT SAFE with jacks 10.0 mm apart") {
		t.Errorf("%+v", l)
	}
	if e, _ := find(r, "strip.dig", "ease down to break the bond", ""); e.Verdict != result.Fail {
		t.Errorf("strip.dig is %v with jacks 10 mm apart: %s", e.Verdict, e.Text)
	}
}

// A tape shows 3 mm: neither 2.9 that is kept where 14.6 would be safe, nor 2.0
// that is safe where 5 is kept, goes without a word; 3.0 does.
func TestADifferenceThatATapeDoesNotShowIsSaidWhetherKeptOrSafe(t *testing.T) {
	var b bay
	for _, c := range []struct {
		kept, safe float64
		says       string
	}{{0.0029, 0.0146, "not 2.9 mm"}, {0.005, 0.002, "not 2.0 mm"}, {0.003, 0.0146, ""}} {
		say := b.levelRow(c.kept, c.safe).Say
		if !strings.Contains(say, c.says) || strings.Contains(say, "A tape shows") != (c.says != "") {
			t.Errorf("kept %v, safe %v: %s", c.kept, c.safe, say)
		}
	}
}
