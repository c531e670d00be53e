package views

import (
	"fmt"

	"boxwalk/export/sheet"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// sectionPaper is the least height of a cross-section on paper, mm.
const sectionPaper = 110

// raised is the sheet of the cross-section as set for the pour.
func (o *drafter) raised(g cellGroup) plan {
	cell := g.bay().Cell
	return plan{
		name: "section-raised" + g.label, title: "Cross-section, raised", supplement: g.cellsText(), kind: "Setup drawing",
		least: sectionPaper, size: perMetre * (cell.Rise + cell.Roof + cell.Invert),
		build: func(s *sheet.Sheet, n float64) error {
			st := stand{g.bay(), raisedStep}
			v := sheet.NewView(fmt.Sprintf("Section at bent %d, looking ahead", st.middle()+1))
			v.Scale = n
			o.concreteSection(v, cell)
			rods := o.hangerRods(v, cell)
			if err := o.drawBent(v, st, st.middle()); err != nil {
				return err
			}
			sectionAxes(v, cell)
			legAxes(v, st)
			o.raisedDimensions(v, st, perMetre*rodAbove-stackClear*s.LetteringHeight()*n)
			column(s, v, append(o.callouts(st, st.middle()), o.fixedCallouts(cell, rods)...), o.rightOf(cell)+9*n, perMetre*(cell.Rise+cell.Roof), n)
			o.insideDimensions(v, st, newPlacer(s, v, n))
			s.Add(v, beside(s, settingsTable(s, g.bay()), o.sectionNotes(g)))
			return nil
		},
	}
}

// kickerNote gives both names of what is cast with the invert.
const kickerNote = "The kicker (starter wall) is cast with the invert."

// sectionNotes are what the drawing cannot show.
func (o *drafter) sectionNotes(g cellGroup) []string {
	b := g.bay()
	notes := []string{fmt.Sprintf("Gear: %s. Form %s long, %d bents at %s.", b.Carrier.Gear.Gear.Name, o.length(float64(b.Carrier.Gear.Form.Length)), len(b.Carrier.Bents), o.length(float64(b.Carrier.Gear.Form.Spacing)))}
	if b.Cell.Kicker > 0 {
		notes = append(notes, kickerNote)
	}
	if o.units().Imperial {
		notes = append(notes, "Dimensions are lettered to the nearest 1/16 in, clearances to the 1/16 in below.")
	}
	if len(g.bays) > 1 {
		walls := ""
		for i, c := range g.bays {
			if i > 0 {
				walls += "; "
			}
			walls += fmt.Sprintf("cell %d: %s and %s", c.Cell.Number, o.length(c.Cell.Left), o.length(c.Cell.Right))
		}
		notes = append(notes, fmt.Sprintf("%s are alike and share this sheet; cell %d is drawn. Walls left and right: %s.", g.cellsText(), b.Cell.Number, walls))
	}
	return notes
}

// length is metres as this job's sheets letter them.
func (o *drafter) length(m float64) string {
	u := o.units()
	if u.Imperial {
		return u.Format(perMetre * m)
	}
	return u.Format(perMetre*m) + " mm"
}

// rightOf is the right edge of what concreteSection draws, mm.
func (o *drafter) rightOf(c culvert.Cell) float64 {
	right := c.HalfSpan + c.Right
	if o.neighbour(c, 1) != nil {
		right += stub
	}
	return perMetre * right
}

func (o *drafter) leftOf(c culvert.Cell) float64 {
	left := c.HalfSpan + c.Left
	if o.neighbour(c, 0) != nil {
		left += stub
	}
	return -perMetre * left
}

// sectionAxes is the cell's centreline.
func sectionAxes(v *sheet.View, c culvert.Cell) {
	v.Line(sheet.Centre, across(0, -c.Invert-0.1), across(0, c.Rise+c.Roof+rodAbove+0.06))
}

// legAxes are the centrelines of legs and wheels.
func legAxes(v *sheet.View, st stand) {
	c := st.bay.Carrier
	for _, y := range []float64{c.Gauge / 2, -c.Gauge / 2} {
		v.Line(sheet.Centre, across(y, -0.03), across(y, c.Header-st.lowered()+0.12))
	}
}

// stackClear is how far above its edge a stack may be reached into without
// touching its first line, letter heights.
const stackClear = 3.5

// raisedDimensions are the section's sizes and the carrier's main settings;
// rods is how far hanger rods would reach into the dimensions above the roof, mm.
func (o *drafter) raisedDimensions(v *sheet.View, st stand, rods float64) {
	cell, c := st.bay.Cell, st.bay.Carrier
	sec := cell.Section
	base, crown, b := -sec.Invert, sec.Rise+sec.Roof, sec.HalfSpan
	span := func(y0, z0, y1, z1 float64, suffix string) sheet.Span {
		if suffix != "" {
			suffix = " " + suffix
		}
		return sheet.Span{From: across(y0, z0), To: across(y1, z1), Suffix: suffix}
	}
	below := []sheet.Span{
		span(b+sec.Left, base, b, base, ""), span(b, base, -b, base, "span"), span(-b, base, -b-sec.Right, base, ""),
		span(c.Gauge/2, -0.03, -c.Gauge/2, -0.03, "gauge"),
	}
	if sec.Bottom.Exists() {
		below = append(below, span(b, base, b-sec.Bottom.Run, base, ""))
	}
	if ch := sec.Channel; ch.Exists() {
		below = append(below, span(ch.Offset+ch.Width/2, -ch.Depth, ch.Offset-ch.Width/2, -ch.Depth, "channel"))
	}
	v.Stack(sheet.Below, perMetre*base, below...)
	var above []sheet.Span
	for _, w := range c.Widths() {
		above = append(above, span(w.From, sec.Rise, w.To, sec.Rise, w.Name))
	}
	if sec.Top.Exists() {
		above = append(above, span(b, crown, b-sec.Top.Run, crown, ""))
	}
	v.Stack(sheet.Above, perMetre*crown+max(0, rods), above...)
	v.Stack(sheet.Left, o.leftOf(cell), o.heightSpans(st, span)...)
}

type spanner func(y0, z0, y1, z1 float64, suffix string) sheet.Span

// heightSpans are the heights beside the section.
func (o *drafter) heightSpans(st stand, span spanner) []sheet.Span {
	sec := st.bay.Cell.Section
	y, crown := sec.HalfSpan+sec.Left, sec.Rise+sec.Roof
	out := []sheet.Span{
		span(y, -sec.Invert, y, 0, ""), span(y, 0, y, sec.Rise, "rise"), span(y, sec.Rise, y, crown, ""),
	}
	if sec.Kicker > 0 {
		out = append(out, span(y, 0, y, sec.Kicker, "kicker"))
	}
	return out
}

// armsIn is how far the left header arm has been drawn in, m; false where the
// header has none.
func (st stand) armsIn() (float64, bool) {
	for _, p := range st.bay.Carrier.Parts {
		if p.Role == carrier.Arm && p.Side == culvert.Left {
			return -st.pose(p.Body).T[1], true
		}
	}
	return 0, false
}

// pieceRoles are the roles that get a piece mark, in the order of the list.
var pieceRoles = []carrier.Role{carrier.RoofPanel, carrier.CornerPanel, carrier.WallPanel, carrier.Filler, carrier.Stringer, carrier.Pad, carrier.RoofScrew, carrier.Arm, carrier.Header,
	carrier.Bracket, carrier.Track, carrier.Waler, carrier.Tie, carrier.Leg, carrier.Strut, carrier.Sill, carrier.Fork, carrier.Wheel, carrier.JackScrew, carrier.JackPlate}

// callouts names one part of every role on the right with the marks of both
// sides, and every link with its length as it stands.
func (o *drafter) callouts(st stand, n int) []callout {
	parts, _ := st.atBent(n)
	marks := map[carrier.Role]map[culvert.Side]carrier.Part{}
	for _, p := range parts {
		if marks[p.Role] == nil {
			marks[p.Role] = map[culvert.Side]carrier.Part{}
		}
		if _, have := marks[p.Role][p.Side]; !have {
			marks[p.Role][p.Side] = p
		}
	}
	var out []callout
	for _, role := range pieceRoles {
		bySide := marks[role]
		text := ""
		var tip sheet.Point
		for _, side := range []culvert.Side{culvert.Left, culvert.Both, culvert.Right} {
			if p, ok := bySide[side]; ok {
				if text != "" {
					text += ", "
				}
				text += p.Mark
				tip = tipOf(p)
			}
		}
		if text != "" {
			text += " " + string(role)
			if role == carrier.Track {
				text += fmt.Sprintf(", falls %.4g %%", 100*fallOf(st.bay.Carrier))
			}
			out = append(out, callout{tip, text})
		}
	}
	return append(out, o.linkCallouts(st)...)
}

// tipOf is where an arrow to a part ends: its middle, or well right of it for a
// part that lies across.
func tipOf(p carrier.Part) sheet.Point {
	b := p.Box()
	c := b.Center()
	if p.Side == culvert.Both && b.Max[1]-b.Min[1] > 0.5 {
		c[1] = b.Min[1] + 0.3*(b.Max[1]-b.Min[1])
	}
	if p.Role == carrier.Leg {
		c[2] = b.Min[2] + 0.35*(b.Max[2]-b.Min[2])
	}
	if p.Role == carrier.WallPanel {
		c[2] = b.Min[2] + 0.8*(b.Max[2]-b.Min[2])
	}
	return across(c[1], c[2])
}

// linkCallouts names the links on the right with their lengths.
func (o *drafter) linkCallouts(st stand) []callout {
	var out []callout
	c := st.bay.Carrier
	for k, a := range c.Adjusters {
		if a.Link < 0 || a.Side != culvert.Right {
			continue
		}
		l := c.Mechanism.Links[a.Link]
		p, q := st.pose(l.A).Apply(l.PinA), st.pose(l.B).Apply(l.PinB)
		mid := p.Add(q.Sub(p).Mul(0.4))
		out = append(out, callout{across(mid[1], mid[2]), fmt.Sprintf("%s %s", a.Name, o.bare(st.reading(k)))})
	}
	return out
}

// reading of an adjuster as it stands, m.
func (st stand) reading(k int) float64 {
	if st.step < 0 {
		return st.bay.Carrier.Adjusters[k].Raised
	}
	return st.bay.Steps[st.step].Moves[k].To
}

// fixedCallouts name what belongs to the concrete.
func (o *drafter) fixedCallouts(cell culvert.Cell, rods []sheet.Point) []callout {
	var out []callout
	if h := cell.Top; h.Exists() {
		out = append(out, callout{across(-cell.HalfSpan+h.Run*0.5, cell.Rise-h.Rise*0.5), fmt.Sprintf("haunch %s x %s", o.bare(h.Run), o.bare(h.Rise))})
	}
	if h := cell.Bottom; h.Exists() {
		out = append(out, callout{across(-cell.HalfSpan+h.Run*0.5, h.Rise*0.5), fmt.Sprintf("haunch %s x %s", o.bare(h.Run), o.bare(h.Rise))})
	}
	if c := cell.Channel; c.Exists() {
		out = append(out, callout{across(c.Offset-c.Width*0.3, -c.Depth), o.channelText(c)})
	}
	if cell.Kicker > 0 {
		out = append(out, callout{across(-cell.HalfSpan-cell.Right*0.6, cell.Kicker), "construction joint"})
	}
	if h := o.study.Job.LeftInPlace.Hangers; h != nil && len(rods) > 0 {
		y := float64(h.Lines[len(h.Lines)-1])
		under := cell.Rise - float64(h.Plate.Z)
		out = append(out, callout{across(y-float64(h.Plate.Y)*0.3, cell.Rise-float64(h.Plate.Z)/2), fmt.Sprintf("hanger plate %s x %s x %s", o.bare(float64(h.Plate.X)), o.bare(float64(h.Plate.Y)), o.bare(float64(h.Plate.Z)))},
			callout{rods[len(rods)-1], fmt.Sprintf("hanger rod dia. %s", o.bare(float64(h.Rod)))})
		if h.Tail > 0 {
			out = append(out, callout{across(y-float64(h.Nut)*0.3, under-float64(h.Tail)/2), "nut and rod end, stay"})
		}
	}
	return out
}

// channelText is a channel's size and where its middle lies.
func (o *drafter) channelText(c culvert.Channel) string {
	out := fmt.Sprintf("channel %s x %s", o.bare(c.Width), o.bare(c.Depth))
	switch {
	case c.Offset > 0:
		out += ", " + o.bare(c.Offset) + " left"
	case c.Offset < 0:
		out += ", " + o.bare(-c.Offset) + " right"
	}
	return out
}

func (o *drafter) bare(m float64) string { return o.units().Format(perMetre * m) }
