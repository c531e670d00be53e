package sheet

import (
	"cmp"
	"errors"
	"math"
	"slices"
)

// NotesPlace says where cautions and notes stand.
type NotesPlace uint8

const (
	NotesAuto   NotesPlace = iota // whatever leaves the views most room
	NotesBeside                   // at the bottom, left of the title block
	NotesOver                     // at the bottom, over the title block, full width
	NotesRight                    // at the right, over the title block
)

// Layout is how the drawing space is shared out, mm of paper. No two areas
// overlap. Stamp and Notes are empty when there is nothing to print in them.
type Layout struct {
	Frame, Title, Notes, Stamp, Views Box
	notes                             notesBlock
	place                             NotesPlace
}

const leastViewSide = 40.0 // mm; with less left for the views the sheet is too small

// ErrNoRoom says that the notes and cautions leave no room for the drawing.
var ErrNoRoom = errors.New("sheet: cautions and notes leave no room for the views; take a larger sheet or fewer notes")

// Layout shares out the drawing space. It fails rather than cut a caution.
func (s *Sheet) Layout() (Layout, error) {
	all := s.layouts()
	if len(all) == 0 {
		return Layout{}, ErrNoRoom
	}
	return all[0], nil
}

// Room is the greatest width and height, mm of paper, that any layout leaves for
// views: what is larger than either cannot be arranged. Zero is no room at all.
func (s *Sheet) Room() (width, height float64) {
	for _, l := range s.layouts() {
		width, height = math.Max(width, l.Views.Width()), math.Max(height, l.Views.Height())
	}
	return width, height
}

// layouts are those possible, the one with most room for views first.
func (s *Sheet) layouts() []Layout {
	places := []NotesPlace{NotesBeside, NotesOver, NotesRight}
	if s.NotesAt != NotesAuto {
		places = []NotesPlace{s.NotesAt}
	}
	var all []Layout
	for _, place := range places {
		if l := s.layoutWith(place); l.score() > 0 {
			all = append(all, l)
		}
	}
	slices.SortStableFunc(all, func(a, b Layout) int { return cmp.Compare(b.score(), a.score()) })
	return all
}

// score is the useful area for views: long strips count for less.
func (l Layout) score() float64 {
	w, h := l.Views.Width(), l.Views.Height()
	if least := math.Min(w, h); least >= leastViewSide {
		return w * h * math.Min(1, 2*least/math.Max(w, h))
	}
	return 0
}

func (s *Sheet) layoutWith(place NotesPlace) Layout {
	space := s.Paper.DrawingSpace()
	l := Layout{place: place, Frame: space, Stamp: EmptyBox(), Notes: EmptyBox()}
	if s.Stamp != "" {
		l.Stamp = Box{Point{space.Min[0], space.Max[1] - s.stampDepth()}, space.Max}
		space.Max[1] = l.Stamp.Min[1]
	}
	l.Title = Box{Point{space.Max[0] - titleWidth, space.Min[1]}, Point{space.Max[0], space.Min[1] + titleDepth}}
	l.Views = space
	if len(s.Cautions)+len(s.Notes) == 0 {
		l.Views.Min[1] = l.Title.Max[1]
		return l
	}
	switch place {
	case NotesOver:
		l.notesOver(s, space)
	case NotesRight:
		l.notesRight(s, space)
	default:
		l.notesBeside(s, space)
	}
	return l
}

func (l *Layout) notesBeside(s *Sheet, space Box) {
	l.notes = s.notesBlock(l.Title.Min[0] - space.Min[0])
	top := space.Min[1] + math.Max(titleDepth, l.notes.depth)
	l.Notes = Box{space.Min, Point{l.Title.Min[0], top}}
	l.Views.Min[1] = top
}

func (l *Layout) notesOver(s *Sheet, space Box) {
	l.notes = s.notesBlock(space.Width())
	l.Notes = Box{Point{space.Min[0], l.Title.Max[1]}, Point{space.Max[0], l.Title.Max[1] + l.notes.depth}}
	l.Views.Min[1] = l.Notes.Max[1]
}

func (l *Layout) notesRight(s *Sheet, space Box) {
	l.notes = s.notesBlock(titleWidth)
	l.Notes = Box{Point{l.Title.Min[0], l.Title.Max[1]}, space.Max}
	l.Views.Max[0] = l.Title.Min[0]
	if l.notes.depth > l.Notes.Height() {
		l.Views = Box{} // no room
	}
}
