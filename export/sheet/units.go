package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Units says how lengths are lettered. The zero value is whole millimetres.
type Units struct {
	Imperial bool // feet, inches and sixteenths
	Decimals int  // of a millimetre, 0..6; trailing zeros are dropped
}

// Format letters a length given in millimetres: 3048.5 or 10'-0 1/16". Values
// are rounded to the nearest step, halves away from zero. What is not a number
// is lettered "?", never as a length.
func (u Units) Format(mm float64) string {
	if math.IsNaN(mm) || math.IsInf(mm, 0) {
		return "?"
	}
	if u.Imperial {
		return feetInches(mm)
	}
	return millimetres(mm, min(max(u.Decimals, 0), 6))
}

// Step is the spacing between two lengths that are lettered differently, mm.
func (u Units) Step() float64 {
	if u.Imperial {
		return inch / 16
	}
	return math.Pow10(-min(max(u.Decimals, 0), 6))
}

// Floor is a length of mm in whole steps, rounded down but for what binary
// fractions leave over, a millionth of a step.
func (u Units) Floor(mm float64) float64 {
	return math.Floor(mm/u.Step()+1e-6) * u.Step()
}

func millimetres(mm float64, decimals int) string {
	k := math.Pow10(decimals)
	s := strconv.FormatFloat(math.Round(mm*k)/k, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

func feetInches(mm float64) string {
	sign := ""
	sixteenths := int64(math.Round(math.Abs(mm) / inch * 16))
	if mm < 0 && sixteenths > 0 {
		sign = "-"
	}
	feet, rest := sixteenths/192, sixteenths%192
	switch {
	case feet == 0:
		return sign + inchText(rest)
	case rest > 0 && rest < 16: // 1'-1/16" would read as one inch
		return fmt.Sprintf("%s%d'-0 %s", sign, feet, inchText(rest))
	}
	return fmt.Sprintf("%s%d'-%s", sign, feet, inchText(rest))
}

// inchText letters sixteenths of an inch, less than a foot: 6 1/2", 3/8", 0".
func inchText(sixteenths int64) string {
	whole, num, den := sixteenths/16, sixteenths%16, int64(16)
	for num > 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	switch {
	case num == 0:
		return fmt.Sprintf(`%d"`, whole)
	case whole == 0:
		return fmt.Sprintf(`%d/%d"`, num, den)
	}
	return fmt.Sprintf(`%d %d/%d"`, whole, num, den)
}
