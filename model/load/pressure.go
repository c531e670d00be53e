package load

import (
	"fmt"
	"math"

	"boxwalk/model/units"
)

// Equation names an equation of ACI 347 §2.2.2 (347R-14 §4.2.2).
type Equation byte

// Equation (a) is the full liquid head.
const (
	EquationA Equation = 'a'
	EquationB Equation = 'b'
	EquationC Equation = 'c'
)

// Rule names what governs a design pressure; the zero value is none.
type Rule uint8

// The rules.
const (
	NoRule       Rule = iota
	ByEquation        // the value of equation (b) or (c)
	ByFloor           // 600 Cw psf or 30 Cw kPa
	ByLiquidHead      // w h, where equation (a) holds or caps the value
	ByPumping         // 1.25 w h, pumped up from the base
)

var ruleWords = [...]string{"nothing", "the equation", "the least pressure", "the full liquid head", "1.25 times the full liquid head"}

// String returns the words that a report prints.
func (r Rule) String() string {
	if int(r) >= len(ruleWords) {
		return ruleWords[NoRule]
	}
	return ruleWords[r]
}

// Lateral is the design pressure of fresh concrete on a form.
type Lateral struct {
	Pressure   units.Pressure // kPa, the greatest over the height
	LiquidHead units.Pressure // kPa, w h
	Computed   units.Pressure // kPa, equation (b) or (c) before floor and cap; 0 under (a)
	Floor      units.Pressure // kPa, the least of (b) and (c); 0 under (a)
	Equation   Equation
	Rule       Rule
	Why        string  // why that equation holds
	Cw, Cc     float64 // unit weight and chemistry coefficients
	Envelope   Envelope
	Source     Source
}

// aciTable is ACI 347 §2.2.2 in one system of units. The two systems are hard
// conversions of each other: (b) and (c) meet at 7 ft/h in inch-pound and at
// 2.137 m/h, not at the 2.1 m/h of the table, in SI. So each has its numbers
// and neither is turned into the other.
type aciTable struct {
	light, normal, reference         float64 // density limits of Cw
	slow, fast, tall                 float64 // rate, rate, height
	base, rateB, constC, rateC, zero float64 // of (b) and (c)
	floor                            float64 // least pressure over Cw
	head                             float64 // pressure per density and depth
	slump                            float64 // m
	height, rate                     string  // units, for words
	source                           Source
}

var (
	aciInchPound = aciTable{
		light: 140, normal: 150, reference: 145, slow: 7, fast: 15, tall: 14,
		base: 150, rateB: 9000, constC: 43400, rateC: 2800, zero: 0, floor: 600, head: 1,
		slump: 7 * inch, height: "ft", rate: "ft/h",
		source: Source{"ACI 347-04 §2.2.2, ACI 347R-14 §4.2.2, inch-pound", SecondHand},
	}
	aciSI = aciTable{
		light: 2240, normal: 2400, reference: 2320, slow: 2.1, fast: 4.5, tall: 4.2,
		base: 7.2, rateB: 785, constC: 1156, rateC: 244, zero: 17.8, floor: 30, head: aciGravity / 1000,
		slump: 0.175, height: "m", rate: "m/h",
		source: Source{"ACI 347-04 §2.2.2, ACI 347R-14 §4.2.2, SI", SecondHand},
	}
)

// aciGravity is the g of the SI equation (a), N/kg.
const aciGravity = 9.81

// ACI347InchPound returns the lateral pressure by the inch-pound equations,
// worked in psf, pcf, ft, ft/h and °F:
//
//	(a) p = w h
//	(b) p = Cc Cw (150 + 9000 R/T)
//	(c) p = Cc Cw (150 + 43400/T + 2800 R/T)
//
// (b) and (c) not less than 600 Cw and in no case more than w h. Cw is
// 0.5(1 + w/145), not below 0.80, under 140 pcf; 1 to 150 pcf; w/145 above.
//
// Which one: (a) for slump above 7 in, self-compacting concrete, vibration
// deeper than 4 ft or external, and walls rising faster than 15 ft/h; (b) for
// columns, and walls to 14 ft high that rise slower than 7 ft/h; (c) for other
// walls. Pumped from the base: 1.25 w h at least.
//
// Range: see [Fresh]; 4 to 40 °C is judgement. Source: ACI 347-04 §2.2.2,
// 347R-14 §4.2.2 (second-hand); the two wall equations and the 7 in limit read
// in Hurd, "Use updated wall pressure formulas", Concrete Construction. Deep
// revibration has been measured 40 % above these equations (Douglas et al.,
// Concrete International 3(11), 1981, abstract read).
func ACI347InchPound(f Fresh) (Lateral, error) {
	return aciInchPound.pressure(f, aciInput{
		density: float64(f.UnitWeight) / pcf,
		height:  float64(f.Height) / foot,
		rate:    perHour(f.Rate) / foot,
		warmth:  fahrenheit(f.Temperature),
	}, psf, foot)
}

// ACI347SI returns the lateral pressure by the SI equations, worked in kPa,
// kg/m³, m, m/h and °C, with the density from the unit weight by g = 9.81 N/kg:
//
//	(a) p = ρ g h
//	(b) p = Cc Cw (7.2 + 785 R/(T + 17.8))
//	(c) p = Cc Cw (7.2 + 1156/(T + 17.8) + 244 R/(T + 17.8))
//
// (b) and (c) not less than 30 Cw and in no case more than ρ g h. Cw is
// 0.5(1 + ρ/2320), not below 0.80, under 2240 kg/m³; 1 to 2400; ρ/2320 above
// (so 24 kN/m³, which is 2446 kg/m³, takes Cw = 1.054).
//
// Which one: as [ACI347InchPound], with the limits 175 mm, 1.2 m, 4.5 m/h,
// 4.2 m and 2.1 m/h. Range: see [Fresh]. Source: ACI 347-04 §2.2.2, 347R-14
// §4.2.2, SI values (second-hand).
func ACI347SI(f Fresh) (Lateral, error) {
	return aciSI.pressure(f, aciInput{
		density: float64(f.UnitWeight) * 1000 / aciGravity,
		height:  float64(f.Height),
		rate:    perHour(f.Rate),
		warmth:  float64(f.Temperature),
	}, 1, 1)
}

// aciInput is a pour in the units of a table.
type aciInput struct{ density, height, rate, warmth float64 }

// pressure runs one table; kPa and m are what its units of pressure and length
// are worth.
func (t *aciTable) pressure(f Fresh, in aciInput, kPa, m float64) (Lateral, error) {
	if err := f.check(); err != nil {
		return Lateral{}, err
	}
	cc := chemistry[f.Binder][f.Retarding]
	cw := t.weight(in.density)
	equation, why := t.choose(f, in)
	head := t.head * in.density * in.height
	l := Lateral{LiquidHead: units.Pressure(head * kPa), Equation: equation, Why: why, Cw: cw, Cc: cc, Source: t.source}
	gradient := t.head * in.density * kPa / m
	p := head
	switch {
	case f.PumpedFromBase:
		l.Rule, p, gradient = ByPumping, pumpFactor*head, pumpFactor*gradient
	case equation == EquationA:
		l.Rule = ByLiquidHead
	default:
		computed, floor := cc*cw*t.value(equation, in), t.floor*cw
		l.Computed, l.Floor = units.Pressure(computed*kPa), units.Pressure(floor*kPa)
		p, l.Rule = govern(computed, floor, head)
	}
	l.Pressure = units.Pressure(p * kPa)
	l.Envelope = Envelope{Gradient: gradient, Height: f.Height, Pressure: l.Pressure}
	return answer("lateral pressure", l, p, gradient)
}

// pumpFactor: ACI 347 asks for the full head and at least 25 % for pump surge
// (second-hand).
const pumpFactor = 1.25

// govern applies the floor, then the cap by the liquid head.
func govern(computed, floor, head float64) (float64, Rule) {
	p, rule := computed, ByEquation
	if floor > p {
		p, rule = floor, ByFloor
	}
	if head < p {
		p, rule = head, ByLiquidHead
	}
	return p, rule
}

func (t *aciTable) value(e Equation, in aciInput) float64 {
	warmth := in.warmth + t.zero
	if e == EquationB {
		return t.base + t.rateB*in.rate/warmth
	}
	return t.base + t.constC/warmth + t.rateC*in.rate/warmth
}

func (t *aciTable) weight(density float64) float64 {
	switch {
	case below(density, t.light):
		return math.Max(0.80, 0.5*(1+density/t.reference))
	case atMost(density, t.normal):
		return 1
	}
	return density / t.reference
}

// choose picks the equation by the concrete and the form.
func (t *aciTable) choose(f Fresh, in aciInput) (Equation, string) {
	switch {
	case f.PumpedFromBase:
		return EquationA, "pumped up from the base of the form"
	case f.SelfCompacting:
		return EquationA, "self-compacting concrete"
	case !atMost(float64(f.Slump), t.slump):
		return EquationA, fmt.Sprintf("slump of %.0f mm is above %.0f mm", f.Slump*1000, t.slump*1000)
	case f.Vibration == InternalDeep:
		return EquationA, "internal vibration deeper than 1.2 m (4 ft)"
	case f.Vibration == External:
		return EquationA, "external vibration"
	case f.Element == Column:
		return EquationB, "column"
	}
	return t.chooseWall(in)
}

func (t *aciTable) chooseWall(in aciInput) (Equation, string) {
	switch {
	case !atMost(in.rate, t.fast):
		return EquationA, fmt.Sprintf("wall rising at %.4g %s, faster than %.4g", in.rate, t.rate, t.fast)
	case !below(in.rate, t.slow):
		return EquationC, fmt.Sprintf("wall rising at %.4g %s, from %.4g to %.4g", in.rate, t.rate, t.slow, t.fast)
	case !atMost(in.height, t.tall):
		return EquationC, fmt.Sprintf("wall %.4g %s high, above %.4g", in.height, t.height, t.tall)
	}
	return EquationB, fmt.Sprintf("wall rising at %.4g %s, slower than %.4g, and %.4g %s high, not above %.4g", in.rate, t.rate, t.slow, in.height, t.height, t.tall)
}
