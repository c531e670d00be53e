package motion

import "github.com/go-gl/mathgl/mgl64"

// samePlace is a distance far above rounding over a culvert and far below one
// that moves a direction.
const samePlace = 1e-6

// SeenFrom is the same course with its coordinates taken from its place at a
// distance along it: that place is the origin, its direction x, and distances
// count from it, so that what lies behind has negative ones. An angle point there
// lies behind, whichever way its distance was rounded. Length stays that of the
// course.
func (c *Course) SeenFrom(t float64) *Course {
	k := c.strokes[c.strokeAt(t+samePlace)]
	origin, turn := k.point(t), mgl64.Rotate2D(-k.headingAt(t))
	heading := k.headingAt(t)
	out := &Course{strokes: make([]stroke, len(c.strokes)), length: c.length}
	for i, s := range c.strokes {
		s.at = turn.Mul2x1(s.at.Sub(origin))
		s.from, s.to, s.mark, s.heading = s.from-t, s.to-t, s.mark-t, s.heading-heading
		out.strokes[i] = s
	}
	return out
}
