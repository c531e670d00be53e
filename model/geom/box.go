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

// Turned is the least box around the box as the pose takes it.
func (b Box) Turned(aFromB Pose) Box {
	if aFromB.R == upright {
		return b.Moved(aFromB.T)
	}
	c, h := aFromB.Apply(b.Center()), b.Max.Sub(b.Min).Mul(0.5)
	var reach Vec
	for i := range reach {
		reach[i] = math.Abs(aFromB.R.At(i, 0))*h[0] + math.Abs(aFromB.R.At(i, 1))*h[1] + math.Abs(aFromB.R.At(i, 2))*h[2]
	}
	return Box{Min: c.Sub(reach), Max: c.Add(reach)}
}

// upright turns nothing.
var upright = Identity().R

// Corners are the eight corners of the box.
func (b Box) Corners() [8]Vec {
	var out [8]Vec
	side := [2]Vec{b.Min, b.Max}
	for i := range out {
		out[i] = Vec{side[i&1][0], side[i>>1&1][1], side[i>>2][2]}
	}
	return out
}

// Empty tells whether the box holds no point.
func (b Box) Empty() bool { return b.Min[0] > b.Max[0] }

// Center is the middle of the box.
func (b Box) Center() Vec { return b.Min.Add(b.Max).Mul(0.5) }

// Gap is a lower bound on the distance between anything in b and anything in
// o: zero when the boxes meet, else the length of the shortest vector between
// them.
func (b Box) Gap(o Box) float64 {
	x := outside(b.Min[0]-o.Max[0], o.Min[0]-b.Max[0])
	y := outside(b.Min[1]-o.Max[1], o.Min[1]-b.Max[1])
	z := outside(b.Min[2]-o.Max[2], o.Min[2]-b.Max[2])
	return math.Sqrt(x*x + y*y + z*z)
}

// outside is the larger of a and b, or zero; max costs twice as much where boxes
// are counted by the million.
func outside(a, b float64) float64 {
	if b > a {
		a = b
	}
	if a > 0 {
		return a
	}
	return 0
}
