package proof

import (
	"strings"
	"testing"
	"unicode"
)

// trickNames are names that would change what a person sees.
var trickNames = map[string]string{
	"escape":       "W1\x1b[2J\x1b[32mThe proof holds",
	"newline":      "W1\nThe proof holds: 9 claims",
	"bidi":         "W1 \u202e.dloh ton seod\u2066",
	"separator":    "W1\u2028The proof holds",
	"nothing seen": "W\u200b1\u00ad",
	"long":         strings.Repeat("W", 5000),
	"long and odd": strings.Repeat("\u202eW", 5000),
	"no UTF-8":     "W1 \xff\xfe",
	"blank behind": "W1 ",
}

// plain tells whether a text is one printable line of modest length.
func plain(s string) bool {
	return len(s) < 1200 && !strings.ContainsFunc(s, func(r rune) bool { return !unicode.IsPrint(r) || r == unicode.ReplacementChar })
}

func TestANameThatIsNoPlainWordIsQuotedAndCutShort(t *testing.T) {
	for what, name := range trickNames {
		if got := Said(name); !plain(got) || got[0] != '"' {
			t.Errorf("%s: %q", what, got)
		}
	}
	for _, name := range []string{"cell 1, pour 2, header arms fully in, wall", "brücke 3,05 m", "W1L"} {
		if Said(name) != name {
			t.Errorf("%q is said %q", name, Said(name))
		}
	}
}

// Every name of a proof that is refused somewhere, and every word of a record.
func TestRefusalsShowNothingUnprintable(t *testing.T) {
	tried := 0
	for what, name := range trickNames {
		quoted := jsonString(name)
		for _, old := range []string{`"W1"`, `"J1"`, `"cell 1, pour 1"`, `"release"`, `"draw"`, `"frame"`, `"job.yaml"`, `"wall"`, "need", "wall ", "0 1 wall", "all"} {
			put := quoted
			if !strings.HasPrefix(old, `"`) {
				put = strings.ReplaceAll(name, "\n", "")
			}
			for _, wrong := range []struct{ old, put string }{{"need strip.self 0.3", "need strip.self 0.4"}, {"need roll.clear 0.3", "need roll.clear 0.4"},
				{"S 0\nN\nP 0,-1,0\nN", "N"}, {"face 0 1 0", "face 0 1 1"}, {"drive 1 -0.1 -0.3", "drive 1 -0.2 -0.3"}, {"end 12", "end 13"}} {
				text := strings.ReplaceAll(strings.Replace(crew(), wrong.old, wrong.put, 1), old, put)
				if _, err := Verify(stream(text)); err == nil {
					t.Errorf("%s for %s is accepted", what, old)
				} else if tried++; !plain(err.Error()) {
					t.Errorf("%s for %s: %q", what, old, err)
				}
			}
		}
	}
	t.Logf("%d refusals", tried)
}

// jsonString quotes a name as JSON has it, every character as it stands but those
// that must not.
func jsonString(name string) string {
	return `"` + strings.NewReplacer("\n", `\n`, "\x1b", `\u001b`).Replace(name) + `"`
}

func TestResultsShowNothingUnprintable(t *testing.T) {
	for what, name := range trickNames {
		for _, rest := range []string{"", "x"} {
			r, result := stating(t, strings.Join(append(slidingResult(), check("strip.dig", jsonString(name)[1:len(jsonString(name))-1], `"value": {"lower": 1}`)), ",")+rest)
			if err := r.Holds(stream(result)); err == nil || !plain(strings.ReplaceAll(err.Error(), `\ufffd`, "")) {
				t.Errorf("%s: %q", what, err)
			}
		}
	}
}
