package units

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
)

// knownText is a text and its value in SI; NaN for one that is refused.
type knownText struct {
	kind   Kind
	system System
	text   string
	want   float64
}

// known holds texts whose value follows from the definition of the unit.
var known = []knownText{
	{KindLength, Metric, "3.05 m", 3.05},
	{KindLength, Metric, "150 mm", 0.15},
	{KindLength, Metric, "150mm", 0.15},
	{KindLength, Metric, "15 cm", 0.15},
	{KindLength, Metric, "-20 mm", -0.02},
	{KindLength, Metric, "−20 mm", -0.02},
	{KindLength, Metric, "  3   m ", 3},
	{KindLength, Metric, "3", 3},
	{KindLength, Metric, ".5", 0.5},
	{KindLength, Metric, "2e-1 m", 0.2},
	{KindLength, Imperial, "3", 0.9144},
	{KindLength, Metric, "10'", 3.048},
	{KindLength, Metric, `10'-6 1/2"`, 126.5 * 0.0254},
	{KindLength, Metric, `10' 6-1/2"`, 126.5 * 0.0254},
	{KindLength, Metric, `10'6.5"`, 126.5 * 0.0254},
	{KindLength, Metric, `10’-6½"`, math.NaN()},
	{KindLength, Metric, `10′-6″`, 126 * 0.0254},
	{KindLength, Metric, "10 ft 6 in", 126 * 0.0254},
	{KindLength, Metric, "10.5 ft", 126 * 0.0254},
	{KindLength, Metric, `6 1/2"`, 6.5 * 0.0254},
	{KindLength, Metric, `6-1/2 in`, 6.5 * 0.0254},
	{KindLength, Metric, `1/16"`, 0.0254 / 16},
	{KindLength, Metric, `-10'-6"`, -126 * 0.0254},
	{KindLength, Metric, `0'-6"`, 6 * 0.0254},
	{KindCoordinate, Metric, "6500000 m", 6500000},
	{KindStation, Metric, "0+026", 26},
	{KindStation, Metric, "0+000", 0},
	{KindStation, Metric, "1+234.5", 1234.5},
	{KindStation, Metric, "-0+010", -10},
	{KindStation, Metric, "33.5 m", 33.5},
	{KindStation, Imperial, "1+00", 30.48},
	{KindStation, Imperial, "12+34.5", 1234.5 * 0.3048},
	{KindAngle, Metric, "20 deg", math.Pi / 9},
	{KindAngle, Metric, "20°", math.Pi / 9},
	{KindAngle, Metric, "20", math.Pi / 9},
	{KindAngle, Metric, `20°30'`, 20.5 * math.Pi / 180},
	{KindAngle, Metric, `20° 30' 36"`, 20.51 * math.Pi / 180},
	{KindAngle, Metric, "0.5 rad", 0.5},
	{KindAngle, Metric, "100 gon", math.Pi / 2},
	{KindSlope, Metric, "1.8 %", 0.018},
	{KindSlope, Metric, "1.8", 0.018},
	{KindSlope, Metric, "1:20", 0.05},
	{KindSlope, Metric, "-1 : 20", -0.05},
	{KindSlope, Metric, "1 in 20", 0.05},
	{KindSlope, Metric, "1/4 in/ft", 1.0 / 48},
	{KindSlope, Metric, "18 mm/m", 0.018},
	{KindForce, Metric, "18 kN", 18},
	{KindForce, Metric, "18000 N", 18},
	{KindForce, Metric, "4 kip", 4 * 4.4482216152605},
	{KindForce, Metric, "4000 lb", 4 * 4.4482216152605},
	{KindForce, Imperial, "4", 4 * 4.4482216152605},
	{KindMass, Metric, "250 kg", 250},
	{KindMass, Metric, "2 t", 2000},
	{KindMass, Imperial, "100", 45.359237},
	{KindDuration, Metric, "5 d", 432000},
	{KindDuration, Metric, "20 h", 72000},
	{KindDuration, Metric, "20", 72000},
	{KindDuration, Metric, "90 min", 5400},
	{KindUnitWeight, Metric, "24 kN/m3", 24},
	{KindUnitWeight, Metric, "24 kN/m³", 24},
	// 1 pcf = 4.4482216152605 N / 0.028316846592 m3 = 157.087463846 N/m3
	{KindUnitWeight, Metric, "140 pcf", 140 * 0.157087463846246},
	{KindTemperature, Metric, "65 degF", 33 * 5.0 / 9},
	{KindTemperature, Metric, "-40 °F", -40},
	{KindTemperature, Metric, "-5 degC", -5},
	{KindRate, Metric, "3600 ft/h", 0.3048},
	{KindTemperature, Metric, "15", 15},
	{KindTemperature, Imperial, "32", 0},
	{KindPressure, Metric, "30 MPa", 30000},
	{KindPressure, Metric, "30", 30000},
	{KindPressure, Metric, "30 N/mm2", 30000},
	// 1 psi = 6894.757293168361 Pa (NIST SP 811 gives 6.894757 E+03)
	{KindPressure, Metric, "4000 psi", 4000 * 6.894757293168361},
	{KindPressure, Imperial, "4000", 4000 * 6.894757293168361},
	{KindPressure, Metric, "144 psf", 6.894757293168361},
	{KindRate, Metric, "1.5 m/h", 1.5 / 3600},
	{KindRate, Metric, "1.5", 1.5 / 3600},
	{KindRate, Imperial, "5", 5 * 0.3048 / 3600},
	{KindLength, Metric, "2 km", 2000},
	{KindSlope, Metric, "0.02 m/m", 0.02},
	{KindSlope, Metric, "18 ‰", 0.018},
	{KindForce, Metric, "0.5 MN", 500},
	{KindForce, Metric, "1000 lbf", 4.4482216152605},
	{KindMass, Metric, "500 g", 0.5},
	{KindMass, Metric, "100 lb", 45.359237},
	{KindDuration, Metric, "30 s", 30},
	{KindDuration, Metric, "2 weeks", 1209600},
	{KindUnitWeight, Metric, "24000 N/m3", 24},
	{KindPressure, Metric, "1 ksi", 6894.757293168361},
	{KindPressure, Metric, "0.144 ksf", 6.894757293168361},
	{KindPressure, Metric, "200 GPa", 2e8},
	{KindPressure, Metric, "1 bar", 100},
	{KindPressure, Metric, "50 kN/m2", 50},
	{KindMoment, Metric, "12 kNm", 12},
	{KindMoment, Metric, "12", 12},
	{KindMoment, Metric, "1500 Nm", 1.5},
	{KindMoment, Metric, "1 kip-ft", 1.3558179483314004},
	{KindMoment, Imperial, "1", 1.3558179483314004},
	{KindMoment, Metric, "1000 lb-ft", 1.3558179483314004},
	{KindMoment, Metric, "12 kip-in", 1.3558179483314004},
	{KindArea, Metric, "12.5 cm2", 12.5e-4},
	{KindArea, Metric, "1250 mm2", 12.5e-4},
	{KindArea, Metric, "0.5 m2", 0.5},
	{KindArea, Metric, "1 in2", 6.4516e-4},
	{KindInertia, Metric, "850 cm4", 850e-8},
	{KindInertia, Metric, "8500000 mm4", 850e-8},
	{KindInertia, Metric, "0.001 m4", 1e-3},
	{KindInertia, Metric, "1 in4", 41.62314256e-8},
	{KindPressure, Metric, "500 Pa", 0.5},
	{KindRate, Metric, "0.5 m/s", 0.5},
	{KindRate, Metric, "6 m/min", 0.1},
	{KindRate, Metric, "20 mm/s", 0.02},
	{KindRate, Metric, "600 mm/min", 0.01},
	{KindRate, Metric, "1500 mm/h", 1.5 / 3600},
	{KindRate, Metric, "1 ft/s", 0.3048},
	{KindRate, Metric, "60 ft/min", 0.3048},
	{KindRate, Metric, "12 in/h", 0.3048 / 3600},
	{KindNumber, Metric, "0.02", 0.02},
	{KindNumber, Metric, "2", 2},
}

func TestTextsHaveTheValueOfTheirUnit(t *testing.T) {
	for _, c := range known {
		got, err := Parse(c.kind, c.text, c.system)
		if math.IsNaN(c.want) {
			if err == nil {
				t.Errorf("%v %q: got %v, want an error", c.kind, c.text, got)
			}
			continue
		}
		if err != nil {
			t.Errorf("%v %q: %v", c.kind, c.text, err)
		} else if math.Abs(got-c.want) > 1e-14*math.Max(1, math.Abs(c.want)) {
			t.Errorf("%v %q: got %.17g, want %.17g", c.kind, c.text, got, c.want)
		}
	}
}

func TestDecimalMillimetresAreTheNearestNumber(t *testing.T) {
	for mm, want := range map[string]float64{"150 mm": 0.15, "10 mm": 0.01, "330.1 mm": 0.3301} {
		if got, err := Parse(KindLength, mm, Metric); err != nil || got != want {
			t.Errorf("%s: got %v, %v; want exactly %v", mm, got, err, want)
		}
	}
}

// refused holds texts that must not be read, with a word of the reason and the
// fix offered.
var refused = []struct {
	kind     Kind
	system   System
	text     string
	why, fix string
}{
	{KindLength, Metric, "", "empty", "150 mm"},
	{KindLength, Metric, "2,5 m", "comma", "2.5 m"},
	{KindLength, Metric, "2,500 mm", "comma", "2500 mm"},
	{KindLength, Metric, "2,500.5 mm", "comma", "2500.5 mm"},
	{KindLength, Metric, "1 234.5 m", "unit", "150 mm"},
	{KindLength, Metric, "18 kN", "is a force (kN); a length is expected", "150 mm"},
	{KindLength, Imperial, "18 kN", "is a force (kN); a length is expected", `6 1/2"`},
	{KindForce, Metric, "18 kg", "is a mass (kg); a force is expected", "18 kN"},
	{KindLength, Metric, "18 lb", "a force or a mass (lb)", "150 mm"},
	{KindForce, Metric, "18 KN", "capitals matter", "18 kN"},
	{KindForce, Metric, `10'-6"`, "is a length; a force is expected", "18 kN"},
	{KindLength, Metric, "1:20", "is a slope", "150 mm"},
	{KindSlope, Metric, "2 deg", "is an angle", "1.8 %"},
	{KindSlope, Metric, "1:0", "run of zero", "1.8 %"},
	{KindUnitWeight, Metric, "2400 kg/m3", "is a density", "23.54 kN/m3"},
	{KindLength, Metric, "0+026", "is a station", "150 mm"},
	{KindStation, Metric, "0+26", "three digits", "0+026"},
	{KindStation, Imperial, "0+026", "two digits", "1+00"},
	{KindLength, Metric, "NaN", "not finite", "150 mm"},
	{KindLength, Metric, ".inf", "not finite", "150 mm"},
	{KindLength, Metric, "-Inf", "not finite", "150 mm"},
	{KindLength, Metric, "1e308", "above 100000 m", "150 mm"},
	{KindLength, Metric, "1e999", "too large", "150 mm"},
	{KindLength, Metric, "-101 km", "below -100000 m", "150 mm"},
	{KindLength, Metric, "1e-300 m", "too close to zero", "150 mm"},
	{KindLength, Metric, "0x10", "unit", "150 mm"},
	{KindLength, Metric, "1_000", "unit", "150 mm"},
	{KindLength, Metric, "five m", "is not a length", "150 mm"},
	{KindLength, Metric, "5 furlong", "no unit that is known for a length (m, mm", "150 mm"},
	{KindLength, Metric, `10'-14"`, "12 inches or more", "150 mm"},
	{KindLength, Metric, `10.5'-3"`, "part of a foot", "150 mm"},
	{KindLength, Metric, `6 3/2"`, "fraction of one or more", "150 mm"},
	{KindLength, Metric, `1/0"`, "divides by zero", "150 mm"},
	{KindLength, Metric, `10'-6`, "unit", "150 mm"},
	{KindAngle, Metric, `20°75'`, "60 minutes", "20 deg"},
	{KindNumber, Metric, "2 %", "pure number is expected", "0.02"},
	{KindNumber, Metric, "2 m", "pure number is expected", "2"},
	{KindMass, Metric, "-5 kg", "below 0 kg", "250 kg"},
	{KindDuration, Metric, "20 years", "unit", "20 h"},
	{KindTemperature, Metric, "700 degC", "above 200 degC", "15 degC"},
	{KindLength, Metric, strings.Repeat("1", 65), "too long", "150 mm"},
}

func TestWrongTextsAreRefusedWithReasonAndFix(t *testing.T) {
	for _, c := range refused {
		got, err := Parse(c.kind, c.text, c.system)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%v %q: read as %v, want an error", c.kind, c.text, got)
			continue
		}
		if !strings.Contains(e.Why, c.why) || e.Fix != c.fix {
			t.Errorf("%v %q: why %q fix %q\n want %q and %q", c.kind, c.text, e.Why, e.Fix, c.why, c.fix)
		}
		if _, err := Parse(c.kind, e.Fix, c.system); err != nil {
			t.Errorf("%v %q: the fix %q does not work: %v", c.kind, c.text, e.Fix, err)
		}
	}
}

func TestExamplesAndBareUnitsOfEveryKindWork(t *testing.T) {
	for _, k := range everyKind() {
		for _, s := range []System{Metric, Imperial} {
			if _, err := Parse(k, k.Example(s), s); err != nil {
				t.Errorf("%v: example of the %v system: %v", k, s, err)
			}
			bare, err1 := Parse(k, "1", s)
			named, err2 := Parse(k, "1 "+k.BareUnit(s), s)
			if err1 != nil || err2 != nil || bare != named {
				t.Errorf("%v %v: 1 is %v (%v), 1 %s is %v (%v)", k, s, bare, err1, k.BareUnit(s), named, err2)
			}
		}
	}
}

func TestBareNumberTakesTheUnitOfTheKey(t *testing.T) {
	got, err := ParseBare(KindLength, "25", Metric, "mm")
	if err != nil || got != 0.025 {
		t.Errorf("25 with unit mm: got %v, %v", got, err)
	}
	got, err = ParseBare(KindLength, "25", Imperial, Counterpart("mm", Imperial))
	if err != nil || math.Abs(got-0.635) > 1e-15 {
		t.Errorf("25 with unit in: got %v, %v", got, err)
	}
	if _, err = ParseBare(KindLength, "25 mm", Imperial, "in"); err != nil {
		t.Errorf("a written unit wins: %v", err)
	}
}

func TestEveryUnitHasAKnownAnswer(t *testing.T) {
	for _, u := range unitTable {
		if u.dim == dimDensity {
			continue // read by no kind
		}
		names := strings.Fields(u.names)
		if !slices.ContainsFunc(known, func(c knownText) bool {
			return kinds[c.kind].dim == u.dim && slices.ContainsFunc(names, func(name string) bool {
				return strings.TrimLeft(c.text, "+-−0123456789./ ") == name
			})
		}) {
			t.Errorf("no known answer for %s", names[0])
		}
	}
}

func TestEveryCounterpartMeasuresTheSameThing(t *testing.T) {
	for metric, imperial := range counterparts {
		for _, u := range unitsByName[metric] {
			if _, ok := unitFor(u.dim, imperial); !ok {
				t.Errorf("%s and %s measure different things", metric, imperial)
			}
		}
	}
}

func TestSizesShareTheirUnits(t *testing.T) {
	near := func(a, b Length) bool { return math.Abs(float64(a-b)) < 1e-15 }
	for text, want := range map[string]Size2{
		"200 x 150 mm":    {0.2, 0.15},
		"200x150mm":       {0.2, 0.15},
		"200 mm × 150 mm": {0.2, 0.15},
		"200 mm x 150":    {0.2, 0.15},
		"0.2 m x 150 mm":  {0.2, 0.15},
		"8 x 8 in":        {0.2032, 0.2032},
		`8" x 8"`:         {0.2032, 0.2032},
		`8 x 6 1/2"`:      {0.2032, 0.1651},
		`1'-6" x 2'`:      {0.4572, 0.6096},
		"3 x 2":           {3, 2},
	} {
		got, err := ParseSize2(text, Metric, "")
		if err != nil || !near(got.X, want.X) || !near(got.Y, want.Y) {
			t.Errorf("%q: got %v, %v; want %v", text, got, err, want)
		}
	}
	got, err := ParseSize3("200 x 200 x 20 mm", Metric, "")
	if err != nil || got != (Size3{0.2, 0.2, 0.02}) {
		t.Errorf("plate: got %v, %v", got, err)
	}
	if got, err := ParseSize2("200 x 150", Metric, "mm"); err != nil || got != (Size2{0.2, 0.15}) {
		t.Errorf("bare mm: got %v, %v", got, err)
	}
}

func TestWrongSizesAreRefused(t *testing.T) {
	for text, why := range map[string]string{
		"200 mm":                         "one length",
		"200 x 200 x 2 mm":               "3 lengths",
		"200 x kN":                       "is not a length",
		"200 x 18 kN":                    "is a force",
		"200 x ":                         "empty",
		"":                               "one length",
		"2,5 x 2 m":                      "comma",
		strings.Repeat("1 x ", 40) + "1": "too long",
	} {
		_, err := ParseSize2(text, Metric, "mm")
		var e *Error
		if !errors.As(err, &e) || !strings.Contains(e.Why, why) {
			t.Errorf("%q: got %v, want %q", text, err, why)
		}
	}
}

func TestMeantUnitIsTheFirstThatFits(t *testing.T) {
	thin := func(v float64) bool { return v > 0 && v < 5 }
	for _, c := range []struct {
		text   string
		system System
		want   string
	}{
		{"300", Metric, "300 mm"},
		{"9", Imperial, "9 in"},
		{"300 m", Metric, ""},
		{"-3", Metric, ""},
	} {
		if got := Meant(KindLength, c.text, c.system, thin); got != c.want {
			t.Errorf("%s: got %q, want %q", c.text, got, c.want)
		}
	}
}
