package sheet

import (
	"math"
	"testing"
)

func TestFlatHoldsOnlyWhatAWriterDraws(t *testing.T) {
	s := &Sheet{Cautions: someCautions}
	v := NewView("all kinds")
	v.Line(General, Pt(0, 0), Pt(3000, 0))
	v.Circle(Hardware, Pt(0, 0), 125)
	v.Add(Arc{Hardware, Pt(0, 0), 300, 10, 80})
	v.Hatch(EarthHatch, EarthPattern, RectLoop(Pt(0, -300), Pt(3000, 0)))
	v.Note(Pt(0, 0), Pt(500, 500), "note")
	v.Stack(Above, 0, Chain(Pt(0, 0), Pt(1000, 0), Pt(3000, 0))...)
	if err := s.Add(v).Arrange(); err != nil {
		t.Fatal(err)
	}
	last := 0
	for _, i := range s.Flat() {
		switch i.(type) {
		case Line, Polyline, Circle, Arc, Text, Hatch:
		default:
			t.Fatalf("%T is left", i)
		}
		if depth(i) < last {
			t.Fatalf("%T is drawn in front of what lies before it", i)
		}
		last = depth(i)
	}
}

func TestPaperMillimetresAreModelMillimetresByTheScale(t *testing.T) {
	s := &Sheet{}
	v := &View{Scale: 20, Shift: Pt(100, 50)}
	v.Line(General, Pt(0, 0), Pt(3000, 400))
	got := s.OnPaper(v)[0].(Line)
	if got.A != Pt(100, 50) || got.B.Sub(Pt(250, 70)).Len() > 1e-12 {
		t.Errorf("%v", got)
	}
}

func TestASheetThatCannotBeDrawnTrulyIsRefused(t *testing.T) {
	good := func() *View {
		v := &View{Title: "v", Scale: 50}
		v.Line(General, Pt(0, 0), Pt(1, 1))
		return v
	}
	for name, spoil := range map[string]func(v *View){
		"no scale":        func(v *View) { v.Scale = 0 },
		"scale NaN":       func(v *View) { v.Scale = math.NaN() },
		"place infinite":  func(v *View) { v.Shift[0] = math.Inf(1) },
		"line NaN":        func(v *View) { v.Line(General, Pt(0, math.NaN()), Pt(1, 1)) },
		"dimension NaN":   func(v *View) { v.Add(Dimension{To: Pt(math.NaN(), 0), Offset: 8}) },
		"offset infinite": func(v *View) { v.Add(Dimension{To: Pt(1, 0), Offset: math.Inf(1)}) },
		"stack NaN":       func(v *View) { v.Stack(Above, 0, Span{To: Pt(math.NaN(), 0)}) },
		"hatch infinite":  func(v *View) { v.Hatch(General, Tone, []Point{{0, 0}, {math.Inf(1), 0}, {1, 1}}) },
		"circle NaN":      func(v *View) { v.Circle(General, Pt(0, 0), math.NaN()) },
		"circle inverted": func(v *View) { v.Circle(General, Pt(0, 0), -1) },
		"another planet":  func(v *View) { v.Line(General, Pt(0, 0), Pt(1e12, 0)) },
	} {
		v := good()
		spoil(v)
		if err := (&Sheet{}).Add(v).Check(); err == nil {
			t.Errorf("%s is not refused", name)
		}
	}
	if err := (&Sheet{}).Add(good()).Check(); err != nil {
		t.Error(err)
	}
}
