package units

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
)

// A station is written in whole hundreds or thousands, a plus, and the rest:
// thousands of metres in a metric job, hundreds of feet in an imperial one.
var stationText = [2]*regexp.Regexp{
	Metric:   regexp.MustCompile(`^(\d+)\+(\d{3}(?:\.\d*)?)$`),
	Imperial: regexp.MustCompile(`^(\d+)\+(\d{2}(?:\.\d*)?)$`),
}

var stationShape = regexp.MustCompile(`^\d+\+\d+(?:\.\d*)?$`)

// stationStep is the length of the part before the plus, in the unit of the
// system (1000 m, 100 ft).
var stationStep = [2]float64{Metric: 1000, Imperial: 100}

// parseStation reads a station without its sign, in metres.
func parseStation(text string, s System) (float64, string) {
	m := stationText[s].FindStringSubmatch(text)
	if m == nil {
		return 0, "is no station: in this " + s.String() + " job " + stationRule[s]
	}
	rest, _ := strconv.ParseFloat(m[2], 64)
	x := digits(m[1])*stationStep[s] + rest
	if s == Imperial {
		return x * 3048 / 10000, ""
	}
	return x, ""
}

var stationRule = [2]string{
	Metric:   "three digits follow the plus, as in 0+026 for 26 m",
	Imperial: "two digits follow the plus, as in 1+00 for 100 ft",
}

// stationString writes a station to the millimetre (metric) or to a hundredth
// of a foot (imperial), dropping zeros after the point.
func stationString(x float64, s System) string {
	perUnit, width := 1000.0, 3
	if s == Imperial {
		x, perUnit, width = x*10000/3048, 100, 2
	}
	n := int64(math.Round(math.Abs(x) * perUnit))
	step := int64(stationStep[s] * perUnit)
	rest := float64(n%step) / perUnit
	sign := ""
	if x < 0 && n != 0 {
		sign = "-"
	}
	whole := math.Trunc(rest)
	return fmt.Sprintf("%s%d+%0*d%s", sign, n/step, width, int64(whole), fractionText(rest-whole))
}

// fractionText writes the part of a number below one as ".5"; nothing when
// it is zero to three decimals.
func fractionText(x float64) string {
	return trimmed(x, 3)[1:]
}
