package report

import (
	"fmt"
	"slices"
	"strings"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/model/units"
)

// checks are all entries, check by check: the governing one in full, the others in a
// table.
func (w *writer) checks() []Block {
	var out []Block
	for _, c := range check.Table() {
		var list []result.Entry
		for _, e := range w.result.Checks {
			if e.ID == c.ID {
				list = append(list, e)
			}
		}
		if len(list) > 0 {
			out = append(out, w.check(c, list)...)
		}
	}
	return out
}

// check is one check.
func (w *writer) check(c check.Check, list []result.Entry) []Block {
	e := list[0]
	out := []Block{
		Heading{ID: c.ID, Text: fmt.Sprintf("%s: %s", c.ID, e.Verdict), Tone: toneOf(e.Verdict)},
		Paragraph{c.Holds, Plain},
		Table{Caption: "What governs " + c.ID, Heads: entryHeads("Where"), Rows: []Row{w.entryRow(e, []result.Entry{e})}},
		Paragraph{sentence(e.Text), Plain},
	}
	if f := e.Where.First; f != nil {
		m := units.Shown(f.Unit, w.system)
		out = append(out, Paragraph{fmt.Sprintf("%s: clear from %s to %s, touches at %s.", f.Adjuster, m.Nearest(f.From), m.Nearest(f.Clear), m.With(m.Nearest(f.Hit))), Plain})
	}
	if e.Remedy != "" {
		out = append(out, Paragraph{"What usually fixes it, for the engineer to judge: " + e.Remedy + ".", Plain})
	}
	if len(e.Working) > 0 {
		out = append(out, w.working("Working of "+c.ID, &Shown{e.ID, []string{e.Subject.String()}}, e.Working))
	}
	out = append(out, Paragraph{"Limit from: " + e.Source + ".", Source})
	return append(out, w.others(list)...)
}

// working is in SI units, as formulas and their constants are; a job in others is told
// its own beside them.
func (w *writer) working(title string, of *Shown, lines []result.Line) Block {
	out := Working{Title: title, Of: of, Lines: lines}
	if w.system != units.Imperial {
		return out
	}
	out.Also = make([]string, len(lines))
	for i, l := range lines {
		if m := units.Shown(l.Unit, w.system); m.Name != l.Unit && m.Name != "" {
			m.Decimals++
			out.Also[i] = m.With(m.Nearest(l.Value))
		}
	}
	return out
}

// sentence is a text that ends as sentences do.
func sentence(text string) string {
	if text == "" || strings.HasSuffix(text, ".") {
		return text
	}
	return text + "."
}

// others are the entries beside the governing one; those that read the same at several
// places are one row, and what does not pass says why below.
func (w *writer) others(list []result.Entry) []Block {
	type group struct{ entries []result.Entry }
	var groups []*group
	at := map[string]*group{}
	for _, e := range list[1:] {
		p := e.Printed(w.system)
		key := strings.Join([]string{e.Subject.Rest(), e.Verdict.String(), p.Value, p.Off, p.Limit, p.Margin, p.Measure.Name}, "|")
		if e.Verdict != result.Pass {
			key += e.Text
		}
		if at[key] == nil {
			at[key] = &group{}
			groups = append(groups, at[key])
		}
		at[key].entries = append(at[key].entries, e)
	}
	if len(groups) == 0 {
		return nil
	}
	caption := fmt.Sprintf("The %d others of %s", len(list)-1, list[0].ID)
	if len(list) == 2 {
		caption = "The other one of " + list[0].ID
	}
	t := Table{Caption: caption, Heads: entryHeads("Where")}
	var said []Block
	for _, g := range groups {
		row := w.entryRow(g.entries[0], g.entries)
		t.Rows = append(t.Rows, row)
		if e := g.entries[0]; e.Verdict != result.Pass {
			said = append(said, Paragraph{fmt.Sprintf("%s: %s: %s", e.Verdict, row.Cells[0].Text, sentence(e.Text)), Alarm})
		}
	}
	return append([]Block{t}, said...)
}

// allowances are how what tolerances take from travel clearances comes about.
func (w *writer) allowances() []Block {
	out := []Block{Paragraph{"What tolerances take from a clearance of the collapsed carrier, surface by surface: their root-sum-square, each as far as it lies square to the surface. Where the entry's own sentence names slopes, twist or grade breaks, these add to it.", Plain}}
	m := units.Shown("m", w.system)
	var rows []result.AllowanceRow
	cells := map[int][]int{}
	for _, a := range w.result.Allowances {
		n := slices.IndexFunc(rows, func(b result.AllowanceRow) bool { return a.Zone == b.Zone && slices.Equal(a.Working, b.Working) })
		if n < 0 {
			n, rows = len(rows), append(rows, a)
		}
		cells[n] = append(cells[n], a.Cell)
	}
	for n, a := range rows {
		last := a.Working[len(a.Working)-1]
		out = append(out, w.working(fmt.Sprintf("%s, %s: %s (%s if all add up)", cellsNamed(cells[n]), a.Zone.Words(), m.With(m.Up(last.Value)), m.With(m.Up(a.WorstCase))), nil, a.Working))
	}
	return out
}

// cellsNamed begins a title with cells by their numbers.
func cellsNamed(cells []int) string {
	if len(cells) == 1 {
		return fmt.Sprintf("Cell %d", cells[0])
	}
	return "Cells " + strings.Trim(strings.Join(strings.Fields(fmt.Sprint(cells)), ", "), "[]")
}
