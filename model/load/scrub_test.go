package load

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"boxwalk/model/units"
)

func TestThrowUnderMidBaseIsTheDetailersFormula(t *testing.T) {
	// (B/2) tan(phi/2), worked for wheelbases of 6.60 and 9.00 m
	for _, c := range []struct{ base, degrees, mm float64 }{{6.6, 1, 28.8}, {6.6, 3, 86.4}, {9, 1, 39.3}, {9, 3, 117.8}} {
		b := Bend{units.Length(c.base), degrees(c.degrees)}
		nearBy(t, "throw", float64(must(b.OffCourse(b.Base/2)))*1e3, c.mm, 0.05)
	}
	b := Bend{6.6, degrees(3)}
	near(t, "throw at a guide", float64(must(b.OffCourse(0))), 0)
	near(t, "throw at a guide", float64(must(b.OffCourse(6.6))), 0)
}

func TestThrowElsewhereSeesTheGuidesAtTheTurn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base, phi := rapid.Float64Range(1, 12).Draw(t, "base"), rapid.Float64Range(0.001, 1).Draw(t, "turn")
		p := base * rapid.Float64Range(0.01, 0.99).Draw(t, "at")
		b := Bend{units.Length(base), units.Angle(-phi)}
		h := float64(must(b.OffCourse(units.Length(p))))
		if got := math.Atan(h/p) + math.Atan(h/(base-p)); math.Abs(got-phi) > 1e-9 {
			t.Fatalf("the guides are seen at %v, turn %v", got, phi)
		}
	})
}

// rolled takes a base round an angle point in small steps and adds up how far
// a point of it slides sideways, and the greatest that sliding uses up per
// metre of the front guide's way, with each line's load and a friction of 1.
func rolled(base, phi, share float64, loads map[float64]float64) (slip, drag float64) {
	const n = 40000
	for i := range n {
		// by the base's angle, which goes from 0 to phi: sine rule for the triangle
		// rear guide, angle point, front guide
		at := func(psi float64) (rear, front [2]float64) {
			u, v := base*math.Sin(phi-psi)/math.Sin(phi), base*math.Sin(psi)/math.Sin(phi)
			return [2]float64{-u, 0}, [2]float64{v * math.Cos(phi), v * math.Sin(phi)}
		}
		a, b := phi*float64(i)/n, phi*float64(i+1)/n
		r0, f0 := at(a)
		r1, f1 := at(b)
		mid := (a + b) / 2
		sideways := func(share float64) float64 {
			dx := (1-share)*(r1[0]-r0[0]) + share*(f1[0]-f0[0])
			dy := (1-share)*(r1[1]-r0[1]) + share*(f1[1]-f0[1])
			return math.Abs(-math.Sin(mid)*dx + math.Cos(mid)*dy)
		}
		slip += sideways(share)
		var used float64
		for line, load := range loads {
			used += load * sideways(line)
		}
		drag = math.Max(drag, used/math.Hypot(f1[0]-f0[0], f1[1]-f0[1]))
	}
	return slip, drag
}

func TestSlipIsWhatSmallStepsAddUpTo(t *testing.T) {
	for _, c := range []struct{ base, turn, share float64 }{{6.6, 1, 0}, {6.6, 1, 1}, {6.6, 3, 0.5}, {9, 20, 0.3}, {9, 40, 0.8}} {
		b := Bend{units.Length(c.base), degrees(c.turn)}
		want, _ := rolled(c.base, float64(b.Turn), c.share, nil)
		nearBy(t, "slip", float64(must(b.Slip(units.Length(c.share*c.base)))), want, 1e-7)
	}
}

func TestOuterLinesSlideHalfTheBaseTimesTheTurn(t *testing.T) {
	b := Bend{6.6, degrees(1)}
	near(t, "rear", float64(must(b.Slip(0))), 3.3*math.Pi/180)
	near(t, "front", float64(must(b.Slip(6.6))), 3.3*math.Pi/180)
	near(t, "middle", float64(must(b.Slip(3.3))), 3.3*math.Tan(math.Pi/360))
	near(t, "straight", float64(must(Bend{6.6, 0}.Slip(0))), 0)
}

func TestScrubByHand(t *testing.T) {
	// 60 kN, 3.96 of 6.60 m from the rear line: lever rule 0.6 x 60 = 36 in front;
	// friction 0.8: 28.8 on the line; a wheel with 20 kN: 16
	s := must(Bend{6.6, degrees(3)}.Scrub(60, 20, 3.96, 0.8))
	near(t, "line", float64(s.Line), 28.8)
	near(t, "wheel", float64(s.Wheel), 16)
	near(t, "pull", float64(s.Pull), 28.8*math.Tan(math.Pi/60))
	if _, err := (Bend{6.6, degrees(3)}).Scrub(60, 20, 7, 0.8); !errors.Is(err, ErrRange) {
		t.Errorf("centre of gravity beyond the wheels: %v", err)
	}
}

func TestAddedPullCoversWhatSlidingUsesUp(t *testing.T) {
	for _, turn := range []float64{1, 3, 20} {
		b := Bend{6.6, degrees(turn)}
		for _, loads := range []map[float64]float64{{0: 30, 1: 30}, {0: 20, 1: 40}, {0: 10, 0.5: 40, 1: 10}} {
			centre := 0.0
			for line, load := range loads {
				centre += line * load / 60
			}
			_, used := rolled(6.6, float64(b.Turn), 0, loads)
			most := float64(must(b.Scrub(60, 0, units.Length(6.6*centre), 1)).Pull)
			if used > most*(1+1e-6) || used < most*0.4 {
				t.Errorf("%g deg, %v: sliding uses up %.4f, the pull adds %.4f", turn, loads, used, most)
			}
		}
	}
}
