package sheet

import (
	"fmt"
	"slices"
	"strings"
)

const (
	titleWidth    = 180.0 // ISO 7200: at most, so that it fits A4
	titleDepth    = 45.0
	captionHeight = 1.8
	cellPad       = 1.5
)

// cell is one field of the title block, placed from its lower left corner.
type cell struct {
	x, y, w, h     float64
	caption, value string
	most           float64 // largest lettering
}

func (s *Sheet) titleCells() []cell {
	t := s.Title
	status := t.Status
	if status == "" {
		status = strings.ToUpper(s.Stamp)
	}
	return []cell{
		{0, 0, 180, 5, "", s.Footer, 1.8},
		{0, 5, 42, 9, "Created by", t.Creator, 2.5},
		{42, 5, 42, 9, "Approved by", t.Approver, 2.5},
		{84, 5, 30, 9, "Date of issue", t.Date, 2.5},
		{114, 5, 14, 9, "Rev.", t.Revision, 3.5},
		{128, 5, 20, 9, "Sheet", t.sheetOf(), 2.5},
		{148, 5, 32, 9, "Scale", s.mainScale(), 2.5},
		{0, 14, 60, 12, "Legal owner", t.Owner, 3.5},
		{60, 14, 54, 12, "Document type", t.DocumentType, 3.5},
		{114, 14, 66, 12, "Identification number", t.Number, 5},
		{0, 26, 114, 8, "Supplementary title", t.Supplement, 2.5},
		{0, 34, 114, 11, "Title", t.Title, 5},
		{114, 26, 46, 19, "Document status", status, 5},
		{160, 26, 20, 19, "Paper, units", s.Paper.Name() + "\n" + s.unitName(), 2.5},
	}
}

func (s *Sheet) unitName() string {
	if s.Units.Imperial {
		return "ft, in"
	}
	return "mm"
}

func (t Title) sheetOf() string {
	if t.Sheet <= 0 {
		return ""
	}
	return fmt.Sprintf("%d of %d", t.Sheet, max(t.Sheet, t.Sheets))
}

// mainScale letters the scales of the views, that of the first one first, as
// ISO 5455 asks of a sheet with several; "none" where nothing is to scale.
func (s *Sheet) mainScale() string {
	var texts []string
	for _, v := range s.Views {
		if v.NoScale || v.Scale <= 0 {
			continue
		}
		if t := s.Units.ScaleText(v.Scale); !slices.Contains(texts, t) {
			texts = append(texts, t)
		}
	}
	if len(texts) == 0 {
		return "none"
	}
	return strings.Join(texts, "; ")
}

// titleItems draws the title block into its box.
func (s *Sheet) titleItems(box Box) []Item {
	out := []Item{Polyline{Frame, box.corners(), true}}
	for _, c := range s.titleCells() {
		out = append(out, c.items(box.Min)...)
	}
	return out
}

func (c cell) items(origin Point) []Item {
	box := Box{origin.Add(Pt(c.x, c.y)), origin.Add(Pt(c.x+c.w, c.y+c.h))}
	out := []Item{Polyline{FrameFields, box.corners(), true}}
	room := box.Inset(cellPad)
	if c.caption != "" {
		at := Point{room.Min[0], box.Max[1] - 0.8}
		out = append(out, Text{On: FrameText, At: at, Anchor: TopLeft, Height: captionHeight, Lines: []string{c.caption}})
		room.Max[1] = at[1] - 1.7*captionHeight
	}
	height, lines := fitText(c.value, c.most, room.Width(), c.depth(room))
	if len(lines) == 0 {
		return out
	}
	at := Point{room.Min[0], (room.Max[1] + box.Min[1] + descent*height) / 2}
	return append(out, Text{On: FrameText, At: at, Anchor: MiddleLeft, Height: height, Lines: lines})
}

// depth is what lettering may take: down to the rule below, with a little air.
func (c cell) depth(room Box) float64 { return room.Height() + cellPad - 0.5 }
