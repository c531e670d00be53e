package carrier

import (
	"boxwalk/model/geom"
)

// frameParts are what keeps its width: header tubes, legs, sills, struts.
func (b *builder) frameParts() {
	f := b.g.Frame
	under := b.s.Header - float64(f.Header.Section.Y)/2
	half := float64(f.Header.Length) / 2
	for n, x := range b.c.Bents {
		hx := float64(f.Header.Section.X) / 2
		b.add(Part{Role: Header, Bent: n + 1, Mass: perMetre(f.Header.Mass, 2*half)}, bodyFrame, geom.Prism(rectangle(-half, under, half, under+float64(f.Header.Section.Y)), x-hx, x+hx))
		sx, reach := float64(f.Strut.X)/2, b.s.Gauge/2-float64(f.Sill.X)/2
		b.add(Part{Role: Strut, Bent: n + 1, Mass: perMetre(f.StrutMass, 2*reach)}, bodyFrame, geom.Prism(rectangle(-reach, b.sillTop()-float64(f.Strut.Y), reach, b.sillTop()), x-sx, x+sx))
	}
	for _, side := range sides {
		x0, x1 := b.whole()
		sill := rectangle(b.s.Gauge/2-float64(f.Sill.X)/2, b.s.Jack, b.s.Gauge/2+float64(f.Sill.X)/2, b.sillTop())
		b.add(Part{Role: Sill, Side: side, Mass: perMetre(f.SillMass, x1-x0)}, bodyFrame, geom.Prism(sill, x0, x1))
		for n, x := range b.c.Bents {
			b.leg(Part{Role: Leg, Side: side, Bent: n + 1}, x, under)
		}
	}
}

// wall of a leg tube: the inner tube is narrower by it on each side. Common
// for square tubes of 100 to 150 mm; judgement.
const tubeWall = 0.010

// leg is two square tubes: the outer from the sill up, the inner from the
// header down; what is pinned out of reach is cut at the other end.
func (b *builder) leg(p Part, x, under float64) {
	w := float64(b.g.Frame.Leg.Section) / 2
	mid := b.s.Gauge / 2
	outer := min(b.sillTop()+float64(b.g.Frame.Leg.Outer), under)
	inner := max(under-float64(b.g.Frame.Leg.Inner), b.sillTop())
	p.Mass = perMetre(b.g.Frame.Leg.OuterMass, outer-b.sillTop())
	b.add(p, bodyFrame, geom.Prism(rectangle(mid-w, b.sillTop(), mid+w, outer), x-w, x+w))
	w -= tubeWall
	p.Mass = perMetre(b.g.Frame.Leg.InnerMass, under-inner)
	b.add(p, bodyFrame, geom.Prism(rectangle(mid-w, inner, mid+w, under), x-w, x+w))
}

// wheelSides is the number of sides of a wheel's circumscribed prism: at
// 125 mm radius it sticks out 0.04 mm, which the uncertainty states.
const wheelSides = 128

// forkPlate and forkGap are thickness of a fork's side plates and their gap to
// the tread; judgement.
const (
	forkPlate = 0.008
	forkGap   = 0.002
)

// wheels stand under the sills in their forks.
func (b *builder) wheels() {
	w := b.g.Wheels
	z, r, tread := b.s.Jack-float64(w.Axle), float64(w.Diameter)/2, float64(w.Tread)/2
	for _, side := range sides {
		for _, at := range w.At {
			x, y := b.c.Rear+float64(at), b.s.Gauge/2
			b.add(Part{Role: Wheel, Side: side}, bodyFrame, geom.Drum(x, z, r, y-tread, y+tread, wheelSides))
			for _, s := range [2]float64{-1, 1} {
				near, far := y+s*(tread+forkGap), y+s*(tread+forkGap+forkPlate)
				b.add(Part{Role: Fork, Side: side}, bodyFrame, geom.Prism(rectangle(min(near, far), z-r/4, max(near, far), b.s.Jack), x-r/2, x+r/2))
			}
		}
	}
}

// jacks are plate and screw under each leg; the screw runs up into the leg.
func (b *builder) jacks() {
	j := b.g.Jack
	for _, side := range sides {
		for n, x := range b.c.Bents {
			y, t := b.s.Gauge/2, float64(j.Plate.Z)
			px, py, w := float64(j.Plate.X)/2, float64(j.Plate.Y)/2, float64(j.Screw)/2
			body := sided(bodyPlate, side)
			b.add(Part{Role: JackPlate, Side: side, Bent: n + 1}, body, geom.Prism(rectangle(y-py, 0, y+py, t), x-px, x+px))
			b.add(Part{Role: JackScrew, Side: side, Bent: n + 1}, body, geom.Prism(rectangle(y-w, t, y+w, b.s.Jack), x-w, x+w))
		}
	}
}
