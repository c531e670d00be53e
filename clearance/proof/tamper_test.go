package proof

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strings"
	"testing"
)

// crew is a proof with two parts, two solids, a face that is released in step 1,
// contacts, an end and a roll; every number is known by construction.
//
// Part 0 touches the wall at y = 1 as raised and draws back 0.1 in step 1 and
// 0.2 more in step 2; part 1 stands on the invert at z = 0 and does not move.
func crew() string {
	return lines(head("all"), `body 0 -1 fixed "frame"`, `body 1 0 slide 0,1,0 0,0,0 - "panel"`,
		"part 0 1 "+box(0, 0.9, 0.5, 1, 1, 1)+` "W1"`, "part 1 0 "+box(0, 0, 0, 1, 0.3, 0.5)+` "J1"`,
		`step 1 strip "release"`, "drive 1 0 -0.1", `step 2 strip "draw"`, "drive 1 -0.1 -0.3",
		`step 3 end "collapsed"`, "drive 1 -0.3 -0.3", `step 4 raise "raise"`, "drive 1 -0.1 0", "absent 1",
		`place 0 0 100 "cell 1, pour 1"`, `twin "cell 1, pour 2"`,
		"solid 0 wall sra "+box(99, 1, -1, 102, 2, 2), "solid 1 invert sra "+box(99, -1, -1, 102, 0.95, 0),
		"face 0 1 0", "lands 0 4 0", "stands 1 1", "rolls 1 1", `step 7 roll "ahead"`, "drive 1 -0.3 -0.3", crewClaims)
}

const crewClaims = `claim 0 1 wall
need strip.dig 0
touch strip.dig 0
need strip.clear 0.5
A 0
C
P 0,1,0
P 0,1,0
claim 0 1 invert
need strip.dig 0
touch strip.dig 0
need strip.clear 0.5
A 0
P 0,0,-1
C
P 0,0,-1
claim 0 2 wall
need strip.dig 0.1
need strip.clear 0.1
P 0,1,0
claim 0 2 invert
need strip.dig 0.1
touch strip.dig 0
need strip.clear 0.5
A 0
P 0,0,-1
C
P 0,0,-1
claim 0 3 wall
need strip.clear 0.3
P 0,1,0
claim 0 3 invert
need strip.clear 0.5
touch strip.clear 0
A 1
C
P 0,0,-1
P 0,0,-1
claim 0 4 wall
need raise.clear 0.5
touch raise.clear 0
C
P 0,1,0
claim 0 4 invert
need raise.clear 0.5
P 0,0,-1
claim 0 7 wall
need roll.clear 0.3
P 0,1,0
claim 0 7 invert
need roll.clear 0.5
touch roll.clear 0
A 0
P 0,0,-1
C
P 0,0,-1
self 0 1
need strip.self 0.5
S 0
N
P 0,-1,0
N
self 0 2
need strip.self 0.3
S 0
N
T 0.5
P 0,-1,0
P 0,-1,0
N
end 12
`

func TestContactsLastAsLongAsTheyLive(t *testing.T) {
	r := accepted(t, crew())
	if !r.Whole || r.Claims != 12 || r.Contacts != 6 || len(r.Inputs) != 1 || r.Assumed.Faces != 1 || r.Assumed.Twins != 1 || r.Assumed.Absent != 1 {
		t.Errorf("%+v", r)
	}
	want := Entry{ID: "strip.clear", Subject: "cell 1, pour 2, draw, wall", Lower: 0.1}
	found := false
	for _, e := range r.Entries {
		found = found || e == want
	}
	if !found {
		t.Errorf("no %v among %v", want, r.Entries)
	}
	late := strings.Replace(crew(), "need strip.clear 0.1\nP 0,1,0", "need strip.clear 0.1\ntouch strip.dig 0\nA 0\nC\nP 0,1,0\nP 0,1,0", 1)
	refused(t, late, "C", "not declared to touch")
	refused(t, swap(t, crew(), "lands 0 4 0", "lands 0 5 0"), "C", "not declared to touch")
	refused(t, swap(t, crew(), "stands 1 1\n", ""), "C", "not declared to touch")
	refused(t, swap(t, crew(), "rolls 1 1\n", ""), "C", "not declared to touch")
	accepted(t, swap(t, late, "face 0 1 0", "face 0 2 0"))
}

// tampering changes one place of the crew's proof.
var tamperings = []struct{ name, old, put, line, why string }{
	{"plane nudged", "T 0.5\nP 0,-1,0\n", "T 0.5\nP 0,-1,0.9\n", "P 0,-1,0.9", "are asked"},
	{"split dropped", "need strip.self 0.5\nS 0\n", "need strip.self 0.5\n", "N", "W1 is left out against J1"},
	{"split without a record for its rest", "need strip.dig 0.1\nneed strip.clear 0.1\nP 0,1,0", "need strip.dig 0.1\nneed strip.clear 0.1\nA 0\nP 0,1,0", "claim 0 2 invert", "no record"},
	{"plane within one set", "need strip.self 0.5\nS 0\nN\n", "need strip.self 0.5\n", "P 0,-1,0", "between two sets"},
	{"split that names what is not there", "need strip.clear 0.5\ntouch strip.clear 0\nA 1", "need strip.clear 0.5\ntouch strip.clear 0\nA 2", "A 2", "nothing that is in the set"},
	{"split that leaves nothing", "need strip.clear 0.5\ntouch strip.clear 0\nA 1", "need strip.clear 0.5\ntouch strip.clear 0\nA 0-1", "A 0-1", "leaves nothing"},
	{"falling list", "need strip.clear 0.5\ntouch strip.clear 0\nA 1", "need strip.clear 0.5\ntouch strip.clear 0\nA 1,0", "A 1,0", "rising order"},
	{"contact added", "need raise.clear 0.5\nP 0,0,-1", "need raise.clear 0.5\nC\nP 0,0,-1", "C", "not declared"},
	{"contact of two pairs", "touch strip.clear 0\nA 1\nC\n", "touch strip.clear 0\nC\n", "C", "2 by 1"},
	{"contact without a number", "touch strip.clear 0\n", "", "C", "nothing is said"},
	{"contact deeper than it is", "touch raise.clear 0", "touch raise.clear 0.000003", "P 0,1,0", "are asked"},
	{"claim raised", "need roll.clear 0.3", "need roll.clear 0.300003", "P 0,1,0", "are asked"},
	{"claim of another number", "need strip.clear 0.1", "need strip.clear 1e99", "need strip.clear 1e99", "1000 km"},
	{"drive of a step changed", "drive 1 -0.1 -0.3", "drive 1 -0.1 -0.4", "claim 0 1 wall", "does not begin where"},
	{"body that moves at the end", "drive 1 -0.3 -0.3\nstep 4", "drive 1 -0.3 -0.2\nstep 4", "drive", "at its end"},
	{"absent part that is not there", "absent 1", "absent 2", "absent 2", "nothing that is in the set"},
	{"T at the end of its interval", "T 0.5\nP 0,-1,0\n", "T 1\nP 0,-1,0\n", "T 1", "does not lie between"},
	{"T outside its interval", "T 0.5\nP 0,-1,0\n", "T -0.5\nP 0,-1,0\n", "T -0.5", "does not lie between"},
	{"not a number", "T 0.5\n", "T nan\n", "T nan", "finite number"},
	{"infinite number", "need strip.clear 0.1", "need strip.clear -inf", "need", "finite number"},
	{"hexadecimal number", "T 0.5\n", "T 0x1p-1\n", "T", "finite number"},
	{"vector of two", "need roll.clear 0.3\nP 0,1,0", "need roll.clear 0.3\nP 0,1", "P", "no vector"},
	{"wrong count at the end", "end 12", "end 11", "end", "11 claims are announced and 12"},
	{"lines behind the end", "end 12\n", "end 12\nend 12\n", "end", "behind the end"},
	{"place twice", `twin "cell 1, pour 2"`, `twin "cell 1, pour 1"`, "claim 0 1 wall", "is there twice"},
	{"id doubled", "solid 1 invert", "solid 0 invert", "solid 0 invert", "where 1 is due"},
	{"step doubled", "step 7 roll", "step 4 roll", "step 4", "twice"},
	{"no hash", "result " + noHash, "result " + noHash[1:], "result", "no sha256"},
	{"a note behind the result", "scope all", "note \"all is well\"\nscope all", "note", "a note behind the inputs"},
	{"two results", "scope all", "result " + noHash + "\nscope all", "result", "two results"},
	{"zone twice", `zone invert "invert"`, `zone wall "invert"`, "zone wall", "twice"},
	{"solid of no zone", "solid 1 invert", "solid 1 roof", "solid", "no zone"},
	{"name missing", `step 4 raise "raise"`, `step 4 raise`, "step 4", "name missing"},
	{"name that is no string", `step 4 raise "raise"`, `step 4 raise "raise`, "step 4", "no JSON string"},
	{"face on the invert", "face 0 1 0", "face 1 1 0", "face", "declared to touch"},
	{"stands on the wall", "stands 1 1", "stands 0 1", "stands", "stands on the invert"},
	{"contact declared twice", "stands 1 1", "stands 1 1\nstands 1 1", "stands", "twice"},
	{"unknown record", "end 12", "fine\nend 12", "fine", "model is closed"},
	{"step that is not there", "self 0 2\n", "self 0 9\n", "self 0 9", "not there"},
	{"claim about nothing", "claim 0 4 invert", "claim 0 4 hanger", "claim 0 4 hanger", "about nothing"},
	{"check of another kind", "need roll.clear 0.3", "need raise.clear 0.3", "need raise.clear", "serves no check"},
	{"shift changed", "place 0 0 100", "place 0 0 1e7", "place", "1000 km"},
	{"part of three corners", "step 1 strip", `part 2 0 0,0,0 1,0,0 0,1,0 "X"` + "\nstep 1 strip", "part 2", "number of them"},
	{"part behind the steps", "place 0 0 100", `part 2 0 0,0,0 1,0,0 0,1,0 0,0,1 "X"` + "\nplace 0 0 100", "part 2", "too late"},
	{"part in a place", "\nsolid 0", "\n" + `part 2 0 0,0,0 1,0,0 0,1,0 0,0,1 "X"` + "\nsolid 0", "part 2", "first step"},
	{"two blanks", "solid 0 ", "solid  0 ", "solid  0", "more than one blank"},
	{"carriage return", "scope all\n", "scope all\r\n", "scope all", "control character"},
	{"half a surrogate", `step 7 roll "ahead"`, `step 7 roll "ahe\ud800"`, "step 7", "no JSON string"},
	{"solid behind what touches it", "\nlands", "\nrolls 1 0\nlands", "lands", "too late"},
	{"carry up too steep a plane", `step 7 roll "ahead"`, `step 7 roll "ahead"` + "\ncarry 0,0,0 0 0,0,0 4 0,0,0 0 0 1 0,0,0 0 0 0,0,0 4 0.6,0,0", "carry", "steeper than 0.5"},
	{"carry on one wheel line", `step 7 roll "ahead"`, `step 7 roll "ahead"` + "\ncarry 0,0,0 0 0,0,0 4 0,0,0 0 0 1 0,0,0 0 4 0,0,0 4 0,0,0", "carry", "less than 0.1 m apart"},
	{"carry that leaves the straight ahead", `step 7 roll "ahead"`, `step 7 roll "ahead"` + "\ncarry 0,0,0 0 0,0,0 4 0,0,0 0 0 1 0,4,0 0 0 0,0,0 4 0,0,0", "carry", "turns more than 0.9"},
	{"carry that stands on end", `step 7 roll "ahead"`, `step 7 roll "ahead"` + "\ncarry 0,0,0 0 0,0,0 4 0,0,0 0 0 0 0,0,0 0 2 0,0,0 4 0.5,0,2.4", "carry", "less than 0.3 along it"},
	{"tip on end", `step 7 roll "ahead"`, `step 7 roll "ahead"` + "\ntip 0,0,0 0 0,0,0 0,0,0 0,0,0 0 0 0 1", "tip", "pitches by 0.9"},
	{"frame placed twice", `step 7 roll "ahead"`, `step 7 roll "ahead"` + "\ntip 0,0,0 0 0,0,0 0,0,0 0,0,0 0 0 0 0\ntip 0,0,0 0 0,0,0 0,0,0 0,0,0 0 0 0 0", "tip", "placed twice"},
	{"frame placed while stripping", `step 1 strip`, `tip 0,0,0 0 0,0,0 0,0,0 0,0,0 0 0 0 0` + "\nstep 1 strip", "tip", "before the first step"},
	{"input behind the result", "result " + noHash, "result " + noHash + "\ninput " + noHash + ` "job.yaml"`, "input", "behind the result"},
	{"drive behind absent", "drive 1 -0.1 0\nabsent 1", "absent 1\ndrive 1 -0.1 0", "drive 1 -0.1 0", "too late"},
	{"drive behind a frame", `step 7 roll "ahead"` + "\ndrive 1 -0.3 -0.3", `step 7 roll "ahead"` + "\ntip 0,0,0 0 0,0,0 0,0,0 0,0,0 0 0 0 0\ndrive 1 -0.3 -0.3", "drive 1 -0.3 -0.3", "too late"},
	{"span of one id", "A 0\nC\nP 0,1,0", "A 0-0\nC\nP 0,1,0", "A 0-0", "from 1"},
	{"turning plane over half a turn", "need roll.clear 0.3\nP 0,1,0", "need roll.clear 0.3\nA 0\nW 0,1,0 0,-1,0\nP 0,1,0", "W", "are asked"},
	{"turning plane of two pairs", "need roll.clear 0.3\nP 0,1,0", "need roll.clear 0.3\nW 0,1,0 0,1,0", "W", "one pair"},
	{"record of a tree with a name", "T 0.5\n", "T 0.5 \"x\"\n", "T", "has no name"},
}

func TestTamperingIsRefusedWhereItIs(t *testing.T) {
	for _, c := range tamperings {
		t.Run(c.name, func(t *testing.T) { refused(t, swap(t, crew(), c.old, c.put), c.line, c.why) })
	}
}

// trusted begins lines without which the rest is as true: another motion, or
// less said of where it is from.
var trusted = []string{"input", "result", "twin", "zone hanger", "need strip.self", "body 0", "drive 1 -0.1 0", "drive 1 -0.3 -0.3"}

// Every line can be left out or stand twice, and the file be cut before it.
func TestNoLineCanBeLeftOutOrStandTwice(t *testing.T) {
	all := strings.Split(strings.TrimRight(crew(), "\n"), "\n")
	with := func(head []string, tail ...string) error {
		_, err := Verify(stream(strings.Join(append(append([]string(nil), head...), tail...), "\n")))
		return err
	}
	for i, line := range all {
		onTrust := slices.ContainsFunc(trusted, func(p string) bool { return strings.HasPrefix(line, p) })
		if with(all[:i], all[i+1:]...) == nil && !onTrust {
			t.Errorf("accepted without line %d, %q", i+1, line)
		}
		if with(all[:i]) == nil {
			t.Errorf("accepted when cut before line %d", i+1)
		}
		if with(all[:i+1], all[i:]...) == nil && !strings.HasPrefix(line, "input") {
			t.Errorf("accepted with line %d twice, %q", i+1, line)
		}
		if with(all[:i], append([]string{""}, all[i:]...)...) == nil {
			t.Errorf("accepted with an empty line before line %d", i+1)
		}
	}
}

func TestClaimTwiceIsRefused(t *testing.T) {
	once := "claim 0 7 wall\nneed roll.clear 0.3\nP 0,1,0\n"
	refused(t, swap(t, crew(), once, once+once), "claim 0 7 wall", "twice")
}

func TestVertexMovedIsSeen(t *testing.T) {
	moved := strings.Replace(crew(), point(0, 0.9, 0.5)+" ", point(0, 0.9, -0.1)+" ", 1)
	refused(t, moved, "P 0,0,-1", "are asked")
	moved = strings.Replace(crew(), point(99, 1, -1), point(99, 0.85, -1), 1)
	refused(t, moved, "P 0,1,0", "are asked")
}

func TestClaimLeftOutIsSeen(t *testing.T) {
	for _, once := range []string{"claim 0 7 wall\nneed roll.clear 0.3\nP 0,1,0\n", "claim 0 3 wall\nneed strip.clear 0.3\nP 0,1,0\n",
		"claim 0 4 invert\nneed raise.clear 0.5\nP 0,0,-1\n", "self 0 1\nneed strip.self 0.5\nS 0\nN\nP 0,-1,0\nN\n"} {
		refused(t, swap(t, swap(t, crew(), once, ""), "end 12", "end 11"), "", "no claim serves")
	}
	refused(t, swap(t, crew(), "need strip.dig 0.1\nneed strip.clear 0.1\n", "need strip.clear 0.1\n"), "", "no claim serves strip.dig")
}

// stating is a proof of a result, and the result.
func stating(t *testing.T, checks string) (*Report, string) {
	t.Helper()
	result := `{"schema": "boxwalk/result/1", "checks": [` + checks + `]}`
	sum := sha256.Sum256([]byte(result))
	return accepted(t, strings.Replace(sliding(0.03), "result "+noHash, "result "+hex.EncodeToString(sum[:]), 1)), result
}

// check writes one check of a result.
func check(id, subject, rest string) string {
	return `{"id": "` + id + `", "subject": "` + subject + `", "limit": 0.003, "verdict": "pass", ` + rest + `}`
}

func slidingResult() []string {
	var out []string
	for _, p := range []string{"cell 1, pour 1, ", "cell 1, pour 2, "} {
		three := `"value": {"lower": 0.03, "upper": 0.0301}, "allowance": 0.02`
		out = append(out, check("strip.dig", p+"release", three), check("strip.clear", p+"release, wall", three),
			check("strip.clear", p+"wall, collapsed", three), check("strip.self", p+"release, bodies and links", `"value": null`))
	}
	return append(out, `{"id": "lift.tip", "subject": "x", "value": {"lower": 5}}`)
}

func TestResultHoldsIfItStatesWhatIsProved(t *testing.T) {
	r, result := stating(t, strings.Join(slidingResult(), ","))
	if err := r.Holds(stream(result)); err != nil {
		t.Error(err)
	}
	if err := r.Holds(stream(result + " ")); err == nil || !strings.Contains(err.Error(), "sha256") {
		t.Errorf("another result is taken: %v", err)
	}
}

func TestResultThatStatesAnythingElseDoesNotHold(t *testing.T) {
	for _, c := range []struct{ name, old, put, why string }{
		{"number changed", `"lower": 0.03,`, `"lower": 0.0300001,`, "proved"},
		{"number left out", `"value": {"lower": 0.03, "upper": 0.0301}`, `"value": null`, "no number is stated"},
		{"number of what is only far", `"value": null`, `"value": {"lower": 0.15}`, "nothing is near"},
		{"limit beyond what is proved to be far", `"limit": 0.003, "verdict": "pass", "value": null`, `"limit": 0.2, "verdict": "pass", "value": null`, "do not reach"},
		{"far, and an allowance takes it off", `"limit": 0.003, "verdict": "pass", "value": null`, `"limit": 0.003, "verdict": "pass", "allowance": 0.148, "value": null`, "do not reach"},
		{"far without a limit", `"limit": 0.003, "verdict": "pass", "value": null`, `"verdict": "pass", "value": null`, "do not reach"},
		{"passes without reason", `"allowance": 0.02`, `"allowance": 0.0271`, "passes"},
		{"another subject", "pour 1, release, wall", "pour 3, release, wall", "nothing is proved"},
		{"another check", "strip.dig", "strip.clear", "nothing is proved"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, result := stating(t, strings.Replace(strings.Join(slidingResult(), ","), c.old, c.put, 1))
			if err := r.Holds(stream(result)); err == nil || !strings.Contains(err.Error(), c.why) {
				t.Errorf("got %v, not %q", err, c.why)
			}
		})
	}
	all := slidingResult()
	for i := range all {
		less := append(append([]string(nil), all[:i]...), all[i+1:]...)
		r, result := stating(t, strings.Join(less, ","))
		if err := r.Holds(stream(result)); (err == nil) != (i == len(all)-1) {
			t.Errorf("without %s: %v", all[i], err)
		}
		r, result = stating(t, strings.Join(append(less, all[i], all[i]), ","))
		if err := r.Holds(stream(result)); (err == nil) != (i == len(all)-1) {
			t.Errorf("with %s twice: %v", all[i], err)
		}
	}
}
