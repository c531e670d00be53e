package main

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"
)

// manifest lists what the tool wrote into a folder: a hash and a name on each
// line. A file whose hash differs was changed by someone.
const manifest = ".boxwalk-files"

// write puts all files into a folder, each under a temporary name first. It
// looks before it touches anything: files that the tool did not write, or that
// were changed since, stop it unless forced.
func write(folder string, files []product, force bool) error {
	known, err := readManifest(folder)
	if err != nil {
		return failed(err)
	}
	if strange := foreign(folder, files, known); len(strange) > 0 && !force {
		return wrong("these files were not written by boxwalk, or were changed since:\n  %s\nNothing was written. Give another folder, or --force to overwrite them", strings.Join(strange, "\n  "))
	}
	for _, f := range files {
		known[f.name] = hash(f.bytes)
	}
	list := append([]product(nil), files...)
	return failed(place(folder, append(list, product{manifest, manifestBytes(known)})))
}

// foreign lists the files in the way that are not as the tool wrote them.
func foreign(folder string, files []product, known map[string]string) []string {
	var out []string
	for _, f := range files {
		path := filepath.Join(folder, filepath.FromSlash(f.name))
		have, err := os.ReadFile(path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil, hash(have) != known[f.name] && hash(have) != hash(f.bytes):
			out = append(out, path)
		}
	}
	return out
}

func hash(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

func readManifest(folder string) (map[string]string, error) {
	known := map[string]string{}
	text, err := os.ReadFile(filepath.Join(folder, manifest))
	if errors.Is(err, fs.ErrNotExist) {
		return known, nil
	}
	for _, line := range strings.Split(string(text), "\n") {
		if sum, name, ok := strings.Cut(line, "  "); ok {
			known[name] = sum
		}
	}
	return known, err
}

func manifestBytes(known map[string]string) []byte {
	var names []string
	for n := range known {
		names = append(names, n)
	}
	sort.Strings(names)
	var b strings.Builder
	for _, n := range names {
		fmt.Fprintf(&b, "%s  %s\n", known[n], n)
	}
	return []byte(b.String())
}

// place writes every file under a temporary name beside its place, and only
// when all of them are written renames them. If anything fails before, nothing
// is left behind.
func place(folder string, files []product) (err error) {
	var made []string
	defer func() {
		if err != nil {
			for _, m := range made {
				os.Remove(m)
			}
		}
	}()
	for _, f := range files {
		target := filepath.Join(folder, filepath.FromSlash(f.name))
		if err := os.MkdirAll(filepath.Dir(target), 0o777); err != nil {
			return err
		}
		m, err := temporary(target, f.bytes)
		if err != nil {
			return err
		}
		made = append(made, m)
	}
	for i, f := range files {
		if err := os.Rename(made[i], filepath.Join(folder, filepath.FromSlash(f.name))); err != nil {
			return err
		}
	}
	return nil
}

// temporary writes bytes to a new file beside the target and returns its name.
func temporary(target string, b []byte) (string, error) {
	f, err := os.CreateTemp(filepath.Dir(target), ".boxwalk-*")
	if err != nil {
		return "", err
	}
	_, err = f.Write(b)
	err = errors.Join(err, f.Chmod(0o644), f.Close())
	if err != nil {
		os.Remove(f.Name())
		return "", err
	}
	return f.Name(), nil
}
