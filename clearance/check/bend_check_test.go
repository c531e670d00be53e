package check

import (
	"fmt"
	"math"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

// bends are the checks of pour 1 of the worked cell with its whole form; the
// carrier is on its wheels with its wall's foot 1356.2 from the centreline and
// 86.3 from the bottom haunch (worked by hand, see worked_test.go).
func bends(t *testing.T, c chain) map[string]result.Entry {
	t.Helper()
	return bendsAt(t, c, 0)
}

func bendsAt(t *testing.T, c chain, at int) map[string]result.Entry {
	t.Helper()
	c.Gear, c.Whole = "roof-halves-24", true
	return byHand(t, c, at, (*bay).bendChecks)
}

const sweptPanels, sweptWheels = "swept width, panels and frame", "swept width, wheels and jacks"

// onStraight is how far a zone is passed where nothing bends, in millimetres.
func onStraight(t *testing.T) float64 {
	t.Helper()
	// a bend of a ten-thousandth of a degree throws 3 nanometres
	e := bends(t, chain{Job: worked.Bent("0.0001 deg")})[sweptPanels]
	if e.Value == nil || math.Abs(1e3*e.Value.Lower-86.28) > 0.05 {
		t.Fatalf("on the straight %v: %s", e.Value, e.Text)
	}
	return 1e3 * e.Value.Lower
}

func TestSweptWidthIsTheWorkedThrowOffTheStraightClearance(t *testing.T) {
	straight := onStraight(t)
	// 28.8 and 86.4 inside, 1/sqrt 2 of it square to the haunch of 45 degrees;
	// 86.28 - 61.10 = 25.18 less 22.65 for tolerances is short of 25
	for degrees, want := range map[float64]struct {
		throw float64
		v     result.Verdict
	}{1: {28.798, result.Pass}, 3: {86.414, result.Fail}} {
		e := reads(t, bends(t, chain{Job: worked.Bent(fmt.Sprintf("%g deg", degrees))}), sweptPanels, want.v, straight-want.throw/math.Sqrt2, 0.01)
		says(t, e, "to the inside", "steered the best way")
		if e.Where.Zone != "haunch_bottom" {
			t.Errorf("governed by %s: %s", e.Where.Zone, e.Text)
		}
	}
}

func TestSweptWidthByHandAgreesWithTheSearchOfTheWay(t *testing.T) {
	r := checked(t, chain{Gear: "roof-halves-24", Whole: true, Job: worked.Bent("1 deg")})
	search := rolled(t, r, "bottom haunch")
	for _, e := range r.Checks {
		if e.ID != "roll.bend" || e.Subject.String() != "cell 1, pour 1, "+sweptPanels {
			continue
		}
		if e.Value.Lower > search.Upper || e.Value.Upper < search.Lower || search.Lower-e.Value.Lower > 0.2e-3 {
			t.Errorf("by hand %.3f..%.3f mm, by search %.3f..%.3f mm", 1e3*e.Value.Lower, 1e3*e.Value.Upper, 1e3*search.Lower, 1e3*search.Upper)
		}
		return
	}
	t.Error("no swept width")
}

func TestTailIsThrownOutsideWhereItOverhangsFar(t *testing.T) {
	// wheels at 3.00 and 6.30 m: (3.30/2) tan 0.5 deg = 14.4 under mid base,
	// overhang 3.00 x sin 1 deg = 52.4 at both ends
	c := chain{Job: worked.Bent("1 deg"), Swap: [][2]string{{"at: [1.35 m, 7.95 m]", "at: [3.00 m, 6.30 m]"}}}
	e := reads(t, bends(t, c), sweptPanels, result.Pass, onStraight(t)-3000*math.Sin(math.Pi/180)/math.Sqrt2, 0.01)
	says(t, e, "to the outside", "52.4 mm")
}

func TestOffsetSteeringMovesTheThrowToTheOtherSide(t *testing.T) {
	// the bend is to the left: 86.414 inside under mid base, 1350 sin 3 deg = 70.653
	// outside at the tail; 5 to the right takes 5 off the one and adds it to the
	// other, 5 to the left the other way, and 30 to the right leaves 100.7 outside
	for offset, thrown := range map[string]struct {
		mm     float64
		toward string
	}{"-5 mm": {86.414 - 5, "inside"}, "5 mm": {86.414 + 5, "inside"}, "-30 mm": {70.653 + 30, "outside"}} {
		c := chain{Job: worked.Bent("3 deg"), Jobs: [][2]string{worked.Travels("steering: offset, offset: " + offset)}}
		e := reads(t, bends(t, c), sweptPanels, result.Fail, onStraight(t)-thrown.mm/math.Sqrt2, 0.01)
		says(t, e, "to the "+thrown.toward)
	}
}

func TestGuideRollersThrowByTheirOwnBase(t *testing.T) {
	// rollers 4.00 m apart: 2000 tan 1.5 deg = 52.4 inside; beyond them 2.65 m hang
	// over, 2650 sin 3 deg = 138.7 outside, more than the 120.606 at which the wall
	// panel stands from the wall
	c := chain{Job: worked.Bent("3 deg"), Jobs: [][2]string{worked.Travels("steering: guide rollers, rollers: {side: left, rear: 2.65 m, front: 6.65 m}")}}
	e := reads(t, bends(t, c), sweptPanels, result.Fail, 120.606-2650*math.Sin(3*math.Pi/180), 0.01)
	says(t, e, "to the outside", "138.7 mm")
}

func TestTwoAnglePointsUnderOneCarrierCountTogether(t *testing.T) {
	// pours of 4 m: 2 deg in all, 3300 x tan 1 deg = 57.6; one alone 28.8
	job := worked.Bent("1 deg")
	c := chain{Job: job, Jobs: [][2]string{{"[9 m, 9 m]", "[9 m, 4 m, 9 m]"}, {"{tangent: 9 m}]", "{tangent: 4 m}, {turn: 1 deg right}, {tangent: 9 m}]"}}}
	e := reads(t, bends(t, c), sweptPanels, result.Open, onStraight(t)-3300*math.Tan(math.Pi/180)/math.Sqrt2, 0.01)
	says(t, e, "2 angle points of 2.00 deg together")
	if e.Value.Upper < e.Value.Lower+0.02 {
		t.Errorf("value %v does not say that one turn alone throws less", e.Value)
	}
}

func TestMiddleWheelsAreThrownOffTheCourse(t *testing.T) {
	low := func(swap ...[2]string) float64 {
		e := bends(t, chain{Job: worked.Bent("3 deg"), Swap: swap})[sweptWheels]
		return 1e3 * e.Value.Lower
	}
	// a line at 4.65 m is under mid base and 86.4 off the course, its wheels 950
	// from the centreline and 400 from the toe on the straight
	three := low([2]string{"at: [1.35 m, 7.95 m]", "at: [1.35 m, 4.65 m, 7.95 m]"})
	if want := (400 - 86.414) / math.Sqrt2; math.Abs(three-want) > 0.01 {
		t.Errorf("middle wheels %.2f mm from the haunch, want %.2f", three, want)
	}
	// outer lines run on the course; then a jack plate governs that reaches to
	// 4.125 m, p = 2775 and q = 3825, and 975 out, 60 up: p q tan 3 deg / B = 84.3
	if want, two := (525+60-150-84.2)/math.Sqrt2, low(); math.Abs(two-want) > 0.2 {
		t.Errorf("jack plates %.2f mm from the haunch, want %.2f", two, want)
	}
}

func TestWheelsThatCannotSteerScrubHalfTheBaseTimesTheTurn(t *testing.T) {
	half := rollingWeight(t, chain{Gear: "roof-halves-24", Whole: true}) / 2
	list := bends(t, chain{Job: worked.Bent("1 deg")})
	// 3300 x 1 deg = 57.6; rocking on two wheels, friction 0.8
	e := reads(t, list, "scrub", result.Pass, 1e3*0.8*half, 30)
	says(t, e, "57.6 mm at line 1, 57.6 mm at line 2", "a wheel carries 36.00 kN")
	weak := chain{Job: worked.Bent("1 deg"), Swap: [][2]string{{"side: 36 kN", "side: 20 kN"}}}
	reads(t, bends(t, weak), "scrub", result.Fail, 1e3*0.8*half, 30)
	// what a wheel carries sideways is not taken for granted
	unsaid := chain{Job: worked.Bent("1 deg"), Swap: [][2]string{{", side: 36 kN", ""}}}
	e = reads(t, bends(t, unsaid), "scrub", result.Open, 1e3*0.8*half, 30)
	says(t, e, "give wheels.side")
	if e.Limit != nil || e.Margin != nil {
		t.Errorf("limit %v, margin %v", e.Limit, e.Margin)
	}
	// level but for 6 over the base of 6600: 2 x 0.02 + 6/6600 to start; scrub
	// 0.8 x W/2 x tan 1 deg
	pull := 2*half*(2*0.02+6.0/6600) + 0.8*half*math.Tan(math.Pi/180)
	reads(t, list, "pull round the bend", result.Pass, 1e3*pull, 10)
	slack := chain{Job: worked.Bent("1 deg"), Jobs: [][2]string{{"capacity: 20 kN", "capacity: 2.8 kN"}}}
	reads(t, bends(t, slack), "pull round the bend", result.Fail, 1e3*pull, 10)
}

func TestWheelsThatSwivelDoNotScrub(t *testing.T) {
	list := bends(t, chain{Job: worked.Bent("1 deg"), Swap: [][2]string{{"axle: 110 mm", "axle: 110 mm, swivel: true"}}})
	if e := list["scrub"]; e.Verdict != result.Pass || e.Value != nil || e.Text == "" {
		t.Errorf("%v", e)
	}
	if _, ok := list["pull round the bend"]; ok {
		t.Error("a pull for wheels that do not slide")
	}
}

func TestLapAcrossAnAnglePointDigsItsLengthTimesTheSine(t *testing.T) {
	// worked: 300 at 3 deg 15.7, at 1 deg 5.2; 3 allowed / sin 1 deg = 171.896, rounded down so that it is enough
	for _, c := range []struct {
		lap, turn string
		dig       float64
		want      result.Verdict
	}{{"300 mm", "3 deg", 15.70, result.Fail}, {"300 mm", "1 deg", 5.24, result.Fail}, {"150 mm", "1 deg", 2.62, result.Pass}} {
		job := chain{Job: worked.Bent(c.turn), Jobs: [][2]string{{"[9 m, 9 m]", "[9 m, 8.9 m]\n  lap: " + c.lap}}}
		e := reads(t, bendsAt(t, job, 1), "lap over the pour before", c.want, c.dig, 0.01)
		if c.turn == "1 deg" && c.want == result.Fail {
			says(t, e, "171.8 mm", "culvert.lap")
		}
	}
	e := bendsAt(t, chain{Job: worked.Bent("1 deg")}, 1)["lap over the pour before"]
	if e.Verdict != result.Pass || e.Value != nil {
		t.Errorf("no lap: %v", e)
	}
}

func TestFormOverTheJointAheadDigsWhatItsOutsideReaches(t *testing.T) {
	// 9300 - 9000 - 1500 tan 0.5 deg = 286.9, x sin 1 deg
	want := (300 - 1500*math.Tan(math.Pi/360)) * math.Sin(math.Pi/180)
	reads(t, bends(t, chain{Job: worked.Bent("1 deg")}), "form over the joint ahead", result.Fail, want, 0.01)
}

func TestMidOrdinateOfAPourOnACurveIsHeldAgainstItsLimit(t *testing.T) {
	// R - sqrt(R² - c²/4) with an arc of 9 on 300: 33.75; on 1200 8.44
	job := func(radius string) [2]string {
		return [2]string{"{tangent: 9 m}, {turn: 1 deg left}, {tangent: 9 m}", "{curve: {radius: " + radius + ", length: 18 m, turn: left}}"}
	}
	reads(t, bends(t, chain{Job: worked.Bent("1 deg"), Jobs: [][2]string{job("300 m")}}), "mid-ordinate", result.Fail, 33.75, 0.05)
	reads(t, bends(t, chain{Job: worked.Bent("1 deg"), Jobs: [][2]string{job("1200 m")}}), "mid-ordinate", result.Pass, 8.44, 0.05)
	wide := [2]string{"gear: gear.yaml", "limits: {roll.mid_ordinate: 40 mm}\ngear: gear.yaml"}
	reads(t, bends(t, chain{Job: worked.Bent("1 deg"), Jobs: [][2]string{job("300 m"), wide}}), "mid-ordinate", result.Pass, 33.75, 0.05)
}

func TestStraightWayHasNothingToBendRound(t *testing.T) {
	list := byHand(t, chain{Gear: "roof-halves-24"}, 0, (*bay).bendChecks)
	e := list["advance"]
	if len(list) != 1 || e.Verdict != result.Pass || e.Value != nil || e.Limit != nil {
		t.Errorf("%v", list)
	}
	says(t, e, "no angle point")
}

func TestCarrierThatDoesNotStandOnItsWheelsLeavesTheBendOpen(t *testing.T) {
	list := bends(t, chain{Job: worked.Bent("1 deg"), Jobs: [][2]string{worked.Sequence(worked.FillersOut)}})
	if e := list["swept width"]; e.Verdict != result.Open || e.Text == "" {
		t.Errorf("%v", list)
	}
}
