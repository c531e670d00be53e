package check

import (
	"math"
	"testing"

	"boxwalk/clearance/result"
)

// channelled is the worked cell with a low-flow channel. Wheels and jack plates
// run at 900 from the centreline: treads of 100, plates of 150.
func channelled(channel string) chain {
	return chain{Gear: "roof-halves-24", Jobs: [][2]string{{"kicker: 300 mm", "kicker: 300 mm\n  channel: " + channel}, withAprons}}
}

func TestPlateOverAChannelIsAsFarFromConcreteAsTheChannelsEdgeOrFloor(t *testing.T) {
	// from 800 to 1000 left: the plate, 825 to 975 and drawn up 60, is 25 beside
	// the edge and 60 above it; 60 if the channel were filled. The wheel, 850 to
	// 950, hangs 50 beside the edge with its rim level with it; filled, it stands
	r := checked(t, channelled("{offset: 0.9 m, width: 200 mm, depth: 100 mm}"))
	bayGap(t, r, 1, 1, "raise jack plates", "jack plate", "invert", math.Hypot(60, 25))
	bayGap(t, r, 1, 1, "down", "jack plate", "invert", 25)
	bayGap(t, r, 1, 1, "raise jack plates", "wheel", "invert", 50)
	bayReads(t, r, "roll.track", 1, 1, "low-flow channel", result.Fail, 0-200/2-100/2)
	// from 700 to 1100: the floor, 100 down, is nearer to the wheel than the
	// edge, 150 beside it; the plate is 60 + 100 above the floor and nearer to
	// the edge, 60 up and 125 beside
	r = checked(t, channelled("{offset: 0.9 m, width: 400 mm, depth: 100 mm}"))
	bayGap(t, r, 1, 1, "raise jack plates", "jack plate", "invert", math.Hypot(60, 125))
	bayGap(t, r, 1, 1, "raise jack plates", "wheel", "invert", 100)
}

func TestChannelUnderTheWholeFrameLeavesTheFootNearestToTheInvert(t *testing.T) {
	// 1200 to either side: wheel forks 75 above the wheels' rim are 175 above the
	// floor, jack plates 60 + 100, jack screws 15 + 100 while the plates are
	// down; filled, the forks would govern with 75, plates with 60, screws with
	// 15. The foot stands above the slab beside the channel
	r := checked(t, channelled("{offset: 0 m, width: 2400 mm, depth: 100 mm}"))
	_, z := footOf(1.500, 2.250, 0.120, swungHome)
	bayReads(t, r, "strip.clear", 1, 1, "invert, collapsed", result.Pass, 1e3*z)
	bayReads(t, r, "roll.clear", 1, 1, "invert", result.Pass, 1e3*z)
	bayReads(t, r, "strip.clear", 1, 1, "down, invert", result.Pass, 15+100)
	bayGap(t, r, 1, 1, "raise jack plates", "wheel fork", "invert", 75+100)
	bayGap(t, r, 1, 1, "raise jack plates", "jack plate", "invert", 60+100)
}

func TestChannelBetweenTheWheelsChangesNothingForWhatStandsBesideIt(t *testing.T) {
	r := checked(t, channelled("{offset: 0.1 m, width: 600 mm, depth: 150 mm}"))
	allPass(t, r)
	// the left tread's inner edge at 900 - 50, the channel's at 100 + 300
	bayReads(t, r, "roll.track", 1, 1, "low-flow channel", result.Pass, 850-400)
	// struts run across it from sill to sill, 210 above the slab on both sides
	for _, s := range r.Steps {
		for _, e := range s.End {
			if s.Name == "raise jack plates" && e.Role == "strut" && e.Against == "invert" && math.Abs(e.Value.Upper-0.210) > tenth {
				t.Errorf("strut %v above the invert", e.Value)
			}
		}
	}
	bayGap(t, r, 1, 1, "raise jack plates", "wheel", "invert", 0)
	bayGap(t, r, 1, 1, "raise jack plates", "jack plate", "invert", 60)
	// slab as far as without it: 3000 + 300, and 2300 + 3000 - 2100 less the 2300
	// that the carrier rolls out
	bayReads(t, r, "roll.support", 1, 1, "rear wheels", result.Pass, 3300)
	bayReads(t, r, "roll.support", 1, 1, "front wheels", result.Pass, 900)
}
