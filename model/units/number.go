package units

import (
	"regexp"
	"strconv"
)

// numberText is a plain decimal number, a fraction, or a whole number and a
// fraction: 3.05, .5, 1e3, 1/2, 6 1/2, 6-1/2. The sign is read apart.
const numberText = `(?:\d+[ -]\d+/\d+|\d+/\d+|(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,3})?)`

var numberParts = regexp.MustCompile(`^(?:(?:(\d+)[ -])?(\d+)/(\d+)|(.*))$`)

// numberValue reads a text that matches numberText. The second result is a
// reason when the text has no value: a zero denominator, a fraction of one or
// more beside a whole number, or a number too large for any unit.
func numberValue(text string) (float64, string) {
	m := numberParts.FindStringSubmatch(text)
	if m[3] == "" {
		x, err := strconv.ParseFloat(text, 64)
		if err != nil {
			return 0, "is too large a number"
		}
		return x, ""
	}
	whole, top, bottom := digits(m[1]), digits(m[2]), digits(m[3])
	switch {
	case bottom == 0:
		return 0, "divides by zero"
	case m[1] != "" && top >= bottom:
		return 0, "has a fraction of one or more beside a whole number"
	}
	return whole + top/bottom, ""
}

// digits reads a run of digits; none is zero. Parse limits the length of a
// text, so the result is finite.
func digits(text string) float64 {
	x, _ := strconv.ParseFloat("0"+text, 64)
	return x
}
