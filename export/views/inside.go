package views

import (
	"boxwalk/export/sheet"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// insideDimensions are the carrier's own measures, set out where the section is
// emptiest.
func (o *drafter) insideDimensions(v *sheet.View, st stand, p *placer) {
	c := st.bay.Carrier
	if st.step < 0 {
		hingeDimensions(v, st, p)
		trackDimensions(v, st, p)
	}
	if in, slides := st.armsIn(); slides {
		tube := float64(c.Gear.Frame.Header.Length) / 2
		z := c.Header - st.lowered() - float64(c.Gear.Frame.Header.Section.Y)/2
		inner := c.ArmInner - in
		p.dimension(v, sheet.Dimension{From: across(tube, z), To: across(inner, z), Suffix: " in tube"}, heights(z-0.1, z-1))
	}
	reach, half := c.Gauge/2, st.bay.Cell.HalfSpan
	p.dimension(v, sheet.Dimension{From: across(0, 0), To: across(0, c.Header-st.lowered()), Angle: 90, Suffix: " header"}, levels(0.15*reach, 0.8*reach))
	if st.step < 0 {
		p.dimension(v, sheet.Dimension{From: across(reach, 0), To: across(reach, c.Jack), Angle: 90, Suffix: " jack"}, levels(0.1*reach, 0.9*reach))
		p.dimension(v, sheet.Dimension{From: across(half, 0), To: across(half, c.Foot), Angle: 90, Suffix: " foot"}, levels(half-0.02, reach+0.12))
	}
}

// hingeDimensions are how far the left hinge lies behind the wall face and
// above the top of its plane part, where walls hinge.
func hingeDimensions(v *sheet.View, st stand, p *placer) {
	c, half := st.bay.Carrier, st.bay.Cell.HalfSpan
	for _, h := range st.hinges() {
		y, z := h[0], h[1]
		if y < 0 {
			continue
		}
		p.dimension(v, sheet.Dimension{From: across(half, c.PlaneTop), To: across(y, z), Suffix: " hinge"}, heights(c.PlaneTop-0.15, c.PlaneTop-1.2))
		if abs(z-c.PlaneTop) > 1e-6 {
			p.dimension(v, sheet.Dimension{From: across(half, c.PlaneTop), To: across(y, z), Angle: 90, Suffix: " hinge"}, levels(y-0.05, 0))
		}
	}
}

// trackDimensions are the length and the fall of the left roller track, where
// walls draw in on one.
func trackDimensions(v *sheet.View, st stand, p *placer) {
	parts, _ := st.atBent(st.middle())
	for _, t := range parts {
		if t.Role != carrier.Track || t.Side != culvert.Left {
			continue
		}
		lo, hi := running(t)
		p.dimension(v, sheet.Dimension{From: across(hi[1], hi[2]), To: across(lo[1], lo[2]), Suffix: " track"}, heights(lo[2]-0.25, lo[2]-1.2))
		p.dimension(v, sheet.Dimension{From: across(lo[1], lo[2]), To: across(hi[1], hi[2]), Angle: 90, Suffix: " fall"}, levels(lo[1]-0.05, 0))
		return
	}
}

// running are the inner and the outer end of the face that rollers run on: of
// each end of a left track the highest point.
func running(track carrier.Part) (inner, outer geom.Vec) {
	inner, outer = track.Vertices[0], track.Vertices[0]
	for _, w := range track.Vertices {
		if w[1] < inner[1]-1e-9 || w[1] < inner[1]+1e-9 && w[2] > inner[2] {
			inner = w
		}
		if w[1] > outer[1]+1e-9 || w[1] > outer[1]-1e-9 && w[2] > outer[2] {
			outer = w
		}
	}
	return inner, outer
}

// fallOf is the fall of the left roller track, as it is built.
func fallOf(c *carrier.Carrier) float64 {
	for _, p := range c.Parts {
		if p.Role == carrier.Track && p.Side == culvert.Left {
			inner, outer := running(p)
			return (outer[2] - inner[2]) / (outer[1] - inner[1])
		}
	}
	return 0
}

// baseSteps is how many places are tried for a dimension line.
const baseSteps = 36

// levels are places for an upright dimension line, from one offset across the
// cell to another, m; heights are those for a level one.
func levels(y0, y1 float64) []sheet.Point {
	return between(across(y0, 0), across(y1, 0))
}

func heights(z0, z1 float64) []sheet.Point {
	return between(across(0, z0), across(0, z1))
}

func between(a, b sheet.Point) []sheet.Point {
	var out []sheet.Point
	for i := range baseSteps {
		out = append(out, a.Add(b.Sub(a).Mul(float64(i)/(baseSteps-1))))
	}
	return out
}

// wordless is what it costs, in lines written over, to leave the word out.
const wordless = 0.5

// dimension adds a dimension with its line through one of the bases, the text
// at either end: where it stands on least, and among equals at the first. Its
// suffix is left out where the bare number stands better; what it measures is
// in the table of settings, too. A dimension that clashes everywhere is not drawn.
func (p *placer) dimension(v *sheet.View, d sheet.Dimension, bases []sheet.Point) {
	d.On = sheet.Dimensioning
	bare := d
	bare.Suffix = ""
	var tries []sheet.Dimension
	for _, d := range []sheet.Dimension{d, bare} {
		for _, b := range bases {
			for _, before := range []bool{false, true} {
				d.Base, d.Before = b, before
				tries = append(tries, d)
			}
		}
	}
	extra := func(i int) float64 {
		if tries[i].Suffix == "" {
			return wordless
		}
		return 0
	}
	if i, ok := p.best(len(tries), func(i int) []sheet.Item { return p.sheet.Draw(tries[i], p.n).Items() }, extra); ok {
		v.Add(tries[i])
	}
}
