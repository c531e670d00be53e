package views

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/export/sheet"
	"boxwalk/model"
)

// formOf is the small job without hangers, its pour as long as the form, with a
// gear whose form is changed.
func formOf(t *testing.T, gear, form, wheels, pads string) *model.Study {
	t.Helper()
	folder := t.TempDir()
	text := func(path string, swap ...[2]string) string {
		b, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		s := string(b)
		for _, w := range swap {
			if !strings.Contains(s, w[0]) {
				t.Fatalf("%s has no %q", path, w[0])
			}
			s = strings.ReplaceAll(s, w[0], w[1])
		}
		return s
	}
	put := func(name, text string) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	g := put("gear.yaml", text(gear, [2]string{"length: 9.30 m, bents: 8, spacing: 1200 mm, first: 450 mm, piece: 2.4 m", form},
		[2]string{"[1.35 m, 7.95 m]", wheels}, [2]string{"[1.05 m, 3.45 m, 5.85 m, 8.25 m]", pads}))
	return load(t, put("job.yaml", text(onePour, [2]string{"pours: [9 m]", "pours: [3.6 m]"},
		[2]string{"left_in_place:\n  hangers: {at: bents, lines: [0 m], plate: 200 x 200 x 20 mm, rod: 25 mm, tail: 50 mm, rod_capacity: 80 kN, plate_stress: 160 MPa, beam: {moment: 60 kNm, shear: 60 kN, bears: 200 x 150 mm}}\n", ""})), g)
}

// lines are the lines, outlines and leaders' tips of a sheet's sections.
func lines(s *sheet.Sheet) []string {
	var out []string
	at := func(p sheet.Point) string { return fmt.Sprintf("%.3f %.3f", p[0]+0, p[1]+0) }
	for _, v := range s.Views {
		for _, i := range v.Items {
			switch i := i.(type) {
			case sheet.Line:
				ends := []string{at(i.A), at(i.B)}
				slices.Sort(ends)
				out = append(out, fmt.Sprint("line ", i.On, ends))
			case sheet.Polyline:
				text := fmt.Sprint("outline ", i.On)
				for _, p := range i.Points {
					text += ", " + at(p)
				}
				out = append(out, text)
			case sheet.Leader:
				out = append(out, "leader "+at(i.Tip))
			}
		}
	}
	slices.Sort(out)
	return out
}

// count of the lines of a layer.
func countOn(s *sheet.Sheet, on sheet.Layer) int {
	n := 0
	for _, v := range s.Views {
		for _, i := range v.Items {
			switch i := i.(type) {
			case sheet.Line:
				if i.On == on {
					n++
				}
			case sheet.Polyline:
				if i.On == on {
					n++
				}
			}
		}
	}
	return n
}

// A form of 3.6 m has bents at 0.6, 1.8 and 3.0 m, and the middle one is drawn.
// In pieces of 1.8 m its panels meet there; in pieces of 1.2 m they meet at 1.2
// and 2.4 m, beside it: what is seen of a section is the same. With bents at
// 2.4 and 3.6 m the drawn one stands at the form's front end, where no piece is
// ahead.
func TestASectionThroughAPanelJointShowsThePanels(t *testing.T) {
	for _, gear := range []string{"roof-halves-24", "roof-whole-24", "roof-whole-24-jacks"} {
		path := "../../testdata/gear/" + gear + ".yaml"
		three := "length: 3.6 m, bents: 3, spacing: 1200 mm, first: 600 mm, piece: "
		two := "length: 3.6 m, bents: 2, spacing: 1200 mm, first: 2400 mm, piece: 1.8 m"
		form := func(f string, pads string) []Named {
			s := formOf(t, path, f, "[0.3 m, 3.3 m]", pads)
			return justSheets(t, s, check.Run(s, check.Options{Version: "test", Only: []string{"strip.clear"}}))
		}
		beside, joint, end := form(three+"1.2 m", "[1.2 m, 2.4 m]"), form(three+"1.8 m", "[1.2 m, 2.4 m]"), form(two, "[0.9 m, 3 m]")
		for i, n := range beside {
			if !strings.Contains(n.Name, "section-raised") && !strings.Contains(n.Name, "section-collapsed") && !strings.Contains(n.Name, "sequence") {
				continue
			}
			if drawn := countOn(n.Sheet, sheet.Panel); drawn < 15 {
				t.Fatalf("%s %s: only %d lines of panels beside a joint", gear, n.Name, drawn)
			}
			if got, want := lines(joint[i].Sheet), lines(n.Sheet); !slices.Equal(got, want) {
				t.Errorf("%s %s, at a joint: %d lines, %d beside it; %s", gear, n.Name, len(got), len(want), firstOther(got, want))
			}
			for _, on := range []sheet.Layer{sheet.Panel, sheet.Collapsed} {
				if got, want := countOn(end[i].Sheet, on), countOn(n.Sheet, on); got != want {
					t.Errorf("%s %s, at the form's end: %d lines on layer %v, want %d", gear, n.Name, got, on, want)
				}
			}
		}
	}
}

// firstOther names the first line that only one of two lists has.
func firstOther(got, want []string) string {
	for _, l := range got {
		if !slices.Contains(want, l) {
			return "only at the joint: " + l
		}
	}
	for _, l := range want {
		if !slices.Contains(got, l) {
			return "only beside it: " + l
		}
	}
	return "some twice"
}
