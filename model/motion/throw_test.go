package motion

import (
	"math"
	"testing"

	"boxwalk/model/geom"
)

// Values worked from the closed form of two guides on a circle, which is plain
// geometry: c = sqrt(R² - B²/4).
func TestSweptWidthOnACircleIsTheClosedFormAndWhatTheMotionSweeps(t *testing.T) {
	for _, c := range []struct{ r, b, a, w, inner, outer, swept float64 }{
		{60, 4, 1, 3, 58.466657402, 61.539824278, 3.073166876},
		{30, 6, 1.5, 2.4, 28.649623113, 31.374019434, 2.724396321},
		{150, 9, 1.5, 3.6, 148.132484806, 151.851068305, 3.718583499},
	} {
		s := SweptOnCircle(c.r, c.b, c.a, c.w)
		near(t, "inner", s.Inner, c.inner, 1e-9)
		near(t, "outer", s.Outer, c.outer, 1e-9)
		near(t, "swept", s.Width(), c.swept, 1e-9)
		g := mustGuided(t, mustCourse(t, Leg{Length: 3 * c.b, Radius: c.r}), onBase(c.b), 0.5*c.b, 1.5*c.b)
		inner, outer := math.Inf(1), 0.0
		for i := range 101 {
			x := -c.a + (c.b+2*c.a)*float64(i)/100
			for _, y := range []float64{-c.w / 2, c.w / 2} {
				d := g.Pose(Ground, 0, 0.4).Apply(geom.Vec{x, y, 0}).Sub(geom.Vec{0, c.r, 0}).Len()
				inner, outer = math.Min(inner, d), math.Max(outer, d)
			}
		}
		near(t, "inner of the motion", inner, c.inner, 1e-9)
		near(t, "outer of the motion", outer, c.outer, 1e-9)
	}
}

// The railway approximations B²/8R and (L²-B²)/8R (common practice, from
// memory), within the next term of the series.
func TestThrowsComeNearTheRailwayApproximations(t *testing.T) {
	for _, c := range []struct{ r, b, a, centre, end float64 }{
		{60, 4, 1, .033333, .041667}, {30, 6, 1.5, .15, .1875}, {150, 9, 1.5, .0675, .0525},
	} {
		l := c.b + 2*c.a
		near(t, "B²/8R", c.b*c.b/(8*c.r), c.centre, 5e-7)
		near(t, "centre throw", CentreThrow(c.r, c.b), c.centre, c.centre*c.centre/c.r+1e-6)
		near(t, "end throw", EndThrow(c.r, c.b, l), c.end, l*l*c.end/(c.r*c.r)+1e-6)
		near(t, "end throw of the ring", EndThrow(c.r, c.b, l), SweptOnCircle(c.r, c.b, c.a, 0).Outer-c.r, 1e-12)
	}
}

// What the route adds before tolerance, for carriers with a base of 6.60 and
// 9.00 m and lengths of 9.30 and 11.88 m, in mm to a tenth: worked by hand.
func TestRouteTableOfTwoCarriers(t *testing.T) {
	deg := math.Pi / 180
	for _, c := range []struct{ base, long, one, three, tailOne, tailThree, curve, tail float64 }{
		{6.60, 9.30, 28.8, 86.4, 23.6, 70.7, 60.5, 59.6},
		{9.00, 11.88, 39.3, 117.8, 25.1, 75.4, 112.6, 83.5},
	} {
		over := (c.long - c.base) / 2
		near(t, "1 deg", 1e3*AngleThrow(c.base, deg), c.one, 0.05)
		near(t, "3 deg", 1e3*AngleThrow(c.base, 3*deg), c.three, 0.05)
		near(t, "tail 1 deg", 1e3*TailThrow(over, deg), c.tailOne, 0.05)
		near(t, "tail 3 deg", 1e3*TailThrow(over, 3*deg), c.tailThree, 0.05)
		// the table's approximations, B²/8R and (L²-B²)/8R
		near(t, "R = 90 m", 1e3*CentreThrow(90, c.base), c.curve, 0.15)
		near(t, "tail, R = 90 m", 1e3*EndThrow(90, c.base, c.long), c.tail, 0.15)
	}
}

func TestMiddleAndTailOffAnAnglePointAreWhatTheMotionDoes(t *testing.T) {
	const b, over, phi = 6.6, 1.35, 3 * math.Pi / 180
	g := mustGuided(t, mustCourse(t, Leg{Length: 20}, Leg{Turn: phi}, Leg{Length: 20}), onBase(b), 10, 25)
	var middle, tail float64
	for i := range 15001 {
		p := g.Pose(Ground, 0, float64(i)/15000)
		m := p.Apply(geom.Vec{b / 2, 0, 0})
		x, y := m[0]-20, m[1]
		// off the nearer of the two straights
		middle = math.Max(middle, math.Min(math.Abs(y), math.Abs(y*math.Cos(phi)-x*math.Sin(phi))))
		if q := p.Apply(geom.Vec{-over, 0, 0}); q[0] <= 20 {
			tail = math.Max(tail, -q[1])
		}
	}
	near(t, "tail", tail, TailThrow(over, phi), 1e-4)
	// off the straights the middle stands (B/2) sin(phi/2), at its deepest off
	// their corner (B/2) tan(phi/2)
	near(t, "middle", middle, AngleThrow(b, phi)*math.Cos(phi/2), 1e-4)
}
