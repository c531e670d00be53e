package sheet

import (
	"math"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestCleanLeavesOneVisibleLine(t *testing.T) {
	for in, want := range map[string]string{
		"a\nb\r\nc":            "a b  c",
		"tab\there":            "tab here",
		"nul\x00bell\x07":      "nulbell",
		"12\u202e34":           "1234", // would turn the digits round
		"zero\u200bwidth":      "zerowidth",
		"bad\xff":              "bad\uFFFD",
		"\uffff":               "\uFFFD",
		"5° ø16 ≥ 2 Größe 断面":  "5° ø16 ≥ 2 Größe 断面",
		"next\u0085line\u2028": "next line ",
	} {
		if got := Clean(in); got != want {
			t.Errorf("%q becomes %q, want %q", in, got, want)
		}
	}
}

func TestCleanIsSafeForAnyString(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		got := Clean(string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")))
		if !utf8.ValidString(got) || strings.ContainsFunc(got, unicode.IsControl) || Clean(got) != got {
			t.Fatalf("%q", got)
		}
	})
}

func TestLetteringIsNeverEstimatedNarrowerThanISO3098(t *testing.T) {
	// Type B: lower case and numerals 5/10 wide, capitals 6/10, M and W 9/10
	// (from memory), each with a space of 2/10.
	for _, c := range []struct {
		text string
		per  float64
	}{{"abcdeghnopqsuvxyz0123456789", 0.7}, {"ABCDEFGHKLNOPQRSTUVXYZ", 0.8}, {"MWmw", 1.1}} {
		for _, r := range c.text {
			if got := TextWidth(string(r), 1); got < c.per {
				t.Errorf("%c is taken as %.2f wide, ISO 3098 type B needs %.2f", r, got, c.per)
			}
		}
	}
}

func TestWrappedLinesFitAndLoseNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.RuneFrom([]rune("aWi ,.-12ø \n"))).Draw(t, "text")
		width := rapid.Float64Range(1, 80).Draw(t, "width")
		lines := Wrap(text, 2.5, width)
		for _, l := range lines {
			if TextWidth(l, 2.5) > width+1e-9 && utf8.RuneCountInString(l) > 1 {
				t.Fatalf("%q is wider than %v", l, width)
			}
		}
		strip := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if strip(strings.Join(lines, "")) != strip(text) {
			t.Fatalf("%q became %q", text, lines)
		}
	})
}

func TestATooLongFieldShrinksAndThenEndsInAnEllipsis(t *testing.T) {
	if h, lines := fitText("Cross-section", 5, 100, 8); h != 5 || len(lines) != 1 {
		t.Errorf("short: %v %q", h, lines)
	}
	if h, lines := fitText("Cross-section, raised and collapsed", 5, 100, 8); h >= 5 || len(lines) != 1 {
		t.Errorf("middling: %v %q", h, lines)
	}
	h, lines := fitText(strings.Repeat("very long name ", 400), 5, 60, 8)
	if h != 1.8 || letteringDepth(len(lines), h) > 8 || !strings.HasSuffix(lines[len(lines)-1], "…") {
		t.Errorf("endless: %v %q", h, lines)
	}
	for _, l := range lines {
		if TextWidth(l, h) > 60 {
			t.Errorf("%q is too wide", l)
		}
	}
}

func TestTheOutlineHoldsEveryBaseline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := Text{At: Pt(7, -3), Height: 2.5, Anchor: Anchor(rapid.IntRange(0, 8).Draw(t, "anchor")),
			Angle: rapid.Float64Range(-180, 180).Draw(t, "angle"), Lines: []string{"first line", "second"}[:rapid.IntRange(1, 2).Draw(t, "lines")]}
		outline := text.Outline()
		for _, b := range text.Baselines() {
			if gap := apart([]Point{b, b.Add(Pt(1e-9, 0))}, outline); gap > 1e-6 {
				t.Fatalf("baseline at %v is %v outside %v", b, gap, outline)
			}
		}
		w, h := text.size()
		if got := outline[1].Sub(outline[0]).Len() * outline[2].Sub(outline[1]).Len(); math.Abs(got-w*(h+descent*2.5)) > 1e-6 {
			t.Fatalf("the outline's area is %v", got)
		}
	})
}

func TestAnchorsPlaceTheLettersRound(t *testing.T) {
	for anchor, want := range map[Anchor]Point{BaseLeft: {0, 0}, BaseRight: {0, 0}, MiddleCentre: {0, -1}, TopRight: {0, -2}} {
		if got := (Text{Height: 2, Anchor: anchor, Lines: []string{"x"}}).Baselines()[0]; got.Sub(want).Len() > 1e-12 {
			t.Errorf("anchor %d puts the baseline at %v, want %v", anchor, got, want)
		}
	}
}
