package main

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
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

// written is what became of an output folder, by names below it.
type written struct {
	files   []string // written
	removed []string // written by an earlier run, not made any more, and gone
	left    []string // the same, but changed by someone: left as it is
}

// write puts all files into a folder, or none. It looks before it touches
// anything: files that the tool did not write, or that were changed since, stop
// it unless forced. Unchanged files of an earlier run that are not made any
// more go, so that no stale drawing lies beside the new ones; within is the
// part of the folder that this run answers for, "" for all of it.
func write(folder string, files []product, within string, force bool) (written, error) {
	f, err := openFolder(folder)
	if err != nil {
		return written{}, failed(err)
	}
	defer f.close()
	known, err := f.known()
	if err != nil {
		return written{}, failed(err)
	}
	strange, err := f.foreign(files, known)
	if err != nil {
		return written{}, err
	}
	var w written
	for _, name := range obsolete(files, known, within) {
		if f.changed(name, known[name]) {
			w.left = append(w.left, name)
		} else {
			w.removed = append(w.removed, name)
		}
		delete(known, name)
	}
	if strange = append(strange, w.left...); len(strange) > 0 && !force {
		return written{}, wrong("these files in %s were not written by boxwalk, or were changed since:\n  %s\nNothing was written. Give another folder, or --force to go on: those in the way are then overwritten",
			folder, strings.Join(strange, "\n  "))
	}
	for _, p := range files {
		known[p.name] = hash(p.bytes)
		w.files = append(w.files, p.name)
	}
	list := append(slices.Clone(files), product{manifest, manifestBytes(known)})
	return w, failed(f.place(list, w.removed))
}

// obsolete lists what the manifest has and this run does not make.
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

// known is the manifest as name and hash.
func (f *folder) known() (map[string]string, error) {
	known := map[string]string{}
	if f.root == nil {
		return known, nil
	}
	text, err := f.root.ReadFile(manifest)
	if errors.Is(err, fs.ErrNotExist) {
		return known, nil
	}
	for _, line := range strings.Split(string(text), "\n") {
		if sum, name, ok := strings.Cut(line, "  "); ok && filepath.IsLocal(name) {
			known[name] = sum
		}
	}
	return known, err
}

// foreign lists the files in the way that are not as the tool wrote them. One
// that has the very bytes to be written is in nobody's way.
func (f *folder) foreign(files []product, known map[string]string) ([]string, error) {
	var out []string
	for _, p := range files {
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

// changed tells whether a file is there and not a regular one with that hash.
func (f *folder) changed(name, sum string) bool {
	info, err := f.stat(name)
	if errors.Is(err, fs.ErrNotExist) {
		return false
	}
	if err != nil || !info.Mode().IsRegular() {
		return true
	}
	have, err := f.root.ReadFile(filepath.FromSlash(name))
	return err != nil || hash(have) != sum
}

// stat looks at a file itself, not at what a link names.
func (f *folder) stat(name string) (fs.FileInfo, error) {
	if f.root == nil {
		return nil, fs.ErrNotExist
	}
	return f.root.Lstat(filepath.FromSlash(name))
}

func hash(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

func manifestBytes(known map[string]string) []byte {
	var b strings.Builder
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
}

func openFolder(name string) (*folder, error) {
	root, err := os.OpenRoot(name)
	if errors.Is(err, fs.ErrNotExist) {
		return &folder{name: name}, nil
	}
	return &folder{name, root}, err
}

func (f *folder) close() {
	if f.root != nil {
		f.root.Close()
	}
}
