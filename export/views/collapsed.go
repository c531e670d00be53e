package views

import (
	"fmt"
	"math"
	"strings"

	"boxwalk/clearance"
	"boxwalk/export/sheet"
	"boxwalk/model/culvert"
)

// collapsed is the sheet of the cross-section ready to travel, with the
// clearance that governs in each zone.
func (o *office) collapsed(g cellGroup) plan {
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
			if err := st.drawBent(v, st.middle()); err != nil {
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
			s.Add(v, beside(s, o.clearanceTable(s, zones), append(o.sectionNotes(g), zoneSentences(zones)...)))
			return nil
		},
	}
}

// jackCallout is the reading of the right jack.
func (o *office) jackCallout(st stand) []callout {
	c := st.bay.Carrier
	for k, a := range c.Adjusters {
		if a.Jack() && a.Side == culvert.Right {
			return []callout{{across(-c.Gauge/2, st.reading(k)*0.5), "jack " + o.bare(st.reading(k))}}
		}
	}
	return nil
}

// governing are the collapsed clearances of a bay, one entry for each zone, in
// the order of the zones.
func (o *office) governing(b interface{ Name() string }) []clearance.Entry {
	var out []clearance.Entry
	for _, z := range culvert.Zones {
		for _, c := range o.result.Checks {
			if c.ID == "strip.clear" && c.Where.Frame == b.Name() && c.Where.Zone == string(z) && strings.HasSuffix(c.Subject, ", collapsed") && c.Value != nil {
				out = append(out, c)
				break
			}
		}
	}
	return out
}

// zoneSentences is what each entry says.
func zoneSentences(list []clearance.Entry) []string {
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

// clearanceTable is the same in numbers.
func (o *office) clearanceTable(s *sheet.Sheet, list []clearance.Entry) *sheet.View {
	f := func(v float64) string {
		if math.IsInf(v, 0) || math.IsNaN(v) {
			return "?"
		}
		return s.Units.Format(perMetre * v)
	}
	var rows [][]string
	for _, e := range list {
		row := []string{culvert.Zone(e.Where.Zone).Words(), e.Where.Part, f(e.Value.Lower), f(e.Allowance), "", "", e.Verdict.String()}
		if e.Limit != nil {
			row[4] = f(*e.Limit)
		}
		if e.Margin != nil {
			row[5] = f(*e.Margin)
		}
		rows = append(rows, row)
	}
	return s.Table("Clearances, collapsed", []sheet.Column{{Title: "To the"}, {Title: "Part"}, {Title: "Clear", Right: true}, {Title: "Allow", Right: true}, {Title: "Limit", Right: true}, {Title: "Margin", Right: true}, {Title: "Verdict"}}, rows)
}

// sameClearance is how far a dimension in the section may differ from the
// clearance in space, m; beyond it the pair does not lie in one section and is
// left to the table.
const sameClearance = 1e-4

// clearanceDimension is the dimension between the two points that govern.
func clearanceDimension(p *placer, e clearance.Entry) (sheet.Dimension, bool) {
	w := e.Where
	if w.A == nil || w.B == nil {
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
	for _, offset := range []float64{0, 4, -4, 8, -8, 12, -12, 16, -16, 20, -20} {
		for _, before := range []bool{false, true} {
			tries = append(tries, sheet.Dimension{On: sheet.Clearance, From: a, To: b, Angle: angle, Base: a, Offset: offset, Before: before})
		}
	}
	i, ok := p.best(len(tries), func(i int) []sheet.Item { return p.sheet.Draw(tries[i], p.n).Items() }, func(i int) float64 { return abs(tries[i].Offset) / 8 })
	return tries[i], ok
}
