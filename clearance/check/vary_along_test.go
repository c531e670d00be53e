package check

import (
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/culvert"
)

// pouredAs is the worked cell with pours, joints and ends of its own.
func pouredAs(culvert string) chain {
	return chain{Gear: "roof-halves-24", Jobs: [][2]string{{"  pours: [2.3 m]\n", culvert}, withAprons}}
}

// threePours are of unequal length with a lap of its own at each joint. The
// form begins at 0, 2200 - 150 = 2050 and 2200 + 2100 - 50 = 4250.
const threePours = "  pours: [2.2 m, 2.1 m, 1.5 m]\n  lap: [150 mm, 50 mm]\n"

func TestPoursOfUnequalLengthAndLapAskForTheirOwnForm(t *testing.T) {
	r := checked(t, pouredAs(threePours))
	allPass(t, r)
	// nothing to lap, 2100 + 150, 1500 + 50; one lap for all would ask for 2250
	// and 1650, or 2150 and 1550
	for pour, need := range map[int]float64{1: 2200, 2: 2250, 3: 1550} {
		bayAsks(t, r, "setup.length", 1, pour, "form length", need)
	}
	// from form to form; from joint to joint it would be 2200 and 2100
	bayRolls(t, r, 1, 1, "2.050")
	bayRolls(t, r, 1, 2, "2.200")
	// slab to 5800 + 3000; front wheels 2100 in the form: at pour 3 on 6350. With
	// a last pour as long as the one before it would be 600 more
	bayReads(t, r, "roll.support", 1, 2, "front wheels", result.Pass, 8800-6350)
	// the slab begins 3000 before the inlet; rear wheels at 4250 + 300
	bayReads(t, r, "roll.support", 1, 3, "rear wheels", result.Pass, 4550+3000)
	// after the last pour the form's rear goes from 4250 to the end at 5800, the
	// front wheels from 6350 to 7900
	bayReads(t, r, "roll.support", 1, 3, "front wheels", result.Pass, 8800-7900)
}

func TestPourShorterThanTheFormHoldsHangersUnderItsOwnRoofOnly(t *testing.T) {
	s := pouredAs(threePours).Study(t)
	// bents 600 and 1800 in the form stand on 4850 and 6050; the last pour ends
	// at 5800
	for pour, want := range map[int]int{1: 2, 2: 2, 3: 1} {
		if n := hangerPlates(s.Bays[pour-1], pour); n != want {
			t.Errorf("pour %d has %d hanger plates, want %d", pour, n, want)
		}
	}
}

// hangerPlates counts the plates of the hangers of one pour that stand around a bay.
func hangerPlates(b model.Bay, pour int) int {
	n := 0
	for _, s := range b.Concrete {
		if s.Zone == culvert.Hanger && s.Pour == pour && strings.HasSuffix(s.Name, "plate") {
			n++
		}
	}
	return n
}

func TestFormMeetsWhatWasCastBeforeItsPourAndNothingElse(t *testing.T) {
	// the form is 100 longer than the pour, so that its end comes up between the
	// walls of the pour ahead if that was cast before: the wall panels' tops pass
	// them by 4.57, as they pass their own. Else the nearest thing on the way up
	// is the jack screw, its plate of 15 above the invert
	tops := 1e3 * (0.050*math.Sin(swung(0.780)) + 0.160*(1-math.Cos(swung(0.780))))
	for order, want := range map[string][2]float64{"ahead": {15, tops}, "[2, 1]": {tops, 15}} {
		r := checked(t, pouredAs("  pours: [2.3 m, 2.3 m]\n  order: "+order+"\n"))
		for i, mm := range want {
			bayReads(t, r, "raise.clear", 1, i+1, "take back: ease down to break the bond", result.Pass, mm)
		}
	}
}

func TestBarsStandAheadOnlyWhereThePourAheadIsNotCast(t *testing.T) {
	steel := [2]string{"left_in_place:\n", "left_in_place:\n  steel_ahead: {cover: 50 mm, lean: 15 mm}\n"}
	c := pouredAs("  pours: [2.3 m, 2.3 m]\n")
	c.Jobs = append(c.Jobs, steel)
	// the wall panel's top as it rolls, and 50 - 15 from the wall's face to bars
	tops := 1e3 * (0.050*math.Sin(swungHome) + 0.160*(1-math.Cos(swungHome)))
	bayReads(t, checked(t, c), "roll.clear", 1, 1, "steel ahead", result.Pass, 120+tops+50-15)
	c = pouredAs("  pours: [2.3 m, 2.3 m]\n  order: [2, 1]\n")
	c.Jobs = append(c.Jobs, steel)
	if e, ok := checkOf(checked(t, c), "roll.clear", 1, 1, "steel ahead"); ok {
		t.Errorf("bars stand in a wall that is cast: %s", e.Text)
	}
}

func TestSkewAtOneEndOnlyLengthensThatEndOnly(t *testing.T) {
	r := checked(t, pouredAs("  pours: [1.8 m]\n  skew: {inlet: 20 deg}\n"))
	tan := math.Tan(20 * math.Pi / 180)
	// the right wall begins 1500 tan 20 = 546 behind the line: 2346 of form, 2892
	// with both ends skewed against each other, 1800 with none
	bayAsks(t, r, "setup.length", 1, 1, "form length", 1e3*(1.8+1.5*tan))
	// rear wheels 300 in the form, the slab's end 3000 behind the pour's on the
	// left tread's outer edge at 950; front wheels 2100 in the form, slab to
	// 1800 + 3000 square. On the right the rear wheels have 1900 tan 20 more. The
	// carrier leaves until its rear is at 1800
	bayReads(t, r, "roll.support", 1, 1, "rear wheels", result.Pass, 1e3*(-1.5*tan+0.3-(-3+0.95*tan)))
	bayReads(t, r, "roll.support", 1, 1, "front wheels", result.Pass, 1e3*(4.8-(1.8+2.1)))
	// turned the other way, the left wall is the long one, and the slab's end
	// is farthest ahead on the right; its rear is out at 1800 + 1500 tan 20, which
	// leaves 8.3 of slab before the front wheels on the left
	r = checked(t, pouredAs("  pours: [1.8 m]\n  skew: {outlet: -20 deg}\n"))
	bayAsks(t, r, "setup.length", 1, 1, "form length", 1e3*(1.8+1.5*tan))
	bayReads(t, r, "roll.support", 1, 1, "rear wheels", result.Pass, 1e3*(0.3+3))
	bayReads(t, r, "roll.support", 1, 1, "front wheels", result.Fail, 1e3*(1.8+3-0.95*tan-(1.8+1.5*tan+2.1)))
}

func TestHangerNearASkewedEndStaysOnlyUnderTheRoof(t *testing.T) {
	// the form begins 546 behind the line, its bents stand on 54 and 1254; a
	// plate of 200 about 54 would reach 46 out of the roof. Between square ends
	// they stand on 600 and 1800, both plates under 2000 of roof
	for skew, want := range map[string]int{"20 deg": 1, "0 deg": 2} {
		s := pouredAs("  pours: [2.0 m]\n  skew: {inlet: " + skew + "}\n").Study(t)
		if n := hangerPlates(s.Bays[0], 1); n != want {
			t.Errorf("skew %s: %d plates, want %d; bents at %v", skew, n, want, s.Bays[0].Carrier.Bents)
		}
	}
}

func TestHangerWhoseCornerSticksOutOfTheRoofIsNotHung(t *testing.T) {
	// the form begins 1500 tan s behind the line, so that the first bent stands
	// 600 - 1500 tan s ahead of the inlet on the centreline: 108.6 at 18.14
	// degrees, which is enough for half of the plate's 200; but its left corner
	// needs 100 + 100 tan s = 132.8. At 17.08 degrees 139.1 are there and 130.7
	// are needed
	for skew, want := range map[string]int{"18.14 deg": 1, "17.08 deg": 2} {
		s := pouredAs("  pours: [2.0 m]\n  skew: {inlet: " + skew + "}\n").Study(t)
		if n := hangerPlates(s.Bays[0], 1); n != want {
			t.Errorf("skew %s: %d plates, want %d; bents at %v", skew, n, want, s.Bays[0].Carrier.Bents)
		}
	}
}

func TestJointsAtAnAngleOfTheirOwnAskForTheirOwnForm(t *testing.T) {
	r := checked(t, pouredAs("  pours: [1.5 m, 1.5 m, 1.5 m]\n  skew: {inlet: 10 deg, outlet: 0 deg, joints: 16 deg}\n"))
	inlet, joint := 1.5*math.Tan(10*math.Pi/180), 1.5*math.Tan(16*math.Pi/180)
	// corner to corner: half the span times the tangent of either end. Square
	// joints would ask for 1764, 1500, 1500; joints along the skew, 6.7 and 3.4
	// degrees, for 1941, 1765, 1588
	for pour, need := range map[int]float64{1: 1.5 + inlet + joint, 2: 1.5 + 2*joint, 3: 1.5 + joint} {
		bayAsks(t, r, "setup.length", 1, pour, "form length", 1e3*need)
	}
	// the form begins at -264.5, 1500 - 430.1 and 3000 - 430.1
	bayRolls(t, r, 1, 1, "1.334")
	bayRolls(t, r, 1, 2, "1.500")
	// so the last form begins 430 behind its joint on the centreline, and the
	// second pour's second bent stands 130 behind it; its plate's corners are
	// 100 + 100 tan 16 = 128.7 from it, under the roof. The plate of 20 and the nut
	// of 50 that stay there are in the way of the filler. At a square joint the
	// form begins beyond them
	bayReads(t, r, "strip.supports", 1, 3, "fillers and ties out, hanger plate", result.Fail, -20)
	bayReads(t, r, "strip.supports", 1, 3, "fillers and ties out, hanger nut", result.Fail, -20-50)
	square := checked(t, pouredAs("  pours: [1.5 m, 1.5 m, 1.5 m]\n  skew: {inlet: 10 deg, outlet: 0 deg}\n"))
	allPass(t, square)
	bayAsks(t, square, "setup.length", 1, 2, "form length", 1500)
}
