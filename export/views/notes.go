package views

import (
	"fmt"
	"slices"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
)

// noteWidth is the width of a block of notes beside a section, letter heights.
const noteWidth = 34

// beside letters numbered notes below a table, in one view.
func beside(s *sheet.Sheet, table *sheet.View, notes []string) *sheet.View {
	h := s.LetteringHeight()
	b := table.Extents()
	width := max(b.Width(), noteWidth*h)
	y := b.Min[1] - 3*h
	for i, note := range notes {
		lines := sheet.Wrap(note, h, width-3*h)
		table.Text(sheet.Pt(0, y), sheet.TopLeft, fmt.Sprintf("%d.", i+1))
		table.Text(sheet.Pt(3*h, y), sheet.TopLeft, lines...)
		y -= (float64(len(lines))*sheet.LinePitch + 0.5) * h
	}
	return table
}

// withWords are the notes of a sheet and, where its texts use words of the trade that
// have another name elsewhere, a last one with those names.
func withWords(notes, texts []string) []string {
	words := result.Twins(strings.Join(texts, " "))
	if words == "" {
		return notes
	}
	return append(slices.Clone(notes), words)
}
