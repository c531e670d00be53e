package main

import (
	"fmt"
	"io"
	"os"
	"strconv"

	"boxwalk/export/table"
)

// onTerminal tells whether a stream is a terminal that a person looks at.
func onTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// colour tells whether to colour what goes to standard output: on a terminal
// only, and not where NO_COLOR (no-color.org) or TERM=dumb asks for none.
func (a *app) colour() bool {
	if v, ok := a.env("NO_COLOR"); ok && v != "" {
		return false
	}
	term, _ := a.env("TERM")
	return term != "dumb" && onTerminal(a.out)
}

// width is that of the terminal where the shell exports it, else the widest.
func (a *app) width() int {
	text, _ := a.env("COLUMNS")
	if n, err := strconv.Atoi(text); err == nil && n > 0 && onTerminal(a.out) {
		return n
	}
	return table.Widest
}

// progress returns what shows how far a check is, on one line that is written
// over, and what clears that line; nothing is shown off a terminal.
func (a *app) progress() (show func(done, of int), end func()) {
	if a.quiet || !onTerminal(a.err) {
		return nil, func() {}
	}
	return meter(a.err)
}

// meter writes a percentage whenever it changes. The check calls it from one
// worker at a time.
func meter(to io.Writer) (show func(done, of int), end func()) {
	last := -1
	show = func(done, of int) {
		if percent := 100 * done / max(1, of); percent != last {
			last = percent
			fmt.Fprintf(to, "\rchecking %3d %%", percent)
		}
	}
	return show, func() { fmt.Fprint(to, "\r\x1b[K") }
}
