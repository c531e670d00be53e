package motion

import "math"

// Swept is the ring that a body sweeps while it rolls round a circle, seen from
// the circle's centre: from its inner side at mid base to its outer corners.
type Swept struct{ Inner, Outer float64 }

// Width of the ring.
func (s Swept) Width() float64 { return s.Outer - s.Inner }

// SweptOnCircle is what a body of the given width sweeps whose two guides, base
// apart on its centreline, run on a circle of the given radius, with the given
// overhang beyond each guide: c = sqrt(R² - B²/4), inner c - w/2, outer
// sqrt((c + w/2)² + (B/2 + a)²). The base must be less than the diameter.
func SweptOnCircle(radius, base, overhang, width float64) Swept {
	c := math.Sqrt(radius*radius - base*base/4)
	return Swept{Inner: c - width/2, Outer: math.Hypot(c+width/2, base/2+overhang)}
}

// CentreThrow is how far the middle of the base stands inside the circle its
// guides run on, R - sqrt(R² - B²/4), about B²/8R.
func CentreThrow(radius, base float64) float64 {
	q := base * base / 4
	return q / (radius + math.Sqrt(radius*radius-q))
}

// EndThrow is how far the ends of a body's centreline of the given length stand
// outside that circle, about (L² - B²)/8R.
func EndThrow(radius, base, length float64) float64 {
	q := (length*length - base*base) / 4
	return q / (radius + math.Sqrt(radius*radius+q))
}

// AngleThrow is the most that the middle of the base stands off a course of two
// straights with both guides on it: (B/2) tan(phi/2), when the angle point is
// under mid base.
func AngleThrow(base, turn float64) float64 { return base / 2 * math.Tan(math.Abs(turn)/2) }

// TailThrow is the most that the rear end of a body stands off the straight it
// came by, overhang sin(phi): the rear guide is at the angle point then, and the
// base lies along the straight ahead.
func TailThrow(overhang, turn float64) float64 { return overhang * math.Sin(math.Abs(turn)) }

// BreakLoss is how much the clearance under mid base shrinks over a crest of
// two straight grades, (B/2) tan(phi/2) with phi = atan g1 - atan g2, about
// B |g1 - g2|/4; negative, a gain, over a sag.
func BreakLoss(base, gradeIn, gradeOut float64) float64 {
	return base / 2 * math.Tan((math.Atan(gradeIn)-math.Atan(gradeOut))/2)
}
