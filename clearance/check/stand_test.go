package check

import (
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/result"
)

// largePlates puts plates of 250 under the worked cell's jacks, which stand 900
// from the centreline: 775 to 1025.
var largePlates = [2]string{"plate: 150 x 150 x 15 mm", "plate: 250 x 250 x 15 mm"}

func TestJackPlateOverTheEdgeOfAChannelSaysByHowMuchItHangsOver(t *testing.T) {
	// the channel from 990 to 1090 takes 35 of the plate; the tread ends at 950
	c := channelled("{offset: 1.04 m, width: 100 mm, depth: 100 mm}")
	c.Swap = append(c.Swap, largePlates)
	r := checked(t, c)
	e := bayReads(t, r, "setup.rest", 1, 1, "plates on the invert", result.Fail, 990-1025)
	if !strings.Contains(e.Text, "hangs 35.0 mm over the edge of the low-flow channel") {
		t.Error(e.Text)
	}
	bayReads(t, r, "setup.rest", 1, 1, "treads on the invert", result.Pass, 990-950)
	// 40 farther out it stands, with 5 left
	c = channelled("{offset: 1.08 m, width: 100 mm, depth: 100 mm}")
	c.Swap = append(c.Swap, largePlates)
	bayReads(t, checked(t, c), "setup.rest", 1, 1, "plates on the invert", result.Pass, 1030-1025)
}

func TestWheelOverAChannelDoesNotStand(t *testing.T) {
	// tread 850 to 950 on the channel from 900 to 1000: half of it
	r := checked(t, channelled("{offset: 0.95 m, width: 100 mm, depth: 100 mm}"))
	bayReads(t, r, "setup.rest", 1, 1, "treads on the invert", result.Fail, 900-950)
}

func TestPlateAtASkewedEndStandsWithAllItsCornersOnTheSlab(t *testing.T) {
	// no apron at the inlet, 30 degrees: the form begins 1500 tan 30 behind the
	// line, the first bent 600 ahead of that. On the left the slab begins 900
	// tan 30 ahead of the line at the plate's middle, and at its outer corner,
	// 975 out, 75 tan 30 farther; the corner stands 75 before the bent
	tan := math.Tan(30 * math.Pi / 180)
	r := checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{{"  pours: [2.3 m]\n", "  pours: [1.2 m]\n  skew: {inlet: 30 deg}\n"}}})
	bayReads(t, r, "setup.rest", 1, 1, "plates on the invert", result.Fail, 1e3*(-1.5*tan+0.6-0.075-0.975*tan))
	// the wheels, 300 in the form, have a contact of 60 by 100
	bayReads(t, r, "setup.rest", 1, 1, "treads on the invert", result.Fail, 1e3*(-1.5*tan+0.3-0.030-0.950*tan))
	// an apron of 3000 holds them
	r = checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{{"  pours: [2.3 m]\n", "  pours: [1.2 m]\n  skew: {inlet: 30 deg}\n"}, withAprons}})
	bayReads(t, r, "setup.rest", 1, 1, "plates on the invert", result.Pass, 1e3*(3-1.5*tan+0.6-0.075-0.975*tan))
}

func TestFreeEdgeBesideATreadIsTheChannelsOrTheOutsideOfTheWall(t *testing.T) {
	// outside of the wall: 1500 + 250 - 950; a channel's edge 100 from the tread,
	// less 15 for wander
	for _, one := range []struct {
		chain
		want float64
	}{{chain{Gear: "roof-halves-24"}, 0.800}, {channelled("{offset: 0.7 m, width: 100 mm, depth: 100 mm}"), 0.085}} {
		s := one.Study(t)
		b := inspected(s, 0)
		if got := (&route{bay: b, job: s.Job}).freeEdge(); math.Abs(got-one.want) > 1e-9 {
			t.Errorf("%.4f, want %.4f", got, one.want)
		}
	}
}

func TestEdgeOfAChannelTakesBearingFromTheInvert(t *testing.T) {
	bears := func(channel string) float64 {
		c, ok := checkOf(checked(t, channelled(channel)), "roll.bearing", 1, 1, "wheels")
		if !ok || c.Limit == nil {
			t.Fatalf("%s: %s", channel, c.Text)
		}
		return *c.Limit
	}
	// contact 60 x 100: 10 from the edge A2 is (1 + 2 x 10/100)^2 = 1.44 of A1,
	// its root 1.2; far from it the root is 2 at most
	far, near := bears("{offset: 0 m, width: 100 mm, depth: 100 mm}"), bears("{offset: 0.775 m, width: 100 mm, depth: 100 mm}")
	if math.Abs(near/far-1.2/2) > 1e-6 {
		t.Errorf("bears %.3f beside the edge and %.3f away from it", near, far)
	}
}

func TestTracksOutOfLevelTipByTheCarriersOwnGauge(t *testing.T) {
	// 6 over 1800 = 0.33 %
	c, ok := checkOf(checked(t, chain{Gear: "roof-halves-24"}), "roll.tip", 1, 1, "across")
	if !ok || !strings.Contains(c.Text, "slope 0.33 %") {
		t.Error(c.Text)
	}
	// set to a gauge of 1600: 0.38 %
	c, ok = checkOf(checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{{"gear: gear.yaml", "set: {gauge: 1600 mm}\ngear: gear.yaml"}}}), "roll.tip", 1, 1, "across")
	if !ok || !strings.Contains(c.Text, "slope 0.38 %") {
		t.Error(c.Text)
	}
}
