package views

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/worked"
	"boxwalk/export/sheet"
)

// sheetText is all that a sheet's views letter.
func sheetText(s *sheet.Sheet) []string {
	var out []string
	for _, v := range s.Views {
		for _, i := range v.Items {
			switch i := i.(type) {
			case sheet.Text:
				out = append(out, strings.Join(i.Lines, " "))
			case sheet.Leader:
				out = append(out, strings.Join(i.Lines, " "))
			case sheet.DimStack:
				for _, span := range i.Spans {
					out = append(out, span.Suffix)
				}
			}
		}
	}
	return out
}

func TestASetHasOneSizeOfPaperAndAnIndexOfItsSheets(t *testing.T) {
	for _, job := range []string{"quarry-lane", "fernshaw-hollow"} {
		s := worked.Job(t, job)
		list := allSheets(t, s, check.Run(s, check.Options{Version: "test"}))
		index := strings.Join(sheetText(list[0].Sheet), "\n")
		for i, n := range list {
			if strings.HasPrefix(n.Name, "raised") { // pictures follow
				break
			}
			if n.Sheet.Paper != list[0].Sheet.Paper {
				t.Errorf("%s %s is on %s, the index on %s", job, n.Name, n.Sheet.Paper.Name(), list[0].Sheet.Paper.Name())
			}
			number := fmt.Sprintf("%s-%02d", s.Job.Job.Number, i+1)
			if n.Sheet.Title.Number != number || !strings.HasPrefix(n.Name, number[len(number)-2:]) {
				t.Errorf("%s %s has the number %s", job, n.Name, n.Sheet.Title.Number)
			}
			if !lists(index, s.Job.Job.Number, i+1) || !strings.Contains(index, n.Sheet.Title.Title) {
				t.Errorf("%s: the index does not list %s %s", job, number, n.Sheet.Title.Title)
			}
		}
	}
}

// lists tells whether an index has a sheet's number, by itself or between two.
func lists(index, job string, n int) bool {
	for _, line := range strings.Split(index, "\n") {
		rest, ok := strings.CutPrefix(line, job+"-")
		if !ok {
			continue
		}
		first, last, run := strings.Cut(rest, " to -")
		from, _ := strconv.Atoi(first)
		to, _ := strconv.Atoi(last)
		if from == n || run && from <= n && n <= to {
			return true
		}
	}
	return false
}

func TestAMetricSetOfA3StaysOnA3(t *testing.T) {
	for _, job := range []string{"four-cells", "skew-30"} {
		s := worked.Job(t, job)
		list, err := Sheets(s, check.Run(s, check.Options{Version: "test", Only: []string{"setup.length"}}))
		if err != nil {
			t.Fatal(err)
		}
		if p := list[0].Sheet.Paper; p != sheet.A3 {
			t.Errorf("%s: %s", job, p.Name())
		}
	}
}

func TestEveryHoldPointOfTheStepsHasARowToSign(t *testing.T) {
	s := worked.Job(t, "quarry-lane")
	r := check.Run(s, check.Options{Version: "test"})
	o := &drafter{study: s, result: r}
	rows := o.holds().Rows
	for _, step := range r.Steps {
		for _, h := range step.Hold {
			found := false
			for _, row := range rows {
				found = found || row[0] == step.Name && strings.HasPrefix(h, row[1])
			}
			if !found {
				t.Errorf("%s: %q has no row", step.Name, h)
			}
		}
	}
	for _, row := range rows {
		if strings.Contains(row[1], "(name") || strings.HasSuffix(row[1], ",") {
			t.Errorf("%q asks for what has a column of its own", row[1])
		}
	}
}

// Pours 1 to 4 of Quarry Lane differ by lap, skew and joints; Grindlemoor's square
// middle pour lies alike nowhere else. Equal pours share a sheet, which names them.
func TestEveryPourHasALongitudinalSectionWithItsLevels(t *testing.T) {
	for _, job := range []string{"quarry-lane", "skew-30", "march-beck"} {
		s := worked.Job(t, job)
		list, err := Sheets(s, check.Run(s, check.Options{Version: "test", Only: []string{"setup.length"}}))
		if err != nil {
			t.Fatal(err)
		}
		o := &drafter{study: s}
		text := ""
		for _, n := range list {
			if strings.Contains(n.Name, "longitudinal") {
				text += " | " + strings.Join(sheetText(n.Sheet), " | ")
			}
		}
		for i := range s.Bays {
			for _, p := range s.SetOut(&s.Bays[i])[:8] {
				if want := o.onGround(p.Invert); p.Side == 0 && !strings.Contains(text, "| "+want) {
					t.Errorf("%s cell %d pour %d: no level %s of the %s", job, s.Bays[i].Cell.Number, s.Bays[i].Pour.Number, want, p.What)
				}
			}
		}
	}
}
