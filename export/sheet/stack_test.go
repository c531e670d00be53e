package sheet

import (
	"testing"

	"pgregory.net/rapid"
)

// levels gives the offsets of the stack's dimensions in drawing order.
func levels(s *Sheet, i DimStack, n float64) (values, offsets []float64) {
	for _, d := range s.dimensions(i, n, nil) {
		values, offsets = append(values, d.Value()), append(offsets, d.Offset)
	}
	return values, offsets
}

func TestAChainSharesALineAndTheTotalStandsOutside(t *testing.T) {
	i := DimStack{Side: Above, Spans: append([]Span{{From: Pt(0, 0), To: Pt(6000, 0)}}, Chain(Pt(0, 0), Pt(2000, 0), Pt(4500, 0), Pt(6000, 0))...)}
	values, offsets := levels(&Sheet{}, i, 50)
	want := []float64{1500, 2000, 2500, 6000}
	for k := range want {
		first := k < 3
		if values[k] != want[k] || (offsets[k] == 2.5*stackFirst) != first || !first && offsets[k] != 2.5*(stackFirst+stackStep) {
			t.Errorf("values %v at %v mm", values, offsets)
		}
	}
}

func TestStacksLieOnTheirSide(t *testing.T) {
	s := &Sheet{}
	for side, outside := range map[Side]func(Point) bool{
		Above: func(p Point) bool { return p[1] > 2000 },
		Below: func(p Point) bool { return p[1] < -2000 },
		Left:  func(p Point) bool { return p[0] < -2000 },
		Right: func(p Point) bool { return p[0] > 2000 },
	} {
		edge := map[Side]float64{Above: 2000, Below: -2000, Left: -2000, Right: 2000}[side]
		d := s.dimensions(DimStack{Side: side, Edge: edge, Spans: []Span{{From: Pt(-1000, -900), To: Pt(1000, 900)}}}, 50, nil)[0]
		drawn := s.Draw(d, 50)
		if want := map[Side]float64{Above: 2000, Below: 2000, Left: 1800, Right: 1800}[side]; d.Value() != want {
			t.Errorf("side %d measures %v, want %v", side, d.Value(), want)
		}
		if !outside(drawn.Start) || !outside(drawn.End) {
			t.Errorf("side %d lies at %v", side, drawn.Start)
		}
	}
}

func TestNarrowNeighboursPutTheirTextsAtTheFreeEnds(t *testing.T) {
	i := DimStack{Side: Right, Spans: Chain(Pt(0, 0), Pt(0, 200), Pt(0, 3000), Pt(0, 3200))}
	ds := (&Sheet{}).dimensions(i, 50, nil)
	if !ds[0].Before || ds[1].Before {
		t.Errorf("lower text before: %v, upper text before: %v", ds[0].Before, ds[1].Before)
	}
	for _, d := range ds[1:] {
		if d.Offset != ds[0].Offset {
			t.Errorf("the chain is on more than one line: %v, %v", ds[0].Offset, d.Offset)
		}
	}
}

func TestNoTextOfAStackLiesOnAnother(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := &Sheet{Units: Units{Imperial: rapid.Bool().Draw(t, "imperial")}}
		i := DimStack{Side: Side(rapid.IntRange(0, 3).Draw(t, "side"))}
		for range rapid.IntRange(1, 8).Draw(t, "spans") {
			coordinate := rapid.Map(rapid.IntRange(0, 60), func(k int) float64 { return 100 * float64(k) })
			a, b := coordinate.Draw(t, "a"), coordinate.Draw(t, "b")
			i.Spans = append(i.Spans, Span{From: Pt(a, a), To: Pt(b, b)})
		}
		var texts [][]Point
		for _, d := range s.dimensions(i, 50, nil) {
			text := Placed(s.Draw(d, 50).Items(), 1.0/50, Point{})
			outline := text[len(text)-1].(Text).Outline()
			for _, o := range texts {
				if apart(o, outline) < -overlapDepth {
					t.Fatalf("%s lies on another text", s.Label(d))
				}
			}
			texts = append(texts, outline)
		}
	})
}

func TestStacksAtACornerKeepClearOfEachOther(t *testing.T) {
	s := &Sheet{}
	v := &View{Title: "corner", Scale: 100, Shift: Pt(200, 180)}
	v.Rect(Concrete, Pt(0, 0), Pt(3000, 3000))
	v.Stack(Below, 0, Chain(Pt(0, 0), Pt(2800, 0), Pt(3000, 0))...)
	v.Stack(Right, 3000, Chain(Pt(3000, 0), Pt(3000, 200), Pt(3000, 3000))...)
	s.Add(v)
	if got := Overlaps(s); len(got) != 0 {
		t.Errorf("%v", got)
	}
}
