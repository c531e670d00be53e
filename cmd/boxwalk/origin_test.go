package main

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boxwalk/clearance/result"
)

// atOnePour is a working directory with the smallest job and the gear, and a
// folder with all that is made of it, which passes.
func atOnePour(t *testing.T) {
	t.Helper()
	dir := t.TempDir()
	for _, name := range []string{"jobs/one-pour", "gear"} {
		if err := os.CopyFS(filepath.Join(dir, name), os.DirFS(filepath.Join("../../testdata", name))); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(dir)
	if code := run([]string{"all", onePour, "-o", "out"}, quiet(io.Discard, io.Discard)); code != exitPass {
		t.Fatal("exit code", code)
	}
	if !strings.Contains(string(content(t, "out/steps.txt")), "All checks made hold") {
		t.Fatal("the list clears nothing that could become untrue")
	}
}

const onePour = "jobs/one-pour/job.yaml"

// changeFile puts one text of a file in the place of another.
func changeFile(t *testing.T, name, old, now string) {
	t.Helper()
	text := string(content(t, name))
	if !strings.Contains(text, old) {
		t.Fatalf("%s has no %q", name, old)
	}
	save(t, name, []byte(strings.ReplaceAll(text, old, now)))
}

// Whatever was changed, a folder that drawings or pictures of a job are written
// into that does not pass is as if nothing else had ever been in it.
func TestNothingThatClearsStaysBesideDrawingsOfOtherInputs(t *testing.T) {
	for name, c := range map[string]struct {
		command string
		change  func(t *testing.T)
		set     []string
	}{
		"job":     {"draw", func(t *testing.T) { changeFile(t, onePour, "{capacity: 20 kN", "{capacity: 1 kN") }, nil},
		"gear":    {"views", func(t *testing.T) { changeFile(t, "gear/roof-halves-24.yaml", "capacity: ", "capacity: 0.") }, nil},
		"setting": {"views", func(*testing.T) {}, []string{"--set", "jack=500mm"}},
		"list that does not say of what": {"draw", func(t *testing.T) {
			changeFile(t, onePour, "{capacity: 20 kN", "{capacity: 1 kN")
			changeFile(t, "out/"+manifest, madeFrom, "# ")
		}, nil},
	} {
		if !long() && name != "job" {
			continue
		}
		t.Run(name, func(t *testing.T) {
			atOnePour(t)
			c.change(t)
			for _, out := range []string{"out", "fresh"} {
				if code := run(append([]string{c.command, onePour, "-o", out}, c.set...), quiet(io.Discard, io.Discard)); code != exitShort {
					t.Fatal("exit code", code)
				}
			}
			same(t, relative(t, "fresh"), relative(t, "out"))
		})
	}
}

// What the digest in the list of files has to tell apart.
func TestTheListTellsOtherVersionsFilesAndSettingsApart(t *testing.T) {
	job, gear, set := result.Input{Name: "job.yaml", SHA256: "aa"}, result.Input{Name: "gear.yaml", SHA256: "bb"}, result.Input{Name: "--set jack=1", SHA256: "cc"}
	seen := map[string]int{}
	for i, r := range []result.Result{
		{Version: "1", Inputs: []result.Input{job, gear}},
		{Version: "2", Inputs: []result.Input{job, gear}},
		{Version: "1", Inputs: []result.Input{job}},
		{Version: "1", Inputs: []result.Input{job, gear, set}},
		{Version: "1", Inputs: []result.Input{job, {Name: gear.Name, SHA256: "b0"}}},
		{Version: "1", Inputs: []result.Input{job, {Name: "other.yaml", SHA256: gear.SHA256}}},
	} {
		digest := origin(&r)
		if k, ok := seen[digest]; ok {
			t.Errorf("%d and %d are told to be the same", k, i)
		}
		seen[digest] = i
	}
}
