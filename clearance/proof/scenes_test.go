package proof

import (
	"math"
	"testing"
)

// scene is a proof of one number that is known by construction.
type scene struct {
	name  string
	true  float64 // what is kept, m
	write func(lower float64) string
}

// scenes with one moving part against one wall, or a pair.
func knownScenes() []scene {
	return []scene{
		{"a box that slides towards a wall", 0.03, sliding},
		{"a panel that turns towards a wall", 2 - (0.1*math.Cos(0.3) + math.Sin(0.3)), hinged},
		{"a panel that swings under a roof", 0.2, swinging},
		{"a panel set by a link", linkedGap(), linked},
		{"a ladder that slides down", 3.2 - (4 - math.Sqrt(25-16)) - 1, ladder},
		{"a bar that aims", aimedGap(), aimed},
		{"two boxes that move alike", 0.1, alike},
		{"two panels that turn alike", 0.1, turningAlike},
		{"a carrier that rolls round a bend", bendGap(), bend},
		{"a carrier that rolls over a crest", crestGap(), crest},
		{"a carrier that tips in a tilted frame", tippedGap(), tipped},
	}
}

func TestKnownGapsAreAcceptedAndThreeMicrometresMoreAreRefused(t *testing.T) {
	for _, s := range knownScenes() {
		t.Run(s.name, func(t *testing.T) {
			r := accepted(t, s.write(s.true))
			found := false
			for _, e := range r.Entries {
				found = found || e.Lower == s.true
			}
			if !found {
				t.Errorf("no entry of %g m in %v", s.true, r.Entries)
			}
			if _, err := Verify(stream(s.write(s.true + 3e-6))); err == nil {
				t.Error("3 micrometres more than the truth are accepted")
			}
		})
	}
}

// against is a proof of one part of one body in one strip step against a wall.
func against(lower float64, bodies, part, drive, wall, tree string) string {
	return lines(head("some"), bodies, part, `step 1 strip "release"`, drive,
		`place 0 0 0 "cell 1, pour 1"`, "solid 0 wall s "+wall,
		"claim 0 1 wall", "need strip.clear "+num(lower), tree, tail(1))
}

func sliding(lower float64) string {
	return lines(head("all"), `body 0 -1 slide 0,1,0 0,0,0 - "frame"`, "part 0 0 "+box(0, 0, 0, 1, 1, 1)+` "P"`,
		`step 1 strip "release"`, "drive 0 0 0.02", `step 2 end "collapsed"`, "drive 0 0.02 0.02",
		`place 0 0 0 "cell 1, pour 1"`, `twin "cell 1, pour 2"`, "solid 0 wall s "+box(-1, 1.05, -1, 2, 1.3, 2),
		"claim 0 1 wall", "need strip.dig "+num(lower), "need strip.clear "+num(lower), "P 0,1,0",
		"claim 0 2 wall", "need strip.clear "+num(lower), "P 0,1,0",
		"self 0 1", "need strip.self 0.15 far", "N", tail(3))
}

func hinged(lower float64) string {
	return against(lower, `body 0 -1 turn 1,0,0 0,0,0 - "panel"`, "part 0 0 "+box(0, 0, 0, 1, 0.1, 1)+` "W1"`,
		"drive 0 0 -0.3", box(-1, 2, -1, 2, 3, 2), "P 0,1,0")
}

// The upper edge at (0, 0, 1) goes through its highest place in the middle.
func swinging(lower float64) string {
	return against(lower, `body 0 -1 turn 1,0,0 0,0,0 - "panel"`,
		"part 0 0 0,0,1 1,0,1 0,0,0 1,0,0"+` "W1"`, "drive 0 -0.3 0.3", box(-1, -2, 1.2, 2, 2, 2), pieces(160, same("P 0,0,1")))
}

// The hinge is at the origin, the link from (0,-1,0) to (0,0,1): with length l
// its angle at the hinge is acos(1 - l²/2).
func linkedGap() float64 {
	q := math.Acos(1-1.5*1.5/2) - math.Pi/2
	return 2 - (0.1*math.Cos(q) + math.Sin(q))
}

const panelByLink = `body 0 -1 turn 1,0,0 0,0,0 0 "panel"
link 0 -1 0 0,-1,0 0,0,1`

func linked(lower float64) string {
	return against(lower, panelByLink, "part 0 0 "+box(0, 0, 0, 1, 0.1, 1)+` "W1"`,
		"drive 0 "+num(math.Sqrt2)+" 1.5", box(-1, 2, -1, 2, 3, 2), pieces(4, same("P 0,1,0")))
}

const ladderBodies = `body 0 -1 slide 0,1,0 0,0,0 - "foot"
body 1 -1 slide 0,0,1 0,0,0 0 "top"
link 0 0 1 0,3,0 0,0,4`

// The foot goes from 3 to 4 m off the wall, the top from 4 to 3 m up.
func ladder(lower float64) string {
	return against(lower, ladderBodies, "part 0 1 "+box(0, 0, 3.2, 1, 1, 4)+` "top"`,
		"drive 0 0 1", box(-1, -1, 0, 2, 2, 1), pieces(2, same("P 0,0,-1")))
}

// A bar hangs at the foot's pin (0,3,0) and points at the fixed (0,0,4); its
// far end is at a third of the way.
func aimedGap() float64 { return 2 - 5.0/3*math.Sin(math.Atan2(4, 3.5)) }

const aimBodies = `body 0 -1 slide 0,1,0 0,0,0 - "foot"
body 1 -1 fixed "wall"
body 2 0 aim 1,0,0 0,3,0 0 "bar"
link 0 0 1 0,3,0 0,0,4`

func aimed(lower float64) string {
	third := "0,2," + num(4.0/3) + " 0.1,2," + num(4.0/3) + " 0,3,0 0.1,3,0"
	return against(lower, aimBodies, "part 0 2 "+third+` "bar"`,
		"drive 0 1 0.5", box(-1, -1, 2, 2, 6, 3), pieces(4, same("P 0,0,1")))
}

// pair is a proof of two parts of two bodies against each other.
func pair(lower float64, bodies, one, two, drives, tree string) string {
	return lines(head("all"), bodies, one, two, `step 1 strip "release"`, drives, `place 0 0 0 "cell 1, pour 1"`,
		"self 0 1", "need strip.self "+num(lower), "S 0", "N", tree, "N", tail(1))
}

const twoSlides = `body 0 -1 slide 0,1,0 0,0,0 - "left"
body 1 -1 slide 0,1,0 0,0,0 - "right"`

func alike(lower float64) string {
	return pair(lower, twoSlides, "part 0 0 "+box(0, 0, 0, 1, 1, 1)+` "L"`, "part 1 1 "+box(0, 1.1, 0, 1, 2, 1)+` "R"`,
		"drive 0 0 0.5\ndrive 1 0 0.5", "P 0,1,0")
}

const twoTurns = `body 0 -1 turn 1,0,0 0,0,0 - "left"
body 1 -1 turn 1,0,0 0,0,0 - "right"`

func turningPair(lower float64, leaf func(s0, s1 float64) string) string {
	return pair(lower, twoTurns, "part 0 0 "+box(0, 0, 0, 1, 0.1, 1)+` "L"`, "part 1 1 "+box(0, 0.2, 0, 1, 0.3, 1)+` "R"`,
		"drive 0 0 -0.2\ndrive 1 0 -0.2", pieces(200, leaf))
}

// turned is the direction (0,1,0) turned with the panels.
func turned(s float64) string { return point(0, math.Cos(-0.2*s), math.Sin(-0.2*s)) }

func turningAlike(lower float64) string {
	return turningPair(lower, func(s0, s1 float64) string { return "W " + turned(s0) + " " + turned(s1) })
}

func TestTurningPlaneShowsWhatAPlaneAtRestDoesNot(t *testing.T) {
	if r := accepted(t, turningAlike(0.1)); r.Swings != 200 {
		t.Errorf("%d turning planes, not 200", r.Swings)
	}
	refused(t, turningPair(0.1, func(s0, s1 float64) string { return "P " + turned((s0+s1)/2) }), "P", "are asked")
}

// The frame's rear point runs along x on y = 0 and its front, 4 m ahead, comes
// from a straight at y = 0 ... the line through the origin at 0.2 rad.
func bendGap() float64 {
	off := -math.Sin(0.2) // of the rear point at x = 1
	yaw := 0.2 - math.Asin(off/4)
	return 3 - (math.Sin(yaw)*4 + 0.5*math.Cos(yaw))
}

func bend(lower float64) string {
	return lines(head("some"), `body 0 -1 fixed "frame"`, "part 0 0 "+box(0, -0.5, 0, 4, 0.5, 1)+` "F"`,
		`place 0 0 0 "cell 1, pour 1"`, "solid 0 wall a "+box(-9, 3, -1, 9, 4, 2),
		`step 1 roll "round the bend"`, "carry 0,0,0 0 0,0,0 4 0,0,0 0 0 1 0,0,0 0.2 0 0,0,0 4 0,0,0",
		"claim 0 1 wall", "need roll.clear "+num(lower), pieces(3, same("P 0,1,0")), tail(1))
}

// On the level rear line and the front line 4 m ahead, on a fall of 1:20 from
// x = 0, the carrier pitches down until its rear line is at x = 0: its rear end,
// 1 m behind and 0.9 m up, comes nearest to a roof 1 m up.
func crestGap() float64 {
	fall := math.Atan(0.05)
	return 1 - (0.9*math.Cos(fall) + math.Sin(fall))
}

func crest(lower float64) string {
	return rolledUnder(lower, "carry 0,0,0 0 0,0,0 4 0,0,0 0 -4 0 0,0,0 0 0 0,0,0 4 -0.05,0,0", box(-9, -3, 1, 9, 3, 2))
}

// The level frame is tilted down ahead by asin(0.6) and stands at (2, 0, 5); in
// it the carrier tips by 0.1 rad about its origin.
func tippedGap() float64 {
	down := math.Asin(0.6) + 0.1
	return 4 - (0.9*math.Cos(down) + math.Sin(down))
}

func tipped(lower float64) string {
	return rolledUnder(lower, "tip 2,0,5 0.6435011087932844 0,0,0 0,0,0 0,0,0 0 0 0 -0.1", box(-9, -3, 9, 9, 3, 10))
}

// rolledUnder is a frame that is placed so, under a roof.
func rolledUnder(lower float64, placed, roof string) string {
	return lines(head("some"), `body 0 -1 fixed "frame"`, "part 0 0 "+box(-1, -0.5, 0, 5, 0.5, 0.9)+` "F"`,
		`place 0 0 0 "cell 1, pour 1"`, "solid 0 wall a "+roof, `step 1 roll "over"`, placed,
		"claim 0 1 wall", "need roll.clear "+num(lower), pieces(9, same("P 0,0,1")), tail(1))
}
