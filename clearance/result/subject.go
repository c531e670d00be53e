package result

import (
	"fmt"
	"strings"

	"boxwalk/model/culvert"
)

// Subject is what an entry is about. Fields that say nothing are empty, and left out of JSON.
type Subject struct {
	Cell int          `json:"cell"`
	Pour int          `json:"pour"`
	Step string       `json:"step,omitempty"` // of the collapse, or of raising
	Zone culvert.Zone `json:"zone,omitempty"`
	What string       `json:"what,omitempty"` // a part, a place or a measure of the carrier: "form length"
	Kind string       `json:"kind,omitempty"` // which of several: "seams", "hanger nut", "collapsed"
}

// Collapsed is the kind of what holds at the end of the collapse.
const Collapsed = "collapsed"

// In is the subject in a step.
func (s Subject) In(step string) Subject { s.Step = step; return s }

// At is the subject at a zone.
func (s Subject) At(z culvert.Zone) Subject { s.Zone = z; return s }

// As is the subject of a kind.
func (s Subject) As(kind string) Subject { s.Kind = kind; return s }

// From is the subject at another cell and pour.
func (s Subject) From(cell, pour int) Subject { s.Cell, s.Pour = cell, pour; return s }

// Rest is the subject in words beyond cell and pour.
func (s Subject) Rest() string {
	var words []string
	for _, w := range [4]string{s.Step, s.Zone.Words(), s.What, s.Kind} {
		if w != "" {
			words = append(words, w)
		}
	}
	return strings.Join(words, ", ")
}

// String is the subject in words: "cell 1, pour 2, down, wall".
func (s Subject) String() string {
	if s.Cell == 0 {
		return s.Rest()
	}
	return strings.TrimSuffix(fmt.Sprintf("cell %d, pour %d, %s", s.Cell, s.Pour, s.Rest()), ", ")
}
