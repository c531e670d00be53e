package main

import (
	"bufio"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"boxwalk/clearance/proof"
)

// proofPlace is where a proof is to stand: a new name, or that of an earlier
// proof.
type proofPlace struct {
	path  string
	fresh bool // nothing stands there yet
}

// proofAt tells whether a proof may be written to a path. What is there and
// cannot be told to be a proof is left alone.
func proofAt(path string) (proofPlace, error) {
	if path == "-" {
		return proofPlace{}, wrong("--proof takes a file; standard output is none\nFor one of that name give ./-")
	}
	folder := filepath.Dir(path)
	if info, err := os.Stat(folder); err != nil || !info.IsDir() {
		return proofPlace{}, wrong("%s cannot be written: there is no folder %s", filepath.ToSlash(path), filepath.ToSlash(folder))
	}
	file, err := openOrdinary(os.Lstat, os.OpenFile, path, os.O_RDONLY)
	if errors.Is(err, fs.ErrNotExist) {
		return proofPlace{path, true}, nil
	}
	why := "it is no proof"
	if err == nil {
		defer file.Close()
		if first, err := bufio.NewReader(file).ReadSlice('\n'); err == nil && string(first) == proof.Header+"\n" {
			return proofPlace{path: path}, nil
		}
	} else {
		why = reason(err)
	}
	return proofPlace{}, wrong("%s is there and cannot be overwritten: %s; it was left as it is\nGive another name with --proof", filepath.ToSlash(path), why)
}

// save writes beside the place and swaps, so that there is a whole proof or
// none, and an older one until then.
func (p proofPlace) save(text []byte) (err error) {
	release := interrupted.hold()
	defer func() {
		if stopped := release(); err == nil {
			err = stopped
		}
	}()
	p.sweep()
	file, err := p.temporary()
	if err != nil {
		return failed(denied(err))
	}
	defer os.Remove(file.Name())
	defer file.Close() // only then others may take it for left behind
	if _, err := file.Write(text); err != nil {
		return failed(err)
	}
	if err := flush(file); err != nil { // before anything is given up for it
		return failed(err)
	}
	if err := interrupted.err(); err != nil {
		return err
	}
	if p, err = proofAt(p.path); err != nil { // much time has gone by
		return err
	}
	if err := p.swap(file.Name()); err != nil {
		return failed(err)
	}
	return failed(p.flushName())
}

// flushName puts the new name on the disk.
func (p proofPlace) flushName() error {
	folder, err := os.Open(filepath.Dir(p.path))
	if err != nil {
		return nil // a folder that may be written and not read: the proof is whole, under either name
	}
	defer folder.Close()
	return flush(folder)
}

// swap gives a written file its name. A new name is given only when nobody
// else has taken it in the meantime.
func (p proofPlace) swap(from string) error {
	if p.fresh {
		err := os.Link(from, p.path)
		if err == nil {
			return nil
		}
		if errors.Is(err, fs.ErrExist) {
			return wrong("%s has appeared in the meantime; it was left as it is", filepath.ToSlash(p.path))
		}
	}
	return os.Rename(from, p.path) // also where there are no links
}

// mark is the beginning of the names of unfinished files for this place.
func (p proofPlace) mark() string { return ".boxwalk-proof-" + filepath.Base(p.path) + "-" }

// temporary makes an unfinished file and locks it for as long as this run is
// at it.
func (p proofPlace) temporary() (*os.File, error) {
	for range 10 { // another run may look at one just when it is made
		run, err := newRun()
		if err != nil {
			return nil, err
		}
		file, err := os.OpenFile(filepath.Join(filepath.Dir(p.path), p.mark()+run), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if err != nil {
			return nil, err
		}
		if held, err := tryLock(file); err != nil || !held && exists(file.Name()) {
			return file, nil // without locks nobody sweeps
		}
		file.Close()
	}
	return nil, fmt.Errorf("no file can be made beside %s", p.path)
}

// sweep removes what runs left beside this place that were killed: ordinary
// files of the name that save gives, begun as a proof, that nobody has locked.
func (p proofPlace) sweep() {
	folder := filepath.Dir(p.path)
	list, _ := os.ReadDir(folder)
	name := regexp.MustCompile(`^` + regexp.QuoteMeta(p.mark()) + `[0-9a-f]{16}$`)
	for _, entry := range list {
		if !name.MatchString(entry.Name()) {
			continue
		}
		at := filepath.Join(folder, entry.Name())
		file, err := openOrdinary(os.Lstat, os.OpenFile, at, os.O_RDWR)
		if err != nil {
			continue
		}
		begin := make([]byte, len(proof.Header))
		n, _ := file.Read(begin)
		if held, err := tryLock(file); err == nil && !held && strings.HasPrefix(proof.Header, string(begin[:n])) {
			os.Remove(at)
		}
		file.Close()
	}
}
