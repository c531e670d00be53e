package motion

import (
	"fmt"
	"math"

	"boxwalk/model/geom"
)

// Rest is one way in which a body stands on its wheels in elevation: two wheel
// lines carry, the others hang at or above the ground.
type Rest struct {
	Rear, Front int       // the wheel lines that carry, Rear < Front
	Pitch       float64   // of the body's x, rad, positive up ahead
	Pose        geom.Pose // groundFromBody; its y is the body's
}

// Rests is how a body stands by another way than a ride: it finds how a body stands on ground of height ground(x) when its origin
// is at x. A body on more than two wheel lines stands on those that bound the
// facet, over its centre of gravity, of the upper hull of the points (wheel,
// ground below it). Where the centre of gravity is within its uncertainty of a
// wheel line that is a corner of the hull, the rests on both its sides are
// given, from rear to front; the body may be on either or tip from one to the
// other. wheels must be in order of X, at least two; it returns an *Unstable
// error when the centre of gravity may lie beyond the end wheels.
func Rests(ground func(x float64) float64, x float64, wheels []Wheel, centre, uncertain float64) ([]Rest, error) {
	for i := range wheels {
		if i > 0 && !(wheels[i].X > wheels[i-1].X) {
			return nil, fmt.Errorf("wheel line %d at %g m does not lie ahead of the one before at %g m", i+1, wheels[i].X, wheels[i-1].X)
		}
	}
	if len(wheels) < 2 {
		return nil, fmt.Errorf("a body on %d wheel lines does not stand", len(wheels))
	}
	last := len(wheels) - 1
	if !(uncertain >= 0 && centre-uncertain > wheels[0].X && centre+uncertain < wheels[last].X) {
		return nil, &Unstable{centre, uncertain, wheels[0].X, wheels[last].X}
	}
	var out []Rest
	for over := centre - uncertain; ; {
		r, err := settle(ground, x, wheels, over)
		if err != nil {
			return nil, err
		}
		out = append(out, r)
		front := wheels[r.Front].X
		if r.Front == last || front > centre+uncertain {
			return out, nil
		}
		// just beyond the corner that carries
		over = math.Nextafter(front, math.Inf(1))
	}
}

// settle finds the rest with the centre of gravity over one place. How far
// ahead a wheel stands depends on the pitch, so that is found again until it
// stays; each pass gains the square of the grade.
func settle(ground func(x float64) float64, x float64, wheels []Wheel, over float64) (Rest, error) {
	pitch := 0.0
	heights := make([]float64, len(wheels))
	for range 40 {
		sin, cos := math.Sincos(pitch)
		for i, w := range wheels {
			heights[i] = ground(x + w.X*cos - w.Z*sin)
		}
		i, j := facet(wheels, heights, over)
		next := pitchOn(wheels[i], wheels[j], heights[j]-heights[i])
		if math.IsNaN(next) {
			return Rest{}, fmt.Errorf("there is no ground under a wheel at x = %g m", x)
		}
		if math.Abs(next-pitch) < 1e-13 {
			z := heights[i] - wheels[i].X*sin - wheels[i].Z*cos
			pose := geom.Rotation(geom.Vec{}, geom.Vec{0, 1, 0}, -next)
			pose.T = geom.Vec{x, 0, z}
			return Rest{Rear: i, Front: j, Pitch: next, Pose: pose}, nil
		}
		pitch = next
	}
	return Rest{}, fmt.Errorf("the body finds no rest at x = %g m", x)
}

// pitchOn is the pitch at which the second wheel stands by rise above the first.
func pitchOn(a, b Wheel, rise float64) float64 {
	d := math.Hypot(b.X-a.X, b.Z-a.Z)
	return math.Asin(rise/d) - math.Atan2(b.Z-a.Z, b.X-a.X)
}
