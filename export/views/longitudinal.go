package views

import (
	"fmt"
	"math"

	"boxwalk/export/lineart"
	"boxwalk/export/scene"
	"boxwalk/export/sheet"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// long is the sheet of the longitudinal section of pours that are alike.
func (o *drafter) long(g pourGroup) plan {
	b := g.bays[0]
	return plan{
		name: "longitudinal-section" + g.label, title: "Longitudinal section", supplement: g.text() + ", raised", kind: "Setup drawing",
		least: 150, size: perMetre * float64(b.Carrier.Gear.Form.Length), notes: longNotes,
		build: func(s *sheet.Sheet, n float64) error {
			v := sheet.NewView(fmt.Sprintf("Section on the centreline of cell %d, pour %d, looking left, drawn along the grade %s", b.Cell.Number, b.Pour.Number, grade(o.study.Culvert.GradeOf(b.Pour))))
			v.Scale = n
			if err := o.longView(v, b); err != nil {
				return err
			}
			s.Add(v, s.SideBySide(tableGap, o.levels(s, g), o.alongForm(s, b)))
			return nil
		},
	}
}

func grade(g float64) string { return fmt.Sprintf("%+.2f %%", 100*g) }

// tableGap is between tables that stand side by side, mm of paper.
const tableGap = 8

// window is how much concrete is drawn beyond the form, m.
const window = 0.9

// longView draws the left half of the carrier behind the cut slabs.
func (o *drafter) longView(v *sheet.View, b *model.Bay) error {
	st := stand{b, raisedStep}
	c := b.Carrier
	x0, x1 := c.Rear-window, c.Rear+float64(c.Gear.Form.Length)+window
	o.slabs(v, b, x0, x1)
	var sc scene.Scene
	for _, p := range st.parts() {
		if p.Role != carrier.Tie && p.Box().Max[1] > 1e-9 {
			sc.Objects = append(sc.Objects, st.object(p))
		}
	}
	for i, k := range b.Concrete {
		if k.Zone == culvert.Hanger && k.Box().Max[1] > 1e-9 && k.Box().Min[0] < x1 && k.Box().Max[0] > x0 {
			sc.Objects = append(sc.Objects, scene.Object{ID: fmtID("kept", i), Name: k.Name, Group: "kept", Style: scene.Kept, Solid: k.Solid})
		}
	}
	cam := scene.Orthographic(geom.Vec{0, -1, 0}, geom.Vec{0, 0, 1}).Cutting(scene.Cut{Plane: geom.Plane{N: geom.Vec{0, -1, 0}}})
	paths, err := lineart.Draw(sc, cam)
	if err != nil {
		return err
	}
	for _, p := range paths {
		v.Line(layerOf(sc.Objects[p.Object].Style, p.Kind), p.From, p.To)
	}
	o.longDimensions(v, b)
	return nil
}

// slabs draws invert and roof as the plane of the centreline cuts them, between
// two stations, with the joints of the pour.
func (o *drafter) slabs(v *sheet.View, b *model.Bay, x0, x1 float64) {
	cell, s := b.Cell, o.study.Culvert
	block := func(rear, front func(z float64) float64, z0, z1 float64, rearCut, frontCut bool) {
		loop := []sheet.Point{along(rear(z0), z0), along(front(z0), z0), along(front(z1), z1), along(rear(z1), z1)}
		v.Hatch(sheet.ConcreteHatch, sheet.ConcretePattern, loop)
		v.Line(sheet.Concrete, loop[0], loop[1])
		v.Line(sheet.Concrete, loop[2], loop[3])
		for _, e := range []struct {
			a, b sheet.Point
			cut  bool
		}{{loop[3], loop[0], rearCut}, {loop[1], loop[2], frontCut}} {
			if e.cut {
				breakLine(v, e.a, e.b)
			} else {
				v.Line(sheet.Concrete, e.a, e.b)
			}
		}
	}
	fixed := func(x float64) func(float64) float64 { return func(float64) float64 { return x } }
	inlet, _ := jointsAt(b, s.Pours[0], 0)
	_, outlet := jointsAt(b, s.Pours[len(s.Pours)-1], 0)
	lo, hi := max(x0, inlet-s.InletSlab), min(x1, outlet+s.OutletSlab)
	block(fixed(lo), fixed(hi), -cell.Invert, o.invertTop(v, cell, lo, hi), lo == x0, hi == x1)
	for _, p := range s.PoursIn(cell) {
		rear, front := jointsAt(b, p, cell.Rise)
		if front <= x0 || rear >= x1 {
			continue
		}
		r := func(z float64) float64 { x, _ := jointsAt(b, p, z); return x }
		f := func(z float64) float64 { _, x := jointsAt(b, p, z); return x }
		if rear < x0 {
			r = fixed(x0)
		}
		if front > x1 {
			f = fixed(x1)
		}
		if p.Cast <= b.Pour.Cast {
			block(r, f, cell.Rise, cell.Rise+cell.Roof, rear < x0, front > x1)
		}
		mid := (r(cell.Rise) + f(cell.Rise)) / 2
		if p.Number == b.Pour.Number {
			v.Text(along(mid, cell.Rise+cell.Roof/2), sheet.MiddleCentre, fmt.Sprintf("Pour %d", p.Number))
		}
	}
}

// crossed tells whether the extension lines of a span run through the number of
// one that stands nearer: numbers stand at the middle, at most 20 mm wide on
// paper.
func crossed(v *sheet.View, nearer []sheet.Span, by sheet.Span) bool {
	for _, s := range nearer {
		middle := (s.From[0] + s.To[0]) / 2
		for _, x := range [2]float64{by.From[0], by.To[0]} {
			if math.Abs(x-middle) < 10*v.Scale+2*v.Scale*float64(len(s.Suffix)) {
				return true
			}
		}
	}
	return false
}

// invertTop is where the centreline cuts the invert's top: in the channel where
// one lies under it. The edge of the channel that the section then looks at is
// drawn, or its floor, hidden, where the channel lies wholly on that side.
func (o *drafter) invertTop(v *sheet.View, cell culvert.Cell, lo, hi float64) float64 {
	c := cell.Channel
	right, left := c.Offset-c.Width/2, c.Offset+c.Width/2
	switch {
	case !c.Exists() || left <= 0:
		return 0
	case right < 0:
		v.Line(sheet.General, along(lo, 0), along(hi, 0))
		return -c.Depth
	}
	v.Line(sheet.Hidden, along(lo, -c.Depth), along(hi, -c.Depth))
	return 0
}

// jointsAt is where a pour begins and ends on the cell's centreline at a height,
// in the frame of the bay.
func jointsAt(b *model.Bay, p culvert.Pour, z float64) (rear, front float64) {
	e, f := b.Cell.Ends(p)
	bayFromPour := b.Cell.BayFromBay(b.Pour, p)
	return bayFromPour.Apply(geom.Vec{e.At(0, z), 0, z})[0], bayFromPour.Apply(geom.Vec{f.At(0, z), 0, z})[0]
}

// longDimensions are the lengths along the form.
func (o *drafter) longDimensions(v *sheet.View, b *model.Bay) {
	c := b.Carrier
	g := c.Gear
	x0, x1 := c.Rear, c.Rear+float64(g.Form.Length)
	base, crown := -b.Cell.Invert, b.Cell.Rise+b.Cell.Roof
	for i, x := range c.Bents {
		v.Line(sheet.Centre, along(x, base-0.08), along(x, b.Cell.Rise-0.02))
		v.Text(along(x+0.03, base-0.05), sheet.TopLeft, fmt.Sprint(i+1))
	}
	at := func(x, z float64) sheet.Point { return along(x, z) }
	n := len(c.Bents)
	typical := max(0, n/2-1)
	spans := []sheet.Span{
		{From: at(x0, base), To: at(c.Bents[0], base)}, {From: at(c.Bents[n-1], base), To: at(x1, base)},
		{From: at(c.Bents[0], base), To: at(c.Bents[n-1], base), Suffix: fmt.Sprintf(" = %d spaces", n-1)},
	}
	if n > 1 {
		spans = append(spans, sheet.Span{From: at(c.Bents[typical], base), To: at(c.Bents[typical+1], base), Suffix: " TYP"})
	}
	spans = append(spans, sheet.Span{From: at(x0, base), To: at(x1, base), Suffix: " form"})
	rear, front := jointsAt(b, b.Pour, crown)
	above := []sheet.Span{{From: at(rear, crown), To: at(front, crown), Suffix: " pour on the centreline"}}
	if b.Pour.Lap > 0 {
		above = append(above, sheet.Span{From: at(x0, b.Cell.Rise), To: at(x0+b.Pour.Lap, b.Cell.Rise), Suffix: " lap"})
	}
	if a := rear - x0 - b.Pour.Lap; a > 1e-3 {
		above = append(above, sheet.Span{From: at(x0, b.Cell.Rise), To: at(rear-b.Pour.Lap, crown), Suffix: " behind"})
	}
	if a := x1 - front; a > 1e-3 {
		above = append(above, sheet.Span{From: at(front, crown), To: at(x1, b.Cell.Rise), Suffix: " beyond"})
	}
	if w := g.Wheels.At; len(w) > 1 {
		// where its extension lines would cut a number on both sides, the table has it
		wheels := func(z float64) sheet.Span {
			return sheet.Span{From: at(x0+float64(w[0]), z), To: at(x0+float64(w[len(w)-1]), z), Suffix: " wheelbase"}
		}
		switch {
		case !crossed(v, spans, wheels(base)):
			spans = append(spans, wheels(base))
		case !crossed(v, above, wheels(crown)):
			above = append(above, wheels(crown))
		}
	}
	v.Stack(sheet.Below, perMetre*(base-0.25), spans...)
	v.Stack(sheet.Above, perMetre*crown, above...)
	v.Stack(sheet.Left, perMetre*(x0-window), sheet.Span{From: at(x0-window, 0), To: at(x0-window, b.Cell.Rise), Suffix: " rise"})
	y := perMetre * (base - 0.12)
	v.Arrow(sheet.Loads, sheet.Pt(perMetre*x1, y), sheet.Pt(perMetre*(x1+0.8), y))
	v.Text(sheet.Pt(perMetre*(x1+0.85), y), sheet.MiddleLeft, "ahead")
}
