package views

import (
	"math"

	"boxwalk/export/sheet"
)

// placer finds room for dimensions and lettering inside a view: never over
// other lettering or dimensions, and over as few lines as it can.
type placer struct {
	sheet *sheet.Sheet
	n     float64
	texts outlines // of lettering, mm of the model
	lines outlines // dimension lines and arrows
	ink   outlines // everything else that is drawn
}

// newPlacer starts with what the view holds at scale 1:n.
func newPlacer(s *sheet.Sheet, v *sheet.View, n float64) *placer {
	p := &placer{sheet: s, n: n}
	for _, i := range s.Model(v) {
		switch i := i.(type) {
		case sheet.Line:
			p.ink.add(i.A, i.B)
		case sheet.Polyline:
			for k := 1; k < len(i.Points); k++ {
				p.ink.add(i.Points[k-1 : k+1]...)
			}
			if i.Closed && len(i.Points) > 2 {
				p.ink.add(i.Points[len(i.Points)-1], i.Points[0])
			}
		case sheet.Circle:
			r := sheet.Pt(i.Radius, i.Radius)
			p.ink.add(sheet.RectLoop(i.Centre.Sub(r), i.Centre.Add(r))...)
		case sheet.Text:
			p.take([]sheet.Item{i})
		case sheet.Leader:
			p.take(s.DrawLeader(i, n).Items())
		case sheet.Dimension:
			p.take(s.Draw(i, n).Items())
		}
	}
	return p
}

// outline of lettering in mm of the model.
func (p *placer) outline(t sheet.Text) []sheet.Point {
	if t.Height == 0 {
		t.Height = p.sheet.LetteringHeight()
	}
	at := t.At
	t.At = sheet.Point{}
	out := t.Outline()
	for i := range out {
		out[i] = out[i].Mul(p.n).Add(at)
	}
	return out
}

// take marks drawn items as placed.
func (p *placer) take(items []sheet.Item) {
	for _, i := range items {
		switch i := i.(type) {
		case sheet.Text:
			p.texts.add(p.outline(i)...)
		case sheet.Line:
			p.lines.add(i.A, i.B)
		case sheet.Hatch:
			p.lines.add(i.Loops[0]...)
		}
	}
}

// cost of items: infinite where they would clash or come to most, else the count
// of lines that their lettering stands on.
func (p *placer) cost(items []sheet.Item, most float64) float64 {
	total := 0.0
	for _, i := range items {
		switch i := i.(type) {
		case sheet.Text:
			o := p.outline(i)
			if p.texts.met(o, 1) > 0 || p.lines.met(o, 1) > 0 {
				return math.Inf(1)
			}
			total += float64(p.ink.met(aired(o, air*p.sheet.LetteringHeight()*p.n), most-total))
		case sheet.Line:
			if p.texts.met([]sheet.Point{i.A, i.B}, 1) > 0 {
				return math.Inf(1)
			}
		case sheet.Hatch:
			if p.texts.met(i.Loops[0], 1) > 0 {
				return math.Inf(1)
			}
		}
		if total >= most {
			return math.Inf(1)
		}
	}
	return total
}

// air is what lettering keeps from lines where there is a choice, letter heights.
const air = 0.4

// aired is an outline whose corners stand out by d, mm, along its sides.
func aired(o []sheet.Point, d float64) []sheet.Point {
	out := make([]sheet.Point, len(o))
	for i, p := range o {
		before, after := o[(i+len(o)-1)%len(o)], o[(i+1)%len(o)]
		out[i] = p.Add(p.Sub(before).Normalize().Mul(d)).Add(p.Sub(after).Normalize().Mul(d))
	}
	return out
}

// best of so many candidates; the first among equals. None if all clash.
func (p *placer) best(count int, items func(i int) []sheet.Item, extra func(i int) float64) (int, bool) {
	at, least := 0, math.Inf(1)
	for i := range count {
		more := extra(i)
		if c := p.cost(items(i), least-more) + more; c < least {
			at, least = i, c
		}
	}
	if math.IsInf(least, 1) {
		return 0, false
	}
	p.take(items(at))
	return at, true
}
