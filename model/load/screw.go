package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// Screw is a power screw: a screw jack, a turnbuckle, a draw screw.
type Screw struct {
	Diameter   units.Length // m, outside the thread
	Pitch      units.Length // m
	Starts     int
	HalfAngle  units.Angle  // of the thread: 0 square, 14.5° acme, 15° metric trapezoidal
	Friction   float64      // of the thread
	Collar     float64      // friction of the collar; 0 with a thrust bearing
	CollarMean units.Length // m, mean diameter of the collar; 0 without one
}

// Turning is what it takes to turn a screw under load.
type Turning struct {
	Raise Moment // kN m, to raise the load
	// Lower is the torque to lower it; where it is negative the load runs down
	// by itself.
	Lower      Moment
	Efficiency float64 // of raising
	// SelfLocking is for the thread alone, without the collar: only then the
	// load stays where it is. Vibration can defeat it.
	SelfLocking bool
	Source      Source
}

var screwSource = Source{"power screw with square thread, Shigley; acme by f/cos α", Memory}

func (s Screw) check() error {
	err := errors.Join(
		above("thread diameter", float64(s.Diameter), 0, 1, "m"),
		above("pitch", float64(s.Pitch), 0, float64(s.Diameter), "m"),
		within("thread starts", float64(s.Starts), 1, 8, ""),
		within("half-angle of the thread", float64(s.HalfAngle), 0, math.Pi/4, "rad"),
		within("thread friction", s.Friction, 0, 1, ""),
		within("collar friction", s.Collar, 0, 1, ""),
		within("collar diameter", float64(s.CollarMean), 0, 2, "m"))
	if err != nil {
		return err
	}
	if s.Collar > 0 && s.CollarMean == 0 {
		return missing("mean diameter of the collar")
	}
	return nil
}

// mean returns the mean thread diameter, lead and friction by the half-angle.
func (s Screw) mean() (dm, lead, f float64) {
	return float64(s.Diameter - s.Pitch/2), float64(s.Pitch) * float64(s.Starts), s.Friction / math.Cos(float64(s.HalfAngle))
}

// Torque returns, with dm = d − p/2, lead l = n p, f as f sec α (lead angle left
// out of the half-angle):
//
//	TR = (F dm/2)(l + π f dm)/(π dm − f l) + F fc dc/2
//	TL = (F dm/2)(π f dm − l)/(π dm + f l) + F fc dc/2
//	e = F l/(2π TR);  self-locking where π f dm > l
//
// kN, m. Range: load above 0; π dm > f l, else it cannot be raised. Source:
// Shigley, Mechanical Engineering Design, ch. 8 (formulas from memory; one
// problem read with its answer).
func (s Screw) Torque(load units.Force) (Turning, error) {
	if err := errors.Join(s.check(), above("load", float64(load), 0, mostForce, "kN")); err != nil {
		return Turning{}, err
	}
	dm, lead, f := s.mean()
	if math.Pi*dm <= f*lead {
		return Turning{}, outsideBecause("friction %.4g on a lead of %v cannot be turned", f, amount{lead * 1000, "mm"})
	}
	force, collar := float64(load), float64(load)*s.Collar*float64(s.CollarMean)/2
	raise := force*dm/2*(lead+math.Pi*f*dm)/(math.Pi*dm-f*lead) + collar
	lower := force*dm/2*(math.Pi*f*dm-lead)/(math.Pi*dm+f*lead) + collar
	t := Turning{Moment(raise), Moment(lower), force * lead / (2 * math.Pi * raise), math.Pi*f*dm > lead, screwSource}
	return answer("torque", t, raise, lower, t.Efficiency)
}

// TorqueByEfficiency returns T = F l/(2π e) in kN m. Range: e above 0 to 1,
// lead above 0 to 1 m. Source: energy balance (derived).
func TorqueByEfficiency(load units.Force, lead units.Length, efficiency float64) (Moment, error) {
	err := errors.Join(
		within("load", float64(load), 0, mostForce, "kN"),
		above("lead", float64(lead), 0, 1, "m"),
		above("efficiency", efficiency, 0, 1, ""))
	if err != nil {
		return 0, err
	}
	torque := float64(load) * float64(lead) / (2 * math.Pi * efficiency)
	return answer("torque", Moment(torque), torque)
}
