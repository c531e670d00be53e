package motion

import "github.com/go-gl/mathgl/mgl64"

// SeenFrom is the same course with its coordinates taken from its place at a
// distance along it, ahead of an angle point there: that place is the origin,
// its direction x, and distances count from it, so that what lies behind has
// negative ones. Length stays that of the course.
func (c *Course) SeenFrom(t float64) *Course {
	k := c.strokes[c.strokeAt(t)]
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
