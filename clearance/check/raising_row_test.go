package check

import (
	"slices"
	"strings"
	"testing"

	"boxwalk/clearance/result"
)

// raisingAt are the steps of raising for one pour.
func raisingAt(r *result.Result, cell, pour int) []result.RaisingRow {
	var out []result.RaisingRow
	for _, row := range r.Raising {
		if row.Cell == cell && row.Pour == pour {
			out = append(out, row)
		}
	}
	return out
}

// The gear's pass is 10 mm and its last one 3; a tape shows 3 and not 2. Gear without
// lifting is raised on its jacks, which differ by 2.5.
func TestRaisingTellsTheCrewTheDifferenceThatItsCheckRestsOn(t *testing.T) {
	const lifting = "lifting: {pads: [0.45 m, 1.95 m], capacity: 60 kN, stroke: 200 mm, pass: 10 mm, last: 3 mm}\n"
	for name, c := range map[string]struct {
		swap        [][2]string
		first, last float64
		says, less  string
	}{
		"as it is":        {nil, 10e-3, 3e-3, "more than 3.0 mm", "tape"},
		"a last of 2 mm":  {[][2]string{{"last: 3 mm", "last: 2 mm"}}, 10e-3, 2e-3, "not 2.0 mm: watch it with a water level", "NOT"},
		"no last":         {[][2]string{{", last: 3 mm", ""}}, 10e-3, 10e-3, "Lift pad by pad; no pad ahead of any other by more than 10.0 mm", "tape"},
		"without lifting": {[][2]string{{lifting, ""}}, 2.5e-3, 2.5e-3, "Turn the jacks in passes", "pad"},
	} {
		var levels []result.RaisingLevel
		for _, row := range raisingAt(checked(t, chain{Gear: "roof-halves-24", Swap: c.swap}), 1, 1) {
			if row.Level != nil {
				levels = append(levels, *row.Level)
			}
		}
		if len(levels) < 2 || levels[0].Kept != c.first {
			t.Errorf("%s: %+v", name, levels)
			continue
		}
		if l := levels[len(levels)-1]; l.Kept != c.last || !strings.Contains(l.Say, c.says) || strings.Contains(l.Say, c.less) {
			t.Errorf("%s: %+v", name, l)
		}
	}
}

// With a pass of 4 mm at last the lean of the form closes its gap to the wall cast
// before, see TestAPassOfLiftingThatLeansTheFormIntoTheWallCastBeforeFails.
func TestARaisingThatDoesNotPassSaysSoWhereThePassIsOrdered(t *testing.T) {
	r := checked(t, chain{Gear: "roof-halves-24", Jobs: lapped, Swap: [][2]string{{", last: 3 mm", ", last: 4 mm"}}})
	var said []string
	for _, row := range raisingAt(r, 1, 2) {
		if row.Level != nil && strings.HasPrefix(row.Level.Say, "NOT PROVED with pads 4.0 mm apart") {
			said = append(said, row.Name)
		}
	}
	if len(said) != 1 {
		t.Errorf("said in %q: %+v", said, raisingAt(r, 1, 2))
	}
}

// What the collapse reads at its end is where raising begins, and the other way
// round; what came off goes back; nothing begins before it has been seen.
func TestRaisingIsTheCollapseTakenBackRowByRow(t *testing.T) {
	r := checkFile(t, "quarry-lane")
	for _, p := range [][2]int{{1, 1}, {2, 1}, {1, 4}} {
		steps, up := stepsOf(r, p[0], p[1]), raisingAt(r, p[0], p[1])
		if len(up) == 0 || !slices.Equal(up[0].Hold, []string{raiseHold}) {
			t.Fatalf("%v: nothing is seen before raising begins: %+v", p, up)
		}
		k := 0
		for _, s := range slices.Backward(steps) {
			if len(s.Moves)+len(s.Removes) == 0 {
				continue
			}
			row := up[k]
			k++
			if row.Name != "take back: "+s.Name || !slices.Equal(row.PutsBack, s.Removes) || len(row.Moves) != len(s.Moves) {
				t.Fatalf("%v: %+v takes %+v back", p, row, s)
			}
			for i, m := range row.Moves {
				if m.From != s.Moves[i].To || m.To != s.Moves[i].From || m.Adjuster != s.Moves[i].Adjuster {
					t.Errorf("%v, %s: %+v takes %+v back", p, row.Name, m, s.Moves[i])
				}
			}
		}
		if k != len(up) {
			t.Errorf("%v: %d rows for %d steps", p, len(up), k)
		}
	}
}

// An eighth of an inch is 0.125 in: what a crew may not go beyond is rounded down.
func TestRaisingIsToldInTheUnitsOfTheJob(t *testing.T) {
	told := 0
	for _, row := range checkFile(t, "fernshaw-hollow").Raising {
		if row.Level == nil {
			continue
		}
		if told++; !strings.Contains(row.Level.Say, "more than 0.12 in,") {
			t.Error(row.Level.Say)
		}
	}
	if told == 0 {
		t.Error("no step of raising tells a difference")
	}
}
