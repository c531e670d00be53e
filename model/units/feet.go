package units

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// feetInches is 10', 6 1/2", 10'-6 1/2", 10 ft 6 in; the sign is read apart.
var feetInches = regexp.MustCompile(`^(?:(` + numberText + `) ?(?:'|ft|feet|foot))?(?: ?-? ?(` + numberText + `) ?(?:"|in|inch|inches))?$`)

// isFeetInches tells whether the text is in feet and inches, in feet or in
// inches (without a sign).
func isFeetInches(text string) bool {
	return text != "" && feetInches.MatchString(text)
}

// parseFeetInches reads a text for which isFeetInches holds, in metres. The
// second result is a reason when there is no value.
func parseFeetInches(text string) (float64, string) {
	m := feetInches.FindStringSubmatch(text)
	feet, why := 0.0, ""
	if m[1] != "" {
		if feet, why = numberValue(m[1]); why != "" {
			return 0, why
		}
	}
	if m[2] == "" {
		return feet * 3048 / 10000, ""
	}
	inches, why := numberValue(m[2])
	switch {
	case why != "":
		return 0, why
	case m[1] != "" && feet != math.Trunc(feet):
		return 0, "has a part of a foot and inches as well"
	case m[1] != "" && inches >= 12:
		return 0, "has 12 inches or more beside the feet"
	}
	return (feet*12 + inches) * 254 / 10000, ""
}

// sixteenth is the step of FeetInches in metres.
const sixteenth = inchM / 16

// FeetInches writes a length to the nearest 1/16 inch: 10'-6 1/2", 10'-0",
// 6 1/2", -1/16". Halves round away from zero.
func FeetInches(x Length) string {
	if math.IsNaN(float64(x)) || math.IsInf(float64(x), 0) {
		return notANumber
	}
	n := int64(math.Round(math.Abs(float64(x)) / sixteenth))
	text := feetText(n)
	if n != 0 && x < 0 {
		return "-" + text
	}
	return text
}

// feetText writes a count of sixteenths of an inch.
func feetText(n int64) string {
	feet, rest := n/(12*16), n%(12*16)
	inches := inchText(rest) + `"`
	if feet == 0 {
		return inches
	}
	return strconv.FormatInt(feet, 10) + "'-" + inches
}

// inchText writes sixteenths of an inch as inches in lowest terms.
func inchText(n int64) string {
	whole, top, bottom := n/16, n%16, int64(16)
	if top == 0 {
		return strconv.FormatInt(whole, 10)
	}
	for top%2 == 0 {
		top, bottom = top/2, bottom/2
	}
	fraction := strconv.FormatInt(top, 10) + "/" + strconv.FormatInt(bottom, 10)
	if whole == 0 {
		return fraction
	}
	return strings.Join([]string{strconv.FormatInt(whole, 10), fraction}, " ")
}
