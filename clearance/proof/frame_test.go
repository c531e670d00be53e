package proof

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// drawnCarry is a carrier on two planes round a bend, as a record says it.
func drawnCarry(t *rapid.T) *carry {
	num := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	heading := num("heading", -0.2, 0.2)
	grade := num("grade", -0.1, 0.1)
	if rapid.Bool().Draw(t, "one heading") {
		heading = 0
	}
	slope := vec{num("slope", -0.1, 0.1), num("lean", -0.02, 0.02), 0}
	if rapid.Bool().Draw(t, "one plane") {
		slope = vec{grade, 0, 0}
	}
	v := func(x, y, z float64) string { return fmt.Sprintf("%v,%v,%v", x, y, z) }
	text := fmt.Sprint("carry ", v(-2, 0, 0.1), " ", num("tilt", -0.1, 0.1), " ", v(1.35, num("aside", -2, 2), 0.125), " 6.6 0,0,0 0 ",
		num("from", -3, 0), " ", num("to", 0.5, 3), " ", v(2, 0, 0), " ", heading, " 0 ", v(grade, 0, 0.125), " ", num("high", 3, 7), " ", v(slope[0], slope[1], 0.13))
	r := stream(text + "\n")
	x := newText(r, usual)
	if !x.next() {
		t.Fatal("no line")
	}
	c := readCarry(x)
	if x.bad != nil {
		t.Fatal(x.bad)
	}
	return c.(*carry)
}

func TestCarriedFrameKeepsGuidesOnTheirStraightsAndWheelsOnTheirPlanes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawnCarry(t)
		s := rapid.Float64Range(0, 1).Draw(t, "s")
		seen := func(body vec) vec { return c.level.pose().back(c.pose(s).apply(body)) } // in the level frame
		guide := seen(c.guide)
		if off := guide.sub(c.on.point(c.from + (c.to-c.from)*s)); math.Hypot(off[0], off[1]) > 1e-12 {
			t.Errorf("the guide is %v off its place", off)
		}
		ahead := seen(c.guide.add(vec{c.base}))
		left := vec{-c.ahead.along()[1], c.ahead.along()[0]}
		if off := left.dot(ahead.sub(c.ahead.at)); math.Abs(off) > 1e-12 {
			t.Errorf("the guide ahead is %g off its straight", off)
		}
		if c.ahead.along().dot(ahead.sub(guide)) < 0 {
			t.Error("the carrier stands back to front")
		}
		for _, w := range []wheel{c.low, c.high} {
			p := seen(c.guide.add(vec{w.ahead}))
			if off := p[2] - w.under(p); math.Abs(off) > 1e-12 {
				t.Errorf("a wheel line is %g off its plane", off)
			}
		}
		if y := c.level.pose().turnedBack(c.pose(s).turned(vec{0, 1, 0})); math.Abs(y[2]) > 1e-14 {
			t.Errorf("the carrier leans across by %g", y[2])
		}
	})
}

// Each way of placing a frame bounds how points of it curve, in all and along a
// direction.
func TestCurvatureOfAPlacedFrameHoldsAgainstSecondDifferences(t *testing.T) {
	frames := map[string]func(t *rapid.T) frame{
		"carry": func(t *rapid.T) frame { return drawnCarry(t) },
		"tip": func(t *rapid.T) frame {
			num := rapid.Float64Range(-0.5, 0.5)
			p := &tip{level: level{vec{1, 2, 3}, 0.1}, pivot: vec{3, 0.5, 0.125}, from: vec{0, 0, 0}, to: vec{0.1, 0, 0.2},
				yaw: drive{num.Draw(t, "yaw"), num.Draw(t, "yaw to")}, pitch: drive{num.Draw(t, "pitch"), num.Draw(t, "pitch to")}}
			if rapid.Bool().Draw(t, "no yaw") {
				p.yaw.to = p.yaw.from
			}
			if rapid.Bool().Draw(t, "no pitch") {
				p.pitch.to = p.pitch.from
			}
			return p
		},
	}
	for name, drawn := range frames {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				f := drawn(t)
				p := vec{rapid.Float64Range(-3, 9).Draw(t, "x"), rapid.Float64Range(-3, 3).Draw(t, "y"), rapid.Float64Range(0, 3).Draw(t, "z")}
				n := rapid.SampledFrom([]vec{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0.6, 0.8, 0}, {0.8, 0, -0.6}}).Draw(t, "n")
				s0 := rapid.Float64Range(0, 0.75).Draw(t, "s0")
				s1 := s0 + rapid.SampledFrom([]float64{1.0 / 32, 0.1, 0.25}).Draw(t, "length")
				k := f.curve(s0, s1)
				most, along := k.of(p, 1), k.of(p, k.across(n))
				const h = 1.0 / 64
				for x := s0 + h; x <= s1-h; x += h {
					a := f.pose(x - h).apply(p).add(f.pose(x + h).apply(p)).sub(f.pose(x).apply(p).mul(2)).mul(1 / (h * h))
					if !(a.length() <= most+1e-9 && math.Abs(a.dot(n)) <= along+1e-9) {
						t.Fatalf("at %g the point curves by %g, %g along %v, and the bounds are %g and %g", x, a.length(), a.dot(n), n, most, along)
					}
				}
			})
		})
	}
}

// On one heading nothing yaws and on one plane nothing pitches, to the bit: the
// bound then knows the one axis.
func TestCarriedFrameOnOneHeadingOrLevelPlaneTurnsAboutOneAxis(t *testing.T) {
	straight := line{vec{0.1, 0.2, 0}, 0.3}
	c := &carry{guide: vec{1, 0, 0}, base: 5, on: straight, ahead: straight, to: 2,
		low: wheel{0, vec{0.02, 0.001, 0}, 0}, high: wheel{5, vec{-0.03, 0, 0}, 0.05}}
	if !c.solve() {
		t.Fatal("not solved")
	}
	if k := c.curve(0, 1); k.mixed || k.axis != (vec{0, -1, 0}) || !(k.om > 0) {
		t.Errorf("pitching on one heading: axis %v, mixed %v, speed %g", k.axis, k.mixed, k.om)
	}
	c.ahead.heading = 0.4
	c.low.slope, c.high.slope, c.high.h = vec{}, vec{}, 0
	if !c.solve() {
		t.Fatal("not solved")
	}
	if k := c.curve(0, 1); k.mixed || k.axis != (vec{0, 0, 1}) || !(k.om > 0) {
		t.Errorf("yawing on a level plane: axis %v, mixed %v, speed %g", k.axis, k.mixed, k.om)
	}
}
