package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// planted is a folder with files of the user and of ours below it.
func planted(t *testing.T) (folder string, mine []string) {
	t.Helper()
	dir := t.TempDir()
	folder = filepath.Join(dir, "out")
	for _, name := range []string{"drawings", "views", "notes", "views/deep"} {
		if err := os.MkdirAll(filepath.Join(folder, name), 0o777); err != nil {
			t.Fatal(err)
		}
	}
	mine = []string{"notes.txt", "job.yaml", "Result.json", "result.json.bak", "notes/result.json", "drawings/sheet.dxf", "drawings/01-a.dwg", "drawings/1-a.dxf",
		"views/holiday.svg", "drawings/99-mine.dxf", "drawings/02-plan-b.svg", "drawings/02-planned.svg", "views/raised-2.svg", "views/step-one.svg", "views/step-3-my-notes.svg", "views/step-3-down.svg", "views/step-0.svg", "views/deep/raised.svg",
		"views/deep/a.svg", "views/A.svg", "views/a.svg.orig", "../outside", ".profile", ".boxwalk-x", "drawings/../notes.txt", "./notes.txt", "drawings//01-b.dxf", "drawings/..\\..\\outside"}
	for _, name := range mine {
		save(t, filepath.Join(folder, filepath.FromSlash(name)), []byte("mine"))
	}
	return folder, mine
}

func unharmed(t *testing.T, folder string, names []string) {
	t.Helper()
	for _, name := range names {
		if b, err := os.ReadFile(filepath.Join(folder, filepath.FromSlash(name))); err != nil || string(b) != "mine" {
			t.Errorf("%s: %q, %v", name, b, err)
		}
	}
}

// Anybody can write a list of files. Of what it names, with the right hash, only
// what commands write goes.
func TestAPlantedListOfFilesRemovesNothingThatWeDoNotName(t *testing.T) {
	folder, mine := planted(t)
	ours := []string{"result.json", "drawings/99-plan.dxf", "views/step-9-bent.svg"}
	var list strings.Builder
	for _, name := range slices.Concat(mine, ours, []string{folder + "/notes.txt", manifest, lockName}) {
		fmt.Fprintf(&list, "%s  %s\n", hash([]byte("mine")), name)
	}
	for _, name := range ours {
		save(t, filepath.Join(folder, filepath.FromSlash(name)), []byte("mine"))
	}
	save(t, filepath.Join(folder, manifest), []byte(list.String()))
	w, err := wrote(folder, []product{{"steps.txt", []byte("ours")}}, true)
	if err != nil {
		t.Fatal(err)
	}
	if slices.Sort(ours); !slices.Equal(w.removed, ours) {
		t.Errorf("removed %v, want %v", w.removed, ours)
	}
	unharmed(t, folder, mine)
}

func TestAListedFileBehindALinkIsNotRemoved(t *testing.T) {
	folder := t.TempDir()
	if err := os.MkdirAll(filepath.Join(folder, "mine"), 0o777); err != nil {
		t.Fatal(err)
	}
	save(t, filepath.Join(folder, "mine", "01-plan.dxf"), []byte("mine"))
	save(t, filepath.Join(folder, "mine", "target"), []byte("mine"))
	symlink(t, "mine", filepath.Join(folder, "drawings"))
	symlink(t, "mine/target", filepath.Join(folder, "result.json"))
	save(t, filepath.Join(folder, manifest), fmt.Appendf(nil, "%[1]s  drawings/01-plan.dxf\n%[1]s  result.json\n", hash([]byte("mine"))))
	if w, err := wrote(folder, []product{{"steps.txt", []byte("ours")}}, true); err != nil || len(w.removed) > 0 {
		t.Errorf("removed %v, %v", w.removed, err)
	}
	unharmed(t, folder, []string{"mine/01-plan.dxf", "mine/target", "result.json"})
}

// Nor does a planted journal, of a run that never was.
func TestAPlantedJournalTouchesNothingThatWeDoNotName(t *testing.T) {
	for _, done := range []string{"", wordDone} {
		folder, mine := planted(t)
		run := "0123456789abcdef"
		j := &journal{run: run, process: 1, folders: []string{"notes", "..", "drawings", "views/deep"}}
		for _, name := range mine {
			for _, what := range []string{appears, changes, goes} {
				j.files = append(j.files, change{what, hash([]byte("mine")), name})
			}
			other := filepath.Join(folder, beside(run, outgoing, name))
			save(t, other, []byte("planted"))
		}
		save(t, filepath.Join(folder, lockName), []byte(j.text()+done))
		if _, err := wrote(folder, []product{{"steps.txt", []byte("ours")}}, false); err != nil {
			t.Fatal(err)
		}
		unharmed(t, folder, mine)
		for _, name := range mine {
			if !exists(filepath.Join(folder, beside(run, outgoing, name))) {
				t.Errorf("what stood beside %s is gone", name)
			}
		}
	}
}

// A run's name in a journal is part of file names.
func TestAJournalWithAStrangeRunIsNone(t *testing.T) {
	for _, run := range []string{"", "..", "../../x", "0123456789ABCDEF", "0123456789abcdef0", "0123456789abcde/"} {
		j := &journal{run: run, files: []change{{appears, "-", "result.json"}}}
		if readJournal(j.text()).begun {
			t.Errorf("%q is taken", run)
		}
	}
	whole := &journal{run: "0123456789abcdef", process: 9, folders: []string{"views"}, files: []change{{goes, "-", "views/raised.svg"}}, begun: true}
	if got := readJournal(whole.text()); got.text() != whole.text() || !got.begun || got.done {
		t.Errorf("%+v", got)
	}
	text := whole.text()
	for n := range len(text) {
		if readJournal(text[:n]).begun {
			t.Errorf("cut after %d bytes it is taken for whole", n)
		}
	}
}

// BOXWALK_WRITTEN=DIR says where boxwalk all has written every job, each to a
// folder of its name; without, two jobs are written here.
func TestEveryFileThatCommandsWriteHasANameOfOurs(t *testing.T) {
	jobs, err := filepath.Glob("../../testdata/jobs/*/job.yaml")
	if err != nil || len(jobs) < 20 {
		t.Fatal(jobs, err)
	}
	there := os.Getenv("BOXWALK_WRITTEN")
	if there == "" {
		jobs = []string{"../../testdata/jobs/pindle-beck/job.yaml", "../../testdata/jobs/heron-creek/job.yaml"}
	}
	for _, job := range jobs {
		out := filepath.Join(there, filepath.Base(filepath.Dir(job)))
		if there == "" {
			out = t.TempDir()
			if code := run([]string{"all", job, "--root", "../..", "-o", out}, quiet(io.Discard, io.Discard)); code > exitShort {
				t.Fatal(job, "exit code", code)
			}
		}
		files := relative(t, out)
		if len(files) < 40 {
			t.Fatal(out, "has", len(files), "files")
		}
		for name, text := range files {
			if text != "folder" && !ownName.MatchString(filepath.ToSlash(name)) {
				t.Errorf("%s would never be taken away", name)
			}
		}
	}
}

// Names that no job of the test data has: cells that differ, many sheets, many steps,
// and what only looks like ours, such as a step's number with anything behind it.
func TestANameOfOursIsOneThatIsGiven(t *testing.T) {
	for _, name := range []string{"drawings/01-section-raised-cell-1.dxf", "drawings/02-section-collapsed-cell-12.svg", "drawings/110-sequence-cell-3-steps-9-11.dxf",
		"drawings/20-settings-2.svg", "drawings/31-wheel-track-cell-2-3.dxf", "drawings/40-along-the-route-cell-4.svg", "views/step-3.svg", "views/step-3-bent.svg", "views/step-10-bent.svg"} {
		if !ownName.MatchString(name) {
			t.Errorf("%s would never be taken away", name)
		}
	}
	for _, name := range []string{"views/holiday.svg", "drawings/99-mine.dxf", "views/sub/raised.svg", "drawings/sub/01-plan.dxf", "drawings/1-plan.dxf", "drawings/01-plan.pdf",
		"drawings/01-plan-2.dxf", "drawings/01-section-raised-2.dxf", "drawings/raised.svg", "views/raised.dxf", "views/01-plan.svg", "views/raised-bent-bent.svg", "views/step-.svg", "views/rolling.svg", "views/step-3-anything.svg", "views/step-3-.svg", "views/step-03.svg", "views/step-3-bent-bent.svg"} {
		if ownName.MatchString(name) {
			t.Errorf("%s may be anybody's", name)
		}
	}
}
