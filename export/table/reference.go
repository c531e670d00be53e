package table

import (
	"fmt"
	"io"
	"strings"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/model/units"
)

// Explanations writes what checks mean: when each holds, its formula, its
// limit and where that comes from.
func Explanations(w io.Writer, list []check.Check, width int) error {
	out := ""
	for i, e := range list {
		if i > 0 {
			out += "\n"
		}
		out += e.ID + "\n"
		for _, row := range [][2]string{{"holds when", e.Holds}, {"formula", e.Formula}, {"limit", e.Limit}, {"source", e.Source}} {
			out += hung("  "+padded(row[0], 12, false), row[1], min(Widest, max(Narrowest, width)))
		}
	}
	_, err := io.WriteString(w, out+words(out, min(Widest, max(Narrowest, width))))
	return err
}

// Digest writes one line or two for each check: its id and when it holds.
func Digest(w io.Writer, list []check.Check, width int) error {
	out := ""
	for _, e := range list {
		out += hung(padded(e.ID, 16, false), e.Holds, min(Widest, max(Narrowest, width)))
	}
	_, err := io.WriteString(w, out+words(out, min(Widest, max(Narrowest, width))))
	return err
}

// Words writes the other names of words that a text uses, where they have one.
func Words(w io.Writer, text string, width int) error {
	_, err := io.WriteString(w, words(text, min(Widest, max(Narrowest, width))))
	return err
}

// words is a paragraph that ends a document with the other names of its words.
func words(text string, width int) string {
	if twins := result.Twins(text); twins != "" {
		return "\n" + hung("", twins, width)
	}
	return ""
}

// LimitRow is one limit or tolerance for a list. The value is in Unit, a unit of
// the result.
type LimitRow struct {
	Key    string // key in the job file; empty where it is fixed
	Name   string
	Value  float64
	Unit   string
	Source string
	Words  string
}

// Limits writes a list of limits or tolerances under a heading.
func Limits(w io.Writer, heading string, list []LimitRow, s units.System, width int) error {
	g := grid{numeric: []bool{false, true, false}, wraps: 2}
	for _, l := range list {
		m := units.Shown(l.Unit, s)
		if abs := max(l.Value, -l.Value) * m.Times; abs > 0 && abs < 1 {
			m.Decimals++
		}
		name := l.Name
		if l.Key == "" {
			name += " (fixed)"
		}
		g.rows = append(g.rows, []string{name, strings.TrimSpace(m.Nearest(l.Value) + " " + m.Name), sourced(l.Words, l.Source)})
	}
	return listing(w, heading, g, width)
}

// DefaultRow is a number that a file need not state, as files write it.
type DefaultRow struct{ Key, Text, Source, Words string }

// Defaults writes a list of such numbers under a heading.
func Defaults(w io.Writer, heading string, list []DefaultRow, width int) error {
	g := grid{numeric: []bool{false, true, false}, wraps: 2}
	for _, d := range list {
		g.rows = append(g.rows, []string{d.Key, d.Text, sourced(strings.TrimSuffix(d.Words, "."), d.Source)})
	}
	return listing(w, heading, g, width)
}

// sourced is what a number means and where it comes from.
func sourced(words, source string) string { return words + " [" + source + "]" }

// listing writes the lines of a grid under a heading.
func listing(w io.Writer, heading string, g grid, width int) error {
	var out strings.Builder
	fmt.Fprintf(&out, "%s\n", heading)
	for _, block := range g.lines(min(Widest, max(Narrowest, width)) - 2) {
		for _, line := range block {
			out.WriteString("  " + line + "\n")
		}
	}
	_, err := io.WriteString(w, out.String())
	return err
}
