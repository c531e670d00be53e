package check

import (
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

// The numbers of this file were worked by a planar script (convex polygons,
// 200 to 1000 poses a step) and the governing ones again by hand. They are
// given to 0.1 or 0.01 mm; what is held here is 0.1 mm.
const tenth = 0.1e-3

// endGap is the least gap at the end of a step between the parts of a role on
// the left side and a zone or another role.
func endGap(r *result.Result, step, role, against string) (result.Bracket, bool) {
	best, found := result.Between(math.Inf(1), math.Inf(1)), false
	for _, s := range r.Steps {
		if s.Name != step {
			continue
		}
		for _, e := range s.End {
			pair := e.Role == role && e.Against == against || e.Role == against && e.Against == role
			if pair && e.Side != "right" && e.Value.Upper < best.Upper {
				best, found = e.Value, true
			}
		}
	}
	return best, found
}

// gaps is a table of end gaps in millimetres: one row for each pair, one
// column for each step; NaN where nothing is said.
type gaps struct {
	steps []string
	rows  map[[2]string][]float64
}

func (g gaps) hold(t *testing.T, r *result.Result) {
	t.Helper()
	for pair, want := range g.rows {
		for i, step := range g.steps {
			if math.IsNaN(want[i]) {
				continue
			}
			got, ok := endGap(r, step, pair[0], pair[1])
			if !ok {
				t.Errorf("step %q: no gap between %s and %s", step, pair[0], pair[1])
				continue
			}
			if math.Abs(got.Lower*1e3-want[i]) > tenth*1e3 || math.Abs(got.Upper*1e3-want[i]) > tenth*1e3 {
				t.Errorf("step %q: %s to %s %.3f..%.3f mm, want %.2f", step, pair[0], pair[1], got.Lower*1e3, got.Upper*1e3, want[i])
			}
		}
	}
}

// leastGaps holds the least gap over all step ends, in millimetres.
func leastGaps(t *testing.T, r *result.Result, want map[[2]string]float64) {
	t.Helper()
	for pair, mm := range want {
		least := math.Inf(1)
		for _, s := range r.Steps {
			if v, ok := endGap(r, s.Name, pair[0], pair[1]); ok {
				least = math.Min(least, v.Upper)
			}
		}
		if math.Abs(least*1e3-mm) > tenth*1e3 {
			t.Errorf("least gap between %s and %s %.3f mm, want %.1f", pair[0], pair[1], least*1e3, mm)
		}
	}
}

var unsaid = math.NaN()

var halvesSteps = []string{"wall bottoms in", "ease down to break the bond", "header arms in (stage 1)", "down", "header arms fully in", "down to wheels"}

func TestRoofHalvesOf24CollapseByTheWorkedGaps(t *testing.T) {
	r := checked(t, chain{Gear: "roof-halves-24"})
	if r.Verdict != result.Pass {
		t.Errorf("verdict %v: %+v", r.Verdict, r.Checks[0])
	}
	gaps{halvesSteps, map[[2]string][]float64{
		{"roof panel", "roof"}:          {0, 25, 25, 75, 75, 120},
		{"corner panel", "roof"}:        {0, 25, 25, 75, 75, 120},
		{"corner panel", "haunch_top"}:  {0, 17.7, 53.0, 88.4, 137.9, 169.7},
		{"wall panel", "wall"}:          {4.57, 4.57, 52.8, 52.8, 120.6, 120.6},
		{"wall panel", "haunch_bottom"}: {180.9, 163.2, 158.2, 122.8, 118.1, 86.3},
		{"roof panel", "hanger plate"}:  {80.0, 80.2, 30.4, 62.6, 55.0, 100.0},
		// before lowering the nut lies below the panel's upper edge, beside its
		// tapered side: (182 - 22) cos 5.71 = 159.2, not 180 - 22
		{"roof panel", "hanger nut"}:   {159.2, 158.0, 108.0, 108.1, 38.3, 62.8},
		{"wall panel", "corner panel"}: {4.75, 4.75, 3.08, 3.08, 0.71, 0.71},
		{"header arm", "leg"}:          {10, 10, 10, 10, 10, 10},
	}}.hold(t, r)
	leastGaps(t, r, map[[2]string]float64{{"sill", "low brace"}: 26.5, {"waler", "upper brace"}: 38.5, {"wall panel", "header arm"}: 56.2})
	held(t, r, "strip.level", "ease down to break the bond", "", 3.8e-3, 0.05e-3)
}

func TestRoofHalvesOf43CollapseByTheWorkedGaps(t *testing.T) {
	r := checked(t, chain{Gear: "roof-halves-43", Job: cell43})
	if r.Verdict != result.Pass {
		t.Errorf("verdict %v: %+v", r.Verdict, r.Checks[0])
	}
	gaps{halvesSteps, map[[2]string][]float64{
		{"wall panel", "wall"}:          {4.63, 4.63, 72.7, 72.7, 131.1, 131.1},
		{"corner panel", "haunch_top"}:  {0, 17.7, 67.2, 102.5, 145.0, 198.0},
		{"roof panel", "hanger plate"}:  {100.0, 100.1, 30.4, 62.6, 55.0, 130.0},
		{"roof panel", "hanger nut"}:    {179.1, 178.0, 108.0, 108.1, 48.3, 93.3},
		{"wall panel", "haunch_bottom"}: {204.2, 186.5, 181.7, 146.4, 143.3, 90.3},
		{"wall panel", "corner panel"}:  {unsaid, unsaid, unsaid, unsaid, 1.25, unsaid},
	}}.hold(t, r)
	leastGaps(t, r, map[[2]string]float64{{"sill", "low brace"}: 54.0, {"waler", "upper brace"}: 61.4, {"waler", "middle brace"}: 62.5, {"wall panel", "header arm"}: 105.5})
	held(t, r, "strip.level", "ease down to break the bond", "", 3.2e-3, 0.05e-3)
}

// noHangers is the worked cell without anything left in place.
var noHangers = [][2]string{{worked.Hangers, ""}}

func TestWholeRoofCollapsesByTheWorkedGaps(t *testing.T) {
	r := checked(t, chain{Gear: "roof-whole-24", Jobs: noHangers})
	if r.Verdict != result.Pass {
		t.Errorf("verdict %v: %+v", r.Verdict, r.Checks[0])
	}
	gaps{[]string{"fillers and ties out", "walls in", "down", "down to wheels"}, map[[2]string][]float64{
		{"wall panel", "wall"}:           {0, 120.0, 120.0, 120.0},
		{"corner panel", "haunch_top"}:   {0, 89.1, 131.5, 173.9},
		{"corner panel", "roof"}:         {0, 6.0, 66.0, 126.0},
		{"roof panel", "roof"}:           {0, 0, 60.0, 120.0},
		{"corner panel", "roof panel"}:   {unsaid, 40.4, unsaid, unsaid},
		{"wall panel", "haunch_bottom"}:  {unsaid, 151.3, 108.9, 66.5},
		{"corner panel", "header"}:       {unsaid, 33.9, unsaid, unsaid},
		{"roller bracket", "roof panel"}: {10, 16, unsaid, unsaid},
	}}.hold(t, r)
	// once the walls are in, they let the jacks differ by 98 mm. The corner's upper
	// edge, 6.0 mm below the soffit and 1180 beside the middle, cannot rise to it:
	// the roof bears up to 1140, so that it goes up by 40 / 1800 of the difference.
	// What the second order of so great an angle may be leaves about half of it.
	if e, _ := find(r, "strip.level", "down", ""); e.Value == nil || e.Value.Lower < 40e-3 || e.Value.Lower > 98e-3 {
		t.Errorf("jacks may differ by %v: %s", e.Value, e.Text)
	}
	for _, e := range Examine(chain{Gear: "roof-whole-24", Jobs: noHangers}.Study(t), Options{Proof: true}).Bays[0].Entries {
		if e.ID == "strip.level" && strings.HasSuffix(e.Subject.String(), ", down") && math.Abs(e.From[0].Value.Lower-98e-3) > 1e-3 {
			t.Errorf("the walls let the jacks differ by %v", e.From[0].Value)
		}
	}
}

func TestWholeRoofOnJacksEndsWhereItWasWorked(t *testing.T) {
	r := checked(t, chain{Gear: "roof-whole-24-jacks", Jobs: noHangers})
	if r.Verdict != result.Pass {
		t.Errorf("verdict %v: %+v", r.Verdict, r.Checks[0])
	}
	gaps{[]string{"walls in", "down to wheels"}, map[[2]string][]float64{
		{"roof panel", "roof"}:           {40, 120},
		{"corner panel", "roof"}:         {6, 86},
		{"wall panel", "haunch_bottom"}:  {unsaid, 94.8},
		{"corner panel", "roof panel"}:   {43.2, unsaid},
		{"roller bracket", "roof panel"}: {26, unsaid},
	}}.hold(t, r)
}

// held finds the check of an id whose subject ends with step and rest, and
// holds its value.
func held(t *testing.T, r *result.Result, id, step, rest string, want, tolerance float64) result.Entry {
	t.Helper()
	c, ok := find(r, id, step, rest)
	if !ok {
		t.Errorf("no %s for %q %q", id, step, rest)
		return c
	}
	if c.Value == nil || math.Abs(c.Value.Lower-want) > tolerance || math.Abs(c.Value.Upper-want) > tolerance {
		t.Errorf("%s %s: %v, want %.3f mm: %s", id, c.Subject, c.Value, want*1e3, c.Text)
	}
	return c
}
