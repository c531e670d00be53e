// Package diag holds problems that are tied to a place in a text file and
// writes them for the person who has to mend the file: where, what is wrong,
// the arithmetic, and a value that works.
package diag

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Place is a position in a file. Line and Column count from one; columns count
// characters, not bytes. Line 0 stands for the file as a whole.
type Place struct {
	File         string
	Line, Column int
}

// String returns file:line:column, or less where less is known.
func (p Place) String() string {
	switch {
	case p.Line == 0:
		return p.File
	case p.Column == 0:
		return fmt.Sprintf("%s:%d", p.File, p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

// Severity tells how much a problem matters. The zero value is Error, so that a
// problem nobody graded stops the work.
type Severity uint8

// The severities. Only an Error makes the input unusable.
const (
	Error Severity = iota
	Warning
	Note
)

// String returns error, warning or note.
func (s Severity) String() string {
	return [...]string{"error", "warning", "note"}[min(s, Note)]
}

// Problem is one thing to mend or to know, from whoever finds it to the person
// who is told. What is found in values that were read has a Key and no place in
// a text yet; the reader of that text puts it there.
type Problem struct {
	Place
	// Key is the path of the value at fault, as in links[2].length.max: in its
	// file, or in the group that was looked at. It is empty where Place says it.
	Key      string
	Severity Severity
	// Summary says what is wrong in one line, with the key, the value and the
	// limit.
	Summary string
	// Detail holds the arithmetic, where there is any.
	Detail string
	// Fix is what to write instead: a value that works.
	Fix string
	// Source is the line of the file at Place; when it is empty Render takes the
	// line from its sources.
	Source string
	// Width is how many characters are wrong, from Place on; 0 counts as 1.
	Width int
}

// Error returns the problem in one line, for use as a Go error.
func (p Problem) Error() string {
	text := p.head()
	if p.Detail != "" {
		text += " (" + p.Detail + ")"
	}
	if p.Fix != "" {
		text += "; " + p.Fix
	}
	return text
}

// head is the first line: place, severity and summary.
func (p Problem) head() string {
	place := p.Place.String()
	if place != "" {
		place += ": "
	}
	key := p.Key
	if key != "" {
		key += ": "
	}
	return place + p.Severity.String() + ": " + key + p.Summary
}

// Problems is a list of problems. As a Go error it is all of them; use Err to
// get nil for a list without errors.
type Problems []Problem

// Error returns one line for each problem, in order of place.
func (p Problems) Error() string {
	lines := make([]string, 0, len(p))
	for _, one := range p.Sorted() {
		lines = append(lines, one.Error())
	}
	return strings.Join(lines, "\n")
}

// Err returns the list as an error, or nil when nothing in it is an Error.
func (p Problems) Err() error {
	if p.HasErrors() {
		return p
	}
	return nil
}

// HasErrors tells whether any problem is an Error.
func (p Problems) HasErrors() bool {
	return slices.ContainsFunc(p, func(one Problem) bool { return one.Severity == Error })
}

// Below returns the problems of a group of keys as those of the file that has it
// below a key of its own.
func (p Problems) Below(file, key string) Problems {
	out := slices.Clone(p)
	for i := range out {
		at := &out[i]
		at.File = file
		switch {
		case at.Key == "":
			at.Key = key
		case at.Key[0] == '[':
			at.Key = key + at.Key
		case key != "":
			at.Key = key + "." + at.Key
		}
	}
	return out
}

// Sorted returns the problems in order of file, line and column, graver ones
// first at one place, without repetitions. The receiver is not changed.
func (p Problems) Sorted() Problems {
	sorted := slices.Clone(p)
	slices.SortStableFunc(sorted, compare)
	return slices.Compact(sorted)
}

func compare(a, b Problem) int {
	return cmp.Or(
		cmp.Compare(a.File, b.File),
		cmp.Compare(a.Line, b.Line),
		cmp.Compare(a.Column, b.Column),
		cmp.Compare(a.Severity, b.Severity),
		cmp.Compare(a.Key, b.Key),
		cmp.Compare(a.Summary, b.Summary),
		cmp.Compare(a.Detail, b.Detail),
		cmp.Compare(a.Fix, b.Fix),
	)
}
