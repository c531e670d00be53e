package check

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/clearance/sweep"
	"boxwalk/clearance/worked"
	"boxwalk/model/culvert"
)

// rolledOver is the check of a whole carrier, as the command prints it: what governs, of
// which another test holds that it is the same where every part is asked for.
func rolledOver(t *testing.T, job string, swap ...[2]string) *result.Result {
	t.Helper()
	return lately(fmt.Sprintf("brief %q %q", job, swap), func() *result.Result {
		return Run(chain{Gear: "roof-halves-24", Whole: true, Job: job, Swap: swap}.Study(t), Options{Version: "test", Brief: true})
	})
}

// lost is what a zone's rolling clearance loses over one job against another.
func lost(t *testing.T, zone culvert.Zone, level, over *result.Result) float64 {
	t.Helper()
	a, b := rolled(t, level, zone.Words()), rolled(t, over, zone.Words())
	if b.Upper-b.Lower > 0.11e-3 {
		t.Errorf("%s: %.3f..%.3f mm is no bracket", zone, 1e3*b.Lower, 1e3*b.Upper)
	}
	return (a.Lower + a.Upper - b.Lower - b.Upper) / 2
}

// Form 9.30, wheels at 1.35 and 7.95: B = 6.60, overhang 1.35. Hand numbers to
// 0.1 mm.
func TestGradeBreakTakesWhatTheWorkedFormulasSay(t *testing.T) {
	level := rolledOver(t, worked.Breaking(worked.Tangent, 0, 0))
	crest, sag := rolledOver(t, worked.Breaking(worked.Tangent, 0, -2.5)), rolledOver(t, worked.Breaking(worked.Tangent, 0, 2.5))
	dg := math.Atan(0.025)
	// a jack plate at (x, 60 mm), d from mid base, is lowest over the break when
	// that is under it: B dg/4 (1 - (2d/B)²). The plates of the bents at 4.05 and
	// 5.25 reach to 0.50 from mid base.
	plate := 6.6 / 4 * 0.025 * (1 - math.Pow(2*0.5/6.6, 2))
	// the tail's upper edge turns about the rear wheel line at the break
	tail := 1.35*math.Sin(dg) - 2.28*(1-math.Cos(dg))
	// in a sag a place over mid base comes up by B dg/4; the roof panel there is
	// parallel to the chord of the wheels, so that the mitred roof's edge counts
	belly := 6.6 / 4 * 0.025
	// the foremost edge of the jack plates at 8.85 + 0.10 is 1.00 beyond the wheels
	for _, c := range []struct {
		what string
		zone culvert.Zone
		got  *result.Result
		want float64
	}{
		{"plates over a crest", culvert.Invert, crest, plate},
		{"tail over a crest", culvert.Roof, crest, tail},
		{"roof in a sag", culvert.Roof, sag, belly},
	} {
		if got := lost(t, c.zone, level, c.got); math.Abs(got-c.want) > 0.16e-3 {
			t.Errorf("%s: %s loses %.3f mm, want %.3f", c.what, c.zone, 1e3*got, 1e3*c.want)
		}
	}
}

func TestGradeBreakInABendOnEitherHandIsTheSameMirrored(t *testing.T) {
	left, right := rolledOver(t, worked.Breaking(worked.Left1, 1, -1.5)), rolledOver(t, worked.Breaking(worked.Right1, 1, -1.5))
	for _, zone := range []culvert.Zone{culvert.Wall, culvert.Roof, culvert.HaunchTop, culvert.HaunchBottom, culvert.Invert} {
		a, b := rolled(t, left, zone.Words()), rolled(t, right, zone.Words())
		if math.Max(a.Lower, b.Lower) > math.Min(a.Upper, b.Upper)+1e-6 {
			t.Errorf("%s: left %v, right %v", zone, a, b)
		}
	}
}

func TestBearingAndElevationOfTheLineDoNotMatterToARide(t *testing.T) {
	plain := rolledOver(t, worked.Breaking(worked.Left1, 1, -1.5))
	far := rolledOver(t, worked.BreakingAt("station: 0 m, elevation: 100 m, bearing: 74 deg, easting: 50000 m, northing: 80000 m", 100, worked.Left1, 1, -1.5))
	for _, zone := range []culvert.Zone{culvert.Wall, culvert.Roof, culvert.HaunchTop, culvert.HaunchBottom} {
		a, b := rolled(t, plain, zone.Words()), rolled(t, far, zone.Words())
		if math.Abs(a.Lower-b.Lower) > 1e-9 || math.Abs(a.Upper-b.Upper) > 1e-9 {
			t.Errorf("%s: %v and %v", zone, a, b)
		}
	}
}

func TestBreakTooSmallToMatterLeavesTheClearancesOfAStraight(t *testing.T) {
	level, faint := rolledOver(t, worked.Breaking(worked.Tangent, 0, 0)), rolledOver(t, worked.Breaking(worked.Tangent, 0, 0.00001))
	for _, zone := range []culvert.Zone{culvert.Wall, culvert.Roof, culvert.HaunchTop, culvert.Invert} {
		if got := lost(t, zone, level, faint); math.Abs(got) > 0.05e-3 {
			t.Errorf("%s loses %.4f mm", zone, 1e3*got)
		}
	}
}

func TestNoAllowanceIsTakenOffForAStraightGradeBreak(t *testing.T) {
	// all of it is in the motion; only the wheels' roundness is left, 0.01 mm
	r, level := rolledOver(t, worked.Breaking(worked.Tangent, 0, -2.5)), rolledOver(t, worked.Breaking(worked.Tangent, 0, 0))
	of := func(r *result.Result) float64 {
		for _, c := range r.Checks {
			if c.ID == "roll.clear" && c.Subject.String() == "cell 1, pour 1, "+culvert.Roof.Words() {
				return c.Allowance
			}
		}
		return math.NaN()
	}
	if more := of(r) - of(level); !(more > 0 && more < 2e-5) {
		t.Errorf("the allowance grows by %g m", more)
	}
}

// steering writes how a job's carrier is guided.
func steering(job, travel string) string {
	more := worked.Travels(travel)
	return strings.Replace(job, more[0], more[1], 1)
}

func TestOffsetTowardTheOutsideOfABendGainsItselfInside(t *testing.T) {
	// bend to the left, the middle of the base cuts inside on the left: moved over
	// to the right by 5 mm it stands 5 mm farther from the left wall there, and
	// the tail 5 mm nearer to the right one
	on := rolledOver(t, worked.Bent("3 deg"))
	beside := rolledOver(t, steering(worked.Bent("3 deg"), "steering: offset, offset: -5 mm"))
	if got := lost(t, culvert.Wall, on, beside); math.Abs(got+5e-3*math.Cos(1.5*math.Pi/180)) > 0.15e-3 {
		t.Errorf("the wall loses %.3f mm, want -5", 1e3*got)
	}
}

func TestJobThatPassesABendOnlyWithAnOffset(t *testing.T) {
	verdict := func(travel string) result.Verdict {
		job := steering(worked.Bent("2.7 deg"), travel)
		for _, c := range rolledOver(t, job).Checks {
			if c.ID == "roll.clear" && c.Subject.String() == "cell 1, pour 1, wall" {
				return c.Verdict
			}
		}
		return result.Open
	}
	if got := verdict("steering: centreline"); got != result.Fail {
		t.Errorf("on the centreline: %v", got)
	}
	if got := verdict("steering: offset, offset: -8 mm"); got != result.Pass {
		t.Errorf("beside it: %v", got)
	}
}

func TestGuideRollersAtTheWheelLinesPassABendAsWheelsOnTheMitredCentrelineDo(t *testing.T) {
	// rollers 6.60 apart on the left wall of a bend to the left run on a line
	// parallel to the centreline: the body stands as it does on its wheels but for
	// where along the way it turns, so that its least distances are the same
	wheels := rolledOver(t, worked.Bent("1 deg"))
	rollers := rolledOver(t, steering(worked.Bent("1 deg"), "steering: guide rollers, rollers: {side: left, rear: 1.35 m, front: 7.95 m}"))
	// the rollers' course bends at the wall's corner, 1.5 / cos(phi/2) from the
	// centreline's: 1.5 (1/cos 0.5 deg - 1) = 0.06 mm less room
	if got := lost(t, culvert.Wall, wheels, rollers); math.Abs(got) > 0.3e-3 {
		t.Errorf("the wall loses %.3f mm", 1e3*got)
	}
}

func TestGuideRollersThatAreNowhereLeaveABendOpen(t *testing.T) {
	for _, c := range rolledOver(t, steering(worked.Bent("1 deg"), "steering: guide rollers")).Checks {
		if c.ID == "roll.clear" && strings.Contains(c.Subject.String(), "pour 1") && (c.Verdict != result.Open || !strings.Contains(c.Text, "travel.rollers")) {
			t.Errorf("%v: %s", c.Verdict, c.Text)
		}
	}
}

// A wheel that is found 0.2 mm inside the invert is what 0.15 mm and rounding
// cover; 0.21 mm is not.
func TestAWheelInTheInvertBeyondWhatIsTakenOffLeavesTheRollOpen(t *testing.T) {
	s := chain{Gear: "roof-halves-24"}.Study(t)
	b := inspected(s, 0)
	z := slices.Index(culvert.Zones, culvert.Invert)
	for depth, want := range map[float64]result.Verdict{0.19e-3: result.Pass, 0.21e-3: result.Open} {
		m := measure.Gaps{Near: []measure.ZoneGaps{{Zone: z, MustClear: measure.Nothing(), MayTouch: sweep.Bracket{Lower: -depth, Upper: -depth}, End: measure.Nothing()}}}
		if c := b.carried(Judged{Entry: result.Entry{Verdict: result.Pass, Allowance: 0.15e-3}}, []measure.Gaps{m}, z); c.Verdict != want {
			t.Errorf("%g m deep: %v, %s", depth, c.Verdict, c.Text)
		}
	}
}

// On one grade it makes no difference which wheel lines carry: a carrier whose
// centre of gravity lies behind its wheels is taken round a bend as any other, and
// tipping is told by roll.tip. With wheels at 5.4 and 7.95 m of a form of 9.30 m
// the base is 2.55 m and the overhang behind 5.40 m: while the base lies along the
// line ahead, the tail's outer face, 1.500 - 0.1206 m beside the middle, is thrown to
// the outside by 5.40 sin(1 deg) - 1.3794 (1 - cos(1 deg)) = 94.24 - 0.21 = 94.03 mm.
func TestABendOnOneGradeIsRolledWithTheWeightBehindTheWheels(t *testing.T) {
	swap := [2]string{"[1.35 m, 7.95 m]", "[5.4 m, 7.95 m]"}
	straight := rolledOver(t, strings.Replace(worked.Bent("1 deg"), "{turn: 1 deg left}, ", "", 1), swap) // rolls on a path of its own
	round := rolledOver(t, worked.Bent("1 deg"), swap)
	if tip, ok := find(round, "roll.tip", "advance", ""); !ok || tip.Verdict == result.Pass {
		t.Fatalf("the weight lies between the wheels: %s", tip.Text)
	}
	sin, cos := math.Sincos(math.Pi / 180)
	tail := 5.40*sin - 1.3794*(1-cos)
	if got := lost(t, culvert.Wall, straight, round); math.Abs(got-tail) > 0.1e-3 {
		t.Errorf("the wall is passed %.1f mm nearer, want %.1f", 1e3*got, 1e3*tail)
	}
}
