package geom

import "math"

// Box is an axis-parallel box. The zero value is the single point at the
// origin; start from EmptyBox to collect points.
type Box struct{ Min, Max Vec }

// EmptyBox holds no point.
func EmptyBox() Box {
	inf := math.Inf(1)
	return Box{Min: Vec{inf, inf, inf}, Max: Vec{-inf, -inf, -inf}}
}

// BoxOf is the least box around the points.
func BoxOf(points []Vec) Box {
	b := EmptyBox()
	for _, p := range points {
		b = b.Add(p)
	}
	return b
}

// Add is the least box around b and p.
func (b Box) Add(p Vec) Box {
	for i, v := range p {
		// comparisons, since math.Min costs several times as much
		if !(v >= b.Min[i]) {
			b.Min[i] = v
		}
		if !(v <= b.Max[i]) {
			b.Max[i] = v
		}
	}
	return b
}

// Union is the least box around both.
func (b Box) Union(o Box) Box { return b.Add(o.Min).Add(o.Max) }

// Grow moves every side out by m.
func (b Box) Grow(m float64) Box {
	d := Vec{m, m, m}
	return Box{Min: b.Min.Sub(d), Max: b.Max.Add(d)}
}

// Moved is the box shifted by t.
func (b Box) Moved(t Vec) Box { return Box{Min: b.Min.Add(t), Max: b.Max.Add(t)} }

// Empty tells whether the box holds no point.
func (b Box) Empty() bool { return b.Min[0] > b.Max[0] }

// Center is the middle of the box.
func (b Box) Center() Vec { return b.Min.Add(b.Max).Mul(0.5) }

// Gap is a lower bound on the distance between anything in b and anything in
// o: zero when the boxes meet, else the length of the shortest vector between
// them.
func (b Box) Gap(o Box) float64 {
	var g2 float64
	for i := range b.Min {
		d := math.Max(b.Min[i]-o.Max[i], o.Min[i]-b.Max[i])
		if d > 0 {
			g2 += d * d
		}
	}
	return math.Sqrt(g2)
}
