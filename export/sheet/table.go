package sheet

import "math"

// Column is one column of a table.
type Column struct {
	Title string
	Right bool // numbers stand at the right
	// Width is the width of the column, mm of paper; longer entries are broken
	// into lines. Zero makes it as wide as its widest entry.
	Width float64
}

const tablePad = 1.2 // mm beside lettering

// Emphasis is how a row of a table stands out.
type Emphasis uint8

const (
	Plain Emphasis = iota
	Sum            // framed wide: it sums up other rows
	Alarm          // framed wider and lettered like the stamp: it does not pass
)

// layers of the lettering and of the frame, which is drawn for all but Plain.
func (e Emphasis) layers() (text, frame Layer) {
	return [...]Layer{Notes, Notes, StampMark}[min(e, Alarm)], [...]Layer{General, Concrete, StampMark}[min(e, Alarm)]
}

// Table makes a view with a ruled table in mm of paper. Rows may be short; what
// is beyond the columns is dropped. The first rows may be given an emphasis each.
func (s *Sheet) Table(title string, columns []Column, rows [][]string, emphasis ...Emphasis) *View {
	h := s.LetteringHeight()
	t := table{view: &View{Title: title, Scale: 1, NoScale: true}, h: h, columns: columns, widths: columnWidths(columns, rows, h)}
	for _, w := range t.widths {
		t.width += w
	}
	titles := make([]string, len(columns))
	for c, col := range columns {
		titles[c] = col.Title
	}
	t.rule(General)
	t.row(titles, Notes)
	t.rule(Concrete)
	for r, row := range rows {
		e := Plain
		if r < len(emphasis) {
			e = emphasis[r]
		}
		t.body(row, e)
	}
	x := 0.0
	for _, w := range append([]float64{0}, t.widths...) {
		x += w
		t.view.Line(General, Pt(x, 0), Pt(x, t.y))
	}
	return t.view
}

// Fixed gives columns the widths that all rows together need, none wider than
// its Width where it has one, so that a table divided over several sheets keeps
// its columns.
func (s *Sheet) Fixed(columns []Column, rows [][]string) []Column {
	out := append([]Column(nil), columns...)
	free := append([]Column(nil), columns...)
	for c := range free {
		free[c].Width = 0
	}
	for c, w := range columnWidths(free, rows, s.LetteringHeight()) {
		if out[c].Width <= 0 || w < out[c].Width {
			out[c].Width = w
		}
	}
	return out
}

func columnWidths(columns []Column, rows [][]string, h float64) []float64 {
	widths := make([]float64, len(columns))
	for c, col := range columns {
		if col.Width > 0 {
			widths[c] = col.Width
			continue
		}
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

// table is one being drawn from the top down; y is where it has come to.
type table struct {
	view    *View
	h       float64
	columns []Column
	widths  []float64
	width   float64
	y       float64
}

func (t *table) rule(on Layer) { t.view.Line(on, Pt(0, t.y), Pt(t.width, t.y)) }

// body is one row with the rule below it.
func (t *table) body(row []string, e Emphasis) {
	top := t.y
	text, frame := e.layers()
	t.row(row, text)
	t.rule(General)
	if e != Plain {
		t.view.Rect(frame, Pt(0, top), Pt(t.width, t.y))
	}
}

// row letters one row and moves down past it.
func (t *table) row(row []string, on Layer) {
	deepest, x := 1, 0.0
	for c, col := range t.columns {
		if c < len(row) {
			lines := t.lines(row[c], c)
			deepest = max(deepest, len(lines))
			t.entry(lines, col.Right, x, t.widths[c], on)
		}
		x += t.widths[c]
	}
	t.y -= t.h * (2 + LinePitch*float64(deepest-1))
}

// lines of an entry; an entry of a column without a set width is one line.
func (t *table) lines(text string, c int) []string {
	room := t.widths[c] - 2*tablePad
	if text = Clean(text); text == "" || TextWidth(text, t.h) <= room+1e-9 {
		return []string{text}
	}
	return Wrap(text, t.h, room)
}

func (t *table) entry(lines []string, right bool, x, width float64, on Layer) {
	if len(lines) == 0 || lines[0] == "" {
		return
	}
	at, anchor := Pt(x+tablePad, t.y-t.h/2), TopLeft
	if right {
		at[0], anchor = x+width-tablePad, TopRight
	}
	if len(lines) == 1 {
		// one line keeps its middle in the middle of the row
		at[1] -= t.h / 2
		anchor -= TopLeft - MiddleLeft
	}
	t.view.Add(Text{On: on, At: at, Anchor: anchor, Lines: lines})
}
