package units

import (
	"math"
	"regexp"
	"testing"

	"pgregory.net/rapid"
)

func TestFeetInchesAreTheNearestSixteenth(t *testing.T) {
	for inches, want := range map[float64]string{
		126.5:            `10'-6 1/2"`,
		120:              `10'-0"`,
		6.5:              `6 1/2"`,
		0:                `0"`,
		1.0 / 16:         `1/16"`,
		-126.5:           `-10'-6 1/2"`,
		-0.01:            `0"`,
		11.98:            `1'-0"`,
		12 - 1.0/16:      `11 15/16"`,
		5 + 3.0/8 + 0.02: `5 3/8"`,
	} {
		if got := FeetInches(Length(inches * 0.0254)); got != want {
			t.Errorf("%v in: got %s, want %s", inches, got, want)
		}
	}
}

func TestTextShowsTheUnitsOfTheSystem(t *testing.T) {
	for _, c := range []struct {
		kind             Kind
		v                float64
		metric, imperial string
	}{
		{KindLength, 0.15, "150 mm", "5.90551181 in"},
		{KindLength, 3.048, "3048 mm", `10'-0"`},
		{KindLength, 33.5, "33.5 m", "109.908136 ft"},
		{KindStation, 1234.5, "1+234.5", "40+50.2"},
		{KindStation, -10, "-0+010", "-0+32.81"},
		{KindStation, 30.48, "0+030.48", "1+00"},
		{KindSlope, 0.018, "1.8 %", "1.8 %"},
		{KindAngle, math.Pi / 9, "20 deg", "20 deg"},
		{KindForce, 18, "18 kN", "4.04656098 kip"},
		{KindDuration, 72000, "20 h", "20 h"},
		{KindDuration, 432000, "5 d", "5 d"},
		{KindTemperature, 15, "15 degC", "59 degF"},
		{KindPressure, 30000, "30 MPa", "4351.13213 psi"},
		{KindPressure, 50, "50 kPa", "7.25188689 psi"},
		{KindNumber, 0.02, "0.02", "0.02"},
		{KindLength, math.NaN(), "not a number", "not a number"},
	} {
		if got := c.kind.Text(c.v, Metric); got != c.metric {
			t.Errorf("%v %v metric: got %s, want %s", c.kind, c.v, got, c.metric)
		}
		if got := c.kind.Text(c.v, Imperial); got != c.imperial {
			t.Errorf("%v %v imperial: got %s, want %s", c.kind, c.v, got, c.imperial)
		}
	}
}

func TestFixedDecimalsNeverShowMinusZero(t *testing.T) {
	for want, got := range map[string]string{
		"not a number": FeetInches(Length(math.Inf(1))),
		"0.0":          Decimal(-0.01, 1),
		"3050.0":       Decimal(3050, 1),
		"-0.1":         Decimal(-0.1, 1),
		"3.050":        Decimal(3.05, 3),
	} {
		if got != want {
			t.Errorf("got %s, want %s", got, want)
		}
	}
}

func TestSizeTextReadsBack(t *testing.T) {
	for _, s := range []System{Metric, Imperial} {
		size := Size3{0.2032, 0.2032, 0.0254}
		got, err := ParseSize3(size.Text(s), s, "")
		if err != nil || math.Abs(float64(got.X-size.X)) > 1e-9 || math.Abs(float64(got.Z-size.Z)) > 1e-9 {
			t.Errorf("%v: %s reads back as %v, %v", s, size.Text(s), got, err)
		}
	}
}

// within draws a value of the kind, small ones more often.
func within(t *rapid.T, k Kind) float64 {
	least, most := k.Bounds()
	v := rapid.Float64Range(least, most).Draw(t, "value")
	return v * math.Pow(10, -float64(rapid.IntRange(0, 6).Draw(t, "smaller")))
}

func TestTextOfAnyValueReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(everyKind()).Draw(t, "kind")
		s := rapid.SampledFrom([]System{Metric, Imperial}).Draw(t, "system")
		v := within(t, k)
		text := k.Text(v, s)
		got, err := Parse(k, text, s)
		if err != nil {
			if least, most := k.Bounds(); v < least*0.999 || v > most*0.999 || math.Abs(v) < 1e-11 {
				t.Skip("rounding past the edge of the range")
			}
			t.Fatalf("%v: %s does not read back: %v", k, text, err)
		}
		step := 1e-7 * math.Max(math.Abs(v), 1)
		if k == KindStation {
			step = 0.0016 // half of 0.01 ft, and half of 1 mm
		}
		if math.Abs(got-v) > step {
			t.Fatalf("%v: %v is written %s and read %v", k, v, text, got)
		}
		if again := k.Text(got, s); again != text {
			t.Fatalf("%v: %s is read and written as %s", k, text, again)
		}
	})
}

func TestFeetInchesReadBackWithinHalfASixteenth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-2000, 2000).Draw(t, "metres")
		got, err := Parse(KindLength, FeetInches(Length(v)), Metric)
		if err != nil || math.Abs(got-v) > sixteenth/2+1e-9 {
			t.Fatalf("%v m: %s reads back as %v, %v", v, FeetInches(Length(v)), got, err)
		}
	})
}

func TestPatternAcceptsWhatParseAcceptsAndRefusesOtherKinds(t *testing.T) {
	for _, c := range known {
		if _, err := Parse(c.kind, c.text, c.system); err != nil {
			continue
		}
		if !regexp.MustCompile(c.kind.Pattern()).MatchString(c.text) {
			t.Errorf("%v: the pattern refuses %q", c.kind, c.text)
		}
	}
	for _, c := range []struct {
		kind Kind
		text string
	}{
		{KindLength, "18 kN"}, {KindForce, "18 kg"}, {KindSlope, "2 deg"}, {KindAngle, "1.8 %"},
		{KindNumber, "2 %"}, {KindLength, "five"}, {KindLength, "0+026"}, {KindPressure, ""},
	} {
		if regexp.MustCompile(c.kind.Pattern()).MatchString(c.text) {
			t.Errorf("%v: the pattern accepts %q", c.kind, c.text)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, c := range known {
		f.Add(uint8(c.kind), c.text)
	}
	for _, c := range refused {
		f.Add(uint8(c.kind), c.text)
	}
	f.Add(uint8(KindLength), "200 x 200 x 20 mm")
	f.Fuzz(func(t *testing.T, kind uint8, text string) {
		k := Kind(int(kind) % len(kinds))
		for _, s := range []System{Metric, Imperial} {
			checkParse(t, k, text, s)
		}
		if got, err := ParseSize3(text, Metric, "mm"); err == nil {
			if !regexp.MustCompile(SizePattern(3)).MatchString(text) {
				t.Fatalf("the pattern refuses the size %q = %v", text, got)
			}
		}
	})
}

// checkParse holds what Parse promises for any text.
func checkParse(t *testing.T, k Kind, text string, s System) {
	v, err := Parse(k, text, s)
	if err != nil {
		if _, err := Parse(k, err.(*Error).Fix, s); err != nil {
			t.Fatalf("%v %q: the fix does not work: %v", k, text, err)
		}
		return
	}
	least, most := k.Bounds()
	if !(v >= least && v <= most) {
		t.Fatalf("%v %q: %v is out of range", k, text, v)
	}
	if !regexp.MustCompile(k.Pattern()).MatchString(text) {
		t.Fatalf("%v: the pattern refuses %q = %v", k, text, v)
	}
}

// everyKind is all kinds in a fixed order.
func everyKind() []Kind {
	all := make([]Kind, len(kinds))
	for i := range all {
		all[i] = Kind(i)
	}
	return all
}
