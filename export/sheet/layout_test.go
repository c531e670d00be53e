package sheet

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
)

var someCautions = []string{
	"Check before use by a qualified engineer; local codes, the project specification and the engineer of record govern.",
	"Do not release until the strength or time shown is confirmed in writing.",
	"Before the wheels carry: only named persons at marked stations, outside panel swing and filler drop; one signaller; no screw jack ahead of any other by more than 2.5 mm.",
	"While rolling: nobody between carrier and concrete or in the snap-back zone of the pulling line or restraint.",
}

func TestDrawingSpacesAreThoseOfISO5457(t *testing.T) {
	for paper, want := range map[Paper][2]float64{A0: {1159, 821}, A1: {811, 574}, A2: {564, 400}, A3: {390, 277}, A4: {267, 190}} {
		if got := paper.DrawingSpace(); got.Width() != want[0] || got.Height() != want[1] {
			t.Errorf("%s: %v x %v, want %v", paper.Name(), got.Width(), got.Height(), want)
		}
	}
}

func TestGridFieldsAreAsManyAsISO5457Has(t *testing.T) {
	for paper, want := range map[Paper][2]int{A0: {24, 16}, A1: {16, 12}, A2: {12, 8}, A3: {8, 6}, A4: {6, 4}} {
		numerals, letters := map[string]int{}, map[string]int{}
		for _, i := range paper.frameItems() {
			if text, ok := i.(Text); ok {
				if text.Lines[0] >= "A" {
					letters[text.Lines[0]]++
				} else {
					numerals[text.Lines[0]]++
				}
			}
		}
		if len(numerals) != want[0] || len(letters) != want[1] || letters["I"]+letters["O"] > 0 || letters["A"] != 2 || numerals["1"] != 2 {
			t.Errorf("%s has %d x %d fields, want %v", paper.Name(), len(numerals), len(letters), want)
		}
	}
}

func everySheet(f func(name string, s *Sheet)) {
	for p := range paperCount {
		for _, place := range []NotesPlace{NotesAuto, NotesBeside, NotesOver, NotesRight} {
			for _, stamp := range []string{"", "NOT CLEARED"} {
				s := &Sheet{Paper: p, NotesAt: place, Stamp: stamp, StampReason: "1 check fails", Cautions: someCautions, Footer: "boxwalk 1"}
				f(fmt.Sprintf("%s, place %d, stamp %q", p.Name(), place, stamp), s)
			}
		}
	}
}

func TestAreasOfTheSheetAreApart(t *testing.T) {
	everySheet(func(name string, s *Sheet) {
		l, err := s.Layout()
		if err != nil {
			t.Errorf("%s: %v", name, err)
			return
		}
		areas := []Box{l.Title, l.Notes, l.Stamp, l.Views}
		for i, a := range areas {
			if a.Empty() {
				continue
			}
			if !l.Frame.Holds(a) {
				t.Errorf("%s: area %d leaves the frame", name, i)
			}
			for _, b := range areas[i+1:] {
				if !b.Empty() && apart(a.corners(), b.corners()) < 0 {
					t.Errorf("%s: %v overlaps %v", name, a, b)
				}
			}
		}
	})
}

func TestEveryCautionIsPrintedInFullInsideItsArea(t *testing.T) {
	everySheet(func(name string, s *Sheet) {
		l, _ := s.Layout()
		var printed []string
		for _, i := range s.Furniture() {
			text, ok := i.(Text)
			if !ok || !l.Notes.Holds(EmptyBox().Grow(text.Outline()...)) {
				continue
			}
			printed = append(printed, text.Lines...)
		}
		all := strings.Join(printed, " ")
		for _, c := range someCautions {
			for _, word := range strings.Fields(c) {
				if !strings.Contains(all, word) {
					t.Errorf("%s: %q of %q is not printed inside the notes area", name, word, c)
				}
			}
		}
	})
}

func TestTheSheetsOwnLetteringIsClean(t *testing.T) {
	everySheet(func(name string, s *Sheet) {
		s.Title = Title{Owner: "Contractor", Number: "J-1", Title: strings.Repeat("long title ", 30), Creator: strings.Repeat("W", 300), Date: "2026-03-01",
			Sheet: 1, Sheets: 99, DocumentType: "Setup drawing"}
		for _, o := range Overlaps(s) {
			t.Errorf("%s: %v", name, o)
		}
	})
}

func TestCautionsAreRefusedRatherThanCut(t *testing.T) {
	s := &Sheet{Paper: A4, Cautions: []string{strings.Repeat("Never stand under the roof panel. ", 400)}}
	if err := s.Check(); !errors.Is(err, ErrNoRoom) {
		t.Errorf("got %v", err)
	}
	if err := s.Add(NewView("v")).Arrange(); !errors.Is(err, ErrNoRoom) {
		t.Errorf("Arrange: got %v", err)
	}
}

func TestTheStampIsPrintedInItsOwnBandAndInTheTitleBlock(t *testing.T) {
	s := &Sheet{Stamp: "Not cleared"}
	l, err := s.Layout()
	if err != nil {
		t.Fatal(err)
	}
	large, status := 0.0, false
	for _, i := range s.Furniture() {
		if text, ok := i.(Text); ok && strings.Join(text.Lines, " ") == "NOT CLEARED" {
			box := EmptyBox().Grow(text.Outline()...)
			if l.Stamp.Holds(box) {
				large = math.Max(large, text.Height)
			}
			status = status || l.Title.Holds(box)
		}
	}
	if large < 10 || !status {
		t.Errorf("stamp %v mm high, in the title block: %v", large, status)
	}
}

func TestFilesFooterAndTitleReachTheTitleBlock(t *testing.T) {
	s := &Sheet{Footer: "boxwalk 1.2.3 abc123", Title: Title{Number: "J-77", Sheet: 3, Sheets: 8, Date: "2026-03-01", Revision: "B"}}
	all := ""
	for _, i := range s.Furniture() {
		if text, ok := i.(Text); ok {
			all += strings.Join(text.Lines, " ") + "\n"
		}
	}
	for _, want := range []string{"boxwalk 1.2.3 abc123", "J-77", "3 of 8", "2026-03-01", "B"} {
		if !strings.Contains(all, want+"\n") {
			t.Errorf("%q is not printed", want)
		}
	}
}

// What is a millimetre larger than the room, either way, has no place; what is smaller
// by the gaps around a view has one of both, if not in both directions at once.
func TestWhatIsLargerThanTheRoomIsNotArranged(t *testing.T) {
	everySheet(func(name string, s *Sheet) {
		width, height := s.Room()
		for _, c := range []struct {
			w, h float64
			fits bool
		}{{width + 1, 10, false}, {10, height + 1, false}, {width - 2*viewGap - 1, 1, true}} {
			trial := s.WithoutViews()
			v := NewView("")
			v.Scale, v.NoScale = 1, true
			v.Line(General, Pt(0, 0), Pt(c.w, c.h))
			if err := trial.Add(v).Arrange(); (err == nil) != c.fits {
				t.Errorf("%s: %g x %g of %g x %g: %v", name, c.w, c.h, width, height, err)
			}
		}
	})
}
