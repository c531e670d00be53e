package main

import (
	"errors"
	"io"
	"os"
	"path"
	"path/filepath"
	"testing"
)

// watched records what is put on the disk for the time of a test, by name.
func watched(t *testing.T) map[string]int {
	t.Helper()
	seen, real := map[string]int{}, flush
	flush = func(f *os.File) error {
		seen[filepath.Clean(f.Name())]++
		return real(f)
	}
	t.Cleanup(func() { flush = real })
	return seen
}

// A power cut loses what the disk does not have yet. Before a file's name is given to
// what is new, its content and the names in its folder, that by which the old one is
// put back among them, have been put on the disk, after the journal that says how.
func TestNothingIsGivenUpBeforeTheDiskHasWhatReplacesIt(t *testing.T) {
	dir := t.TempDir()
	if _, err := wrote(dir, edition(1), false); err != nil {
		t.Fatal(err)
	}
	f, err := openFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer f.close()
	defer f.release()
	if err := f.acquire(io.Discard, patience); err != nil {
		t.Fatal(err)
	}
	seen := watched(t)
	files := edition(2)
	j, err := f.plan(files, []string{"drawings/13-parts-7.svg"})
	if err != nil {
		t.Fatal(err)
	}
	given := map[string]bool{}
	names := 0 // how often the folders were flushed before anything was given up
	for n, step := range f.steps(j, files) {
		before := map[string]int{}
		for name, count := range seen {
			before[name] = count
		}
		if err := step(); err != nil {
			t.Fatal(n, err)
		}
		for _, p := range files {
			if given[p.name] || !f.has(p.name, hash(p.bytes)) {
				continue
			}
			given[p.name] = true
			if names++; before[filepath.Join(dir, beside(j.run, incoming, p.name))] != 1 {
				t.Errorf("%s is given up for what the disk does not have", p.name)
			}
			if at := filepath.Join(dir, filepath.FromSlash(path.Dir(p.name))); before[at] == 0 {
				t.Errorf("%s is given up before the disk has the names in %s", p.name, at)
			}
			if before[filepath.Join(dir, lockName)] != 1 {
				t.Errorf("%s is given up before the disk has the journal", p.name)
			}
		}
	}
	if names != len(files) || seen[filepath.Join(dir, lockName)] != 2 || seen[filepath.Join(dir, "drawings")] < 2 {
		t.Errorf("%d files of %d; flushed %v", names, len(files), seen)
	}
	if err := j.settle(f); err != nil {
		t.Error(err)
	}
}

// A disk that cannot keep what is written is found out before anything is given up:
// whatever is the first that it does not take, everything is as it was.
func TestADiskThatDoesNotTakeAFileLeavesEverythingAsItWas(t *testing.T) {
	real := flush
	defer func() { flush = real }()
	for fails := range 18 {
		dir := t.TempDir()
		if _, err := wrote(dir, edition(1), false); err != nil {
			t.Fatal(err)
		}
		n := 0
		flush = func(f *os.File) error {
			if n++; n == fails+1 {
				return errors.New("no space left")
			}
			return real(f)
		}
		_, err := wrote(dir, edition(2), false)
		flush = real
		want := 2
		if n > fails {
			want = 1
			if err == nil {
				t.Errorf("flush %d fails and the run does not", fails+1)
			}
		}
		clean(t, dir, want)
	}
}

func TestAProofIsOnTheDiskBeforeItHasItsName(t *testing.T) {
	at := filepath.Join(t.TempDir(), "proof.txt")
	seen := watched(t)
	p, err := proofAt(at)
	if err != nil {
		t.Fatal(err)
	}
	if err := p.save([]byte("text")); err != nil {
		t.Fatal(err)
	}
	if len(seen) != 2 || seen[filepath.Dir(at)] != 1 {
		t.Errorf("flushed %v", seen)
	}
}
