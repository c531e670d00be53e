package sheet

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func drawnBox(s *Sheet, v *View) Box { return paperBox(append(s.OnPaper(v), s.captionItems(v)...)) }

func TestArrangedViewsFitTheirAreaApartFromEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := &Sheet{Paper: rapid.SampledFrom([]Paper{A1, A2, A3}).Draw(t, "paper"), Cautions: someCautions, Stamp: "NOT CLEARED"}
		s.Units.Imperial = rapid.Bool().Draw(t, "imperial")
		for i := range rapid.IntRange(1, 5).Draw(t, "views") {
			w, h := rapid.Float64Range(1500, 9000).Draw(t, "w"), rapid.Float64Range(1500, 6000).Draw(t, "h")
			v := NewView(strings.Repeat("view ", i+1))
			at := Pt(rapid.Float64Range(-1e5, 1e5).Draw(t, "x"), -300)
			v.Rect(Concrete, at, at.Add(Pt(w, h)))
			v.Stack(Below, at[1], Chain(at, at.Add(Pt(w/8, 0)), at.Add(Pt(w, 0)))...)
			s.Add(v)
		}
		if err := s.Arrange(); err != nil {
			t.Skip(err)
		}
		l, err := s.Layout()
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range s.Views {
			box := drawnBox(s, v)
			if !l.Views.Holds(box) || !slices.Contains(s.Units.Scales(), v.Scale) {
				t.Fatalf("view %d at 1:%v covers %v of %v", i, v.Scale, box, l.Views)
			}
			for _, o := range s.Views[i+1:] {
				if apart(box.corners(), drawnBox(s, o).corners()) < 0 {
					t.Fatalf("views %q and %q overlap", v.Title, o.Title)
				}
			}
		}
	})
}

func TestViewsOfOneScaleInARowStandOnOneLevel(t *testing.T) {
	s := &Sheet{}
	for range 2 {
		v := NewView("section")
		v.Rect(Concrete, Pt(0, 0), Pt(3000, 2700))
		s.Add(v)
	}
	s.Views[1].Stack(Below, 0, Span{From: Pt(0, 0), To: Pt(3000, 0)})
	if err := s.Arrange(); err != nil {
		t.Fatal(err)
	}
	if a, b := s.Views[0], s.Views[1]; a.Shift[1] != b.Shift[1] || a.Scale != b.Scale {
		t.Errorf("levels %v and %v, scales %v and %v", a.Shift[1], b.Shift[1], a.Scale, b.Scale)
	}
}

func TestAScaleThatIsSetIsKept(t *testing.T) {
	s := &Sheet{}
	a, b := NewView("a"), NewView("b")
	for _, v := range []*View{a, b} {
		v.Rect(Concrete, Pt(0, 0), Pt(2000, 2000))
	}
	b.Scale = 25
	if err := s.Add(a, b).Arrange(); err != nil {
		t.Fatal(err)
	}
	if b.Scale != 25 || a.Scale == 25 {
		t.Errorf("scales %v and %v", a.Scale, b.Scale)
	}
}

func TestArrangeRefusesWhatWouldNotBeLegible(t *testing.T) {
	s := &Sheet{Paper: A4}
	for range 30 {
		v := NewView("v")
		v.Rect(Concrete, Pt(0, 0), Pt(9000, 6000))
		s.Add(v)
	}
	if err := s.Arrange(); err == nil || !strings.Contains(err.Error(), "30 views") {
		t.Errorf("got %v", err)
	}
}

func TestATableIsRuledAndReadsInOrder(t *testing.T) {
	s := &Sheet{}
	v := s.Table("Settings", []Column{{Title: "Adjuster"}, {Title: "Raised", Right: true}}, [][]string{{"Low brace left", "730.6"}, {"x"}})
	if err := s.Add(v).Arrange(); err != nil {
		t.Fatal(err)
	}
	if o := Overlaps(s); len(o) != 0 || strings.Contains(s.caption(v), "1:") {
		t.Errorf("%v, caption %q", o, s.caption(v))
	}
	var texts []string
	for _, i := range v.Items {
		if text, ok := i.(Text); ok {
			texts = append(texts, text.Lines[0])
		}
	}
	if want := []string{"Adjuster", "Raised", "Low brace left", "730.6", "x"}; !slices.Equal(texts, want) {
		t.Errorf("%q", texts)
	}
}
