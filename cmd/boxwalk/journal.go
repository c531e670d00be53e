package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// journal is what a run is about to do to a folder, written before it does
// anything. Whoever has the folder's lock can undo it from the journal alone:
// the run itself, or the next one when it was killed.
type journal struct {
	run     string // in the names of all files that only this run has
	process int
	folders []string // that it makes, outer ones first
	files   []change // in the order they are made
	begun   bool     // the journal is whole
	done    bool     // everything is in place
}

// change is what happens to one file.
type change struct {
	what string // one of the words below
	sum  string // hash of what will stand there; of one that goes "-"
	name string // with slash
}

const (
	appears = "new"     // nothing stands there yet
	changes = "over"    // something stands there
	goes    = "removed" // made by an earlier run and not any more
)

// journalHead is how a journal begins.
const journalHead = "boxwalk is writing here, or was ended while it did: the next run sees to it\n"

const (
	wordBegun = "begun\n"
	wordDone  = "done\n"
)

// text is the journal as it stands in the folder before anything is done.
func (j *journal) text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%srun %s %d\n", journalHead, j.run, j.process)
	for _, name := range j.folders {
		fmt.Fprintf(&b, "folder - %s\n", name)
	}
	for _, c := range j.files {
		fmt.Fprintf(&b, "%s %s %s\n", c.what, c.sum, c.name)
	}
	return b.String() + wordBegun
}

// readJournal reads what another run left. Lines that name what no command
// makes are passed over: anybody may have written them.
func readJournal(text string) *journal {
	j := &journal{}
	for _, line := range strings.SplitAfter(strings.TrimPrefix(text, journalHead), "\n") {
		if line == wordBegun {
			j.begun = j.run != ""
		}
		j.done = j.done || line == wordDone && j.begun
		word, rest, _ := strings.Cut(strings.TrimSuffix(line, "\n"), " ")
		sum, name, _ := strings.Cut(rest, " ")
		switch {
		case word == "run" && runName.MatchString(sum):
			j.run = sum
			fmt.Sscanf(name, "%d", &j.process)
		case word == "folder" && ownFolder.MatchString(name):
			j.folders = append(j.folders, name)
		case slices.Contains([]string{appears, changes, goes}, word) && ownName.MatchString(name):
			j.files = append(j.files, change{word, sum, name})
		}
	}
	return j
}

// settle leaves a folder as it was before the run, or, when everything was in
// place, as it is after it, without what lay beside. It may be done again when
// it was cut short.
func (j *journal) settle(f *folder) error {
	if !j.begun {
		return nil
	}
	var problems []error
	for _, c := range slices.Backward(j.files) {
		if !f.plain(c.name) {
			continue
		}
		if !j.done {
			problems = append(problems, j.undo(f, c))
		}
		for _, mark := range []string{incoming, halfway, outgoing} {
			problems = append(problems, gone(f.root.Remove(beside(j.run, mark, c.name))))
		}
	}
	for _, name := range slices.Backward(j.folders) {
		if !j.done {
			f.root.Remove(filepath.FromSlash(name)) // which leaves one that has something in it
		}
	}
	return errors.Join(problems...)
}

// undo puts back what stood in a place, unless something stands there that is
// not what the run was to write: then it got no farther, or someone changed it.
// Of two names for one file the system may keep both when one is given the
// other's name.
func (j *journal) undo(f *folder, c change) error {
	name := filepath.FromSlash(c.name)
	old := beside(j.run, outgoing, c.name)
	_, err := f.root.Lstat(name)
	missing, ours := errors.Is(err, fs.ErrNotExist), f.has(c.name, c.sum)
	if _, err := f.root.Lstat(old); err == nil && (missing || ours) {
		return f.root.Rename(old, name)
	}
	if c.what == appears && ours {
		return f.root.Remove(name)
	}
	return nil
}

// gone is no error where there was nothing to remove.
func gone(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

// plan is the journal of a run that is to write and remove files.
func (f *folder) plan(files []product, remove []string) (*journal, error) {
	run, err := newRun()
	if err != nil {
		return nil, err
	}
	j := &journal{run: run, process: os.Getpid()}
	for _, p := range files {
		for _, at := range around(p.name) {
			if _, err := f.stat(at); errors.Is(err, fs.ErrNotExist) && !slices.Contains(j.folders, at) {
				j.folders = append(j.folders, at)
			}
		}
		what := changes
		if _, err := f.stat(p.name); errors.Is(err, fs.ErrNotExist) {
			what = appears
		} else if err != nil {
			return nil, err
		}
		j.files = append(j.files, change{what, hash(p.bytes), p.name})
	}
	for _, name := range remove {
		j.files = append(j.files, change{goes, "-", name})
	}
	return j, nil
}
