package views

import (
	"boxwalk/export/sheet"
)

// trackSection is the section across the invert, looking ahead, with the treads,
// their wander and what they keep clear of.
func (o *drafter) trackSection(s *sheet.Sheet, r trackRun) *sheet.View {
	b := r[0]
	cell := b.Cell
	n := o.trackDetail(outerFaces(b))
	v := sheet.NewView("Section across the treads, looking ahead")
	v.Scale = n
	top := max(cell.Kicker, cell.Bottom.Rise) + 0.05
	o.trackSlab(v, r, top)
	w := b.Carrier.Gear.Wheels
	tread, wander, gauge := float64(w.Tread), float64(o.study.Job.Travel.Wander), b.Carrier.Gauge
	for _, side := range [2]float64{1, -1} {
		y := side * gauge / 2
		v.Rect(sheet.Hardware, across(y-tread/2, 0), across(y+tread/2, float64(w.Diameter)))
		v.Line(sheet.Centre, across(y, -0.04), across(y, float64(w.Diameter)+0.06))
		for _, e := range [2]float64{y - tread/2 - wander, y + tread/2 + wander} {
			v.Line(sheet.Collapsed, across(e, -0.03), across(e, float64(w.Diameter)+0.03))
		}
	}
	v.Line(sheet.Centre, across(0, -cell.Invert-0.05), across(0, 0.08))
	o.trackSectionDimensions(v, r, top, sectionLine*s.LetteringHeight()*n)
	return v
}

// Scales of the section, metric and imperial, the larger where it then stays
// within the width, mm of paper, that the middle sizes of paper have.
const (
	detailMetric, detailMetricSmall     = 10, 20
	detailImperial, detailImperialSmall = 12, 24
	detailWide                          = 460
)

func (o *drafter) trackDetail(outer [2]float64) float64 {
	large, small := float64(detailMetric), float64(detailMetricSmall)
	if o.units().Imperial {
		large, small = detailImperial, detailImperialSmall
	}
	if perMetre*(outer[0]-outer[1])/large <= detailWide {
		return large
	}
	return small
}

// trackEdge is how far the nearest thing beside a tread's outer edge is from the
// centreline, and what it is.
func trackEdge(r trackRun) (at float64, what string) {
	cell := r[0].Cell
	if cell.Bottom.Exists() {
		return cell.HalfSpan - cell.Bottom.Run, " to toe"
	}
	return cell.HalfSpan, " to face"
}

// trackSlab is the cut invert with its kickers and channel.
func (o *drafter) trackSlab(v *sheet.View, r trackRun, top float64) {
	cell := r[0].Cell
	left, right := cell.HalfSpan+cell.Left, -cell.HalfSpan-cell.Right
	kicker := max(cell.Kicker, cell.Bottom.Rise)
	loop := []sheet.Point{across(left, -cell.Invert), across(left, kicker), across(cell.HalfSpan, kicker)}
	add := func(y, z float64) { loop = append(loop, across(y, z)) }
	if cell.Bottom.Exists() {
		add(cell.HalfSpan, cell.Bottom.Rise)
		add(cell.HalfSpan-cell.Bottom.Run, 0)
	} else {
		add(cell.HalfSpan, 0)
	}
	if ch := cell.Channel; ch.Exists() {
		l, r := ch.Offset+ch.Width/2, ch.Offset-ch.Width/2
		add(l, 0)
		add(l, -ch.Depth)
		add(r, -ch.Depth)
		add(r, 0)
	}
	if cell.Bottom.Exists() {
		add(-cell.HalfSpan+cell.Bottom.Run, 0)
		add(-cell.HalfSpan, cell.Bottom.Rise)
	} else {
		add(-cell.HalfSpan, 0)
	}
	add(-cell.HalfSpan, kicker)
	add(right, kicker)
	add(right, -cell.Invert)
	v.Hatch(sheet.ConcreteHatch, sheet.ConcretePattern, loop)
	v.Polygon(sheet.Concrete, loop...)
}

// sectionLine is the distance of one dimension line from the next, in letter
// heights: what the clearance takes before the others begin.
const sectionLine = 3

// trackSectionDimensions are gauge, treads, wander, and what is left beside the
// treads.
func (o *drafter) trackSectionDimensions(v *sheet.View, r trackRun, top, line float64) {
	b := r[0]
	cell, gauge, tread := b.Cell, b.Carrier.Gauge, float64(b.Carrier.Gear.Wheels.Tread)
	wander := float64(o.study.Job.Travel.Wander)
	edge, word := trackEdge(r)
	z := float64(b.Carrier.Gear.Wheels.Diameter)
	at := func(y, z float64) sheet.Point { return across(y, z) }
	v.Stack(sheet.Above, perMetre*max(top, z),
		sheet.Span{From: at(gauge/2, z), To: at(-gauge/2, z), Suffix: " gauge"},
		sheet.Span{From: at(gauge/2+tread/2, z), To: at(gauge/2-tread/2, z), Suffix: " tread"},
		sheet.Span{From: at(cell.HalfSpan, top), To: at(-cell.HalfSpan, top), Suffix: " face to face"})
	var more []sheet.Span
	if wander > 0 {
		tip := at(gauge/2-tread/2-wander, 0.6*z)
		v.Note(tip, tip.Add(sheet.Pt(perMetre*0.12, 0)), "wander "+o.bare(wander), "each way")
	}
	if cell.Bottom.Exists() {
		more = append(more, sheet.Span{From: at(edge, 0), To: at(-edge, 0), Suffix: " toe to toe"})
	}
	side := 1.0 // where the treads' outer edge is dimensioned: away from the channel's
	if ch := cell.Channel; ch.Exists() {
		more = append(more, sheet.Span{From: at(ch.Offset+ch.Width/2, 0), To: at(ch.Offset-ch.Width/2, 0), Suffix: " channel"})
		near := gauge/2 - tread/2 - (ch.Offset + ch.Width/2)
		if other := gauge/2 - tread/2 + (ch.Offset - ch.Width/2); other < near {
			more = append(more, sheet.Span{From: at(ch.Offset-ch.Width/2, 0), To: at(-gauge/2+tread/2, 0), Suffix: " to channel"})
		} else {
			side = -1
			more = append(more, sheet.Span{From: at(ch.Offset+ch.Width/2, 0), To: at(gauge/2-tread/2, 0), Suffix: " to channel"})
		}
	}
	v.Stack(sheet.Below, -perMetre*cell.Invert, more...)
	v.Add(sheet.DimStack{On: sheet.Clearance, Side: sheet.Below, Edge: -perMetre*cell.Invert - line*float64(len(more)),
		Spans: []sheet.Span{{From: at(side*(gauge/2+tread/2), 0), To: at(side*edge, 0), Suffix: word}}})
}
