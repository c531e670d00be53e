package align

import "math"

// Start is where the alignment begins on the ground.
type Start struct {
	Station           float64 // m
	Elevation         float64 // of the invert top, m
	Bearing           float64 // of the alignment ahead, clockwise from north, rad
	Easting, Northing float64 // m
	Grade             float64 // rise over run all along, where there is no profile
}

// Element is one piece of the plan. It is an angle point when Length is zero,
// then only Turn counts; a tangent when Radius is zero; a circular curve
// otherwise.
type Element struct {
	Length float64 // along the alignment, m
	Radius float64 // m, positive turning left, negative right
	Turn   float64 // of an angle point, rad, positive left
}

// Tangent is a straight of that length, in the direction of what comes before.
func Tangent(length float64) Element { return Element{Length: length} }

// AnglePoint turns the alignment by an angle, positive left.
func AnglePoint(turn float64) Element { return Element{Turn: turn} }

// Arc is a circular curve tangent to what comes before; the radius is positive
// turning left.
func Arc(radius, length float64) Element { return Element{Length: length, Radius: radius} }

// angle is by how much the element turns the alignment.
func (e Element) angle() float64 {
	switch {
	case e.Length == 0:
		return e.Turn
	case e.Radius == 0:
		return 0
	}
	return e.Length / e.Radius
}

// PVI is a point of the profile where two grades meet.
type PVI struct {
	Station   float64 // m
	Elevation float64 // where the two grades meet, m
	Curve     float64 // length of the parabolic curve centred on it, m; 0 for a grade break
}

// curve is the point (along, across) at distance s on a circle of signed radius
// r, or on a straight when r is 0, from where it starts along x. The form
// r(1-cos a) = 2 r sin^2(a/2) keeps every digit on the largest radius.
func curve(r, s float64) (x, y float64) {
	if r == 0 {
		return s, 0
	}
	h := math.Sin(s / (2 * r))
	return r * math.Sin(s/r), 2 * r * h * h
}
