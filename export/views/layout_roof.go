package views

import (
	"fmt"

	"boxwalk/export/sheet"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// roofLayout is the roof form seen from above, ahead to the right.
func (o *drafter) roofLayout(s *sheet.Sheet, b *model.Bay, n float64) *sheet.View {
	c := b.Carrier
	v := sheet.NewView("Roof form from above, ahead to the right")
	v.Scale = n
	place := flatPlace(func(x, y, _ float64) sheet.Point { return sheet.Pt(perMetre*(x-c.Rear), perMetre*y) })
	var bents, ways []float64
	edge := perMetre * b.Cell.HalfSpan
	for i, x := range c.Bents {
		at := perMetre * (x - c.Rear)
		bents = append(bents, at)
		v.Line(sheet.Centre, sheet.Pt(at, -edge-15*n), sheet.Pt(at, perMetre*c.Edge+2*n))
		v.Text(sheet.Pt(at+1.2*n, -edge-14*n), sheet.BaseLeft, fmt.Sprint(i+1))
	}
	var ends []callout
	for _, p := range c.Parts {
		if p.Role == carrier.Stringer {
			r := place.rectOf(p)
			v.Rect(sheet.Hidden, r.Min, r.Max)
			ways = append(ways, r.Min[1], r.Max[1])
			ends = append(ends, callout{sheet.Pt(r.Max[0], r.Centre()[1]), p.At() + " stringer"})
		}
	}
	for _, k := range b.Concrete {
		if box := k.Box(); k.Zone == culvert.Hanger && box.Max[2]-box.Min[2] < 0.1 && box.Min[0] > c.Rear && box.Max[0] < c.Rear+float64(c.Gear.Form.Length) {
			v.Rect(sheet.Hardware, place(box.Min[0], box.Min[1], 0), place(box.Max[0], box.Max[1], 0))
		}
	}
	var seams []float64
	small := map[bool]*markers{true: {}, false: {}} // above and below
	for i, p := range c.Parts {
		if p.Piece > 0 || p.Role != carrier.RoofPanel && p.Role != carrier.Filler {
			continue
		}
		r := place.wholeRect(c.Parts, i)
		v.Rect(sheet.Panel, r.Min, r.Max)
		if p.Role == carrier.RoofPanel {
			seams = apart(seams, r.Min[0], r.Max[0])
		}
		at := sheet.Pt(clearest(r.Min[0], r.Max[0], bents), clearest(r.Min[1], r.Max[1], ways))
		if fits(s, r, p.At(), n) {
			v.Text(at, sheet.MiddleCentre, p.At())
		} else {
			small[r.Centre()[1] >= -1].add(r.Centre(), p.Mark)
		}
	}
	rowOf(s, v, small[true].callouts(), edge+3*n, n, seams)
	rowOf(s, v, small[false].callouts(), -edge-3*n, n, append(bents, 0, perMetre*float64(c.Gear.Form.Length)))
	column(s, v, ends, perMetre*float64(c.Gear.Form.Length)+10*n, perMetre*c.Edge, n)
	o.roofDimensions(v, b, place, n)
	return v
}

// roofDimensions are the lengths of panels and fillers, and the widths across.
func (o *drafter) roofDimensions(v *sheet.View, b *model.Bay, place flatPlace, n float64) {
	c := b.Carrier
	x0, x1 := c.Rear, c.Rear+float64(c.Gear.Form.Length)
	seams, widths := []float64{x0, x1}, []float64(nil)
	for i, p := range c.Parts {
		if p.Piece > 0 || p.Role != carrier.RoofPanel && p.Role != carrier.Filler {
			continue
		}
		r := place.wholeRect(c.Parts, i)
		if p.Role == carrier.RoofPanel {
			seams = apart(seams, x0+r.Min[0]/perMetre, x0+r.Max[0]/perMetre)
			widths = apart(widths, r.Min[1]/perMetre, r.Max[1]/perMetre)
		}
	}
	edge := perMetre*b.Cell.HalfSpan + 9*n
	var along, across []sheet.Point
	for _, x := range seams {
		along = append(along, place(x, c.Edge, 0))
	}
	for _, y := range widths {
		across = append(across, place(x0, y, 0))
	}
	v.Stack(sheet.Above, edge, append(sheet.Chain(along...), sheet.Span{From: along[0], To: along[len(along)-1], Suffix: " form"})...)
	v.Stack(sheet.Left, 0, sheet.Chain(across...)...)
	k := len(c.Bents)
	at := func(x float64) sheet.Point { return place(x, -c.Edge, 0) }
	spans := []sheet.Span{{From: at(x0), To: at(c.Bents[0])}, {From: at(c.Bents[k-1]), To: at(x1)}, {From: at(c.Bents[0]), To: at(c.Bents[k-1]), Suffix: fmt.Sprintf(" = %d spaces", k-1)}}
	v.Stack(sheet.Below, -perMetre*b.Cell.HalfSpan-16*n, spans...)
}
