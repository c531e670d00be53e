package release

import (
	"errors"

	"boxwalk/model/job"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// Concrete is one part of the concrete and what the job states of it; nil is not stated.
type Concrete struct {
	Age         *units.Duration  // since casting
	Curing      *job.Curing      // its temperature since then
	Tested      *units.Pressure  // by cylinders at that age
	Strength    *units.Pressure  // characteristic, at 28 days
	Cement      string           // class by EN 1992-1-1; "" is not stated
	Calibration *job.Calibration // of its mix; nil where there is none
}

// Invert, Walls and Roof are the three parts of a job.
func Invert(j *job.Job) Concrete {
	c := j.Concrete
	return Concrete{Age: j.Schedule.InvertAge, Curing: c.Curing, Tested: c.InvertStrength, Strength: c.Strength, Cement: c.Cement}
}

// Walls of a job; see Invert.
func Walls(j *job.Job) Concrete {
	c := j.Concrete
	return Concrete{j.Schedule.WallsAge, c.WallsCuring, c.WallsStrength, c.Strength, c.Cement, c.Calibration}
}

// Roof of a job; see Invert.
func Roof(j *job.Job) Concrete {
	c := j.Concrete
	return Concrete{j.Schedule.RoofAge, c.RoofCuring, c.RoofStrength, c.Strength, c.Cement, c.Calibration}
}

// History is a temperature as spells; one mean holds for all of an age.
func History(c *job.Curing, age units.Duration) load.History {
	if c.Mean != nil {
		return load.Steady(*c.Mean, age)
	}
	h := make(load.History, 0, len(c.Spells))
	for _, s := range c.Spells {
		h = append(h, load.Spell{For: s.For, At: s.At})
	}
	return h
}

// Gained is the strength at an age by temperatures, and what was counted.
type Gained struct {
	Strength   units.Pressure     // kPa
	Worth      load.EquivalentAge // what the age is worth at the reference temperature; 0 where Maturity counts
	Maturity   load.Maturity      // temperature-time factor, degC h; 0 where Worth counts
	Calibrated bool               // by tests of the mix; else by EN 1992-1-1, where it is characteristic
}

// ErrEarly tells that up to an equivalent age of 3 d only tests tell the strength.
var ErrEarly = errors.New("up to 3 days only tests tell the strength")

// At is the strength at an age: by the calibration of the mix where there is one, else
// the characteristic strength of EN 1992-1-1 3.1.2 at the equivalent age of its B.10.
// What was counted stands beside an error too. Age, curing, and either calibration or
// strength and cement must be stated. Errors: temperatures that end before the age or
// lie where the formula ends, ErrEarly, and those of load.
func (c Concrete) At(age units.Duration) (Gained, error) {
	h := History(c.Curing, age)
	if c.Calibration != nil {
		return c.calibrated(age, h)
	}
	strength := units.Pressure(0)
	if c.Strength != nil {
		strength = *c.Strength
	}
	cast := load.Invert{Strength: strength, Class: load.CementClassOf(c.Cement), Age: age, Curing: h}
	worth, err := cast.Equivalent()
	g := Gained{Worth: worth}
	switch {
	case err != nil:
		return g, err
	case worth.Days() <= 3:
		return g, ErrEarly
	}
	g.Strength, err = cast.StrengthNow()
	return g, err
}

// calibrated is the strength by tests of the mix.
func (c Concrete) calibrated(age units.Duration, h load.History) (g Gained, err error) {
	if err := h.Covers(age); err != nil {
		return Gained{}, err
	}
	k := c.Calibration
	g.Calibrated, h = true, h.Until(age)
	if k.Curve == "logarithmic" {
		if g.Maturity, err = (load.NurseSaul{Datum: *k.Datum}).Of(h); err == nil {
			g.Strength, err = load.Plowman{A: *k.A, B: *k.B}.Strength(g.Maturity)
		}
		return g, err
	}
	if g.Worth, err = equivalent(k).Of(h); err != nil {
		return g, err
	}
	if k.Curve == "hyperbolic" {
		g.Strength, err = load.Hyperbola{Ultimate: *k.Ultimate, K: float64(*k.K), Start: *k.Start}.Strength(g.Worth)
	} else {
		g.Strength, err = load.Exponential{Ultimate: *k.Ultimate, Tau: *k.Tau, Beta: float64(*k.Beta)}.Strength(g.Worth)
	}
	return g, err
}

// equivalent is the equivalent age that the tests were worked with; kelvin at 0 degC as
// load.DefaultArrhenius has it.
func equivalent(k *job.Calibration) load.Arrhenius {
	a := load.DefaultArrhenius()
	a.Q, a.Reference = float64(*k.Q), *k.Reference
	return a
}
