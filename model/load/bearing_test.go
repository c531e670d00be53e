package load

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"boxwalk/model/units"
)

// Derived from the formula; the handbook form agrees (below).
func TestHertzVectors(t *testing.T) {
	for _, v := range vectors(t, "hertz", 3) {
		wheel := Elastic{inMPa(v.In["E1"]), v.In["n1"]}
		ground := Elastic{inMPa(v.In["E2"]), v.In["n2"]}
		c := must(LineContact(units.Force(v.In["F"]/1000), millimetres(v.In["R"]), millimetres(v.In["L"]), wheel, ground))
		near(t, v.ID+" E*", float64(c.Modulus)/mpa, v.out("Es"))
		near(t, v.ID+" a", float64(c.HalfWidth)*1000, v.out("a"))
		near(t, v.ID+" pmax", float64(c.Peak)/mpa, v.out("pmax"))
	}
}

// Carvill, Mechanical Engineer's Data Handbook, p. 52 (read): for one material
// w = √(32 F (1 − ν²) r/(π L E)), pmax = 4F/(π w L).
func TestHertzAgreesWithTheHandbookForm(t *testing.T) {
	steel := Elastic{inMPa(210000), 0.3}
	c := must(LineContact(20, 0.1, 0.05, steel, steel))
	w := math.Sqrt(32 * 20000 * (1 - 0.09) * 100 / (math.Pi * 50 * 210000))
	near(t, "w", w, 1.328743329)
	near(t, "2a", 2000*float64(c.HalfWidth), w)
	near(t, "pmax", float64(c.Peak)/mpa, 4*20000/(math.Pi*w*50))
	near(t, "mean", float64(c.Mean)*4/math.Pi, float64(c.Peak))
}

// ACI 318: 4700 √f'c (memory).
func TestConcreteModulus(t *testing.T) {
	near(t, "20 MPa", float64(must(ConcreteOf(inMPa(20))).Modulus)/mpa, 21019.038988)
	near(t, "10 MPa", float64(must(ConcreteOf(inMPa(10))).Modulus)/mpa, 14862.705003)
	near(t, "steel", float64(Steel().Modulus)/mpa, 200000)
}

// From memory: ACI 318-19 table 22.8.3.2; derived numbers.
func TestBearingStrengthFromMemory(t *testing.T) {
	a := 0.1 * 0.06
	near(t, "A2 = A1, kN", float64(must(BearingStrength(inMPa(10), a, a, PhiACI))), 33.15)
	near(t, "A2 = 4 A1, kN", float64(must(BearingStrength(inMPa(10), a, 4*a, PhiACI))), 66.3)
	near(t, "A2 = 9 A1, capped, kN", float64(must(BearingStrength(inMPa(10), a, 9*a, PhiACI))), 66.3)
	psi := units.Pressure(si(units.KindPressure, 1500, "psi"))
	b := float64(inches(6) * inches(3))
	near(t, "1500 psi, lb", inPounds(must(BearingStrength(psi, b, b, PhiACI))), 14917.5)
	near(t, "1500 psi, 4 A1, lb", inPounds(must(BearingStrength(psi, b, 4*b, PhiACI))), 29835)
	near(t, "AASHTO, kN", float64(must(BearingStrength(inMPa(10), a, a, PhiAASHTO))), 35.7)
}

func TestSupportingAreaIsBoundedByTheNearestEdgeAndTheDepth(t *testing.T) {
	rows := []struct {
		p    Patch
		want float64 // A2/A1
	}{
		{Patch{0.1, 0.06, 1, 1, 0.3}, 13 * 13},       // depth: 1 + 4·300/100
		{Patch{0.1, 0.06, 0.05, 1, 0.3}, 4},          // edge along: 1 + 2·50/100
		{Patch{0.1, 0.06, 1, 0.015, 0.3}, 1.5 * 1.5}, // edge across: 1 + 2·15/60
		{Patch{0.1, 0.06, 0, 1, 0.3}, 1},             // at the edge
		{Patch{Along: 0.1, Across: 0.06}, 1},         // nothing stated
		{Patch{0.2, 0.2, 5, 5, 0}, 1},                // no depth
	}
	for i, r := range rows {
		a1, a2, err := r.p.Areas()
		if err != nil {
			t.Fatalf("row %d: %v", i, err)
		}
		near(t, "A1", a1, float64(r.p.Along*r.p.Across))
		near(t, "A2/A1", a2/a1, r.want)
	}
}

// worth is an invert whose age is worth so many days at 20 °C: at 4000/13.65 - 273 = 20.0403 °C
// an hour counts as one (B.10 has 0.998 at 20 °C).
func worth(fck units.Pressure, c CementClass, age float64) Invert {
	return Invert{fck, c, daysOf(age), Steady(units.Temperature(4000/13.65-273), daysOf(age))}
}

// Derived: 24 kN by 1.6 on 100 x 60 mm, invert C30 class N worth 7 days, 21.594
// MPa: 0.65·0.85·21594.429757·0.006 = 71.586 kN at the edge.
func TestTreadOnYoungInvertByAgeAndClass(t *testing.T) {
	patch := Patch{Along: 0.1, Across: 0.06}
	v := worth(inMPa(30), ClassN, 7)
	b := must(patch.OnConcrete(24, must(v.StrengthNow()), ACIBasis()))
	near(t, "strength", float64(b.Strength)/mpa, 21.594429757)
	nearBy(t, "capacity", float64(b.Capacity), 0.65*0.85*21594.429757*0.006, 1e-6)
	near(t, "demand", float64(b.Demand), 38.4)
	near(t, "pressure", float64(b.Pressure), 4000)
	near(t, "use", b.Use, 38.4/float64(b.Capacity))
	if _, err := worth(inMPa(30), ClassN, 2).StrengthNow(); !errors.Is(err, ErrRange) {
		t.Errorf("at 2 days: %v; want to be sent to tests", err)
	}
	// 7 d at 2 °C are worth 2.86 d
	if _, err := (Invert{inMPa(30), ClassN, daysOf(7), Steady(2, daysOf(7))}).StrengthNow(); !errors.Is(err, ErrRange) {
		t.Errorf("at 7 days of 2 °C: %v; want to be sent to tests", err)
	}
	tested := must(patch.OnConcrete(24, inMPa(10), ACIBasis()))
	near(t, "by cylinders", float64(tested.Capacity), 33.15)
}

func TestOlderInvertAndFasterCementCarryNoLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		patch := Patch{units.Length(rapid.Float64Range(0.005, 0.3).Draw(t, "l")), units.Length(rapid.Float64Range(0.02, 0.3).Draw(t, "w")), 0.2, 0.2, 0.3}
		age := rapid.Float64Range(3.1, 27).Draw(t, "age")
		use := func(c CementClass, age float64) float64 {
			return must(patch.OnConcrete(10, must(worth(inMPa(30), c, age).StrengthNow()), ACIBasis())).Use
		}
		if use(ClassN, age+1) > use(ClassN, age) || use(ClassR, age) > use(ClassN, age) || use(ClassN, age) > use(ClassS, age) {
			t.Fatal("older or faster concrete is used more")
		}
	})
}

// A steel wheel's contact is so narrow that its bearing is many times less than
// the load: a rail or plate is needed, as the reference says.
func TestNarrowSteelWheelOnYoungConcreteFails(t *testing.T) {
	ground := must(ConcreteOf(inMPa(20)))
	c := must(LineContact(20, 0.1, 0.05, Steel(), ground))
	p := TreadPatch(c, 0.05)
	near(t, "contact, mm", float64(p.Along)*1000, 2*1.599321783)
	if b := must(p.OnConcrete(20, inMPa(20), ACIBasis())); b.Use < 5 {
		t.Errorf("use %g", b.Use)
	}
}

func TestContactTooWideForTheTheoryIsRefused(t *testing.T) {
	soft := Elastic{inMPa(1), 0.5}
	if c, err := LineContact(100, 0.1, 0.05, soft, soft); !errors.Is(err, ErrRange) || c != (Contact{}) {
		t.Errorf("%v, %v", c, err)
	}
}
