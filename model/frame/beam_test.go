package frame

import (
	"errors"
	"math"
	"testing"

	"boxwalk/model/load"
	"boxwalk/model/units"
)

// equal is a beam over equal spans of 1 m with EI = 1 kN m².
func equal(spans int) Beam {
	b := Beam{Stretches: []Stretch{{units.Length(spans), 1}}}
	for i := range spans + 1 {
		b.Supports = append(b.Supports, Pin(units.Length(i)))
	}
	return b
}

func only(r []Response, err error) Response { return must(r, err)[0] }

func TestSimpleBeamUnderAnEvenLoad(t *testing.T) {
	// q = 3, L = 4, EI = 50: q L²/8 = 6, q L/2 = 6, 5 q L⁴/(384 EI) = 0.2
	b := Beam{Stretches: []Stretch{{4, 50}}, Supports: []Support{Pin(0), Pin(4)}}
	r := only(b.Solve(Evenly(0, 4, 3)))
	nearTo(t, "moment", float64(r.Moment().Most.Value), 6)
	nearBy(t, "at", float64(r.Moment().Most.At), 2, 1e-7)
	nearTo(t, "least moment", float64(r.Moment().Least.Value), 0)
	nearTo(t, "shear", float64(r.Shear().Most.Value), 6)
	nearTo(t, "shear", float64(r.Shear().Least.Value), -6)
	nearTo(t, "down", float64(r.Deflection().Most.Value), 0.2)
	nearTo(t, "up", float64(r.Supports[1].Up), 6)
	nearTo(t, "slope", float64(must(r.At(0)).Slope), 3*64/(24*50.0))
}

func TestPointLoadOffTheMiddle(t *testing.T) {
	// P = 6 at a = 1 of L = 3, EI = 10: M = P a b/L = 4; greatest deflection
	// P a (L² − a²)^1.5/(9√3 L EI) at √((L² − a²)/3) from the far end
	b := Beam{Stretches: []Stretch{{3, 10}}, Supports: []Support{Pin(0), Pin(3)}}
	r := only(b.Solve(Loading{Points: []PointLoad{{At: 1, Down: 6}}}))
	nearTo(t, "moment", float64(r.Moment().Most.Value), 4)
	nearTo(t, "at", float64(r.Moment().Most.At), 1)
	nearTo(t, "down", float64(r.Deflection().Most.Value), 6*math.Pow(8, 1.5)/(9*math.Sqrt(3)*3*10))
	nearBy(t, "at", float64(r.Deflection().Most.At), 3-math.Sqrt(8.0/3), 1e-7)
}

func TestCantilevers(t *testing.T) {
	b := Beam{Stretches: []Stretch{{2, 40}}, Supports: []Support{Clamp(0)}}
	r := only(b.Solve(Loading{Points: []PointLoad{{At: 2, Down: 5}}}))
	nearTo(t, "P L", float64(r.Moment().Least.Value), -10)
	nearTo(t, "P L³/3EI", float64(r.Deflection().Most.Value), 5*8/(3*40.0))
	nearTo(t, "clamp", float64(r.Supports[0].Turn), -(-10)) // holds against turning down to the right
	nearTo(t, "up", float64(r.Supports[0].Up), 5)
	// q falling from 6 at the clamp to 0: q L²/6 = 4, q L⁴/30EI = 0.08
	r = only(b.Solve(Loading{Lines: []Distributed{{0, 2, 6, 0}}}))
	nearTo(t, "q L²/6", float64(r.Moment().Least.Value), -4)
	nearTo(t, "q L⁴/30EI", float64(r.Deflection().Most.Value), 0.08)
	// growing from 0 to 6 at the tip: q L²/3 = 8, 11 q L⁴/120EI = 0.22
	r = only(b.Solve(Loading{Lines: []Distributed{{0, 2, 0, 6}}}))
	nearTo(t, "q L²/3", float64(r.Moment().Least.Value), -8)
	nearTo(t, "11 q L⁴/120EI", float64(r.Deflection().Most.Value), 0.22)
	// a couple of 3 that turns the tip down: 3 L²/2EI = 0.15 down, hogging 3
	r = only(b.Solve(Loading{Points: []PointLoad{{At: 2, Turn: 3}}}))
	nearTo(t, "T", float64(r.Moment().Least.Value), -3)
	nearTo(t, "T L²/2EI", float64(r.Deflection().Most.Value), 0.15)
}

// A cantilever of 1 m EI 20 and 1 m EI 10 with 3 kN at its tip: by Mohr,
// ∫ M m/EI = 3/20 ∫₁² x² + 3/10 ∫₀¹ x² = 3/20 · 7/3 + 3/10 · 1/3 = 0.45.
func TestStepInStiffness(t *testing.T) {
	b := Beam{Stretches: []Stretch{{1, 20}, {1, 10}}, Supports: []Support{Clamp(0)}}
	nearTo(t, "down", float64(only(b.Solve(Loading{Points: []PointLoad{{At: 2, Down: 3}}})).Deflection().Most.Value), 0.45)
}

func TestClampedAtBothEnds(t *testing.T) {
	b := Beam{Stretches: []Stretch{{2, 5}}, Supports: []Support{Clamp(0), Clamp(2)}}
	r := only(b.Solve(Evenly(0, 2, 12)))
	nearTo(t, "−q L²/12", float64(r.Moment().Least.Value), -4)
	nearTo(t, "q L²/24", float64(r.Moment().Most.Value), 2)
	nearTo(t, "q L⁴/384EI", float64(r.Deflection().Most.Value), 12*16/(384*5.0))
}

// A header arm: 5 kN at 1.2 m beyond a tube in which it overlaps by 0.4 m is
// held by the couple 5 x 1.2/0.4 = 15 down at its end, 20 up at the mouth.
func TestOverhangIsHeldByTheCoupleInItsOverlap(t *testing.T) {
	b := Beam{Stretches: []Stretch{{1.6, 300}}, Supports: []Support{Pin(0), Pin(0.4)}}
	r := only(b.Solve(Loading{Points: []PointLoad{{At: 1.6, Down: 5}}}))
	nearTo(t, "end", float64(r.Supports[0].Up), -15)
	nearTo(t, "mouth", float64(r.Supports[1].Up), 20)
	nearTo(t, "moment", float64(r.Moment().Least.Value), -6)
}

// A spring k = 24 under the middle of L = 2, EI = 4, q = 6: the beam without it
// goes down 5 q L⁴/384EI = 0.3125, and P goes down P L³/48EI = P/24; so P =
// 0.3125/(1/24 + 1/24) = 3.75.
func TestSpringTakesItsShare(t *testing.T) {
	b := Beam{Stretches: []Stretch{{2, 4}}, Supports: []Support{Pin(0), Pin(2), Bed(1, 24)}}
	r := only(b.Solve(Evenly(0, 2, 6)))
	nearTo(t, "spring", float64(r.Supports[2].Up), 3.75)
	nearTo(t, "gives", float64(must(r.At(1)).Deflection), 3.75/24)
}

// Published: uniformly loaded continuous beams over equal spans, Civil
// Engineering Formulas, table 2.1 (read): support moments and reactions as
// fractions, greatest span moments to three digits, the last not always rounded,
// and their places. It prints 0.533 where six spans have 55/104 = 0.529, the
// shear that it gives there itself.
func TestPublishedTableOfEqualSpans(t *testing.T) {
	rows := []struct {
		moments, reactions, span, at []float64
	}{
		{[]float64{0, 1 / 8.0}, []float64{3 / 8.0, 10 / 8.0}, []float64{0.0703}, []float64{0.375}},
		{[]float64{0, 1 / 10.0}, []float64{4 / 10.0, 11 / 10.0}, []float64{0.080, 0.025}, []float64{0.400, 0.500}},
		{[]float64{0, 3 / 28.0, 2 / 28.0}, []float64{11 / 28.0, 32 / 28.0, 26 / 28.0}, []float64{0.0772, 0.0364}, []float64{0.393, 0.536}},
		{[]float64{0, 4 / 38.0, 3 / 38.0}, []float64{15 / 38.0, 43 / 38.0, 37 / 38.0}, []float64{0.0779, 0.0332, 0.0461}, []float64{0.395, 0.526, 0.500}},
		{[]float64{0, 11 / 104.0, 8 / 104.0, 9 / 104.0}, []float64{41 / 104.0, 118 / 104.0, 100 / 104.0, 106 / 104.0}, []float64{0.0777, 0.0340, 0.0433}, []float64{0.394, 0.529, 0.490}},
		{[]float64{0, 15 / 142.0, 11 / 142.0, 12 / 142.0}, []float64{56 / 142.0, 161 / 142.0, 137 / 142.0, 143 / 142.0}, []float64{0.0778, 0.0338, 0.0440, 0.0405}, []float64{0.394, 0.528, 0.493, 0.500}},
	}
	for i, row := range rows {
		r := only(equal(i + 2).Solve(Evenly(0, units.Length(i+2), 1)))
		for k := range row.moments {
			nearTo(t, "moment", -float64(must(r.At(units.Length(k))).Moment), row.moments[k])
			nearTo(t, "reaction", float64(r.Supports[k].Up), row.reactions[k])
		}
		for k := range row.span {
			most := along[load.Moment](r.pieces[k:k+1], piece.momentLine).Most
			nearBy(t, "span", float64(most.Value), row.span[k], 1e-4)
			nearBy(t, "place", float64(most.At)-float64(k), row.at[k], 0.6e-3)
		}
	}
}

// Published: three equal spans, two of them loaded, to one side
// (piping-designer.com, beam formulas 2404, read; it prints magnitudes).
func TestPublishedThreeSpansTwoLoaded(t *testing.T) {
	r := only(equal(3).Solve(Evenly(0, 2, 1)))
	for i, want := range []float64{0.383, 1.200, 0.450, -0.033} {
		nearBy(t, "reaction", float64(r.Supports[i].Up), want, 0.6e-3)
	}
	nearBy(t, "M1", float64(r.Moment().Most.Value), 0.0735, 0.6e-4)
	nearBy(t, "at", float64(r.Moment().Most.At), 0.383, 0.6e-3)
	nearBy(t, "over R3", float64(must(r.At(2)).Moment), -0.0333, 0.6e-4)
	nearBy(t, "down", float64(r.Deflection().Most.Value), 0.0059, 0.6e-4)
	nearBy(t, "at", float64(r.Deflection().Most.At), 0.430, 0.6e-3)
}

// Published: three unequal spans of 8, 10 and 6 m, 2 kN/m on the first: support
// moments 7.808 and 2.432 kN m from coefficients of three digits, 0.061 and
// 0.019 (appendix to a textbook of structural analysis, issuhub.com 4936 p. 569, read).
func TestPublishedUnequalSpans(t *testing.T) {
	b := Beam{Stretches: []Stretch{{24, 1}}, Supports: []Support{Pin(0), Pin(8), Pin(18), Pin(24)}}
	r := only(b.Solve(Evenly(0, 8, 2)))
	nearBy(t, "over B", float64(must(r.At(8)).Moment), -7.808, 0.0005*128)
	nearBy(t, "over C", float64(must(r.At(18)).Moment), 2.432, 0.0005*128)
}

// Two spans under an even load: L⁴ q/(185 EI) at 0.4215 L (common tables, from
// memory); exactly at (1 + √33)/16.
func TestDeflectionOfTwoSpans(t *testing.T) {
	down := only(equal(2).Solve(Evenly(0, 2, 1))).Deflection().Most
	nearBy(t, "down", float64(down.Value), 1/185.0, 0.5e-4)
	nearBy(t, "at", math.Min(float64(down.At), 2-float64(down.At)), (1+math.Sqrt(33))/16, 1e-7)
}

func TestBeamThatIsNotHeldIsRefused(t *testing.T) {
	for name, b := range map[string]Beam{
		"on nothing":         {Stretches: []Stretch{{1, 1}}},
		"on one pin":         {Stretches: []Stretch{{1, 1}}, Supports: []Support{Pin(0.3)}},
		"held against turns": {Stretches: []Stretch{{1, 1}}, Supports: []Support{{At: 0, Turn: Restraint{Rigid: true}}}},
		"in one place":       {Stretches: []Stretch{{1, 1}}, Supports: []Support{Pin(0.3), Pin(0.3)}},
		"off its support":    {Stretches: []Stretch{{1, 1}}, Supports: []Support{Pin(0), Pin(1.1)}},
		"rigid and a spring": {Stretches: []Stretch{{1, 1}}, Supports: []Support{Clamp(0), {At: 1, Down: Restraint{true, 3}}}},
		"without stiffness":  {Stretches: []Stretch{{1, 0}}, Supports: []Support{Clamp(0)}},
	} {
		if _, err := b.Solve(Evenly(0, 1, 1)); !errors.Is(err, load.ErrRange) {
			t.Errorf("%s: error %v", name, err)
		}
	}
	if _, err := equal(1).Solve(); !errors.Is(err, load.ErrRange) {
		t.Errorf("no loading: error %v", err)
	}
}

// Supports a micrometre apart are nearly a clamp; stiffness differs by 10¹⁵;
// seventy spans: none of it costs a digit that is left in the answer.
func TestIllConditionedBeamsKeepTheirDigits(t *testing.T) {
	b := Beam{Stretches: []Stretch{{2, 40}}, Supports: []Support{Pin(0), Pin(1e-6)}}
	r := only(b.Solve(Loading{Points: []PointLoad{{At: 2, Down: 5}}}))
	nearTo(t, "couple", float64(r.Supports[1].Up)*1e-6, 10)
	nearBy(t, "down", float64(r.Deflection().Most.Value), 5*8/(3*40.0), 1e-6)
	stiff := Beam{Stretches: []Stretch{{2, 1e12}}, Supports: []Support{Pin(0), Bed(2, 1e-3)}}
	nearTo(t, "spring", float64(only(stiff.Solve(Evenly(0, 2, 3))).Supports[1].Up), 3)
	many := only(equal(70).Solve(Evenly(0, 70, 1)))
	nearTo(t, "far inside", float64(must(many.At(35)).Moment), -1/12.0)
	nearTo(t, "end", float64(many.Supports[0].Up), float64(many.Supports[70].Up))
}
