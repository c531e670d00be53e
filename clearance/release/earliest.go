package release

import (
	"boxwalk/model/job"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// apart is how near the earliest time is found, s: less than is ever printed.
const apart units.Duration = 1e-4

// Earliest is the first time since casting at which the concrete has a strength, from
// its temperatures, to apart on the late side; false where it has none within them. A
// mean holds for as long as a job may state an age; what lies beyond the end of a list, or
// behind a temperature for which the formula does not hold, tells nothing.
func (c Concrete) Earliest(need units.Pressure) (units.Duration, bool) {
	if c.Curing == nil || c.Calibration == nil && (c.Strength == nil || c.Cement == "") {
		return 0, false
	}
	return first(c.horizon(), func(t units.Duration) bool {
		g, err := c.At(t)
		return err == nil && g.Strength >= need
	})
}

// horizon is how far the temperatures tell a strength.
func (c Concrete) horizon() units.Duration {
	least, most := load.LeastCuring, load.MostCuring
	if c.Calibration != nil && c.Calibration.Curve == "logarithmic" {
		least = -30 // the range of load.NurseSaul
	}
	var end units.Duration
	for _, s := range History(c.Curing, load.MostAge) {
		if s.At < least || s.At > most {
			break
		}
		end += s.For
	}
	return min(end, load.MostAge)
}

// Counted is how much of an age counts toward a least time, by the temperature of the
// air since casting. Errors: temperatures that end before the age, and those of load.
func Counted(air *job.Curing, age units.Duration) (units.Duration, error) {
	h := History(air, age)
	if err := h.Covers(age); err != nil || age == 0 {
		return 0, err
	}
	return load.CountedTime(h.Until(age))
}

// EarliestCounted is when a least time has been counted, to apart on the late side;
// false where the temperatures of the air end before.
func EarliestCounted(air *job.Curing, least units.Duration) (units.Duration, bool) {
	return first(min(History(air, load.MostAge).Duration(), load.MostAge), func(t units.Duration) bool {
		counted, err := Counted(air, t)
		return err == nil && counted >= least
	})
}

// first is the least time up to an end at which something holds that holds from then on.
func first(end units.Duration, holds func(t units.Duration) bool) (units.Duration, bool) {
	if !holds(end) {
		return 0, false
	}
	before, at := units.Duration(0), end
	for at-before > apart {
		if mid := (before + at) / 2; holds(mid) {
			at = mid
		} else {
			before = mid
		}
	}
	return at, true
}
