package views

import (
	"slices"
	"strings"

	"boxwalk/export/sheet"
)

// holds is the list of hold points of collapsing, raising and rolling, each once, in
// the order they come, with room to sign.
func (o *drafter) holds() List {
	var rows [][]string
	add := func(before string, holds []string) {
		for _, h := range holds {
			row := []string{before, withoutBlanks(h), "", toSign, "", toSign}
			if !slices.ContainsFunc(rows, func(have []string) bool { return slices.Equal(have, row) }) {
				rows = append(rows, row)
			}
		}
	}
	for _, r := range o.result.Steps {
		add(r.Name, r.Hold)
	}
	for _, r := range o.result.Rolling {
		add("rolling", r.Hold)
	}
	for _, r := range o.result.Raising {
		add("raising", r.Hold)
	}
	return List{Name: "hold-points", Title: "Hold points", Kind: "Hold points", Rows: rows, Notes: withWords(holdNotes, slices.Concat(rows...)),
		Columns: []sheet.Column{{Title: "Before", Width: 42}, {Title: "Hold point", Width: 120}, {Title: "Cell, pour", Width: 28}, {Title: "Name", Width: 45}, {Title: "Date and hour", Width: 38}, {Title: "Signature", Width: 45}}}
}

// toSign is a line to write a name on, which keeps its column wide enough.
const toSign = "___________"

// holdNotes say what to do with the sheet.
var holdNotes = []string{
	"One copy of this sheet is signed for every pour of every cell. A hold point that is not signed stops what comes behind it.",
	"Each is told again where it stands in the sequence; steps.txt has them pour by pour.",
}

// withoutBlanks is a hold point without the places to fill in that have columns of
// their own.
func withoutBlanks(hold string) string {
	for _, ending := range []string{"seen by (name): ______", "by (name): ______", "date and hour: ______ released by (name, signature): ______"} {
		hold = strings.TrimRight(strings.TrimSuffix(hold, ending), ",; ")
	}
	return hold
}
