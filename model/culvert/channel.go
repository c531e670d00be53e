package culvert

import "boxwalk/model/geom"

// Channel is a low-flow channel in the invert, rectangular and along the cell:
// its middle is Offset left of the centreline. It has no depth where there is
// none.
type Channel struct{ Offset, Width, Depth float64 }

// Exists tells whether there is a channel.
func (c Channel) Exists() bool { return c.Width > 0 && c.Depth > 0 }

// edges are where the invert top ends on either side of the channel.
func (c Channel) edges() (right, left float64) {
	return c.Offset - c.Width/2, c.Offset + c.Width/2
}

// slabPiece is one convex piece of a slab's section.
type slabPiece struct {
	side    Side
	where   string // added to the slab's name
	outline []geom.Point2
}

// invert is the invert slab over the whole width of the cell and its walls, as
// convex pieces: one, or those below, left and right of the channel. The one
// below runs under the other two, and those go down to the underside, so that
// no face between pieces is a way out of the slab.
func (s Section) invert() []slabPiece {
	if !s.Channel.Exists() {
		return []slabPiece{{Both, "", s.slab(Invert)}}
	}
	right, left := s.Channel.edges()
	outerRight, outerLeft := -s.HalfSpan-s.Right, s.HalfSpan+s.Left
	return []slabPiece{
		{Both, " below the channel", rectangle(outerRight, -s.Invert, outerLeft, -s.Channel.Depth)},
		{Left, " left of the channel", rectangle(left, -s.Invert, outerLeft, 0)},
		{Right, " right of the channel", rectangle(outerRight, -s.Invert, right, 0)},
	}
}

// Opening is the clear outline of the cell, {y, z}, counter-clockwise seen with
// y to the right from the right toe of the invert on; the channel is part of
// it. Corners that fall together, as where a haunch is absent, are one.
func (s Section) Opening() []geom.Point2 {
	b, r := s.HalfSpan, s.Rise
	corners := []geom.Point2{{-b + s.Bottom.Run, 0}}
	if s.Channel.Exists() {
		right, left := s.Channel.edges()
		corners = append(corners, geom.Point2{right, 0}, geom.Point2{right, -s.Channel.Depth}, geom.Point2{left, -s.Channel.Depth}, geom.Point2{left, 0})
	}
	corners = append(corners, geom.Point2{b - s.Bottom.Run, 0}, geom.Point2{b, s.Bottom.Rise}, geom.Point2{b, r - s.Top.Rise},
		geom.Point2{b - s.Top.Run, r}, geom.Point2{-b + s.Top.Run, r}, geom.Point2{-b, r - s.Top.Rise}, geom.Point2{-b, s.Bottom.Rise})
	var out []geom.Point2
	for i, p := range corners {
		if p.Sub(corners[(i+1)%len(corners)]).Len() > sameCorner {
			out = append(out, p)
		}
	}
	return out
}

// sameCorner is a distance far below what is built and far above rounding.
const sameCorner = 1e-9
