package views

import (
	"fmt"
	"slices"

	"boxwalk/export/sheet"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// wallElevation is one wall form seen from inside the cell: ahead is right on the left
// wall and left on the right one.
func (o *drafter) wallElevation(s *sheet.Sheet, b *model.Bay, side culvert.Side, n float64) *sheet.View {
	c := b.Carrier
	v := sheet.NewView(map[culvert.Side]string{culvert.Left: "Left wall from inside, ahead to the right", culvert.Right: "Right wall from inside, ahead to the left"}[side])
	v.Scale = n
	place := flatPlace(func(x, _, z float64) sheet.Point { return sheet.Pt(perMetre*float64(side)*(x-c.Rear), perMetre*z) })
	var across, ties []float64 // lines that marks keep clear of: heights of walers, places of ties
	var walers []carrier.Part
	for _, p := range c.Parts {
		if p.Side != side {
			continue
		}
		r := place.rectOf(p)
		switch p.Role {
		case carrier.Waler:
			v.Rect(sheet.Steel, r.Min, r.Max)
			across = append(across, r.Min[1], r.Max[1])
			walers = append(walers, p)
		case carrier.Tie:
			tieMark(v, r.Centre(), n)
			ties = append(ties, r.Centre()[0])
		}
	}
	var small thin
	for i, p := range c.Parts {
		if p.Side != side || p.Piece > 0 || p.Role != carrier.WallPanel && p.Role != carrier.CornerPanel {
			continue
		}
		r := place.wholeRect(c.Parts, i)
		v.Rect(sheet.Panel, r.Min, r.Max)
		at := sheet.Pt(clearest(r.Min[0], r.Max[0], ties), clearest(r.Min[1], r.Max[1], across))
		if fits(s, r, p.At(), n) {
			v.Text(at, sheet.MiddleCentre, p.At())
		} else {
			small.add(p.Mark, r)
		}
	}
	for _, p := range walers {
		r := place.rectOf(p)
		v.Text(sheet.Pt(clearest(r.Max[0]-endPanel, r.Max[0], ties), r.Max[1]+0.6*n), sheet.BaseCentre, p.At())
	}
	small.letter(v, (c.Foot+b.Cell.Rise)/2*perMetre, n)
	o.wallDimensions(v, b, side, place)
	return v
}

// endPanel is how far from the end of a waler its mark may stand, mm.
const endPanel = 1700

// tieMark is a tie seen end on: a cross in a circle that can be seen on paper.
func tieMark(v *sheet.View, at sheet.Point, n float64) {
	const radius = 0.8 // mm of paper
	v.Circle(sheet.Hardware, at, radius*n)
	for _, d := range []sheet.Point{{1.6 * radius * n, 0}, {0, 1.6 * radius * n}} {
		v.Line(sheet.Hardware, at.Sub(d), at.Add(d))
	}
}

// wallDimensions are the lengths of panels above, ties below, heights of panels and
// walers at the side.
func (o *drafter) wallDimensions(v *sheet.View, b *model.Bay, side culvert.Side, place flatPlace) {
	c := b.Carrier
	x1 := c.Rear + float64(c.Gear.Form.Length)
	foot, top := c.Foot, b.Cell.Rise
	seams, levels, ties := []float64{c.Rear, x1}, []float64{foot, top}, []float64(nil)
	var walers []float64
	mark := ""
	for _, p := range c.Parts {
		if p.Side != side {
			continue
		}
		box := p.Box()
		switch p.Role {
		case carrier.WallPanel, carrier.CornerPanel:
			seams, levels = apart(seams, box.Min[0], box.Max[0]), apart(levels, box.Min[2], box.Max[2])
		case carrier.Waler:
			walers = apart(walers, box.Center()[2])
		case carrier.Tie:
			ties, mark = apart(ties, box.Center()[0]), p.Mark
		}
	}
	at := func(x, z float64) sheet.Point { return place(x, 0, z) }
	chain := func(list []float64, point func(float64) sheet.Point) []sheet.Span {
		var points []sheet.Point
		for _, x := range list {
			points = append(points, point(x))
		}
		return sheet.Chain(points...)
	}
	v.Stack(sheet.Above, perMetre*top, append(chain(seams, func(x float64) sheet.Point { return at(x, top) }), sheet.Span{From: at(c.Rear, top), To: at(x1, top), Suffix: " form"})...)
	if k := len(ties); k > 0 {
		spans := []sheet.Span{{From: at(c.Rear, foot), To: at(ties[0], foot), Suffix: " edge"}, {From: at(ties[k-1], foot), To: at(x1, foot), Suffix: " edge"}}
		if k > 1 {
			spans = append(spans, sheet.Span{From: at(ties[0], foot), To: at(ties[1], foot), Suffix: " TYP"},
				sheet.Span{From: at(ties[0], foot), To: at(ties[k-1], foot), Suffix: fmt.Sprintf(" = %d spaces, ties %s at every waler", k-1, mark)})
		}
		v.Stack(sheet.Below, perMetre*foot, spans...)
	}
	// heights of walers on the left of the view, of panels on its right
	left, right := place(c.Rear, 0, 0)[0], place(x1, 0, 0)[0]
	if left > right {
		left, right = right, left
	}
	height := func(x float64) func(float64) sheet.Point {
		return func(z float64) sheet.Point { return sheet.Pt(x, perMetre*z) }
	}
	v.Stack(sheet.Left, left, append(chain(append([]float64{foot}, walers...), height(left)), sheet.Span{From: height(left)(foot), To: height(left)(top)})...)
	v.Stack(sheet.Right, right, chain(levels, height(right))...)
}

// apart is a sorted list with values that are not in it yet, to a hundredth of a
// millimetre.
func apart(list []float64, values ...float64) []float64 {
	for _, x := range values {
		if !slices.ContainsFunc(list, func(have float64) bool { return abs(have-x) < 1e-5 }) {
			list = append(list, x)
		}
	}
	slices.Sort(list)
	return list
}
