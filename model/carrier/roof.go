package carrier

import (
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// spaced collects centres of bars of one width that lie within bounds and do
// not run into one collected before.
type spaced struct {
	half, lo, hi float64
	at           []float64
}

func (s *spaced) keep(centre float64) {
	if centre-s.half < s.lo-1e-9 || centre+s.half > s.hi+1e-9 {
		return
	}
	for _, have := range s.at {
		if centre < have+2*s.half && centre > have-2*s.half {
			return
		}
	}
	s.at = append(s.at, centre)
}

// stringerWays are the centres of the stringers, left of the centreline, under
// a roof panel from inner to outer edge, one of which lies at the filler.
func (b *builder) stringerWays(inner, outer, filler float64) []float64 {
	sec, inward := b.g.Roof.Stringers, 1.0
	if filler > inner {
		inward = -1
	}
	s := spaced{half: float64(sec.Section.X) / 2, lo: inner, hi: outer}
	for _, v := range sec.FromCorner {
		s.keep(b.s.Edge - float64(v))
	}
	for _, v := range sec.FromFiller {
		s.keep(filler + inward*float64(v))
	}
	return s.at
}

// stringers run along the form under the roof panels of a body, from inner to
// outer edge with a filler at one of them, on seats at every bent.
func (b *builder) stringers(body func(culvert.Side) string, inner, outer, filler float64, on seating) {
	x0, x1 := b.whole()
	sec := b.g.Roof.Stringers.Section
	top := b.s.Soffit - float64(b.g.Roof.Depth)
	for _, side := range sides {
		for _, y := range b.stringerWays(inner, outer, filler) {
			w := float64(sec.X) / 2
			b.add(Part{Role: Stringer, Side: side, Mass: perMetre(b.g.Roof.Stringers.Mass, x1-x0)}, body(side), geom.Prism(rectangle(y-w, top-float64(sec.Y), y+w, top), x0, x1))
			b.seated(side, y, on(b, y, w))
			b.pads(side, body(side), on(b, y, w), y, top-float64(sec.Y))
		}
	}
	if b.g.Roof.Stringers.Middle {
		w := float64(sec.X) / 2
		b.add(Part{Role: Stringer, Mass: perMetre(b.g.Roof.Stringers.Mass, x1-x0)}, body(culvert.Both), geom.Prism(rectangle(-w, top-float64(sec.Y), w, top), x0, x1))
		b.seated(culvert.Both, 0, on(b, 0, w))
		b.pads(culvert.Both, body(culvert.Both), on(b, 0, w), 0, top-float64(sec.Y))
	}
}

// seat is what carries a stringer at a bent: on the header tube or on an arm, its
// foot and half its width. None has no role.
type seat struct {
	role, on   Role
	foot, half float64
}

// seating is the seat of a stringer at y that is twice w wide.
type seating func(b *builder, y, w float64) seat

// onTube is a pad on the header tube, where it reaches.
func (b *builder) onTube(y, w float64) seat {
	f := b.g.Frame.Header
	if y-w > float64(f.Length)/2 {
		return seat{}
	}
	return seat{Pad, Header, b.s.Header + float64(f.Section.Y)/2, w}
}

// onTubeOrArm is a pad on the header tube where it reaches, else on the arm.
func (b *builder) onTubeOrArm(y, w float64) seat {
	f := b.g.Frame.Header
	if y+w > float64(f.Length)/2 {
		return seat{Pad, Arm, b.s.Header + float64(f.Arm.Section.Y)/2, w}
	}
	return b.onTube(y, w)
}

// onRoofJackOrTube is a screw that stands in the header where the gear has roof
// jacks, else a pad.
func (b *builder) onRoofJackOrTube(y, w float64) seat {
	if b.g.RoofJack == nil {
		return b.onTube(y, w)
	}
	return seat{RoofScrew, Header, b.s.Header, w / 2}
}

// pads are the seats of a stringer at y, at every bent.
func (b *builder) pads(side culvert.Side, body string, on seat, y, under float64) {
	if on.role == "" {
		return
	}
	for n, x := range b.c.Bents {
		hx := float64(b.g.Frame.Header.Section.X) / 4
		b.add(Part{Role: on.role, Side: side, Bent: n + 1}, body, geom.Prism(rectangle(y-on.half, on.foot, y+on.half, under), x-hx, x+hx))
	}
}

// between cuts the hanger plates out of a filler that lies between y0 and y1
// at the soffit, on one side, wider underneath by taper0 and taper1.
func (b *builder) between(side culvert.Side, y0, y1, taper0, taper1 float64) [][]geom.Point2 {
	type cut struct{ lo, hi float64 }
	sign := 1.0
	if side == culvert.Right {
		sign = -1
	}
	var cuts []cut
	if b.kept.Hangers != nil {
		for _, line := range b.kept.Lines {
			y, w := sign*float64(line), float64(b.kept.Plate.Y)/2
			if y+w > y0 && y-w < y1 {
				cuts = append(cuts, cut{y - w, y + w})
			}
		}
	}
	// few lines: insertion by repeated least
	var out [][]geom.Point2
	lo, t := y0, taper0
	for lo < y1 {
		next := cut{y1, y1}
		t1 := taper1
		for _, c := range cuts {
			if c.hi > lo && c.lo < next.lo {
				next, t1 = c, 0
			}
		}
		if next.lo-lo > 1e-3 {
			out = append(out, b.filling(lo, next.lo, t, t1))
		}
		lo, t = max(next.hi, lo+1e-9), 0
		if next.lo == y1 {
			break
		}
	}
	return out
}

// filling is the outline of a filler.
func (b *builder) filling(y0, y1, taper0, taper1 float64) []geom.Point2 {
	under := b.s.Soffit - float64(b.g.Roof.Depth)
	return []geom.Point2{{y0, b.s.Soffit}, {y1, b.s.Soffit}, {y1 + taper1, under}, {y0 - taper0, under}}
}

// Fillers go down by fillerDrop between the bents before they are carried off;
// over a header they only come down by overBentDrop and are then slid out along
// the cell. Both only have to show that the taper frees them; judgement.
const (
	fillerDrop   = 0.060
	overBentDrop = 0.008
)
