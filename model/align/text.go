package align

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"boxwalk/model/units"
)

// num writes a value for a message, to a tenth of a millimetre or a thousandth
// of a degree or per cent. unit is m, deg (of radians), % (of a ratio) or rad.
func num(v float64, unit string) string {
	digits := 3
	switch unit {
	case "deg":
		v *= 180 / math.Pi
	case "%":
		v *= 100
	case "m":
		digits = 4
	}
	text := strconv.FormatFloat(v, 'f', digits, 64)
	if math.Abs(v) >= 1e15 {
		text = strconv.FormatFloat(v, 'g', 6, 64)
	} else if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text + " " + unit
}

// StationText is the station at a distance along the alignment as it is written in
// that system: 0+026.5, or 1+00 in feet.
func (a *Alignment) StationText(along float64, s units.System) string {
	return units.Station(a.Station(along)).Text(s)
}

// Beyond says that a place is not on the alignment.
type Beyond struct {
	Along, Length   float64 // m
	Station         float64 // of the place asked for, m
	Least, Greatest float64 // stations of the two ends, m
}

// Error names the station and the two ends.
func (e *Beyond) Error() string {
	if math.IsNaN(e.Along) {
		return "a station that is not a number lies on no alignment"
	}
	where := fmt.Sprintf("%s before its start", num(-e.Along, "m"))
	if e.Along > 0 {
		where = fmt.Sprintf("%s beyond its end", num(e.Along-e.Length, "m"))
	}
	return fmt.Sprintf("station %s is not on the alignment, which runs from %s to %s: it lies %s", num(e.Station, "m"), num(e.Least, "m"), num(e.Greatest, "m"), where)
}
