package exact

import (
	"math"
	"testing"

	"boxwalk/model/geom"
)

func TestThirdsAddUpAndSquareRootsSquareToFarBelowAFloat(t *testing.T) {
	third := Of(1).Quo(Of(3))
	if off := third.Add(third).Add(third).Sub(Of(1)).Float(); math.Abs(off) > 1e-70 {
		t.Errorf("three thirds are off by %g", off)
	}
	two := Of(2).Sqrt()
	if off := two.Mul(two).Sub(Of(2)).Float(); math.Abs(off) > 1e-70 {
		t.Errorf("the root of 2 is off by %g", off)
	}
}

func TestSineAndCosineAreThoseOfTheLibraryAndSquareToOne(t *testing.T) {
	for _, angle := range []float64{0, 0.3, -1.7, 3, 6.2} {
		s, c := Turn(Of(angle))
		if math.Abs(s.Float()-math.Sin(angle)) > 1e-15 || math.Abs(c.Float()-math.Cos(angle)) > 1e-15 {
			t.Errorf("%g: %g, %g", angle, s.Float(), c.Float())
		}
		if off := s.Mul(s).Add(c.Mul(c)).Sub(Of(1)).Float(); math.Abs(off) > 1e-65 {
			t.Errorf("%g: squares are off by %g", angle, off)
		}
	}
}

func TestAPointTurnsByTheRightHandAndKeepsItsDistance(t *testing.T) {
	k := OfVec(geom.Vec{0, 0, 1})
	pin := OfVec(geom.Vec{1, 1, 0})
	s, c := Turn(Of(0.5))
	p := OfVec(geom.Vec{3, 1, 7})
	at := p.Turned(pin, k, s, c)
	want := geom.Vec{1 + 2*math.Cos(0.5), 1 + 2*math.Sin(0.5), 7}
	if at.Float().Sub(want).Len() > 1e-15 {
		t.Errorf("at %v, want %v", at.Float(), want)
	}
	if off := at.Sub(pin).Len().Sub(p.Sub(pin).Len()).Float(); math.Abs(off) > 1e-65 {
		t.Errorf("the distance changes by %g", off)
	}
}
