package culvert

import (
	"boxwalk/model/geom"
)

// Haunch is the fillet in a corner of the section: Run along the slab, Rise
// along the wall. Both are zero where there is none.
type Haunch struct{ Run, Rise float64 }

// Exists tells whether there is a haunch.
func (h Haunch) Exists() bool { return h.Run > 0 && h.Rise > 0 }

// Section is one cell's cross-section, in metres.
type Section struct {
	HalfSpan float64 // wall face from the centreline
	Rise     float64 // soffit above the invert top, camber included
	Roof     float64 // thickness
	Invert   float64 // thickness
	Left     float64 // thickness of the left wall
	Right    float64 // thickness of the right wall
	Top      Haunch
	Bottom   Haunch
	Kicker   float64 // height above the invert top
	Channel  Channel // in the invert
}

// PlaneTop is the top of the plane wall face: where the top haunch begins.
func (s Section) PlaneTop() float64 { return s.Rise - s.Top.Rise }

// Side tells left from right; the sign of y.
type Side int

// The two sides of a cell, looking ahead.
const (
	Left  Side = 1
	Both  Side = 0
	Right Side = -1
)

func (s Side) String() string {
	switch s {
	case Left:
		return "left"
	case Right:
		return "right"
	}
	return "both"
}

// thickness of the wall on a side.
func (s Section) thickness(side Side) float64 {
	if side == Left {
		return s.Left
	}
	return s.Right
}

// outline of a zone on one side, y counted outward from the centreline.
func (s Section) outline(z Zone, side Side) []geom.Point2 {
	b, t := s.HalfSpan, s.thickness(side)
	crown, base := s.Rise+s.Roof, -s.Invert
	switch z {
	case Wall:
		return rectangle(b, s.Kicker, b+t, crown)
	case Kicker:
		return rectangle(b, base, b+t, s.Kicker)
	case HaunchTop:
		return []geom.Point2{{b - s.Top.Run, s.Rise}, {b, s.Rise - s.Top.Rise}, {b + t, s.Rise - s.Top.Rise}, {b + t, crown}, {b - s.Top.Run, crown}}
	case HaunchBottom:
		return []geom.Point2{{b - s.Bottom.Run, 0}, {b, s.Bottom.Rise}, {b + t, s.Bottom.Rise}, {b + t, base}, {b - s.Bottom.Run, base}}
	}
	return nil
}

// slab is the outline of roof or invert over the whole width of the cell and
// its walls, as if there were no channel.
func (s Section) slab(z Zone) []geom.Point2 {
	if z == Roof {
		return rectangle(-s.HalfSpan-s.Right, s.Rise, s.HalfSpan+s.Left, s.Rise+s.Roof)
	}
	return rectangle(-s.HalfSpan-s.Right, -s.Invert, s.HalfSpan+s.Left, 0)
}

func rectangle(y0, z0, y1, z1 float64) []geom.Point2 {
	return []geom.Point2{{y0, z0}, {y1, z0}, {y1, z1}, {y0, z1}}
}
