package main

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
)

// place writes files and removes others, all or none; the list of files is the
// last. Whoever is killed in it leaves every file as it was or as it will be,
// and a journal by which the next run undoes the rest. When anything fails, or
// a signal comes, that is done here. The same holds when the power goes: what is
// written is on the disk, with its name, before anything is given up for it.
func (f *folder) place(files []product, remove []string) (err error) {
	j, err := f.plan(files, remove)
	if err != nil {
		return err
	}
	defer func() {
		settled := j.settle(f)
		f.lock.keep = settled != nil // then the journal stays for the next run
		if settled != nil && !j.done {
			err = fmt.Errorf("%w; not everything could be undone, which the next run tries again: %v", err, settled)
		}
	}()
	for _, step := range f.steps(j, files) {
		if err := interrupted.err(); err != nil {
			return err
		}
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// steps are what place does, one after the other. Each may be the last.
func (f *folder) steps(j *journal, files []product) []func() error {
	list := []func() error{func() error { return f.lock.begin(j) }, func() error { return f.flushFolder(".") }}
	add := func(step func() error) { list = append(list, step) }
	for _, name := range j.folders {
		add(func() error { return f.root.Mkdir(filepath.FromSlash(name), 0o777) })
	}
	for _, p := range files {
		add(func() error { return f.stage(j, p) })
	}
	// what is removed goes before the list of files, which is the last to come
	order := slices.Clone(j.files)
	slices.SortStableFunc(order, func(a, b change) int { return last(a) - last(b) })
	for _, c := range order {
		if c.what != appears && c.what != goes {
			add(func() error { return f.keep(j, c) })
		}
	}
	add(func() error { return f.flushFolders(j) }) // the names of what is new and of what is kept
	for _, c := range order {
		if c.what == goes {
			add(func() error { return f.keep(j, c) })
			continue
		}
		add(func() error { return f.root.Rename(beside(j.run, incoming, c.name), filepath.FromSlash(c.name)) })
	}
	add(func() error { return f.flushFolders(j) })
	add(func() error { return f.lock.finish(j) })
	return list
}

// flush makes the system put what a file or folder holds on the disk. A variable,
// so that a test can see what has been put there when.
var flush = flushed

// flushFolders puts the names in all folders that a run works in on the disk.
func (f *folder) flushFolders(j *journal) error {
	seen := map[string]bool{}
	for _, c := range append(slices.Clone(j.files), change{name: lockName}) {
		at := path.Dir(c.name)
		if seen[at] {
			continue
		}
		seen[at] = true
		if err := f.flushFolder(at); err != nil {
			return err
		}
	}
	return nil
}

// flushFolder is that of one; name is with slash, "." for the whole folder.
func (f *folder) flushFolder(name string) error {
	open, err := f.root.Open(filepath.FromSlash(name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	return errors.Join(flush(open), open.Close())
}

// last is 1 for what comes when everything else has.
func last(c change) int {
	if c.name == manifest {
		return 1
	}
	return 0
}

// stage writes a file whole beside its place.
func (f *folder) stage(j *journal, p product) error {
	return f.create(beside(j.run, incoming, p.name), p.bytes)
}

// create writes a file that is not there yet, and has it on the disk before it has
// any name but this.
func (f *folder) create(name string, text []byte) error {
	file, err := f.root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	_, err = file.Write(text)
	if err == nil {
		err = flush(file)
	}
	return errors.Join(err, file.Close())
}

// keep gives what stands in a place a second name by which it can be put back.
// Without hard links it is copied, and what is no file is moved, as is what goes.
func (f *folder) keep(j *journal, c change) error {
	name, old := filepath.FromSlash(c.name), beside(j.run, outgoing, c.name)
	info, err := f.root.Lstat(name)
	switch {
	case err != nil:
		return err
	case c.what == goes || !info.Mode().IsRegular():
		return f.root.Rename(name, old)
	case f.root.Link(name, old) == nil:
		return nil
	}
	text, err := f.root.ReadFile(name)
	if err != nil {
		return err
	}
	copied := beside(j.run, halfway, c.name)
	return errors.Join(f.create(copied, text), f.root.Rename(copied, old))
}

// around are the folders that a file lies in, the outer first; name is with
// slash.
func around(name string) []string {
	var out []string
	for at := path.Dir(name); at != "." && at != "/"; at = path.Dir(at) {
		out = append([]string{at}, out...)
	}
	return out
}

// plain tells whether the folders that a file lies in are folders and no links
// to others.
func (f *folder) plain(name string) bool {
	return f.inTheWay(name) == ""
}

// inTheWay is what stands where a folder of a file should be; "" for nothing.
func (f *folder) inTheWay(name string) string {
	for _, at := range around(name) {
		if info, err := f.stat(at); err == nil && !info.IsDir() || err != nil && !errors.Is(err, fs.ErrNotExist) {
			return at
		}
	}
	return ""
}

// newRun is the name of a run: it need only differ from those of others.
func newRun() (string, error) {
	var name [8]byte
	_, err := rand.Read(name[:])
	return hex.EncodeToString(name[:]), err
}
