package frame

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"boxwalk/model/load"
	"boxwalk/model/units"
)

func TestSectionsByHand(t *testing.T) {
	s := must(RoundTube(0.1, 0.01)) // π/4 (10² − 8²) = 28.27433388 cm², π/64 (10⁴ − 8⁴) = 289.81192 cm⁴
	nearTo(t, "A", s.Area*1e4, 9*math.Pi)
	nearTo(t, "I", s.Inertia*1e8, 5904*math.Pi/64)
	nearTo(t, "W", s.Modulus()*1e6, 5904*math.Pi/64/5)
	s = must(Rod(0.02))
	nearTo(t, "A", s.Area*1e4, math.Pi)
	nearTo(t, "I", s.Inertia*1e8, math.Pi/4)
	nearTo(t, "i", float64(s.Radius()), 0.005) // d/4
	s = must(BoxTube(0.1, 0.06, 0.005))        // 10 x 6 − 9 x 5 = 15 cm²; (6 x 1000 − 5 x 729)/12 = 196.25 cm⁴
	nearTo(t, "A", s.Area*1e4, 15)
	nearTo(t, "I", s.Inertia*1e8, 196.25)
}

// Published (a calculator's equation library, manualslib.com 277138 p. 430,
// read): L = 7.3152 m, K = 0.7, r = 4.1148 cm, A = 53.0967 cm², E =
// 199947961.502 kPa: 676.6019 kN, 127428.2444 kPa. Its I, 8990598.7930 mm⁴, is
// not quite A r²; its answers are those of r.
func TestPublishedElasticBuckling(t *testing.T) {
	b := Bar{Section{53.0967e-4, 53.0967e-4 * 0.041148 * 0.041148, 0.08}, 7.3152, 0.7, 199947961.502, 345e3} // the yield stress is ours
	r := must(b.Euler())
	nearBy(t, "load", float64(r.Load), 676.6019, 1e-3)
	nearBy(t, "stress", float64(r.Load)/b.Area, 127428.2444, 0.1)
	nearBy(t, "slenderness", r.Slenderness, 0.7*7.3152/0.041148, 1e-3)
	nearTo(t, "least", r.Least, math.Sqrt(2*math.Pi*math.Pi*199947961.502/345e3))
}

// Published (same page): an eccentric column of L = 6.6542 m, A = 187.9351 cm²,
// I = 135259652.16 mm⁴, E = 206842718.795 kPa, c = 15.24 cm, 1908.2571 kN at
// 1.1806 cm: 140853.0970 kPa.
func TestPublishedEccentricColumn(t *testing.T) {
	b := Bar{Section{187.9351e-4, 135259652.16e-12, 0.1524}, 6.6542, 1, 206842718.795, 250e3}
	nearBy(t, "stress", float64(must(b.EdgeStress(1908.2571, 0.011806))), 140853.0970, 2)
}

// A textbook's tube, from memory: 24 ft, 3 in and 2.75 in radius, E = 29000 ksi:
// 64.5 kip.
func TestTextbookTube(t *testing.T) {
	const inch, kip, ksi = 0.0254, 4.4482216152605, 6894.757293168
	tube := must(RoundTube(6*inch, 0.25*inch))
	r := must(Bar{tube, 24 * 12 * inch, 1, 29000 * ksi, 36 * ksi}.Euler())
	nearBy(t, "load", float64(r.Load)/kip, 64.5, 0.05)
}

// A brace of 60.3 x 4 tube, 1.2 m long, has a slenderness of 60 and stands at
// 1.6 times the yield stress by Euler: that is no load, and it is refused.
func TestEulerRefusesWhatIsNotSlender(t *testing.T) {
	b := Bar{must(RoundTube(0.0603, 0.004)), 1.2, 1, 210e6, 355e3}
	if b.euler()/b.Area < 1.5*355e3 {
		t.Fatal("the example is no example")
	}
	if _, err := b.Euler(); !errors.Is(err, load.ErrRange) {
		t.Errorf("error %v", err)
	}
	b.Length = 2.2 // slenderness 110, at least 108
	must(b.Euler())
}

func TestNearAxialBarReachesYieldJustBelowEuler(t *testing.T) {
	b := Bar{must(RoundTube(0.0603, 0.004)), 6, 1, 210e6, 355e3}
	got := must(b.AtStress(355e3, 0.006))
	if ratio := float64(got.Load) / b.euler(); ratio < 0.7 || ratio >= 1 {
		t.Errorf("%v of Euler's load", ratio)
	}
}

func TestShortBarIsBendingAndCompression(t *testing.T) {
	// secant is 1 at no length: N = σ A/(1 + e c/i²); rod 40 mm, e = 10: e c/i² = 2
	b := Bar{must(Rod(0.04)), 0.001, 1, 210e6, 355e3}
	nearBy(t, "load", float64(must(b.AtStress(300e3, 0.01)).Load), 300e3*math.Pi*4e-4/3, 1e-3)
}

func TestStressIsThatOfItsLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(least, most float64, what string) float64 { return rapid.Float64Range(least, most).Draw(t, what) }
		b := Bar{must(Rod(units.Length(number(0.02, 0.2, "rod")))), units.Length(number(0.1, 5, "length")), number(0.5, 2, "K"), 210e6, 355e3}
		off := units.Length(b.Factor*float64(b.Length)/1000 + number(0, 0.05, "off"))
		stress := units.Pressure(number(1e3, 355e3, "stress"))
		n := must(b.AtStress(stress, off)).Load
		alike(t, "stress", float64(must(b.EdgeStress(n, off))), float64(stress), 1e-6)
		if more := must(b.AtStress(stress, off*1.1)).Load; more > n {
			t.Fatalf("further off it carries more: %v, %v", n, more)
		}
		if float64(n) > b.euler() || float64(n) > float64(stress)*b.Area {
			t.Fatalf("%v kN is beyond buckling or squash", n)
		}
	})
}

func TestEulerScalesByItsDimensions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := units.Length(rapid.Float64Range(0.02, 0.1).Draw(t, "rod"))
		long := d * units.Length(rapid.Float64Range(30, 90).Draw(t, "slender"))
		one := must(Bar{must(Rod(d)), long, 1, 210e6, 355e3}.Euler())
		two := must(Bar{must(Rod(2 * d)), 2 * long, 1, 210e6, 355e3}.Euler())
		alike(t, "load", float64(two.Load), 4*float64(one.Load), 1e-9) // E d⁴/L²
		alike(t, "slenderness", two.Slenderness, one.Slenderness, 1e-9)
	})
}

func TestAxialStiffness(t *testing.T) {
	nearTo(t, "E A/L", must(Bar{Section{5e-4, 1e-7, 0.02}, 2, 1, 200e6, 355e3}.Axial()), 50000)
}

func TestJackTableFallsWithExtension(t *testing.T) {
	jack := JackTable{{0.1, 60}, {0.3, 50}, {0.5, 30}}
	for at, want := range map[units.Length]float64{0.1: 60, 0.2: 55, 0.3: 50, 0.35: 45, 0.5: 30} {
		nearTo(t, "capacity", float64(must(jack.At(at))), want)
	}
	for _, at := range []units.Length{0.05, 0.51, units.Length(math.NaN())} {
		if _, err := jack.At(at); !errors.Is(err, load.ErrRange) {
			t.Errorf("at %v: error %v", at, err)
		}
	}
	for name, bad := range map[string]JackTable{"none": nil, "rising": {{0.1, 50}, {0.2, 60}}, "back": {{0.2, 60}, {0.1, 50}}} {
		if _, err := bad.At(0.15); !errors.Is(err, load.ErrRange) {
			t.Errorf("%s: error %v", name, err)
		}
	}
}

// A core of 30 mm, 10 mm off, as a cantilever: next to nothing out it carries
// σ A/(1 + e c/i²) = 355e3 x 7.0685835e-4/(1 + 0.01 x 0.015/(0.0075²)) = 68.4395 kN
// over the factor; farther out always less.
func TestSpindleFallsWithExtension(t *testing.T) {
	s := Spindle{Core: 0.03, Off: 0.01, Modulus: 210e6, Yield: 355e3, LoadFactor: 1.5}
	nearBy(t, "short", float64(must(s.At(1e-4))), 355e3*math.Pi/4*9e-4/(1+0.01*0.015/5.625e-5)/1.5, 1e-4)
	before := must(s.At(1e-4))
	for i := 1; i <= 20; i++ {
		now := must(s.At(units.Length(i) * 0.05))
		if now >= before {
			t.Fatalf("at %d x 50 mm %v kN, nearer in %v", i, now, before)
		}
		before = now
	}
	// a cantilever of 1 m buckles as a pinned bar of 2 m does, and is below that
	if long := (Bar{must(Rod(0.03)), 1, 2, 210e6, 355e3}).euler() / 1.5; float64(before) >= long {
		t.Errorf("%v kN is not below %v", before, long)
	}
	s.Off = 0.001
	if _, err := s.At(1); !errors.Is(err, load.ErrRange) {
		t.Errorf("straighter than 1/500: error %v", err)
	}
}
