package units

// Kind names a quantity at run time.
type Kind uint8

// The kinds, one for each type of quantity.
const (
	KindNumber Kind = iota
	KindLength
	KindCoordinate
	KindStation
	KindAngle
	KindSlope
	KindForce
	KindMass
	KindDuration
	KindUnitWeight
	KindTemperature
	KindPressure
	KindRate
	KindMoment
	KindArea
	KindInertia
)

// kindFacts is what the parser and the messages need to know about a kind.
type kindFacts struct {
	name        string    // with its article, for messages
	dim         dimension // which units measure it
	bare        [2]string // unit of a number without one, by System
	shown       [2]string // unit Text writes, by System
	examples    [2]string // a text that works, by System
	least, most float64   // sane range in SI, both ends included
}

// The ranges are judgement: far wider than any culvert job, narrow enough that
// a slipped exponent or a forgotten decimal point is refused. Each is written
// in the SI unit of the kind.
var kinds = [...]kindFacts{
	KindNumber:      {"a pure number", dimNumber, [2]string{"", ""}, [2]string{"", ""}, [2]string{"0.02", "0.02"}, -1e9, 1e9},
	KindLength:      {"a length", dimLength, [2]string{"m", "ft"}, [2]string{"m", "ft"}, [2]string{"150 mm", `6 1/2"`}, -100e3, 100e3},
	KindCoordinate:  {"a coordinate", dimLength, [2]string{"m", "ft"}, [2]string{"m", "ft"}, [2]string{"5000 m", "16400 ft"}, -20000e3, 20000e3},
	KindStation:     {"a station", dimLength, [2]string{"m", "ft"}, [2]string{"m", "ft"}, [2]string{"0+026", "1+00"}, -1000e3, 1000e3},
	KindAngle:       {"an angle", dimAngle, [2]string{"deg", "deg"}, [2]string{"deg", "deg"}, [2]string{"20 deg", "20 deg"}, -4 * pi, 4 * pi},
	KindSlope:       {"a slope", dimSlope, [2]string{"%", "%"}, [2]string{"%", "%"}, [2]string{"1.8 %", "1.8 %"}, -10, 10},
	KindForce:       {"a force", dimForce, [2]string{"kN", "kip"}, [2]string{"kN", "kip"}, [2]string{"18 kN", "4 kip"}, -1e6, 1e6},
	KindMass:        {"a mass", dimMass, [2]string{"kg", "lb"}, [2]string{"kg", "lb"}, [2]string{"250 kg", "550 lb"}, 0, 1e7},
	KindDuration:    {"a duration", dimDuration, [2]string{"h", "h"}, [2]string{"h", "h"}, [2]string{"20 h", "20 h"}, 0, 3660 * 86400},
	KindUnitWeight:  {"a unit weight", dimUnitWeight, [2]string{"kN/m3", "pcf"}, [2]string{"kN/m3", "pcf"}, [2]string{"24 kN/m3", "150 pcf"}, 0, 200},
	KindTemperature: {"a temperature", dimTemperature, [2]string{"degC", "degF"}, [2]string{"degC", "degF"}, [2]string{"15 degC", "60 degF"}, -90, 200},
	KindPressure:    {"a pressure or strength", dimPressure, [2]string{"MPa", "psi"}, [2]string{"MPa", "psi"}, [2]string{"30 MPa", "4000 psi"}, -1e9, 1e9},
	KindRate:        {"a rate", dimRate, [2]string{"m/h", "ft/h"}, [2]string{"m/h", "ft/h"}, [2]string{"1.5 m/h", "5 ft/h"}, -100, 100},
	KindMoment:      {"a moment", dimMoment, [2]string{"kNm", "kip-ft"}, [2]string{"kNm", "kip-ft"}, [2]string{"12 kNm", "9 kip-ft"}, -1e6, 1e6},
	KindArea:        {"a section area", dimArea, [2]string{"cm2", "in2"}, [2]string{"cm2", "in2"}, [2]string{"12.5 cm2", "1.94 in2"}, 0, 10},
	KindInertia:     {"a second moment of area", dimInertia, [2]string{"cm4", "in4"}, [2]string{"cm4", "in4"}, [2]string{"850 cm4", "20.4 in4"}, 0, 10},
}

const pi = 3.14159265358979323846264338327950288

// String returns the kind with its article, as messages use it: "a length".
func (k Kind) String() string { return kinds[k].name }

// Example returns a text of the kind that Parse accepts in that system.
func (k Kind) Example(s System) string { return kinds[k].examples[s] }

// BareUnit returns the unit that a number without one has in that system; it
// is empty for a pure number.
func (k Kind) BareUnit(s System) string { return kinds[k].bare[s] }

// Bounds returns the sane range of the kind in SI, both ends included. Parse
// refuses what lies outside.
func (k Kind) Bounds() (least, most float64) { return kinds[k].least, kinds[k].most }
