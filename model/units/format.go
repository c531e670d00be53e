package units

import (
	"math"
	"strconv"
	"strings"
)

// notANumber stands where a value is NaN or infinite.
const notANumber = "not a number"

// Decimal writes x with a fixed number of decimals and never as -0.
func Decimal(x float64, decimals int) string {
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// Text writes the length in the unit of the system; see Kind.Text.
func (l Length) Text(s System) string { return KindLength.Text(float64(l), s) }

// Text writes the station as 0+026.5 or 1+00; see Kind.Text.
func (x Station) Text(s System) string { return KindStation.Text(float64(x), s) }

// Text writes a value in SI of the kind in the units of the system, to nine
// significant digits, so that messages show what really differs. Parse reads
// the result back to within that precision, except that a station is written
// to 1 mm or 0.01 ft.
//
// Lengths below 10 m are in mm, others in m; imperial ones are in feet and
// inches where that is exact to 1/16 inch, else in decimal feet or inches.
func (k Kind) Text(v float64, s System) string {
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return notANumber
	case k == KindStation:
		return stationString(v, s)
	case k == KindLength && s == Imperial:
		return imperialLength(v)
	case k == KindLength && math.Abs(v) < 10:
		return significant(v*1000, 9) + " mm"
	}
	name := k.shownUnit(v, s)
	if name == "" {
		return significant(v, 9)
	}
	u, _ := unitFor(kinds[k].dim, name)
	return significant(u.fromSI(v), 9) + " " + name
}

// Short writes v as Text does, but lengths of an imperial system in decimals of an inch,
// thousandths at most, and its other quantities to four digits: numbers that were
// metric before would be whole rows of digits. Parse reads back only what is near.
func (k Kind) Short(v float64, s System) string {
	switch {
	case s == Metric || math.IsNaN(v) || math.IsInf(v, 0) || k == KindStation:
		return k.Text(v, s)
	case k == KindLength:
		return trimmed(v/0.0254, 3) + " in"
	}
	name := k.shownUnit(v, s)
	if name == "" {
		return significant(v, 9)
	}
	u, _ := unitFor(kinds[k].dim, name)
	return significant(u.fromSI(v), 4) + " " + name
}

// shownUnit picks the unit to write v in: the usual one of the kind, or a
// smaller or larger one that reads better.
func (k Kind) shownUnit(v float64, s System) string {
	size := math.Abs(v)
	switch {
	case k == KindPressure && s == Metric && size < 1000:
		return "kPa"
	case k == KindPressure && s == Imperial && size < 47.88: // below 1000 psf
		return "psf"
	case k == KindDuration && size >= 48*3600:
		return "d"
	}
	return kinds[k].shown[s]
}

// imperialLength writes feet and inches where they are exact, else decimals.
func imperialLength(v float64) string {
	steps := v / sixteenth
	if math.Abs(steps-math.Round(steps)) < 1e-6 {
		return FeetInches(Length(v))
	}
	if math.Abs(v) < footM {
		return significant(v*10000/254, 9) + " in"
	}
	return significant(v*10000/3048, 9) + " ft"
}

// significant writes x to n significant digits without an exponent or zeros at
// the end.
func significant(x float64, n int) string {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', n-1, 64), 64)
	if rounded == 0 {
		return "0"
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// trimmed writes x to that many decimals without zeros at the end.
func trimmed(x float64, decimals int) string {
	text := Decimal(x, decimals)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}
