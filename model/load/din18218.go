package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// Consistency is a consistency class of DIN 18218; the zero value is an error.
type Consistency uint8

// F1 (stiff) to F6 (very fluid), and self-compacting.
const (
	ConsistencyUnset Consistency = iota
	F1
	F2
	F3
	F4
	F5
	F6
	SCC
)

// dinRow gives (slope v + base) times K1, where K1 = 1 + k(tE − 5), for F1 to
// F4, and base + slope v K1, where K1 = tE/5, for the others.
type dinRow struct{ slope, base, k, least float64 }

var dinRows = [...]dinRow{
	F1: {5, 21, 0.03, 25}, F2: {10, 19, 0.053, 25}, F3: {14, 18, 0.077, 25}, F4: {17, 17, 0.14, 25},
	F5: {30, 25, 0, 30}, F6: {38, 25, 0, 30}, SCC: {33, 25, 0, 30},
}

// DIN18218 is a pour for DIN 18218:2010-01.
type DIN18218 struct {
	UnitWeight  units.UnitWeight // kN/m³
	Height      units.Length     // m, of fresh concrete
	Rate        units.Rate       // m/s
	SetEnd      units.Duration   // s, end of setting, 5 to 20 h
	Consistency Consistency
	// AtReference states that the concrete is placed from above, vibrated
	// internally, and not colder than its reference temperature. The corrections
	// for other cases are not in this package, so without it there is no answer.
	AtReference bool
}

// DINLateral is the pressure by DIN 18218.
type DINLateral struct {
	Characteristic units.Pressure // kPa
	Design         units.Pressure // kPa, 1.5 times
	K1             float64
	Rule           Rule
	Envelope       Envelope // of the characteristic pressure
	Source         Source

	class Consistency
}

// Row is what the class of the concrete has in the table: slope and base of the
// pressure by the rise rate, k of K1, the least pressure, and whether it is one of F1 to
// F4, whose K1 counts on all of it.
func (l DINLateral) Row() (slope, base, k, least float64, stiff bool) {
	r := dinRows[l.class]
	return r.slope, r.base, r.k, r.least, l.class <= F4
}

var dinSource = Source{"DIN 18218:2010-01; to be checked against the standard before use", Memory}

// dinPartial is the partial factor on the characteristic pressure (memory).
const dinPartial = 1.5

// Pressure returns the greatest characteristic pressure in kN/m², with v in
// m/h and tE in h:
//
//	F1 (5v + 21) K1, F2 (10v + 19) K1, F3 (14v + 18) K1, F4 (17v + 17) K1, each ≥ 25
//	F5 25 + 30 v K1, F6 25 + 38 v K1, SCC 25 + 33 v K1, each ≥ 30
//	K1 = 1 + k (tE − 5), k = 0.03, 0.053, 0.077, 0.14 for F1 to F4; tE/5 for the others
//
// times γ/25, in no case more than γ H. The least values are not scaled down.
//
// Range: 5 to 20 h; v to 7 m/h and H to 10 m, both from memory. Source: from
// memory; one transcription (second-hand) holds the linear terms and the
// least values but multiplies K1 over all of F5 to SCC. That conflict is open,
// the rounded K1 of the standard's table differs by up to 2 %, and its
// corrections for temperature are left out. It must be checked against the
// standard before anyone builds on it.
func (d DIN18218) Pressure() (DINLateral, error) {
	if err := d.check(); err != nil {
		return DINLateral{}, err
	}
	v, set, gamma := perHour(d.Rate), float64(d.SetEnd)/hour, float64(d.UnitWeight)
	row := dinRows[d.Consistency]
	k1, p := row.at(v, set, d.Consistency)
	p, rule := govern(p*gamma/25, row.least*math.Max(1, gamma/25), gamma*float64(d.Height))
	return answer("pressure", DINLateral{
		Characteristic: units.Pressure(p), Design: units.Pressure(dinPartial * p), K1: k1, Rule: rule,
		Envelope: Envelope{Gradient: gamma, Height: d.Height, Pressure: units.Pressure(p)},
		Source:   dinSource, class: d.Consistency,
	}, p, k1)
}

func (r dinRow) at(v, set float64, c Consistency) (k1, p float64) {
	if c <= F4 {
		k1 = 1 + r.k*(set-5)
		return k1, (r.slope*v + r.base) * k1
	}
	k1 = set / 5
	return k1, r.base + r.slope*v*k1
}

func (d DIN18218) check() error {
	err := errors.Join(
		within("unit weight", float64(d.UnitWeight), leastUnitWeight, mostUnitWeight, "kN/m³"),
		above("height of fresh concrete", float64(d.Height), 0, 10, "m"),
		above("rate of rise", perHour(d.Rate), 0, 7, "m/h"),
		within("end of setting", float64(d.SetEnd)/hour, 5, 20, "h"),
		chosen("consistency class", uint8(d.Consistency), uint8(SCC)))
	if err == nil && !d.AtReference {
		return missing("that the concrete is at its reference conditions")
	}
	return err
}
