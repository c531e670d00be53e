package check

import (
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/result"
)

// the keys of the worked cells that tell the strength of the invert
const (
	agedKey = "schedule: {invert_age: 7 d, walls_age: 4 d, roof_age: 4 d}\n"
	madeKey = "concrete: {strength: 30 MPa, cement: N, curing: 16 degC, walls_strength: 12 MPa, roof_strength: 21 MPa}\n"
)

// bearingOf is the worked cell's bearing of a wheel with other keys for the
// invert's strength.
func bearingOf(t *testing.T, schedule, concrete string) result.Entry {
	t.Helper()
	r := checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{{agedKey, schedule}, {madeKey, concrete}}})
	c, ok := checkOf(r, "roll.bearing", 1, 1, "wheels")
	if !ok {
		t.Fatal("no roll.bearing")
	}
	return c
}

// bears is what the invert bears under a wheel of the worked cells, kN: ACI 318
// 22.8.3.2, 0.65 x 0.85 f A1 x 2 under a contact of 60 x 100 mm.
func bears(mpa float64) float64 { return 0.65 * 0.85 * mpa * 1e3 * 0.060 * 0.100 * 2 }

// aged is the strength of C30 with normal cement at an equivalent age in days,
// MPa: EN 1992-1-1 3.1.2, (30 + 8) exp(0.25 (1 - sqrt(28/t))) - 8.
func aged(days float64) float64 { return 38*math.Exp(0.25*(1-math.Sqrt(28/days))) - 8 }

func bearsNow(t *testing.T, e result.Entry, verdict result.Verdict, mpa float64) {
	t.Helper()
	if e.Verdict != verdict || e.Limit == nil || math.Abs(*e.Limit-bears(mpa)) > 1e-3 {
		t.Errorf("%v, limit %v; want %v, %.3f kN: %s", e.Verdict, e.Limit, verdict, bears(mpa), e.Text)
	}
}

func opens(t *testing.T, e result.Entry, words ...string) {
	t.Helper()
	if e.Verdict != result.Open {
		t.Errorf("%v, want open: %s", e.Verdict, e.Text)
	}
	says(t, e, words...)
}

func TestColdConcreteIsAsOldAsItsEquivalentAge(t *testing.T) {
	// 7 d at 16 degC: 7 exp(13.65 - 4000/289) = 5.784 d, 20.1 MPa
	at16 := 7 * math.Exp(13.65-4000.0/289)
	e := bearingOf(t, agedKey, madeKey)
	bearsNow(t, e, result.Pass, aged(at16))
	says(t, e, "20.1 MPa", "7 days", "16 degC", "worth 5.78 days", "B.10", "concrete.curing")
	// 7 d at 2 degC: 7 exp(13.65 - 4000/275) = 2.859 d, told rounded down
	opens(t, bearingOf(t, agedKey, "concrete: {strength: 30 MPa, cement: N, curing: 2 degC}\n"),
		"worth 2.85 days", "only tests", "concrete.invert_strength")
	// the placing temperature says nothing of it
	e = bearingOf(t, agedKey, "concrete: {strength: 30 MPa, cement: N, curing: 16 degC, temperature: 30 degC}\n")
	bearsNow(t, e, result.Pass, aged(at16))
}

func TestSpellsOfCuringAddUpAsFarAsTheAge(t *testing.T) {
	// 2 d at 10 and 5 d at 25: 2 x 0.616143358 + 5 x 1.255057 d
	e := bearingOf(t, agedKey, "concrete: {strength: 30 MPa, cement: N, curing: [{for: 2 d, at: 10 degC}, {for: 6 d, at: 25 degC}, {for: 9 d, at: -5 degC}]}\n")
	bearsNow(t, e, result.Pass, aged(2*0.616143358+5*math.Exp(13.65-4000.0/298)))
	says(t, e, "10 degC to 25 degC")
}

func TestWithoutATemperatureSinceCastingTheStrengthIsOpen(t *testing.T) {
	e := bearingOf(t, agedKey, "concrete: {strength: 30 MPa, cement: N, temperature: 20 degC}\n")
	opens(t, e, "concrete.curing", "12 degC", "concrete.invert_strength", "18 MPa")
	if strings.Contains(e.Text, "invert_age") || strings.Contains(e.Text, "cement") {
		t.Errorf("asks for what is there: %s", e.Text)
	}
}

func TestWhereB10EndsTheStrengthIsOpen(t *testing.T) {
	for _, curing := range []string{"-3 degC", "[{for: 3 d, at: 15 degC}, {for: 4 h, at: -3 degC}, {for: 9 d, at: 15 degC}]"} {
		opens(t, bearingOf(t, agedKey, "concrete: {strength: 30 MPa, cement: N, curing: "+curing+"}\n"), "-3 degC", "concrete.curing", "0 degC", "concrete.invert_strength")
	}
	opens(t, bearingOf(t, agedKey, "concrete: {strength: 30 MPa, cement: N, curing: 85 degC}\n"), "85 degC", "80 degC", "concrete.curing")
	// frost after the wheels have passed is another matter
	e := bearingOf(t, agedKey, "concrete: {strength: 30 MPa, cement: N, curing: [{for: 7 d, at: 16 degC}, {for: 1 d, at: -3 degC}]}\n")
	bearsNow(t, e, result.Pass, aged(7*math.Exp(13.65-4000.0/289)))
}

func TestTemperaturesThatEndBeforeTheAgeLeaveItOpen(t *testing.T) {
	opens(t, bearingOf(t, agedKey, "concrete: {strength: 30 MPa, cement: N, curing: [{for: 2 d, at: 16 degC}, {for: 3 d, at: 18 degC}]}\n"),
		"concrete.curing", "5 days", "7 days", "schedule.invert_age")
}

func TestAgeStrengthAndCementHaveNoDefault(t *testing.T) {
	opens(t, bearingOf(t, "", ""), "schedule.invert_age", "5 d", "concrete.strength", "30 MPa", "concrete.cement", "N", "concrete.curing", "12 degC", "concrete.invert_strength", "18 MPa")
	opens(t, bearingOf(t, "", madeKey), "schedule.invert_age")
	opens(t, bearingOf(t, agedKey, "concrete: {cement: N, curing: 16 degC}\n"), "concrete.strength")
	opens(t, bearingOf(t, agedKey, "concrete: {strength: 30 MPa, curing: 16 degC}\n"), "concrete.cement")
	// what EN 1992-1-1 does not hold for
	opens(t, bearingOf(t, agedKey, "concrete: {strength: 8 MPa, cement: N, curing: 16 degC}\n"), "8", "concrete.strength")
}

func TestStrengthByCylindersGovernsOverTheAge(t *testing.T) {
	for _, schedule := range []string{"", agedKey} {
		for _, concrete := range []string{"invert_strength: 18 MPa", "invert_strength: 18 MPa, strength: 30 MPa, cement: N, curing: -3 degC"} {
			e := bearingOf(t, schedule, "concrete: {"+concrete+"}\n")
			bearsNow(t, e, result.Pass, 18)
			says(t, e, "18.0 MPa", "cylinders", "concrete.invert_strength")
		}
	}
	// also where it is less than the age promises
	bearsNow(t, bearingOf(t, agedKey, "concrete: {invert_strength: 1 MPa, strength: 30 MPa, cement: N, curing: 16 degC}\n"), result.Fail, 1)
	opens(t, bearingOf(t, agedKey, "concrete: {invert_strength: 0.5 MPa}\n"), "0.5", "concrete.invert_strength")
}

func TestAnImperialJobAsksForStrengthInItsUnits(t *testing.T) {
	e := bearingOf(t, "", "")
	if strings.Contains(e.Text, "psi") {
		t.Error(e.Text)
	}
	s := jobFile(t, "heron-creek")
	s.Job.Concrete.Curing, s.Job.Concrete.Strength = nil, nil
	e, ok := checkOf(Run(s, Options{Version: "test"}), "roll.bearing", 1, 1, "wheels")
	if !ok {
		t.Fatal("no roll.bearing")
	}
	opens(t, e, "54 degF", "4000 psi", "2500 psi")
}
