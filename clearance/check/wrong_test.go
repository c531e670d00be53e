package check

import (
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

// find is the check of an id for a step; rest narrows the subject further.
func find(r *result.Result, id, step, rest string) (result.Entry, bool) {
	for _, c := range r.Checks {
		subject := "cell 1, pour 1, " + step
		if rest != "" {
			subject += ", " + rest
		}
		if c.ID == id && c.Subject.String() == subject {
			return c, true
		}
	}
	return result.Entry{}, false
}

// wrong is a carrier or a sequence that does not work, and how it must be told.
type wrong struct {
	name string
	chain
	want []failing
}

// failing is one check that must fail: by id, step and rest of the subject,
// with the depth or travel in millimetres, the role's mark, and the reading of
// the adjuster at first contact where that is said.
type failing struct {
	id, step, rest string
	value          float64 // mm; negative is a depth
	mark           string  // beginning of the part's mark
	first          float64 // mm; 0 where nothing is said
}

// plain is the order that lowers 60 before the arms come in.
var plain = worked.Sequence(worked.FillersOut, worked.BottomsIn, "  - {step: down 60, drivers: {jack: raised - 60 mm}}\n", worked.ArmsIn, worked.ToWheels, worked.RaisePlates)

var wrongs = []wrong{
	{"arms in first, braces locked", chain{Gear: "roof-halves-24", Jobs: [][2]string{worked.Sequence(worked.FillersOut, worked.ArmsIn)}}, []failing{
		{"strip.drag", "header arms fully in", "", 120, "", 0},
		{"strip.supports", "header arms fully in", "hanger plate", -20, "R", 620},
		{"strip.dig", "header arms fully in", "", -16.6, "W", 0},
		{"strip.self", "header arms fully in", "seams", -9.5, "W", 0},
	}},
	{"lowered before the feet are in", chain{Gear: "roof-halves-24", Jobs: [][2]string{worked.Sequence(worked.FillersOut, worked.ToWheels)}}, []failing{
		{"strip.drag", "down to wheels", "", 120, "W", 0},
		{"strip.dig", "down to wheels", "", -14.1, "W", 230},
	}},
	{"brace only to 640", chain{Gear: "roof-halves-24", Swap: [][2]string{{"low brace: 590 mm", "low brace: 640 mm"}}}, []failing{
		{"strip.self", "header arms fully in", "seams", -2.34, "W", 0},
	}},
	{"brace only to 690", chain{Gear: "roof-halves-24", Swap: [][2]string{{"low brace: 590 mm", "low brace: 690 mm"}}}, []failing{
		{"strip.self", "header arms fully in", "seams", -6.31, "W", 0},
	}},
	{"hinge 50 below the top of the plane face", chain{Gear: "roof-halves-24", Swap: [][2]string{{"above: 50 mm", "above: -50 mm"}, {"low brace: 590 mm", "low brace: 650 mm"}}}, []failing{
		{"strip.dig", "wall bottoms in", "", -2.26, "W", 0},
	}},
	{"hinge outboard of the panel's back", chain{Gear: "roof-halves-24", Swap: [][2]string{{"hinge: {behind: 160 mm, above: 50 mm}", "hinge: {behind: 70 mm, above: 60 mm}"}}}, []failing{
		{"strip.self", "wall bottoms in", "seams", -2.56, "W", 0},
	}},
	{"corner panel with a leg on the wall", chain{Gear: "roof-halves-24", Swap: legged}, []failing{
		{"strip.drag", "ease down to break the bond", "", 25, "C", 0},
	}},
	{"corner panel with a leg, plain order", chain{Gear: "roof-halves-24", Swap: legged, Jobs: [][2]string{plain}}, []failing{
		{"strip.drag", "down 60", "", 60, "C", 0},
	}},
	{"arms in after lowering only 15", chain{Gear: "roof-halves-24", Jobs: [][2]string{worked.Sequence(worked.FillersOut, worked.BottomsIn, "  - {step: ease down to break the bond, drivers: {jack: raised - 15 mm}}\n", worked.ArmsIn)}}, []failing{
		{"strip.supports", "header arms fully in", "hanger plate", -5, "R", 620},
	}},
	{"plate wider than the filler", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"200 x 200 x 20 mm", "200 x 400 x 20 mm"}}}, []failing{
		{"strip.supports", "fillers and ties out", "hanger plate", -20, "R", 0},
	}},
	{"upper brace left locked", chain{Gear: "roof-halves-24", Jobs: [][2]string{worked.Sequence(worked.FillersOut, worked.BottomsIn, "  - {step: down 60, drivers: {jack: raised - 60 mm}}\n",
		"  - {step: header arms fully in, drivers: {turnbuckle: 580 mm}, locked: [upper brace]}\n")}}, []failing{
		{"setup.range", "upper brace left", "locked in header arms fully in", 23.5, "upper brace left", 0},
	}},
	{"one side's jacks 10 low", chain{Gear: "roof-halves-24", Jobs: [][2]string{worked.Sequence(worked.FillersOut, worked.BottomsIn,
		"  - {step: ease down to break the bond, drivers: {jack left: raised - 25 mm, jack right: raised - 15 mm}}\n")}}, []failing{
		{"strip.dig", "ease down to break the bond", "", -7.5, "W", 0},
	}},
	{"whole roof: everything lowered first", chain{Gear: "roof-whole-24", Jobs: append([][2]string{worked.Sequence(worked.FillersOut, worked.ToWheels, "  - {step: walls in, drivers: {draw screw: 120 mm}}\n")}, noHangers...)}, []failing{
		{"strip.drag", "down to wheels", "", 120, "W", 0},
		{"strip.dig", "down to wheels", "", -14.1, "W", 230},
	}},
	{"whole roof: strip 100 wide", chain{Gear: "roof-whole-24", Jobs: noHangers, Swap: [][2]string{{"widths: [1140 mm]", "widths: [1200 mm]"}, {"min: 140 mm, max: 200 mm, prefer: 160 mm", "min: 90 mm, max: 200 mm, prefer: 100 mm"}}}, []failing{
		{"strip.self", "walls in", "bodies and links", -19.3, "C", 0},
	}},
	{"whole roof: kept plate in the strip", chain{Gear: "roof-whole-24", Jobs: [][2]string{{"lines: [0 m], plate: 200 x 200 x 20 mm", "lines: [1.22 m], plate: 200 x 120 x 20 mm"}}}, []failing{
		{"strip.supports", "walls in", "hanger plate", unsaid, "C", 20},
	}},
	{"whole roof: kept plate under the panel", chain{Gear: "roof-whole-24"}, []failing{
		{"strip.supports", "fillers and ties out", "hanger plate", -20, "R", 0},
	}},
	{"roof jacks with the header of the other roof", chain{Gear: "roof-whole-24-jacks", Jobs: noHangers, Swap: [][2]string{{"seat: 60 mm", "seat: 10 mm"}}}, []failing{
		{"strip.self", "roof down", "bodies and links", -30, "R", 0},
	}},
}

// legged gives the corner panel a leg of 100 on the wall face.
var legged = [][2]string{{"corner: {haunch: 200 x 200 mm, return: 20 mm,", "corner: {haunch: 200 x 200 mm, return: 20 mm, leg: 100 mm,"}, {"heights: [1950 mm,", "heights: [1850 mm,"}}

func TestEveryWrongOrderAndSettingFailsAtItsPartByItsAmount(t *testing.T) {
	for _, w := range wrongs {
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

func (f failing) hold(t *testing.T, r *result.Result) {
	t.Helper()
	c, ok := find(r, f.id, f.step, f.rest)
	if !ok {
		t.Errorf("no %s for %q %q", f.id, f.step, f.rest)
		return
	}
	if c.Verdict != result.Fail {
		t.Errorf("%s %s is %v: %s", f.id, c.Subject, c.Verdict, c.Text)
	}
	if !math.IsNaN(f.value) && (c.Value == nil || math.Abs(c.Value.Lower*1e3-f.value) > 0.1 || math.Abs(c.Value.Upper*1e3-f.value) > 0.1) {
		t.Errorf("%s %s: %v, want %v mm: %s", f.id, c.Subject, c.Value, f.value, c.Text)
	}
	if !strings.HasPrefix(c.Where.Part, f.mark) {
		t.Errorf("%s %s names %q, want %s…: %s", f.id, c.Subject, c.Where.Part, f.mark, c.Text)
	}
	if f.first != 0 && (c.Where.First == nil || math.Abs(c.Where.First.Hit*1e3-f.first) > 0.3 || math.Abs(c.Where.First.Clear*1e3-f.first) > 0.3) {
		t.Errorf("%s %s: first contact %+v, want at %v mm", f.id, c.Subject, c.Where.First, f.first)
	}
}
