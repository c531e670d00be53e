package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// Envelope is the pressure on a form over its height: it grows with depth by
// Gradient until it reaches Pressure, and stays there to the base.
type Envelope struct {
	Gradient float64        // kPa per m of depth
	Height   units.Length   // m, of the concrete
	Pressure units.Pressure // kPa, the greatest
}

// Resultant is the force of an envelope on a metre of form.
type Resultant struct {
	Force LineLoad     // kN per m of wall
	Arm   units.Length // m above the base
	Head  units.Length // m below the top, where the pressure stops growing
}

func (e Envelope) check() error {
	return errors.Join(
		above("pressure gradient", e.Gradient, 0, 1e3, "kPa/m"),
		above("height", float64(e.Height), 0, mostLength, "m"),
		above("pressure", float64(e.Pressure), 0, 1e7, "kPa"))
}

// head returns the depth at which the pressure stops growing.
func (e Envelope) head() float64 {
	return math.Min(float64(e.Height), float64(e.Pressure)/e.Gradient)
}

// At returns the pressure at a depth below the concrete's surface, 0 to Height.
func (e Envelope) At(depth units.Length) (units.Pressure, error) {
	if err := errors.Join(e.check(), within("depth", float64(depth), 0, float64(e.Height), "m")); err != nil {
		return 0, err
	}
	return units.Pressure(math.Min(e.Gradient*float64(depth), float64(e.Pressure))), nil
}

// Resultant returns force and arm (derived): with h1 = p/w,
//
//	F = w h1²/2 + p (H − h1)
//	arm = (w h1²/2 · (H − 2 h1/3) + p (H − h1)²/2) / F  above the base
func (e Envelope) Resultant() (Resultant, error) {
	if err := e.check(); err != nil {
		return Resultant{}, err
	}
	h, h1 := float64(e.Height), e.head()
	p := e.Gradient * h1
	triangle, block := p*h1/2, p*(h-h1)
	force := triangle + block
	arm := (triangle*(h-2*h1/3) + block*(h-h1)/2) / force
	return answer("resultant", Resultant{LineLoad(force), units.Length(arm), units.Length(h1)}, force, arm)
}

// TieLoad returns the force of one tie, or of any crossing, from the area it
// holds: pressure times spacing along times spacing up (derived).
func TieLoad(p units.Pressure, along, up units.Length) (units.Force, error) {
	err := errors.Join(
		within("pressure", float64(p), 0, 1e7, "kPa"),
		above("spacing along", float64(along), 0, mostLength, "m"),
		above("spacing up", float64(up), 0, mostLength, "m"))
	if err != nil {
		return 0, err
	}
	return units.Force(float64(p) * float64(along) * float64(up)), nil
}

// MemberLoad returns the load along a stud or waler: pressure times the width
// of form it carries (derived).
func MemberLoad(p units.Pressure, width units.Length) (LineLoad, error) {
	err := errors.Join(
		within("pressure", float64(p), 0, 1e7, "kPa"),
		above("width", float64(width), 0, mostLength, "m"))
	if err != nil {
		return 0, err
	}
	return LineLoad(float64(p) * float64(width)), nil
}
