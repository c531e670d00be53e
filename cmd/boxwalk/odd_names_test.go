package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"testing"
)

// oddlyNamed is the good job and gear with a text in every place that takes one:
// an adjuster's name and its uses, steps, what the crew does, the title block;
// names are cut to so many characters and other texts to so many.
func oddlyNamed(t *testing.T, text string, names, texts int) {
	t.Helper()
	site(t)
	quoted := func(text string, most int) []byte {
		runes := []rune(text)
		b, err := json.Marshal(string(runes[:min(most, len(runes))]))
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	short, long := quoted(text, names), quoted(text, texts)
	sheet := fmt.Appendf(nil, "job: {name: %[1]s, number: %[1]s}\nsheet:\n  owner: %[1]s\n  creator: %[1]s\n  approver: %[1]s\n  date: %[1]s\n  revision: %[1]s", long)
	job := bytes.Replace(content(t, "job.yaml"), []byte("job: {name: worked cell, number: W-24}"), sheet, 1)
	gear := content(t, "gear.yaml")
	gear = bytes.ReplaceAll(gear, []byte("turnbuckle"), short)
	gear = bytes.Replace(gear, []byte("name: Halves 24"), append([]byte("name: "), short...), 1)
	for i, step := range []string{"ease down to break the bond", "header arms in (stage 1)", "header arms fully in", "raise jack plates"} {
		name := short
		if i > 0 { // names differ
			name = quoted(fmt.Sprint(i)+text, names)
		}
		gear = bytes.Replace(gear, []byte("step: "+step), fmt.Appendf(nil, "step: %s\n    say: %s\n    caution: %s", name, long, long), 1)
	}
	if !bytes.Contains(job, long) || bytes.Count(gear, short) < 5 {
		t.Fatal("the good files have other words")
	}
	save(t, "job.yaml", job)
	save(t, "gear.yaml", gear)
}

// Whatever a name is, it is refused with its place or all of it is written, the
// proof too.
func TestOddNamesAreRefusedOrDrawn(t *testing.T) {
	for i, text := range []string{"漢", "%%d \\P {\\f} \"<&>' مرحبا 😀 e\u0301\u0304 "} {
		if i >= campaign(1, 2) {
			break
		}
		t.Run(fmt.Sprint("drawn", i), func(t *testing.T) {
			oddlyNamed(t, strings.Repeat(text, 400), 60, 400)
			for _, args := range [][]string{{"all", "job.yaml", "-o", "out"}, {"check", "job.yaml", "--proof", "proof"}} {
				var errs bytes.Buffer
				if code := run(args, quiet(io.Discard, &errs)); code > exitShort {
					t.Errorf("%v: exit code %d\n%s", args, code, errs.String())
				}
			}
		})
	}
	for i, text := range []string{"a\ufffd", "a\x00", "a\n", "a\ue000", "a\u202e", "\u0378", strings.Repeat("x", 5000)} {
		t.Run(fmt.Sprint("refused", i), func(t *testing.T) {
			oddlyNamed(t, text, 10000, 10000)
			if said := refused(t, nil, "all", "job.yaml", "-o", "out"); !strings.Contains(said, "links #1.name: the text has") {
				t.Error(said)
			}
		})
	}
}

// What is wrong with a path as a text is told once, and no file is looked for.
func TestAPathThatIsNoTextIsToldOnce(t *testing.T) {
	for i, path := range []string{strings.Repeat("x", 401), "a\ufffd", "a\u202eb"} {
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			site(t)
			save(t, "job.yaml", bytes.Replace(content(t, "job.yaml"), []byte("gear: gear.yaml"), fmt.Appendf(nil, "gear: %s\nalignment: {landxml: %[1]s}", path), 1))
			if said := refused(t, nil, "check", "job.yaml"); !strings.Contains(said, "\n2 errors;") {
				t.Error(said)
			}
		})
	}
}

// A file's name is not the user's text; what of it cannot be printed is not.
func TestFilesWithOddNamesAreProved(t *testing.T) {
	site(t)
	for i, name := range []string{"a\xffb.yaml", "a\ufffdb.yaml"} {
		save(t, name, content(t, "job.yaml"))
		var errs bytes.Buffer
		if code := run([]string{"check", name, "--proof", fmt.Sprint("proof", i)}, quiet(io.Discard, &errs)); code > exitShort {
			t.Errorf("%q: exit code %d\n%s", name, code, errs.String())
		}
		if !bytes.Contains(content(t, fmt.Sprint("proof", i)), []byte(`"a?b.yaml"`)) {
			t.Error("the name is not in the proof")
		}
	}
}
