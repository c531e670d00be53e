package sheet

import (
	"fmt"
	"strings"
	"testing"
)

// eightCautions are as many, and as long, as the tool itself prints.
var eightCautions = append(append([]string(nil), someCautions...),
	"Filler pieces are secured before they are unbolted.",
	"Wall panels press inward once the bond breaks: never pull the last brace pin.",
	"Restraint on and wheels chocked before jack plates leave the invert.",
	"Inspect before, during and after placing.")

func TestHeadingsOfNotesKeepClearOfTheListsAboveAndBelow(t *testing.T) {
	headings := 0
	for cautions := range len(eightCautions) + 1 {
		for notes := range 4 {
			everySheet(func(name string, s *Sheet) {
				s.Cautions = eightCautions[:cautions]
				for i := range notes {
					s.Notes = append(s.Notes, fmt.Sprintf("Note %d says (typically, gq) what the views cannot show.", i+1))
				}
				name = fmt.Sprintf("%s, %d cautions, %d notes", name, cautions, notes)
				headings += clearHeadings(t, name, s)
				for _, o := range Overlaps(s) {
					t.Errorf("%s: %v", name, o)
				}
			})
		}
	}
	if headings == 0 {
		t.Error("no heading was looked at")
	}
}

// clearHeadings holds every heading to a quarter of a letter height from all
// other lettering and counts them.
func clearHeadings(t *testing.T, name string, s *Sheet) (count int) {
	t.Helper()
	l, err := s.Layout()
	if err != nil {
		return 0
	}
	items := l.notes.items(l.Notes, s.LetteringHeight())
	for i, a := range items {
		heading := a.(Text)
		if heading.Height <= s.LetteringHeight() {
			continue
		}
		count++
		for k, b := range items {
			if other := b.(Text); i != k && apart(heading.Outline(), other.Outline()) < s.LetteringHeight()/4 {
				t.Errorf("%s: %q is %.2f mm from %q", name, heading.Lines[0], apart(heading.Outline(), other.Outline()), strings.Join(other.Lines, " "))
			}
		}
	}
	return count
}

func TestASentenceWithoutTextTakesNoRoomAndDoesNoHarm(t *testing.T) {
	s := &Sheet{Cautions: []string{"Mind the step.", "", "  "}, Notes: []string{""}}
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	if o := Overlaps(s); len(o) != 0 {
		t.Errorf("%v", o)
	}
}

// A copy takes over how the notes are broken, of another lettering too.
func TestASheetWithoutViewsHasTheLayoutOfTheFirst(t *testing.T) {
	s := &Sheet{Paper: A3, Cautions: someCautions}
	for _, lettering := range []float64{0, 3.5, 0} {
		c, plain := s.WithoutViews(), Sheet{Paper: A3, Cautions: someCautions, Lettering: lettering}
		c.Lettering = lettering
		got, err1 := c.Layout()
		want, err2 := plain.Layout()
		if err1 != nil || err2 != nil || got.Notes != want.Notes || len(got.notes.columns) != len(want.notes.columns) {
			t.Errorf("lettering %g: notes in %v, want %v (%v, %v)", lettering, got.Notes, want.Notes, err1, err2)
		}
	}
}
