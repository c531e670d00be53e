package dxf

import (
	"os"
	"testing"

	"boxwalk/export/sheet"
	"boxwalk/export/svg"
)

func section(s *sheet.Sheet, title string) *sheet.View {
	outer := sheet.RectLoop(sheet.Pt(-300, -350), sheet.Pt(3348, 2750))
	opening := []sheet.Point{{150, 0}, {2898, 0}, {3048, 150}, {3048, 2250}, {2898, 2400}, {150, 2400}, {0, 2250}, {0, 150}}
	v := sheet.NewView(title)
	v.Hatch(sheet.ConcreteHatch, sheet.ConcretePattern, outer, opening)
	v.Hatch(sheet.EarthHatch, sheet.EarthPattern, sheet.RectLoop(sheet.Pt(-700, -500), sheet.Pt(3748, -350)))
	v.Line(sheet.Earth, sheet.Pt(-700, -350), sheet.Pt(-300, -350))
	v.Line(sheet.Earth, sheet.Pt(3348, -350), sheet.Pt(3748, -350))
	v.Polygon(sheet.Concrete, outer...)
	v.Polygon(sheet.Concrete, opening...)
	v.Rect(sheet.Collapsed, sheet.Pt(110, 60), sheet.Pt(2938, 2300))
	v.Rect(sheet.Steel, sheet.Pt(300, 250), sheet.Pt(420, 2150))
	v.Rect(sheet.Steel, sheet.Pt(2628, 250), sheet.Pt(2748, 2150))
	v.Hatch(sheet.SteelHatch, sheet.SteelPattern, sheet.RectLoop(sheet.Pt(300, 2150), sheet.Pt(2748, 2300)))
	v.Rect(sheet.Steel, sheet.Pt(300, 2150), sheet.Pt(2748, 2300))
	v.Rect(sheet.Panel, sheet.Pt(0, 160), sheet.Pt(60, 2240))
	v.Rect(sheet.Panel, sheet.Pt(2988, 160), sheet.Pt(3048, 2240))
	v.Circle(sheet.Hardware, sheet.Pt(360, 125), 125)
	v.Circle(sheet.Hardware, sheet.Pt(2688, 125), 125)
	v.Hatch(sheet.Hardware, sheet.Tone, sheet.RectLoop(sheet.Pt(320, 400), sheet.Pt(400, 600)))
	v.Arc(sheet.Hidden, sheet.Pt(1524, 1200), 300, 20, 300)
	v.Line(sheet.Hidden, sheet.Pt(420, 1200), sheet.Pt(2628, 1200))
	v.Line(sheet.Centre, sheet.Pt(1524, -600), sheet.Pt(1524, 2950))
	v.Stack(sheet.Below, -500, append(
		sheet.Chain(sheet.Pt(-300, -350), sheet.Pt(0, -350), sheet.Pt(3048, -350), sheet.Pt(3348, -350)),
		sheet.Span{From: sheet.Pt(-300, -350), To: sheet.Pt(3348, -350)})...)
	v.Stack(sheet.Right, 3748, append(
		sheet.Chain(sheet.Pt(3348, -350), sheet.Pt(3348, 0), sheet.Pt(3348, 2400), sheet.Pt(3348, 2750)),
		sheet.Span{From: sheet.Pt(3348, -350), To: sheet.Pt(3348, 2750), Suffix: " TYP"})...)
	v.DimAligned(sheet.Pt(-300, 1000), sheet.Pt(-700, 1600), 8)
	v.Add(sheet.Dimension{On: sheet.Clearance, From: sheet.Pt(2938, 800), To: sheet.Pt(3048, 800), Base: sheet.Pt(0, 800), Before: true})
	v.Note(sheet.Pt(2938, 1500), sheet.Pt(2000, 1550), "Collapsed outline,", "ø16 ≥ 2 at 5°")
	v.Arrow(sheet.Loads, sheet.Pt(700, 500), sheet.Pt(1100, 500))
	v.Text(sheet.Pt(1000, 900), sheet.MiddleCentre, "Cell 1", "3048 x 2400")
	v.Text(sheet.Pt(1524, -180), sheet.MiddleCentre, "INVERT")
	s.Add(v)
	return v
}

func sample(paper sheet.Paper, imperial bool) *sheet.Sheet {
	s := &sheet.Sheet{Paper: paper, Units: sheet.Units{Imperial: imperial, Decimals: 1}}
	s.Title = sheet.Title{Owner: "Contractor & Sons", Number: "J-1042-02", Title: "Cross-section, raised and collapsed", Supplement: "Cell 1, pour 2, looking ahead",
		Creator: "N. N.", Approver: "M. M.", Date: "2026-03-01", Revision: "A", Sheet: 2, Sheets: 9, DocumentType: "Setup drawing"}
	s.Cautions = []string{
		"Check before use by a qualified engineer; local codes, the project specification and the engineer of record govern.",
		"Do not release until the strength or time shown is confirmed in writing.",
		"Before the wheels carry: only named persons at marked stations, outside panel swing and filler drop; one signaller; passes of at most 10 mm.",
		"Filler pieces are secured before unbolting.",
		"Wall panels press inward once the bond breaks: never pull the last brace pin.",
		"Hold-back on and wheels chocked before jack plates leave the invert.",
		"While rolling: nobody between carrier and concrete or in the line's snap-back zone.",
	}
	s.Stamp, s.StampReason = "Not cleared", "2 checks fail: strip.clear, cell 1, pour 2, bottom haunch, collapsed; roll.grade, pour 3."
	s.Footer = "boxwalk 0.1.0, input sha256 0123456789abcdef0123456789abcdef"
	return s
}

func TestSamples(t *testing.T) {
	for _, c := range []struct {
		name     string
		paper    sheet.Paper
		imperial bool
		views    int
	}{{"a3", sheet.A3, false, 1}, {"a1", sheet.A1, false, 3}, {"a4", sheet.A4, false, 1}, {"usb", sheet.USB, true, 2}} {
		s := sample(c.paper, c.imperial)
		for i := range c.views {
			v := section(s, string(rune('A'+i))+"-"+string(rune('A'+i)))
			if i == 2 {
				v.Scale = 100
			}
		}
		if c.views > 1 {
			s.Add(s.Table("Settings", []sheet.Column{{Title: "Adjuster"}, {Title: "Raised", Right: true}, {Title: "Collapsed", Right: true}},
				[][]string{{"Low brace left", "730.6", "590"}, {"Low brace right", "730.6", "590"}}))
		}
		if err := s.Arrange(); err != nil {
			t.Fatal(c.name, err)
		}
		for _, o := range sheet.Overlaps(s) {
			t.Log(c.name, o)
		}
		f, _ := os.Create("/tmp/sheets/" + c.name + ".dxf")
		if err := Encode(f, s); err != nil {
			t.Fatal(err)
		}
		f.Close()
		f, _ = os.Create("/tmp/sheets/" + c.name + ".svg")
		if err := svg.Encode(f, s); err != nil {
			t.Fatal(err)
		}
		f.Close()
	}
}
