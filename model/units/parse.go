package units

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// mostText is the longest text of a quantity in bytes.
const mostText = 64

// leastMagnitude is the smallest magnitude other than zero that is read, in
// the SI unit of the kind. What lies below (a picometre) is a slipped exponent.
const leastMagnitude = 1e-12

// Parse reads a text of that kind and returns it in SI. A number without a
// unit has the unit BareUnit of the kind and system.
//
// Read are decimal numbers with a point, fractions (6 1/2), feet and inches for
// lengths, stations (0+026), ratios (1:20, 1 in 20) for slopes and degrees,
// minutes and seconds for angles. The result is finite and lies within
// Kind.Bounds; any other text gives an *Error.
func Parse(kind Kind, text string, s System) (float64, error) {
	return ParseBare(kind, text, s, "")
}

// ParseBare is Parse with another unit for a number without one, such as mm.
// An empty bare stands for the default unit of the kind; bare may be any
// spelling that the kind has.
func ParseBare(kind Kind, text string, s System, bare string) (float64, error) {
	r := reading{kind: kind, system: s, text: text, bare: bare}
	if r.bare == "" {
		r.bare = kind.BareUnit(s)
	}
	v, why, fix := r.value()
	if why == "" {
		v, why = inBounds(kind, v, s)
	}
	if why != "" {
		return 0, &Error{kind, text, quoted(text) + " " + why, r.fixOr(fix)}
	}
	return v, nil
}

// reading is one text on its way to a number.
type reading struct {
	kind   Kind
	system System
	text   string
	bare   string
}

// fixOr returns the proposed fix when it really parses, else the example of
// the kind.
func (r reading) fixOr(fix string) string {
	if fix != "" {
		again := reading{r.kind, r.system, fix, r.bare}
		if v, why, _ := again.value(); why == "" {
			if _, why = inBounds(r.kind, v, r.system); why == "" {
				return fix
			}
		}
	}
	return r.kind.Example(r.system)
}

// value reads the text; why is empty when v is good, and fix may propose a
// text that the writer probably meant.
func (r reading) value() (v float64, why, fix string) {
	text := plain(r.text)
	switch {
	case text == "":
		return 0, "is empty: " + r.kind.String() + " is expected", ""
	case len(r.text) > mostText:
		return 0, fmt.Sprintf("is too long for %s: %d characters, at most %d", r.kind, len(r.text), mostText), ""
	case strings.Contains(text, ","):
		return 0, "has a comma: the decimal sign is a point and thousands stand together", commaFix(text)
	case notFinite.MatchString(text):
		return 0, "is not finite: " + r.kind.String() + " is expected", ""
	}
	sign, rest := splitSign(text)
	if rest == "" || strings.ContainsAny(rest[:1], "+-") {
		return 0, "is not " + r.kind.String(), ""
	}
	if v, why, ok := r.special(rest); ok {
		return sign * v, why, ""
	}
	return r.general(sign, rest)
}

var notFinite = regexp.MustCompile(`(?i)^[+-]?\.?(?:nan|inf|infinity)$`)

// plainer maps the typographic forms of signs, primes and spaces to the ones
// on a keyboard.
var plainer = strings.NewReplacer(
	"−", "-", "–", "-", "′", "'", "’", "'", "‘", "'", "″", `"`, "”", `"`, "“", `"`, "''", `"`,
	"\u00a0", " ", "\u202f", " ", "\t", " ")

func plain(text string) string {
	return strings.Trim(blanks.ReplaceAllString(plainer.Replace(text), " "), " ")
}

var blanks = regexp.MustCompile(` {2,}`)

// commaFix replaces the comma by a point, or drops it where it stands before
// exactly three digits and so parts thousands.
func commaFix(text string) string {
	if thousands.MatchString(text) {
		return strings.ReplaceAll(text, ",", "")
	}
	return strings.ReplaceAll(text, ",", ".")
}

var thousands = regexp.MustCompile(`\d,\d{3}(?:\D|$)`)

func splitSign(text string) (float64, string) {
	switch text[0] {
	case '-':
		return -1, strings.TrimLeft(text[1:], " ")
	case '+':
		return 1, strings.TrimLeft(text[1:], " ")
	}
	return 1, text
}

// special reads the forms that are no number with a unit behind it; ok tells
// whether the text has such a form.
func (r reading) special(text string) (v float64, why string, ok bool) {
	dim := kinds[r.kind].dim
	switch {
	case dim == dimLength && stationShape.MatchString(text):
		if r.kind != KindStation {
			return 0, "is a station; " + r.kind.String() + " is expected", true
		}
		v, why = parseStation(text, r.system)
	case dim == dimLength && isFeetInches(text) && !bareNumber.MatchString(text):
		v, why = parseFeetInches(text)
	case dim == dimSlope && ratio.MatchString(text):
		v, why = parseRatio(text)
	case dim == dimAngle && degreesMinutes.MatchString(text):
		v, why = parseDegrees(text)
	default:
		return 0, "", false
	}
	return v, why, true
}

// ratio is a slope as rise to run: 1:20 or 1 in 20.
var ratio = regexp.MustCompile(`^(` + numberText + `)(?: ?: ?| in )(` + numberText + `)$`)

func parseRatio(text string) (float64, string) {
	m := ratio.FindStringSubmatch(text)
	rise, why := numberValue(m[1])
	run, why2 := numberValue(m[2])
	switch {
	case why+why2 != "":
		return 0, why + why2
	case run == 0:
		return 0, "has a run of zero: a slope is rise to run, as in 1:20"
	}
	return rise / run, ""
}

// degreesMinutes is an angle as 20°30' or 20° 30' 15".
var degreesMinutes = regexp.MustCompile(`^(\d+) ?(?:°|deg) ?(\d+(?:\.\d+)?) ?'(?: ?(\d+(?:\.\d+)?) ?")?$`)

func parseDegrees(text string) (float64, string) {
	m := degreesMinutes.FindStringSubmatch(text)
	minutes, seconds := digits(m[2]), digits(m[3])
	if minutes >= 60 || seconds >= 60 {
		return 0, "has 60 minutes or seconds or more"
	}
	return (digits(m[1]) + minutes/60 + seconds/3600) * pi / 180, ""
}

var numberThenUnit = regexp.MustCompile(`^(` + numberText + `) ?(.*)$`)

// general reads a number and the unit behind it.
func (r reading) general(sign float64, text string) (v float64, why, fix string) {
	m := numberThenUnit.FindStringSubmatch(text)
	if m == nil {
		return 0, "is not " + r.kind.String(), ""
	}
	x, why := numberValue(m[1])
	if why != "" {
		return 0, why, ""
	}
	name := m[2]
	if name == "" {
		name = r.bare
	}
	if name == "" {
		return sign * x, "", ""
	}
	u, ok := unitFor(kinds[r.kind].dim, name)
	if !ok {
		why, fix = r.wrongUnit(sign*x, text, name)
		return 0, why, fix
	}
	return u.toSI(sign * x), "", ""
}

// wrongUnit explains a unit that the kind does not have.
func (r reading) wrongUnit(x float64, text, name string) (why, fix string) {
	number := strconv.FormatFloat(x, 'f', -1, 64)
	switch found := unitsByName[name]; {
	case r.kind == KindNumber:
		return "has a unit; a pure number is expected", numberFix(x, number, name)
	case r.kind == KindUnitWeight && name == "kg/m3":
		weight := significant(x*gravity/1000, 4) + " kN/m3"
		return fmt.Sprintf("is a density; %s is expected: times 9.80665 m/s2 it is %s", r.kind, weight), weight
	case len(found) > 0:
		return fmt.Sprintf("is %s (%s); %s is expected", measured(found), name, r.kind), ""
	case isFeetInches(text):
		return fmt.Sprintf("is a length; %s is expected", r.kind), ""
	case ratio.MatchString(text):
		return fmt.Sprintf("is a slope; %s is expected", r.kind), ""
	}
	dim := kinds[r.kind].dim
	if right := caseMatch(dim, name); right != "" {
		return fmt.Sprintf("has the unit %s: capitals matter, it is %s", name, right), number + " " + right
	}
	return fmt.Sprintf("has no unit that is known for %s (%s)", r.kind, strings.Join(namesOf(dim), ", ")), ""
}

// measured names what the units of one spelling measure: "a force or a mass".
func measured(found []unit) string {
	names := make([]string, len(found))
	for i, u := range found {
		names[i] = u.dim.String()
	}
	return strings.Join(names, " or ")
}

// numberFix turns a percentage into the pure number; other units are dropped.
func numberFix(x float64, number, name string) string {
	if name == "%" {
		return significant(x/100, 9)
	}
	return number
}

// caseMatch finds the unit that differs from name only by capitals.
func caseMatch(dim dimension, name string) string {
	for _, u := range unitTable {
		if u.dim != dim {
			continue
		}
		for _, known := range strings.Fields(u.names) {
			if strings.EqualFold(known, name) {
				return known
			}
		}
	}
	return ""
}

// inBounds refuses what lies outside the sane range of the kind and turns a
// negative zero into zero.
func inBounds(kind Kind, v float64, s System) (float64, string) {
	least, most := kind.Bounds()
	switch {
	case math.IsNaN(v):
		return 0, "is not a number"
	case v < least:
		return 0, fmt.Sprintf("is below %s, the least that %s may be", kind.Text(least, s), kind)
	case v > most:
		return 0, fmt.Sprintf("is above %s, the most that %s may be", kind.Text(most, s), kind)
	case v == 0:
		return 0, ""
	case math.Abs(v) < leastMagnitude:
		return 0, fmt.Sprintf("is too close to zero for %s", kind)
	}
	return v, ""
}
