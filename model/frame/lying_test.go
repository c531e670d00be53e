package frame

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"boxwalk/model/load"
)

// Two spans, the first loaded: held down, the far end pulls by 1/16; lying, it
// lifts, and the first span is a simple beam whose slope q/24EI carries it up.
func TestFarEndThatPullsLiftsOff(t *testing.T) {
	b := equal(2)
	nearTo(t, "held", float64(only(b.Solve(Evenly(0, 1, 1))).Supports[2].Up), -1/16.0)
	l := must(b.Lie(Evenly(0, 1, 1)))
	if !l.Lifted[2] || l.Lifted[0] || l.Lifted[1] {
		t.Fatalf("lifted %v", l.Lifted)
	}
	for i, want := range []float64{0.5, 0.5, 0} {
		nearTo(t, "reaction", float64(l.Response.Supports[i].Up), want)
	}
	nearTo(t, "moment", float64(l.Response.Moment().Most.Value), 1/8.0) // 0.0957 when held
	nearTo(t, "stands above", float64(must(l.Response.At(2)).Deflection), -1/24.0)
}

func TestBeamThatPressesEverywhereLiesAsItIsHeld(t *testing.T) {
	l := must(equal(3).Lie(Evenly(0, 3, 1)))
	nearTo(t, "end", float64(l.Response.Supports[0].Up), 0.4)
	for _, lifted := range l.Lifted {
		if lifted {
			t.Errorf("lifted %v", l.Lifted)
		}
	}
}

func TestBeamThatTipsIsRefused(t *testing.T) {
	b := Beam{Stretches: []Stretch{{3, 1}}, Supports: []Support{Pin(0), Pin(1)}}
	if _, err := b.Lie(Evenly(1, 3, 1)); !errors.Is(err, load.ErrRange) {
		t.Errorf("error %v", err)
	}
	b.Supports[0] = Clamp(0)
	if _, err := b.Lie(Evenly(1, 3, 1)); !errors.Is(err, load.ErrRange) {
		t.Errorf("clamp: error %v", err)
	}
}

// What makes it the answer: no support pulls, none is pressed into that was left,
// and the rest is what a beam on those supports does.
func TestLyingBeamNeitherPullsNorPenetrates(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBeam(t)
		for i := range b.Supports {
			b.Supports[i].Turn = Restraint{}
		}
		c := drawLoading(t, b.Length())
		l, err := b.Lie(c)
		if err != nil {
			return // it tips, as a light load at an end may make it
		}
		for i, s := range b.Supports {
			if float64(l.Response.Supports[i].Up) < -1e-9 {
				t.Fatalf("support %d pulls by %v", i, l.Response.Supports[i].Up)
			}
			if l.Lifted[i] && float64(must(l.Response.At(s.At)).Deflection) > 1e-9 {
				t.Fatalf("support %d is pressed into by %v", i, must(l.Response.At(s.At)).Deflection)
			}
		}
		force, _, size := c.sums()
		for _, s := range l.Response.Supports {
			force -= float64(s.Up)
		}
		if len(b.Links) == 0 && (force > 1e-9*size || force < -1e-9*size) {
			t.Fatalf("%v kN left", force)
		}
	})
}

// Between its first and last support a beam that is loaded downward lies still:
// there is an answer, and it is found.
func TestLyingBeamLoadedBetweenItsEndsHasAnAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBeam(t)
		b.Links = nil
		for i := range b.Supports {
			b.Supports[i].Turn = Restraint{}
		}
		b.Supports = append(b.Supports, Pin(0), Pin(b.Length()))
		c := drawLoading(t, b.Length())
		for i := range c.Points {
			c.Points[i].Down, c.Points[i].Turn = max(c.Points[i].Down, -c.Points[i].Down), 0
		}
		for i := range c.Lines {
			c.Lines[i].Start, c.Lines[i].End = max(c.Lines[i].Start, 0), max(c.Lines[i].End, 0)
		}
		if _, err := b.Lie(c); err != nil {
			t.Fatal(err)
		}
	})
}
