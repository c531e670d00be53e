package proof

import (
	"strings"
	"testing"
)

// The tests here are ways to have a falsehood accepted that a verifier could
// easily take.

func TestPartAndSolidOfOneNumberAreNotTakenForOne(t *testing.T) {
	text := against(5, `body 0 -1 slide 0,1,0 0,0,0 - "frame"`, "part 0 0 "+box(0, 0, 0, 1, 1, 1)+` "P"`, "drive 0 0 9",
		box(-1, 1.05, -1, 2, 1.3, 2), "N")
	refused(t, text, "N", "is left out against solid 0")
}

// Two parts that overlap all the time: they rest, so only the first strip step
// would tell, and here it stands behind a step of another kind.
func TestFirstStripStepBehindOtherStepsShowsWhatRestsToo(t *testing.T) {
	for _, kind := range []string{"raise", "end"} {
		text := lines(head("some"), twoSlides, "part 0 0 "+box(0, 0, 0, 1, 1, 1)+` "L"`, "part 1 1 "+box(0, 0.5, 0, 1, 2, 1)+` "R"`,
			"step 1 "+kind+` "before"`, `step 2 strip "release"`, "self 0 2", "need strip.self 0.1", "N", tail(1))
		refused(t, text, "N", "is left out against R")
	}
}

// Joint 1 turns about z, joint 2 stands tilted by a right angle about x, joint
// 3 turns back about its own z, which is no longer parallel: speeds must not
// cancel, nor may the distance of a point be taken from the axis as raised.
func TestTiltedJointAtRestBreaksParallelAxes(t *testing.T) {
	bodies := `body 0 -1 turn 0,0,1 0,0,0 - "one"
body 1 0 turn 1,0,0 0,0,0 - "tilt"
body 2 1 turn 0,0,1 0,0,0 - "three"`
	part := "part 0 2 " + strings.Repeat("1,0,0 ", 4) + `"P"`
	// at both ends the point is at y = 0 or 2 sin(pi/6) cos(...): in the middle farther
	text := lines(head("some"), bodies, part, `step 1 strip "release"`, "drive 0 -1.5707963267948966 1.5707963267948966",
		"drive 1 1.5707963267948966 1.5707963267948966", "drive 2 1.5707963267948966 -1.5707963267948966",
		`place 0 0 0 "cell 1, pour 1"`, "solid 0 wall s "+box(0.5, -1, -1, 2, 1, 1),
		"claim 0 1 wall", "need strip.clear 0.4", "P 1,0,0", tail(1))
	refused(t, text, "P", "are asked")
}

// A panel is set by a link from a lever without parts; the lever jumps between
// the steps and takes the panel into its neighbour, where both then rest.
func TestFarBodyOfALinkMayNotJumpBetweenSteps(t *testing.T) {
	bodies := `body 0 -1 slide 0,1,0 0,0,0 - "lever"
body 1 -1 slide 0,1,0 0,0,0 0 "panel"
body 2 -1 fixed "neighbour"
link 0 0 1 0,-1,0 0,0,0`
	text := lines(head("some"), bodies, "part 0 1 "+box(0, 0, 0, 1, 1, 1)+` "W"`, "part 1 2 "+box(0, 2, 0, 1, 3, 1)+` "N"`,
		`step 1 strip "one"`, `step 2 strip "two"`, "drive 0 1.5 1.5",
		"self 0 2", "need strip.self 0.5", "N", tail(1))
	refused(t, text, "self 0 2", "does not begin where")
	aims := strings.Replace(bodies, "body 1 -1 slide 0,1,0 0,0,0 0", "body 1 -1 fixed", 1)
	aims = strings.Replace(aims, `body 2 -1 fixed "neighbour"`, `body 2 1 aim 1,0,0 0,0,0 0 "neighbour"`, 1)
	refused(t, strings.Replace(text, bodies, aims, 1), "self 0 2", "does not begin where")
}

func TestManyHairsBetweenStepsAddUp(t *testing.T) {
	text := lines(head("some"), twoSlides, "part 0 0 "+box(0, 0, 0, 1, 1, 1)+` "L"`, "part 1 1 "+box(0, 1.1, 0, 1, 2, 1)+` "R"`,
		`step 1 strip "1"`, `step 2 strip "2"`, "drive 0 0.9e-9 0.9e-9", `step 3 strip "3"`, "drive 0 1.8e-9 1.8e-9",
		"self 0 3", "need strip.self 0.1", "N", tail(1))
	refused(t, text, "self 0 3", "does not begin where")
}

// The far pin is pulled along the hinge's axis, where the plane triangle does
// not see it.
func TestLinkMayNotLeaveThePlaneOfItsJoint(t *testing.T) {
	bodies := `body 0 -1 slide 1,0,0 0,0,0 - "pull"
body 1 -1 turn 1,0,0 0,0,0 0 "panel"
link 0 0 1 0,-1,0 0,0,1`
	text := against(0.5, bodies, "part 0 1 "+box(0, 0, 0, 1, 0.1, 1)+` "W1"`, "drive 0 0 1", box(-1, 2, -1, 2, 3, 2), "P 0,1,0")
	refused(t, text, `step 1`, "leaves the plane")
	refused(t, strings.Replace(text, "body 0 -1 slide 1,0,0 0,0,0", "body 0 -1 turn 0,0,1 5,0,0", 1), `step 1`, "leaves the plane")
	aims := strings.Replace(bodies, `body 1 -1 turn 1,0,0 0,0,0 0 "panel"`, `body 1 -1 fixed "panel"`+"\n"+`body 2 1 aim 1,0,0 0,0,1 0 "bar"`, 1)
	refused(t, strings.Replace(text, bodies, aims, 1), `step 1`, "leaves the plane")
}

// The link's far pin passes the near one's height: the slide would jump to the
// other end of its link.
func TestSlideByLinkMayNotPassDeadCentre(t *testing.T) {
	bodies := `body 0 -1 slide 0,0,1 0,0,0 - "far"
body 1 -1 slide 0,0,1 0,0,0 0 "near"
link 0 0 1 0,-1,0 0,0,1`
	run := func(to string) string {
		return against(0.5, bodies, "part 0 1 "+box(0, 0, 0, 1, 0.1, 1)+` "W1"`, "drive 0 0 "+to, box(-1, 2, -1, 2, 3, 2), "P 0,1,0")
	}
	accepted(t, run("0.5"))
	refused(t, run("1.5"), "P", "dead centre")
	level := strings.Replace(run("0.5"), "0,-1,0 0,0,1\n", "0,-1,0 0,0,0\n", 1)
	refused(t, level, "step 1", "dead centre")
}

func TestTurnByLinkRaisedAtDeadCentreIsRefused(t *testing.T) {
	text := strings.Replace(linked(0.5), "link 0 -1 0 0,-1,0 0,0,1", "link 0 -1 0 0,-1,0 0,1,0", 1)
	refused(t, text, "step 1", "dead centre")
}

// In part of a zone's solids a claim has no entry of its own but for hangers.
func TestKindAloneServesNoCheckOfAWholeZone(t *testing.T) {
	text := lines(head("some"), `body 0 -1 slide 0,1,0 0,0,0 - "frame"`, "part 0 0 "+box(0, 0, 0, 1, 1, 1)+` "P"`, `step 1 raise "up"`,
		`place 0 0 0 "cell 1, pour 1"`, "solid 0 wall:far r "+box(0, 5, 0, 1, 6, 1), "solid 1 wall:near r "+box(0, 0.5, 0, 1, 6, 1),
		"claim 0 1 wall:far", "need raise.clear 4", "P 0,1,0", tail(1))
	refused(t, text, "need", "serves no check")
}

// raise.clear is one number for all zones of a step.
func TestSomeZonesDoNotServeARaisingStep(t *testing.T) {
	text := lines(head("some"), `body 0 -1 slide 0,1,0 0,0,0 - "frame"`, "part 0 0 "+box(0, 0, 0, 1, 1, 1)+` "P"`, `step 1 raise "up"`,
		`place 0 0 0 "cell 1, pour 1"`, "solid 0 wall r "+box(0, 5, 0, 1, 6, 1), "solid 1 invert r "+box(0, 0.5, 0, 1, 6, 1),
		"claim 0 1 wall", "need raise.clear 4", "P 0,1,0", tail(1))
	refused(t, text, "", "no claim serves raise.clear")
}

// roll.clear is one number for all stretches of the way.
func TestSomeStretchesDoNotServeARoll(t *testing.T) {
	text := lines(head("some"), `body 0 -1 slide 0,1,0 0,0,0 - "frame"`, "part 0 0 "+box(0, 0, 0, 1, 1, 1)+` "P"`,
		`place 0 0 0 "cell 1, pour 1"`, "solid 0 wall a "+box(0, 5, 0, 1, 6, 1), `step 1 roll "one"`, `step 2 roll "two"`, "drive 0 0 4.5",
		"claim 0 1 wall", "need roll.clear 4", "P 0,1,0", tail(1))
	refused(t, text, "", "no claim serves roll.clear")
}

func TestDifferencesAreCountedAndNotUnlimited(t *testing.T) {
	text := swap(t, hinged(5), "need strip.clear 5\n", "need strip.clear 5\nless -999999 0\nless 7 0\n")
	refused(t, text, "less 7", "two differences")
	text = swap(t, hinged(2), "need strip.clear 2\n", "need strip.clear 2\nless -999999 0\n")
	r := accepted(t, text)
	if r.Assumed.Differences != 1 || r.Assumed.MostLess != 0.999999 {
		t.Errorf("%d differences, at most %g m less: not told of 0.999999", r.Assumed.Differences, r.Assumed.MostLess)
	}
	refused(t, swap(t, text, "less -999999 0", "less -1000001 0"), "less", "whole number")
}

func TestEachOnlyEverAdds(t *testing.T) {
	for _, change := range []string{"each 0 -5 -\n", "each 0 -5 -5\n", "each 0 - -\n"} {
		text := swap(t, hinged(2), "need strip.clear 2\n", "need strip.clear 2\n"+change)
		refused(t, text, "P", "1.999998 m are asked")
	}
	text := swap(t, hinged(1), "need strip.clear 1\n", "need strip.clear 1\neach 0 2 -\n")
	refused(t, text, "P", "are asked")
}

func TestDriveTwiceOrLinkWithoutLengthIsRefused(t *testing.T) {
	refused(t, swap(t, hinged(1), "drive 0 0 -0.3\n", "drive 0 0 -0.3\ndrive 0 0 0\n"), "drive 0 0 0", "twice")
	refused(t, swap(t, linked(1), "drive 0 1.4142135623730951 1.5", "drive 0 1.4142135623730951 -1.5"), "drive", "length")
}

func TestNormalIsMadeAUnitVector(t *testing.T) {
	accepted(t, swap(t, hinged(1.5), "P 0,1,0", "P 0,1e-3,0"))
	refused(t, swap(t, hinged(1.8), "P 0,1,0", "P 0,1000,0"), "P", "are asked")
	refused(t, swap(t, hinged(1.5), "P 0,1,0", "P 0,1e-12,0"), "P", "without a direction")
	refused(t, swap(t, hinged(1.5), "P 0,1,0", "P 0,-1,0"), "P", "are asked")
}

func TestPairsThatArePinnedMustShareAJoint(t *testing.T) {
	text := swap(t, alike(5), `step 1 strip`, "pinned 0 1\nstep 1 strip")
	refused(t, text, "pinned", "share no joint")
	runs := swap(t, text, "part 0 0", "runs 0 1\npart 0 0")
	r := accepted(t, swap(t, runs, "S 0\nN\nP 0,1,0\nN\n", "N\n"))
	if r.Assumed.Runs != 1 || r.Assumed.Pinned != 1 {
		t.Errorf("what was declared is not told: %+v", r.Assumed)
	}
	refused(t, swap(t, runs, "runs 0 1\n", "runs 1 0\n"), "runs", "first one first")
	refused(t, swap(t, runs, "runs 0 1\n", "runs 0 1\nruns 0 1\n"), "runs", "twice")
	refused(t, swap(t, alike(5), `step 1 strip`, "seam 0 1\nstep 1 strip"), "seam", "do not meet")
	refused(t, swap(t, alike(5), "P 0,1,0", "C"), "C", "not declared")
}

func TestPartMayNotComeBack(t *testing.T) {
	text := lines(head("some"), twoSlides, "part 0 0 "+box(0, 0, 0, 1, 1, 1)+` "L"`, "part 1 1 "+box(0, 1.1, 0, 1, 2, 1)+` "R"`,
		`step 1 strip "1"`, "absent 1", `step 2 strip "2"`, "self 0 2", "need strip.self 0.1", "N", tail(1))
	refused(t, text, "self 0 2", "does not begin where")
}

// An axis is as raised only if nothing before it stands tilted: turning about
// what is z as raised moves things along z here.
func TestAxisOfATiltedJointIsNotThatAsRaised(t *testing.T) {
	bodies := `body 0 -1 turn 1,0,0 0,0,0 - "tilt"
body 1 0 turn 0,0,1 0,0,0 - "arm"`
	text := against(0.4, bodies, "part 0 1 "+strings.Repeat("1,0,0 ", 4)+`"P"`,
		"drive 0 1.5707963267948966 1.5707963267948966\ndrive 1 0 3.141592653589793", box(-2, -1, 0.5, 2, 1, 1), "P 0,0,1")
	refused(t, text, "P", "are asked")
	placed := lines(head("some"), `body 0 -1 turn 1,0,0 0,0,0 - "arm"`, "part 0 0 "+strings.Repeat("0,0,1 ", 4)+`"P"`,
		`place 0 0 0 "cell 1, pour 1"`, "solid 0 wall a "+box(0.5, -2, -2, 1, 2, 2),
		`step 1 roll "across"`, "drive 0 0 3.141592653589793", "carry 0,0,0 0 0,0,0 4 0,0,0 0 0 0 0,0,0 1.5707963267948966 0 0,0,0 4 0,0,0",
		"claim 0 1 wall", "need roll.clear 0.4", "P 1,0,0", tail(1))
	refused(t, placed, "P", "are asked")
}

// jamming is a carrier whose two halves meet at a seam as raised and run 10 mm into
// each other in the second step; the number of what may not touch is honest.
func jamming(scope, claims string) string {
	return lines(head(scope), twoSlides, "part 0 0 "+box(0, 0, 0, 1, 1, 1)+` "L"`, "part 1 1 "+box(0, 1, 0, 1, 2, 1)+` "R"`, "seam 0 1",
		`step 1 strip "free"`, `step 2 strip "home"`, "drive 1 0 -0.01", `step 3 strip "after"`, "drive 1 -0.01 -0.01", claims)
}

// The seam's own number holds a pair without a contact record too: else a low
// number of what may not touch lets the seam overlap.
func TestSeamIsHeldToItsNumberWithoutAContact(t *testing.T) {
	claims := func(seam, leaf string) string {
		return lines("self 0 1", "need strip.self -0.5", "touch strip.self.seams 0", leaf, "self 0 2", "need strip.self -0.5", "touch strip.self.seams "+seam, leaf, tail(2))
	}
	for _, leaf := range []string{"S 0\nN\nP 0,1,0\nN", "S 0\nN\nC\nP 0,1,0\nN"} {
		refused(t, jamming("some", claims("0", leaf)), "P", "are asked")
		accepted(t, jamming("some", claims("-0.01", leaf)))
	}
}

// Pairs that rest are shown in the first strip step, or where they moved last: a
// proof of some checks has the claims of all steps before.
func TestStepAmongThePartsIsShownWithAllStepsBeforeIt(t *testing.T) {
	third := lines("self 0 3", "need strip.self 0.1", "N")
	refused(t, jamming("some", lines(third, tail(1))), "", "no claim serves")
	first := lines("self 0 1", "need strip.self 0", "S 0\nN\nP 0,1,0\nN")
	refused(t, jamming("some", lines(first, third, tail(2))), "", "no claim serves")
	second := lines("self 0 2", "need strip.self -0.01", "S 0\nN\nP 0,1,0\nN")
	accepted(t, jamming("some", lines(first, second, third, tail(3))))
}

// In the third step the only seam rests and is exempt: whatever its number said
// would be shown.
func TestSeamsNumberThatNoPairKeepsIsNone(t *testing.T) {
	before := lines("self 0 1", "need strip.self 0", "S 0\nN\nP 0,1,0\nN", "self 0 2", "need strip.self -0.01", "S 0\nN\nP 0,1,0\nN")
	refused(t, jamming("some", lines(before, "self 0 3", "need strip.self 0.1", "touch strip.self.seams 5", "N", tail(3))), "N", "no pair")
}

// A pin in the ground, in a frame that is placed as a whole: whether the pin goes
// with it is not said.
func TestLinkFromTheGroundIsRefusedInAFrameThatIsPlaced(t *testing.T) {
	linked := swap(t, crew(), `- "panel"`, `- "panel"`+"\nlink 0 -1 1 0,-5,0 0,0,0")
	accepted(t, linked)
	refused(t, swap(t, linked, `step 7 roll "ahead"`, `step 7 roll "ahead"`+"\ncarry 0,0,0 0 0,0,0 4 0,0,0 0 0 0 0,0,0 0 0 0,0,0 4 0,0,0"), "carry", "where the ground is")
}

// Boxes 0.09 mm apart along two axes are 0.127 mm apart.
func TestBoxesAreApartByTheirDistanceNotByItsParts(t *testing.T) {
	aside := jamming("some", lines("self 0 1", "need strip.self 0", "S 0\nN\nP 0,1,0\nN", tail(1)))
	for _, c := range []struct {
		y, z float64
		met  bool
	}{{1.00009, 0, true}, {1.00009, 1.00009, false}} {
		text := strings.Replace(aside, box(0, 1, 0, 1, 2, 1), box(0, c.y, c.z, 1, 2, 2), 1)
		if c.met {
			accepted(t, text)
		} else {
			refused(t, text, "seam", "do not meet")
		}
	}
}
