package motion

import (
	"math"
	"testing"

	"boxwalk/model/geom"
)

func TestCourseSeenFromItsMiddleHasItsStartBehind(t *testing.T) {
	// 5 ahead, 30 degrees left, 7 on; seen from the angle point the start lies 5
	// back at 30 degrees: (-5 cos 30, +5 sin 30), headed 30 degrees right
	c, err := NewCourse([]Leg{{Length: 5}, {Turn: math.Pi / 6}, {Length: 7}})
	if err != nil {
		t.Fatal(err)
	}
	for _, from := range []float64{5 - 1e-12, 5, 5 + 1e-12} {
		seenFromBend(t, c, from)
	}
}

func seenFromBend(t *testing.T, c *Course, from float64) {
	t.Helper()
	seen := c.SeenFrom(from)
	for at, want := range map[float64]geom.Vec{0: {}, 7: {7, 0, 0}, -5: {-5 * math.Cos(math.Pi/6), 5 * math.Sin(math.Pi/6), 0}} {
		if p := seen.Point(at); p.Sub(want).Len() > 1e-11 {
			t.Errorf("at %g: %v, want %v", at, p, want)
		}
	}
	if h := seen.Heading(-1); math.Abs(h+math.Pi/6) > 1e-12 || seen.Heading(1) != 0 {
		t.Errorf("headed %g behind and %g ahead", h, seen.Heading(1))
	}
}

func TestBodyRolledBackRoundABendRetracesItsWayAhead(t *testing.T) {
	legs := []Leg{{Length: 9}, {Turn: 0.05}, {Length: 20}}
	c, err := NewCourse(legs)
	if err != nil {
		t.Fatal(err)
	}
	ahead, err := NewGuided(c, Guides{Rear: geom.Vec{1}, Front: geom.Vec{7}}, 1, 12)
	if err != nil {
		t.Fatal(err)
	}
	// the same two stands seen from 9 on: the body's own coordinates are where
	// it stands there, behind its guides at 3 and 9
	back, err := NewGuided(c.SeenFrom(9), Guides{Rear: geom.Vec{3}, Front: geom.Vec{9}}, 3, -8)
	if err != nil {
		t.Fatal(err)
	}
	seen := geom.Rotation(geom.Vec{}, geom.Vec{0, 0, 1}, 0.05)
	seen.T = geom.Vec{9, 0, 0}
	shift := geom.Translation(geom.Vec{2, 0, 0}) // same body: its rear guide 1 or 3 ahead of its origin
	for _, s := range []float64{0, 0.2, 0.5, 0.9, 1} {
		want := ahead.Pose(Ground, 0, 1-s)
		got := seen.Mul(back.Pose(Ground, 0, s)).Mul(shift)
		for _, v := range []geom.Vec{{}, {8, 1, 0}} {
			if d := got.Apply(v).Sub(want.Apply(v)).Len(); d > 1e-9 {
				t.Errorf("at %g: %g m apart", s, d)
			}
		}
	}
}
