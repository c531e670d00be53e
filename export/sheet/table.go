package sheet

import "math"

// Column is one column of a table.
type Column struct {
	Title string
	Right bool // numbers stand at the right
}

const tablePad = 1.2 // mm beside lettering

// Table makes a view with a ruled table in mm of paper. Columns are as wide as
// their widest entry. Rows may be short; what is beyond the columns is dropped.
func (s *Sheet) Table(title string, columns []Column, rows [][]string) *View {
	h := s.LetteringHeight()
	widths := columnWidths(columns, rows, h)
	v := &View{Title: title, Scale: 1, NoScale: true}
	pitch := 2 * h
	depth := pitch * float64(len(rows)+1)
	x := 0.0
	for c, col := range columns {
		v.column(col, widths[c], x, h, c, rows)
		v.Line(General, Pt(x, 0), Pt(x, -depth))
		x += widths[c]
	}
	for r := range len(rows) + 2 {
		y := -pitch * float64(max(0, r))
		v.Line(General, Pt(0, y), Pt(x, y))
	}
	v.Line(General, Pt(x, 0), Pt(x, -depth))
	v.Line(Concrete, Pt(0, -pitch), Pt(x, -pitch))
	return v
}

func columnWidths(columns []Column, rows [][]string, h float64) []float64 {
	widths := make([]float64, len(columns))
	for c, col := range columns {
		widths[c] = TextWidth(Clean(col.Title), h)
		for _, row := range rows {
			if c < len(row) {
				widths[c] = math.Max(widths[c], TextWidth(Clean(row[c]), h))
			}
		}
		widths[c] += 2 * tablePad
	}
	return widths
}

func (v *View) column(col Column, width, x, h float64, c int, rows [][]string) {
	entry := func(r int, text string) {
		if text = Clean(text); text == "" {
			return
		}
		at, anchor := Pt(x+tablePad, -2*h*float64(r)-h), MiddleLeft
		if col.Right {
			at[0], anchor = x+width-tablePad, MiddleRight
		}
		v.Text(at, anchor, text)
	}
	entry(0, col.Title)
	for r, row := range rows {
		if c < len(row) {
			entry(r+1, row[c])
		}
	}
}
