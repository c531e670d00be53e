package check

import (
	"boxwalk/clearance/measure"
	"boxwalk/clearance/statics"
	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/load"
	"boxwalk/model/motion"
)

// FixedNumber enters a check and stands in no file. Unit is that of a result.
type FixedNumber struct {
	Name   string
	Value  float64
	Unit   string
	Source string
	Words  string
}

// FixedNumbers are those of which somebody may ask where they come from, for the
// list of limits; what follows from geometry or statics is not among them.
func FixedNumbers() []FixedNumber {
	out := []FixedNumber{
		{"contact", measure.ContactTolerance, "m", "rounding", "how far a face that touches by design may seem to enter"},
		{"drag, distance", sweep.DefaultBand, "m", "judgement", "within which a face is still held by what is between it and the concrete"},
		{"drag, opening", sweep.DefaultOpening, "1", "judgement", "rise over travel from which on a face lifts off and drags no more"},
		{"pin", incrementPlay, "m", "judgement", "play of a pin: how far a reading may lie from its hole"},
		{"tape", tape, "m", "judgement", "least difference between jacks that a crew holds with a tape"},
		{"joint, dip", jointDip, "m", "judgement", "how far a wheel may sink into an open joint of the invert"},
		{"dead centre", motion.DeadCentre, "1", "judgement", "least sine of the angle between a driving link and its lever"},
		{"centre of gravity", measure.CentreUncertain, "m", "judgement", "along the carrier, where more than two wheel lines may carry"},
		{"live factor", load.LiveFactor, "1", "ACI 318, from memory; judgement for rolling over edges", "on wheel loads while rolling"},
		{"phi, bearing", load.PhiACI, "1", "ACI 318-19 21.2.1, from memory", "strength reduction for bearing on the invert"},
		{"pump", statics.PumpedFromBase, "1", "ACI 347R-14 4.2.2, second-hand", "on the full head of concrete pumped up from the base of the form"},
		{"panel, limber", statics.Limber, "kNm2/m", "judgement: 71 cm4 of steel a metre", "least stiffness of a wall panel under the pour"},
		{"friction, pour", frictionSafety, "1", "judgement", "stated friction is divided by, where it holds the carrier under a pour"},
		{"Euler", eulerSafety, "1", "23/12 of AISC's allowable stress design, from memory", "Euler's load of a link is divided by"},
		{"steel", youngSteel, "kPa", "EN 1993-1-1 3.2.6, from memory", "Young's modulus"},
		{"steel, yield", leastYield, "kPa", "S235 of EN 10025, from memory", "from which slenderness on Euler's formula holds"},
	}
	for _, m := range carrier.MassRanges() {
		out = append(out,
			FixedNumber{"mass, least", m.Low, m.Unit, m.Source, m.What},
			FixedNumber{"mass, most", m.High, m.Unit, m.Source, m.What})
	}
	return out
}
