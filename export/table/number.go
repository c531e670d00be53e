package table

import (
	"math"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/model/units"
)

// measure is how one SI unit of a result is shown: the unit's name, what it
// is multiplied by, and the decimals.
type measure struct {
	name     string
	times    float64
	decimals int
}

// Factors are exact by definition of inch, pound and kip (see model/units).
const (
	millimetres = 1000
	inches      = 1 / 0.0254
	pounds      = 1 / 0.45359237
	kips        = 1 / (0.45359237 * 9.80665)
	degrees     = 180 / math.Pi
)

// shown tells how values of a unit of the result are printed in a system.
// Hundredths of an inch are a quarter of a millimetre: as fine as anyone
// measures on a form, and decimals keep value, limit and margin addable.
func shown(unit string, s units.System) measure {
	imperial := s == units.Imperial
	switch {
	case unit == "m" && imperial:
		return measure{"in", inches, 2}
	case unit == "m":
		return measure{"mm", millimetres, 1}
	case unit == "kN" && imperial:
		return measure{"kip", kips, 2}
	case unit == "kg" && imperial:
		return measure{"lb", pounds, 0}
	case unit == "kg":
		return measure{"kg", 1, 0}
	case unit == "rad":
		return measure{"deg", degrees, 2}
	case unit == "1":
		return measure{"", 1, 2}
	}
	return measure{unit, 1, 2}
}

// fine adds a decimal for entries whose limit is so near zero that the usual
// decimals would hide it.
func (m measure) fine(limit *float64) measure {
	if limit != nil && math.Abs(*limit*m.times) < 2*math.Pow10(-m.decimals) {
		m.decimals++
	}
	return m
}

// down is v rounded toward minus infinity, in the unit shown, as sentences round it.
func (m measure) down(v float64) string { return m.number(units.Down(v*m.times, m.decimals)) }

// up is v rounded toward plus infinity.
func (m measure) up(v float64) string { return m.number(units.Up(v*m.times, m.decimals)) }

// nearest is v rounded to the nearest.
func (m measure) nearest(v float64) string { return m.number(v * m.times) }

func (m measure) number(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "unknown"
	}
	return units.Decimal(v, m.decimals)
}

// governing is the end of an entry's value that counts: the lower one for a
// lower limit, the upper one for an upper limit, rounded to the worse side.
func (m measure) governing(e result.Entry) string {
	switch {
	case e.Value == nil:
		return "-"
	case e.Sense == result.Max:
		return m.up(e.Value.Upper)
	}
	return m.down(e.Value.Lower)
}

// bound is an entry's limit with its sense.
func (m measure) bound(e result.Entry) string {
	if e.Limit == nil {
		return "-"
	}
	sign := "≥ "
	if e.Sense == result.Max {
		sign = "≤ "
	}
	return sign + m.nearest(*e.Limit)
}

// reading is what a crew sets an adjuster to: tenths of a millimetre, or
// sixteenths of an inch as tapes have them.
func reading(v float64, unit string, s units.System) string {
	if unit == "m" && s == units.Imperial {
		return feetInches(v)
	}
	m := shown(unit, s)
	return strings.TrimSpace(m.nearest(v) + " " + m.name)
}

// feetInches is a length as tapes have it. Whole feet keep a naught before a
// fraction alone: 4'-13/16" would be taken for more inches than there are.
func feetInches(v float64) string {
	text := units.FeetInches(units.Length(v))
	feet, rest, ok := strings.Cut(text, "'-")
	if ok && strings.Contains(rest, "/") && !strings.Contains(rest, " ") {
		return feet + "'-0 " + rest
	}
	return text
}
