package sheet

import (
	"math"
	"slices"
	"strings"
	"testing"
)

func TestALongEntryIsBrokenInsideItsColumn(t *testing.T) {
	s := &Sheet{}
	rows := [][]string{{strings.Repeat("mark ", 20), "1"}, {"short", "22"}}
	columns := s.Fixed([]Column{{Title: "Mark", Width: 40}, {Title: "Count", Right: true, Width: 40}}, rows)
	if columns[0].Width != 40 || columns[1].Width >= 40 {
		t.Fatalf("widths %v and %v, want 40 and less", columns[0].Width, columns[1].Width)
	}
	v := s.Table("Parts", columns, rows)
	if err := s.Add(v).Arrange(); err != nil {
		t.Fatal(err)
	}
	if o := Overlaps(s); len(o) != 0 {
		t.Errorf("%v", o)
	}
	cells := RectLoop(Pt(0, 0), Pt(40, v.Extents().Min[1]))
	var all []string
	for _, i := range v.Items {
		text, ok := i.(Text)
		if !ok || text.At[0] > 40 {
			continue
		}
		all = append(all, text.Lines...)
		text.Height = s.LetteringHeight()
		if EmptyBox().Grow(cells...).Union(EmptyBox().Grow(text.Outline()...)).Width() > 40+1e-9 {
			t.Errorf("%q leaves its column", text.Lines)
		}
	}
	if got := strings.Count(strings.Join(all, " "), "mark"); got != 20 {
		t.Errorf("%d of 20 words lettered", got)
	}
}

func TestFixedColumnsAreThoseOfTheWholeTable(t *testing.T) {
	s := &Sheet{}
	rows := [][]string{{"a"}, {"a much longer entry"}}
	columns := s.Fixed([]Column{{Title: "T"}}, rows)
	whole, part := s.Table("", columns, rows).Extents().Width(), s.Table("", columns, rows[:1]).Extents().Width()
	if math.Abs(whole-part) > 1e-9 || math.Abs(whole-s.Table("", []Column{{Title: "T"}}, rows).Extents().Width()) > 1e-9 {
		t.Errorf("%v and %v wide", whole, part)
	}
}

func TestRowsThatStandOutAreFramedAndOnlyAlarmsAreInTheColourOfTheStamp(t *testing.T) {
	s := &Sheet{}
	v := s.Table("T", []Column{{Title: "T"}}, [][]string{{"plain"}, {"sum"}, {"alarm"}, {"rest"}}, Plain, Sum, Alarm)
	var frames []Layer
	var red []string
	for _, i := range v.Items {
		switch i := i.(type) {
		case Polyline:
			frames = append(frames, i.On)
		case Text:
			if i.On == StampMark {
				red = append(red, i.Lines...)
			}
		}
	}
	if !slices.Equal(frames, []Layer{Concrete, StampMark}) || !slices.Equal(red, []string{"alarm"}) {
		t.Errorf("frames on %v, red %q", frames, red)
	}
}
