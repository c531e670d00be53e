package check

import (
	"slices"
	"strings"
	"testing"

	"boxwalk/clearance/result"
)

// A lifting jack of 10 kN carries no corner of a carrier of some 20; a pass of 40 mm
// between pads 1.5 m apart leans by 27 mm over a metre, of which 15 are allowed. Each
// leaves raise.clear alone and must be told where the pass is ordered; so must gear
// that states nothing to lift with.
func TestARaisingThatFailsAnyOfItsChecksSaysSoWhereThePassIsOrdered(t *testing.T) {
	const lifting = "lifting: {pads: [0.45 m, 1.95 m], capacity: 60 kN, stroke: 200 mm, pass: 10 mm, last: 3 mm}\n"
	for name, c := range map[string]struct {
		swap [][2]string
		want string
	}{
		"a jack too weak":    {[][2]string{{"1.95 m], capacity: 60 kN", "1.95 m], capacity: 3 kN"}}, "raise.lift, load on a lifting jack"},
		"a stroke too short": {[][2]string{{"stroke: 200 mm", "stroke: 50 mm"}}, "raise.lift, stroke of a lifting jack"},
		"too large a pass":   {[][2]string{{"pass: 10 mm", "pass: 40 mm"}}, "raise.lift, tilt along"},
		"nothing to lift":    {[][2]string{{lifting, ""}}, "raise.lift, lifting jacks"},
		"as it is":           {nil, ""},
	} {
		told := 0
		for _, row := range raisingAt(checked(t, chain{Gear: "roof-halves-24", Swap: c.swap}), 1, 1) {
			if row.Level == nil {
				continue
			}
			told++
			not := strings.HasPrefix(row.Level.Say, "NOT PROVED")
			if not != (c.want != "") || not && (!slices.Contains(row.Unproved, c.want) || !strings.Contains(row.Level.Say, "see raise.lift. ")) || !not && len(row.Unproved) > 0 {
				t.Errorf("%s, %s: %q, %s", name, row.Name, row.Unproved, row.Level.Say)
			}
		}
		if told == 0 {
			t.Errorf("%s: no step tells a difference", name)
		}
	}
}

// The form meets a hanger of the pour before it on its way up: a step that turns no
// jack tells that it is not proved too, and pours that are alike tell the same of
// themselves.
func TestEveryStepOfRaisingThatIsNotProvedSaysSo(t *testing.T) {
	r := checked(t, chain{Gear: "roof-halves-24", Jobs: lapped, Swap: [][2]string{{", last: 3 mm", ", last: 4 mm"}}})
	for _, e := range r.Checks {
		if !strings.HasPrefix(e.ID, "raise.clear") || e.Verdict == result.Pass {
			continue
		}
		found := false
		for _, row := range raisingAt(r, e.Where.Cell, e.Where.Pour) {
			found = found || row.Name == e.Where.Step && len(row.Unproved) > 0
		}
		if !found {
			t.Errorf("%s, %s is told by no step of raising", e.ID, e.Subject)
		}
	}
	for _, row := range r.Raising {
		for _, what := range row.Unproved {
			if row.Level != nil && strings.Count(row.Level.Say, "NOT PROVED") != 1 {
				t.Errorf("%s: %q", what, row.Level.Say)
			}
		}
	}
}
