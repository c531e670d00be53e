package diag

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var source = map[string][]byte{"job.yaml": []byte("culvert:\r\n  spän: 0 m\n\trise: 2 m\n")}

func at(line, column int) Place { return Place{"job.yaml", line, column} }

func rendered(t *testing.T, p Problems) string {
	t.Helper()
	var out bytes.Buffer
	if err := p.Render(&out, source); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestProblemShowsPlaceLineCaretDetailAndFix(t *testing.T) {
	got := rendered(t, Problems{{
		Place: at(2, 9), Summary: "culvert.span: 0 m is not above 0 mm",
		Detail: "0 - 0 = 0 mm", Fix: "write for example 3 m", Width: 3,
	}})
	want := `job.yaml:2:9: error: culvert.span: 0 m is not above 0 mm
    2 |   spän: 0 m
      |         ^^^
  0 - 0 = 0 mm
  write for example 3 m
`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestProblemOfTheWholeFileHasNoExcerpt(t *testing.T) {
	got := rendered(t, Problems{{Place: Place{File: "job.yaml"}, Severity: Warning, Summary: "empty"}})
	if want := "job.yaml: warning: empty\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestProblemsAreSortedByPlaceAndNotRepeated(t *testing.T) {
	p := Problems{
		{Place: at(3, 1), Summary: "c"},
		{Place: at(2, 9), Severity: Note, Summary: "a"},
		{Place: at(2, 9), Summary: "b"},
		{Place: at(3, 1), Summary: "c"},
		{Place: Place{"a.yaml", 9, 9}, Summary: "first"},
	}
	want := "a.yaml:9:9: error: first\njob.yaml:2:9: error: b\njob.yaml:2:9: note: a\njob.yaml:3:1: error: c"
	if got := p.Error(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if p[0].Summary != "c" {
		t.Error("sorting changed the list itself")
	}
}

func TestOnlyErrorsMakeAnError(t *testing.T) {
	warnings := Problems{{Severity: Warning, Summary: "w"}, {Severity: Note, Summary: "n"}}
	if err := warnings.Err(); err != nil {
		t.Errorf("warnings alone: got %v", err)
	}
	ungraded := append(warnings, Problem{Summary: "e"})
	var list Problems
	if err := ungraded.Err(); !errors.As(err, &list) || len(list) != 3 {
		t.Errorf("with an ungraded problem: got %v", err)
	}
}

func TestLinesEndWithAnyYAMLLineEnding(t *testing.T) {
	text := []byte("a\r\nb\rc\nd")
	for n, want := range []string{"a", "b", "c", "d"} {
		if got, ok := Line(text, n+1); !ok || got != want {
			t.Errorf("line %d: got %q %v, want %q", n+1, got, ok, want)
		}
	}
	if _, ok := Line(text, 5); ok {
		t.Error("line 5 of 4 was found")
	}
}

func TestTabsAndControlCharactersKeepTheirColumn(t *testing.T) {
	got := rendered(t, Problems{{Place: at(3, 2), Summary: "bell \x1b[2J", Width: 4}})
	want := "job.yaml:3:2: error: bell \ufffd[2J\n    3 |  rise: 2 m\n      |  ^^^^\n"
	if got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestCaretStandsUnderTheColumnInAnyLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := rapid.IntRange(0, 400).Draw(t, "before")
		after := rapid.IntRange(0, 400).Draw(t, "after")
		line := strings.Repeat("é", before) + "X" + strings.Repeat(".", after)
		shown, indent, width := excerpt(line, before+1, rapid.IntRange(-1, 500).Draw(t, "width"))
		runes := []rune(shown)
		if runes[indent] != 'X' {
			t.Fatalf("the mark stands under %q", runes[indent])
		}
		if len(runes) > window+2 || indent+width > len(runes) {
			t.Fatalf("%d characters shown, mark from %d, %d wide", len(runes), indent, width)
		}
	})
}

func FuzzRender(f *testing.F) {
	f.Add("a: b\n", 1, 3, 1)
	f.Fuzz(func(t *testing.T, text string, line, column, width int) {
		p := Problems{{Place: at(line, column), Summary: text, Detail: text, Fix: text, Width: width}}
		var out bytes.Buffer
		if err := p.Render(&out, map[string][]byte{"job.yaml": []byte(text)}); err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(out.String(), "\n"); n > 5 {
			t.Fatalf("%d lines for one problem", n)
		}
	})
}

func TestKeysOfAGroupStandBelowItsOwn(t *testing.T) {
	list := Problems{{Key: "plan[2].turn", Summary: "x"}, {Key: "[1].locked[0]"}, {}}
	below := list.Below("job", "alignment")
	for i, want := range []string{"alignment.plan[2].turn", "alignment[1].locked[0]", "alignment"} {
		if below[i].Key != want || below[i].File != "job" {
			t.Errorf("%+v, want %s", below[i], want)
		}
	}
	if list[0].Key != "plan[2].turn" || list[0].File != "" {
		t.Errorf("what was given is changed: %+v", list[0])
	}
	if same := list.Below("gear", ""); same[0].Key != "plan[2].turn" || same[2].Key != "" {
		t.Errorf("%+v", same)
	}
	if got := below[0].Error(); got != "job: error: alignment.plan[2].turn: x" {
		t.Error(got)
	}
}
