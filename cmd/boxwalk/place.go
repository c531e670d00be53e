package main

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
)

// Names of files on their way in and out, beside their place.
const (
	incoming = ".boxwalk-new-"
	outgoing = ".boxwalk-old-"
)

// move is a set of changes to a folder that is undone as a whole when one of
// them fails.
type move struct {
	root    *os.Root
	undo    []func()
	discard []string // old files, once everything is in place
}

// place writes files and removes others. Every file is written whole under a
// temporary name beside its place before the first one is renamed. When
// anything fails, or the user interrupts, the folder is left as it was.
func (f *folder) place(files []product, remove []string) (err error) {
	stop, end := signal.NotifyContext(context.Background(), os.Interrupt)
	defer end()
	m := &move{}
	defer func() {
		if err != nil {
			m.rollBack()
		}
	}()
	if err := m.open(f); err != nil {
		return err
	}
	for _, p := range files {
		if err := errors.Join(stop.Err(), m.stage(p)); err != nil {
			return err
		}
	}
	for _, p := range files {
		if err := errors.Join(stop.Err(), m.swap(filepath.FromSlash(p.name))); err != nil {
			return err
		}
	}
	for _, name := range remove {
		if err := m.setAside(filepath.FromSlash(name)); err != nil {
			return err
		}
	}
	for _, old := range m.discard {
		// the new files stand; an old one that cannot be removed is only litter
		m.root.Remove(old)
	}
	return nil
}

// rollBack undoes everything, last first.
func (m *move) rollBack() {
	for i := len(m.undo) - 1; i >= 0; i-- {
		m.undo[i]()
	}
}

// open makes the folder where it does not exist.
func (m *move) open(f *folder) error {
	if f.root == nil {
		var made []string // the innermost first
		for at := filepath.Clean(f.name); !exists(at); at = filepath.Dir(at) {
			made = append(made, at)
		}
		m.undo = append(m.undo, func() {
			for _, at := range made {
				os.Remove(at)
			}
		})
		if err := os.MkdirAll(f.name, 0o777); err != nil {
			return err
		}
		root, err := os.OpenRoot(f.name)
		if err != nil {
			return err
		}
		f.root = root
	}
	m.root = f.root
	return nil
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return !errors.Is(err, fs.ErrNotExist)
}

// stage writes a file beside its place.
func (m *move) stage(p product) error {
	name := filepath.FromSlash(p.name)
	if err := m.folders(filepath.Dir(name)); err != nil {
		return err
	}
	temp := beside(incoming, name)
	if err := m.root.Remove(temp); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	file, err := m.root.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	m.undo = append(m.undo, func() { m.root.Remove(temp) })
	_, err = file.Write(p.bytes)
	return errors.Join(err, file.Close())
}

// folders makes a folder inside the output folder, one level at a time.
func (m *move) folders(name string) error {
	if name == "." {
		return nil
	}
	if _, err := m.root.Stat(name); err == nil {
		return nil
	}
	if err := m.folders(filepath.Dir(name)); err != nil {
		return err
	}
	if err := m.root.Mkdir(name, 0o777); err != nil {
		return err
	}
	m.undo = append(m.undo, func() { m.root.Remove(name) })
	return nil
}

// swap puts a staged file in its place.
func (m *move) swap(name string) error {
	if err := m.setAside(name); err != nil {
		return err
	}
	if err := m.root.Rename(beside(incoming, name), name); err != nil {
		return err
	}
	m.undo = append(m.undo, func() { m.root.Remove(name) })
	return nil
}

// setAside takes away what stands in a place, if anything does.
func (m *move) setAside(name string) error {
	old := beside(outgoing, name)
	err := m.root.Rename(name, old)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	m.discard = append(m.discard, old)
	m.undo = append(m.undo, func() { m.root.Rename(old, name) })
	return nil
}

func beside(mark, name string) string {
	return filepath.Join(filepath.Dir(name), mark+filepath.Base(name))
}
