package views

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/export/sheet"
	"boxwalk/export/svg"
	"boxwalk/model"
	"boxwalk/model/geom"
)

var update = flag.Bool("update", false, "write golden files")

const onePour = "../../testdata/jobs/one-pour/job.yaml"

// justSheets are the drawings without the pictures.
func justSheets(t *testing.T, s *model.Study, r *result.Result) []Named {
	t.Helper()
	list, err := Sheets(s, r)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// checked is the small job with its result, worked out once.
var checked = sync.OnceValues(func() (*model.Study, *result.Result) {
	s := load(nil, onePour)
	return s, check.Run(s, check.Options{Version: "test", Inputs: []result.Input{{Name: "job.yaml", SHA256: "00112233445566778899"}}})
})

func allSheets(t *testing.T, s *model.Study, r *result.Result) []Named {
	t.Helper()
	lists := jobLists(s, r)
	list, err := Sheets(s, r, lists...)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range lists {
		named(t, list, l.Name)
	}
	pictures, err := Pictures(s, r)
	if err != nil {
		t.Fatal(err)
	}
	return append(list, pictures...)
}

func TestNoSheetOfAnyJobLettersOverAnything(t *testing.T) {
	jobs, err := filepath.Glob("../../testdata/jobs/*/job.yaml")
	if err != nil || len(jobs) == 0 {
		t.Fatal("no jobs", err)
	}
	for i, path := range jobs {
		if i%worked.Campaign(5, 1) != 0 {
			continue
		}
		s := load(t, path)
		r := check.Run(s, check.Options{Version: "test", Only: []string{"strip.clear"}})
		for _, n := range allSheets(t, s, r) {
			if err := n.Sheet.Check(); err != nil {
				t.Errorf("%s %s: %v", path, n.Name, err)
			}
			for _, o := range sheet.Overlaps(n.Sheet) {
				t.Errorf("%s %s: %v", path, n.Name, o)
			}
			if n.Sheet.Stamp != "NOT CLEARED" || !strings.Contains(n.Sheet.StampReason, "strip.clear") {
				t.Errorf("%s %s: only strip.clear was checked, stamp %q %q", path, n.Name, n.Sheet.Stamp, n.Sheet.StampReason)
			}
			if n.Sheet.Footer == "" {
				t.Errorf("%s %s: no footer", path, n.Name)
			}
			if n.Sheet.Title.Approver != "" || n.Sheet.Title.Date != "" {
				t.Errorf("%s %s: not cleared, and approved by %q, issued on %q", path, n.Name, n.Sheet.Title.Approver, n.Sheet.Title.Date)
			}
			holdsCautions(t, path, n, r)
		}
	}
}

// holdsCautions: the index has every caution and reservation, every other sheet those
// that come first and where the index is.
func holdsCautions(t *testing.T, path string, n Named, r *result.Result) {
	t.Helper()
	want := slices.Concat(r.Cautions, r.Reservations())
	if !strings.HasSuffix(n.Name, "-index") && strings.HasPrefix(n.Name, n.Sheet.Title.Number[len(n.Sheet.Title.Number)-2:]+"-") {
		want = r.Cautions[:2]
		if !slices.ContainsFunc(n.Sheet.Cautions, func(c string) bool { return strings.Contains(c, "-01: read it before this one") }) {
			t.Errorf("%s %s does not point to the index", path, n.Name)
		}
		for _, l := range r.Looser {
			want = append(want, "Set looser than the default: "+l.Text+".")
		}
	}
	for _, w := range want {
		if !slices.Contains(n.Sheet.Cautions, w) {
			t.Errorf("%s %s does not say %q", path, n.Name, w)
		}
	}
}

// The first step of the sequence waits for a written release, on paper as in the list.
func TestTheSequenceBeginsWithAHold(t *testing.T) {
	s := load(t, onePour)
	sheets, err := Sheets(s, check.Run(s, check.Options{Version: "test"}))
	if err != nil {
		t.Fatal(err)
	}
	said := ""
	for _, i := range named(t, sheets, "sequence").Views[0].Items {
		if text, ok := i.(sheet.Text); ok {
			said += strings.Join(text.Lines, " ") + " "
		}
	}
	hold, say := strings.Index(said, "HOLD: Written release"), strings.Index(said, "draw the ties")
	if hold < 0 || say < hold {
		t.Errorf("the hold is at %d, what the crew does at %d in %q", hold, say, said)
	}
}

func TestAWholeRoofIsDrawnToo(t *testing.T) {
	gears, err := filepath.Glob("../../testdata/gear/roof-whole*.yaml")
	if err != nil || len(gears) == 0 {
		t.Fatal("no gear", err)
	}
	for _, gear := range gears {
		s := load(t, onePour, gear)
		list := allSheets(t, s, check.Run(s, check.Options{Version: "test"}))
		for _, n := range list {
			for _, o := range sheet.Overlaps(n.Sheet) {
				t.Errorf("%s %s: %v", gear, n.Name, o)
			}
		}
		fillers := 0
		for _, d := range dimensions(named(t, list, "section-raised")) {
			if d.Suffix == " filler" {
				fillers++
			}
		}
		if fillers != 1 {
			t.Errorf("%s: %d dimensions of the edge filler, want 1", gear, fillers)
		}
	}
}

func named(t *testing.T, list []Named, part string) *sheet.Sheet {
	t.Helper()
	for _, n := range list {
		if strings.Contains(n.Name, part) {
			return n.Sheet
		}
	}
	t.Fatalf("no sheet %q", part)
	return nil
}

func dimensions(s *sheet.Sheet) []sheet.Dimension {
	var out []sheet.Dimension
	for _, v := range s.Views {
		for _, i := range s.Model(v) {
			if d, ok := i.(sheet.Dimension); ok {
				out = append(out, d)
			}
		}
	}
	return out
}

func TestEveryZonesClearanceIsDimensionedAsTheCheckSays(t *testing.T) {
	s, r := checked()
	o := &drafter{study: s, result: r}
	zones := o.governing(o.cells()[0].bay())
	if len(zones) != 7 {
		t.Fatalf("%d zones, want 7", len(zones))
	}
	var drawn []float64
	for _, d := range dimensions(named(t, justSheets(t, s, r), "section-collapsed")) {
		if d.On == sheet.Clearance {
			drawn = append(drawn, d.Value())
		}
	}
	if len(drawn) != len(zones) {
		t.Errorf("%d clearance dimensions for %d zones", len(drawn), len(zones))
	}
	for _, z := range zones {
		found := false
		for _, v := range drawn {
			found = found || math.Abs(v-1000*z.Value.Lower) < 0.1
		}
		if !found {
			t.Errorf("%s: %.3f mm is not among %v", z.Subject, 1000*z.Value.Lower, drawn)
		}
	}
}

func TestRaisedDimensionsAreTheModelsNumbers(t *testing.T) {
	s, r := checked()
	list := dimensions(named(t, justSheets(t, s, r), "section-raised"))
	c := s.Bays[0].Carrier
	inside := map[string]bool{" jack": true, " foot": true, " in tube": true}
	for suffix, want := range map[string]float64{" span": 3, " rise": 2.4, " kicker": 0.3, " gauge": c.Gauge, " filler": c.Filler, " header": c.Header,
		" jack": c.Jack, " foot": c.Foot, " roof panel": c.Panel, " in tube": float64(c.Gear.Frame.Header.Length)/2 - c.ArmInner} {
		found := false
		for _, d := range list {
			// inside the section the word may give way to room
			found = found || (d.Suffix == suffix || d.Suffix == "" && inside[suffix]) && math.Abs(d.Value()-1000*want) < 1e-6
		}
		if !found {
			t.Errorf("no dimension%s of %.1f", suffix, 1000*want)
		}
	}
}

func TestAClearJobHasNoStampAndAnOpenOneSaysWhy(t *testing.T) {
	s, r := checked()
	o := &drafter{study: s, result: r}
	if stamp, _ := o.stamp(); r.Verdict == result.Pass && stamp != "" {
		t.Errorf("a job that passes is stamped %q", stamp)
	}
	for _, v := range []result.Verdict{result.Open, result.Fail} {
		o.result = &result.Result{Verdict: v, Checks: []result.Entry{{ID: "roll.hold", Subject: result.Subject{What: "restraint"}, Verdict: v}}}
		if stamp, why := o.stamp(); stamp != "NOT CLEARED" || !strings.Contains(why, "roll.hold, restraint") {
			t.Errorf("%v: %q %q", v, stamp, why)
		}
	}
	o.result = &result.Result{Verdict: result.Pass, Scope: []string{"strip"}}
	if stamp, why := o.stamp(); stamp != "NOT CLEARED" || !strings.Contains(why, "Only strip") {
		t.Errorf("scope: %q %q", stamp, why)
	}
	o.result = &result.Result{}
	if stamp, why := o.stamp(); stamp != "NOT CLEARED" || why != "Nothing was checked." {
		t.Errorf("nothing: %q %q", stamp, why)
	}
}

func TestTheSameStudyGivesTheSameBytes(t *testing.T) {
	s, r := checked()
	a, b := allSheets(t, s, r), allSheets(t, load(t, onePour), r)
	for i := range a {
		var p, q bytes.Buffer
		if err := svg.Encode(&p, a[i].Sheet); err != nil {
			t.Fatal(err)
		}
		if err := svg.Encode(&q, b[i].Sheet); err != nil {
			t.Fatal(err)
		}
		if a[i].Name != b[i].Name || !bytes.Equal(p.Bytes(), q.Bytes()) {
			t.Errorf("%s differs from run to run", a[i].Name)
		}
	}
}

func TestEntityCountsStayAsTheyWere(t *testing.T) {
	s, r := checked()
	got := map[string]map[string]int{}
	for _, n := range allSheets(t, s, r) {
		got[n.Name] = map[string]int{}
		for _, v := range n.Sheet.Views {
			for _, i := range n.Sheet.Model(v) {
				got[n.Name][strings.TrimPrefix(fmt.Sprintf("%T", i), "sheet.")]++
			}
		}
	}
	text, err := json.MarshalIndent(got, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	const golden = "testdata/one-pour-entities.json"
	if *update {
		if err := os.WriteFile(golden, append(text, '\n'), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(append(text, '\n'), want) {
		t.Errorf("entities differ from %s; look at the drawings, then -update:\n%s", golden, text)
	}
}

func TestSectionOfAPrismIsItsOutline(t *testing.T) {
	outline := []geom.Point2{{0, 0}, {2, 0}, {2, 1}, {1, 2}, {0, 1}}
	p := geom.Prism(outline, -1, 3)
	for _, c := range []float64{-1, -1 + 1e-12, -0.5, 0, 2} { // where it begins, it is seen looking ahead
		if got := section(p, c); len(got) != len(outline) || math.Abs(area(got)-area(outline)) > 1e-12 {
			t.Errorf("x = %v: %v", c, got)
		}
	}
	for _, c := range []float64{-1.1, 3, 3 - 1e-12, 3.1} {
		if got := section(p, c); got != nil {
			t.Errorf("x = %v: %v, want none", c, got)
		}
	}
}

func area(p []geom.Point2) float64 {
	a := 0.0
	for i, q := range p {
		a += cross(q, p[(i+1)%len(p)]) / 2
	}
	return a
}

func TestTakingAHoleAwayKeepsTheRestOfTheArea(t *testing.T) {
	square := sheet.RectLoop(sheet.Pt(0, 0), sheet.Pt(100, 100))
	for _, c := range []struct {
		hole []sheet.Point
		left float64
	}{
		{sheet.RectLoop(sheet.Pt(20, 20), sheet.Pt(40, 50)), 10000 - 600},
		{sheet.RectLoop(sheet.Pt(-50, -50), sheet.Pt(200, 50)), 5000},
		{sheet.RectLoop(sheet.Pt(-1, -1), sheet.Pt(101, 101)), 0},
		{sheet.RectLoop(sheet.Pt(200, 0), sheet.Pt(300, 10)), 10000},
		{[]sheet.Point{{50, 0}, {100, 50}, {50, 100}, {0, 50}}, 5000},
	} {
		got := 0.0
		for _, p := range without([][]sheet.Point{square}, hull(c.hole)) {
			got += math.Abs(area(p))
		}
		if math.Abs(got-c.left) > 1e-6 {
			t.Errorf("hole %v leaves %.3f, want %.3f", c.hole, got, c.left)
		}
	}
}

func TestCalloutArrowsDoNotCross(t *testing.T) {
	s := &sheet.Sheet{}
	v := sheet.NewView("")
	var list []callout
	for i := range 12 {
		list = append(list, callout{sheet.Pt(float64(i*37%100), float64(i*61%100)), fmt.Sprint(i)})
	}
	column(s, v, list, 150, 100, 1)
	var lines outlines
	for _, i := range v.Items {
		l := i.(sheet.Leader)
		arrow := []sheet.Point{l.Tip, l.Knee}
		if lines.met(arrow, 1) > 0 {
			t.Errorf("%v crosses another", l.Lines)
		}
		lines.add(arrow...)
	}
	if len(lines.of) != len(list) {
		t.Errorf("%d of %d labels", len(lines.of), len(list))
	}
}
