package units

import "strings"

// dimension is what a unit measures. Length, coordinate and station share one.
type dimension uint8

const (
	dimNumber dimension = iota
	dimLength
	dimAngle
	dimSlope
	dimForce
	dimMass
	dimDuration
	dimUnitWeight
	dimTemperature
	dimPressure
	dimRate
	dimMoment
	dimArea
	dimInertia
	dimDensity // only to recognise kg/m3 and say what to write instead
)

// unit turns a written number into SI: (x + offset) * mul / div. Two factors,
// so that decimal units stay exact: 150 mm is 150/1000, the float64 nearest
// to 0.15, which 150*0.001 is not.
type unit struct {
	dim      dimension
	mul, div float64
	offset   float64
	names    string // spellings, the first one is written back
}

// Sources. The international foot is 0.3048 m and the pound 0.45359237 kg, both
// exact (international yard and pound agreement, 1959; NIST SP 811, app. B).
// Standard gravity is 9.80665 m/s2, exact (3rd CGPM, 1901). A pound-force is a
// pound under standard gravity; psi, psf and pcf follow by division. The US
// survey foot (withdrawn 2022) is not read: it differs by 2 parts per million.
const (
	footM       = 0.3048
	inchM       = footM / 12
	poundKG     = 0.45359237
	gravity     = 9.80665
	poundForceN = poundKG * gravity // 4.4482216152605 N
)

var unitTable = []unit{
	{dimLength, 1, 1, 0, "m metre metres meter meters"},
	{dimLength, 1, 1e3, 0, "mm"},
	{dimLength, 1, 1e2, 0, "cm"},
	{dimLength, 1e3, 1, 0, "km"},
	{dimLength, 3048, 10000, 0, "ft ' foot feet"},
	{dimLength, 254, 10000, 0, `in " inch inches`},
	{dimAngle, pi, 180, 0, "deg ° degree degrees"},
	{dimAngle, 1, 1, 0, "rad"},
	{dimAngle, pi, 200, 0, "gon"},
	{dimSlope, 1, 100, 0, "%"},
	{dimSlope, 1, 1, 0, "m/m ft/ft"},
	{dimSlope, 1, 1000, 0, "mm/m ‰"},
	{dimSlope, 1, 12, 0, "in/ft"},
	{dimForce, 1, 1, 0, "kN"},
	{dimForce, 1, 1000, 0, "N"},
	{dimForce, 1000, 1, 0, "MN"},
	{dimForce, poundForceN, 1, 0, "kip kips"}, // 1000 lbf in kN
	{dimForce, poundForceN, 1000, 0, "lbf lb lbs"},
	{dimMass, 1, 1, 0, "kg"},
	{dimMass, 1, 1000, 0, "g"},
	{dimMass, 1000, 1, 0, "t tonne tonnes"},
	{dimMass, poundKG, 1, 0, "lb lbs"},
	{dimDuration, 3600, 1, 0, "h hr hrs hour hours"},
	{dimDuration, 1, 1, 0, "s sec"},
	{dimDuration, 60, 1, 0, "min"},
	{dimDuration, 86400, 1, 0, "d day days"},
	{dimDuration, 7 * 86400, 1, 0, "wk week weeks"},
	{dimUnitWeight, 1, 1, 0, "kN/m3 kN/m³ kN/m^3"},
	{dimUnitWeight, 1, 1000, 0, "N/m3 N/m³ N/m^3"},
	{dimUnitWeight, poundForceN, 1000 * footM * footM * footM, 0, "pcf lb/ft3 lbf/ft3 lb/ft³ lbf/ft³"},
	{dimTemperature, 1, 1, 0, "degC °C C"},
	{dimTemperature, 5, 9, -32, "degF °F F"},
	{dimPressure, 1, 1, 0, "kPa kN/m2 kN/m² kN/m^2"},
	{dimPressure, 1, 1000, 0, "Pa N/m2 N/m²"},
	{dimPressure, 1e3, 1, 0, "MPa N/mm2 N/mm² N/mm^2"},
	{dimPressure, 1e6, 1, 0, "GPa"},
	{dimPressure, 100, 1, 0, "bar"},
	{dimPressure, poundForceN, 1000 * inchM * inchM, 0, "psi"},
	{dimPressure, poundForceN, inchM * inchM, 0, "ksi"},
	{dimPressure, poundForceN, 1000 * footM * footM, 0, "psf"},
	{dimPressure, poundForceN, footM * footM, 0, "ksf"},
	{dimRate, 1, 3600, 0, "m/h m/hr"},
	{dimRate, 1, 1, 0, "m/s"},
	{dimRate, 1, 60, 0, "m/min"},
	{dimRate, 1, 3.6e6, 0, "mm/h mm/hr"},
	{dimRate, 1, 1000, 0, "mm/s"},
	{dimRate, 1, 6e4, 0, "mm/min"},
	{dimRate, 3048, 10000 * 3600, 0, "ft/h ft/hr"},
	{dimRate, 3048, 10000 * 60, 0, "ft/min"},
	{dimRate, 3048, 10000, 0, "ft/s"},
	{dimRate, 254, 10000 * 3600, 0, "in/h in/hr"},
	{dimMoment, 1, 1, 0, "kNm kN·m kN-m"},
	{dimMoment, 1, 1000, 0, "Nm N·m N-m"},
	{dimMoment, poundForceN * footM, 1, 0, "kip-ft kipft"},
	{dimMoment, poundForceN * footM, 1000, 0, "lb-ft lbf-ft"},
	{dimMoment, poundForceN * inchM, 1, 0, "kip-in kipin"},
	{dimArea, 1, 1e4, 0, "cm2 cm² cm^2"},
	{dimArea, 1, 1e6, 0, "mm2 mm² mm^2"},
	{dimArea, 1, 1, 0, "m2 m² m^2"},
	{dimArea, inchM * inchM, 1, 0, "in2 in² in^2"},
	{dimInertia, 1, 1e8, 0, "cm4 cm⁴ cm^4"},
	{dimInertia, 1, 1e12, 0, "mm4 mm⁴ mm^4"},
	{dimInertia, 1, 1, 0, "m4 m⁴ m^4"},
	{dimInertia, inchM * inchM * inchM * inchM, 1, 0, "in4 in⁴ in^4"},
	{dimDensity, 1, 1, 0, "kg/m3 kg/m³ kg/m^3"},
}

// unitsByName maps every spelling to the units that use it; "lb" names a mass
// and, by trade habit, a force.
var unitsByName = func() map[string][]unit {
	m := map[string][]unit{}
	for _, u := range unitTable {
		for _, name := range strings.Fields(u.names) {
			m[name] = append(m[name], u)
		}
	}
	return m
}()

// unitFor finds the unit of that spelling in a dimension.
func unitFor(dim dimension, name string) (unit, bool) {
	for _, u := range unitsByName[name] {
		if u.dim == dim {
			return u, true
		}
	}
	return unit{}, false
}

func (u unit) toSI(x float64) float64   { return (x + u.offset) * u.mul / u.div }
func (u unit) fromSI(x float64) float64 { return x*u.div/u.mul - u.offset }

// namesOf lists the first spelling of each unit of a dimension.
func namesOf(dim dimension) []string {
	var names []string
	for _, u := range unitTable {
		if u.dim == dim {
			names = append(names, strings.Fields(u.names)[0])
		}
	}
	return names
}

// String names the quantity that a dimension measures, for messages.
func (d dimension) String() string {
	for _, k := range kinds {
		if k.dim == d {
			return k.name
		}
	}
	return "a density"
}

// counterparts pairs the metric unit of a number without one with the unit the
// same number has in an imperial job.
var counterparts = map[string]string{
	"mm": "in", "cm": "in", "m": "ft", "km": "ft",
	"kN": "kip", "N": "lbf", "kg": "lb", "t": "lb",
	"MPa": "psi", "kPa": "psf", "kN/m3": "pcf", "degC": "degF",
	"kNm": "kip-ft", "cm2": "in2", "cm4": "in4",
	"m/h": "ft/h", "m/min": "ft/min", "m/s": "ft/s", "mm/h": "in/h",
}

// Counterpart returns the unit that stands for a metric one in a job of that
// system: mm stays mm in a metric job and becomes in in an imperial one. A unit
// without a counterpart (deg, %, h) is returned as it is.
func Counterpart(metricUnit string, s System) string {
	if s == Imperial {
		if other, ok := counterparts[metricUnit]; ok {
			return other
		}
	}
	return metricUnit
}
