package load

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"boxwalk/model/units"
)

var (
	twoDays = History{{hours(24), 20}, {hours(24), 10}}
	cold    = History{{hours(12), 25}, {hours(12), 18}, {hours(24), 8}, {hours(24), -2}}
)

// Derived (reference).
func TestNurseSaulMaturity(t *testing.T) {
	rows := []struct {
		h     History
		datum units.Temperature
		want  float64
	}{{twoDays, 0, 720}, {twoDays, -10, 1200}, {cold, 0, 708}, {cold, -10, 1380}}
	for _, r := range rows {
		near(t, "M in °C h", float64(must(NurseSaul{r.datum}.Of(r.h))), r.want)
	}
	if DefaultNurseSaul().Datum != 0 {
		t.Error("the default datum is not 0 °C, which promises least")
	}
}

// Derived (reference), with 273.15 K and with the rounded 273 K.
func TestEquivalentAge(t *testing.T) {
	rows := []struct {
		h              History
		ts             units.Temperature
		exact, rounded float64
	}{
		{Steady(30, hours(24)), 20, 42.126768671, 42.150648999},
		{Steady(10, hours(24)), 20, 13.140296079, 13.132048905},
		{twoDays, 20, 37.140296079, 37.132048905},
		{Steady(30, hours(24)), 23, 35.442260380, 35.456108712},
	}
	for _, r := range rows {
		near(t, "te, 273.15", float64(must(Arrhenius{5000, r.ts, 273.15}.Of(r.h)))/hour, r.exact)
		near(t, "te, 273", float64(must(Arrhenius{5000, r.ts, 273}.Of(r.h)))/hour, r.rounded)
	}
	near(t, "at the reference", float64(must(DefaultArrhenius().Of(Steady(20, hours(24)))))/hour, 24)
}

// From memory: 33.5, 40 and 45 kJ/mol.
func TestActivationTemperature(t *testing.T) {
	for energy, want := range map[float64]float64{33500: 4029.348, 40000: 4811.161896, 45000: 5412.557133} {
		nearBy(t, "Q", must(QOf(energy)), want, 5e-4)
	}
}

// Derived (reference); formula second-hand.
func TestMC90Age(t *testing.T) {
	for temperature, want := range map[units.Temperature]float64{0: 0.367139038, 10: 0.616143358, 20: 0.998124628, 30: 1.566243172} {
		near(t, "factor", must(MC90{}.Factor(temperature)), want)
	}
	age := must(MC90{}.Of(History{{daysOf(2), 10}, {daysOf(1), 25}}))
	near(t, "tT in days", age.Days(), 2.487343990)
	near(t, "βcc", must(ClassN.Beta(age)), 0.555000726)
}

// Derived: 7 d at 2 °C x exp(13.65 − 4000/275) = 7 x 0.40842 = 2.85895 d; of 2 d
// at 10 °C, 1 d at 25 °C and a frost after them, 3 d are those of the reference
// and 2 d are 2 x 0.616143358.
func TestAgeOfColdConcreteIsWorthLess(t *testing.T) {
	week := daysOf(7)
	nearBy(t, "7 d at 2 °C", must(MC90{}.At(week, Steady(2, week))).Days(), 2.85895337, 5e-9)
	h := History{{daysOf(2), 10}, {daysOf(1), 25}, {daysOf(4), -3}}
	near(t, "3 d of it", must(MC90{}.At(daysOf(3), h)).Days(), 2.487343990)
	near(t, "2 d of it", must(MC90{}.At(daysOf(2), h)).Days(), 2*0.616143358)
	for _, age := range []units.Duration{daysOf(3.5), daysOf(7.1), 0, -1, units.Duration(math.NaN())} {
		if a, err := (MC90{}).At(age, h); !errors.Is(err, ErrRange) || a != 0 {
			t.Errorf("%g d of it: %g, %v", days(age), a, err)
		}
	}
}

// Derived (reference): Su 30, k 0.5 per day, t0 0.2 d.
func TestHyperbola(t *testing.T) {
	c := Hyperbola{inMPa(30), 0.5, daysOf(0.2)}
	for age, want := range map[float64]float64{1: 8.571428571, 3: 17.5, 7: 23.181818182, 0.2: 0, 0.1: 0} {
		near(t, "S", float64(must(c.Strength(ageOf(age))))/mpa, want)
	}
}

// Derived: at te = τ the exponential gives Su/e; a decade of maturity gives B.
func TestExponentialAndPlowmanAtTheirMarks(t *testing.T) {
	c := Exponential{inMPa(40), daysOf(1.5), 0.9}
	near(t, "S(τ)", float64(must(c.Strength(ageOf(1.5)))), 40*mpa/math.E)
	p := Plowman{inMPa(-20), inMPa(15)}
	near(t, "decade", float64(must(p.Strength(1000))-must(p.Strength(100))), 15*mpa)
	if s, err := p.Strength(10); !errors.Is(err, ErrRange) || s != 0 {
		t.Errorf("below zero: %g, %v", s, err)
	}
}

func drawHistory(t *rapid.T) History {
	var h History
	for range rapid.IntRange(1, 6).Draw(t, "spells") {
		h = append(h, Spell{hours(rapid.Float64Range(0.1, 72).Draw(t, "for")), units.Temperature(rapid.Float64Range(0, 60).Draw(t, "at"))})
	}
	return h
}

func TestHistoryReachesAnAgeExactlyWhenItsPartHasThatAge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, share := drawHistory(t), rapid.Float64Range(0.01, 0.999).Draw(t, "share")
		part := func(got, want float64) {
			if math.Abs(got-want) > 1e-9*max(1, want) {
				t.Fatalf("age of the part %.15g, want %.15g", got, want)
			}
		}
		a := DefaultArrhenius()
		need := must(a.Of(h)) * EquivalentAge(share)
		part(float64(must(a.Of(h.Until(must(a.Reach(need, h)))))), float64(need))
		need = must(MC90{}.Of(h)) * EquivalentAge(share)
		part(float64(must(MC90{}.Of(h.Until(must(MC90{}.Reach(need, h)))))), float64(need))
		n := DefaultNurseSaul()
		if m := must(n.Of(h)) * Maturity(share); m > 0 {
			part(float64(must(n.Of(h.Until(must(n.Reach(m, h)))))), float64(m))
		}
	})
}

func TestAHistoryThatEndsTooEarlyIsAnError(t *testing.T) {
	h := Steady(10, hours(24))
	if at, err := DefaultArrhenius().Reach(EquivalentAge(hours(14)), h); !errors.Is(err, ErrRange) || at != 0 {
		t.Errorf("equivalent age: %g, %v", at, err)
	}
	if at, err := (MC90{}).Reach(EquivalentAge(hours(15)), h); !errors.Is(err, ErrRange) || at != 0 {
		t.Errorf("adjusted age: %g, %v", at, err)
	}
	if at, err := DefaultNurseSaul().Reach(241, h); !errors.Is(err, ErrRange) || at != 0 {
		t.Errorf("maturity: %g, %v", at, err)
	}
}

func TestFrostIsRefusedByTheEquivalentAges(t *testing.T) {
	for _, h := range []History{cold, nil, {{hours(-1), 20}}, {{hours(1), 81}}, {{units.Duration(math.NaN()), 20}}} {
		if a, err := DefaultArrhenius().Of(h); !errors.Is(err, ErrRange) || a != 0 {
			t.Errorf("%v: %g, %v", h, a, err)
		}
		if a, err := (MC90{}).Of(h); !errors.Is(err, ErrRange) || a != 0 {
			t.Errorf("%v: %g, %v", h, a, err)
		}
	}
}

func TestWarmerIsNeverYounger(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawHistory(t)
		warm := append(History(nil), h...)
		warm[rapid.IntRange(0, len(h)-1).Draw(t, "spell")].At += units.Temperature(rapid.Float64Range(0, 20).Draw(t, "warmer"))
		if must(MC90{}.Of(warm)) < must(MC90{}.Of(h)) || must(DefaultArrhenius().Of(warm)) < must(DefaultArrhenius().Of(h)) || must(DefaultNurseSaul().Of(warm)) < must(DefaultNurseSaul().Of(h)) {
			t.Fatal("warmer concrete is younger")
		}
	})
}
