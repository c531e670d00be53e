package check

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"boxwalk/clearance/release"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// hardened is what a part of the concrete has when it is used, and how that is known, as
// a sentence about that part and as a source.
type hardened struct {
	strength      units.Pressure
	basis, source string
}

// hardening is one part of the concrete with the words and keys that tell of it.
type hardening struct {
	bay                 *bay
	concrete            release.Concrete
	what, when          string // "the invert", "when the wheels run on it"
	is, has             string // of what: "is", "has"
	age, curing, tested string // keys
	metric, imperial    string // a strength by cylinders, as an example
	old                 string // an age, as an example
}

// invert is the concrete that the wheels run on.
func (r *route) invert() (h hardened, why string) {
	return hardening{r.bay, release.Invert(r.job), "the invert", "when the wheels run on it", "is", "has",
		"schedule.invert_age", "concrete.curing", "concrete.invert_strength", "18 MPa", "2500 psi", "5 d"}.known()
}

// known is the strength of the concrete when it is used: the one measured, or the one of
// its equivalent age or maturity. Where neither can be told, why says so and what to write.
func (h hardening) known() (got hardened, why string) {
	if tested := h.concrete.Tested; tested != nil {
		return hardened{*tested, h.has + " " + h.bay.strength(*tested) + " by cylinders (" + h.tested + ")", "cylinders, from the job"}, ""
	}
	if lacks := h.unstated(); len(lacks) > 0 {
		return got, "the strength of " + h.what + " " + h.when + " is not known: write " + listed(lacks) + "; " + h.orTest()
	}
	if why := h.uncounted(); why != "" {
		return got, why + "; " + h.orTest()
	}
	return h.gained()
}

// orTest is what else tells the strength, with a value that works.
func (h hardening) orTest() string {
	return "or write the strength by cylinders, " + h.tested + ", for example " + h.example(h.metric, h.imperial)
}

func (h hardening) example(metric, imperial string) string {
	if h.bay.imperial {
		return imperial
	}
	return metric
}

// unstated lists the keys that strength by age needs and the job does not have,
// each with a value that works.
func (h hardening) unstated() []string {
	c := h.concrete
	var out []string
	for _, k := range []struct {
		missing bool
		words   string
	}{
		{c.Age == nil, h.age + ", for example " + h.old},
		{c.Curing == nil, h.curing + ", the temperature of the concrete since casting, for example " + h.example("12 degC", "54 degF")},
		{c.Strength == nil && c.Calibration == nil, "concrete.strength, for example " + h.example("30 MPa", "4000 psi")},
		{c.Cement == "" && c.Calibration == nil, "concrete.cement, for example N"},
	} {
		if k.missing {
			out = append(out, k.words)
		}
	}
	return out
}

// uncounted tells why the temperatures do not give an age that counts: they end too
// early, or pass where the formula ends. "" where they do.
func (h hardening) uncounted() string {
	age := *h.concrete.Age
	temperatures := release.History(h.concrete.Curing, age)
	if have := temperatures.Duration(); have < age {
		return fmt.Sprintf("%s tells the temperatures of %s and %s %s %s old (%s): go on with it as far", h.curing, inDays(have), h.what, h.is, inDays(age), h.age)
	}
	coldest, warmest := extremes(temperatures.Until(age))
	for _, t := range []units.Temperature{coldest, warmest} {
		if (t < load.LeastCuring || t > load.MostCuring) && h.concrete.Calibration == nil {
			return fmt.Sprintf("%s %s at %s (%s): the equivalent age of EN 1992-1-1 B.10 holds from %s to %s only", h.what, map[string]string{"is": "was", "are": "were"}[h.is], h.bay.degrees(t), h.curing, h.bay.degrees(load.LeastCuring), h.bay.degrees(load.MostCuring))
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

// gained is the strength by the temperatures up to the age.
func (h hardening) gained() (got hardened, why string) {
	c, age := h.concrete, *h.concrete.Age
	at := h.bay.cured(release.History(c.Curing, age).Until(age))
	g, err := c.At(age)
	if c.Calibration != nil {
		return h.calibrated(g, err, at)
	}
	told := fmt.Sprintf("%s at %s are worth %s days at %s (EN 1992-1-1 B.10, %s)", inDays(age), at, daysWorth(g.Worth.Days()), h.bay.degrees(20), h.curing)
	switch {
	case errors.Is(err, release.ErrEarly):
		return got, told + ": up to 3 days only tests tell the strength; wait longer, " + h.orTest()
	case err != nil:
		return got, fmt.Sprintf("%s; concrete.strength is %s: %v; %s", told, h.bay.strength(*c.Strength), h.bay.told(err), h.orTest())
	}
	return hardened{g.Strength, fmt.Sprintf("%s %s: %s, concrete.strength %s, cement %s", h.has, h.bay.strength(g.Strength), told, h.bay.strength(*c.Strength), c.Cement), "EN 1992-1-1 3.1.2 at the equivalent age of B.10"}, ""
}

// calibrated is the strength by tests of the mix, in words.
func (h hardening) calibrated(g release.Gained, err error, at string) (got hardened, why string) {
	k := h.concrete.Calibration
	var told string
	if k.Curve == "logarithmic" {
		told = fmt.Sprintf("%s at %s are a maturity of %.0f degC h above %.4g degC (%s)", inDays(*h.concrete.Age), at, math.Floor(float64(g.Maturity)), float64(*k.Datum), h.curing)
	} else {
		told = fmt.Sprintf("%s at %s are worth %s days at %s with %.0f K (%s)", inDays(*h.concrete.Age), at, daysWorth(g.Worth.Days()), h.bay.degrees(*k.Reference), float64(*k.Q), h.curing)
	}
	if err != nil {
		return got, fmt.Sprintf("%s: %v; %s", told, h.bay.told(err), h.orTest())
	}
	return hardened{g.Strength, fmt.Sprintf("%s %s: %s, %s curve of the mix (%s)", h.has, h.bay.strength(g.Strength), told, k.Curve, k.Source), "maturity as in ASTM C1074 (from memory), curve from the job: " + k.Source}, ""
}

// cured says at which temperatures a history was.
func (b *bay) cured(h load.History) string {
	coldest, warmest := extremes(h)
	if coldest == warmest {
		return b.degrees(coldest)
	}
	return b.degrees(coldest) + " to " + b.degrees(warmest)
}

// degrees prints a temperature as the job's units have it.
func (b *bay) degrees(t units.Temperature) string {
	if b.imperial {
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
