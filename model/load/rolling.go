package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// Ranges, judgement: a slope of 1 in 2 is no grade to roll a carrier on, a
// coefficient above 0.5 is a skid.
const (
	mostSlope       = 0.5
	mostCoefficient = 0.5
)

func rollCheck(weight units.Force, slope units.Slope, f float64) error {
	return errors.Join(
		within("weight", float64(weight), 0, mostForce, "kN"),
		within("slope", float64(slope), -mostSlope, mostSlope, ""),
		within("rolling coefficient", f, 0, mostCoefficient, ""))
}

// Pull returns F = W (sin θ + f cos θ) in kN with tan θ = slope, up positive.
// A negative value runs away by itself. Range: slope ±0.5, f 0 to 0.5
// (judgement). Source: statics (derived).
func Pull(weight units.Force, slope units.Slope, f float64) (units.Force, error) {
	if err := rollCheck(weight, slope, f); err != nil {
		return 0, err
	}
	return units.Force(float64(weight) * tangentPull(float64(slope), f)), nil
}

// tangentPull is sin θ + f cos θ = (tan θ + f)/√(1 + tan² θ), which is exactly
// zero where tan θ = −f.
func tangentPull(tangent, f float64) float64 { return (tangent + f) / math.Hypot(1, tangent) }

// HoldsItself reports whether a carrier stays where it is without a brake: only
// where the slope, up or down, is not above the rolling coefficient (derived).
func HoldsItself(slope units.Slope, f float64) (bool, error) {
	if err := rollCheck(0, slope, f); err != nil {
		return false, err
	}
	return math.Abs(float64(slope)) <= f, nil
}

// Rolling is a carrier on a slope with what is known of its resistance.
type Rolling struct {
	Weight units.Force
	Slope  units.Slope // up positive, in the way of travel
	Least  float64     // least rolling coefficient: counts for holding
	Most   float64     // most rolling coefficient: counts for pulling
	// Breakaway is starting over rolling resistance, 1.5 to 2.5 for clean ball
	// bearings (memory).
	Breakaway float64
}

// Pulling is what a carrier on a slope asks of the lines.
type Pulling struct {
	Running units.Force // kN, most coefficient; negative: it runs by itself
	// Starting is what the pulling line must have: breakaway on the most coefficient.
	// It is never below zero.
	Starting units.Force
	// Hold is what the restraint must have, W (sin θ − f cos θ) with the least
	// coefficient and θ taken down; zero where none is needed. It stops no
	// motion: what brakes a moving carrier needs more.
	Hold units.Force
	// NeedsHold is true wherever tan θ is above the least coefficient, up or
	// down: uphill it is the carrier that runs back when the line goes.
	NeedsHold bool
	RunsAhead bool // downhill, by itself, where NeedsHold
	Source    Source
}

var rollSource = Source{"statics of a rolling body", Derived}

// Demands returns pull and restraint. Range: as [Pull]; least ≤ most;
// breakaway 1 to 5 (judgement). Source: statics (derived); the coefficients
// carry their own, see [Coefficients].
func (r Rolling) Demands() (Pulling, error) {
	err := errors.Join(
		rollCheck(r.Weight, r.Slope, r.Most),
		within("least rolling coefficient", r.Least, 0, r.Most, ""),
		within("breakaway factor", r.Breakaway, 1, 5, ""))
	if err != nil {
		return Pulling{}, err
	}
	w, tangent := float64(r.Weight), float64(r.Slope)
	down := math.Abs(tangent)
	needs := down > r.Least
	p := Pulling{
		Running:   units.Force(w * tangentPull(tangent, r.Most)),
		Starting:  units.Force(max(0, w*tangentPull(tangent, r.Most*r.Breakaway))),
		NeedsHold: needs,
		RunsAhead: needs && tangent < 0,
		Source:    rollSource,
	}
	if needs {
		p.Hold = units.Force(-w * tangentPull(-down, r.Least))
	}
	return p, nil
}

// Capacity sets a demand against what there is.
type Capacity struct {
	Need, Have units.Force // kN
	Margin     units.Force // kN, have − need
	// Use is need over have; 0 when nothing is needed.
	Use float64
}

// Against sets a need against a capacity. Both at least 0; a need without any
// capacity is an error, since it has no use in percent and never holds.
func Against(need, have units.Force) (Capacity, error) {
	err := errors.Join(
		within("need", float64(need), 0, mostForce, "kN"),
		within("capacity", float64(have), 0, mostForce, "kN"))
	if err != nil {
		return Capacity{}, err
	}
	if need == 0 {
		return Capacity{need, have, have, 0}, nil
	}
	if have == 0 {
		return Capacity{}, outsideBecause("%v are needed and there is no capacity", amount{float64(need), "kN"})
	}
	use := float64(need / have)
	return answer("use of capacity", Capacity{need, have, have - need, use}, use)
}

// LeverArm is rolling resistance from its parts.
type LeverArm struct {
	Arm      units.Length // m, lever arm of rolling friction
	Wheel    units.Length // m, wheel diameter
	Axle     units.Length // m, diameter at the bearing
	Friction float64      // of the bearing: 0.005 rolling, 0.08 to 0.1 plain
	Rim      float64      // rim and hub: 0.003 rolling, 0.005 plain bearing
}

// Coefficient returns (2/D)(f + μ d/2) + c, force over load. Range: wheel above
// 0 to 3 m, axle below the wheel, arm to D/4, μ and c to 1 (judgement). Source:
// a gear maker's engineering pages, with its arms and factors (read; the unit of
// its arms is inferred).
func (l LeverArm) Coefficient() (float64, error) {
	d := float64(l.Wheel)
	err := errors.Join(
		above("wheel diameter", d, 0, 3, "m"),
		within("lever arm", float64(l.Arm), 0, d/4, "m"),
		within("axle diameter", float64(l.Axle), 0, d, "m"),
		within("bearing friction", l.Friction, 0, 1, ""),
		within("rim factor", l.Rim, 0, 1, ""))
	if err != nil {
		return 0, err
	}
	f := 2/d*(float64(l.Arm)+l.Friction*float64(l.Axle)/2) + l.Rim
	return answer("rolling coefficient", f, f)
}
