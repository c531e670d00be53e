package check

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/carrier"
)

// Ten small jobs of the test data, each about one thing. All have the worked
// cell of 3.0 m by 2.4 m and a form of 4.80 m with bents at 0.6, 1.8, 3.0 and
// 4.2 m and wheels of 200 mm at 0.3 and 4.5 m: base 4.20, overhang 0.30. What
// is worked by hand is held to 0.1 mm, forces to 1 %.
const (
	shortBase   = 4.200 // m, outer wheel line to outer wheel line
	shortRadius = 0.100 // m, of a wheel
	shortTread  = 0.100 // m, width of a wheel
	shortGauge  = 1.800 // m, wheel to wheel
)

func checkFile(t *testing.T, name string, swap ...[2]string) *result.Result {
	t.Helper()
	return lately(fmt.Sprintf("%q %q", name, swap), func() *result.Result {
		return Run(jobFile(t, name, swap...), Options{Version: "test"})
	})
}

// governs holds the entry that governs a check: how its subject ends, its
// verdict and its value, in millimetres or kilonewtons.
func governs(t *testing.T, r *result.Result, id, subject string, verdict result.Verdict, want, by float64) result.Entry {
	t.Helper()
	for _, e := range r.Governing() {
		if e.ID != id {
			continue
		}
		if !strings.HasSuffix(e.Subject.String(), subject) || e.Verdict != verdict || e.Value == nil {
			t.Fatalf("%s is governed by %q, %v, %v; want %q, %v: %s", id, e.Subject, e.Verdict, e.Value, subject, verdict, e.Text)
		}
		scale := map[string]float64{"m": 1e3, "kN": 1, "kPa": 1}[e.Unit]
		if lo, hi := scale*e.Value.Lower, scale*e.Value.Upper; math.Abs(lo-want) > by || math.Abs(hi-want) > by {
			t.Errorf("%s of %s: %.3f..%.3f, want %.3f: %s", id, subject, lo, hi, want, e.Text)
		}
		return e
	}
	t.Fatalf("no %s", id)
	return result.Entry{}
}

// failsBy holds that a job fails, and by nothing but the checks named.
func failsBy(t *testing.T, r *result.Result, ids string) {
	t.Helper()
	failed := map[string]bool{}
	for _, e := range r.Checks {
		if e.Verdict != result.Pass {
			failed[e.ID] = true
			if !strings.Contains(" "+ids+" ", " "+e.ID+" ") {
				t.Errorf("%s %s: %v: %s", e.ID, e.Subject, e.Verdict, e.Text)
			}
		}
	}
	if len(failed) != len(strings.Fields(ids)) || r.Verdict != result.Fail {
		t.Errorf("%v by %v, want fail by %s", r.Verdict, failed, ids)
	}
}

// percent is one per cent of a value.
func percent(v float64) float64 { return v / 100 }

// overCrest is how far the front edge of a jack plate, ahead of the rear one of
// two wheel lines by reach, stands off a crest that turns down by a when it is
// over the edge of the invert behind an open joint. The wheels' axles move on
// lines a radius off the inverts that meet radius/cos(a/2) above the crest; the
// edge of the invert lies half the gap, less radius tan(a/2), beyond where they
// meet, and the chord of the axles is off the lines by a q/B and a p/B.
func overCrest(reach, base, a, gap, plate float64) float64 {
	s := gap/2 - shortRadius*math.Tan(a/2)
	p := reach - s
	rear, front := a*(base-p)/base, a*p/base
	return plate - p*math.Sin(rear) + s*math.Sin(front) - shortRadius*(1-math.Cos(front))
}

func TestThimblewickPassesItsBendOnlyMovedOver(t *testing.T) {
	turn := 3.4 * math.Pi / 180
	half := turn / 2
	// on the straight the wall's foot passes the haunch of 45 degrees and 150 at
	// 86.28: (1500 - 150 - y + z) / sqrt 2. Under the body the joint is open by
	// 100: an edge of the concrete s = 50 along the wall from the corner is off
	// the chord of the wheels' lines by (p - s) q phi / B, p + q = B, at most
	// (B/2) tan(phi/2) (1 - s/B)². The corner itself stands 1500 (1/cos - 1) back;
	// all of it counts 1/sqrt 2 square to the haunch
	y, z := footOf(1.500, 2.250, 0.120, swungHome)
	thrown := shortBase / 2 * math.Tan(half) * math.Pow(1-0.050/shortBase, 2)
	haunch := 1e3 * (1.350 - y + z - thrown + 1.5*(1/math.Cos(half)-1)) / math.Sqrt2

	on := checkFile(t, "thimblewick", [2]string{"steering: offset, offset: -15 mm", "steering: centreline"})
	failsBy(t, on, "roll.clear roll.bend")
	governs(t, on, "roll.clear", "cell 1, pour 1, bottom haunch", result.Fail, haunch, 0.1)

	moved := checkFile(t, "thimblewick")
	bayReads(t, moved, "roll.clear", 1, 1, "bottom haunch", result.Pass, haunch+15*math.Cos(half)/math.Sqrt2)
	if moved.Verdict != result.Pass {
		t.Error(moved.Verdict)
	}
	governs(t, moved, "roll.clear", "cell 1, pour 1, hanger", result.Pass, tailBesideNut(turn), 0.1)
}

// tailBesideNut is how far the left roof half of the carrier at Thimblewick,
// moved over by 15 to the right, passes the last hanger's nut with its tail, in
// millimetres.
func tailBesideNut(turn float64) float64 {
	// the nut is 44 wide, its bottom 50 above the panel's top:
	// 2400 - 20 - 50 over 2280. Its front edge is 600 - 22 before the joint. The
	// half's inner edge is 180 - 120 left of the middle. The rear wheels are u
	// before the joint and the body is turned by b when the tail leaves the nut:
	// law of sines in the triangle of wheels and angle point, which the offset
	// shifts ahead by 15 tan(phi/2)
	b := 0.0
	for range 20 {
		u := 0.578 - 0.300*math.Cos(b) - 0.060*math.Sin(b) + 0.015*math.Tan(turn/2)
		b = turn - math.Asin(u*math.Sin(turn)/shortBase)
	}
	beside := 0.060*math.Cos(b) - 0.300*math.Sin(b) - 0.015 - 0.022
	return 1e3 * math.Hypot(beside, 2.400-0.020-0.050-2.280)
}

func TestOrchardCreekStandsOffItsCurveByTheMidOrdinate(t *testing.T) {
	// L²/8R of 4.83 m on 300 m: 9.72 of 10
	r := checkFile(t, "orchard-creek")
	governs(t, r, "roll.bend", "mid-ordinate", result.Pass, 1e3*4.83*4.83/(8*300), 0.1)
	for pour := 1; pour <= 3; pour++ {
		bayReads(t, r, "roll.bend", 1, pour, "mid-ordinate", result.Pass, 1e3*4.83*4.83/(8*300))
	}
	if r.Verdict != result.Pass {
		t.Error(r.Verdict)
	}
	// on a radius of 280 it is 10.41
	r = checkFile(t, "orchard-creek", [2]string{"radius: 300 m", "radius: 280 m"})
	governs(t, r, "roll.bend", "mid-ordinate", result.Fail, 1e3*4.83*4.83/(8*280), 0.1)
}

func TestRidgeLaneRocksOverTheMiddleOfThreeWheelLines(t *testing.T) {
	// the carrier stands on two of its lines at a time, 2.10 apart: of the front
	// two, at 2.4 and 4.5, the plate of the bent at 3.0 reaches to 675 ahead of
	// the middle one; the plates of the rear two mirror it
	a := math.Atan(0.03)
	r := checkFile(t, "ridge-lane")
	bayReads(t, r, "roll.clear", 1, 1, "invert", result.Pass, 1e3*overCrest(0.675, shortBase/2, a, 0.010, 0.060))
	// with the middle wheels on the crest and the carrier tipped forward its
	// tail's top, 2400 behind them and 2280 up, is nearest to the roof
	tail := 2.400*math.Sin(a) - 2.280*(1-math.Cos(a))
	bayReads(t, r, "roll.clear", 1, 1, "soffit", result.Pass, 120-1e3*tail)
	if r.Verdict != result.Pass {
		t.Error(r.Verdict)
	}
	// on its outer lines only the plates would not pass the same crest
	two := checkFile(t, "ridge-lane", [2]string{"three-lines", "short"})
	failsBy(t, two, "roll.clear")
	governs(t, two, "roll.clear", "cell 1, pour 1, invert", result.Fail, 1e3*overCrest(1.575, shortBase, a, 0.010, 0.060), 0.1)
}

func TestWillowDipLiftsTheMiddleOfTheCarrierTowardTheRoof(t *testing.T) {
	// from 1.4 % down to 1.4 % up: with the joint under mid base the body comes
	// up by (B/2) tan(a/2) over it; the roofs' edges, 25 off the joint, stand
	// (H - r)(1/cos - 1) + 25 tan(a/2) higher than on the straight, 120 over the
	// panels
	half := math.Atan(0.014)
	up := shortBase / 2 * math.Tan(half)
	edge := (2.400-shortRadius)*(1/math.Cos(half)-1) + 0.025*math.Tan(half)
	r := checkFile(t, "willow-dip")
	bayReads(t, r, "roll.clear", 1, 1, "soffit", result.Pass, 120+1e3*(edge-up))
	if r.Verdict != result.Pass {
		t.Error(r.Verdict)
	}
}

func TestFerryRoadNeedsAFormLongerByItsSpan(t *testing.T) {
	// along a skew of 45 degrees: 3000 tan 45 + 1750 of 4800
	r := checkFile(t, "ferry-road")
	governs(t, r, "setup.length", "cell 1, pour 1, form length", result.Pass, 4800, 0.1)
	for pour := 1; pour <= 2; pour++ {
		bayAsks(t, r, "setup.length", 1, pour, "form length", 1e3*(3.0*math.Tan(math.Pi/4)+1.75))
	}
	if r.Verdict != result.Pass {
		t.Error(r.Verdict)
	}
	// 60 longer is 10 too long
	r = checkFile(t, "ferry-road", [2]string{"[1.75 m, 1.75 m]", "[1.81 m, 1.81 m]"})
	governs(t, r, "setup.length", "cell 1, pour 1, form length", result.Fail, 4800, 0.1)
}

// rollsWith is what a job's carrier weighs when it rolls, kN.
func rollsWith(s *model.Study) float64 {
	var mass float64
	for _, p := range s.Bays[0].Carrier.Parts {
		if p.Role != carrier.Filler && p.Role != carrier.Tie {
			mass += p.Mass.High + 10*p.Face // at most, with 10 kg/m2 of face on it
		}
	}
	return mass * 9.80665 / 1000
}

func TestChalkHillRunsAwayWithoutARestraint(t *testing.T) {
	s := jobFile(t, "chalk-hill")
	r := Run(s, Options{Version: "test"})
	// W (sin - 0.01 cos) on 6 % and what 6 over the wheelbase add, and nothing to
	// hold it
	a := math.Atan(0.06 + 0.006/shortBase)
	hold := rollsWith(s) * (math.Sin(a) - 0.01*math.Cos(a))
	e := governs(t, r, "roll.hold", "cell 1, pour 1, restraint", result.Fail, hold, percent(hold))
	if *e.Limit != 0 {
		t.Errorf("limit %v", *e.Limit)
	}
	failsBy(t, r, "roll.hold")
	held := checkFile(t, "chalk-hill", [2]string{"capacity: 20 kN,", "capacity: 20 kN, restraint: {capacity: 2.5 kN},"})
	governs(t, held, "roll.hold", "cell 1, pour 1, restraint", result.Pass, hold, percent(hold))
}

func TestBrowLaneHasItsPlatesTooLow(t *testing.T) {
	// the plates of the bent at 1.8 reach to 1575 ahead of the rear wheels
	r := checkFile(t, "brow-lane")
	want := 1e3 * overCrest(1.575, shortBase, math.Atan(0.04), 0.010, 0.060)
	governs(t, r, "roll.clear", "cell 1, pour 1, invert", result.Fail, want, 0.1)
	failsBy(t, r, "roll.clear")
}

func TestWeirStreetHasNothingUnderAWheelBeforeItsAcuteCornerIsPassed(t *testing.T) {
	// the form is out when its rear is at the left, acute corner, 1500 tan 45
	// beyond the middle of the outlet, and the front wheels 4500 farther. Under the right
	// tread's outer edge the apron of 6900 ends (900 + 50) tan 45 short of that
	skew := math.Tan(math.Pi / 4)
	wheels := 1.5*skew + 4.500
	slab := 6.900 - (shortGauge/2+shortTread/2)*skew
	r := checkFile(t, "weir-street")
	e := governs(t, r, "roll.support", "cell 1, pour 2, front wheels", result.Fail, 1e3*(slab-wheels), 0.1)
	says(t, e, "50.0 mm beyond")
	if want := "lay a longer apron beyond the outlet, by 160.0 mm (ends.outlet.apron)"; e.Remedy != want {
		t.Errorf("the remedy is %q, want %q", e.Remedy, want)
	}
	failsBy(t, r, "roll.support")
	// 100 inside the end asks for 150 more
	r = checkFile(t, "weir-street", [2]string{"outlet: {apron: 6.9 m}", "outlet: {apron: 7.06 m}"})
	bayReads(t, r, "roll.support", 1, 2, "front wheels", result.Pass, 1e3*(slab-wheels)+160)
}

func TestAprilCreekIsTooYoungToBear(t *testing.T) {
	s := jobFile(t, "april-creek")
	r := Run(s, Options{Version: "test"})
	// EN 1992-1-1 B.10: 5 days at 10 degC are worth 5 x 0.616143358 = 3.081 days.
	// 3.1.2: slow cement, 16 MPa: (16 + 8) beta - 8 = 3.16 MPa
	strength := (16+8)*math.Exp(0.38*(1-math.Sqrt(28/(5*0.616143358)))) - 8
	// ACI 318 22.8.3.2: 0.65 x 0.85 f A1 x 2 under a contact of 60 x 100, against
	// 1.6 times half the carrier, rocking on two wheels
	bears := 0.65 * 0.85 * strength * 1e3 * 0.060 * 0.100 * 2
	wheel := 1.6 * rollsWith(s) / 2
	e := governs(t, r, "roll.bearing", "cell 1, pour 1, wheels", result.Fail, wheel, percent(wheel))
	if math.Abs(*e.Limit-bears) > percent(bears) {
		t.Errorf("bears %.2f, want %.2f kN", *e.Limit, bears)
	}
	failsBy(t, r, "roll.bearing")
}

func TestOtterBrookHasItsChannelInTheTrack(t *testing.T) {
	// the wheel's middle 900 out, the channel's 550 and 540 wide: 900 - 550 -
	// 270 - 50 = 30 beside the tread, 15 of it for wander, where 25 are asked for
	r := checkFile(t, "otter-brook")
	e := governs(t, r, "roll.track", "cell 1, pour 1, low-flow channel", result.Fail, 1e3*(shortGauge/2-0.550-0.540/2-shortTread/2), 0.1)
	if math.Abs(*e.Margin-(0.030-0.015-0.025)) > 1e-6 {
		t.Errorf("margin %v", *e.Margin)
	}
	failsBy(t, r, "roll.track")
}
