package sheet

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestTextOnTextIsFound(t *testing.T) {
	for _, c := range []struct {
		name string
		b    Text
		want bool
	}{
		{"same place", Text{At: Pt(3000, 3000)}, true},
		{"one line below", Text{At: Pt(3000, 3000-50*2.5*1.4)}, false},
		{"far", Text{At: Pt(6000, 3000)}, false},
		{"turned across", Text{At: Pt(3100, 2900), Angle: 90}, true},
		{"turned, its box touches but not itself", Text{At: Pt(3950, 3030), Angle: 45}, false},
	} {
		s := &Sheet{}
		v := &View{Scale: 50, Shift: Pt(100, 60)}
		v.Add(Text{At: Pt(3000, 3000), Lines: []string{"abcdef"}})
		c.b.Lines = []string{"ghijkl"}
		v.Add(c.b)
		got := Overlaps(s.Add(v))
		if (len(got) > 0) != c.want || c.want && got[0].Kind != TextOnText {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

func TestTextOnADimensionIsFoundButNotOnItsOwn(t *testing.T) {
	s := &Sheet{}
	v := &View{Scale: 50, Shift: Pt(100, 100)}
	v.Add(Dimension{On: Dimensioning, To: Pt(4000, 0), Offset: 10})
	s.Add(v)
	if got := Overlaps(s); len(got) != 0 {
		t.Fatalf("a dimension clashes with itself: %v", got)
	}
	v.Text(Pt(500, 500), MiddleLeft, "on the line")
	got := Overlaps(s)
	if len(got) != 1 || got[0].Kind != TextOnDimension || got[0].B != "4000" {
		t.Errorf("%v", got)
	}
}

func TestTextOnALeaderIsFound(t *testing.T) {
	s := &Sheet{}
	v := &View{Scale: 50, Shift: Pt(100, 100)}
	v.Note(Pt(0, 0), Pt(4000, 0), "note")
	v.Text(Pt(2000, 0), MiddleCentre, "across")
	if got := Overlaps(s.Add(v)); len(got) != 1 || got[0].Kind != TextOnDimension {
		t.Errorf("%v", got)
	}
}

func TestTextBeyondTheAreaForViewsIsFound(t *testing.T) {
	s := &Sheet{}
	v := &View{Scale: 50, Shift: Pt(300, 20)} // over the title block
	v.Text(Pt(0, 0), MiddleCentre, "hidden behind the title block")
	found := false
	for _, o := range Overlaps(s.Add(v)) {
		found = found || o.Kind == TextOutside
	}
	if !found {
		t.Error("text over the title block is not reported")
	}
}

func TestViewsInOneAnotherOrOverTheTitleBlockAreFound(t *testing.T) {
	view := func(title string, at Point) *View {
		v := &View{Title: title, Scale: 50, Shift: at}
		v.Rect(Concrete, Pt(0, 0), Pt(3000, 3000))
		return v
	}
	s := &Sheet{}
	s.Add(view("good", Pt(50, 150)), view("on it", Pt(70, 150)), view("on the title block", Pt(330, 30)))
	kinds := map[Clash]string{}
	for _, o := range Overlaps(s) {
		kinds[o.Kind] = o.A
	}
	if len(kinds) < 2 || kinds[ViewOnView] != "good" || kinds[ViewOutside] != "on the title block" {
		t.Errorf("%v", kinds)
	}
}

func TestOutlinesApartAgreeWithSampling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		outline := func(name string) []Point {
			return Text{At: Pt(rapid.Float64Range(-20, 20).Draw(t, name+"x"), rapid.Float64Range(-20, 20).Draw(t, name+"y")), Height: 3,
				Angle: rapid.Float64Range(-180, 180).Draw(t, name+"angle"), Lines: []string{"abcdefgh"}}.Outline()
		}
		a, b := outline("a"), outline("b")
		gap := apart(a, b)
		nearest := math.Inf(1)
		for i := range 21 {
			for j := range 21 {
				p := corner(a, float64(i)/20, float64(j)/20)
				nearest = math.Min(nearest, apart([]Point{p, p.Add(Pt(1e-12, 0))}, b))
			}
		}
		if gap > 0 && nearest < -1e-6 {
			t.Fatalf("said to be %v apart, but share a point", gap)
		}
		if gap < -1.5 && nearest > 0 { // grid spacing is about 1 mm
			t.Fatalf("said to overlap by %v, but no sampled point is shared", -gap)
		}
	})
}

func corner(outline []Point, u, v float64) Point {
	return outline[0].Add(outline[1].Sub(outline[0]).Mul(u)).Add(outline[3].Sub(outline[0]).Mul(v))
}
