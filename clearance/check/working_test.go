package check

import (
	"math"
	"path/filepath"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model/formula"
)

// measured are checks of numbers that are measured or searched in the solids, all or
// some, so that no formula gives them.
var measured = map[string]string{
	"setup.faces": "distances of solids",
	"setup.range": "readings enclosed over a whole step",
	"setup.rest":  "corners of plates and treads against the slab's ends",
	"strip.level": "where a lean along counts too, a search of the step",
	"strip.drag":  "a search of the step",
}

// Whoever has a page with a working has to come to its number from that page alone.
func TestEveryWorkingGivesTheNumberOfItsEntry(t *testing.T) {
	list, err := filepath.Glob(worked.Path("jobs", "*", "job.yaml"))
	if err != nil || len(list) < 20 {
		t.Fatal(err, list)
	}
	for i, path := range list {
		if i%worked.Campaign(4, 1) != 0 {
			continue
		}
		name := filepath.Base(filepath.Dir(path))
		for _, e := range Run(worked.Job(t, name), Options{Brief: true}).Checks {
			if wrong := worksOut(e); wrong != "" {
				t.Errorf("%s: %s, %s: %s", name, e.ID, e.Subject, wrong)
			}
		}
	}
}

// worksOut tells what is wrong with an entry's working.
func worksOut(e result.Entry) string {
	c, _ := ByID(e.ID)
	switch {
	case e.Value == nil && e.Working != nil:
		return "a working of no value"
	case e.Value == nil || c.Proved || measured[e.ID] != "" && e.Working == nil:
		return ""
	case len(e.Working) == 0:
		return "no working"
	}
	known := map[string]float64{}
	for _, l := range e.Working {
		if wrong := follows(l, known); wrong != "" {
			return l.Symbol + ": " + wrong
		}
		known[l.Symbol] = l.Value
	}
	value := e.Value.Lower
	if e.Sense == result.Max {
		value = e.Value.Upper
	}
	last := e.Working[len(e.Working)-1]
	switch {
	case last.Unit != e.Unit:
		return "ends in " + last.Unit + ", not in " + e.Unit
	case !alikeTo9(last.Value, value):
		return "ends in another number"
	}
	return ""
}

// follows tells what is wrong with a line after those before.
func follows(l result.Line, known map[string]float64) string {
	if _, twice := known[l.Symbol]; twice {
		return "stands twice"
	}
	if n, err := formula.Parse(l.Symbol); err != nil || len(formula.Symbols(n)) != 1 {
		return "is no symbol"
	}
	if l.Means == "" || l.Unit == "" || l.Formula == "" && l.From == "" {
		return "does not say what, in which unit or where from"
	}
	if l.Formula == "" {
		return ""
	}
	n, err := formula.Parse(l.Formula)
	if err != nil {
		return err.Error()
	}
	v, err := formula.Eval(n, known)
	if err != nil {
		return err.Error()
	}
	if !alikeTo9(v, l.Value) {
		return "its formula gives another number"
	}
	return ""
}

// alikeTo9 holds two numbers to nine digits.
func alikeTo9(a, b float64) bool {
	return math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b))+1e-15
}

// What is taken off a travel clearance is the root-sum-square that its working gives,
// and what its sentence says that slopes and grade breaks add, never less.
func TestEveryAllowanceHasItsWorking(t *testing.T) {
	for _, name := range []string{"one-pour", "four-cells", "pindle-beck"} {
		r := Run(worked.Job(t, name), Options{})
		of := map[[2]any]float64{}
		for _, a := range r.Allowances {
			known := map[string]float64{}
			for _, l := range a.Working {
				if wrong := follows(l, known); wrong != "" {
					t.Errorf("%s: %s: %s: %s", name, a.Zone, l.Symbol, wrong)
				}
				known[l.Symbol] = l.Value
			}
			of[[2]any{a.Cell, a.Zone}] = known["A"]
		}
		level := 0
		for _, e := range r.Checks {
			if e.ID != "roll.clear" || e.Value == nil {
				continue
			}
			squares, is := of[[2]any{e.Subject.Cell, e.Subject.Zone}]
			if !is || e.Allowance < squares*(1-1e-12) {
				t.Errorf("%s: %s takes %v off, its working %v", name, e.Subject, e.Allowance, squares)
			}
			if alikeTo9(e.Allowance, squares) {
				level++
			}
		}
		if level == 0 {
			t.Errorf("%s: no allowance is that of its working alone", name)
		}
	}
}
