package check

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

// alongOf are the rows of one bay.
func alongOf(r *result.Result, cell, pour int) []result.AlongRow {
	var out []result.AlongRow
	for _, a := range r.Along {
		if a.Cell == cell && a.Pour == pour {
			out = append(out, a)
		}
	}
	return out
}

func TestNoSampleAlongTheWayIsBelowWhatIsProved(t *testing.T) {
	for _, job := range []string{"one-pour", "bend-at-joint"} {
		r := Run(worked.Job(t, job), Options{})
		met := 0
		for _, e := range r.Checks {
			if e.ID != "roll.clear" || e.Value == nil {
				continue
			}
			reached := math.Inf(1)
			for _, a := range alongOf(r, e.Where.Cell, e.Where.Pour) {
				for _, g := range a.Gaps {
					if g.Zone != e.Where.Zone {
						continue
					}
					if g.Gap < e.Value.Lower-1e-9 {
						t.Errorf("%s, %s: %.6f at %.3f m, proved %.6f", job, e.Subject, g.Gap, a.Rolled, e.Value.Lower)
					}
					reached = min(reached, g.Gap)
				}
			}
			if math.IsInf(e.Value.Upper, 1) {
				continue
			}
			met++
			if reached > e.Value.Upper+1e-6 {
				t.Errorf("%s, %s: least sample %.6f, found %.6f", job, e.Subject, reached, e.Value.Upper)
			}
		}
		if met < 4 {
			t.Errorf("%s: %d zones with a place, want at least 4", job, met)
		}
	}
}

func TestEveryGoverningPlaceIsARowOnce(t *testing.T) {
	r := Run(worked.Job(t, "bend-at-joint"), Options{Only: []string{"roll"}})
	for _, e := range r.Checks {
		if e.ID != "roll.clear" || e.Where.Station == nil {
			continue
		}
		rows := slices.DeleteFunc(alongOf(r, e.Where.Cell, e.Where.Pour), func(a result.AlongRow) bool { return !slices.Contains(a.Governs, e.Where.Zone) })
		if len(rows) != 1 || math.Abs(rows[0].Station-*e.Where.Station) > 1e-9 {
			t.Errorf("%s: %d rows", e.Subject, len(rows))
		}
	}
}

func TestPullAndHoldAlongTheWayNeverExceedTheCheck(t *testing.T) {
	r := Run(worked.Job(t, "bend-at-joint"), Options{})
	for _, e := range r.Checks {
		if e.ID != "roll.pull" && e.ID != "roll.hold" {
			continue
		}
		most := math.Inf(-1)
		for _, a := range alongOf(r, e.Where.Cell, e.Where.Pour) {
			v := a.Pulling.Start
			if e.ID == "roll.hold" {
				v = a.Pulling.Hold
			}
			most = max(most, v)
		}
		if most > e.Value.Upper+1e-6 || most < 0 {
			t.Errorf("%s, %s: %.6f along the way, the check has %.6f", e.ID, e.Subject, most, e.Value.Upper)
		}
	}
}

func TestSlopeBetweenTheWheelsRunsFromOneGradeToTheNext(t *testing.T) {
	s := worked.Job(t, "bend-at-joint")
	r := Run(s, Options{Only: []string{"roll"}})
	rows := alongOf(r, 1, 2) // from -0.5 % to -1 %
	if a := rows[0].Slope; math.Abs(a+0.005) > 1e-6 {
		t.Errorf("starts on %v, want -0.5 %%", a)
	}
	if a := rows[len(rows)-1].Slope; math.Abs(a+0.01) > 1e-6 {
		t.Errorf("ends on %v, want -1 %%", a)
	}
	for i := 1; i < len(rows); i++ {
		if rows[i].Slope > rows[i-1].Slope+1e-12 {
			t.Errorf("steeper back at %.3f m", rows[i].Rolled)
		}
	}
}

func TestWheelLoadsAlongTheWayAddUpToTheWeight(t *testing.T) {
	s := worked.Job(t, "bend-at-joint")
	r := Run(s, Options{Only: []string{"roll"}})
	b := inspected(s, 0)
	way := &route{bay: b, job: s.Job}
	way.weigh()
	if len(alongOf(r, 1, 1)) < 10 {
		t.Fatal("no rows to hold")
	}
	for _, a := range r.Along {
		var rigid, soft float64
		for _, w := range a.Wheels {
			rigid, soft = rigid+w.RigidLeft+w.RigidRight, soft+w.SoftLeft+w.SoftRight
		}
		if a.Cell == 1 && a.Pour == 1 && (math.Abs(rigid-float64(way.weight)) > 1e-9 || math.Abs(soft-float64(way.weight)) > 1e-9) {
			t.Fatalf("rigid %v, soft %v, weighs %v", rigid, soft, way.weight)
		}
	}
}

func TestRowsAlongTheWayStayFewAndCheap(t *testing.T) {
	s := worked.Job(t, "bend-at-joint")
	for _, i := range s.Reported() {
		b := inspected(s, i)
		r := b.Advance()
		var rolled []measure.Gaps
		for p, part := range b.Carrier.Parts {
			if b.Steps[len(b.Steps)-1].PresentAfter(part) {
				rolled = append(rolled, measure.Gaps{Part: p})
			}
		}
		t0 := time.Now()
		rows := b.alongRows(s, r, rolled, nil, nil)
		t.Logf("%s: %d rows of %d parts in %v", b.Name(), len(rows), len(rolled), time.Since(t0))
		if len(rows) != alongSpaces+1 {
			t.Errorf("%d rows", len(rows))
		}
	}
}

func TestOnlyAskedForRollingBringsRowsAlongTheWay(t *testing.T) {
	s := worked.Job(t, "one-pour")
	for only, want := range map[string]bool{"roll": true, "roll.clear": true, "setup": false} {
		if got := len(Run(s, Options{Only: strings.Fields(only)}).Along) > 0; got != want {
			t.Errorf("--only %s: rows %v, want %v", only, got, want)
		}
	}
}
