package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// Sliding is a form that stands on jack plates while concrete is placed against
// a bulkhead that it carries.
type Sliding struct {
	Weight   units.Force // kN, the least that is there while the thrust acts
	Slope    units.Slope // of the ground; above 0 it falls the way the thrust goes
	Thrust   units.Force // kN, along the ground
	Sideways units.Force // kN, square to the thrust along the ground, either way
	Friction float64     // of plates on the invert
	Held     units.Force // kN, of anchors and restraints, whichever way it slides
}

// Margin returns what holds the form, W μ cos θ + held, over what drives it, the
// resultant of thrust + W sin θ and the sideways force, or of W sin θ alone
// where that is more: before the concrete comes. Range: slope ±0.5, friction to
// 1 (judgement). Errors: outside it, no weight. Source: statics, Coulomb
// friction (derived).
func (s Sliding) Margin() (Held, error) {
	err := errors.Join(
		above("weight", float64(s.Weight), 0, mostForce, "kN"),
		within("slope", float64(s.Slope), -mostSlope, mostSlope, ""),
		within("thrust", float64(s.Thrust), 0, mostForce, "kN"),
		within("sideways thrust", float64(s.Sideways), -mostForce, mostForce, "kN"),
		within("friction", s.Friction, 0, 1, ""),
		within("restraint", float64(s.Held), 0, mostForce, "kN"))
	if err != nil {
		return Held{}, err
	}
	theta := math.Atan(float64(s.Slope))
	down := float64(s.Weight) * math.Sin(theta)
	driving := max(math.Abs(down), math.Hypot(float64(s.Thrust)+down, float64(s.Sideways)))
	return held(units.Force(driving), units.Force(s.Friction*float64(s.Weight)*math.Cos(theta))+s.Held)
}

// BulkheadThrust is the thrust of fresh concrete on a bulkhead.
type BulkheadThrust struct {
	Normal units.Force // kN, square to the bulkhead
	Ahead  units.Force // kN, along the cell
	Left   units.Force // kN, to the left; below 0 to the right
	Turn   Moment      // kN m about the cell's centreline, above 0 anticlockwise seen from above
	Source Source
}

// OnBulkhead returns the thrust on a bulkhead from its outline seen along the
// cell, so from its projection: across to the left of the centreline, and up.
// With the skew s (above 0: the left side is further ahead) the bulkhead is
// 1/cos s wider than its projection and its pressure is square to it:
//
//	ahead = F,  left = −F tan s,  normal = F / cos s
//
// At y to the left of the centreline it is y tan s further ahead, so F turns
// the form about the point where the bulkhead meets the centreline by
// −F y (1 + tan² s). Range: skew ±60° (judgement). Errors: those of
// [Diagram.On], a skew outside. Source: hydrostatics (derived).
func (d Diagram) OnBulkhead(outline Outline, skew units.Angle) (BulkheadThrust, error) {
	err := within("skew", float64(skew), -math.Pi/3, math.Pi/3, "rad")
	f, bad := d.On(outline)
	if err = errors.Join(err, bad); err != nil {
		return BulkheadThrust{}, err
	}
	tan := math.Tan(float64(skew))
	force, y := float64(f.Force), float64(f.At.Along)
	return BulkheadThrust{
		Normal: units.Force(force * math.Hypot(1, tan)), Ahead: f.Force, Left: units.Force(-force * tan),
		Turn: Moment(-force * y * (1 + tan*tan)), Source: Source{"hydrostatics", Derived},
	}, nil
}
