package check

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

// Boxes that vary: cells, haunches, pours, joints and ends that are not all
// alike. Each number is worked by hand beside it, and would be another one if
// the thing that varies were left out.

// checkOf is one check of a bay; ok is false where there is none.
func checkOf(r *result.Result, id string, cell, pour int, rest string) (result.Entry, bool) {
	for _, c := range r.Checks {
		if c.ID == id && c.Subject.String() == fmt.Sprintf("cell %d, pour %d, %s", cell, pour, rest) {
			return c, true
		}
	}
	return result.Entry{}, false
}

// bayReads holds a check of a bay: its verdict and its value, in millimetres.
func bayReads(t *testing.T, r *result.Result, id string, cell, pour int, rest string, verdict result.Verdict, want float64) result.Entry {
	t.Helper()
	c, ok := checkOf(r, id, cell, pour, rest)
	if !ok || c.Value == nil {
		t.Errorf("cell %d, pour %d: no value of %s %s", cell, pour, id, rest)
		return c
	}
	if c.Verdict != verdict || math.Abs(c.Value.Lower*1e3-want) > 0.1 || math.Abs(c.Value.Upper*1e3-want) > 0.1 {
		t.Errorf("%s %s: %v %.3f..%.3f mm, want %v %.3f: %s", id, c.Subject, c.Verdict, c.Value.Lower*1e3, c.Value.Upper*1e3, verdict, want, c.Text)
	}
	return c
}

// bayAsks holds the limit of a check of a bay, in millimetres.
func bayAsks(t *testing.T, r *result.Result, id string, cell, pour int, rest string, want float64) {
	t.Helper()
	c, ok := checkOf(r, id, cell, pour, rest)
	if !ok || c.Limit == nil || math.Abs(*c.Limit*1e3-want) > 0.1 {
		t.Errorf("cell %d, pour %d: %s %s asks for %v, want %.3f mm: %s", cell, pour, id, rest, c.Limit, want, c.Text)
	}
}

// allPass holds that every check of a job does.
func allPass(t *testing.T, r *result.Result) {
	t.Helper()
	for _, c := range r.Checks {
		if c.Verdict != result.Pass {
			t.Errorf("%s %s is %v: %s", c.ID, c.Subject, c.Verdict, c.Text)
		}
	}
}

// bayGap holds the gap at the end of a step in a bay between the parts of a role
// on the left side and a zone, in millimetres.
func bayGap(t *testing.T, r *result.Result, cell, pour int, step, role, zone string, want float64) {
	t.Helper()
	one := result.Result{}
	for _, s := range r.Steps {
		if s.Cell == cell && s.Pour == pour {
			one.Steps = append(one.Steps, s)
		}
	}
	gapIs(t, &one, step, role, zone, want)
}

// bayRolls holds how far the carrier of a bay rolls to the next pour.
func bayRolls(t *testing.T, r *result.Result, cell, pour int, want string) {
	t.Helper()
	c, _ := checkOf(r, "roll.clear", cell, pour, "wall")
	if c.Where.Step != "roll ahead "+want+" m" {
		t.Errorf("cell %d, pour %d: %q, want %s m", cell, pour, c.Where.Step, want)
	}
}

// swung is how far a wall has swung in: its hinge at (0, 0), the wall pin hung 50
// in and 1750 down, the frame pin across in and 1780 down, the low brace at 590
// between them. The law of cosines gives the angle at the hinge between the two
// pins; before, the wall pin hung at atan(50 / 1750).
func swung(across float64) float64 {
	d, r, l := math.Hypot(across, 1.780), math.Hypot(0.050, 1.750), 0.590
	between := math.Acos((d*d + r*r - l*l) / (2 * d * r))
	return math.Atan2(across, 1.780) - between - math.Atan2(0.050, 1.750)
}

// swungHome is that of a cell of 3.0 m with the header arms fully in: hinge at 1340 - 120,
// frame pin at 560.
var swungHome = swung(0.660)

// footOf is the lower edge of the left wall panel's face when collapsed: the
// hinge 160 behind a wall face at half and at a height, brought in by 120 and
// down by lowered; the panel's foot 2000 below the hinge as set.
func footOf(half, hinge, lowered, swing float64) (y, z float64) {
	s, c := math.Sin(swing), math.Cos(swing)
	return half - 0.160 - 0.120 + 0.160*c - 2*s, hinge - lowered - 0.160*s - 2*c
}

// withAprons lays aprons of 3 m at both ends.
var withAprons = [2]string{"ends: {outlet: {apron: 12 m}}", "ends: {inlet: {apron: 3 m}, outlet: {apron: 3 m}}"}

// twoCells is two cells side by side, the inlet on a skew.
func twoCells(second string) chain {
	return chain{Gear: "roof-halves-24", Jobs: [][2]string{
		{"  cells: 1\n  span: 3.0 m\n  rise: 2.4 m\n", "  cells: [{span: 3.0 m, rise: 2.4 m}, " + second + "]\n  inner_wall: 200 mm\n  skew: {inlet: 20 deg}\n"},
		{"pours: [2.3 m]", "pours: [1.275 m]"}, withAprons,
	}}
}

func TestCellsOfUnequalSpanAndRiseAreSetEachByItself(t *testing.T) {
	r := checked(t, twoCells("{span: 3.02 m, rise: 2.42 m}"))
	// filler: 2 (3000/2 - 200 - 1120) = 360; 2 (3020/2 - 200 - 1120) = 380
	bayReads(t, r, "setup.range", 1, 1, "filler width, most", result.Pass, 360)
	bayReads(t, r, "setup.range", 2, 1, "filler width, most", result.Pass, 380)
	// jack: rise - 430 of roof and header and sill - leg 1640; the leg's holes
	// are 50 apart, and 1690 would leave 300, farther from the aim of 330
	bayReads(t, r, "setup.range", 1, 1, "jack, most", result.Pass, 330)
	bayReads(t, r, "setup.range", 2, 1, "jack, most", result.Pass, 350)
	// foot: 2420 - 200 - 1950 = 270; the kicker laps it by 300 - 270
	bayReads(t, r, "setup.range", 2, 1, "reach over the kicker, least", result.Pass, 30)
	// low brace raised: (half - 210 - 560, 30); 730.6 with the first cell's span
	bayReads(t, r, "setup.range", 2, 1, "low brace left, most", result.Pass, 1e3*math.Hypot(0.740, 0.030))
	// both are lowered to a jack of 210: by 120 and by 140
	bayGap(t, r, 1, 1, "down to wheels", "roof panel", "roof", 330-210)
	bayGap(t, r, 2, 1, "down to wheels", "roof panel", "roof", 350-210)
	// and the haunch is left by 120 in and 120 or 140 down, each / sqrt 2
	bayGap(t, r, 1, 1, "down to wheels", "corner panel", "haunch_top", (120+120)/math.Sqrt2)
	bayGap(t, r, 2, 1, "down to wheels", "corner panel", "haunch_top", (120+140)/math.Sqrt2)
	// wall: the hinge stands 1350 - 120 - 560 = 670 out from the frame pin, so
	// that the same brace swings it more; 120.6 with the first cell's swing
	a := swung(0.670)
	bayGap(t, r, 2, 1, "down to wheels", "wall panel", "wall", 120+1e3*(0.050*math.Sin(a)+0.160*(1-math.Cos(a))))
}

func TestSkewedEndFindsUnequalCellsWhereTheyLie(t *testing.T) {
	r := checked(t, twoCells("{span: 3.02 m, rise: 2.42 m}"))
	// the box is 250 + 3000 + 200 + 3020 + 250 = 6720 wide: the right faces lie
	// 3360 - 3250 = 110 left of the line and 3360 - 6470 = -3110; two cells of
	// 3000 would have them at 100 and -3100, 3.6 mm of form off
	bayAsks(t, r, "setup.length", 1, 1, "form length", 1e3*(1.275-0.110*math.Tan(math.Pi/9)))
	bayAsks(t, r, "setup.length", 2, 1, "form length", 1e3*(1.275+3.110*math.Tan(math.Pi/9)))
}

func TestCellBeyondTheGearSaysByHowMuchAndTheOtherIsStillChecked(t *testing.T) {
	r := checked(t, twoCells("{span: 3.3 m, rise: 2.6 m}"))
	if r.Verdict != result.Fail {
		t.Errorf("verdict %v", r.Verdict)
	}
	// 2 (1650 - 200 - 1120) = 660 of filler, 480 at most
	bayReads(t, r, "setup.range", 2, 1, "filler width, most", result.Fail, 660)
	// top of the plane face 2400 - foot 250 = 2150: 1950 leaves no lap, 2250
	// laps 150
	bayReads(t, r, "setup.range", 2, 1, "wall panel stack", result.Fail, 2150)
	for _, c := range r.Checks {
		// over a pour so short stands no bent, and no hanger
		if c.Where.Cell == 1 && c.Verdict != result.Pass && c.ID != "pour.hangers" {
			t.Errorf("%s %s is %v: %s", c.ID, c.Subject, c.Verdict, c.Text)
		}
	}
	bayGap(t, r, 1, 1, "down to wheels", "roof panel", "roof", 120)
}

// flatTop sets the gear to a top haunch of 250 x 150: the plane face ends at
// 2250 and takes panels of 2000; edge 1500 - 250 - panel 1070 leaves 2 x 180.
var flatTop = [][2]string{{"haunch: 200 x 200 mm", "haunch: 250 x 150 mm"}, {"heights: [1950 mm,", "heights: [2000 mm,"}, {"widths: [1120 mm]", "widths: [1070 mm]"}}

func TestHaunchOfUnequalRunAndRiseIsLeftSquareToItsOwnSlope(t *testing.T) {
	r := checked(t, chain{Gear: "roof-halves-24", Swap: flatTop, Jobs: [][2]string{{"top: 200 x 200 mm", "top: 250 x 150 mm"}}})
	long := math.Hypot(250, 150)
	bayReads(t, r, "setup.range", 1, 1, "corner panel run", result.Pass, 0)
	bayReads(t, r, "setup.range", 1, 1, "corner panel rise", result.Pass, 0)
	// 25 down: 21.44; at 45 degrees 17.68, with run and rise the other way 12.86
	bayGap(t, r, 1, 1, "ease down to break the bond", "corner panel", "haunch_top", 25*250/long)
	// 75 down and 120 in: 126.05; at 45 degrees 137.89
	bayGap(t, r, 1, 1, "header arms fully in", "corner panel", "haunch_top", (75*250+120*150)/long)
	// the same gear with the haunch turned: both sizes are 100 out
	r = checked(t, chain{Gear: "roof-halves-24", Swap: flatTop, Jobs: [][2]string{{"top: 200 x 200 mm", "top: 150 x 250 mm"}}})
	bayReads(t, r, "setup.range", 1, 1, "corner panel run", result.Fail, 100)
	bayReads(t, r, "setup.range", 1, 1, "corner panel rise", result.Fail, 100)
}

func TestBottomHaunchHasItsOwnRunAndRise(t *testing.T) {
	// the haunch from (1500 - run, 0) to (1500, rise); the foot stands off it by
	// (rise (1500 - run - y) + run z) / hypot(run, rise); 86.3 for 150 x 150
	y, z := footOf(1.500, 2.250, 0.120, swungHome)
	for _, h := range [][2]float64{{0.200, 0.100}, {0.150, 0.250}} {
		run, rise := h[0], h[1]
		r := checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{{"bottom: 150 x 150 mm", fmt.Sprintf("bottom: %.0f x %.0f mm", run*1e3, rise*1e3)}}})
		bayGap(t, r, 1, 1, "down to wheels", "wall panel", "haunch_bottom", 1e3*(rise*(1.500-run-y)+run*z)/math.Hypot(run, rise))
		// treads at (1800 + 100)/2 from the toe
		bayReads(t, r, "roll.track", 1, 1, "outer edge of the treads", result.Pass, 1e3*(1.500-run)-950)
	}
}

func TestFormThatLapsAKickerNoHigherThanTheHaunchDigsIntoIt(t *testing.T) {
	// kicker 300, bottom haunch 150 x 300: it runs up to the kicker's top, so
	// that the foot, 50 below it, stands 50 x 150 / hypot(150, 300) = 22.36 deep
	// as set; a haunch of 150 x 150 leaves it free
	r := checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{{"bottom: 150 x 150 mm", "bottom: 150 x 300 mm"}}})
	c := bayReads(t, r, "strip.dig", 1, 1, "fillers and ties out", result.Fail, -50*150/math.Hypot(150, 300))
	if c.Where.Zone != "haunch_bottom" || !strings.HasPrefix(c.Where.Part, "W") {
		t.Errorf("names %s at %s", c.Where.Part, c.Where.Zone)
	}
	bayReads(t, r, "setup.range", 1, 1, "reach over the kicker, least", result.Pass, 50)
}

func TestFormThatEndsAtAKickerAsHighAsTheHaunchComesOff(t *testing.T) {
	// kicker and haunch 250 high, no lap: the foot stands on the haunch's edge as
	// set, and (250 (1350 - y) + 150 z) / hypot(150, 250) off it when collapsed
	r := checked(t, chain{Gear: "roof-halves-24", Swap: [][2]string{{"over_kicker: {min: 25 mm, max: 120 mm, prefer: 50 mm}", "over_kicker: {min: 0 mm, max: 120 mm, prefer: 0 mm}"}},
		Jobs: [][2]string{{"bottom: 150 x 150 mm", "bottom: 150 x 250 mm"}, {"kicker: 300 mm", "kicker: 250 mm"}}})
	allPass(t, r)
	bayReads(t, r, "setup.range", 1, 1, "reach over the kicker, least", result.Pass, 0)
	bayReads(t, r, "strip.dig", 1, 1, "fillers and ties out", result.Pass, 0)
	y, z := footOf(1.500, 2.250, 0.120, swungHome)
	bayGap(t, r, 1, 1, "down to wheels", "wall panel", "haunch_bottom", 1e3*(0.250*(1.350-y)+0.150*z)/math.Hypot(0.150, 0.250))
	// the kicker ends at 250: its edge is nearest to the panel's face, which
	// runs up from the foot turned in by the swing; to one of 300 it is 141.7
	bayGap(t, r, 1, 1, "down to wheels", "wall panel", "kicker", 1e3*((1.500-y)*math.Cos(swungHome)-(0.250-z)*math.Sin(swungHome)))
}

// noBottom is the worked cell without a bottom haunch.
var noBottom = [2]string{"haunch: {top: 200 x 200 mm, bottom: 150 x 150 mm}", "haunch: {top: 200 x 200 mm}"}

func TestWithoutABottomHaunchTheWheelsMayRunToTheWallAndNothingIsDug(t *testing.T) {
	// lowered by 120 with the feet out: the foot slides on the kicker from 250 to
	// 130; a haunch of 150 is met 20 / sqrt 2 = 14.1 deep
	early := worked.Sequence(worked.FillersOut, worked.ToWheels)
	r := checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{noBottom, early}})
	bayReads(t, r, "strip.dig", 1, 1, "down to wheels", result.Pass, 0)
	bayReads(t, r, "strip.drag", 1, 1, "down to wheels", result.Fail, 120)
	bayGap(t, r, 1, 1, "down to wheels", "wall panel", "invert", 250-120)
	// 1500 - (1800 + 100)/2; 400 from the toe of a haunch of 150
	c := bayReads(t, r, "roll.track", 1, 1, "outer edge of the treads", result.Pass, 550)
	if strings.Contains(c.Text, "haunch") {
		t.Error(c.Text)
	}
	for _, c := range r.Checks {
		if c.Where.Zone == "haunch_bottom" || strings.HasSuffix(c.Subject.String(), "bottom haunch, collapsed") {
			t.Errorf("%s %s has a bottom haunch that is not there: %s", c.ID, c.Subject, c.Text)
		}
	}
}
