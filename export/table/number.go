package table

import (
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/model/units"
)

// finer is how numbers of a unit are shown with so many decimals in a metric and an
// imperial list.
func finer(unit string, s units.System, metric, imperial int) units.Measure {
	m := units.Shown(unit, s)
	m.Decimals = metric
	if s == units.Imperial {
		m.Decimals = imperial
	}
	return m
}

// or is a text, or what stands for none.
func or(text, none string) string {
	if text == "" {
		return none
	}
	return text
}

// bound is an entry's limit as printed, with its sense.
func bound(e result.Entry, p result.Printed) string {
	switch {
	case p.Limit == "":
		return "-"
	case e.Sense == result.Max:
		return "≤ " + p.Limit
	}
	return "≥ " + p.Limit
}

// reading is what a crew sets an adjuster to: tenths of a millimetre, or
// sixteenths of an inch as tapes have them.
func reading(v float64, unit string, s units.System) string {
	if unit == "m" && s == units.Imperial {
		return feetInches(v)
	}
	m := units.Shown(unit, s)
	return strings.TrimSpace(m.Nearest(v) + " " + m.Name)
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
