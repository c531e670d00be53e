package main

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
)

// kindOf says in words what stands in the place of an ordinary file; nil for
// one.
func kindOf(mode fs.FileMode) error {
	switch {
	case mode.IsRegular():
		return nil
	case mode.IsDir():
		return errors.New("it is a folder")
	case mode&fs.ModeSymlink != 0:
		return errors.New("it is a link")
	case mode&fs.ModeNamedPipe != 0:
		return errors.New("it is a pipe")
	case mode&fs.ModeSocket != 0:
		return errors.New("it is a socket")
	}
	return errors.New("it is a device")
}

// look tells what a name stands for, and open opens it: os.Stat and
// os.OpenFile, or those of a root.
type (
	look func(name string) (fs.FileInfo, error)
	open func(name string, flag int, mode fs.FileMode) (*os.File, error)
)

// openOrdinary opens an ordinary file and refuses everything else without
// waiting: a pipe would keep a reader until somebody writes. It looks before,
// because opening a device may do something, and after, because the name may
// stand for something else by then.
func openOrdinary(look look, open open, name string, flag int) (*os.File, error) {
	info, err := look(name)
	if err == nil {
		err = kindOf(info.Mode())
	}
	if err != nil {
		return nil, err
	}
	file, err := open(name, flag|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, err
	}
	if info, err = file.Stat(); err == nil {
		err = kindOf(info.Mode())
	}
	if err != nil {
		file.Close()
		return nil, err
	}
	return file, nil
}

// openInput opens a file that the user names; a link to a file is one.
func openInput(name string) (*os.File, error) {
	return openOrdinary(os.Stat, os.OpenFile, name, os.O_RDONLY)
}
