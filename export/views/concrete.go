package views

import (
	"boxwalk/export/sheet"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// opening is the clear outline of a cell, its channel with it, centreline at y,
// as {y, z}.
func opening(s culvert.Section, y float64) []geom.Point2 {
	out := s.Opening()
	for i := range out {
		out[i][0] += y
	}
	return out
}

// stub is how much of a neighbouring cell is drawn beyond an inner wall, m.
const stub = 0.28

// concreteSection draws the concrete of one cell with hatching, cut off beyond
// inner walls, and the construction joint on top of the kickers.
func (o *drafter) concreteSection(v *sheet.View, cell culvert.Cell) {
	sec := cell.Section
	base, crown := -sec.Invert, sec.Rise+sec.Roof
	outer := [2]float64{sec.HalfSpan + sec.Left, sec.HalfSpan + sec.Right} // left, right
	open := opening(sec, 0)
	loops := [][]sheet.Point{nil, acrossAll(open)}
	limit := outer
	for i, side := range [2]float64{1, -1} {
		if next := o.neighbour(cell, i); next != nil {
			limit[i] += stub
			part := clipStub(opening(next.Section, side*(outer[i]+next.HalfSpan)), side, limit[i])
			loops = append(loops, acrossAll(part))
			v.Polyline(sheet.Concrete, acrossAll(part)...)
			breakLine(v, across(side*limit[i], crown), across(side*limit[i], next.Rise))
			low := min(part[0][1], part[len(part)-1][1])
			breakLine(v, across(side*limit[i], low), across(side*limit[i], base))
			continue
		}
		v.Line(sheet.Concrete, across(side*limit[i], base), across(side*limit[i], crown))
	}
	loops[0] = sheet.RectLoop(across(limit[0], base), across(-limit[1], crown))
	v.Hatch(sheet.ConcreteHatch, sheet.ConcretePattern, loops...)
	v.Polygon(sheet.Concrete, loops[1]...)
	v.Line(sheet.Concrete, across(limit[0], base), across(-limit[1], base))
	v.Line(sheet.Concrete, across(limit[0], crown), across(-limit[1], crown))
	if sec.Kicker > 0 {
		v.Line(sheet.General, across(sec.HalfSpan, sec.Kicker), across(outer[0], sec.Kicker))
		v.Line(sheet.General, across(-sec.HalfSpan, sec.Kicker), across(-outer[1], sec.Kicker))
	}
}

// neighbour is the next cell on the left (0) or the right (1), nil beyond the
// outer walls.
func (o *drafter) neighbour(c culvert.Cell, side int) *culvert.Cell {
	i := c.Number - 2
	if side == 1 {
		i = c.Number
	}
	if i < 0 || i >= len(o.study.Culvert.Cells) {
		return nil
	}
	return &o.study.Culvert.Cells[i]
}

// clipStub is the part of an opening nearer to the centreline than limit, as an
// open run that begins and ends at the limit.
func clipStub(open []geom.Point2, side, limit float64) []geom.Point2 {
	inside := func(p geom.Point2) bool { return side*p[0] < limit }
	at := func(p, q geom.Point2) geom.Point2 {
		t := (side*limit - p[0]) / (q[0] - p[0])
		return p.Add(q.Sub(p).Mul(t))
	}
	n := len(open)
	start := 0
	for i := range open {
		if inside(open[i]) && !inside(open[(i+n-1)%n]) {
			start = i
		}
	}
	out := []geom.Point2{at(open[(start+n-1)%n], open[start])}
	for i := range n {
		p, q := open[(start+i)%n], open[(start+i+1)%n]
		out = append(out, p)
		if !inside(q) {
			return append(out, at(p, q))
		}
	}
	return out
}

// breakLine is a thin line with a zigzag: the drawing goes on beyond it.
func breakLine(v *sheet.View, a, b sheet.Point) {
	u := b.Sub(a)
	l := u.Len()
	u = u.Mul(1 / l)
	w := sheet.Pt(-u[1], u[0]).Mul(l / 8)
	at := func(t float64) sheet.Point { return a.Add(u.Mul(l * t)) }
	v.Polyline(sheet.Dimensioning, at(-0.12), at(0.42), at(0.46).Add(w), at(0.54).Sub(w), at(0.58), at(1.12))
}
