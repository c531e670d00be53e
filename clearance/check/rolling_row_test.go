package check

import (
	"slices"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

// rollingOf is the row of rolling on from a pour.
func rollingOf(t *testing.T, r *result.Result, pour int) result.RollingRow {
	t.Helper()
	for _, row := range r.Rolling {
		if row.Pour == pour {
			return row
		}
	}
	t.Fatalf("no way from pour %d", pour)
	return result.RollingRow{}
}

// What the crew is told of the way is what the checks say: the pull and the hold
// rounded up, the least gap rounded down, and what is left of it after tolerances.
func TestTheCrewIsToldOfTheWayWhatItsChecksSay(t *testing.T) {
	r := Run(worked.Job(t, "one-pour"), Options{})
	row := rollingOf(t, r, 1)
	var tight *result.Entry
	pull := ""
	for i, e := range r.Checks {
		if e.ID == "roll.clear" && (tight == nil || e.Value.Lower-e.Allowance < tight.Value.Lower-tight.Allowance) {
			tight = &r.Checks[i]
		}
		if e.ID == "roll.pull" {
			p := e.Printed(0)
			pull = "up to " + p.Value + " kN to start"
		}
	}
	left := tight.Printed(0)
	for _, want := range []string{pull, "Tightest: " + left.Value + " mm at " + tight.Where.Part, "with the winch at the front end"} {
		if !strings.Contains(row.Say, want) {
			t.Errorf("%q does not tell %q", row.Say, want)
		}
	}
	if len(row.Unproved) > 0 || len(row.Hold) == 0 || row.Caution == "" {
		t.Errorf("%+v", row)
	}
}

func TestAWayWhoseChecksFailSaysSo(t *testing.T) {
	r := Run(worked.Job(t, "chalk-hill"), Options{Brief: true})
	row := rollingOf(t, r, 1)
	if !slices.ContainsFunc(row.Unproved, func(s string) bool { return strings.HasPrefix(s, "roll.hold") }) {
		t.Errorf("6 %% down without a restraint: %q", row.Unproved)
	}
}

func TestACarrierThatDoesNotEndOnItsWheelsHasNoWay(t *testing.T) {
	s := worked.Chain{Gear: "roof-halves-24", Jobs: [][2]string{worked.Sequence(worked.FillersOut, worked.BottomsIn)}}.Study(t)
	if r := Run(s, Options{Brief: true}); len(r.Rolling) > 0 {
		t.Errorf("it stands on its jacks, and is told to %s", r.Rolling[0].Name)
	}
}
