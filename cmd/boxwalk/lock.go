package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// lockName is the file in an output folder that one run at a time has locked,
// and that holds its journal. The system lets go of the lock when the run ends,
// however it does.
const lockName = ".boxwalk-lock"

// How long a run waits for another one that has the folder, and how often it
// looks. Placing files takes a fraction of a second.
const (
	patience = 30 * time.Second
	pause    = 10 * time.Millisecond
)

// lock is that of a folder.
type lock struct {
	file *os.File
	keep bool     // the journal in it is still needed
	made []string // folders made for it, inner ones first
}

var (
	errHeld = errors.New("another run is writing there")
	errGone = errors.New("it was taken away")
)

// acquire makes the folder where it does not exist and locks it, after any
// other run that has it; then it sees to what a run left that was killed.
func (f *folder) acquire(tell io.Writer, patience time.Duration) error {
	f.lock = &lock{}
	waiting := false
	for began := time.Now(); ; time.Sleep(pause) {
		err := f.tryAcquire()
		if stopped := interrupted.err(); err != nil && stopped != nil {
			return stopped
		}
		switch {
		case err == nil:
			return f.takeOver(tell)
		case errors.Is(err, errGone):
			f.close()
		case !errors.Is(err, errHeld):
			return err
		case time.Since(began) > patience:
			return wrong("another run%s is still writing to %s; nothing was written\nWait for it, or give another folder", f.holder(), f.name)
		case !waiting:
			waiting = true
			fmt.Fprintf(tell, "boxwalk: waiting for another run%s that is writing to %s\n", f.holder(), f.name)
		}
	}
}

// tryAcquire opens the folder and locks the file in it, once.
func (f *folder) tryAcquire() error {
	if err := f.make(); err != nil {
		return err
	}
	file, err := f.lockFile()
	if err != nil {
		return err
	}
	held, err := tryLock(file)
	switch {
	case held:
		err = errHeld
	case err != nil:
		err = fmt.Errorf("%s cannot be locked (%w): give a folder on a disk of this machine", f.name, err)
	default:
		err = f.still(file)
	}
	if err != nil {
		return errors.Join(err, file.Close())
	}
	f.lock.file = file
	return nil
}

// make makes the folder where it does not exist.
func (f *folder) make() error {
	if f.root != nil {
		return nil
	}
	var made []string
	for at := filepath.Clean(f.name); !exists(at); at = filepath.Dir(at) {
		made = append(made, at)
	}
	if err := os.MkdirAll(f.name, 0o777); err != nil {
		return denied(err)
	}
	f.lock.made = append(f.lock.made, made...)
	root, err := os.OpenRoot(f.name)
	if errors.Is(err, fs.ErrNotExist) {
		return errGone
	}
	f.root = root
	return denied(err)
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return !errors.Is(err, fs.ErrNotExist)
}

// denied makes a folder that the user may not write to a mistake in the command.
func denied(err error) error {
	if errors.Is(err, fs.ErrPermission) {
		return wrong("%v", err)
	}
	return err
}

// lockFile opens the file, making it where it does not exist. What is no file
// of ours is left as it is.
func (f *folder) lockFile() (*os.File, error) {
	file, err := f.root.OpenFile(lockName, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
	if !errors.Is(err, fs.ErrExist) {
		if errors.Is(err, fs.ErrNotExist) {
			return nil, errGone // the folder went
		}
		return file, denied(err)
	}
	file, err = openOrdinary(f.root.Lstat, f.root.OpenFile, lockName, os.O_RDWR)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, errGone
	case err != nil:
		return nil, wrong("%s is in the way: %s\nA run keeps its journal there; take it away, or give another folder", filepath.Join(f.name, lockName), reason(err))
	}
	return file, nil
}

// still tells whether a file that is locked now is the one that others would
// lock; a run takes it away when it ends.
func (f *folder) still(file *os.File) error {
	mine, err := file.Stat()
	if err != nil {
		return err
	}
	there, err := f.root.Lstat(lockName)
	if err != nil || !os.SameFile(mine, there) {
		return errGone
	}
	return nil
}

// holder is the process that has the folder, in words, where it can be read.
func (f *folder) holder() string {
	file, err := openOrdinary(f.root.Lstat, f.root.OpenFile, lockName, os.O_RDONLY)
	if err != nil {
		return ""
	}
	defer file.Close()
	text, err := io.ReadAll(io.LimitReader(file, mostBytes))
	if j := readJournal(string(text)); err == nil && j.run != "" {
		return fmt.Sprintf(" (process %d)", j.process)
	}
	return ""
}

// takeOver undoes, or clears up after, a run that was ended before it could.
func (f *folder) takeOver(tell io.Writer) error {
	text, err := io.ReadAll(io.LimitReader(f.lock.file, mostBytes))
	if err != nil {
		return err
	}
	if !strings.HasPrefix(string(text), journalHead) && !strings.HasPrefix(journalHead, string(text)) {
		f.lock.keep = true
		return wrong("%s is in the way: no run wrote it\nTake it away, or give another folder", filepath.Join(f.name, lockName))
	}
	j := readJournal(string(text))
	if !j.begun {
		return nil
	}
	if err := j.settle(f); err != nil {
		f.lock.keep = true
		return fmt.Errorf("what process %d left in %s cannot be cleared: %w", j.process, f.name, err)
	}
	what := "what it had begun was undone"
	if j.done {
		what = "what it left beside its files was cleared"
	}
	fmt.Fprintf(tell, "boxwalk: process %d was ended while it wrote to %s; its lock was taken over and %s\n", j.process, f.name, what)
	return nil
}

// begin writes the journal, whole and on the disk before anything else is done.
func (l *lock) begin(j *journal) error {
	if err := l.file.Truncate(0); err != nil {
		return err
	}
	if _, err := l.file.WriteAt([]byte(j.text()), 0); err != nil {
		return err
	}
	j.begun = true
	return flush(l.file)
}

// finish notes that everything is in place. What lies beside is needed until the
// disk has the note.
func (l *lock) finish(j *journal) error {
	_, err := l.file.WriteAt([]byte(wordDone), int64(len(j.text())))
	if err == nil {
		err = flush(l.file)
	}
	j.done = err == nil
	return err
}

// release lets the next run have the folder, and takes folders away that were
// made for nothing.
func (f *folder) release() {
	if f.lock == nil {
		return
	}
	if f.lock.file != nil {
		if !f.lock.keep {
			f.root.Remove(lockName)
		}
		f.lock.file.Close()
	}
	for _, at := range f.lock.made {
		os.Remove(at) // which leaves one that has something in it
	}
}
