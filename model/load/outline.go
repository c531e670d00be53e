package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

func (o Outline) check() error {
	var err error
	for _, p := range o {
		err = errors.Join(err,
			within("corner along", float64(p.Along), -mostLength, mostLength, "m"),
			within("corner up", float64(p.Up), -mostLength, mostLength, "m"))
	}
	switch {
	case err != nil:
		return err
	case len(o) < 3 || len(o) > 1000:
		return outsideBecause("an outline of %d corners, must have 3 to 1000", len(o))
	case math.Abs(o.area()) < 1e-9:
		return outsideBecause("an outline without area")
	case o.crosses():
		return outsideBecause("an outline that crosses itself")
	}
	return nil
}

// turn is twice the signed area of a triangle in m², above 0 anticlockwise.
func turn(a, b, c Point) float64 {
	return float64(b.Along-a.Along)*float64(c.Up-a.Up) - float64(c.Along-a.Along)*float64(b.Up-a.Up)
}

// area is signed, in m².
func (o Outline) area() float64 {
	sum := 0.0
	for i := 1; i+1 < len(o); i++ {
		sum += turn(o[0], o[i], o[i+1]) / 2
	}
	return sum
}

// crosses tells whether two sides pass through each other.
func (o Outline) crosses() bool {
	n := len(o)
	for i := range n {
		for j := i + 2; j < n; j++ {
			a, b, c, d := o[i], o[i+1], o[j], o[(j+1)%n]
			if turn(a, b, c)*turn(a, b, d) < 0 && turn(c, d, a)*turn(c, d, b) < 0 {
				return true
			}
		}
	}
	return false
}

// cut keeps the part with along·x + up·z ≥ least. Of an outline that turns in it
// may leave sides that run back on themselves; they add nothing to an integral.
func (o Outline) cut(along, up, least float64) Outline {
	var out Outline
	side := func(p Point) float64 { return along*float64(p.Along) + up*float64(p.Up) - least }
	for i, p := range o {
		q := o[(i+1)%len(o)]
		s, t := side(p), side(q)
		if s >= 0 {
			out = append(out, p)
		}
		if s < 0 && t > 0 || s > 0 && t < 0 {
			f := units.Length(s / (s - t))
			out = append(out, Point{p.Along + f*(q.Along-p.Along), p.Up + f*(q.Up-p.Up)})
		}
	}
	return out
}

// moments are the signed integrals of the pressure, and of the pressure times
// the distance from o along and up: over a triangle of area A the product of two
// linear functions f and g has the integral A/12 (Σf Σg + Σ f g) of the corners.
func (o Outline) moments(b band, from Point) (force, along, up float64) {
	for i := 1; i+1 < len(o); i++ {
		corners := [3]Point{o[0], o[i], o[i+1]}
		area := turn(corners[0], corners[1], corners[2]) / 2
		var p, x, z, px, pz float64
		for _, c := range corners {
			here, dx, dz := b.at(float64(c.Up)), float64(c.Along-from.Along), float64(c.Up-from.Up)
			p, x, z = p+here, x+dx, z+dz
			px, pz = px+here*dx, pz+here*dz
		}
		force += area * p / 3
		along += area / 12 * (p*x + px)
		up += area / 12 * (p*z + pz)
	}
	return force, along, up
}

// holds tells whether a point lies inside or on the outline.
func (o Outline) holds(p Point) bool {
	inside := false
	for i, a := range o {
		b := o[(i+1)%len(o)]
		if a == p || onSide(p, a, b) {
			return true
		}
		if (a.Up > p.Up) != (b.Up > p.Up) {
			at := a.Along + (b.Along-a.Along)*(p.Up-a.Up)/(b.Up-a.Up)
			inside = inside != (p.Along < at)
		}
	}
	return inside
}

// onSide tells whether p lies within a nanometre of the side from a to b.
func onSide(p, a, b Point) bool {
	long := math.Hypot(float64(b.Along-a.Along), float64(b.Up-a.Up))
	if long == 0 {
		return false
	}
	dot := float64(p.Along-a.Along)*float64(b.Along-a.Along) + float64(p.Up-a.Up)*float64(b.Up-a.Up)
	return math.Abs(turn(a, b, p))/long <= 1e-9 && dot >= 0 && dot <= long*long
}
