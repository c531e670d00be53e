package main

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// manifest lists what the tool wrote into a folder: a hash and a name on each
// line. A file whose hash differs was changed by someone.
const manifest = ".boxwalk-files"

// madeFrom begins the line of the list that tells what all its files were made
// from, see origin. Programs that check the hashes pass over lines with #.
const madeFrom = "# made from "

// written is what became of an output folder, by names below it.
type written struct {
	files   []string // written
	removed []string // written by an earlier run, not made any more, and gone
	left    []string // the same, but changed by someone: left as it is
	untrue  []string // of another part of the folder, made from other inputs, and gone
	astray  []string // the same, but changed by someone: left as it is
}

// write puts all files into the folder, or none. It looks before it touches
// anything: files that the tool did not write, or that were changed since, stop
// it unless forced. Unchanged files of an earlier run that are not made any
// more go, so that no stale drawing lies beside the new ones; where the folder was
// made from other inputs, another version or other settings, so do those of the
// parts it does not write, which might say that all holds when it does no longer.
// One run at a time has the folder; what it waits for, and what it finds of a run that was killed,
// is told.
func (to target) write(files []product, tell io.Writer) (w written, err error) {
	release := interrupted.hold()
	defer func() {
		if stopped := release(); err == nil {
			err = stopped
		}
	}()
	f, err := openFolder(to.folder)
	if err != nil {
		return written{}, failed(denied(err))
	}
	defer f.close()
	defer f.release()
	if err := f.acquire(tell, patience); err != nil {
		return written{}, failed(err)
	}
	list, w, err := f.settled(files, to)
	if err != nil {
		return written{}, err
	}
	if err := f.place(list, w.goes()); err != nil {
		return written{}, failed(err)
	}
	return w, nil
}

// settled is what there is to write, the list of files last, and what becomes
// of the folder by it.
func (f *folder) settled(files []product, to target) ([]product, written, error) {
	known, made, err := f.known()
	if err != nil {
		return nil, written{}, failed(err)
	}
	strange, err := f.foreign(files, known)
	if err != nil {
		return nil, written{}, err
	}
	var w written
	for _, name := range obsolete(files, known, to.answers(made)) {
		gone, stays := &w.removed, &w.left
		if !strings.HasPrefix(name, to.within) {
			gone, stays = &w.untrue, &w.astray
		}
		if f.changed(name, known[name]) {
			*stays = append(*stays, name)
		} else if f.has(name, known[name]) {
			*gone = append(*gone, name)
		}
		delete(known, name)
	}
	if strange = slices.Concat(strange, w.left, w.astray); len(strange) > 0 && !to.force {
		return nil, written{}, wrong("these files in %s were not written by boxwalk, or were changed since:\n  %s\nNothing was written. Give another folder, or --force to go on: those in the way are then overwritten, the others left",
			to.folder, strings.Join(strange, "\n  "))
	}
	for _, p := range files {
		known[p.name] = hash(p.bytes)
		w.files = append(w.files, p.name)
	}
	return append(slices.Clone(files), product{manifest, manifestBytes(known, to.from)}), w, nil
}

// goes is all that is removed.
func (w written) goes() []string { return slices.Concat(w.removed, w.untrue) }

// answers is the part of a folder that a run answers for, of which the list says
// what it was made from: all of it where that was something else, or is not said.
func (to target) answers(made string) string {
	if made != to.from {
		return ""
	}
	return to.within
}

// obsolete lists what the manifest has and this run does not make, in the part
// of the folder that the run answers for.
func obsolete(files []product, known map[string]string, within string) []string {
	var out []string
	for _, name := range sortedNames(known) {
		made := slices.ContainsFunc(files, func(p product) bool { return p.name == name })
		if !made && strings.HasPrefix(name, within) {
			out = append(out, name)
		}
	}
	return out
}

// known is the manifest as name and hash, as far as it names what commands
// write, and what it says they were made from.
func (f *folder) known() (known map[string]string, made string, err error) {
	known = map[string]string{}
	file, err := openOrdinary(f.root.Lstat, f.root.OpenFile, manifest, os.O_RDONLY)
	if errors.Is(err, fs.ErrNotExist) {
		return known, "", nil
	}
	if err != nil {
		return nil, "", wrong("%s is in the way: %s\nA run lists there what it wrote; take it away, or give another folder", filepath.Join(f.name, manifest), reason(err))
	}
	defer file.Close()
	text, err := io.ReadAll(io.LimitReader(file, mostBytes))
	for _, line := range strings.Split(string(text), "\n") {
		if sum, name, ok := strings.Cut(line, "  "); ok && name != manifest && ownName.MatchString(name) {
			known[name] = sum
		}
		if said, ok := strings.CutPrefix(line, madeFrom); ok {
			made = said
		}
	}
	return known, made, err
}

// foreign lists the files in the way that are not as the tool wrote them. One
// that has the very bytes to be written is in nobody's way.
func (f *folder) foreign(files []product, known map[string]string) ([]string, error) {
	var out []string
	for _, p := range files {
		if at := f.inTheWay(p.name); at != "" {
			return nil, wrong("%s is no folder; %s has to be written in it", path.Join(filepath.ToSlash(f.name), at), p.name)
		}
		info, err := f.stat(p.name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err == nil && info.IsDir():
			return nil, wrong("%s is a folder; a file of that name has to be written there", path.Join(filepath.ToSlash(f.name), p.name))
		case f.changed(p.name, known[p.name]) && f.changed(p.name, hash(p.bytes)):
			out = append(out, p.name)
		}
	}
	return out, nil
}

// changed tells whether something is there that is not the file of that hash.
func (f *folder) changed(name, sum string) bool {
	_, err := f.stat(name)
	return !errors.Is(err, fs.ErrNotExist) && !f.has(name, sum)
}

// has tells whether an ordinary file of that hash is there, and not behind a
// link.
func (f *folder) has(name, sum string) bool {
	if !f.plain(name) {
		return false
	}
	file, err := openOrdinary(f.root.Lstat, f.root.OpenFile, filepath.FromSlash(name), os.O_RDONLY)
	if err != nil {
		return false
	}
	defer file.Close()
	h := sha256.New()
	_, err = io.Copy(h, file)
	return err == nil && hex.EncodeToString(h.Sum(nil)) == sum
}

// stat looks at a file itself, not at what a link names.
func (f *folder) stat(name string) (fs.FileInfo, error) {
	return f.root.Lstat(filepath.FromSlash(name))
}

func hash(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

func manifestBytes(known map[string]string, from string) []byte {
	var b strings.Builder
	b.WriteString(madeFrom + from + "\n")
	for _, n := range sortedNames(known) {
		fmt.Fprintf(&b, "%s  %s\n", known[n], n)
	}
	return []byte(b.String())
}

func sortedNames(known map[string]string) []string {
	var names []string
	for n := range known {
		names = append(names, n)
	}
	slices.Sort(names)
	return names
}

// folder is where output goes; root is nil as long as it does not exist.
type folder struct {
	name string
	root *os.Root
	lock *lock
}

func openFolder(name string) (*folder, error) {
	if err := usable(name); err != nil {
		return nil, err
	}
	root, err := os.OpenRoot(name)
	if errors.Is(err, fs.ErrNotExist) {
		return &folder{name: name}, nil
	}
	return &folder{name: name, root: root}, err
}

// usable tells what is wrong with a folder to write to, before it is opened: it
// is a folder, or nothing yet below one.
func usable(name string) error {
	info, err := os.Stat(name)
	switch {
	case name == "-":
		return wrong("-o takes a folder; standard output is none\nFor one of that name give ./-")
	case err == nil && info.IsDir():
		return nil
	case err == nil:
		return wrong("%s is no folder\nGive one that exists, or a name for one that is made", name)
	case !errors.Is(err, fs.ErrNotExist):
		return wrong("%s cannot be a folder to write to: %s", name, reason(err))
	case exists(name):
		return wrong("%s is a link to a folder that is not there", name)
	}
	if around := filepath.Dir(name); around != name {
		return usable(around)
	}
	return nil
}

func (f *folder) close() {
	if f.root != nil {
		f.root.Close()
		f.root = nil
	}
}
