package check

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/sweep"
	"boxwalk/model/load"
)

// Every number that a check's formula has in the code, and every thing that it
// takes off, stands in its explanation; the words are the code's own where it
// has a constant.
func TestExplanationsStateWhatTheCodeWorksWith(t *testing.T) {
	for id, words := range map[string][]string{
		"setup.range": {"0.5 mm", "1 mm"},
		"setup.rest":  {"10 mm", "25 mm", "1 mm"},
		"strip.drag":  {fmt.Sprintf("%g mm", 1e3*sweep.DefaultBand), fmt.Sprintf("1 in %g", 1/sweep.DefaultOpening)},
		"strip.self":  {"lag"},
		"strip.clear": {"lag", "root-sum-square", "crossfall x arm"},
		"raise.clear": {"lag"},
		"roll.clear":  {"root-sum-square", "crossfall x arm", "cross slope x arm", fmt.Sprintf("%g mm apart", 1e3*measure.RestEvery)},
		"roll.track":  {"half span - haunch run - (gauge + tread) / 2 - wander", "channel"},
		"roll.bend": {"2 p q tan(phi) / (B + sqrt(B^2 + 4 p q tan(phi)^2))", "overhang x sin(phi)", "steering offset", "root-sum-square", "crossfall",
			"B phi/2", "friction x", "W max(a, B - a)/B x friction x tan(phi)", "starting pull", "t sin(phi)"},
		"roll.pull": {"W (sin a + f b cos a)", "not below 0"},
		"roll.tip":  {"crossfall", "track_level", "gauge"},
		"roll.bearing": {fmt.Sprintf("%g x the most on one wheel, rocking as in roll.wheel", load.LiveFactor), fmt.Sprintf("phi %g", load.PhiACI), "0.85 f A1 min(sqrt(A2/A1), 2)",
			"exp(13.65 - 4000/(273 + T))", "0 to 80 degC", "fcm - 8 MPa", "28 d", "3 d", "exp(s (1 - sqrt(28/t)))", "s = 0.20 (R), 0.25 (N), 0.38 (S)", "cylinders", "concrete.curing"},
	} {
		e, ok := ByID(id)
		if !ok {
			t.Fatal(id)
		}
		for _, w := range words {
			if !strings.Contains(e.Formula+"; "+e.Limit, w) {
				t.Errorf("%s does not state %q: %s; %s", id, w, e.Formula, e.Limit)
			}
		}
	}
}

// What the formula of roll.bearing says, worked from its words: 7 d at 16 degC,
// C30, cement N, patch 60 x 100 far from edges.
func TestBearingIsWhatItsFormulaSays(t *testing.T) {
	tT := 7 * math.Exp(13.65-4000/(273+16.0))
	f := math.Exp(0.25*(1-math.Sqrt(28/tT)))*(30+8) - 8
	scale := math.Min(math.Min(1+2*0.800/0.100, 1+2*0.100/0.060), 1+4*0.300/0.100) // thickness 300
	a1, a2 := 0.060*0.100, 0.060*0.100*scale*scale
	bears := 0.65 * 0.85 * 1e3 * f * a1 * math.Min(math.Sqrt(a2/a1), 2)
	e := bearingOf(t, agedKey, madeKey)
	if math.Abs(*e.Limit-bears) > 1e-6 {
		t.Errorf("bears %.4f kN, by its formula %.4f", *e.Limit, bears)
	}
}

// A coefficient is the job's only where the job gives it.
func TestNoExplanationSaysFromTheJobOfADefault(t *testing.T) {
	for _, id := range []string{"roll.pull", "roll.hold", "roll.bend"} {
		if e, _ := ByID(id); strings.Contains(e.Source, "coefficients from the job") || !strings.Contains(e.Source, "default: judgement") && !strings.Contains(e.Source, "default: tyres") {
			t.Errorf("%s: %s", id, e.Source)
		}
	}
}
