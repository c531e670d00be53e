package result

import (
	"math"
	"strconv"

	"boxwalk/model/units"
)

// Printed are the numbers of an entry as they are printed, without their unit; empty
// where there is none. Finer tells that they have more decimals than numbers of their
// unit usually have.
type Printed struct {
	Measure                   units.Measure
	Value, Off, Limit, Margin string
	Finer                     bool
}

// mostFiner is how many decimals are added at most: a tenth of a thousandth of a
// micrometre tells nobody anything.
const mostFiner = 6

// Printed gives the numbers of an entry for tables and sentences. Value, allowance and
// margin are rounded to the worse side and the limit to the nearest, to as many
// decimals as it takes that they read as they are: a number that is beyond its limit
// is never printed as one that keeps it, nor as equal to it, and one that keeps it
// never as beyond. This is the only place that decides how many.
func (e Entry) Printed(s units.System) Printed {
	usual := units.Shown(e.Unit, s)
	p := e.printed(usual)
	for range mostFiner {
		if e.readsTrue(p) {
			return p
		}
		m := p.Measure
		m.Decimals++
		p = e.printed(m)
		p.Finer = true
	}
	if e.readsTrue(p) {
		return p
	}
	return e.printedAlike(usual, p.Measure)
}

func (e Entry) printed(m units.Measure) Printed {
	p := Printed{Measure: m}
	if e.Value != nil {
		p.Value = m.Down(e.Value.Lower)
		if e.Sense == Max {
			p.Value = m.Up(e.Value.Upper)
		}
	}
	if e.Allowance != 0 {
		p.Off = m.Up(e.Allowance)
	}
	if e.Limit != nil {
		p.Limit = beside(m, *e.Limit).Nearest(*e.Limit)
	}
	if e.Margin != nil {
		p.Margin = m.Down(*e.Margin)
	}
	return p
}

// beside shows a limit with a decimal more where it is so near zero that the usual ones
// would hide it.
func beside(m units.Measure, limit float64) units.Measure {
	if math.Abs(limit*m.Times) < 2*math.Pow10(-m.Decimals) {
		m.Decimals++
	}
	return m
}

// printedAlike is for numbers that are apart by less than can be printed. What is
// beyond its limit is a last decimal worse than that, the finest there is; what keeps
// it does so with nothing left.
func (e Entry) printedAlike(usual, finest units.Measure) Printed {
	if *e.Margin < 0 {
		last := math.Pow10(-finest.Decimals) / finest.Times
		worse := Entry{Value: Exactly(e.Value.Lower - last), Limit: e.Limit, Allowance: e.Allowance}
		if e.Sense == Max {
			worse.Value, worse.Sense = Exactly(e.Value.Upper+last), Max
		}
		_, margin := Judge(*worse.Value, *e.Limit, e.Allowance, e.Sense)
		worse.Margin = &margin
		p := worse.printed(finest)
		p.Finer = true
		return p
	}
	if p := e.withNothingLeft(usual); e.readsTrue(p) {
		return p
	}
	p := e.withNothingLeft(finest)
	p.Finer = true
	return p
}

// withNothingLeft prints what keeps its limit by nothing: the allowance is what lies
// between the other two as they are printed.
func (e Entry) withNothingLeft(m units.Measure) Printed {
	p := e.printed(m)
	if p.Off == "" {
		p.Value = p.Limit
		return p
	}
	left := parsed(p.Value) - parsed(p.Limit)
	if e.Sense == Max {
		left = -left
	}
	p.Off = units.Decimal(left, m.Decimals)
	return p
}

// readsTrue tells whether printed numbers say what the entry's margin does.
func (e Entry) readsTrue(p Printed) bool {
	if e.Value == nil || e.Limit == nil || e.Margin == nil {
		return true
	}
	return e.ReadsTrue(parsed(p.Value), parsed(p.Off), parsed(p.Limit)) && (parsed(p.Margin) < 0) == (*e.Margin < 0)
}

// ReadsTrue tells whether a value, an allowance and a limit, rounded in whatever way
// and in whatever unit, say of an entry with a margin what that says.
func (e Entry) ReadsTrue(value, off, limit float64) bool {
	left := value - off - limit
	if e.Sense == Max {
		left = limit - off - value
	}
	rounding := 1e-12 * (math.Abs(value) + math.Abs(off) + math.Abs(limit))
	if *e.Margin < 0 {
		return left < -rounding
	}
	return left >= -rounding
}

// parsed is a printed number; nothing is 0, and what is unknown says nothing.
func parsed(text string) float64 {
	if text == "" {
		return 0
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}
