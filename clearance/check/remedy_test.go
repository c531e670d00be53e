package check

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"boxwalk/clearance/result"
)

// remedied is the remedy of the entry that governs a check, whose subject ends so.
func remedied(t *testing.T, r *result.Result, id, subject string) string {
	t.Helper()
	for _, e := range r.Checks {
		if e.ID == id && e.Verdict != result.Pass && strings.Contains(e.Subject.String(), subject) {
			return e.Remedy
		}
	}
	t.Errorf("%s %q passes or is not there", id, subject)
	return ""
}

// no tail, a pocket of that size, a seal so wide; jacks 2 mm apart on bents 1200
// mm apart move the roof by 2 / 1200 x 2400 = 4 mm, two per cent more for the way
// down: a plate takes 200 + 2 x 4.08 = 208.2, and 210.2 with 2.5 mm; rounded up
func pocketed(size, seal string) chain {
	return chain{Gear: "roof-whole-24", Jobs: [][2]string{{"tail: 50 mm", "tail: 0 mm"}, {"gear: gear.yaml", "tolerance: {jack_level: 2 mm}\ngear: gear.yaml"}},
		Swap: [][2]string{{"filler_length: 1000 mm\n", "filler_length: 1000 mm\n  pocket: " + size + "\n" + seal}}}
}

func TestRemediesSayWhatMendsTheSituation(t *testing.T) {
	for _, c := range []struct {
		name        string
		on          chain
		id, subject string
		says        []string
	}{
		{"a jack plate beyond the inlet", chain{Gear: "roof-halves-24", Swap: [][2]string{{"first: 600 mm", "first: 50 mm"}}},
			"setup.rest", "plates on the invert", []string{"longer apron beyond the inlet, by 30.0 mm (ends.inlet.apron)"}}, // 150/2 - 50
		{"wheels beyond the outlet", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"apron: 12 m", "apron: 2 m"}}},
			"roll.support", "front wheels", []string{"longer apron beyond the outlet, by 210.0 mm (ends.outlet.apron)"}}, // 2.1 + 0.1 - 2
		{"a wheel through a jack screw", chain{Gear: "roof-halves-24", Swap: [][2]string{{"[0.3 m, 2.1 m]", "[0.6 m, 2.1 m]"}, {"[0.45 m, 1.95 m]", "[0.3 m, 1.95 m]"}}},
			"strip.self", "fillers and ties out", []string{"move the wheel line clear of the jack of bent 1 (wheels.at[0])", "from 600 mm to 790 mm"}}, // 100 + 75 + 10 off
		{"a wheel beside a jack plate", chain{Gear: "roof-halves-24", Swap: [][2]string{{"[0.3 m, 2.1 m]", "[0.45 m, 2.1 m]"}, {"[0.45 m, 1.95 m]", "[0.85 m, 1.95 m]"}}},
			"strip.self", "raise jack plates", []string{"wheels.at[0]", "from 450 mm to 410 mm"}},
		{"a nut under a one-piece roof", chain{Gear: "roof-whole-24"}, "strip.supports", "hanger nut",
			[]string{"tail: 0 mm", "recess in the facing as deep as the plate", "roof.pocket", "211.0 mm x 211.0 mm x 20.0 mm"}},
		{"a plate under a one-piece roof", chain{Gear: "roof-whole-24", Jobs: [][2]string{{"tail: 50 mm", "tail: 0 mm"}}}, "strip.supports", "hanger plate",
			[]string{"recess in the facing", "roof.pocket", "211.0 mm x 211.0 mm x 20.0 mm", "leaves no play"}},
		{"a pocket as large as its plate", pocketed("200 x 200 x 20 mm", ""), "strip.supports", "hanger plate", []string{"larger pocket", "209.0 mm x 209.0 mm", "leaves no play", "roof.seal"}},
		{"the play of a pocket", pocketed("210 x 210 x 20 mm", ""), "setup.faces", "gaps between faces", []string{"4.1 mm of play", "compressible seal", "roof.seal: 5.0 mm"}},
		{"a plate beside its pocket", chain{Gear: "roof-whole-24", Jobs: [][2]string{{"tail: 50 mm", "tail: 0 mm"}, {"lines: [0 m]", "lines: [0.5 m]"}}, Swap: pocketed("206 x 206 x 20 mm", "").Swap},
			"strip.supports", "hanger plate", []string{"on the centreline", "lines: [0 m]"}},
		{"another haunch", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"top: 200 x 200 mm", "top: 250 x 250 mm"}}}, "setup.range", "corner panel run", []string{"corner.haunch"}},
		{"what follows from another haunch", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"top: 200 x 200 mm", "top: 250 x 250 mm"}}}, "strip.dig", "ease down to break the bond", []string{"first fix what setup.range says"}},
		{"a taller cell", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"rise: 2.4 m", "rise: 2.9 m"}}}, "setup.range", "jack, most", []string{"frame.leg", "set: {leg: ...}"}},
		{"a lift too high", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"rise: 2.4 m", "rise: 2.9 m"}}}, "raise.lift", "stroke", []string{"lifting.stroke"}},
		{"a channel under the treads", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"kicker: 300 mm", "kicker: 300 mm\n  channel: {offset: 0.9 m, width: 300 mm, depth: 100 mm}"}}},
			"setup.rest", "plates on the invert", []string{"another gauge", "jack plates", "culvert.channel"}},
		{"a pour longer than the form", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"pours: [2.3 m]", "pours: [2.5 m]"}}}, "setup.length", "form length", []string{"at least 100.0 mm"}},
		{"the gap that a short form leaves", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"pours: [2.3 m]", "pours: [2.5 m]"}}}, "setup.faces", "gaps", []string{"setup.length"}},
		{"plates low", chain{Gear: "roof-halves-24", Swap: [][2]string{{"wheels - 60 mm", "wheels - 10 mm"}}}, "setup.rest", "plates collapsed", []string{"wheels - 60 mm"}},
		{"plates low on the way", chain{Gear: "roof-halves-24", Swap: [][2]string{{"wheels - 60 mm", "wheels - 10 mm"}}}, "roll.clear", "invert", []string{"raise the plates farther"}},
		{"bars that lean", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"left_in_place:", "left_in_place:\n  steel_ahead: {cover: 50 mm, lean: 80 mm}"}, {"pours: [2.3 m]", "pours: [2.3 m, 2.3 m]"}}},
			"raise.clear", "", []string{"bars ahead", "held back"}},
		{"a filler out of range", chain{Gear: "roof-halves-24", Swap: [][2]string{{"widths: [1120 mm]", "widths: [1000 mm]"}}}, "setup.range", "filler width", []string{"1060.0 mm to 1140.0 mm wide"}}, // 1300 - 480/2, 1300 - 320/2
		{"no stack for the wall", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"rise: 2.4 m", "rise: 2.5 m"}}}, "setup.range", "wall panel stack", []string{"2025.0 mm to 2120.0 mm high"}},         // 2300 - 300 + 25, + 120
		{"a brace too short as raised", chain{Gear: "roof-halves-24", Swap: [][2]string{{"length: {min: 570 mm, max: 745 mm}", "length: {min: 570 mm, max: 725 mm}"}}}, "setup.range", "low brace left, most", []string{"as raised", "pins elsewhere"}},
		{"a reading out of range", chain{Gear: "roof-halves-24", Swap: [][2]string{{"length: {min: 570 mm, max: 745 mm}", "length: {min: 600 mm, max: 745 mm}"}}}, "setup.range", "low brace left, least", []string{"another reading in step"}},
		{"a hanger under the lap", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"pours: [2.3 m]", "pours: [2.1 m, 1.6 m]\n  lap: 700 mm"}}}, "strip.supports", "cell 1, pour 2, fillers and ties out, hanger plate", []string{"under the roof of pour 1", "culvert.lap"}},
		{"filler pieces short of the plates", chain{Gear: "roof-halves-24", Swap: [][2]string{{"filler_length: 1000 mm", "filler_length: 980 mm"}}}, "setup.faces", "gaps between faces", []string{"1000.0 mm (roof.filler_length)"}},
		{"halves that draw in to the nuts", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"tail: 50 mm", "tail: 90 mm"}}}, "strip.clear", "hanger, collapsed", []string{"draw in toward the hangers", "wider filler"}},
		{"wheels that do not carry the middle", chain{Gear: "roof-halves-24", Swap: [][2]string{{"[0.3 m, 2.1 m]", "[0.3 m, 0.9 m]"}, {"[0.45 m, 1.95 m]", "[0.45 m, 1.4 m]"}}}, "roll.wheel", "wheels", []string{"centre of gravity", "wheels.at"}},
		{"the last pass of lifting", chain{Gear: "roof-halves-24", Jobs: lapped, Swap: [][2]string{{", last: 3 mm", ", last: 4 mm"}}}, "raise.clear", "cell 1, pour 2", []string{"last lift in a smaller pass (lifting.last)"}},
		{"no pass for the last lift", chain{Gear: "roof-halves-24", Jobs: lapped, Swap: [][2]string{{", last: 3 mm", ""}}}, "raise.clear", "cell 1, pour 2", []string{"last lift in a pass of its own", "(lifting.last)"}},
		{"a filler left in", chain{Gear: "roof-halves-24", Swap: [][2]string{{"removes: [fillers, ties]", "removes: [ties]"}}}, "strip.self", "header arms in (stage 1), seams", []string{"take it out first", "removes: [fillers]"}},
		{"no way to lift", chain{Gear: "roof-halves-24", Swap: [][2]string{{"lifting:", "#"}}}, "raise.lift", "", []string{"lifting: {pads, capacity, stroke}"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := remedied(t, checked(t, c.on), c.id, c.subject)
			for _, want := range c.says {
				if !strings.Contains(text, want) {
					t.Errorf("says %q, not %q", text, want)
				}
			}
		})
	}
}

func TestRemediesThatNameAValueMend(t *testing.T) {
	for _, c := range []struct {
		name string
		on   chain
		id   string
	}{
		{"apron beyond the inlet", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"outlet: {apron: 12 m}", "inlet: {apron: 30 mm}, outlet: {apron: 12 m}"}}, Swap: [][2]string{{"first: 600 mm", "first: 50 mm"}}}, "setup.rest"},
		{"apron beyond the outlet", chain{Gear: "roof-halves-24", Jobs: [][2]string{{"apron: 12 m", "apron: 2.21 m"}}}, "roll.support"},
		{"wheel off the screw", chain{Gear: "roof-halves-24", Swap: [][2]string{{"[0.3 m, 2.1 m]", "[0.79 m, 2.1 m]"}, {"[0.45 m, 1.95 m]", "[0.3 m, 1.95 m]"}}}, "strip.self"},
		{"wheel off the plate", chain{Gear: "roof-halves-24", Swap: [][2]string{{"[0.3 m, 2.1 m]", "[0.41 m, 2.1 m]"}, {"[0.45 m, 1.95 m]", "[0.85 m, 1.95 m]"}}}, "strip.self"},
	} {
		for _, e := range checked(t, c.on).Checks {
			if e.ID == c.id && e.Verdict != result.Pass {
				t.Errorf("%s: %s %s: %s", c.name, e.ID, e.Subject, e.Text)
			}
		}
	}
}

func TestAPocketNeedsPlayAndASealClosesIt(t *testing.T) {
	if r := checked(t, pocketed("200 x 200 x 20 mm", "")); r.Verdict == result.Pass {
		t.Error("a plate without any play in its pocket passes")
	}
	if r := checked(t, pocketed("210 x 210 x 20 mm", "")); r.Verdict != result.Fail {
		t.Errorf("5 mm that nothing closes: %v", r.Verdict)
	}
	r := checked(t, pocketed("210 x 210 x 20 mm", "  seal: 5 mm\n"))
	if r.Verdict != result.Pass {
		t.Errorf("%v: %s", r.Verdict, r.Checks[0].Text)
	}
	held(t, r, "strip.supports", "down", "hanger plate", 5e-3, 0.1e-3)
}

// loosens finds what asks for less: the groups of limits and tolerances, their
// keys, and values of the crew's own care that come off clearances.
var loosens = regexp.MustCompile(`(?i)toleranc|limits?(:|\.[a-z])|say so|jack_level|wander|\blag\b|breakaway|measured|plumb of|accept`)

func TestNoRemedyAsksForLess(t *testing.T) {
	files, err := filepath.Glob("remedy*.go")
	if err != nil || len(files) < 4 {
		t.Fatal(err, files)
	}
	groups, err := filepath.Glob("*_group.go")
	if err != nil || len(groups) < 5 {
		t.Fatal(err, groups)
	}
	for _, name := range groups {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(string(text), "\n") {
			if strings.HasPrefix(strings.TrimSpace(line), "remedy:") && loosens.MatchString(line) {
				t.Errorf("%s: %s", name, line)
			}
		}
	}
	for _, name := range append(files, "time_release.go", "time_governs.go", "../fix/dimension.go", "../fix/means.go", "../../export/table/next.go", "../../export/table/fixes.go") {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range regexp.MustCompile("\"[^\"\n]*\"|`[^`]*`").FindAllString(string(text), -1) {
			if loosens.MatchString(s) {
				t.Errorf("%s: %s", name, s)
			}
		}
	}
}

func TestEveryCheckThatFailsOrStaysOpenHasARemedy(t *testing.T) {
	for _, c := range Table() {
		if c.remedy == nil {
			t.Errorf("%s fails without a word on what to do", c.ID)
		}
	}
	for _, name := range []string{"arms-first", "bend-at-joint", "narrow-filler", "brow-lane", "weir-street", "chalk-hill", "april-creek", "otter-brook"} {
		for _, e := range checkFile(t, name).Checks {
			if (e.Verdict == result.Pass) != (e.Remedy == "") || loosens.MatchString(e.Remedy) {
				t.Errorf("%s: %s %v: %q", name, e.ID, e.Verdict, e.Remedy)
			}
		}
	}
}

// What mends a one-piece roof does not speak of halves or of a hinge, wherever the
// hangers are.
func TestRemediesForAOnePieceRoofDoNotSpeakOfHalves(t *testing.T) {
	told := 0
	for _, line := range []string{"0.82 m", "1.05 m", "1.2 m"} {
		r := checked(t, chain{Gear: "roof-whole-24", Jobs: [][2]string{{"lines: [0 m]", "lines: [" + line + "]"}}})
		for _, e := range r.Checks {
			for _, word := range []string{"halves", "hinge"} {
				if strings.Contains(e.Remedy, word) {
					t.Errorf("%s: %s %s: %s", line, e.ID, e.Subject, e.Remedy)
				}
			}
			if e.Verdict == result.Fail {
				told++
			}
		}
	}
	if told < 8 {
		t.Errorf("%d fail", told)
	}
}
