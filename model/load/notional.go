package load

import (
	"errors"

	"boxwalk/model/units"
)

// Shares of the vertical load by BS 5975, from memory: the least horizontal
// load, and what known horizontal loads are increased by for a frame out of
// plumb.
const (
	NotionalShare = 0.025
	PlumbShare    = 0.01
)

// NotionalSource is the source of both shares.
func NotionalSource() Source {
	return Source{"BS 5975: 2.5 % of the vertical load, or known loads and 1 %", Memory}
}

// Push is a horizontal force at a height.
type Push struct {
	Force units.Force  // kN
	At    units.Length // m above the ground
}

// Wind returns q c A at a height: pressure in kPa, shape coefficient, area in m²
// that faces it. Range: pressure to 10 kPa, coefficient to 4 (judgement). Errors:
// outside it. Source: statics (derived).
func Wind(pressure units.Pressure, shape, area float64, at units.Length) (Push, error) {
	err := errors.Join(
		within("wind", float64(pressure), 0, 10, "kPa"),
		within("shape coefficient", shape, 0, 4, ""),
		within("area", area, 0, 1e6, "m²"),
		within("height of the wind", float64(at), 0, 100, "m"))
	if err != nil {
		return Push{}, err
	}
	return Push{units.Force(float64(pressure) * shape * area), at}, nil
}

// Free is a frame that stands free.
type Free struct {
	Vertical units.Force  // kN, all that it carries and weighs
	Top      units.Length // m above the ground, where the load comes on
	Known    []Push       // wind and other known horizontal forces, one way
	Notional float64      // share of the vertical load at least, [NotionalShare]
	Plumb    float64      // share on top of known forces, [PlumbShare]
}

// Sideways is the horizontal load that a free frame is held against. What
// slides it most need not be what tips it most.
type Sideways struct {
	Slides, Tips               Push // the resultant, at its height
	SlidesByLeast, TipsByLeast bool // the notional load governs over the known ones
	Source                     Source
}

// Sideways returns the governing horizontal load in one direction: either
// notional · V at the top, or the known forces with plumb · V at the top, the
// greater force for sliding and the greater moment for tipping. kN, m. It goes
// into [Sliding] and [Tipping]. Range: shares to 0.2 (judgement). Errors: outside
// it, no vertical load, a height not stated. Source: BS 5975 (memory).
func (f Free) Sideways() (Sideways, error) {
	err := errors.Join(
		above("vertical load", float64(f.Vertical), 0, mostForce, "kN"),
		above("height of the load", float64(f.Top), 0, 100, "m"),
		above("notional share", f.Notional, 0, 0.2, ""),
		within("share for plumb", f.Plumb, 0, 0.2, ""))
	for _, k := range f.Known {
		err = errors.Join(err,
			within("known force", float64(k.Force), 0, mostForce, "kN"),
			within("height of a known force", float64(k.At), 0, 100, "m"))
	}
	if err != nil {
		return Sideways{}, err
	}
	least := Push{units.Force(f.Notional) * f.Vertical, f.Top}
	known := resultant(append([]Push{{units.Force(f.Plumb) * f.Vertical, f.Top}}, f.Known...))
	out := Sideways{Slides: known, Tips: known, Source: NotionalSource()}
	if least.Force >= known.Force {
		out.Slides, out.SlidesByLeast = least, true
	}
	if least.moment() >= known.moment() {
		out.Tips, out.TipsByLeast = least, true
	}
	return answer("sideways load", out, float64(known.Force), float64(known.At))
}

func (p Push) moment() float64 { return float64(p.Force) * float64(p.At) }

// resultant is one push with the force and the moment of all.
func resultant(pushes []Push) Push {
	var force units.Force
	var moment float64
	for _, p := range pushes {
		force, moment = force+p.Force, moment+p.moment()
	}
	if force == 0 {
		return Push{}
	}
	return Push{force, units.Length(moment / float64(force))}
}
