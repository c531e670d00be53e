package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boxwalk/clearance/proof"
)

func TestAProofReplacesAProofAndNothingElse(t *testing.T) {
	t.Chdir(t.TempDir())
	text := []byte(proof.Header + "\nnew\n")
	for name, c := range map[string]struct {
		old string
		ok  bool
	}{
		"proof":                     {proof.Header + "\nold\n", true},
		"empty":                     {"", false},
		"header of another version": {proof.Header + "0\nold\n", false},
		"beginning of the header":   {proof.Header[:5], false},
		"header and no line":        {proof.Header, false},
		"header on another line":    {"\n" + proof.Header + "\n", false},
		"something else":            {"mine", false},
		"one long line":             {strings.Repeat("mine", 1<<20), false},
	} {
		save(t, "file", []byte(c.old))
		place, err := proofAt("file")
		if err == nil {
			err = place.save(text)
		}
		want := c.old
		if c.ok {
			want = string(text)
		}
		if got := content(t, "file"); string(got) != want || told(io.Discard, err) != map[bool]int{true: exitPass, false: exitInput}[c.ok] {
			t.Errorf("%s: %v", name, err)
		}
		if list, err := os.ReadDir("."); err != nil || len(list) != 1 {
			t.Errorf("%s leaves %v, %v", name, list, err)
		}
	}
}

// A script whose variable is not set gives an empty name, and would otherwise
// believe that there is a proof, or that one was held against a result.
func TestAnEmptyNameOfAFileIsRefused(t *testing.T) {
	t.Chdir(t.TempDir())
	save(t, "proof", []byte(proof.Header+"\n"))
	for _, args := range [][]string{{"check", "job.yaml", "--proof", ""}, {"check", "job.yaml", "--proof=", "--proof-parts"}, {"verify", "proof", "--result", ""}} {
		var out, errs bytes.Buffer
		if code := run(args, quiet(&out, &errs)); code != exitInput || out.Len() > 0 || !strings.Contains(errs.String(), "the one given is empty") {
			t.Errorf("%q exits with %d: %s%s", args, code, &out, &errs)
		}
	}
}

// The check takes its time: what has appeared by the time the proof is written
// is held against the same.
func TestAFileThatAppearsWhileAProofIsMadeIsLeft(t *testing.T) {
	t.Chdir(t.TempDir())
	place, err := proofAt("file")
	if err != nil || !place.fresh {
		t.Fatal(place, err)
	}
	save(t, "file", []byte("mine"))
	if err := place.save([]byte(proof.Header + "\n")); told(io.Discard, err) != exitInput || string(content(t, "file")) != "mine" {
		t.Error(err)
	}
	// and between the last look and the writing
	save(t, "temporary", []byte(proof.Header+"\n"))
	if err := place.swap("temporary"); told(io.Discard, err) != exitInput || string(content(t, "file")) != "mine" {
		t.Error(err)
	}
}

func TestOnlyUnfinishedProofsOfEndedRunsAreCleared(t *testing.T) {
	t.Chdir(t.TempDir())
	place := proofPlace{path: "p"}
	live, err := place.temporary()
	if err != nil {
		t.Fatal(err)
	}
	defer live.Close()
	kept := []string{filepath.Base(live.Name()), ".boxwalk-proof-p-mine", ".boxwalk-proof-q-0123456789abcdef", ".boxwalk-proof-p-0123456789abcde0"}
	for _, name := range kept[1:] {
		save(t, name, []byte("mine"))
	}
	for _, begun := range []string{"", proof.Header[:7], proof.Header + "\nscope all\n"} {
		save(t, ".boxwalk-proof-p-0123456789abcdef", []byte(begun))
		place.sweep()
		if exists(".boxwalk-proof-p-0123456789abcdef") {
			t.Errorf("one that begins with %q is left", begun)
		}
	}
	for _, name := range kept {
		if !exists(name) {
			t.Errorf("%s is gone", name)
		}
	}
	if !bytes.Equal(content(t, kept[3]), []byte("mine")) {
		t.Error("changed")
	}
}
