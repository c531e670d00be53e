package table

import (
	"strings"
	"unicode/utf8"

	"boxwalk/model/units"
)

// wrapped breaks a text at blanks into lines of at most width characters; a
// longer word stands alone on its line.
func wrapped(text string, width int) []string {
	var lines []string
	line := ""
	for _, word := range units.Words(text) {
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) <= width:
			line += " " + word
		default:
			lines = append(lines, line)
			line = word
		}
	}
	if line != "" || lines == nil {
		lines = append(lines, line)
	}
	return lines
}

// hung writes a paragraph behind a head: the first line after it, the others
// indented to the same column.
func hung(head, text string, width int) string {
	indent := utf8.RuneCountInString(head)
	return head + strings.Join(wrapped(text, max(20, width-indent)), "\n"+strings.Repeat(" ", indent)) + "\n"
}

// padded fills a text with blanks: behind it, or before it for a number.
func padded(text string, width int, number bool) string {
	blanks := strings.Repeat(" ", max(0, width-utf8.RuneCountInString(text)))
	if number {
		return blanks + text
	}
	return text + blanks
}

// grid is a table with one column that wraps; the others are as wide as their
// widest cell.
type grid struct {
	numeric []bool // right-aligned columns
	wraps   int    // the column that gives way; -1 for none
	rows    [][]string
}

// gutter is the space between two columns.
const gutter = "  "

// lines lays the rows out, none wider than width as long as the wrapping
// column has room.
func (g grid) lines(width int) [][]string {
	w := g.widths(width)
	var out [][]string
	for _, row := range g.rows {
		cells := make([][]string, len(row))
		high := 1
		for i, text := range row {
			cells[i] = []string{text}
			if i == g.wraps {
				cells[i] = wrapped(text, w[i])
			}
			high = max(high, len(cells[i]))
		}
		var block []string
		for n := range high {
			block = append(block, g.line(cells, w, n))
		}
		out = append(out, block)
	}
	return out
}

func (g grid) line(cells [][]string, w []int, n int) string {
	parts := make([]string, len(cells))
	for i, c := range cells {
		text := ""
		if n < len(c) {
			text = c[n]
		}
		parts[i] = padded(text, w[i], g.numeric[i])
	}
	return strings.TrimRight(strings.Join(parts, gutter), " ")
}

func (g grid) widths(width int) []int {
	w := make([]int, len(g.numeric))
	total := len(gutter) * (len(w) - 1)
	for _, row := range g.rows {
		for i, text := range row {
			w[i] = max(w[i], utf8.RuneCountInString(text))
		}
	}
	for _, n := range w {
		total += n
	}
	if g.wraps >= 0 && total > width {
		w[g.wraps] = max(16, w[g.wraps]-(total-width))
	}
	return w
}
