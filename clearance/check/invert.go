package check

import (
	"fmt"
	"math"
	"strings"

	"boxwalk/model/job"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// hardened is what the invert has when the wheels run on it, and how that is
// known, as a sentence about the invert and as a source.
type hardened struct {
	strength      units.Pressure
	basis, source string
}

// invert is the strength of the invert when the wheels run on it: the one
// measured, or the one of its equivalent age. Where neither can be told, why
// says so and what to write.
func (r *route) invert() (h hardened, why string) {
	if tested := r.job.Concrete.InvertStrength; tested != nil {
		return hardened{*tested, "has " + r.bay.strength(*tested) + " by cylinders (concrete.invert_strength)", "cylinders, from the job"}, ""
	}
	if lacks := r.unstated(); len(lacks) > 0 {
		return h, "the strength of the invert when the wheels run on it is not known: write " + listed(lacks) + "; " + r.orTest()
	}
	age, curing := *r.job.Schedule.InvertAge, historyOf(r.job.Concrete.Curing, *r.job.Schedule.InvertAge)
	if why := r.uncounted(age, curing); why != "" {
		return h, why + "; " + r.orTest()
	}
	return r.hardenedBy(age, curing)
}

// orTest is what else tells the strength, with a value that works.
func (r *route) orTest() string {
	return "or write the strength by cylinders, concrete.invert_strength, for example " + r.example("18 MPa", "2500 psi")
}

func (r *route) example(metric, imperial string) string {
	if r.bay.imperial {
		return imperial
	}
	return metric
}

// unstated lists the keys that strength by age needs and the job does not have,
// each with a value that works.
func (r *route) unstated() []string {
	c := r.job.Concrete
	var out []string
	for _, k := range []struct {
		missing bool
		words   string
	}{
		{r.job.Schedule.InvertAge == nil, "schedule.invert_age, for example 5 d"},
		{c.Curing == nil, "concrete.curing, the temperature of the concrete since casting, for example " + r.example("12 degC", "54 degF")},
		{c.Strength == nil, "concrete.strength, for example " + r.example("30 MPa", "4000 psi")},
		{c.Cement == "", "concrete.cement, for example N"},
	} {
		if k.missing {
			out = append(out, k.words)
		}
	}
	return out
}

// historyOf is the curing as spells; one mean holds for all of an age.
func historyOf(c *job.Curing, age units.Duration) load.History {
	if c.Mean != nil {
		return load.Steady(*c.Mean, age)
	}
	var h load.History
	for _, s := range c.Spells {
		h = append(h, load.Spell{For: s.For, At: s.At})
	}
	return h
}

// uncounted tells why the temperatures do not give an equivalent age: they end
// too early, or pass where the formula ends. "" where they do.
func (r *route) uncounted(age units.Duration, curing load.History) string {
	if have := curing.Duration(); have < age {
		return fmt.Sprintf("concrete.curing tells the temperatures of %s and the invert is %s old (schedule.invert_age): go on with it as far", inDays(have), inDays(age))
	}
	coldest, warmest := extremes(curing.Until(age))
	for _, t := range []units.Temperature{coldest, warmest} {
		if t < load.LeastCuring || t > load.MostCuring {
			return fmt.Sprintf("the invert was at %s (concrete.curing): the equivalent age of EN 1992-1-1 B.10 holds from %s to %s only", r.degrees(t), r.degrees(load.LeastCuring), r.degrees(load.MostCuring))
		}
	}
	return ""
}

// extremes are the lowest and the highest temperature of a history.
func extremes(h load.History) (coldest, warmest units.Temperature) {
	coldest, warmest = units.Temperature(math.Inf(1)), units.Temperature(math.Inf(-1))
	for _, s := range h {
		coldest, warmest = min(coldest, s.At), max(warmest, s.At)
	}
	return coldest, warmest
}

// hardenedBy is the characteristic strength at an age, by the equivalent age.
func (r *route) hardenedBy(age units.Duration, curing load.History) (h hardened, why string) {
	c := r.job.Concrete
	invert := load.Invert{Strength: *c.Strength, Class: load.CementClassOf(c.Cement), Age: age, Curing: curing}
	worth, err := invert.Equivalent()
	if err != nil {
		return h, r.bay.told(err) + "; " + r.orTest()
	}
	told := fmt.Sprintf("%s at %s are worth %s days at %s (EN 1992-1-1 B.10, concrete.curing)", inDays(age), r.cured(curing.Until(age)), daysWorth(worth.Days()), r.degrees(20))
	strength, err := invert.StrengthNow()
	switch {
	case worth.Days() <= 3:
		return h, told + ": up to 3 days only tests tell the strength; wait longer, " + r.orTest()
	case err != nil:
		return h, fmt.Sprintf("%s; concrete.strength is %s: %v; %s", told, r.bay.strength(*c.Strength), r.bay.told(err), r.orTest())
	}
	return hardened{strength, fmt.Sprintf("has %s: %s, concrete.strength %s, cement %s", r.bay.strength(strength), told, r.bay.strength(*c.Strength), c.Cement), "EN 1992-1-1 3.1.2 at the equivalent age of B.10"}, ""
}

// cured says at which temperatures a history was.
func (r *route) cured(h load.History) string {
	coldest, warmest := extremes(h)
	if coldest == warmest {
		return r.degrees(coldest)
	}
	return r.degrees(coldest) + " to " + r.degrees(warmest)
}

// degrees prints a temperature as the job's units have it.
func (r *route) degrees(t units.Temperature) string {
	if r.bay.imperial {
		return fmt.Sprintf("%.4g degF", float64(t)*9/5+32)
	}
	return fmt.Sprintf("%.4g degC", float64(t))
}

// inDays prints a time of days to a tenth.
func inDays(d units.Duration) string {
	return fmt.Sprintf("%g days", math.Round(10*float64(d)/86400)/10)
}

// listed joins what is missing.
func listed(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + ", and " + list[len(list)-1]
}

// daysWorth prints an age rounded down, so that one short of what is needed never
// reads as if it were enough.
func daysWorth(days float64) string { return units.Decimal(units.Down(days, 2), 2) }
