package job

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"boxwalk/model/diag"
)

func FuzzDecode(f *testing.F) {
	f.Add([]byte(good))
	for _, c := range wrong {
		f.Add([]byte(strings.Replace(c.text, "+", base, 1)))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		start := time.Now()
		value, decoded, problems := Decode[trial]("job.yaml", text, PeekSystem(text))
		if took := time.Since(start); took > 5*time.Second {
			t.Fatalf("took %v", took)
		}
		if (value == nil) != problems.HasErrors() {
			t.Fatalf("value %v with problems %v", value, problems)
		}
		checkProblems(t, text, problems)
		checkSpots(t, splitLines(string(bytes.TrimPrefix(text, []byte("\ufeff")))), decoded)
		if value != nil {
			checkLimits(t, value, decoded)
		}
	})
}

// checkProblems holds that every place lies in the text.
func checkProblems(t *testing.T, text []byte, problems diag.Problems) {
	if len(problems) > mostProblems+1 {
		t.Fatalf("%d problems", len(problems))
	}
	lines := splitLines(string(bytes.TrimPrefix(text, []byte("\ufeff"))))
	for _, p := range problems {
		if p.Line < 0 || p.Line > len(lines) || p.Column < 0 || p.Summary == "" {
			t.Fatalf("a problem outside the text of %d lines: %+v", len(lines), p)
		}
	}
	if err := problems.Render(&bytes.Buffer{}, map[string][]byte{"job.yaml": text}); err != nil {
		t.Fatal(err)
	}
}

// checkSpots holds that the words of every scalar stand at its place, one for
// one: the parser neither drops nor joins anything. Block texts and quoted ones
// with escapes are left to the tests of their own.
func checkSpots(t *testing.T, lines []string, decoded *Decoded) {
	for path, s := range decoded.spots {
		if s.text == "" {
			continue
		}
		rest := from(s.source, s.place.Column)
		if rest == "" {
			t.Fatalf("%s: column %d of %q", path, s.place.Column, s.source)
		}
		if strings.ContainsAny(rest[:1], "|>") || (strings.ContainsAny(rest[:1], `"'`) && strings.Contains(rest, `\`)) || strings.Contains(s.text, "'") {
			continue
		}
		after := rest + "\n" + strings.Join(lines[s.place.Line:], "\n")
		if strings.ContainsAny(rest[:1], `"'`) {
			after = after[1:]
		}
		if got, want := strings.Fields(after), strings.Fields(s.text); !beginsWith(got, want) {
			t.Fatalf("%s: %q stands at %v, not %q", path, after, s.place, s.text)
		}
	}
}

// beginsWith tells whether all begins with the words, the last one in part.
func beginsWith(all, words []string) bool {
	for i, word := range words {
		if i >= len(all) || (all[i] != word && (i < len(words)-1 || !strings.HasPrefix(all[i], word))) {
			return false
		}
	}
	return true
}

// checkLimits holds the limits of the tags, written again by hand.
func checkLimits(t *testing.T, v *trial, decoded *Decoded) {
	c := v.Culvert
	if !(c.Span > 0 && c.Span <= 30 && c.Roof >= 0.1 && c.Roof <= 5) || len(c.Pours) < 1 || len(c.Pours) > 4 {
		t.Fatalf("out of limits: %+v", c)
	}
	for i, pour := range c.Pours {
		if !(pour >= 1 && pour <= 30) || !decoded.Given(item("culvert.pours", i)) {
			t.Fatalf("pour %d: %v", i, pour)
		}
	}
	if v.Job.Name == "" || !(v.Travel.Breakaway >= 1) || v.Travel.Passes < 1 {
		t.Fatalf("out of limits: %+v", v)
	}
}
