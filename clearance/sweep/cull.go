package sweep

import (
	"math"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// swept is an axis-parallel box in the frame ref around everything a solid
// touches over an interval.
type swept struct{ lo, hi gap.XYZ }

func (b *swept) add(p gap.XYZ) {
	widen(&b.lo.X, &b.hi.X, p.X)
	widen(&b.lo.Y, &b.hi.Y, p.Y)
	widen(&b.lo.Z, &b.hi.Z, p.Z)
}

func widen(lo, hi *float64, x float64) {
	if x < *lo {
		*lo = x
	}
	if x > *hi {
		*hi = x
	}
}

func (b *swept) grow(m float64) {
	b.lo = gap.XYZ{X: b.lo.X - m, Y: b.lo.Y - m, Z: b.lo.Z - m}
	b.hi = gap.XYZ{X: b.hi.X + m, Y: b.hi.Y + m, Z: b.hi.Z + m}
}

// gap is the distance between the boxes, -Inf when they meet: then nothing is
// known about the solids.
func (b *swept) gap(o *swept) float64 {
	x := outside(b.lo.X-o.hi.X, o.lo.X-b.hi.X)
	y := outside(b.lo.Y-o.hi.Y, o.lo.Y-b.hi.Y)
	z := outside(b.lo.Z-o.hi.Z, o.lo.Z-b.hi.Z)
	if x == 0 && y == 0 && z == 0 {
		return math.Inf(-1)
	}
	return math.Sqrt(x*x + y*y + z*z)
}

// outside is the larger of a and b, or zero.
func outside(a, b float64) float64 {
	if b > a {
		a = b
	}
	if a > 0 {
		return a
	}
	return 0
}

// around is the box of the solid over the interval: a vertex stays within
// K D²/8 of the chord between its ends.
func (v *moving) around(d float64) swept {
	inf := math.Inf(1)
	b := swept{gap.XYZ{X: inf, Y: inf, Z: inf}, gap.XYZ{X: -inf, Y: -inf, Z: -inf}}
	for _, p := range v.part.Solid.Vertices() {
		b.add(gap.Apply(&v.p0, p))
		if !v.still {
			b.add(gap.Apply(&v.p1, p))
		}
	}
	b.grow(v.most * d * d / 8)
	return b
}

// boxAround is the box of the solid's body box at one pose: looser, but it
// costs the same for any solid.
func boxAround(s *gap.Solid, p *geom.Pose) swept {
	c, h := s.Box()
	r := &p.R
	e := gap.XYZ{
		X: math.Abs(r[0])*h.X + math.Abs(r[3])*h.Y + math.Abs(r[6])*h.Z,
		Y: math.Abs(r[1])*h.X + math.Abs(r[4])*h.Y + math.Abs(r[7])*h.Z,
		Z: math.Abs(r[2])*h.X + math.Abs(r[5])*h.Y + math.Abs(r[8])*h.Z,
	}
	c = gap.Apply(p, c)
	return swept{c.Sub(e), c.Add(e)}
}
