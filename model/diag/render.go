package diag

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"unicode"
)

// window is the most characters of a source line that are shown.
const window = 100

// Render writes the problems sorted and without repetitions, each as
//
//	job.yaml:4:9: error: culvert.span: 0 m is not above 0 mm
//	    4 |   span: 0 m
//	      |         ^^^
//	  a span of zero leaves no room
//	  write for example 3.0 m
//
// The source line comes from the problem or, by file name, from sources; it is
// left out where neither has it. Detail and fix are left out when empty. Control
// characters in any part are shown as a replacement mark, so that a file cannot
// drive the terminal. The error is that of w.
func (p Problems) Render(w io.Writer, sources map[string][]byte) error {
	var out bytes.Buffer
	for _, one := range p.Sorted() {
		one.render(&out, sources)
	}
	_, err := w.Write(out.Bytes())
	return err
}

func (p Problem) render(out *bytes.Buffer, sources map[string][]byte) {
	fmt.Fprintln(out, visible(p.head()))
	if line, ok := p.sourceLine(sources); ok {
		shown, indent, width := excerpt(line, p.Column, p.Width)
		fmt.Fprintf(out, "%5d | %s\n", p.Line, shown)
		if p.Column > 0 {
			fmt.Fprintf(out, "      | %s%s\n", strings.Repeat(" ", indent), strings.Repeat("^", width))
		}
	}
	for _, text := range []string{p.Detail, p.Fix} {
		if text != "" {
			fmt.Fprintln(out, "  "+visible(text))
		}
	}
}

// sourceLine finds the line that the problem is in.
func (p Problem) sourceLine(sources map[string][]byte) (string, bool) {
	if p.Line <= 0 {
		return "", false
	}
	if p.Source != "" {
		return p.Source, true
	}
	return Line(sources[p.File], p.Line)
}

// Line returns line n (from one) of a text without its line ending. A line
// ends with LF, CR LF or CR, as in YAML.
func Line(text []byte, n int) (string, bool) {
	for ; n > 1; n-- {
		end := bytes.IndexAny(text, "\r\n")
		if end < 0 {
			return "", false
		}
		text = text[end+endingLength(text[end:]):]
	}
	if end := bytes.IndexAny(text, "\r\n"); end >= 0 {
		text = text[:end]
	}
	return string(text), len(text) > 0
}

func endingLength(text []byte) int {
	if bytes.HasPrefix(text, []byte("\r\n")) {
		return 2
	}
	return 1
}

// excerpt cuts a long line down to a window around the column and returns it
// with the indent and the width of the mark below it, in characters.
func excerpt(line string, column, width int) (shown string, indent, marks int) {
	runes := []rune(visible(line))
	at := max(0, min(column-1, len(runes)))
	from := 0
	if len(runes) > window {
		from = max(0, min(at-window/2, len(runes)-window))
	}
	to := min(len(runes), from+window)
	marks = max(1, min(width, to-at))
	shown, indent = string(runes[from:to]), at-from
	if from > 0 {
		shown, indent = "…"+shown, indent+1
	}
	if to < len(runes) {
		shown += "…"
	}
	return shown, indent, marks
}

// visible replaces what would move the cursor, reorder the line or hide in it,
// one character for one, so that columns stay true.
func visible(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t':
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Cf, r), r == '\u2028', r == '\u2029':
			return unicode.ReplacementChar
		}
		return r
	}, strings.ToValidUTF8(text, string(unicode.ReplacementChar)))
}
