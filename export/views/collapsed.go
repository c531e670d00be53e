package views

import (
	"fmt"
	"math"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
	"boxwalk/model/culvert"
)

// collapsed is the sheet of the cross-section ready to travel, with the
// clearance that governs in each zone.
func (o *drafter) collapsed(g cellGroup) plan {
	b := g.bay()
	cell := b.Cell
	zones := o.governing(b)
	return plan{
		name: "section-collapsed" + g.label, title: "Cross-section, collapsed", supplement: g.cellsText(), kind: "Setup drawing",
		least: sectionPaper, size: perMetre * (cell.Rise + cell.Roof + cell.Invert),
		build: func(s *sheet.Sheet, n float64) error {
			st := last(b)
			v := sheet.NewView(fmt.Sprintf("Section at bent %d, looking ahead, at the end of \"%s\"", st.middle()+1, b.Steps[st.step].Name))
			v.Scale = n
			o.concreteSection(v, cell)
			rods := o.hangerRods(v, cell)
			if err := o.drawBent(v, st, st.middle()); err != nil {
				return err
			}
			st.ghosts(v, stand{b, raisedStep}, st.middle(), 0)
			sectionAxes(v, cell)
			legAxes(v, st)
			labels := append(o.linkCallouts(st), o.fixedCallouts(cell, rods)...)
			labels = append(labels, o.jackCallout(st)...)
			column(s, v, labels, o.rightOf(cell)+9*n, perMetre*(cell.Rise+cell.Roof), n)
			p := newPlacer(s, v, n)
			for _, e := range zones {
				if d, ok := clearanceDimension(p, e); ok {
					v.Add(d)
				}
			}
			o.insideDimensions(v, st, p)
			notes := append(o.sectionNotes(g), worseNote)
			if o.result.Verdict != result.Pass {
				notes = append(notes, notClearedNote)
			}
			s.Add(v, beside(s, o.clearanceTable(s, zones, o.short(g)), append(notes, zoneSentences(zones)...)))
			return nil
		},
	}
}

// What the notes say of the table of clearances: always, and where the job does
// not pass.
const (
	worseNote      = "The table rounds toward the worse."
	notClearedNote = "A pass here does not clear the job."
)

// jackCallout is the reading of the right jack.
func (o *drafter) jackCallout(st stand) []callout {
	c := st.bay.Carrier
	for k, a := range c.Adjusters {
		if a.Jack() && a.Side == culvert.Right {
			return []callout{{across(-c.Gauge/2, st.reading(k)*0.5), "jack " + o.bare(st.reading(k))}}
		}
	}
	return nil
}

// governing are the collapsed clearances of a bay, one entry for each zone, in
// the order of the zones. One without a value is among them unless it passes
// for want of anything to check.
func (o *drafter) governing(b interface{ Name() string }) []result.Entry {
	var out []result.Entry
	for _, z := range culvert.Zones {
		for _, c := range o.result.Checks {
			if c.ID == "strip.clear" && c.Where.Frame == b.Name() && c.Where.Zone == string(z) && c.Subject.Kind == result.Collapsed && (c.Value != nil || c.Verdict != result.Pass) {
				out = append(out, c)
				break
			}
		}
	}
	return out
}

// short are the collapsed clearances that do not pass in the other cells and
// pours that the sheet stands for: of each zone the one with the least margin.
func (o *drafter) short(g cellGroup) []result.Entry {
	var out []result.Entry
	at := map[string]int{}
	for i := range o.study.Bays {
		b := &o.study.Bays[i]
		if b == g.bay() || !g.standsFor(b.Cell.Number) {
			continue
		}
		for _, e := range o.governing(b) {
			n, have := at[e.Where.Zone]
			switch {
			case e.Verdict == result.Pass:
			case !have:
				at[e.Where.Zone] = len(out)
				out = append(out, e)
			case worse(e, out[n]):
				out[n] = e
			}
		}
	}
	return out
}

// worse tells whether an entry is further from passing than another; a failure
// is worse than what could not be decided.
func worse(a, b result.Entry) bool {
	if a.Verdict != b.Verdict {
		return a.Verdict == result.Fail
	}
	return a.Margin != nil && (b.Margin == nil || *a.Margin < *b.Margin)
}

// zoneSentences is what each entry says.
func zoneSentences(list []result.Entry) []string {
	var out []string
	for _, e := range list {
		out = append(out, upperFirst(e.Text)+".")
	}
	return out
}

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// clearanceTable is the same in numbers. Rows that do not pass stand out, and
// so that no other cell or pour that shares the sheet hides behind the one
// drawn, theirs follow. Numbers are rounded toward the worse.
func (o *drafter) clearanceTable(s *sheet.Sheet, list, elsewhere []result.Entry) *sheet.View {
	var rows [][]string
	var emphasis []sheet.Emphasis
	for _, e := range append(list[:len(list):len(list)], elsewhere...) {
		f := figuresOf(e, s.Units)
		if f.value == "" {
			f.value = "?"
		}
		row := []string{culvert.Zone(e.Where.Zone).Words(), e.Where.Part, f.value, f.off, f.limit, f.margin, e.Verdict.String()}
		emphasis = append(emphasis, sheet.Plain)
		if e.Verdict != result.Pass {
			row[6], emphasis[len(rows)] = strings.ToUpper(row[6]), sheet.Alarm
		}
		if len(rows) >= len(list) {
			row[0] += fmt.Sprintf(", cell %d, pour %d", e.Where.Cell, e.Where.Pour)
		}
		rows = append(rows, row)
	}
	// as wide as the longest zone; places elsewhere take a second line
	first := sheet.TextWidth(culvert.HaunchBottom.Words(), s.LetteringHeight()) + 3
	return s.Table("Clearances, collapsed", []sheet.Column{{Title: "To the", Width: first}, {Title: "Part"}, {Title: "Clear", Right: true}, {Title: "Allow", Right: true}, {Title: "Limit", Right: true}, {Title: "Margin", Right: true}, {Title: "Verdict"}}, rows, emphasis...)
}

// sameClearance is how far a dimension in the section may differ from the
// clearance in space, m; beyond it the pair does not lie in one section and is
// left to the table.
const sameClearance = 1e-4

// clearanceOffsets is how many places are tried on either side of a clearance,
// 2 mm of paper apart.
const clearanceOffsets = 12

// clearanceDimension is the dimension between the two points that govern.
func clearanceDimension(p *placer, e result.Entry) (sheet.Dimension, bool) {
	w := e.Where
	if w.A == nil || w.B == nil || e.Value == nil {
		return sheet.Dimension{}, false
	}
	a, b := across(w.A[1], w.A[2]), across(w.B[1], w.B[2])
	length := b.Sub(a).Len()
	if length < 1 || abs(length/perMetre-e.Value.Lower) > sameClearance {
		return sheet.Dimension{}, false
	}
	u := b.Sub(a).Mul(1 / length)
	angle := math.Atan2(u[1], u[0]) * 180 / math.Pi
	var tries []sheet.Dimension
	for k := range clearanceOffsets {
		for _, offset := range []float64{2 * float64(k), -2 * float64(k)} {
			for _, before := range []bool{false, true} {
				tries = append(tries, sheet.Dimension{On: sheet.Clearance, From: a, To: b, Angle: angle, Base: a, Offset: offset, Before: before})
			}
		}
	}
	i, ok := p.best(len(tries), func(i int) []sheet.Item { return p.sheet.Draw(tries[i], p.n).Items() }, func(i int) float64 { return abs(tries[i].Offset) / 8 })
	return tries[i], ok
}
