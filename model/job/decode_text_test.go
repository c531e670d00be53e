package job

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"boxwalk/model/diag"
	"boxwalk/model/units"
)

// wantProblem decodes and finds a word in the messages, within a time.
func wantProblem(t *testing.T, name, text, word string) {
	t.Helper()
	start := time.Now()
	value, _, problems := Decode[trial]("job.yaml", []byte(text), units.Metric)
	if took := time.Since(start); took > 5*time.Second {
		t.Errorf("%s took %v", name, took)
	}
	if value != nil || !strings.Contains(problems.Error(), word) {
		t.Errorf("%s: want %q, got %.300s", name, word, problems.Error())
	}
}

func TestHostileTextsAreRefusedSoon(t *testing.T) {
	bomb := "a: &a [x,x,x,x,x,x,x,x,x]\n"
	for c := 'b'; c < 'k'; c++ {
		bomb += fmt.Sprintf("%c: &%c [%s]\n", c, c, strings.TrimSuffix(strings.Repeat("*"+string(c-1)+",", 9), ","))
	}
	for _, c := range []struct{ name, text, word string }{
		{"bomb", bomb, "anchors and aliases"},
		{"brackets", strings.Repeat("[\n", 9000) + strings.Repeat("[[\n", 900), "nested deeper"},
		{"words", strings.Repeat("- [1, 1, 1]\n", 9000), "words and signs"},
		{"fewer brackets", strings.Repeat("[", 10000), "nested deeper"},
		{"braces", strings.Repeat("{a: ", 5000), "nested deeper"},
		{"dashes", strings.Repeat("- ", 9000), "nested deeper"},
		{"steps", deep(200), "nested deeper"},
		{"too large", strings.Repeat("#", mostBytes+1), "bytes; no more are read"},
		{"empty lines in a text", "a: |\n" + strings.Repeat("\n", 900000), "lines; at most"},
		{"as many as allowed", "a: |\n" + strings.Repeat("\n", mostLines-10), "there is no key"},
		{"many keys", strings.Repeat("a: 1\n", mostTokens/3-1), "more problems are not listed"},
		{"more keys", strings.Repeat("a: 1\n", mostTokens), "lines; at most"},
		{"long word", "a: " + strings.Repeat("x", 900000), "characters; at most"},
		{"long quote", "a: \"" + strings.Repeat("x", 900000), "characters; at most"},
		{"long key", strings.Repeat("x", mostInLine-10) + ": a", "no key"},
		{"documents", strings.Repeat("a: 1\n---\n", 2500), "second document"},
	} {
		wantProblem(t, c.name, c.text, c.word)
	}
}

// deep is a block of n keys, each under the one before.
func deep(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String() + strings.Repeat(" ", n) + "a: 1"
}

func TestThirtyTwoLevelsAreReadAndNoMore(t *testing.T) {
	d := newDecoder("job.yaml", nil, units.Metric)
	if n := d.load([]byte(deep(mostDepth - 1))); n == nil {
		t.Errorf("%d levels: %v", mostDepth, d.problems)
	}
	if n := d.load([]byte(deep(mostDepth))); n != nil {
		t.Errorf("%d levels were read", mostDepth+1)
	}
}

func TestByteOrderMarkAndAnyLineEndingAreRead(t *testing.T) {
	for _, ending := range []string{"\r\n", "\r", "\n"} {
		text := "\ufeff" + strings.ReplaceAll(good, "\n", ending)
		_, decoded, problems := Decode[trial]("job.yaml", []byte(text), units.Metric)
		if len(problems) > 0 {
			t.Errorf("line ending %q: %v", ending, problems)
			continue
		}
		if got, want := decoded.Place("channel.depth"), (diag.Place{File: "job.yaml", Line: 18, Column: 10}); got != want {
			t.Errorf("line ending %q: place %v, want %v", ending, got, want)
		}
	}
}
