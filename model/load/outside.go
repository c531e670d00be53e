package load

import (
	"errors"
	"fmt"
	"math"
)

// ErrRange is wrapped by every error that says an input lies outside the range
// in which a formula holds, or is missing.
var ErrRange = errors.New("outside the range of the formula")

// Outside is the error for one number out of range, in the unit it names.
type Outside struct {
	What        string
	Got         float64
	Least, Most float64
	Unit        string
}

// Error returns what is out of range, by which limits.
func (e *Outside) Error() string {
	return fmt.Sprintf("%s is %.6g%s, must lie between %.6g and %.6g%s", e.What, e.Got, spaced(e.Unit), e.Least, e.Most, spaced(e.Unit))
}

// Unwrap returns ErrRange.
func (e *Outside) Unwrap() error { return ErrRange }

func spaced(unit string) string {
	if unit == "" {
		return ""
	}
	return " " + unit
}

// within refuses NaN, infinities and values outside [least, most], both taken
// with the rounding of a unit conversion.
func within(what string, v, least, most float64, unit string) error {
	if v >= least-snap*math.Abs(least) && v <= most+snap*math.Abs(most) {
		return nil
	}
	return &Outside{what, v, least, most, unit}
}

// above refuses NaN, infinities, values at or below least and above most.
func above(what string, v, least, most float64, unit string) error {
	if v > least && v <= most+snap*math.Abs(most) {
		return nil
	}
	return &Outside{what, v, least, most, unit}
}

// missing is the error for a choice that was not made, or is none of ours.
func missing(what string) error { return fmt.Errorf("%s is not stated: %w", what, ErrRange) }

// outsideBecause is the error for a combination that the formula excludes.
func outsideBecause(format string, args ...any) error {
	return &because{format, args}
}

// answer returns a result, or the zero value and an error when one of its
// numbers overflowed. The ranges make that impossible for sane input, and
// nothing else may pass as a number.
func answer[T any](what string, result T, numbers ...float64) (T, error) {
	for _, v := range numbers {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			var none T
			return none, outsideBecause("%s has no finite value", what)
		}
	}
	return result, nil
}

// snap is how near to a limit of a published table a value counts as on it.
const snap = 1e-9

func atMost(v, limit float64) bool { return v <= limit*(1+snap) }
func below(v, limit float64) bool  { return v < limit*(1-snap) }

// Sane upper ends, judgement: far beyond any culvert, and small enough that no
// product of them overflows.
const (
	mostLength = 1e4 // m
	mostForce  = 1e6 // kN
)
