package dxf

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"unicode/utf8"

	"boxwalk/export/sheet"
)

var (
	update  = flag.Bool("update", false, "write the golden files anew")
	samples = flag.String("samples", "", "write sample sheets into this folder, for readers outside")
)

// section is a cross-section with every kind of item.
func section(title string) *sheet.View {
	outer := sheet.RectLoop(sheet.Pt(-300, -350), sheet.Pt(3348, 2750))
	opening := []sheet.Point{{150, 0}, {2898, 0}, {3048, 150}, {3048, 2250}, {2898, 2400}, {150, 2400}, {0, 2250}, {0, 150}}
	v := sheet.NewView(title)
	v.Hatch(sheet.ConcreteHatch, sheet.ConcretePattern, outer, opening)
	v.Hatch(sheet.EarthHatch, sheet.EarthPattern, sheet.RectLoop(sheet.Pt(-700, -500), sheet.Pt(3748, -350)))
	v.Hatch(sheet.Steel, sheet.Tone, sheet.RectLoop(sheet.Pt(300, 250), sheet.Pt(420, 2150)))
	v.Hatch(sheet.SteelHatch, sheet.SteelPattern, sheet.RectLoop(sheet.Pt(300, 2150), sheet.Pt(2748, 2300)))
	v.Polygon(sheet.Concrete, outer...)
	v.Polygon(sheet.Concrete, opening...)
	v.Rect(sheet.Collapsed, sheet.Pt(110, 60), sheet.Pt(2938, 2300))
	v.Circle(sheet.Hardware, sheet.Pt(360, 125), 125)
	v.Add(sheet.Arc{On: sheet.Hidden, Centre: sheet.Pt(2688, 125), Radius: 125, From: 20, To: 300})
	v.Line(sheet.Centre, sheet.Pt(1524, -600), sheet.Pt(1524, 2950))
	v.Stack(sheet.Below, -500, append(
		sheet.Chain(sheet.Pt(-300, -350), sheet.Pt(0, -350), sheet.Pt(3048, -350), sheet.Pt(3348, -350)),
		sheet.Span{From: sheet.Pt(-300, -350), To: sheet.Pt(3348, -350)})...)
	v.Stack(sheet.Right, 3748, append(
		sheet.Chain(sheet.Pt(3348, -350), sheet.Pt(3348, 0), sheet.Pt(3348, 2400), sheet.Pt(3348, 2750)),
		sheet.Span{From: sheet.Pt(3348, -350), To: sheet.Pt(3348, 2750), Suffix: " TYP"})...)
	aligned(v, sheet.Pt(-300, 1000), sheet.Pt(-700, 1600), 8)
	v.Add(sheet.Dimension{On: sheet.Clearance, From: sheet.Pt(2938, 400), To: sheet.Pt(3048, 400.25), Base: sheet.Pt(0, 400), Before: true})
	v.Note(sheet.Pt(2938, 1500), sheet.Pt(2000, 1600), "Collapsed outline,", "ø16 ≥ 2 at 5°")
	v.Arrow(sheet.Loads, sheet.Pt(700, 900), sheet.Pt(1100, 900))
	v.Text(sheet.Pt(1524, -180), sheet.MiddleCentre, "INVERT")
	return v
}

func full(paper sheet.Paper, imperial bool, views int) *sheet.Sheet {
	s := &sheet.Sheet{Paper: paper, Units: sheet.Units{Imperial: imperial, Decimals: 1}}
	s.Title = sheet.Title{Owner: "Contractor & Sons", Number: "J-1042-02", Title: "Cross-section, raised and collapsed", Supplement: "Cell 1, pour 2",
		Creator: "N. N.", Approver: "M. M.", Date: "2026-03-01", Revision: "A", Sheet: 2, Sheets: 9, DocumentType: "Setup drawing"}
	s.Cautions = []string{"Do not release until the strength or time shown is confirmed in writing.", "Filler pieces are secured before unbolting."}
	s.Stamp, s.StampReason, s.Footer = "Not cleared", "1 check fails: strip.clear, cell 1, pour 2.", "boxwalk 0, input 0123"
	for i := range views {
		s.Add(section(fmt.Sprintf("%c-%c", 'A'+i, 'A'+i)))
	}
	if views > 1 {
		s.Views[views-1].Scale = 100
		s.Add(s.Table("Settings", []sheet.Column{{Title: "Adjuster"}, {Title: "Raised", Right: true}}, [][]string{{"Low brace left", "730.6"}}))
	}
	if err := s.Arrange(); err != nil {
		panic(err)
	}
	return s
}

// aligned adds a dimension of the distance of two points, its line offset mm to
// the left of the way from the first to the second.
func aligned(v *sheet.View, a, b sheet.Point, offset float64) {
	way := b.Sub(a)
	v.Add(sheet.Dimension{On: sheet.Dimensioning, From: a, To: b, Angle: math.Atan2(way[1], way[0]) * 180 / math.Pi, Base: a, Offset: offset})
}

// small is a sheet that is short in a file.
func small() *sheet.Sheet {
	s := &sheet.Sheet{Paper: sheet.A4, Title: sheet.Title{Number: "J-1"}}
	v := sheet.NewView("A-A")
	v.Rect(sheet.Concrete, sheet.Pt(0, 0), sheet.Pt(3000, 300))
	aligned(v, sheet.Pt(0, 300), sheet.Pt(3000, 300), 10)
	aligned(v, sheet.Pt(0, 0), sheet.Pt(3000, 300), -10)
	v.Hatch(sheet.ConcreteHatch, sheet.ConcretePattern, sheet.RectLoop(sheet.Pt(0, 0), sheet.Pt(3000, 300)))
	v.Note(sheet.Pt(2300, 300), sheet.Pt(2600, 1200), "ø16 ≥ 2", "at 5°")
	if err := s.Add(v).Arrange(); err != nil {
		panic(err)
	}
	return s
}

func encode(t testing.TB, s *sheet.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Encode(&b, s); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestASmallSheetIsWrittenAsBefore(t *testing.T) {
	got, file := encode(t, small()), filepath.Join("testdata", "small.dxf")
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs; look at it and run with -update", file)
	}
}

func TestTheSameSheetGivesTheSameBytesAlsoSideBySide(t *testing.T) {
	want := encode(t, full(sheet.A1, false, 3))
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			var b bytes.Buffer
			if err := Encode(&b, full(sheet.A1, false, 3)); err != nil || !bytes.Equal(b.Bytes(), want) {
				t.Errorf("another run differs (%v)", err)
			}
		})
	}
	wait.Wait()
}

func TestSamplesForOtherReaders(t *testing.T) {
	for name, s := range map[string]*sheet.Sheet{"a3": full(sheet.A3, false, 1), "a1": full(sheet.A1, false, 3), "us-b": full(sheet.USB, true, 2),
		"hostile": hostileSheet(strings.Join(hostile, " "))} {
		doc := encode(t, s)
		if *samples == "" {
			continue
		}
		if err := os.WriteFile(filepath.Join(*samples, name+".dxf"), doc, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// ---- a reader of our own, as simple as can be: pairs, then entities ----

type pair struct {
	code  int
	value string
}

type entry struct {
	kind  string
	pairs []pair
}

func (r entry) text(code int) string {
	for _, p := range r.pairs {
		if p.code == code {
			return p.value
		}
	}
	return ""
}

func (r entry) number(t testing.TB, code int) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(r.text(code), 64)
	if err != nil {
		t.Fatalf("%s has no number %d: %v", r.kind, code, err)
	}
	return v
}

// parse splits a file into pairs and those into records at every code 0.
func parse(t testing.TB, doc []byte) []entry {
	t.Helper()
	if !utf8.Valid(doc) {
		t.Fatal("not UTF-8")
	}
	lines := strings.Split(strings.TrimSuffix(string(doc), "\n"), "\n")
	if len(lines)%2 != 0 {
		t.Fatalf("%d lines make no pairs", len(lines))
	}
	var out []entry
	for i := 0; i < len(lines); i += 2 {
		code, err := strconv.Atoi(lines[i])
		if err != nil {
			t.Fatalf("line %d: %q is no group code", i+1, lines[i])
		}
		if code == 0 {
			out = append(out, entry{kind: lines[i+1]})
			continue
		}
		last := &out[len(out)-1]
		last.pairs = append(last.pairs, pair{code, lines[i+1]})
	}
	return out
}

func kinds(records []entry) map[string]int {
	out := map[string]int{}
	for _, r := range records {
		out[r.kind]++
	}
	return out
}

func TestEveryKindOfItemBecomesItsOwnEntity(t *testing.T) {
	got := kinds(parse(t, encode(t, full(sheet.A3, false, 1))))
	// 8 in stacks, one aligned, one clearance; concrete, earth, steel and tone; note and arrow.
	for kind, want := range map[string]int{"DIMENSION": 10, "HATCH": 4, "LEADER": 2, "CIRCLE": 1, "ARC": 1, "LAYOUT": 2, "VIEWPORT": 2, "DIMSTYLE": 1, "EOF": 1} {
		if got[kind] != want {
			t.Errorf("%d %s, want %d", got[kind], kind, want)
		}
	}
	if got["MTEXT"] < 11 || got["SOLID"] != 20 {
		t.Errorf("%d MTEXT, %d SOLID", got["MTEXT"], got["SOLID"])
	}
}

func TestHandlesAreUniqueAndBelowTheSeed(t *testing.T) {
	seen, top := map[string]bool{}, int64(0)
	records := parse(t, encode(t, full(sheet.A1, false, 3)))
	for _, r := range records[1:] {
		code := 5
		if r.kind == "DIMSTYLE" {
			code = 105
		}
		h := r.text(code)
		if h == "" || r.kind == "SECTION" {
			continue
		}
		if seen[h] {
			t.Fatalf("handle %s is used twice", h)
		}
		seen[h] = true
		n, err := strconv.ParseInt(h, 16, 64)
		if err != nil {
			t.Fatal(err)
		}
		top = max(top, n)
	}
	header := records[0].pairs
	for i, p := range header {
		if p.value == "$HANDSEED" {
			if seed, _ := strconv.ParseInt(header[i+1].value, 16, 64); seed <= top {
				t.Errorf("seed %x, largest handle %x", seed, top)
			}
			return
		}
	}
	t.Error("no seed")
}

func TestEveryDimensionMeasuresTheRealThing(t *testing.T) {
	for _, imperial := range []bool{false, true} {
		s := full(sheet.A1, imperial, 3)
		var want []float64
		for _, v := range s.Views {
			for _, i := range s.Model(v) {
				if d, ok := i.(sheet.Dimension); ok {
					want = append(want, d.Value())
				}
			}
		}
		records := parse(t, encode(t, s))
		factors := map[string]float64{}
		for _, r := range records {
			if r.kind == "DIMSTYLE" {
				factors[r.text(2)] = r.number(t, 144)
			}
		}
		var got []float64
		for _, r := range records {
			if r.kind == "DIMENSION" {
				mm := remeasure(t, r) * factors[r.text(3)]
				if imperial {
					mm *= inch
				}
				got = append(got, mm)
			}
		}
		if len(got) != len(want) || len(got) != 30 {
			t.Fatalf("%d dimensions, want %d", len(got), len(want))
		}
		for i := range got {
			if math.Abs(got[i]-want[i]) > 1e-3 {
				t.Errorf("imperial %v: dimension %d measures %v mm, want %v", imperial, i, got[i], want[i])
			}
		}
	}
}

func remeasure(t *testing.T, r entry) float64 {
	x, y := r.number(t, 14)-r.number(t, 13), r.number(t, 24)-r.number(t, 23)
	if r.text(50) == "" { // aligned
		return math.Hypot(x, y)
	}
	sin, cos := math.Sincos(r.number(t, 50) * math.Pi / 180)
	return math.Abs(x*cos + y*sin)
}

func TestViewsOfTheSheetsScaleAreTrueToSize(t *testing.T) {
	for _, r := range parse(t, encode(t, small())) {
		if r.kind == "DIMENSION" && r.text(50) != "" {
			if got := r.number(t, 14) - r.number(t, 13); math.Abs(got-3000) > 1e-6 {
				t.Errorf("3000 mm are drawn %v mm long", got)
			}
			return
		}
	}
	t.Error("no rotated dimension")
}

func TestAValueStandsInTheFileWhereReadersWouldLetterItDifferently(t *testing.T) {
	says := func(s *sheet.Sheet) map[string]bool {
		out := map[string]bool{}
		for _, r := range parse(t, encode(t, s)) {
			if r.kind == "DIMENSION" {
				out[r.text(3)+": "+r.text(1)] = true
			}
		}
		return out
	}
	metric, us := says(full(sheet.A1, false, 2)), says(full(sheet.USB, true, 1))
	for _, want := range []string{"Standard: ", "Standard: <> TYP", "SCALE_1_100: 3048", "SCALE_1_100: 3100 TYP"} {
		if !metric[want] {
			t.Errorf("metric: %q is missing in %v", want, metric)
		}
	}
	if !us[`Standard: 10'-0"`] || us["Standard: "] {
		t.Errorf("imperial: %v", us)
	}
}

func TestLettersBeyondASCIISurvive(t *testing.T) {
	found := false
	for _, r := range parse(t, encode(t, small())) {
		found = found || r.kind == "MTEXT" && r.text(1) == `ø16 ≥ 2\Pat 5°`
	}
	if !found {
		t.Error("ø16 ≥ 2, at 5° is not in the file as it is")
	}
}

func TestLayersCarryLineTypeWidthAndColour(t *testing.T) {
	for _, r := range parse(t, encode(t, small())) {
		if r.kind == "LAYER" && r.text(2) == "W-COLLAPE-" {
			if r.text(6) != "DIVIDE2" || r.text(370) != "25" || r.text(62) != "1" {
				t.Errorf("%v", r.pairs)
			}
			return
		}
	}
	t.Error("no layer for the collapsed outline")
}

func TestLayersMappedToOneKeepTheirOwnLines(t *testing.T) {
	s := small()
	s.LayerNames = map[sheet.Layer]string{sheet.Concrete: "OFFICE", sheet.Collapsed: "office"}
	s.Views[0].Line(sheet.Collapsed, sheet.Pt(0, 0), sheet.Pt(1, 1))
	for _, r := range parse(t, encode(t, s)) {
		if r.kind == "LINE" && r.text(8) == "OFFICE" {
			if r.text(6) != "DIVIDE2" || r.text(62) != "1" {
				t.Errorf("%v", r.pairs)
			}
			return
		}
	}
	t.Error("no line on the office's layer")
}

func TestASheetThatCheckRefusesIsNotWritten(t *testing.T) {
	s := small()
	s.Views[0].Line(sheet.General, sheet.Pt(math.NaN(), 0), sheet.Pt(1, 1))
	var b bytes.Buffer
	if err := Encode(&b, s); err == nil || b.Len() > 0 {
		t.Errorf("error %v, %d bytes written", err, b.Len())
	}
}

func BenchmarkEncode(b *testing.B) {
	for _, n := range []int{100, 1000, 10000} {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			s := small()
			for i := range n {
				s.Views[0].Line(sheet.Steel, sheet.Pt(float64(i%3000), 0), sheet.Pt(float64(i%3000), 300))
			}
			b.ReportAllocs()
			for b.Loop() {
				encode(b, s)
			}
		})
	}
}
