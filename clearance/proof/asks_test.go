package proof

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"
	"testing"
)

// pressed is a proof of a box that stands against a wall and is pushed 1 mm into
// it, with what is asked of it there and 30 mm behind it, and its result.
func pressed(t *testing.T, touch, clear, dig string) (*Report, string) {
	t.Helper()
	const at = "cell 1, pour 1, "
	value := `"value": {"lower": 0.03, "upper": 0.031}`
	result := `{"checks": [` + strings.Join([]string{
		strings.Replace(check("strip.dig", at+"release", value), `"limit": 0.003, "verdict": "pass"`, `"limit": -0.00005, "verdict": "`+dig+`"`, 1),
		check("strip.clear", at+"release, wall", value),
		check("strip.self", at+"release, bodies and links", `"value": null`)}, ",") + "]}"
	sum := sha256.Sum256([]byte(result))
	text := lines(strings.Replace(head("all"), noHash+"\nscope", hex.EncodeToString(sum[:])+"\nscope", 1),
		`body 0 -1 slide 0,1,0 0,0,0 - "frame"`, "part 0 0 "+box(0, 0, 0, 1, 1, 1)+` "P"`, `step 1 strip "release"`, "drive 0 0 0.001",
		`place 0 0 0 "cell 1, pour 1"`, "solid 0 wall s "+box(-1, 1, -1, 2, 1.3, 2), "solid 1 wall s "+box(-1, -1, -1, 2, -0.03, 2), "face 0 1 0",
		"claim 0 1 wall", "need strip.dig 0.03", "touch strip.dig 0"+touch, "need strip.clear 0.03"+clear, "B 0", "C", "P 0,1,0", "P 0,-1,0",
		"self 0 1", "need strip.self 0.15 far", "N", tail(2))
	return accepted(t, text), result
}

// The same file holds by itself: what is asked less is only wrong beside a check
// that passes with it.
func TestAPassingCheckRestsOnNoContactDeeperThanItsLimit(t *testing.T) {
	for _, c := range []struct{ name, touch, clear, dig, why string }{
		{"contact 1 mm deep", "\nless -1000 0", "", "pass", "some contacts are held to -0.001 m only"},
		{"contact 1 mm deep, and the check says so", "\nless -1000 0", "", "fail", ""},
		{"clearance 28 mm less than is stated", "\nless -1000 0", "\nless -28000 0", "fail", "some parts are held to 0.002 m only where its limit is 0.003 m"},
		{"clearance 27 mm less, which is the limit", "\nless -1000 0", "\nless -27000 0", "fail", ""},
		{"no such verdict", "\nless -1000 0", "", "Pass", "a verdict that is none"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, result := pressed(t, c.touch, c.clear, c.dig)
			err := r.Holds(stream(result))
			if c.why == "" && err != nil || c.why != "" && (err == nil || !strings.Contains(err.Error(), c.why)) {
				t.Errorf("got %v, not %q", err, c.why)
			}
		})
	}
}
