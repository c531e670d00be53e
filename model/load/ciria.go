package load

import (
	"errors"
	"math"

	"boxwalk/model/units"
)

// CIRIAGroup is the concrete group of CIRIA 108; the zero value is an error.
type CIRIAGroup uint8

// The groups with their C2: basic 0.30, retarded or blended 0.45, heavily
// retarded or high-slag 0.60. The three words are second-hand, which mixes
// belong to each beyond them is from memory.
const (
	CIRIAUnset CIRIAGroup = iota
	CIRIABasic
	CIRIARetarded
	CIRIAHeavilyRetarded
)

var ciriaC2 = [...]float64{CIRIABasic: 0.30, CIRIARetarded: 0.45, CIRIAHeavilyRetarded: 0.60}

// CIRIA108 is a pour for the formula of CIRIA Report 108.
type CIRIA108 struct {
	UnitWeight  units.UnitWeight  // kN/m³
	FormHeight  units.Length      // m, of the form
	PourHeight  units.Length      // m, of the concrete; not above FormHeight
	Rate        units.Rate        // m/s
	Temperature units.Temperature // °C, of the concrete
	Element     Element           // wall: C1 = 1.0, column: 1.5
	Group       CIRIAGroup
}

// CIRIALateral is the pressure by CIRIA 108.
type CIRIALateral struct {
	Pressure units.Pressure // kPa
	K        float64        // temperature coefficient
	C2       float64        // of the concrete's group
	Zone     units.Length   // m below the top, where the liquid head ends
	Rule     Rule           // ByEquation or ByLiquidHead
	Envelope Envelope
	Source   Source
}

var ciriaSource = Source{"CIRIA Report 108 (1985), two transcriptions", SecondHand}

// Pressure returns
//
//	P = D [C1 √R + C2 K √(H − C1 √R)], not more than D h;  D h where C1 √R > H
//	K = (36/(T + 16))²
//
// in kPa, with D kN/m³, R m/h, H form height and h pour height in m, T °C.
// Range: as [Fresh]; 4 to 40 °C is judgement. Source: CIRIA Report 108, read
// only in transcriptions (second-hand).
func (c CIRIA108) Pressure() (CIRIALateral, error) {
	if err := c.check(); err != nil {
		return CIRIALateral{}, err
	}
	d, height, pour := float64(c.UnitWeight), float64(c.FormHeight), float64(c.PourHeight)
	root := c.c1() * math.Sqrt(perHour(c.Rate))
	k := math.Pow(36/(float64(c.Temperature)+16), 2)
	p, rule := d*pour, ByLiquidHead
	if root <= height {
		if v := d * (root + ciriaC2[c.Group]*k*math.Sqrt(height-root)); v < p {
			p, rule = v, ByEquation
		}
	}
	return answer("pressure", CIRIALateral{
		Pressure: units.Pressure(p), K: k, C2: ciriaC2[c.Group], Zone: units.Length(p / d), Rule: rule,
		Envelope: Envelope{Gradient: d, Height: c.PourHeight, Pressure: units.Pressure(p)},
		Source:   ciriaSource,
	}, p, k)
}

func (c CIRIA108) c1() float64 {
	if c.Element == Column {
		return 1.5
	}
	return 1.0
}

func (c CIRIA108) check() error {
	err := errors.Join(
		freshNumbers(c.UnitWeight, c.PourHeight, c.Rate, c.Temperature),
		above("form height", float64(c.FormHeight), 0, mostHead, "m"),
		c.Element.check(),
		chosen("concrete group", uint8(c.Group), uint8(CIRIAHeavilyRetarded)))
	if err == nil && !atMost(float64(c.PourHeight), float64(c.FormHeight)) {
		return outsideBecause("the pour is %v high in a form of %v", amount{float64(c.PourHeight), "m"}, amount{float64(c.FormHeight), "m"})
	}
	return err
}
