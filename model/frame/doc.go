// Package frame holds the statics of bars and beams: continuous beams solved
// exactly, wall panels on a hinge with braces and ties, buckling.
//
// Every function is pure. Units, sources and errors are as in [load]: SI, a
// [load.Source] or a sentence on it beside each formula, errors that wrap
// [load.ErrRange], and no number without meaning.
package frame

import (
	"math"

	"boxwalk/model/load"
)

// Sane upper ends, judgement: far beyond any culvert.
const (
	mostLength = 1e3  // m
	mostForce  = 1e6  // kN
	mostLine   = 1e6  // kN/m
	mostEI     = 1e12 // kN m²
	mostSpring = 1e12 // kN/m, kN m per rad
	mostCount  = 500
)

// near is how close two places count as one: what adding lengths up may leave.
const near = 1e-12 // m

// within refuses NaN, infinities and values outside [least, most].
func within(what string, v, least, most float64, unit string) error {
	if v >= least && v <= most {
		return nil
	}
	return &load.Outside{What: what, Got: v, Least: least, Most: most, Unit: unit}
}

// above refuses NaN, infinities, values at or below least and above most.
func above(what string, v, least, most float64, unit string) error {
	if v > least && v <= most {
		return nil
	}
	return &load.Outside{What: what, Got: v, Least: least, Most: most, Unit: unit}
}

// refused is the error for a combination that a formula excludes.
type refused string

func (r refused) Error() string { return string(r) + ": " + load.ErrRange.Error() }
func (r refused) Unwrap() error { return load.ErrRange }

func count(what string, n, least int) error {
	return within("number of "+what, float64(n), float64(least), mostCount, "")
}

// finite refuses NaN, and what is so large that a sum of it may overflow.
func finite(numbers ...float64) error {
	for _, v := range numbers {
		if !(math.Abs(v) <= 1e100) {
			return refused("no finite value")
		}
	}
	return nil
}
