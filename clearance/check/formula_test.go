package check

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

// gapIs holds one end gap in millimetres.
func gapIs(t *testing.T, r *result.Result, step, role, against string, want float64) {
	t.Helper()
	v, ok := endGap(r, step, role, against)
	if !ok || math.Abs(v.Lower*1e3-want) > 0.1 || math.Abs(v.Upper*1e3-want) > 0.1 {
		t.Errorf("step %q: %s to %s %.3f..%.3f mm, want %.2f", step, role, against, v.Lower*1e3, v.Upper*1e3, want)
	}
}

func TestNarrowClosureLeavesTheNutEight(t *testing.T) {
	r := checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{plain}, Swap: [][2]string{{"widths: [1120 mm]", "widths: [1150 mm]"}, {"filler: {min: 320 mm, max: 480 mm, prefer: 360 mm}", "filler: {min: 280 mm, max: 480 mm, prefer: 300 mm}"}}})
	gapIs(t, r, "header arms fully in", "roof panel", "hanger nut", 8.0)
}

func TestBraceOnlyTo690LeavesTheBottomHaunchThirteen(t *testing.T) {
	r := checked(t, chain{Gear: "roof-halves-24", Swap: [][2]string{{"low brace: 590 mm", "low brace: 690 mm"}}})
	gapIs(t, r, "down to wheels", "wall panel", "haunch_bottom", 13.3)
}

func TestFootKicksOutWhileTheArmsComeInUnderLockedBraces(t *testing.T) {
	to := func(reading string) [2]string {
		return worked.Sequence(worked.FillersOut, "  - {step: arms, drivers: {turnbuckle: "+reading+"}}\n")
	}
	for reading, depth := range map[string]float64{"695 mm": -0.7, "620 mm": -11.2} {
		r := checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{to(reading)}})
		failing{"strip.dig", "arms", "", depth, "W", 0}.hold(t, r)
	}
}

// Jacks 2 mm apart on bents 1200 mm apart move the roof by 2 / 1200 x 2400 = 4 mm
// along, within the 5; 2.5 mm move it by all of them.
func TestPocketKeepsThePlateFiveEachSideWhileLowering(t *testing.T) {
	r := checked(t, chain{Gear: "roof-whole-24", Jobs: [][2]string{{"tail: 50 mm", "tail: 0 mm"}, {"gear: gear.yaml", "limits: {setup.faces: 6 mm}\ntolerance: {jack_level: 2 mm}\ngear: gear.yaml"}}, Swap: [][2]string{{"filler_length: 1000 mm\n", "filler_length: 1000 mm\n  pocket: 210 x 210 x 20 mm\n"}}})
	if r.Verdict != result.Pass {
		t.Errorf("%v: %s", r.Verdict, r.Checks[0].Text)
	}
	held(t, r, "strip.supports", "down", "hanger plate", 5e-3, 0.1e-3)
	// 100 down to the facing beside the pocket, 5 beside the plate
	gapIs(t, r, "down to wheels", "roof panel", "hanger plate", 1e3*math.Hypot(0.100, 0.005))
}

// swingOf the wall by the law of cosines: hinge to frame pin D, hinge to wall
// pin r, raised angle 22.0266 degrees less that of the shortened brace.
func swingOf(l float64) float64 {
	d, r := math.Hypot(0.780, 1.780), math.Hypot(0.050, 1.750)
	angle := func(l float64) float64 { return math.Acos((r*r + d*d - l*l) / (2 * r * d)) }
	return angle(math.Hypot(0.730, 0.030)) - angle(l)
}

func TestHandFormulasHoldAtManySettings(t *testing.T) {
	n := worked.Campaign(8, 40)
	rnd := rand.New(rand.NewSource(5))
	for range n {
		l := math.Round(580+130*rnd.Float64()) / 1000
		v := math.Round(10+100*rnd.Float64()) / 1000
		r := checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{worked.Sequence(worked.FillersOut,
			fmt.Sprintf("  - {step: wall bottoms in, drivers: {low brace: %.0f mm}}\n", l*1e3),
			fmt.Sprintf("  - {step: down, drivers: {jack: raised - %.0f mm}}\n", v*1e3))}})
		a := swingOf(l)
		s, c := math.Sin(a), math.Cos(a)
		// h = 160 behind the face, u = 50 above its top, H = 2000 above the foot
		gapIs(t, r, "wall bottoms in", "wall panel", "wall", 1e3*(0.050*s+0.160*(1-c)))
		// the wall's inner top edge stands (60, -30) from the hinge
		gapIs(t, r, "wall bottoms in", "wall panel", "corner panel", 1e3*(0.060*s-0.030*(1-c)))
		gapIs(t, r, "down", "corner panel", "haunch_top", 1e3*v/math.Sqrt2)
		gapIs(t, r, "down", "roof panel", "roof", 1e3*v)
		y, z := 1.340+0.160*c-2*s, 2.250-v-0.160*s-2*c
		// square to the haunch only while the foot stands over its face
		if over := (y + z + 1.350) / 2; over > 1.350 && over < 1.500 {
			gap := (1.350 - y + z) / math.Sqrt2
			gapIs(t, r, "down", "wall panel", "haunch_bottom", 1e3*gap)
		}
	}
}
