package sheet

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func length(lines []Line) float64 {
	sum := 0.0
	for _, l := range lines {
		sum += l.B.Sub(l.A).Len()
	}
	return sum
}

func TestHatchingCoversItsAreaAtItsSpacing(t *testing.T) {
	// Length of all lines x spacing = area, less at the rim: 100 x 100 with a hole of 40 x 40.
	h := Hatch{Loops: [][]Point{RectLoop(Pt(0, 0), Pt(100, 100)), RectLoop(Pt(30, 30), Pt(70, 70))}}
	area := 100.0*100 - 40*40
	full := Family{Angle: 45, Spacing: 2}
	if got := length(full.strokes(h)) * full.Spacing; math.Abs(got-area) > 0.01*area {
		t.Errorf("full lines cover %v of %v", got, area)
	}
	broken := Family{Angle: 30, Spacing: 1, Dashes: []float64{3, 1}}
	if got := length(broken.strokes(h)) * broken.Spacing; math.Abs(got-area*3/4) > 0.02*area {
		t.Errorf("dashes cover %v of %v", got, area*3/4)
	}
}

func TestHatchingStaysInsideItsLoops(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coordinate := rapid.Float64Range(0, 60)
		var loop []Point
		for range rapid.IntRange(3, 7).Draw(t, "corners") {
			loop = append(loop, Pt(coordinate.Draw(t, "x"), coordinate.Draw(t, "y")))
		}
		pattern := Pattern(rapid.IntRange(0, 2).Draw(t, "pattern"))
		h := Hatch{Loops: [][]Point{loop}, Pattern: pattern}
		for _, s := range h.Strokes() {
			middle := s.A.Add(s.B).Mul(0.5)
			if s.B.Sub(s.A).Len() > 1e-3 && !h.inside(middle) && rimDistance(loop, middle) > 1e-6 {
				t.Fatalf("%v is outside %v", middle, loop)
			}
		}
	})
}

func rimDistance(loop []Point, p Point) float64 {
	best := math.Inf(1)
	for i, a := range loop {
		ab := loop[(i+1)%len(loop)].Sub(a)
		k := 0.0
		if ab.Len() > 0 {
			k = math.Max(0, math.Min(1, p.Sub(a).Dot(ab)/ab.Dot(ab)))
		}
		best = math.Min(best, p.Sub(a.Add(ab.Mul(k))).Len())
	}
	return best
}

func TestHugeHatchesStayBounded(t *testing.T) {
	for _, side := range []float64{1e3, 2e4, 1e7} {
		for pattern := range Tone {
			h := Hatch{Loops: [][]Point{RectLoop(Pt(0, 0), Pt(side, side))}, Pattern: pattern}
			if n := len(h.Strokes()); n > len(pattern.Families())*mostHatchDashes {
				t.Errorf("pattern %d over %v mm has %d lines", pattern, side, n)
			}
		}
	}
}

func TestHatchingLeavesRoomForLettering(t *testing.T) {
	s := &Sheet{}
	v := &View{Scale: 50}
	v.Hatch(ConcreteHatch, ConcretePattern, RectLoop(Pt(0, 0), Pt(5000, 5000)))
	v.Hatch(ConcreteHatch, Tone, RectLoop(Pt(0, 0), Pt(5000, 5000)))
	v.Text(Pt(2500, 2500), MiddleCentre, "INVERT")
	v.Text(Pt(0, 2500), MiddleCentre, "half outside")
	items := s.Model(v)
	if n := len(items[0].(Hatch).Loops); n != 2 {
		t.Errorf("the pattern has %d loops, want the area and one room", n)
	}
	if n := len(items[1].(Hatch).Loops); n != 1 {
		t.Errorf("the tone has %d loops", n)
	}
	outline := items[2].(Text)
	for _, stroke := range Placed(items[:1], 1.0/50, Point{})[0].(Hatch).Strokes() {
		at := outline
		at.At = outline.At.Mul(1.0 / 50)
		if segmentMeets(stroke.A, stroke.B, at.Outline()) {
			t.Fatalf("hatching %v runs through the lettering", stroke)
		}
	}
}
