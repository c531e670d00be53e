package report

import (
	"fmt"
	"strings"

	"boxwalk/model/units"
)

// notChecked is what the verdict does not answer for, and who does; what is stated and
// not read; what was set looser.
func (w *writer) notChecked() []Block {
	r := w.result
	t := Table{Caption: "Duties of a release that this result leaves to others", Heads: []Head{{Title: "Duty", Share: 3}, {Title: "Who covers it", Share: 3}}}
	for _, d := range r.NotChecked {
		by := "nobody named: the engineer of record and whoever releases"
		var named []string
		for _, c := range d.CoveredBy {
			named = append(named, c.Check+": "+c.By)
		}
		if named != nil {
			by = strings.Join(named, "; ")
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: d.What}, {Text: by}}, Tone: Strong})
	}
	out := []Block{t}
	if len(r.NotRead) > 0 {
		out = append(out, Heading{ID: "not-read", Text: "Stated and read by no check"}, Bullets{r.NotRead})
	}
	out = append(out, Heading{ID: "looser", Text: "Set looser than the default"})
	if len(r.Looser) == 0 {
		return append(out, Paragraph{"Nothing.", Plain})
	}
	var list []string
	for _, l := range r.Looser {
		list = append(list, sentence(l.Text))
	}
	return append(out, Bullets{list})
}

// masses are what every carrier weighs, and how much of it is guessed.
func (w *writer) masses() []Block {
	t := Table{Caption: "Mass of each carrier", Heads: []Head{{Title: "Where", Share: 2}, {Title: "State", Share: 1}, {Title: "Least", Number: true, Share: 1}, {Title: "Most", Number: true, Share: 1}, {Title: "Guessed", Number: true, Share: 1}}}
	m := units.Shown("kg", w.system)
	for _, r := range w.result.Masses {
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: fmt.Sprintf("cell %d, pour %d", r.Cell, r.Pour)}, {Text: r.State}, {Text: m.With(m.Down(r.Mass.Lower))}, {Text: m.With(m.Up(r.Mass.Upper))}, {Text: fmt.Sprintf("%.0f %%", 100*r.Guessed)}}})
	}
	return []Block{Paragraph{"Checks take the most, and the worst place of the centre of gravity. Guessed is the share of the most that is neither stated nor worked out from a size; weigh before lifting.", Plain}, t}
}
