package views

import (
	"slices"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
)

// changed is a result with its entries changed one by one.
func changed(r *result.Result, verdict result.Verdict, change func(e *result.Entry)) *result.Result {
	out := *r
	out.Verdict = verdict
	out.Checks = slices.Clone(r.Checks)
	for i := range out.Checks {
		change(&out.Checks[i])
	}
	return &out
}

// lettered are the texts of a layer in a view, in their order.
func lettered(v *sheet.View, on sheet.Layer) []string {
	var out []string
	for _, i := range v.Items {
		if t, ok := i.(sheet.Text); ok && t.On == on {
			out = append(out, t.Lines...)
		}
	}
	return out
}

func tableOf(t *testing.T, s *sheet.Sheet, title string) *sheet.View {
	t.Helper()
	for _, v := range s.Views {
		if v.Title == title {
			return v
		}
	}
	t.Fatalf("no table %q", title)
	return nil
}

func TestAClearanceThatFailsIsMarkedInItsRowAndInTheTitleBlock(t *testing.T) {
	s, r := checked()
	failing := changed(r, result.Fail, func(e *result.Entry) {
		if strings.HasSuffix(e.Subject.String(), "kicker, collapsed") {
			e.Verdict = result.Fail
		}
	})
	drawn := named(t, justSheets(t, s, failing), "section-collapsed")
	v := tableOf(t, drawn, "Clearances, collapsed")
	if got := lettered(v, sheet.StampMark); len(got) != 7 || got[0] != "kicker" || got[6] != "FAIL" {
		t.Errorf("marked: %q, want the kicker's row ending in FAIL", got)
	}
	passing := 0
	for _, cell := range lettered(v, sheet.Notes) {
		if cell == "pass" {
			passing++
		}
	}
	if passing != 6 {
		t.Errorf("%d rows that are not marked pass, want 6", passing)
	}
	if drawn.Title.Status != doesNotPass || drawn.Stamp != "NOT CLEARED" {
		t.Errorf("status %q, stamp %q", drawn.Title.Status, drawn.Stamp)
	}
	drawn = named(t, justSheets(t, s, r), "section-collapsed")
	if got := lettered(tableOf(t, drawn, "Clearances, collapsed"), sheet.StampMark); len(got) > 0 || drawn.Title.Status != "For checking: not approved" {
		t.Errorf("a job that passes: marked %q, status %q", got, drawn.Title.Status)
	}
}

func TestAClearanceThatWasNotFoundIsShownAsOpen(t *testing.T) {
	s, r := checked()
	open := changed(r, result.Open, func(e *result.Entry) {
		if strings.HasSuffix(e.Subject.String(), "invert, collapsed") {
			e.Verdict, e.Value, e.Margin = result.Open, nil, nil
		}
	})
	drawn := named(t, justSheets(t, s, open), "section-collapsed")
	got := lettered(tableOf(t, drawn, "Clearances, collapsed"), sheet.StampMark)
	if len(got) == 0 || got[0] != "invert" || got[len(got)-1] != "OPEN" || !slices.Contains(got, "?") {
		t.Errorf("marked: %q", got)
	}
}

func TestACellThatSharesTheSheetDoesNotHideItsFailure(t *testing.T) {
	s := load(t, "../../testdata/jobs/quarry-lane/job.yaml")
	r := check.Run(s, check.Options{Version: "test", Only: []string{"strip.clear"}})
	failing := changed(r, result.Fail, func(e *result.Entry) {
		if e.Where.Cell == 2 && e.Where.Pour == 3 && strings.HasSuffix(e.Subject.String(), "wall, collapsed") {
			e.Verdict = result.Fail
		}
	})
	drawn := named(t, justSheets(t, s, failing), "section-collapsed")
	got := lettered(tableOf(t, drawn, "Clearances, collapsed"), sheet.StampMark)
	if len(got) < 2 || got[0]+" "+got[1] != "wall, cell 2, pour 3" || got[len(got)-1] != "FAIL" {
		t.Errorf("marked: %q", got)
	}
}

func TestTheClearanceTableNeverPromisesMoreThanWasProved(t *testing.T) {
	for _, c := range []struct {
		units         sheet.Units
		lower, allow  float64
		clear, margin string
	}{
		{sheet.Units{Decimals: 1}, 0.08627, 0.02259, "86.2", "38.6"},
		{sheet.Units{Decimals: 1}, 0.120, 0.009, "120", "86"},
		{sheet.Units{Imperial: true}, 0.14722, 0.00914, `5 3/4"`, `4 7/16"`}, // 5.796 in
	} {
		limit, margin := 0.025, c.lower-c.allow-0.025
		e := result.Entry{Unit: "m", Verdict: result.Pass, Value: &result.Bracket{Lower: c.lower, Upper: c.lower}, Allowance: c.allow, Limit: &limit, Margin: &margin}
		e.Where.Zone = "wall"
		got := lettered((&drafter{}).clearanceTable(&sheet.Sheet{Units: c.units}, []result.Entry{e}, nil), sheet.Notes)
		if row := got[7:]; !slices.Contains(row, c.clear) || !slices.Contains(row, c.margin) {
			t.Errorf("%q, want clear %s and margin %s", row, c.clear, c.margin)
		}
	}
}
