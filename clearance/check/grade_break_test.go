package check

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

// crested is Willow Dip with three pours whose grades fall by one amount more
// each, in per cent: the middle pour begins and ends on a crest.
func crested(t *testing.T, fall float64, swap ...[2]string) *result.Result {
	t.Helper()
	profile, z := "", 30.0
	for i := range 4 {
		z -= math.Max(0, float64(i-1)) * fall / 100 * 4.75
		profile += fmt.Sprintf(", {station: %g m, elevation: %.9f m}", 4.75*float64(i), z)
	}
	return checkFile(t, "willow-dip", append(swap, [2]string{"pours: [4.75 m, 4.75 m]", "pours: [4.75 m, 4.75 m, 4.75 m]"},
		[2]string{"start: {elevation: 31.0665 m}", "start: {elevation: 30 m}"},
		[2]string{"profile: [{station: 0+000, elevation: 31.0665 m}, {station: 0+004.75, elevation: 31.000 m}, {station: 0+009.5, elevation: 31.0665 m}]", "profile: [" + profile[2:] + "]"})...)
}

// tailUp is how high over the plane behind a crest that turns down by a the tail
// of the roof panels is at a place before the crest.
func tailUp(a, before float64) float64 {
	// seen from the plane behind, with the axles' lines meeting radius tan(a/2)
	// beyond the crest: the rear axle is u before that, the carrier pitched down by
	// b, u sin a = base sin(a - b), and its tail, 300 behind the axle and 2280 up,
	// at the place
	up, b, u := 2.280-shortRadius, a, 0.0
	for range 50 {
		u = before + shortRadius*math.Tan(a/2) - 0.300*math.Cos(b) + up*math.Sin(b)
		b = a - math.Asin(u*math.Sin(a)/shortBase)
	}
	return shortRadius + 0.300*math.Sin(b) + up*math.Cos(b)
}

// underNut is how far the inner edge of a roof half at a height passes a nut, in
// millimetres: it is 180 - 120 left of the middle, the nut 44 wide and its bottom
// 2400 - 20 - 50 up.
func underNut(up float64) float64 { return 1e3 * math.Hypot(0.060-0.022, 2.330-up) }

func TestTailComesUpToTheHangersOfThePourBehindACrest(t *testing.T) {
	// pour 1 begins with its form, whose last hanger is at 4200 and 44 long; pour 2
	// is 4750 in plan and its form begins at the mitre's corner, 2400 tan(a/2)
	// behind the crest
	const fall = 2.5
	first := math.Atan(fall / 100)
	second := math.Atan(2*fall/100) - first
	last := 4.200 + 0.022
	r := crested(t, fall)
	bayReads(t, r, "roll.clear", 1, 1, "hanger", result.Pass, underNut(tailUp(first, 4.750-last)))
	bayReads(t, r, "roll.clear", 1, 2, "hanger", result.Pass, underNut(tailUp(second, 4.750/math.Cos(first)-last+2.400*math.Tan(first/2))))
	// from the last pour it goes out straight
	bayReads(t, r, "roll.clear", 1, 3, "hanger", result.Pass, underNut(2.280))
	// a plate without a nut lies over the panel's edge: straight up to 2400 - 20
	r = crested(t, fall, [2]string{"tail: 50 mm", "tail: 0 mm"})
	bayReads(t, r, "roll.clear", 1, 1, "hanger", result.Pass, 1e3*(2.380-tailUp(first, 4.750-4.200-0.100)))
	// without a crest the tail passes all nuts alike
	bayReads(t, crested(t, 0), "roll.clear", 1, 1, "hanger", result.Pass, underNut(2.280))
}

func TestCarrierTippedForwardOverItsMiddleWheelsComesUpToTheNutsBehindThem(t *testing.T) {
	// on the front two of three wheel lines, the middle one at the crest or past
	// it, the panels are parallel to the plane ahead and 2280 over it. Seen from the
	// plane behind they are (x + 2280 sin a) tan a + 2280 cos a up at x before the
	// crest. The tail, 2400 behind the middle line, is then at 2340 at most, so
	// that the rear edge of the nut at 3000 of 4750 counts
	const fall, before = 2.5, 4.750 - 3.000 + 0.022
	a := math.Atan(fall / 100)
	up := (before+2.280*math.Sin(a))*math.Tan(a) + 2.280*math.Cos(a)
	r := crested(t, fall, [2]string{"roof-halves-24-short", "roof-halves-24-three-lines"})
	bayReads(t, r, "roll.clear", 1, 1, "hanger", result.Fail, underNut(up))
}

func TestOverhangInASagDigsTowardInvertAndHaunchByItselfTimesTheBreak(t *testing.T) {
	// form 9.30, wheels of radius 100 at 1.35 and 7.95. With the front wheels at
	// the sag, standing on both planes, the carrier is still on the plane behind;
	// their axles are 100 tan(a/2) before it. What is ahead of them by reach and up
	// by z over the plane behind is (z cos a - (reach - 100 tan(a/2)) sin a) over
	// the plane ahead. The rear wheels and what is behind them mirror it
	a := math.Atan(0.025)
	over := func(reach, z float64) float64 {
		return 1e3 * (z*math.Cos(a) - (reach-0.100*math.Tan(a/2))*math.Sin(a))
	}
	r := rolledOver(t, worked.Breaking(worked.Tangent, 0, 2.5))
	// the jack plates of the last bent, at 8.85 and 150 long, are drawn up 60
	bayReads(t, r, "roll.clear", 1, 1, "invert", result.Pass, over(0.900+0.075, 0.060))
	// the wall's foot reaches to the form's end; the haunch has 45 degrees and 150
	y, z := footOf(1.500, 2.250, 0.120, swungHome)
	bayReads(t, r, "roll.clear", 1, 1, "bottom haunch", result.Pass, (1e3*(1.350-y)+over(1.350, z))/math.Sqrt2)
	// on the way back the rear ones come to the sag first
	job := strings.Replace(worked.Breaking(worked.Tangent, 0, 2.5), "pours: [9 m, 9 m]", "pours: [9 m, 9 m]\n  order: [2, 1]", 1)
	back := rolledOver(t, job)
	bayReads(t, back, "roll.clear", 1, 2, "invert", result.Pass, over(0.900+0.075, 0.060))
	bayReads(t, back, "roll.clear", 1, 2, "bottom haunch", result.Pass, (1e3*(1.350-y)+over(1.350, z))/math.Sqrt2)
}
