package motion

import (
	"errors"
	"math"
	"testing"

	"boxwalk/model/geom"

	"pgregory.net/rapid"
)

// crest is a ground of two grades that meet at x = 0.
func crest(in, out float64) func(float64) float64 {
	return func(x float64) float64 {
		if x < 0 {
			return in * x
		}
		return out * x
	}
}

func oneRest(t *testing.T, ground func(float64) float64, x float64, wheels []Wheel, centre float64) Rest {
	t.Helper()
	r, err := Rests(ground, x, wheels, centre, 0)
	if err != nil || len(r) != 1 {
		t.Fatalf("%d rests, %v", len(r), err)
	}
	return r[0]
}

// Belly loss over a grade break, (L/2) tan(phi/2): worked from plane geometry.
func TestBellyLossOverAGradeBreakIsTheClosedForm(t *testing.T) {
	for _, c := range []struct{ base, in, out, loss, about float64 }{
		{6, .02, -.03, .074998126, .075}, {4, .01, -.04, .049988760, .05}, {9, 0, -.05, .112429775, .1125},
	} {
		near(t, "loss", c.base/2*math.Tan((math.Atan(c.in)-math.Atan(c.out))/2), c.loss, 1e-9)
		near(t, "L|g1-g2|/4", c.base*math.Abs(c.in-c.out)/4, c.about, 1e-12)
		// the body stands with its middle square above the break
		ground := crest(c.in, c.out)
		lo, hi := -c.base, 0.0
		var off geom.Vec
		for range 60 {
			x := (lo + hi) / 2
			p := oneRest(t, ground, x, []Wheel{{0, 0}, {c.base, 0}}, 1).Pose
			if off = p.Inverse().Apply(geom.Vec{}); off[0] > c.base/2 {
				lo = x
			} else {
				hi = x
			}
		}
		near(t, "loss under the body", off[2], c.loss, 1e-9)
	}
}

func TestOnAStraightGradeEveryWheelStandsOnIt(t *testing.T) {
	wheels := []Wheel{{0, 0}, {3, 0}, {6, 0}}
	for _, over := range []float64{2, 4} {
		r := oneRest(t, func(x float64) float64 { return 180 - 0.05*x }, 12, wheels, over)
		near(t, "pitch", r.Pitch, -math.Atan(0.05), 1e-12)
		near(t, "height", r.Pose.T[2], 180-0.6, 1e-12)
	}
}

func TestOnACrestTheMiddleWheelsCarryAndTheUncertainCaseHasBothRests(t *testing.T) {
	wheels := []Wheel{{0, 0}, {3, 0}, {6, 0}}
	ground := func(x float64) float64 { return crest(.02, -.02)(x - 3) }
	rests, err := Rests(ground, 0, wheels, 3.02, 0.05)
	if err != nil || len(rests) != 2 {
		t.Fatalf("%d rests, %v", len(rests), err)
	}
	if rests[0].Rear != 0 || rests[0].Front != 1 || rests[1].Rear != 1 || rests[1].Front != 2 {
		t.Errorf("stands on %+v", rests)
	}
	near(t, "rear rest", rests[0].Pitch, math.Atan(.02), 1e-3)
	near(t, "front rest", rests[1].Pitch, -math.Atan(.02), 1e-3)
	if r := oneRest(t, ground, 0, wheels, 3.2); r.Rear != 1 {
		t.Errorf("with the centre ahead of the middle wheels it stands on %+v", r)
	}
	sag := oneRest(t, func(x float64) float64 { return -ground(x) }, 0, wheels, 3.02)
	if sag.Rear != 0 || sag.Front != 2 {
		t.Errorf("in a sag it stands on %+v", sag)
	}
}

func TestABodyWhoseCentreOfGravityMayLieBeyondItsWheelsTips(t *testing.T) {
	var tips *Unstable
	for _, c := range [][2]float64{{-0.1, 0}, {0.02, 0.05}, {5.98, 0.05}, {math.NaN(), 0}, {3, math.NaN()}} {
		if _, err := Rests(crest(0, 0), 0, []Wheel{{0, 0}, {6, 0}}, c[0], c[1]); !errors.As(err, &tips) {
			t.Errorf("centre %v: got %v", c, err)
		}
	}
	if _, err := Rests(func(float64) float64 { return math.NaN() }, 0, []Wheel{{0, 0}, {6, 0}}, 3, 0); err == nil {
		t.Error("it stands on no ground")
	}
	if _, err := Rests(crest(0, 0), 0, []Wheel{{0, 0}, {0, 0}}, 3, 0); err == nil {
		t.Error("wheels at one place were taken")
	}
}

func TestNoWheelStandsInTheGroundAndTwoTouchIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		g1, g2, at := f("g1", -.06, .06), f("g2", -.06, .06), f("x", -12, 4)
		wheels := []Wheel{{0, f("z0", -.01, .01)}, {f("x1", 1, 3), f("z1", -.01, .01)}, {f("x2", 4, 6), 0}, {f("x3", 7, 9), f("z3", -.01, .01)}}
		rests, err := Rests(crest(g1, g2), at, wheels, f("centre", 0.5, 6.5), 0.3)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range rests {
			for i, w := range wheels {
				p := r.Pose.Apply(geom.Vec{w.X, 0, w.Z})
				gap := p[2] - crest(g1, g2)(p[0])
				// seen along the body, wheels that hang may move ahead by pitch times height
				if gap < -1e-4 || ((i == r.Rear || i == r.Front) && math.Abs(gap) > 1e-9) {
					t.Fatalf("wheel %d stands %g above the ground in %+v", i, gap, r)
				}
			}
		}
	})
}
