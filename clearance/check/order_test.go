package check

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// Orders of casting other than ahead: where a carrier goes next, what stands
// there by then, and how it leaves.

// orderedAs is the worked cell with three pours of 2300 cast in an order.
func orderedAs(order string, more ...[2]string) chain {
	return chain{Gear: "roof-halves-24", Jobs: append([][2]string{{"  pours: [2.3 m]\n", "  pours: [2.3 m, 2.3 m, 2.3 m]\n  order: " + order + "\n"}}, more...)}
}

// rolledStep holds how the advance of a bay is named.
func rolledStep(t *testing.T, r *result.Result, cell, pour int, want string) {
	t.Helper()
	c, ok := checkOf(r, "roll.clear", cell, pour, "wall")
	if !ok || c.Where.Step != want {
		t.Errorf("cell %d, pour %d: %q, want %q", cell, pour, c.Where.Step, want)
	}
}

// met lists zone and pour of what a bay's carrier meets on its way, once each.
func met(b model.Bay, zone culvert.Zone) string {
	seen := ""
	for p := 1; p <= 9; p++ {
		for _, side := range sides {
			for _, s := range b.Route {
				if s.Zone == zone && s.Pour == p && s.Side == side {
					seen += fmt.Sprintf("%d%s ", p, map[culvert.Side]string{culvert.Left: "L", culvert.Right: "R"}[side])
					break
				}
			}
		}
	}
	return strings.TrimSpace(seen)
}

var barsAhead = [2]string{"left_in_place:\n", "left_in_place:\n  steel_ahead: {cover: 50 mm, lean: 15 mm}\n"}

func TestCarrierRollsToThePourThatIsCastNextAheadOrBack(t *testing.T) {
	c := orderedAs("[1, 3, 2]", barsAhead, [2]string{"{outlet: {apron: 12 m}}", "{inlet: {apron: 3 m}, outlet: {apron: 12 m}}"})
	r := checked(t, c)
	// past pour 2 to pour 3, and back to pour 2 between what stands
	rolledStep(t, r, 1, 1, "roll ahead 4.600 m")
	rolledStep(t, r, 1, 3, "roll back 2.300 m")
	// from 2300 until the form's rear is at the end at 6900
	rolledStep(t, r, 1, 2, "roll ahead 4.600 m")
	// front wheels 2100 in the form: at pour 3 on 6700, slab to 6900 + 12000;
	// at pour 2, on its way out, on 2300 + 4600 + 2100
	bayReads(t, r, "roll.support", 1, 1, "front wheels", result.Pass, 18900-6700)
	bayReads(t, r, "roll.support", 1, 2, "front wheels", result.Pass, 18900-9000)
	// going back from pour 3 its front wheels do not leave their place; the rear
	// ones come to 2300 + 300, 5600 from the apron's end
	bayReads(t, r, "roll.support", 1, 3, "front wheels", result.Pass, 18900-6700)
	bayReads(t, r, "roll.support", 1, 3, "rear wheels", result.Pass, 5600)
	// the bars of pours 2 and 3 on the way to 3, those of pour 2 on the way back
	tops := 1e3 * (0.050*math.Sin(swungHome) + 0.160*(1-math.Cos(swungHome)))
	bayReads(t, r, "roll.clear", 1, 1, "steel ahead", result.Pass, 120+tops+50-15)
	bayReads(t, r, "roll.clear", 1, 3, "steel ahead", result.Pass, 120+tops+50-15)
	bayReads(t, r, "roll.clear", 1, 3, "wall", result.Pass, 120+tops)
	if e, ok := checkOf(r, "roll.clear", 1, 2, "steel ahead"); ok {
		t.Errorf("bars stand where every wall is cast: %s", e.Text)
	}
	s := c.Study(t)
	for pour, want := range map[int][2]string{1: {"1L 1R", "2L 2R 3L 3R"}, 3: {"1L 1R 3L 3R", "2L 2R"}, 2: {"1L 1R 2L 2R 3L 3R", ""}} {
		b := s.Bays[pour-1]
		if walls, bars := met(b, culvert.Wall), met(b, culvert.SteelAhead); walls != want[0] || bars != want[1] {
			t.Errorf("from pour %d it meets walls %q and bars %q, want %q", pour, walls, bars, want)
		}
	}
}

func TestFormBetweenStandingPoursMeetsBoth(t *testing.T) {
	// raised for pour 2 after 1 and 3: the form is 100 longer than the pour, and
	// its ends come up between walls that stand: tops as they pass their own
	tops := 1e3 * (0.050*math.Sin(swung(0.780)) + 0.160*(1-math.Cos(swung(0.780))))
	r := checked(t, orderedAs("[1, 3, 2]"))
	bayReads(t, r, "raise.clear", 1, 2, "take back: ease down to break the bond", result.Pass, tops)
}

func TestCarrierThatCastsBackLeavesThroughWhatStandsAheadOrOverTheInlet(t *testing.T) {
	r := checked(t, orderedAs("[3, 2, 1]"))
	rolledStep(t, r, 1, 3, "roll back 2.300 m")
	rolledStep(t, r, 1, 2, "roll back 2.300 m")
	// from pour 1 through 2 and 3, whose hangers stay
	rolledStep(t, r, 1, 1, "roll ahead 6.900 m")
	bayReads(t, r, "roll.support", 1, 1, "front wheels", result.Pass, 18900-(6900+2100))
	// over the inlet until the form's front, at 2400, is out; no apron there:
	// rear wheels from 300 to 2100 before the slab's end
	r = checked(t, orderedAs("[3, 2, 1]", worked.Travels("leaves: inlet")))
	rolledStep(t, r, 1, 1, "roll back 2.400 m")
	c := bayReads(t, r, "roll.support", 1, 1, "rear wheels", result.Fail, 300-2400)
	if !strings.Contains(c.Text, "2100.0 mm beyond") || !strings.Contains(c.Remedy, "ends.inlet.apron") {
		t.Error(c.Text, c.Remedy)
	}
}

func TestLastPourNeedsSlabUntilTheFormIsOut(t *testing.T) {
	// 2300 to the end and front wheels 2100 in the form: 2100 beyond the pour's
	// end at last, 100 inside the slab's end asks for 2200
	for apron, want := range map[string]result.Verdict{"2.19 m": result.Fail, "2.21 m": result.Pass} {
		r := checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{{"apron: 12 m", "apron: " + apron}}})
		if c, _ := checkOf(r, "roll.support", 1, 1, "front wheels"); c.Verdict != want {
			t.Errorf("apron %s: %v, want %v: %s", apron, c.Verdict, want, c.Text)
		}
	}
}

func TestCarrierThatRollsBackRoundABendPassesAsOneThatRollsAhead(t *testing.T) {
	// the same way, taken from the other end: the inside of the bend comes as
	// near (TestCarrierOnItsCentrelinePassesABendInsideByTheWorkedLoss)
	text := strings.Replace(worked.Bent("1 deg"), "pours: [9 m, 9 m]", "pours: [9 m, 9 m]\n  order: [2, 1]", 1)
	half := math.Pi / 360
	want := 1e3 * (1.5/math.Cos(half) - 1.379394 - 3.3*math.Sin(half))
	c, ok := checkOf(checked(t, chain{Gear: "roof-halves-24", Whole: true, Job: text}), "roll.clear", 1, 2, "wall")
	if !ok || math.Abs(c.Value.Lower*1e3-want) > 0.15 || math.Abs(c.Value.Upper*1e3-want) > 0.15 {
		t.Errorf("%v, want %.2f: %s", c.Value, want, c.Text)
	}
	// at pour 2 the form begins at the mitre's corner, 1500 tan 0.5 = 13.1 early
	if c.Where.Step != "roll back 8.987 m" {
		t.Error(c.Where.Step)
	}
}

func TestChannelOfABentBoxIsNoEndOfItsSlab(t *testing.T) {
	ends := [2]string{"gear: gear.yaml", "ends: {inlet: {apron: 3 m}, outlet: {apron: 12 m}}\ngear: gear.yaml"}
	channel := [2]string{"  kicker: 300 mm\n", "  kicker: 300 mm\n  channel: {offset: 0 m, width: 600 mm, depth: 100 mm}\n"}
	r := checked(t, chain{Gear: "roof-halves-24", Whole: true, Job: worked.Bent("1 deg"), Jobs: [][2]string{ends, channel}})
	// rear wheels 1350 in the form, apron of 3000; front wheels 7950 in the form,
	// at pour 2 on 16950 of 18000 + 12000, less the 1500 tan 0.5 by which the form
	// begins early at the mitre's corner, and on 18000 + 7950 when it is out
	bayReads(t, r, "roll.support", 1, 1, "rear wheels", result.Pass, 3000+1350)
	bayReads(t, r, "roll.support", 1, 1, "front wheels", result.Pass, 30000-(16950-1500*math.Tan(math.Pi/360)))
	bayReads(t, r, "roll.support", 1, 2, "front wheels", result.Pass, 30000-25950)
}

// apartAs is two cells with an inner wall of 200, two pours, cast in an order.
func apartAs(order string) chain {
	return chain{Gear: "roof-halves-24", Jobs: [][2]string{{"cells: 1\n", "cells: 2\n  inner_wall: 200 mm\n"}, {"  pours: [2.3 m]\n", "  pours: [2.3 m, 2.3 m]\n  order: " + order + "\n"}, barsAhead}}
}

func TestCellsCastApartShareTheInnerWallThatTheFirstOneCasts(t *testing.T) {
	// cell 1 is the left one: the inner wall is on its right. Cell 2 casts pour 2
	// second, cell 1 third: on its way to pour 2 the carrier of cell 1 may meet
	// the wall or its bars on the right; on the left bars
	s := apartAs("[1, {cell: 2, pour: 2}, {cell: 1, pour: 2}]").Study(t)
	for i, want := range [][2]string{{"1L 1R 2R", "2L 2R"}, {"1L 1R 2L 2R", ""}, {"1L 1R", "2L 2R"}, {"1L 1R 2L 2R", ""}} {
		b := s.Bays[i]
		if walls, bars := met(b, culvert.Wall), met(b, culvert.SteelAhead); walls != want[0] || bars != want[1] {
			t.Errorf("%s meets walls %q and bars %q on its way, want %q", b.Name(), walls, bars, want)
		}
	}
	// raised for pour 2 between a standing inner wall and bars, and with ties
	// through the outer wall only
	before := s.Bays[1]
	before.Route = before.Before
	if walls, bars := met(before, culvert.Wall), met(before, culvert.SteelAhead); walls != "1L 1R 2R" || bars != "2L 2R" {
		t.Errorf("raised it meets walls %q and bars %q", walls, bars)
	}
	for i, want := range [][2]bool{{true, true}, {true, false}, {true, true}, {true, true}} {
		tied := [2]bool{}
		for _, p := range s.Bays[i].Carrier.Parts {
			if p.Role == carrier.Tie {
				tied[map[culvert.Side]int{culvert.Left: 0, culvert.Right: 1}[p.Side]] = true
			}
		}
		if tied != want {
			t.Errorf("%s has ties left and right %v, want %v", s.Bays[i].Name(), tied, want)
		}
	}
	// together, no carrier meets a wall of a pour that its own cell has not cast
	for _, b := range apartAs("[1, 2]").Study(t).Bays {
		if walls := met(b, culvert.Wall); b.Pour.Number == 1 && walls != "1L 1R" {
			t.Errorf("%s meets walls %q", b.Name(), walls)
		}
	}
}

func TestCarrierOfACellRollsInTheOrderOfItsOwnCell(t *testing.T) {
	// cell 1 ahead, cell 2 back
	r := checked(t, apartAs("[{cell: 1, pour: 1}, {cell: 2, pour: 2}, {cell: 1, pour: 2}, {cell: 2, pour: 1}]"))
	rolledStep(t, r, 1, 1, "roll ahead 2.300 m")
	rolledStep(t, r, 2, 2, "roll back 2.300 m")
	rolledStep(t, r, 2, 1, "roll ahead 4.600 m")
	// raised against the inner wall that cell 2 cast, the tops come up 4.57 off it
	tops := 1e3 * (0.050*math.Sin(swung(0.780)) + 0.160*(1-math.Cos(swung(0.780))))
	bayReads(t, r, "raise.clear", 1, 2, "take back: ease down to break the bond", result.Pass, tops)
}

func TestRollBackPastTwoBendsIsMeasured(t *testing.T) {
	// half a degree at the joint behind pour 3, one at the joint behind pour 2:
	// the origin of pour 3 lies on a bend. On its way back to pour 2 the carrier
	// bends by half a degree about the joint under mid base, then its front
	// wheels at 7950 + 9000 - 9000 come to rest; the tail passes the other bend
	text := strings.Replace(worked.Bent("1 deg"), "pours: [9 m, 9 m]", "pours: [9 m, 9 m, 9 m]\n  order: [1, 3, 2]", 1)
	text = strings.Replace(text, "{tangent: 9 m}]", "{tangent: 9 m}, {turn: 0.5 deg right}, {tangent: 9 m}]", 1)
	s := chain{Gear: "roof-halves-24", Whole: true, Job: text}.Study(t)
	r := Run(s, Options{Version: "test"})
	half := math.Pi / 720
	least := 1e3 * (1.5/math.Cos(half) - 1.379394 - 3.3*math.Sin(half))
	c, ok := checkOf(r, "roll.clear", 1, 3, "wall")
	// the tail may come nearer than mid base, and cannot by more than the other
	// bend throws what overhangs the rear wheels: 1350 sin 1
	if !ok || c.Value.Lower*1e3 > least+0.15 || c.Value.Lower*1e3 < least-1350*math.Sin(math.Pi/180) {
		t.Errorf("%v, want about %.2f: %s", c.Value, least, c.Text)
	}
}

func TestWayBackIsTheWayAheadForWhatStandsEitherTime(t *testing.T) {
	// two pours with a bend, and with a grade break as well: invert, kickers and
	// bottom haunches stand whichever pour is cast first, and the carrier goes
	// from the one stand to the other either way
	for _, profile := range []string{"", "  profile: [{station: 0+000, elevation: 0 m}, {station: 0+009, elevation: -0.09 m}, {station: 0+018, elevation: -0.27 m}]\n"} {
		text := strings.Replace(worked.Bent("0.6 deg"), "schedule:", profile+"schedule:", 1)
		ahead := checked(t, chain{Gear: "roof-halves-24", Whole: true, Job: text})
		back := checked(t, chain{Gear: "roof-halves-24", Whole: true, Job: strings.Replace(text, "pours: [9 m, 9 m]", "pours: [9 m, 9 m]\n  order: [2, 1]", 1)})
		for _, zone := range []string{"invert", "kicker", "bottom haunch"} {
			a, ok := checkOf(ahead, "roll.clear", 1, 1, zone)
			b, ok2 := checkOf(back, "roll.clear", 1, 2, zone)
			if !ok || !ok2 || a.Value == nil || b.Value == nil {
				t.Errorf("%s: ahead %v, back %v", zone, a.Text, b.Text)
				continue
			}
			if math.Abs(a.Value.Lower-b.Value.Lower) > 0.2e-3 || math.Abs(a.Value.Upper-b.Value.Upper) > 0.2e-3 {
				t.Errorf("%s%s: %v ahead, %v back", zone, profile, *a.Value, *b.Value)
			}
		}
	}
}

func TestPullOnTheWayBackIsUpTheFallAhead(t *testing.T) {
	// 1 % down, then 2 % down from the joint on; back from pour 2 the carrier
	// climbs 2 % first and 1 % at last
	text := strings.Replace(worked.Bent("0.6 deg"), "schedule:", "  profile: [{station: 0+000, elevation: 0 m}, {station: 0+009, elevation: -0.09 m}, {station: 0+018, elevation: -0.27 m}]\nschedule:", 1)
	r := checked(t, chain{Gear: "roof-halves-24", Whole: true, Job: strings.Replace(text, "pours: [9 m, 9 m]", "pours: [9 m, 9 m]\n  order: [2, 1]", 1)})
	var rows []result.AlongRow
	for _, row := range r.Along {
		if row.Pour == 2 {
			rows = append(rows, row)
		}
	}
	first, last := rows[0], rows[len(rows)-1]
	if math.Abs(first.Slope+0.02) > 1e-5 || math.Abs(last.Slope+0.01) > 1e-5 {
		t.Errorf("slopes %.5f and %.5f, want -0.02 and -0.01", first.Slope, last.Slope)
	}
	// sin a + 0.02 x breakaway 2: 0.06 and 0.05 of the weight, nearly, and on both 6
	// over the base of 6600
	const off = 6.0 / 6600
	if ratio := first.Pulling.Start / last.Pulling.Start; math.Abs(ratio-(0.06+off)/(0.05+off)) > 1e-3 {
		t.Errorf("starting takes %.2f and %.2f", first.Pulling.Start, last.Pulling.Start)
	}
	c, ok := checkOf(r, "roll.pull", 1, 2, "winch")
	if !ok || !strings.Contains(c.Text, "on +2.00 %") || math.Abs(c.Value.Lower-first.Pulling.Start) > 0.05 {
		t.Errorf("%v: %s", c.Value, c.Text)
	}
}

// Where an entry about rolling stands is the advance as roll.clear names it.
func TestEveryEntryOfARollBackIsOfTheStepThatRollsBack(t *testing.T) {
	straight := orderedAs("[3, 2, 1]")
	round := chain{Gear: "roof-halves-24", Whole: true, Job: strings.Replace(worked.Bent("1 deg"), "pours: [9 m, 9 m]", "pours: [9 m, 9 m]\n  order: [2, 1]", 1)}
	for _, c := range []struct {
		chain
		pour int
		step string
		ids  int // entries that have to be there
	}{{straight, 2, "roll back 2.300 m", 12}, {straight, 1, "roll ahead 6.900 m", 12}, {round, 2, "roll back 8.987 m", 14}} {
		told := 0
		for _, e := range checked(t, c.chain).Checks {
			prefix := fmt.Sprintf("cell 1, pour %d, ", c.pour)
			// what has no place was nowhere near, a form on a line is no step
			if !strings.HasPrefix(e.ID, "roll.") || !strings.HasPrefix(e.Subject.String(), prefix) || e.Where == (result.Where{}) || e.Where.Step == "raised" {
				continue
			}
			told++
			if e.Where.Step != c.step {
				t.Errorf("%s %s is in the step %q, want %q", e.ID, e.Subject, e.Where.Step, c.step)
			}
		}
		if told < c.ids {
			t.Errorf("pour %d: only %d entries tell a step", c.pour, told)
		}
	}
}
