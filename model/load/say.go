package load

import (
	"fmt"
	"strings"

	"boxwalk/model/units"
)

// amount is a number in an error's text with the SI unit it is told in.
type amount struct {
	value float64
	unit  string
}

func (a amount) String() string { return fmt.Sprintf("%.4g%s", a.value, spaced(a.unit)) }

// because is the error for a combination that the formula excludes; amounts
// among its numbers can be told in other units.
type because struct {
	format string
	args   []any
}

func (b *because) Error() string { return fmt.Sprintf(b.format, b.args...) + ": " + ErrRange.Error() }
func (b *because) Unwrap() error { return ErrRange }

// foreign is how an SI unit of this package is told in feet and pounds.
type foreign struct {
	unit        string
	times, plus float64
}

// Exact by definition, see convert.go; degF = 9/5 °C + 32.
var imperial = map[string]foreign{
	"kN": {"kip", 1 / (1000 * pound), 0}, "MPa": {"psi", mpa / (144 * psf), 0}, "kPa": {"psf", 1 / psf, 0},
	"kPa/m": {"psf/ft", foot / psf, 0}, "kN/m³": {"pcf", 1 / pcf, 0}, "m": {"ft", 1 / foot, 0}, "mm": {"in", 1e-3 / inch, 0},
	"m/h": {"ft/h", 1 / foot, 0}, "m²": {"ft²", 1 / (foot * foot), 0}, "m³": {"ft³", 1 / (foot * foot * foot), 0},
	"kN m": {"kip ft", 1 / (1000 * pound * foot), 0}, "kN/m": {"lb/ft", 1 / plf, 0},
	"m³/h": {"ft³/h", 1 / (foot * foot * foot), 0}, "°C": {"degF", 1.8, 32}, "°C h": {"degF h", 1.8, 0},
}

// Say is the text of an error of this package with its numbers in the units of a
// system; other errors, and units that both systems share, are told as they are.
func Say(err error, s units.System) string {
	text := err.Error()
	if s == units.Imperial {
		for _, told := range inImperial(err) {
			text = strings.Replace(text, told[0], told[1], 1)
		}
	}
	return text
}

// inImperial are the texts within an error that hold numbers, each as it is and
// in imperial units, from the outside in as errors are wrapped.
func inImperial(err error) [][2]string {
	switch e := err.(type) {
	case *Outside:
		if f, ok := imperial[e.Unit]; ok {
			at := func(v float64) float64 { return v*f.times + f.plus }
			return [][2]string{{e.Error(), (&Outside{e.What, at(e.Got), at(e.Least), at(e.Most), f.unit}).Error()}}
		}
	case *because:
		args := make([]any, len(e.args))
		for i, a := range e.args {
			args[i] = a
			if n, ok := a.(amount); ok {
				if f, known := imperial[n.unit]; known {
					args[i] = amount{n.value*f.times + f.plus, f.unit}
				}
			}
		}
		return [][2]string{{e.Error(), (&because{e.format, args}).Error()}}
	case interface{ Unwrap() []error }:
		var out [][2]string
		for _, each := range e.Unwrap() {
			out = append(out, inImperial(each)...)
		}
		return out
	case interface{ Unwrap() error }:
		return inImperial(e.Unwrap())
	}
	return nil
}
