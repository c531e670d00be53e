package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// Ordinate is the pressure at a height.
type Ordinate struct {
	Up       units.Length   // m
	Pressure units.Pressure // kPa
}

// Diagram is a pressure over the height: straight from one ordinate to the next,
// from the base up, and nothing below the first or above the last. Two ordinates
// at one height are a step.
type Diagram []Ordinate

// Diagram returns the envelope as a diagram with its base at height 0.
func (e Envelope) Diagram() (Diagram, error) {
	if err := e.check(); err != nil {
		return nil, err
	}
	head := e.head()
	p := units.Pressure(e.Gradient * head)
	kink := e.Height - units.Length(head)
	if kink <= 0 {
		return Diagram{{0, p}, {e.Height, 0}}, nil
	}
	return Diagram{{0, p}, {kink, p}, {e.Height, 0}}, nil
}

// Check refuses a diagram that states fewer than two heights, that does not go
// up, or that holds a suction.
func (d Diagram) Check() error {
	if len(d) < 2 {
		return missing("pressure at two heights")
	}
	var err error
	for i, o := range d {
		least := -mostLength
		if i > 0 {
			least = float64(d[i-1].Up)
		}
		err = errors.Join(err,
			within("height of an ordinate", float64(o.Up), max(least, -mostLength), mostLength, "m"),
			within("pressure", float64(o.Pressure), 0, 1e7, "kPa"))
	}
	if err == nil && !(d[len(d)-1].Up > d[0].Up) {
		return outsideBecause("a pressure at one height only")
	}
	return err
}

// band is a stretch of a diagram on which the pressure is a straight line.
type band struct{ low, high, atLow, atHigh float64 }

func (b band) at(up float64) float64 {
	return b.atLow + (b.atHigh-b.atLow)*(up-b.low)/(b.high-b.low)
}

func (d Diagram) bands() []band {
	var out []band
	for i := 1; i < len(d); i++ {
		a, b := d[i-1], d[i]
		if b.Up > a.Up {
			out = append(out, band{float64(a.Up), float64(b.Up), float64(a.Pressure), float64(b.Pressure)})
		}
	}
	return out
}

// Point is a place on an upright plane.
type Point struct{ Along, Up units.Length }

// Outline is a polygon on an upright plane, either way round, not crossing itself.
type Outline []Point

// Thrust is the force of a pressure on an area, and where it acts; the place
// means nothing where the force is 0.
type Thrust struct {
	Force units.Force // kN, square to the area
	At    Point
	Area  float64 // m²
}

// On returns the thrust on an upright area: the integral of the pressure over
// it, exact but for rounding, because the area is cut at each ordinate and a
// straight pressure over a triangle has a closed form. Lengths in m, pressure in
// kPa. Errors: an outline with fewer than three corners, without area or that
// crosses itself; a diagram that does not go up. Source: statics (derived).
func (d Diagram) On(area Outline) (Thrust, error) {
	if err := errors.Join(d.Check(), area.check()); err != nil {
		return Thrust{}, err
	}
	return d.over(area)
}

func (d Diagram) over(area Outline) (Thrust, error) {
	o, size := area[0], math.Abs(area.area())
	var force, along, up float64
	for _, b := range d.bands() {
		piece := area.cut(0, 1, b.low).cut(0, -1, -b.high)
		f, a, u := piece.moments(b, o)
		force, along, up = force+f, along+a, up+u
	}
	t := Thrust{Force: units.Force(math.Abs(force)), Area: size}
	if force != 0 {
		t.At = Point{o.Along + units.Length(along/force), o.Up + units.Length(up/force)}
	}
	return answer("thrust", t, force, size, float64(t.At.Along), float64(t.At.Up))
}
