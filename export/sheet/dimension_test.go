package sheet

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestADimensionMeasuresAlongItsDirection(t *testing.T) {
	a, b := Pt(0, 0), Pt(3000, 4000)
	for angle, want := range map[float64]float64{0: 3000, 90: 4000, 180: 3000, 270: 4000, direction(a, b): 5000, direction(a, b) + 90: 0, 45: 7000 / math.Sqrt2} {
		if got := (Dimension{From: a, To: b, Angle: angle}).Value(); math.Abs(got-want) > 1e-9 {
			t.Errorf("at %v degrees: %v, want %v", angle, got, want)
		}
	}
}

func TestTheDimensionLineLiesItsOffsetOutside(t *testing.T) {
	level, upright := Dimension{From: Pt(0, 100), To: Pt(3000, 400)}, Dimension{From: Pt(0, 100), To: Pt(300, 2400), Angle: 90}
	at := func(d Dimension, base Point, offset float64) Dimension {
		d.Base, d.Offset = base, offset
		return d
	}
	s := &Sheet{}
	want := [][2]Point{
		{{0, 600}, {3000, 600}}, {{0, -100}, {3000, -100}},
		{{500, 100}, {500, 2400}}, {{-200, 100}, {-200, 2400}}, {{-200, 0}, {-200, 1000}},
	}
	for i, d := range []Dimension{
		at(level, level.To, 10), at(level, level.From, -10), at(upright, upright.To, -10), at(upright, upright.From, 10),
		{To: Pt(0, 1000), Angle: 90, Offset: 10},
	} {
		d := s.Draw(d, 20)
		if d.Start.Sub(want[i][0]).Len() > 1e-9 || d.End.Sub(want[i][1]).Len() > 1e-9 {
			t.Errorf("dimension %d runs from %v to %v, want %v", i, d.Start, d.End, want[i])
		}
	}
}

func TestDimensionTextReadsFromBelowOrFromTheRight(t *testing.T) {
	s := &Sheet{}
	rapid.Check(t, func(t *rapid.T) {
		d := Dimension{To: Pt(1000, 300), Angle: rapid.Float64Range(-720, 720).Draw(t, "angle"), Offset: 8}
		text := s.Draw(d, 10).Text
		if text.Angle <= -90 || text.Angle > 90 {
			t.Fatalf("text at %v degrees", text.Angle)
		}
		if diff := math.Mod(math.Abs(text.Angle-d.Angle), 180); math.Min(diff, 180-diff) > 1e-9 {
			t.Fatalf("text at %v degrees over a line at %v", text.Angle, d.Angle)
		}
	})
}

func TestTextThatFindsNoRoomStandsBesideTheLength(t *testing.T) {
	s := &Sheet{}
	wide := s.Draw(Dimension{From: Pt(0, 0), To: Pt(3000, 0)}, 50)
	narrow := s.Draw(Dimension{From: Pt(0, 0), To: Pt(110, 0)}, 50)
	before := s.Draw(Dimension{From: Pt(0, 0), To: Pt(110, 0), Before: true}, 50)
	if wide.Outside || wide.Text.At[0] != 1500 {
		t.Errorf("wide: %+v", wide.Text)
	}
	if !narrow.Outside || narrow.Text.At[0] < 110 || !before.Outside || before.Text.At[0] > 0 {
		t.Errorf("narrow: %+v, before: %+v", narrow.Text, before.Text)
	}
}

func TestArrowheadsPointAtTheExtensionLines(t *testing.T) {
	s := &Sheet{}
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-3000, 3000).Draw(t, "x")
		angle := rapid.SampledFrom([]float64{0, 90, 180, 30, -60, 200}).Draw(t, "angle")
		u, _ := axes(angle)
		d := s.Draw(Dimension{To: u.Mul(x), Angle: angle}, 20)
		inward := math.Abs(x) >= 3*2.5*20
		for i, tip := range []Point{d.Start, d.End} {
			loop := d.Arrows[i].Loops[0]
			body := loop[1].Add(loop[2]).Mul(0.5).Sub(loop[0]).Dot(d.Start.Add(d.End).Mul(0.5).Sub(tip))
			if loop[0] != tip || math.Abs(x) > 1e-6 && (body > 0) != inward {
				t.Fatalf("head %d of %v at %v degrees: %v", i, x, angle, loop)
			}
		}
	})
}

func TestALeaderPointsFromItsTextToItsTip(t *testing.T) {
	s := &Sheet{}
	l := s.DrawLeader(Leader{On: Notes, Tip: Pt(100, 0), Knee: Pt(0, 0), Lines: []string{"note"}}, 10)
	if l.Arrow.Loops[0][0] != Pt(100, 0) || l.Text.Anchor != MiddleRight || l.Text.At[0] >= 0 {
		t.Errorf("%+v", l)
	}
	if n := len(s.DrawLeader(Leader{Tip: Pt(1, 0)}, 1).Items()); n != 2 {
		t.Errorf("a plain arrow has %d items, want line and head", n)
	}
}

// 5.796 in is 5 in and 12.7 sixteenths: a length is lettered to the nearest, a
// clearance to the one below, and 5 3/4 in stays what it is.
func TestAClearanceInFeetAndInchesIsLetteredToTheSixteenthBelow(t *testing.T) {
	s := &Sheet{Units: Units{Imperial: true}}
	for _, c := range []struct {
		on     Layer
		inches float64
		want   string
	}{{Dimensioning, 5.796, `5 13/16"`}, {Clearance, 5.796, `5 3/4"`}, {Clearance, 5.75, `5 3/4"`}, {Clearance, 0.0624, `0"`}} {
		if got := s.Label(Dimension{On: c.on, To: Pt(25.4*c.inches, 0)}); got != c.want {
			t.Errorf("%v in on layer %v: %s, want %s", c.inches, c.on, got, c.want)
		}
	}
	if got := (&Sheet{Units: Units{Decimals: 1}}).Label(Dimension{On: Clearance, To: Pt(86.27, 0)}); got != "86.3" {
		t.Errorf("metric: %s, readers of DXF letter it themselves", got)
	}
}
