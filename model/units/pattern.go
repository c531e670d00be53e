package units

import (
	"regexp"
	"strings"
)

// The typographic forms that plain maps to keyboard ones, as classes.
const (
	blanksIn = " \t\u00a0\u202f" // between the brackets of a class
	marks    = `'"′″’‘”“`        // feet, inches, minutes, seconds
	gap      = "[" + blanksIn + "]*"
	start    = "^" + gap + "[-+−–]?" + gap
)

// Pattern returns a regular expression, in the common subset of ECMA 262 and
// RE2, that every text of the kind with a unit or a special form matches and
// that a text with the unit of another kind does not. It serves JSON Schemas;
// Parse is stricter.
func (k Kind) Pattern() string {
	forms := []string{loose(numberText) + gap + unitChoice(kinds[k].dim)}
	if kinds[k].dim == dimLength {
		forms = append(forms, feetForm)
	}
	switch k {
	case KindStation:
		forms = append(forms, `\d+\+\d+(?:\.\d*)?`)
	case KindSlope:
		forms = append(forms, loose(numberText)+gap+"(?::|in)"+gap+loose(numberText))
	case KindAngle:
		forms = append(forms, `\d+`+gap+"(?:°|deg)[0-9."+blanksIn+marks+"]*")
	}
	return start + "(?:" + strings.Join(forms, "|") + ")" + gap + "$"
}

// feetForm is any run of numbers and marks of feet and inches.
const feetForm = `\.?\d(?:[-–−0-9./eE` + blanksIn + marks + `]|ft|feet|foot|inches|inch|in)*`

// SizePattern is Pattern for a size of n lengths.
func SizePattern(n int) string {
	one := `[-+.–−]?` + gap + `[.\d](?:[-+–−0-9./eE` + blanksIn + marks + `]|` + strings.Join(alternatives(dimLength), "|") + `)*`
	return "^" + gap + one + strings.Repeat("[xX×]"+gap+one, n-1) + "$"
}

// loose lets the blank and the dash of a mixed number be typographic ones.
func loose(number string) string {
	return strings.ReplaceAll(number, "[ -]", "[-–−"+blanksIn+"]+")
}

// unitChoice matches any unit of the dimension, or none.
func unitChoice(dim dimension) string {
	names := alternatives(dim)
	if len(names) == 0 {
		return ""
	}
	return "(?:" + strings.Join(names, "|") + ")?"
}

func alternatives(dim dimension) []string {
	var names []string
	for _, u := range unitTable {
		if u.dim != dim {
			continue
		}
		for _, name := range strings.Fields(u.names) {
			names = append(names, regexp.QuoteMeta(name))
		}
	}
	return names
}
