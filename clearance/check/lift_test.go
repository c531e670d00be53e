package check

import (
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/carrier"
)

// byHand runs one group of checks of one bay from job and gear text, without
// the searches of all the others.
func byHand(t *testing.T, c chain, at int, group func(*bay, *model.Study) []Judged) map[string]result.Entry {
	t.Helper()
	s := c.Study(t)
	b := inspected(s, at)
	out := map[string]result.Entry{}
	for _, e := range group(b, s) {
		rest := e.Subject.Rest()
		if _, twice := out[rest]; twice {
			t.Errorf("two entries about %s", rest)
		}
		out[rest] = e.Entry
	}
	return out
}

// reads holds one entry's value, in thousandths of its unit, and its verdict.
func reads(t *testing.T, list map[string]result.Entry, rest string, want result.Verdict, value, by float64) result.Entry {
	t.Helper()
	e, ok := list[rest]
	if !ok {
		t.Errorf("no entry about %s", rest)
		return e
	}
	if e.Verdict != want || e.Value == nil || math.Abs(1e3*e.Value.Lower-value) > by {
		t.Errorf("%s: %v %v, want %v %.3f/1000: %s", rest, e.Verdict, e.Value, want, value, e.Text)
	}
	return e
}

// says holds that an entry's text has all of some words.
func says(t *testing.T, e result.Entry, words ...string) {
	t.Helper()
	for _, w := range words {
		if !strings.Contains(e.Text, w) {
			t.Errorf("%s does not say %q: %s", e.Subject, w, e.Text)
		}
	}
}

func lifts(t *testing.T, c chain) map[string]result.Entry {
	t.Helper()
	c.Gear = "roof-halves-24"
	return byHand(t, c, 0, (*bay).liftChecks)
}

// rollingWeight is the carrier without fillers and ties, kN.
func rollingWeight(t *testing.T, c chain) float64 {
	t.Helper()
	var mass float64
	for _, p := range c.Study(t).Bays[0].Carrier.Parts {
		if p.Role != carrier.Filler && p.Role != carrier.Tie {
			mass += p.Mass.High + 10*p.Face // at most, with 10 kg/m2 of face on it
		}
	}
	return mass * 9.80665 / 1000
}

func TestLiftingJackTakesHalfTheCarrierAtWorst(t *testing.T) {
	half := rollingWeight(t, chain{Gear: "roof-halves-24"}) / 2
	// links on one side of their bents put the centre of gravity a little off
	// the middle along the carrier, which moves nothing from side to side; a pass of
	// 10 mm over the gauge of 1800 leans it, 1.40 to 1.47 m up, by 7.8 to 8.2 mm
	// across, which is 0.86 to 0.91 % of half the gauge
	leant, within := 1e3*half*1.00885, 1e3*half*0.0004
	got := reads(t, lifts(t, chain{}), "load on a lifting jack", result.Pass, leant, within)
	says(t, got, "all 4 pads", "60.00 kN")
	for capacity, want := range map[string]result.Verdict{"1 kN": result.Fail, "200 kN": result.Pass} {
		reads(t, lifts(t, chain{Swap: [][2]string{{"capacity: 60 kN, stroke", "capacity: " + capacity + ", stroke"}}}), "load on a lifting jack", want, leant, within)
	}
}

func TestLiftingJackGoesFromWheelsToRaisedAndThroughItsPacking(t *testing.T) {
	// the jack reads 330 raised and 210 where the wheels touch: 120 + 10
	for stroke, want := range map[string]result.Verdict{"200 mm": result.Pass, "130 mm": result.Pass, "125 mm": result.Fail} {
		list := lifts(t, chain{Swap: [][2]string{{"stroke: 200 mm", "stroke: " + stroke}}})
		says(t, reads(t, list, "stroke of a lifting jack", want, 130, 1e-6), "120.0 mm", "10.0 mm for packing")
	}
	// 120 + 35
	list := lifts(t, chain{Swap: [][2]string{{"stroke: 200 mm", "stroke: 150 mm, packing: 35 mm"}}})
	if e := reads(t, list, "stroke of a lifting jack", result.Fail, 155, 1e-6); e.Margin == nil || math.Abs(*e.Margin+0.005) > 2e-6 {
		t.Errorf("margin %v", e.Margin)
	}
}

func TestFrameLeansByOnePassOverThePads(t *testing.T) {
	// 10 over 1950 - 450 = 1500 along and over the gauge of 1800 across
	list := lifts(t, chain{})
	reads(t, list, "tilt along", result.Pass, 1e3*10/1500, 1e-6)
	says(t, reads(t, list, "tilt across", result.Pass, 1e3*10/1800, 1e-6), "1:180", "13.3 mm to the side")
	// 30 / 1800 = 16.7 over 1 m, above 15
	list = lifts(t, chain{Swap: [][2]string{{"pass: 10 mm", "pass: 30 mm"}}})
	reads(t, list, "tilt across", result.Fail, 1e3*30/1800, 1e-6)
	list = lifts(t, chain{Jobs: [][2]string{{"gear: gear.yaml", "limits: {raise.lift: 6 mm}\ngear: gear.yaml"}}})
	reads(t, list, "tilt across", result.Pass, 1e3*10/1800, 1e-6)
	reads(t, list, "tilt along", result.Fail, 1e3*10/1500, 1e-6)
}

func TestGearWithoutLiftingPadsLeavesTheLiftOpenAndNamesTheKey(t *testing.T) {
	list := lifts(t, chain{Swap: [][2]string{{"lifting: {pads: [0.45 m, 1.95 m], capacity: 60 kN, stroke: 200 mm, pass: 10 mm, last: 3 mm}\n", ""}}})
	e := list["lifting jacks"]
	if len(list) != 1 || e.Verdict != result.Open {
		t.Fatalf("%v", list)
	}
	says(t, e, "lifting: {pads, capacity, stroke}")
}

func TestLiftIsOpenWhereTheCollapseDoesNotEndOnTheWheels(t *testing.T) {
	e := lifts(t, chain{Jobs: [][2]string{worked.Sequence(worked.FillersOut)}})["lifting jacks"]
	if e.Verdict != result.Open || e.Text == "" {
		t.Errorf("%v", e)
	}
}
