package views

import (
	"fmt"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// Steps on one sheet, and the width of the words under each, mm of paper.
const (
	stepWidth  = 88
	leastGhost = 0.8 // a nearer outline runs into the one it left, mm of paper
)

// stepsOnSheet is how many steps stand on one sheet: as many as fit side by side.
func (o *drafter) stepsOnSheet() int {
	if o.small() {
		return 3
	}
	return 4
}

// sequence are the sheets that show the section at the end of every step with
// what the crew does.
func (o *drafter) sequence(g cellGroup) []plan {
	b := g.bay()
	var out []plan
	most := o.stepsOnSheet()
	for from := 0; from < len(b.Steps); from += most {
		to := min(from+most, len(b.Steps))
		out = append(out, plan{
			name: fmt.Sprintf("sequence%s-steps-%d-%d", g.label, from+1, to), title: "Collapse sequence",
			supplement: fmt.Sprintf("%s, steps %d to %d of %d", g.cellsText(), from+1, to, len(b.Steps)), kind: "Sequence",
			least: 45, size: perMetre * b.Cell.Rise, notes: withWords(nil, o.gearWords(b, from, to)),
			build: func(s *sheet.Sheet, n float64) error {
				for k := from; k < to; k++ {
					v, err := o.stepView(s, stand{b, k}, n)
					if err != nil {
						return err
					}
					s.Add(v)
				}
				return nil
			},
		})
	}
	return out
}

// gearWords is what the gear file says in its own words of some steps.
func (o *drafter) gearWords(b *model.Bay, from, to int) []string {
	var out []string
	for k := from; k < to; k++ {
		out = append(out, b.Steps[k].Name, b.Steps[k].Say, b.Steps[k].Caution)
		out = append(out, o.holdsBefore(stand{b, k})...)
	}
	return out
}

// stepView is the section at the end of one step over the words for it.
func (o *drafter) stepView(s *sheet.Sheet, st stand, n float64) (*sheet.View, error) {
	step := st.bay.Steps[st.step]
	v := sheet.NewView(fmt.Sprintf("%d. %s", st.step+1, step.Name))
	v.Scale = n
	cell := st.bay.Cell
	o.concreteSection(v, cell)
	o.hangerRods(v, cell)
	if step.Stop == nil {
		if err := o.drawBent(v, st, st.middle()); err != nil {
			return nil, err
		}
		st.ghosts(v, stand{st.bay, st.step - 1}, st.middle(), leastGhost*n/perMetre)
		o.arrows(v, st, n)
	}
	o.stepWords(s, v, st, n)
	return v, nil
}

// stepWords letters what the crew does below the section.
func (o *drafter) stepWords(s *sheet.Sheet, v *sheet.View, st stand, n float64) {
	h := s.LetteringHeight()
	cell, step := st.bay.Cell, st.bay.Steps[st.step]
	middle := (o.leftOf(cell) + o.rightOf(cell)) / 2
	x, y := middle-stepWidth/2*n, -perMetre*cell.Invert-4*h*n
	put := func(text string) {
		lines := sheet.Wrap(text, h, stepWidth)
		v.Text(sheet.Pt(x, y), sheet.TopLeft, lines...)
		y -= (float64(len(lines))*sheet.LinePitch + 0.6) * h * n
	}
	if step.Stop != nil {
		put("THIS STEP CANNOT BE MADE: " + step.Stop.Say(o.length))
	}
	for _, hold := range o.holdsBefore(st) {
		put("HOLD: " + hold)
	}
	put(step.Say)
	for k, m := range step.Moves {
		a := st.bay.Carrier.Adjusters[m.Adjuster]
		name, alone := st.pairMove(k)
		if !m.Moves() || a.Side == culvert.Right && !alone {
			continue
		}
		put(fmt.Sprintf("%s: %s to %s", name, o.bare(m.From), o.bare(m.To)))
	}
	if row := o.rowOf(st); row != nil && row.Level != nil {
		put("LEVEL: " + row.Level.Say)
	}
	if row := o.rowOf(st); row != nil && row.Lag != nil {
		put("IN STEP: " + row.Lag.Say)
	}
	for _, text := range o.raisedAgain(st) {
		put(text)
	}
	if step.Caution != "" {
		put("CAUTION: " + step.Caution)
	}
}

// holdsBefore are what a named person confirms before a step begins.
func (o *drafter) holdsBefore(st stand) []string {
	k := 0
	for _, row := range o.result.Steps {
		if row.Cell != st.bay.Cell.Number || row.Pour != st.bay.Pour.Number {
			continue
		}
		if k == st.step {
			return row.Hold
		}
		k++
	}
	return nil
}

// rowOf is a step as the result tells it; nil where it does not.
func (o *drafter) rowOf(st stand) *result.StepRow {
	for i, row := range o.result.Steps {
		if row.Cell == st.bay.Cell.Number && row.Pour == st.bay.Pour.Number && row.Name == st.bay.Steps[st.step].Name {
			return &o.result.Steps[i]
		}
	}
	return nil
}

// raisedAgain says how far pads or jacks may get apart when a step is taken back,
// and at which pours that is not proved.
func (o *drafter) raisedAgain(st stand) []string {
	var out []string
	name := st.bay.Raising[len(st.bay.Steps)-1-st.step].Name
	var pours []string
	for _, row := range o.result.Raising {
		if row.Name != name || row.Cell != st.bay.Cell.Number {
			continue
		}
		here := row.Pour == st.bay.Pour.Number
		if here && row.Level != nil {
			out = append(out, "TAKEN BACK, RAISING: "+row.Level.Say)
		}
		if len(row.Unproved) > 0 && !(here && row.Level != nil) {
			pours = append(pours, fmt.Sprintf("pour %d (%s)", row.Pour, strings.Join(row.Unproved, "; ")))
		}
	}
	if len(pours) > 0 {
		out = append(out, "TAKEN BACK, RAISING: NOT PROVED at "+strings.Join(pours, ", "))
	}
	return out
}

// pairMove is pairName for the move of a step: both sides are named together
// only where they also start alike.
func (st stand) pairMove(k int) (name string, alone bool) {
	name, alone = st.pairName(k)
	before := stand{st.bay, st.step - 1}
	if _, other := before.pairName(k); other && !alone {
		a := st.bay.Carrier.Adjusters[k]
		return a.Label(), true
	}
	return name, alone
}

// arrows show which way each body that is moved in this step goes.
func (o *drafter) arrows(v *sheet.View, st stand, n float64) {
	before := stand{st.bay, st.step - 1}
	done := map[string]bool{}
	for _, m := range st.bay.Steps[st.step].Moves {
		a := st.bay.Carrier.Adjusters[m.Adjuster]
		if a.Follows() || abs(m.To-m.From) < 1e-9 {
			continue
		}
		p, by, ok := o.farthest(st, before, a)
		key := fmt.Sprintf("%.3f %.3f", p[1], p[2])
		if !ok || done[key] {
			continue
		}
		done[key] = true
		at, dir := across(p[1], p[2]), across(by[1], by[2]).Normalize()
		v.Arrow(sheet.Loads, at, at.Add(dir.Mul(9*n)))
	}
}

// farthest is the point of an adjuster's body that moves most in a step, and
// by how much; for jacks that lower the frame it is the header's middle.
func (o *drafter) farthest(st, before stand, a carrier.Adjuster) (at, by geom.Vec, ok bool) {
	body := a.Body
	if a.Jack() && abs(st.lowered()-before.lowered()) > 1e-9 {
		c := st.bay.Carrier
		return geom.Vec{0, 0.25 * float64(a.Side) * c.Gauge, c.Header - before.lowered() - 0.25}, geom.Vec{0, 0, -1}, true
	}
	var most float64
	for _, p := range st.bay.Carrier.Parts {
		if p.Body != body || !st.present(p) {
			continue
		}
		for _, w := range p.Vertices {
			from, to := before.pose(body).Apply(w), st.pose(body).Apply(w)
			if d := to.Sub(from); d.Len() > most+1e-9 {
				most, at, by = d.Len(), from, d
			}
		}
	}
	at[0], by[0] = 0, 0
	return at, by, most > 1e-6
}
