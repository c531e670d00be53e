package check

import (
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

// More carriers and jobs that do not work. Each has the arithmetic that says by
// how much; what moves is the worked 3.0 m by 2.4 m cell.
var mutations = []wrong{
	// panels reach from 2200 down to 250 for a lap of 50 over the kicker; with
	// 1650 the foot is at 550, 250 above the kicker: lap -250
	{"wall panel too short", chain{Gear: "roof-halves-24", Swap: [][2]string{{"heights: [1950 mm, 1650 mm, 300 mm]", "heights: [1650 mm]"}}}, []failing{
		{"setup.range", "wall panel stack", "", 1950, "", 0},
	}},
	// 430 + leg + 140 + 10 + 80 + 100 = 2400 - jack asks for 2400 - 330 - 430
	// = 1640 of leg at a jack of 330; legs up to 1540 leave the jack 430, 75
	// more than its 355
	{"legs too short for the rise", chain{Gear: "roof-halves-24", Swap: [][2]string{{"max: 2040 mm, increment: 50 mm", "max: 1540 mm, increment: 50 mm"}}}, []failing{
		{"setup.range", "jack", "most", 430, "", 0},
	}},
	// outer 1200 + inner 600 - leg 1640 = 160 of overlap; 250 asked for
	{"leg tubes hardly overlap", chain{Gear: "roof-halves-24", Swap: [][2]string{{"inner: 1100 mm", "inner: 600 mm"}}}, []failing{
		{"setup.range", "leg overlap", "least", 160, "", 0},
	}},
	// tube end 1000 - (1330 - 1080) = 750; a tube of 1000 in all has 500 - 250
	{"header tube too short", chain{Gear: "roof-halves-24", Swap: [][2]string{{"length: 2000 mm", "length: 1000 mm"}}}, []failing{
		{"setup.range", "arm overlap", "least", 250, "", 0},
	}},
	// the corner panel of a 200 haunch on one of 250
	{"corner panel for another haunch", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"top: 200 x 200 mm", "top: 250 x 250 mm"}}}, []failing{
		{"setup.range", "corner panel run", "", 50, "", 0},
	}},
	// edge 1300 - panel 1200 leaves a filler of 200; fillers begin at 320
	{"filler out of the fillers' range", chain{Gear: "roof-halves-24", Swap: [][2]string{{"widths: [1120 mm]", "widths: [1200 mm]"}}}, []failing{
		{"setup.range", "filler width", "least", 200, "", 0},
	}},
	// the pour is 2.5 m long, the form 2.4
	{"form shorter than the pour", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"pours: [2.3 m]", "pours: [2.5 m]"}}}, []failing{
		{"setup.length", "form length", "", 2400, "", 0},
	}},
	// 2.2 m on the centreline and 3.0 tan 20 = 1.092 of skew: 3.292 from corner
	// to corner against 2.4
	{"skewed pour longer than the form", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"pours: [2.3 m]", "pours: [2.2 m]\n  skew: {inlet: -20 deg, outlet: 20 deg}"}}}, []failing{
		{"setup.length", "form length", "", 2400, "", 0},
	}},
	// plates drawn up only 10: 25 asked for
	{"plates hardly off the invert", chain{Gear: "roof-halves-24", Swap: [][2]string{{"wheels - 60 mm", "wheels - 10 mm"}}}, []failing{
		{"setup.rest", "plates collapsed", "", 10, "", 0},
	}},
	// the collapse ends on the jacks at 255: wheels 45 off the invert
	{"never lowered onto the wheels", chain{Gear: "roof-halves-24", Jobs: [][2]string{worked.Sequence(worked.FillersOut, worked.BottomsIn,
		"  - {step: ease down to break the bond, drivers: {jack: raised - 25 mm}}\n", "  - {step: header arms in (stage 1), drivers: {turnbuckle: raised - 50 mm}}\n", "  - {step: down, drivers: {jack: raised - 75 mm}}\n")}}, []failing{
		{"setup.rest", "wheels collapsed", "", 45, "", 0},
	}},
	// a low brace 110 thick: its underside at the frame end is 30 nearer to the
	// sill than that of 50, whose least gap is 26.46: about 3.5 into it
	{"brace too thick for the sill", chain{Gear: "roof-halves-24", Swap: [][2]string{{"to: {body: wall, behind: 210 mm, above_foot: 250 mm}\n    length: {min: 570 mm, max: 745 mm}\n    thickness: 50 mm",
		"to: {body: wall, behind: 210 mm, above_foot: 250 mm}\n    length: {min: 570 mm, max: 745 mm}\n    thickness: 110 mm"}, {"beside: 100 mm", "beside: 140 mm"}}}, []failing{
		{"strip.self", "fillers and ties out", "bodies and links", -3.5, "", 0},
	}},
	// a bottom haunch of 300 instead of 150: the foot's gap 86.286 less
	// 150 / sqrt 2 = 106.066 is 19.78 in the haunch when collapsed
	{"bottom haunch too large", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"bottom: 150 x 150 mm", "bottom: 300 x 300 mm"}}}, []failing{
		{"strip.dig", "down to wheels", "", -19.78, "W", 0},
	}},
	// ties left in: they go through the 250 wall with the panels that swing
	{"ties forgotten", chain{Gear: "roof-halves-24", Jobs: [][2]string{worked.Sequence("  - {step: fillers, removes: [fillers]}\n", worked.BottomsIn)}}, []failing{
		{"strip.dig", "wall bottoms in", "", unsaid, "T", 0},
	}},
	// the hanger 300 left of the centreline: plate 200...400 stands in the roof
	// half's panel, 20 deep from below
	{"hanger outside the filler", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"lines: [0 m]", "lines: [0.3 m]"}}}, []failing{
		{"strip.supports", "fillers and ties out", "hanger plate", -20, "R", 0},
	}},
	// low brace at 100: with D = 1.9434 and r = 1.7507 its pins reach from 192.7
	{"brace that cannot close", chain{Gear: "roof-halves-24", Swap: [][2]string{{"low brace: 590 mm", "low brace: 100 mm"}}}, []failing{
		{"setup.range", "wall bottoms in", "", unsaid, "low brace left", 0},
	}},
}

func TestEveryMutationFailsAtItsPlace(t *testing.T) {
	for _, w := range mutations {
		t.Run(w.name, func(t *testing.T) {
			r := checked(t, w.chain)
			if r.Verdict != result.Fail {
				t.Errorf("verdict %v", r.Verdict)
			}
			for _, f := range w.want {
				f.hold(t, r)
			}
		})
	}
}

func TestWheelsMustStayOffTheHaunchToeAndHoldOnAGrade(t *testing.T) {
	// gauge 1800 + tread 100: outer edge at 950; half span 1500 - haunch 520
	// leaves 980: 30 less 15 of wander is 10 short of 25
	r := checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{{"bottom: 150 x 150 mm", "bottom: 520 x 150 mm"}}})
	failing{"roll.track", "outer edge of the treads", "", 30, "", 0}.hold(t, r)
	// down 6 % without a restraint
	r = checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{{"gear: gear.yaml", "alignment: {grade: -6 %}\ngear: gear.yaml"}, withoutRestraint}})
	failing{"roll.hold", "restraint", "", unsaid, "", 0}.hold(t, r)
}
