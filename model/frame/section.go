package frame

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// Section is the cross-section of a bar about the axis it bends or buckles about.
type Section struct {
	Area    float64      // m²
	Inertia float64      // m⁴, second moment of area
	Edge    units.Length // m, from the axis to the farthest fibre
}

// Rod returns a solid round section; a screw counts by the core of its thread.
// Range: diameter above 0 to 1 m. Source: geometry (derived).
func Rod(diameter units.Length) (Section, error) {
	return RoundTube(diameter, diameter/2)
}

// RoundTube returns a round tube by its outside and wall; a wall of half the
// outside is a rod. Range: outside above 0 to 1 m. Source: geometry (derived).
func RoundTube(outside, wall units.Length) (Section, error) {
	d := float64(outside)
	err := errors.Join(above("outside of a tube", d, 0, 1, "m"), above("wall of a tube", float64(wall), 0, d/2, "m"))
	if err != nil {
		return Section{}, err
	}
	hole := d - 2*float64(wall)
	s := Section{math.Pi / 4 * (d*d - hole*hole), math.Pi / 64 * (math.Pow(d, 4) - math.Pow(hole, 4)), outside / 2}
	return s.answer()
}

// BoxTube returns a rectangular tube with square corners, by its height in the
// plane in which it bends, its width and its wall. Rounded corners are less: the
// maker's A and I go before it. Range: sides above 0 to 2 m. Source: geometry
// (derived).
func BoxTube(height, width, wall units.Length) (Section, error) {
	h, b, t := float64(height), float64(width), float64(wall)
	err := errors.Join(
		above("height of a tube", h, 0, 2, "m"), above("width of a tube", b, 0, 2, "m"),
		above("wall of a tube", t, 0, math.Min(h, b)/2, "m"))
	if err != nil {
		return Section{}, err
	}
	inH, inB := h-2*t, b-2*t
	return Section{h*b - inH*inB, (b*h*h*h - inB*inH*inH*inH) / 12, height / 2}.answer()
}

func (s Section) answer() (Section, error) {
	if err := s.check(); err != nil {
		return Section{}, err
	}
	return s, nil
}

func (s Section) check() error {
	return errors.Join(
		above("area of a section", s.Area, 1e-9, 4, "m²"),
		above("second moment of area", s.Inertia, 1e-15, 4, "m⁴"),
		above("farthest fibre", float64(s.Edge), 1e-5, 2, "m"))
}

// Modulus returns I over the farthest fibre, in m³.
func (s Section) Modulus() float64 { return s.Inertia / float64(s.Edge) }

// Radius returns √(I/A), the radius of gyration in m.
func (s Section) Radius() units.Length { return units.Length(math.Sqrt(s.Inertia / s.Area)) }
