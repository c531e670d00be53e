package sheet

import "math"

// Box is an upright rectangle, mm. Only EmptyBox and boxes grown from it may be empty.
type Box struct{ Min, Max Point }

// EmptyBox holds nothing; growing it by a point gives that point.
func EmptyBox() Box {
	return Box{Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}}
}

// Empty reports whether the box holds no point.
func (b Box) Empty() bool { return b.Min[0] > b.Max[0] || b.Min[1] > b.Max[1] }

// Width and Height are the sides, mm.
func (b Box) Width() float64  { return b.Max[0] - b.Min[0] }
func (b Box) Height() float64 { return b.Max[1] - b.Min[1] }

// Centre is the middle of the box.
func (b Box) Centre() Point { return b.Min.Add(b.Max).Mul(0.5) }

// Grow returns the least box that holds b and the points.
func (b Box) Grow(points ...Point) Box {
	for _, p := range points {
		for i := range p {
			b.Min[i] = math.Min(b.Min[i], p[i])
			b.Max[i] = math.Max(b.Max[i], p[i])
		}
	}
	return b
}

// Union returns the least box that holds both.
func (b Box) Union(c Box) Box {
	if c.Empty() {
		return b
	}
	return b.Grow(c.Min, c.Max)
}

// Inset moves every side inward by d mm.
func (b Box) Inset(d float64) Box {
	return Box{b.Min.Add(Point{d, d}), b.Max.Sub(Point{d, d})}
}

// Holds reports whether c lies in b, touching allowed to 1e-6 mm.
func (b Box) Holds(c Box) bool {
	const touch = 1e-6
	return c.Min[0] >= b.Min[0]-touch && c.Min[1] >= b.Min[1]-touch &&
		c.Max[0] <= b.Max[0]+touch && c.Max[1] <= b.Max[1]+touch
}

// Meets reports whether two boxes share a point.
func (b Box) Meets(c Box) bool {
	return b.Max[0] >= c.Min[0] && c.Max[0] >= b.Min[0] && b.Max[1] >= c.Min[1] && c.Max[1] >= b.Min[1]
}

// corners in order, starting lower left, turning left.
func (b Box) corners() []Point {
	return []Point{b.Min, {b.Max[0], b.Min[1]}, b.Max, {b.Min[0], b.Max[1]}}
}
