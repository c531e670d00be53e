package proof

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"
	"testing"
)

// seen is crew with a witness: at the start of step 2 part 0 is 0.1 from the wall.
const seen = "near 0.1 0 0 2:0.5,6:0.5 0 0:0.25,1:0.25,4:0.25,5:0.25\n"

func seenCrew(t *testing.T) string {
	return swap(t, crew(), "need strip.dig 0.1\nneed strip.clear 0.1\nP", "need strip.dig 0.1\nneed strip.clear 0.1\n"+seen+"P")
}

func TestWitnessShowsWhatItsPointsReach(t *testing.T) {
	r := accepted(t, seenCrew(t))
	if r.Witnesses != 1 {
		t.Errorf("%d witnesses", r.Witnesses)
	}
	found := 0
	for _, e := range r.Entries {
		if e.Upper != nil {
			found++
			if *e.Upper != 0.1 || e.ID != "strip.clear" || !strings.HasSuffix(e.Subject, "draw, wall") {
				t.Errorf("%+v", e)
			}
		}
	}
	if found != 2 { // the place and its twin
		t.Errorf("%d entries have an upper end", found)
	}
}

func TestWitnessesThatShowNothingAreRefused(t *testing.T) {
	for _, c := range []struct{ name, put, why string }{
		{"lower than its points", strings.Replace(seen, "near 0.1", "near 0.09999", 1), "are 0.1 m apart"},
		{"at another moment", strings.Replace(seen, "0.1 0 0", "0.1 0.5 0", 1), "are 0.2 m apart"},
		{"outside the step", strings.Replace(seen, "0.1 0 0", "0.1 -0.1 0", 1), "no moment"},
		{"of another part", strings.Replace(seen, "0.1 0 0", "0.1 0 1", 1), "m apart"},
		{"of a part that is not there", strings.Replace(seen, "0.1 0 0", "0.1 0 2", 1), "names nothing"},
		{"of a solid of another zone", strings.Replace(seen, "6:0.5 0", "6:0.5 1", 1), "names nothing"},
		{"with shares above one", strings.Replace(seen, "6:0.5", "6:0.6", 1), "add up to 1.1"},
		{"with a share below nothing", strings.Replace(seen, "2:0.5,6:0.5", "2:1.5,6:-0.5", 1), "no share"},
		{"with a vertex twice", strings.Replace(seen, "2:0.5,6:0.5", "2:0.5,2:0.5", 1), "no share"},
		{"with a vertex that is not there", strings.Replace(seen, "6:0.5", "8:0.5", 1), "whole number"},
		{"of five vertices", strings.Replace(seen, "0:0.25,", "0:0.125,0:0.125,", 1), "more than 4"},
		{"without shares", strings.Replace(seen, "2:0.5,6:0.5", "2", 1), "no finite number"},
		{"twice", seen + seen, "the second"},
		{"with differences behind it", seen + "less 1 0\n", "belongs to no number"},
	} {
		t.Run(c.name, func(t *testing.T) {
			line := "near"
			if strings.Contains(c.put, "less") {
				line = "less"
			}
			refused(t, strings.Replace(seenCrew(t), seen, c.put, 1), line, c.why)
		})
	}
}

func TestWitnessIsOfAPairThatItsNeedIsAbout(t *testing.T) {
	touching := "near 0 0 0 2:0.5,6:0.5 0 0:0.25,1:0.25,4:0.25,5:0.25\n" // as raised part 0 touches the wall
	dig := "need strip.dig 0\ntouch strip.dig 0\nneed strip.clear 0.5\nA 0\nC\nP 0,1,0\nP 0,1,0"
	accepted(t, swap(t, crew(), dig, strings.Replace(dig, "dig 0\ntouch", "dig 0\n"+touching+"touch", 1)))
	refused(t, swap(t, crew(), dig, strings.Replace(dig, "clear 0.5\n", "clear 0.5\n"+touching, 1)), "near", "not about this pair")
	refused(t, swap(t, crew(), dig, strings.Replace(dig, "touch strip.dig 0\n", "touch strip.dig 0\n"+touching, 1)), "near", "belongs here")
	self := "need strip.self 0.5\nS 0"
	apart := "near 0.6 0 0 0:1 1 3:1\n" // (0, 0.9, 0.5) and (0, 0.3, 0.5)
	accepted(t, swap(t, crew(), self, "need strip.self 0.5\n"+apart+"S 0"))
	refused(t, swap(t, crew(), self, "need strip.self 0.5\nnear 0.6 0 1 3:1 0 0:1\nS 0"), "near", "smaller part first")
	refused(t, swap(t, crew(), self, "need strip.self 0.5\nnear 0.6 0 0 0:1 0 0:1\nS 0"), "near", "smaller part first")
	refused(t, swap(t, swap(t, crew(), self, "need strip.self 0.5\n"+apart+"S 0"), "step 1 strip", "pinned 0 1\nstep 1 strip"), "near", "exempt")
	refused(t, swap(t, crew(), self, apart+self), "near", "a witness of nothing")
}

// A fail is shown by points that are too near even with the allowance off, and a
// number by points only where they are there.
func TestResultIsHeldAgainstItsWitnesses(t *testing.T) {
	of := func(upper, limit, verdict string) (text, result string) {
		result = fmt.Sprintf(`{"checks": [{"id": "strip.clear", "subject": "P, s, wall", "verdict": %q, "limit": %s, "allowance": 0.02, "value": {"lower": 0.1, "upper": %s}}]}`, verdict, limit, upper)
		sum := sha256.Sum256([]byte(result))
		text = lines(head("some"), `body 0 -1 fixed "frame"`, "part 0 0 "+box(0, 0, 0, 1, 0.9, 1)+` "W1"`, `step 1 strip "s"`,
			`place 0 0 0 "P"`, "solid 0 wall s "+box(0, 1, 0, 1, 2, 1), "claim 0 1 wall", "need strip.clear 0.1",
			"near 0.1 0 0 2:1 0 0:1", "P 0,1,0", tail(1))
		return strings.Replace(text, "result "+noHash, "result "+hex.EncodeToString(sum[:]), 1), result
	}
	for _, c := range []struct {
		upper, limit, verdict, why string
		unfailed                   int
	}{
		{"0.1", "0.05", "pass", "", 0},
		{"0.2", "0.05", "pass", "not the upper end", 0},
		{"null", "0.05", "pass", "not the upper end", 0},
		{"0.1", "0.0801", "fail", "", 0},
		{"0.1", "0.0799", "fail", "", 1},
	} {
		text, result := of(c.upper, c.limit, c.verdict)
		r := accepted(t, text)
		err := r.Holds(strings.NewReader(result))
		if (err == nil) != (c.why == "") || err != nil && !strings.Contains(err.Error(), c.why) {
			t.Errorf("%+v: %v", c, err)
		}
		if err == nil && (len(r.Unfailed) != c.unfailed || len(r.Unseen) != 0) {
			t.Errorf("%+v: not shown %v, fails not shown %v", c, r.Unseen, r.Unfailed)
		}
	}
	text, result := of("0.1", "0.0801", "fail")
	r := accepted(t, strings.Replace(text, "near 0.1 0 0 2:1 0 0:1\n", "", 1))
	if err := r.Holds(strings.NewReader(result)); err != nil || len(r.Unseen) != 1 || len(r.Unfailed) != 1 {
		t.Errorf("without a witness: %v, %+v", err, r)
	}
}
