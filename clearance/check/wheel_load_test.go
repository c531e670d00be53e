package check

import (
	"math"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/model"
)

// carried are the loads on wheels and jacks of one bay, by subject.
func carried(t *testing.T, c chain) map[string]result.Entry {
	t.Helper()
	if c.Gear == "" {
		c.Gear = "roof-halves-24"
	}
	return byHand(t, c, 0, func(b *bay, s *model.Study) []Judged {
		return append(b.jackChecks(s), b.onTheWay(s).wheelChecks(nil)...)
	})
}

// wheelsCarry is the worked gear with wheels of another capacity.
func wheelsCarry(capacity string) chain {
	return chain{Swap: [][2]string{{"capacity: 75 kN, side", "capacity: " + capacity + ", side"}}}
}

func TestAWheelBeyondItsCapacityFails(t *testing.T) {
	w := rollingWeight(t, chain{Gear: "roof-halves-24"})
	// four wheels, 1800 apart across and along; tracks and invert up to 6 off
	// level: the weight, 1.45 up, acts 1.45 x 6/1.8 = 4.8 off the middle both ways.
	// Standing W/4 (1 + 2 x 4.8/1800 + 2 x 4.8/1800). Rocking, a wheel can carry what
	// its line along or its side across does, W/2 (1 + 2 x 4.8/1800), x 1.6
	lean := 2 * 1.45 * 6 / 1800 / 1800 * 1e3
	standing, rocking := w/4*(1+2*lean), 1.6*w/2*(1+lean)
	for capacity, want := range map[string][2]result.Verdict{"1 kN": {result.Fail, result.Fail}, "10 kN": {result.Pass, result.Fail}, "75 kN": {result.Pass, result.Pass}} {
		list := carried(t, wheelsCarry(capacity))
		says(t, reads(t, list, "wheel, standing", want[0], 1e3*standing, 1e3*standing*2e-3), "4 wheels", "a wheel carries")
		says(t, reads(t, list, "wheel, rocking", want[1], 1e3*rocking, 1e3*rocking*2e-3), "x 1.60", "a wheel carries")
	}
	// it fails the job
	r := checked(t, wheelsCarry("1 kN").With("roof-halves-24"))
	failsBy(t, r, "roll.wheel")
}

func TestAWheelWithoutCapacityIsOpenAndNamesTheKey(t *testing.T) {
	list := carried(t, chain{Swap: [][2]string{{", capacity: 75 kN, side", ", side"}}})
	for _, what := range []string{"wheel, standing", "wheel, rocking"} {
		e := list[what]
		if e.Verdict != result.Open || e.Value == nil || e.Limit != nil {
			t.Errorf("%s: %v, value %v, limit %v", what, e.Verdict, e.Value, e.Limit)
		}
		says(t, e, "wheels.capacity", "gear file")
	}
}

func TestAJackBeyondItsCapacityFails(t *testing.T) {
	s := chain{Gear: "roof-halves-24"}.Study(t)
	w := weightRaised(s)
	// four jacks under two bents, on a level invert: W/4 standing, W/2 where two
	// diagonal ones carry
	for capacity, want := range map[string][2]result.Verdict{"1 kN": {result.Fail, result.Fail}, "7 kN": {result.Pass, result.Fail}, "60 kN": {result.Pass, result.Pass}} {
		list := carried(t, chain{Swap: [][2]string{{"screw: 60 mm, capacity: 60 kN", "screw: 60 mm, capacity: " + capacity}}})
		e := reads(t, list, "jack, standing", want[0], 1e3*w/4, 1e3*w*5e-3)
		says(t, e, "4 jacks", "a jack carries", "own weight only; loads of the pour are held by pour.jacks")
		says(t, reads(t, list, "jack, worst three", want[1], 1e3*w/2, 1e3*w*5e-3), "own weight only; loads of the pour are held by pour.jacks")
	}
}

func TestAJackWithoutCapacityIsOpenAndNamesTheKey(t *testing.T) {
	list := carried(t, chain{Swap: [][2]string{{"screw: 60 mm, capacity: 60 kN", "screw: 60 mm"}}})
	for _, what := range []string{"jack, standing", "jack, worst three"} {
		if e := list[what]; e.Verdict != result.Open || e.Value == nil {
			t.Errorf("%s: %v", what, e)
		}
		says(t, list[what], "jack.capacity", "gear file")
	}
}

// weightRaised is all that stands on the jacks of the first bay, kN.
func weightRaised(s *model.Study) float64 {
	var mass float64
	for _, p := range s.Bays[0].Carrier.Parts {
		mass += p.Mass.High + 10*p.Face // at most, with 10 kg/m2 of face on it
	}
	return mass * 9.80665 / 1000
}

// A grade throws the weight down it by its height times the slope, which the
// wheels at the low end carry.
func TestWheelsAtTheLowEndOfAGradeCarryMore(t *testing.T) {
	level := carried(t, chain{})["wheel, standing"]
	steep := carried(t, chain{Jobs: [][2]string{{"gear: gear.yaml", "alignment: {grade: 6 %}\ngear: gear.yaml"}}})["wheel, standing"]
	// W/4 x 2 x (1450 x 0.06) / 1800 = W/4 x 9.7 %
	w := rollingWeight(t, chain{Gear: "roof-halves-24"})
	if more, want := steep.Value.Lower-level.Value.Lower, w/4*2*1.45*0.06/1.8; math.Abs(more-want) > 0.02*want {
		t.Errorf("%.3f kN more, want %.3f", more, want)
	}
}
