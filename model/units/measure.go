package units

import "math"

// Measure is how numbers of one SI unit are printed: the unit's name, what the number
// is multiplied by, and the decimals.
type Measure struct {
	Name     string
	Times    float64
	Decimals int
}

// Factors are exact by definition of inch, pound and standard gravity; a kip is 1000
// pounds under it.
const (
	millimetres = 1000
	inches      = 1 / 0.0254
	pounds      = 1 / 0.45359237
	kips        = 1 / (0.45359237 * 9.80665)
	psi         = 0.0254 * 0.0254 * 1000 / (0.45359237 * 9.80665)
	degrees     = 180 / math.Pi
)

// shownMetric and shownImperial are the units in which those of a result are printed.
var (
	shownMetric = map[string]Measure{
		"m":    {"mm", millimetres, 1},
		"kN":   {"kN", 1, 2},
		"kg":   {"kg", 1, 0},
		"kPa":  {"kPa", 1, 2},
		"kNm":  {"kNm", 1, 2},
		"kN/m": {"kN/m", 1, 2},
		"rad":  {"deg", degrees, 2},
		"MPa":  {"MPa", 1, 1},
		"h":    {"h", 1, 1},
		"1":    {"", 1, 2},
	}
	shownImperial = map[string]Measure{
		"m":    {"in", inches, 2},
		"kN":   {"kip", kips, 2},
		"kg":   {"lb", pounds, 0},
		"kPa":  {"psi", psi, 2},
		"kNm":  {"kip-ft", kips / 0.3048, 2},
		"kN/m": {"lb/ft", 1000 * kips * 0.3048, 0},
		"MPa":  {"psi", 1000 * psi, 0},
	}
)

// Shown tells how numbers of a unit of a result are printed in a system, in tables and
// in sentences. Hundredths of an inch are a quarter of a millimetre: as fine as anyone
// measures on a form, and decimals keep value, limit and margin addable.
func Shown(unit string, s System) Measure {
	if m, ok := shownImperial[unit]; ok && s == Imperial {
		return m
	}
	if m, ok := shownMetric[unit]; ok {
		return m
	}
	return Measure{unit, 1, 2}
}

// Down is v rounded toward minus infinity, in the unit shown; see [Down].
func (m Measure) Down(v float64) string { return m.number(Down(v*m.Times, m.Decimals)) }

// Up is v rounded toward plus infinity.
func (m Measure) Up(v float64) string { return m.number(Up(v*m.Times, m.Decimals)) }

// Nearest is v rounded to the nearest.
func (m Measure) Nearest(v float64) string { return m.number(v * m.Times) }

func (m Measure) number(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "unknown"
	}
	return Decimal(v, m.Decimals)
}

// With puts the name of the unit behind a number; a pure number has none.
func (m Measure) With(number string) string {
	if m.Name == "" {
		return number
	}
	return number + " " + m.Name
}
