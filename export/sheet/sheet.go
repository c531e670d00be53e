// Package sheet describes a two-dimensional drawing sheet: paper, frame, title
// block, cautions and views. It is one front end to many writers (DXF, SVG,
// PDF) and does no input or output.
//
// Everything inside a View is in millimetres of the real thing (x right, y up);
// everything that Furniture and Flat return is in millimetres of paper (origin at
// the lower left corner of the trimmed sheet, y up). Lettering is always
// measured in millimetres of paper, whatever the scale of the view.
package sheet

import "github.com/go-gl/mathgl/mgl64"

// Point is a place on the sheet or in a view, millimetres, y up.
type Point = mgl64.Vec2

// Pt is short for Point{x, y}.
func Pt(x, y float64) Point { return Point{x, y} }

// Sheet is one drawing sheet.
type Sheet struct {
	Paper Paper
	Title Title
	Units Units
	// Lettering is the nominal height of dimension and note lettering in mm
	// (ISO 3098: 1.8 2.5 3.5 5 7 10 14 20). Zero takes 3.5 on the largest
	// sheets and 2.5 on the others.
	Lettering float64
	// Cautions are printed, numbered and never shortened, in the notes area.
	Cautions []string
	// Notes follow the cautions under a heading of their own.
	Notes   []string
	NotesAt NotesPlace
	// Stamp is printed large in a band reserved for it, so that it can cover
	// nothing: "NOT CLEARED". Empty prints no band. StampReason stands beside it.
	Stamp       string
	StampReason string
	// Footer carries tool version and input hash.
	Footer string
	Views  []*View
	// LayerNames maps our layers to an office's own names; layers not in it
	// keep the ISO 13567 style name.
	LayerNames map[Layer]string

	blocks map[[2]float64]notesBlock // by area and lettering, see WithoutViews
}

// Title is what the title block says; the fields are those of ISO 7200.
type Title struct {
	Owner        string // legal owner of the document
	Number       string // identification number
	Title        string
	Supplement   string // supplementary title
	Creator      string
	Approver     string
	Date         string // date of issue as the job file gives it; never the clock
	Revision     string
	Sheet        int // this sheet
	Sheets       int // of so many
	DocumentType string
	Status       string // document status; empty takes the stamp
}

// WithoutViews is a copy of the sheet that has no views, for the next of many trials.
// Cautions and notes must stay as they are: copies share how these are broken into
// lines, and are not for several goroutines at once.
func (s *Sheet) WithoutViews() *Sheet {
	if s.blocks == nil {
		s.blocks = map[[2]float64]notesBlock{}
	}
	c := *s
	c.Views = nil
	return &c
}

// Add appends views and returns the sheet.
func (s *Sheet) Add(views ...*View) *Sheet {
	s.Views = append(s.Views, views...)
	return s
}

// LetteringHeight is the height of dimension and note lettering, mm of paper.
func (s *Sheet) LetteringHeight() float64 {
	if s.Lettering > 0 {
		return s.Lettering
	}
	return s.Paper.lettering()
}
