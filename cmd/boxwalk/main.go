// Command boxwalk checks whether an inner form carrier reaches, collapses,
// leaves and advances in a cast-in-place box culvert, and draws the answer.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
)

// The exit codes.
const (
	exitPass  = 0 // everything that this version checks holds
	exitShort = 1 // something fails or stays open
	exitInput = 2 // the input or the command is wrong
	exitTool  = 3 // the tool failed
	exitPart  = 4 // only some checks were asked for, and those hold: clears nothing
	// a signal ends with exitSignal and its number
)

func main() {
	interrupted.watch()
	// a run is short and makes little that lasts; GOGC of the environment still governs
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
	os.Exit(run(os.Args[1:], console{os.Stdin, os.Stdout, os.Stderr, os.LookupEnv}))
}

// console is everything around the program: its streams and its environment.
type console struct {
	in       io.Reader
	out, err io.Writer
	env      func(string) (string, bool)
}

// run is the whole program; it returns the exit code.
func run(args []string, c console) (code int) {
	return guarded(c.err, func() int {
		root := newRoot(c)
		root.SetArgs(args)
		return told(c.err, root.Execute())
	})
}

// guarded turns a panic, which is always a mistake of ours, into a message
// and an exit code of its own.
func guarded(to io.Writer, f func() int) (code int) {
	defer func() {
		if reason := recover(); reason != nil {
			fmt.Fprintf(to, "boxwalk: failed: %v\n", reason)
			fmt.Fprintln(to, "This is a mistake in boxwalk, not in your files. Nothing was decided; use no earlier result in its place.")
			fmt.Fprintln(to, "Please report it with the job and gear file and the command. Set BOXWALK_TRACE=1 to see where it happened.")
			if os.Getenv("BOXWALK_TRACE") != "" {
				fmt.Fprintf(to, "%s", debug.Stack())
			}
			code = exitTool
		}
	}()
	return f()
}

// stop ends the program with a code. Without an error everything has been told
// already.
type stop struct {
	code int
	err  error
}

func (s stop) Error() string {
	if s.err == nil {
		return ""
	}
	return s.err.Error()
}

func (s stop) Unwrap() error { return s.err }

// wrong is a mistake in how the command was given.
func wrong(format string, args ...any) error {
	return stop{exitInput, fmt.Errorf(format, args...)}
}

// failed is something the machine could not do, unless the error says whose
// fault it is already.
func failed(err error) error {
	var told stop
	if err == nil || errors.As(err, &told) {
		return err
	}
	return stop{exitTool, err}
}

// told prints an error that has not been told and returns the exit code. Any
// error without a code comes from reading the command line.
func told(to io.Writer, err error) int {
	if err == nil {
		return exitPass
	}
	s := stop{exitInput, err}
	errors.As(err, &s)
	if s.err != nil {
		fmt.Fprintf(to, "boxwalk: %v\n", s.err)
	}
	return s.code
}
