package views

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
	"boxwalk/export/table"
	"boxwalk/model"
)

// jobLists are the lists of a job as the command puts them on sheets.
func jobLists(s *model.Study, r *result.Result) []List {
	o := &drafter{study: s, result: r}
	var out []List
	for i, t := range []table.List{table.SettingList(r, o.system()), table.PartList(s)} {
		name := []string{"settings", "parts"}[i]
		l := List{Name: name, Title: name, Rows: t.Rows, Sums: t.Sums, Notes: t.Notes}
		for _, h := range t.Heads {
			c := sheet.Column{Title: h.Title, Right: h.Number}
			if h.Long {
				c.Width = 62
			}
			l.Columns = append(l.Columns, c)
		}
		out = append(out, l)
	}
	return out
}

// longList has rows of one to four lines and two that sum up.
func longList(rows int) List {
	l := List{Name: "parts", Title: "Parts list", Kind: "Parts list", Columns: []sheet.Column{{Title: "Mark", Width: 60}, {Title: "Count", Right: true}}, Sums: 2, Notes: []string{"One carrier."}}
	for i := range rows {
		l.Rows = append(l.Rows, []string{strings.TrimSpace(strings.Repeat("a mark of some length ", i%4) + fmt.Sprintf("row-%d", i)), fmt.Sprint(i)})
	}
	return l
}

func TestAListGoesOnOnTheNextSheetUnderTheSameHeading(t *testing.T) {
	s, r := checked()
	for rows, least := range map[int]int{1: 1, 20: 1, 90: 3, 300: 8} {
		l := longList(rows)
		list, err := Sheets(s, r, l)
		if err != nil {
			t.Fatal(err)
		}
		var pages []Named
		for _, n := range list {
			if strings.Contains(n.Name, "parts") {
				pages = append(pages, n)
			}
		}
		if len(pages) < least {
			t.Errorf("%d rows stand on %d sheets, want at least %d", rows, len(pages), least)
		}
		holdsRows(t, l, pages)
		if last := list[len(list)-1].Sheet.Title; last.Sheet != len(list) || last.Sheets != len(list) {
			t.Errorf("the last sheet is %d of %d, there are %d", last.Sheet, last.Sheets, len(list))
		}
	}
}

// holdsRows holds that pages letter every row once and in order, with the
// headings, the cautions and nothing over anything else.
func holdsRows(t *testing.T, l List, pages []Named) {
	t.Helper()
	var got []string
	for i, n := range pages {
		v := n.Sheet.Views[0]
		if want := fmt.Sprintf("Parts list (sheet %d of %d)", i+1, len(pages)); len(pages) > 1 && v.Title != want {
			t.Errorf("heading %q, want %q", v.Title, want)
		}
		for _, o := range sheet.Overlaps(n.Sheet) {
			t.Errorf("%s: %v", n.Name, o)
		}
		if len(n.Sheet.Cautions) == 0 || n.Sheet.Views[0].Extents().Width() != pages[0].Sheet.Views[0].Extents().Width() {
			t.Errorf("%s: no cautions, or other columns than on the first sheet", n.Name)
		}
		texts := strings.Fields(strings.Join(lettered(v, sheet.Notes), " "))
		if texts[0] != "Mark" || texts[1] != "Count" {
			t.Errorf("%s begins with %q", n.Name, texts[:2])
		}
		got = append(got, slices.DeleteFunc(texts, func(s string) bool { return !strings.HasPrefix(s, "row-") })...)
	}
	if len(got) != len(l.Rows) {
		t.Errorf("%d of %d rows lettered", len(got), len(l.Rows))
	}
	for i, text := range got {
		if text != fmt.Sprintf("row-%d", i) {
			t.Fatalf("row %d is %q", i, text)
		}
	}
}

func TestAListWithoutRowsSaysSo(t *testing.T) {
	s, r := checked()
	list, err := Sheets(s, r, List{Name: "settings", Title: "Settings", Columns: []sheet.Column{{Title: "Adjuster"}}})
	if err != nil {
		t.Fatal(err)
	}
	if got := lettered(named(t, list, "settings").Views[0], sheet.Notes); !slices.Contains(got, "none") {
		t.Errorf("%q", got)
	}
}
