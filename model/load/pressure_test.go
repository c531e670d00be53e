package load

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"boxwalk/model/units"
)

// inchPound is a wall of plain Portland concrete, slump 4 in, shallow internal
// vibration, read from inch-pound texts; chemistryFor turns Cc into a mix.
func inchPound(w, h, r, f, cc float64) Fresh {
	return chemistryFor(Fresh{
		UnitWeight: fromPcf(w), Height: feet(h),
		Rate:        units.Rate(si(units.KindRate, r, "ft/h")),
		Temperature: units.Temperature(si(units.KindTemperature, f, "degF")),
		Slump:       inches(4), Element: Wall, Vibration: InternalShallow,
	}, cc)
}

// metric is the same from kg/m3, m, m/h and °C.
func metric(rho, h, r, c, cc float64) Fresh {
	return chemistryFor(Fresh{
		UnitWeight: units.UnitWeight(rho * aciGravity / 1000), Height: units.Length(h),
		Rate: units.Rate(r / hour), Temperature: units.Temperature(c),
		Slump: 0.1, Element: Wall, Vibration: InternalShallow,
	}, cc)
}

func chemistryFor(f Fresh, cc float64) Fresh {
	switch cc {
	case 1.2:
		f.Binder, f.Retarding = Blend, NotRetarded
	case 1.4:
		f.Binder, f.Retarding = RichBlend, NotRetarded
	default:
		f.Binder, f.Retarding = Portland, NotRetarded
	}
	return f
}

func column(f Fresh) Fresh { f.Element = Column; return f }

// Published: PE practice problem 2 citing ACI 347-04 p. 347-7 (712 psf, choice
// A; read), and University of Nebraska lecture notebooks, week 7 (1042.5 psf;
// read; its older limits choose the same equation).
func TestACIPublishedWallExamples(t *testing.T) {
	p := must(ACI347InchPound(inchPound(140, 13+4.0/12, 5, 80, 1)))
	nearBy(t, "choice A, psf", inPsf(p.Pressure), 712, 0.5+1e-9)
	near(t, "recomputed, psf", inPsf(p.Pressure), 712.5)
	p = must(ACI347InchPound(inchPound(150, 15, 10, 80, 1)))
	near(t, "notebook, psf", inPsf(p.Pressure), 1042.5)
	if p.Equation != EquationC || p.Rule != ByEquation {
		t.Errorf("equation %c by %v, want c by the equation", p.Equation, p.Rule)
	}
}

// Published: Concrete Construction "form pressure", 8 ft at 150 pcf is 1200 psf
// = 8.33 psi (read); lecture notebook week 8, column of 10 ft, 1500 psf (read).
func TestLiquidHeadPublished(t *testing.T) {
	f := inchPound(150, 8, 5, 70, 1)
	f.SelfCompacting = true
	p := must(ACI347InchPound(f))
	near(t, "8 ft, psf", inPsf(p.Pressure), 1200)
	near(t, "8 ft, psi", inPsf(p.Pressure)/144, 8.333333333)
	f = column(inchPound(150, 10, 5, 70, 1))
	f.Vibration = External
	near(t, "10 ft, psf", inPsf(must(ACI347InchPound(f)).Pressure), 1500)
}

// US Navy NAVEDTRA 14045 item 3-18: choices 600 to 900 psf, the key was not
// seen, 800 is nearest. US Army EN5466 p. 3-13: chart 400 psf (read); equation
// (b) gives 410.36, which ACI 347-04 raises to its least 600.
func TestACIAgainstArmyAndNavyCharts(t *testing.T) {
	navy := must(ACI347InchPound(inchPound(150, 14, 5, 70, 1)))
	near(t, "Navy, psf", inPsf(navy.Pressure), 792.857142857)
	army := must(ACI347InchPound(inchPound(150, 14, 2.025, 70, 1)))
	near(t, "Army equation, psf", inPsf(army.Computed), 410.357142857)
	near(t, "Army design, psf", inPsf(army.Pressure), 600)
	if army.Rule != ByFloor {
		t.Errorf("Army: governed by %v, want the floor", army.Rule)
	}
}

// Derived from the formulas, kept in vectors.json; the first two are published
// as above.
func TestACIInchPoundVectors(t *testing.T) {
	for _, v := range vectors(t, "aci_us_wall", 10) {
		p := must(ACI347InchPound(inchPound(v.In["w"], v.In["h"], v.In["R"], v.In["T"], v.In["Cc"])))
		near(t, v.ID+" p", inPsf(p.Pressure), v.out("p"))
		near(t, v.ID+" wh", inPsf(p.LiquidHead), v.out("wh"))
		near(t, v.ID+" Cw", p.Cw, v.out("cw"))
		near(t, v.ID+" Cc", p.Cc, v.In["Cc"])
	}
}

func TestACISIVectors(t *testing.T) {
	for _, v := range vectors(t, "aci_si_wall", 7) {
		p := must(ACI347SI(metric(v.In["rho"], v.In["h"], v.In["R"], v.In["T"], v.In["Cc"])))
		near(t, v.ID, float64(p.Pressure), v.out("p"))
	}
}

// Derived: the table of the reference, inch-pound.
func TestACIInchPoundTable(t *testing.T) {
	rows := []struct {
		f                    Fresh
		equation             Equation
		computed, design     float64
		rule                 Rule
		head, resultant, arm float64
	}{
		{inchPound(140, 13.333333333333333, 5, 80, 1), 'b', 712.5, 712.5, ByEquation, 5.089285714, 7686.941964286, 5.494376026},
		{inchPound(150, 15, 10, 80, 1), 'c', 1042.5, 1042.5, ByEquation, 6.95, 12014.8125, 5.937129429},
		{inchPound(150, 8, 4, 90, 1), 'b', 550, 600, ByFloor, 4, 3600, 3.111111111},
		{inchPound(120, 12, 6, 60, 1.4), 'b', 1343.275862069, 1343.275862069, ByEquation, 11.193965517, 8601.018504756, 4.016911079},
		{inchPound(153, 12, 4, 60, 1), 'b', 791.379310345, 791.379310345, ByEquation, 5.172413793, 7449.881093936, 4.825312618},
		{inchPound(100, 12, 4, 60, 1.2), 'b', 760.344827586, 760.344827586, ByEquation, 7.603448276, 6233.516646849, 4.392962036},
		{inchPound(150, 3, 6, 50, 1), 'b', 1230, 450, ByLiquidHead, 3, 675, 1},
		{inchPound(150, 8, 8, 75, 1.2), 'c', 1232.8, 1200, ByLiquidHead, 8, 4800, 2.666666667},
		{inchPound(150, 16, 5, 70, 1), 'c', 970, 970, ByEquation, 6.466666667, 12383.666666667, 6.519814331},
		{inchPound(150, 10, 18, 70, 1), 'a', 0, 1500, ByLiquidHead, 10, 7500, 3.333333333},
		{column(inchPound(145, 20, 7, 60, 1.2)), 'b', 1440, 1440, ByEquation, 9.931034483, 21649.655172414, 7.790572604},
		{column(inchPound(145, 20, 25, 60, 1.2)), 'b', 4680, 2900, ByLiquidHead, 20, 29000, 6.666666667},
	}
	for i, r := range rows {
		p := must(ACI347InchPound(r.f))
		if p.Equation != r.equation || p.Rule != r.rule {
			t.Errorf("row %d: equation %c by %v, want %c by %v", i, p.Equation, p.Rule, r.equation, r.rule)
		}
		near(t, "computed", inPsf(p.Computed), r.computed)
		near(t, "design", inPsf(p.Pressure), r.design)
		e := must(p.Envelope.Resultant())
		near(t, "h1", float64(e.Head)/foot, r.head)
		near(t, "resultant", inPlf(e.Force), r.resultant)
		near(t, "arm", float64(e.Arm)/foot, r.arm)
	}
}

// Derived: the table of the reference, SI.
func TestACISITable(t *testing.T) {
	rows := []struct {
		f                Fresh
		equation         Equation
		computed, design float64
		rule             Rule
		cw               float64
	}{
		{column(metric(2400, 4, 2, 20, 1)), 'b', 48.734391534, 48.734391534, ByEquation, 1},
		{column(metric(2400, 6, 3, 20, 1)), 'b', 69.501587302, 69.501587302, ByEquation, 1},
		{metric(2400, 4, 1.5, 15, 1.2), 'b', 51.719268293, 51.719268293, ByEquation, 1},
		{metric(2400, 5, 3, 10, 1), 'c', 75.113669065, 75.113669065, ByEquation, 1},
		{metric(2400, 5, 1.5, 20, 1), 'c', 47.464550265, 47.464550265, ByEquation, 1},
		{metric(2500, 3, 1, 25, 1), 'b', 27.522760232 * 1, 32.327586207, ByFloor, 1.077586207},
		{metric(1800, 3, 1.5, 20, 1.4), 'b', 47.674003831, 47.674003831, ByEquation, 0.887931034},
		{metric(2400, 1, 2, 10, 1), 'b', 63.674820144, 23.544, ByLiquidHead, 1},
		{metric(2400, 3, 5, 20, 1), 'a', 0, 70.632, ByLiquidHead, 1},
	}
	for i, r := range rows {
		p := must(ACI347SI(r.f))
		if p.Equation != r.equation || p.Rule != r.rule {
			t.Errorf("row %d: equation %c by %v, want %c by %v", i, p.Equation, p.Rule, r.equation, r.rule)
		}
		near(t, "computed", float64(p.Computed), r.computed)
		near(t, "design", float64(p.Pressure), r.design)
		near(t, "Cw", p.Cw, r.cw)
	}
}

// ACI 347R-14 table 4.2.2.1a(a), second-hand.
func TestWhichEquation(t *testing.T) {
	base := inchPound(150, 12, 5, 70, 1)
	rows := []struct {
		why    string
		change func(*Fresh)
		want   Equation
	}{
		{"wall, slow, low", func(*Fresh) {}, 'b'},
		{"slump of 7 in", func(f *Fresh) { f.Slump = inches(7) }, 'b'},
		{"slump of 7 1/4 in", func(f *Fresh) { f.Slump = inches(7.25) }, 'a'},
		{"self-compacting, no slump", func(f *Fresh) { f.SelfCompacting, f.Slump = true, 0 }, 'a'},
		{"deep vibration", func(f *Fresh) { f.Vibration = InternalDeep }, 'a'},
		{"external vibration", func(f *Fresh) { f.Vibration = External }, 'a'},
		{"column, fast", func(f *Fresh) { f.Element, f.Rate = Column, f.Rate*5 }, 'b'},
		{"wall of 14 ft", func(f *Fresh) { f.Height = feet(14) }, 'b'},
		{"wall of 14 ft 1 in", func(f *Fresh) { f.Height = feet(14 + 1.0/12) }, 'c'},
		{"wall at 7 ft/h", func(f *Fresh) { f.Rate = units.Rate(si(units.KindRate, 7, "ft/h")) }, 'c'},
		{"wall at 15 ft/h", func(f *Fresh) { f.Rate = units.Rate(si(units.KindRate, 15, "ft/h")) }, 'c'},
		{"wall at 15.1 ft/h", func(f *Fresh) { f.Rate = units.Rate(si(units.KindRate, 15.1, "ft/h")) }, 'a'},
		{"pumped from the base", func(f *Fresh) { f.PumpedFromBase = true }, 'a'},
	}
	for _, r := range rows {
		f := base
		r.change(&f)
		p := must(ACI347InchPound(f))
		if p.Equation != r.want || p.Why == "" {
			t.Errorf("%s: equation %c (%s), want %c", r.why, p.Equation, p.Why, r.want)
		}
	}
}

func TestLimitsOfTheSITable(t *testing.T) {
	rows := []struct {
		f    Fresh
		want Equation
	}{
		{metric(2400, 4.2, 2.0, 20, 1), 'b'}, {metric(2400, 4.21, 2.0, 20, 1), 'c'},
		{metric(2400, 4, 2.1, 20, 1), 'c'}, {metric(2400, 4, 4.5, 20, 1), 'c'}, {metric(2400, 4, 4.51, 20, 1), 'a'},
	}
	for i, r := range rows {
		if p := must(ACI347SI(r.f)); p.Equation != r.want {
			t.Errorf("row %d: equation %c, want %c", i, p.Equation, r.want)
		}
	}
}

func TestPumpingFromTheBaseTakesAQuarterMore(t *testing.T) {
	f := inchPound(150, 10, 5, 70, 1)
	f.PumpedFromBase = true
	p := must(ACI347InchPound(f))
	near(t, "psf", inPsf(p.Pressure), 1875)
	e := must(p.Envelope.Resultant())
	near(t, "lb/ft", inPlf(e.Force), 1.25*7500)
	near(t, "arm", float64(e.Arm), float64(f.Height)/3)
	if p.Rule != ByPumping {
		t.Errorf("governed by %v, want pumping", p.Rule)
	}
}

// ACI 347R-14 table 4.2.2.1a(c), second-hand.
func TestChemistryCoefficients(t *testing.T) {
	rows := []struct {
		b    Binder
		r    Retarding
		want float64
	}{{Portland, NotRetarded, 1}, {Portland, Retarded, 1.2}, {Blend, NotRetarded, 1.2}, {Blend, Retarded, 1.4}, {RichBlend, NotRetarded, 1.4}, {RichBlend, Retarded, 1.4}}
	for _, r := range rows {
		near(t, "Cc", must(Chemistry(r.b, r.r)), r.want)
	}
}

// Unit weights at the ends of the table: 140 and 150 pcf take 1, and a text of
// 140 pcf that has been through kN/m3 is still 140 pcf.
func TestUnitWeightCoefficientAtTheEndsOfItsTable(t *testing.T) {
	rows := []struct{ w, want float64 }{{140, 1}, {150, 1}, {139.9, 0.5 * (1 + 139.9/145)}, {150.1, 150.1 / 145}, {86, 0.8}}
	for _, r := range rows {
		near(t, "Cw", must(ACI347InchPound(inchPound(r.w, 10, 5, 70, 1))).Cw, r.want)
	}
	for _, r := range []struct{ w, want float64 }{{2240, 1}, {2400, 1}, {2239, 0.5 * (1 + 2239.0/2320)}, {2401, 2401.0 / 2320}} {
		near(t, "Cw", must(ACI347SI(metric(r.w, 3, 1, 20, 1))).Cw, r.want)
	}
}

// Derived: 43400 + 2800·7 = 63000 = 9000·7.
func TestInchPoundEquationsMeetAtSevenFeetAnHour(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := aciInput{rate: 7, warmth: rapid.Float64Range(40, 104).Draw(t, "T")}
		b, c := aciInchPound.value(EquationB, in), aciInchPound.value(EquationC, in)
		if math.Abs(b-c) > 1e-10*b {
			t.Fatalf("b %.15g, c %.15g", b, c)
		}
	})
	near(t, "both at 70 °F", aciInchPound.value(EquationB, aciInput{rate: 7, warmth: 70}), 1050)
}

// Derived: 785 R = 1156 + 244 R, R = 1156/541 = 2.136783734 m/h, which is
// 7.010445 ft/h, not the 2.1 m/h of the SI table.
func TestSIEquationsCrossAbove2100MillimetresAnHour(t *testing.T) {
	const cross = 1156.0 / 541
	near(t, "crossing", cross, 2.136783734)
	nearBy(t, "crossing in ft/h", cross/foot, 7.010445, 1e-6)
	at := func(r float64) float64 {
		in := aciInput{rate: r, warmth: 20}
		return aciSI.value(EquationB, in) - aciSI.value(EquationC, in)
	}
	nearBy(t, "difference at the crossing", at(cross), 0, 1e-12)
	if at(2.1) >= 0 || at(2.2) <= 0 {
		t.Errorf("b − c is %g at 2.1 and %g at 2.2 m/h, want a change of sign from below", at(2.1), at(2.2))
	}
}

func drawFresh(t *rapid.T) Fresh {
	return Fresh{
		UnitWeight: units.UnitWeight(rapid.Float64Range(12, 40).Draw(t, "w")), Height: units.Length(rapid.Float64Range(0.05, 30).Draw(t, "h")),
		Rate: units.Rate(rapid.Float64Range(0.01, 50).Draw(t, "R") / hour), Temperature: units.Temperature(rapid.Float64Range(4, 40).Draw(t, "T")),
		Slump: units.Length(rapid.Float64Range(0.01, 0.3).Draw(t, "slump")), Element: Element(rapid.IntRange(1, 2).Draw(t, "element")),
		Vibration: Vibration(rapid.IntRange(1, 3).Draw(t, "vibration")), Binder: Binder(rapid.IntRange(1, 3).Draw(t, "binder")),
		Retarding: Retarding(rapid.IntRange(1, 2).Draw(t, "retarding")),
	}
}

var bothSystems = map[string]func(Fresh) (Lateral, error){"inch-pound": ACI347InchPound, "SI": ACI347SI}

func TestPressureLiesBetweenFloorAndLiquidHead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFresh(t)
		for name, pressure := range bothSystems {
			p := must(pressure(f))
			if p.Pressure > p.LiquidHead || p.Pressure < min(p.Floor, p.LiquidHead) {
				t.Fatalf("%s: %g outside floor %g and head %g", name, p.Pressure, p.Floor, p.LiquidHead)
			}
			if r := must(p.Envelope.Resultant()); r.Arm < f.Height/3*(1-1e-12) || r.Arm > f.Height/2 {
				t.Fatalf("%s: arm %g of height %g", name, r.Arm, f.Height)
			}
		}
	})
}

func TestFasterOrColderIsNeverLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFresh(t)
		faster, colder := f, f
		// A column keeps one equation; a wall in inch-pound goes from b to c where
		// they meet, and to the liquid head. In SI b is short of c below 2.137 m/h,
		// so a wall there gains in a step, and never loses.
		faster.Rate = min(faster.Rate*units.Rate(rapid.Float64Range(1, 3).Draw(t, "faster")), 50/hour)
		colder.Temperature = max(4, colder.Temperature-units.Temperature(rapid.Float64Range(0, 20).Draw(t, "colder")))
		for name, pressure := range bothSystems {
			p := must(pressure(f)).Pressure
			if q := must(pressure(faster)).Pressure; q < p*(1-1e-12) {
				t.Fatalf("%s: faster lowers %g to %g", name, p, q)
			}
			if q := must(pressure(colder)).Pressure; q < p*(1-1e-12) {
				t.Fatalf("%s: colder lowers %g to %g", name, p, q)
			}
		}
	})
}

func TestFloorAndHeadDoNotDependOnRateOrTemperature(t *testing.T) {
	low, lower := must(ACI347InchPound(inchPound(150, 8, 4, 90, 1))), must(ACI347InchPound(inchPound(150, 8, 2, 100, 1)))
	near(t, "at the floor", float64(lower.Pressure), float64(low.Pressure))
	high, higher := must(ACI347InchPound(inchPound(150, 3, 6, 50, 1))), must(ACI347InchPound(inchPound(150, 3, 14, 45, 1)))
	near(t, "at the head", float64(higher.Pressure), float64(high.Pressure))
}

// Derived: the resultant is the integral of the pressure, the arm its first
// moment; here summed over many slices.
func TestResultantIsTheIntegralOfThePressure(t *testing.T) {
	e := must(ACI347InchPound(inchPound(150, 16, 5, 70, 1))).Envelope
	const slices = 20000
	h, sum, moment := float64(e.Height), 0.0, 0.0
	for i := range slices {
		z := h * (float64(i) + 0.5) / slices
		p := float64(must(e.At(units.Length(z)))) * h / slices
		sum, moment = sum+p, moment+p*(h-z)
	}
	r := must(e.Resultant())
	nearBy(t, "force", float64(r.Force), sum, 1e-6*sum)
	nearBy(t, "arm", float64(r.Arm), moment/sum, 1e-6)
}

// Published: the lecture notebook, load on a crossing 10 in by 23 in, 1665 lb
// (read), and a tie at 22 in by 23 in, for which it takes a 4000 lb tie.
func TestTieAndCrossingLoads(t *testing.T) {
	p := fromPsf(1042.5)
	near(t, "crossing, lb", inPounds(must(TieLoad(p, inches(10), inches(23)))), 1665.104166667)
	near(t, "tie, lb", inPounds(must(TieLoad(p, inches(22), inches(23)))), 3663.229166667)
}

// Published: US Army EN5466 exam, answer choices 875 lb/ft and 1,458 lb/ft (read).
func TestStudAndWalerLoads(t *testing.T) {
	near(t, "stud, lb/ft", inPlf(must(MemberLoad(fromPsf(875), inches(12)))), 875)
	near(t, "waler, lb/ft", inPlf(must(MemberLoad(fromPsf(875), inches(20)))), 1458.333333333)
}

// Published: US Army EN5151 Part C, 137.14 (138) and 405 cf/h, plan area 92 sf;
// EN5466 p. 3-13, 1 cy per 10 min in a wall 40 ft by 2 ft: 2.025 ft/h (read;
// the rate is derived).
func TestDeliveryAndRiseRate(t *testing.T) {
	const cubicFoot = foot * foot * foot
	near(t, "16 cf in 7 min", float64(must(DeliveryOf(16*cubicFoot, 7*60, 1)))/cubicFoot, 137.142857143)
	near(t, "27 cf in 4 min", float64(must(DeliveryOf(27*cubicFoot, 4*60, 1)))/cubicFoot, 405)
	d := must(DeliveryOf(27*cubicFoot, 600, 1))
	near(t, "rise, ft/h", perHour(must(RiseRate(d, feet(40), feet(2))))/foot, 2.025)
	d = must(DeliveryOf(92*cubicFoot, hour, 1))
	near(t, "rise over 92 ft by 12 in, ft/h", perHour(must(RiseRate(d, feet(92), inches(12))))/foot, 1)
}

func TestFreshNeedsEveryChoice(t *testing.T) {
	good := inchPound(150, 12, 5, 70, 1)
	for name, change := range map[string]func(*Fresh){
		"unit weight": func(f *Fresh) { f.UnitWeight = 0 }, "height": func(f *Fresh) { f.Height = -1 },
		"rate": func(f *Fresh) { f.Rate = 0 }, "rate NaN": func(f *Fresh) { f.Rate = units.Rate(math.NaN()) },
		"temperature": func(f *Fresh) { f.Temperature = 2 }, "hot": func(f *Fresh) { f.Temperature = 41 },
		"slump": func(f *Fresh) { f.Slump = 0 }, "element": func(f *Fresh) { f.Element = 0 }, "vibration": func(f *Fresh) { f.Vibration = 0 },
		"binder": func(f *Fresh) { f.Binder = 0 }, "retarding": func(f *Fresh) { f.Retarding = 0 }, "element 9": func(f *Fresh) { f.Element = 9 },
	} {
		f := good
		change(&f)
		for system, pressure := range bothSystems {
			if p, err := pressure(f); !errors.Is(err, ErrRange) || p != (Lateral{}) {
				t.Errorf("%s, %s: %v, %v; want an error and nothing else", name, system, p, err)
			}
		}
	}
}
