package sheet_test

import (
	"fmt"

	"boxwalk/export/sheet"
)

// Example builds a cross-section sheet: concrete with hatching, the collapsed
// outline, dimensions, notes, cautions, and the stamp of a job that is not clear.
// A writer then takes it: dxf.Encode(w, s) or svg.Encode(w, s).
func Example() {
	s := &sheet.Sheet{
		Paper: sheet.A3,
		Title: sheet.Title{
			Owner: "Contractor", Number: "J-1042-02", Title: "Cross-section", Supplement: "Cell 1, pour 2",
			Creator: "N. N.", Approver: "", Date: "2026-03-01", Revision: "A",
			Sheet: 2, Sheets: 9, DocumentType: "Setup drawing",
		},
		Cautions: []string{
			"Check before use by a qualified engineer; the project specification and the engineer of record govern.",
			"Do not release until the strength or time shown is confirmed in writing.",
		},
		Stamp:       "Not cleared",
		StampReason: "1 check fails: strip.clear, cell 1, pour 2, bottom haunch, collapsed.",
		Footer:      "boxwalk 0.1.0, input sha256 0123456789abcdef",
	}

	outer := sheet.RectLoop(sheet.Pt(-300, -350), sheet.Pt(3300, 2750))
	opening := []sheet.Point{{150, 0}, {2850, 0}, {3000, 150}, {3000, 2250}, {2850, 2400}, {150, 2400}, {0, 2250}, {0, 150}}
	v := sheet.NewView("Raised and collapsed")
	v.Hatch(sheet.ConcreteHatch, sheet.ConcretePattern, outer, opening)
	v.Polygon(sheet.Concrete, outer...)
	v.Polygon(sheet.Concrete, opening...)
	v.Rect(sheet.Collapsed, sheet.Pt(110, 60), sheet.Pt(2890, 2300))
	v.Line(sheet.Centre, sheet.Pt(1500, -500), sheet.Pt(1500, 2900))

	// A stack finds its own lines: the chain next to the section, the total outside.
	v.Stack(sheet.Below, -350, append(
		sheet.Chain(sheet.Pt(-300, -350), sheet.Pt(0, -350), sheet.Pt(3000, -350), sheet.Pt(3300, -350)),
		sheet.Span{From: sheet.Pt(-300, -350), To: sheet.Pt(3300, -350)})...)
	v.Add(sheet.Dimension{On: sheet.Dimensioning, From: sheet.Pt(3300, -350), To: sheet.Pt(3300, 2750), Angle: 90, Base: sheet.Pt(3300, 0), Offset: -10})
	v.Note(sheet.Pt(2890, 1500), sheet.Pt(1900, 1300), "Collapsed outline")
	v.Text(sheet.Pt(750, 2000), sheet.MiddleCentre, "Cell 1", "3000 x 2400")

	if err := s.Add(v).Arrange(); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(s.Units.ScaleText(v.Scale))
	for _, i := range s.Model(v) {
		if d, ok := i.(sheet.Dimension); ok {
			fmt.Println(s.Label(d))
		}
	}
	fmt.Println("overlaps:", len(sheet.Overlaps(s)))
	// Output:
	// 1:20
	// 300
	// 300
	// 3000
	// 3600
	// 3100
	// overlaps: 0
}
