package measure

import (
	"math"
	"sort"

	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// outline is one straight piece of the section that is formed, from its
// beginning to its end going left to right over the roof.
type outline struct {
	Name     string
	from, to geom.Point2
	within   float64 // how near to it a vertex lies on it
}

// Formed are the pieces of the section between the feet of the wall panels.
func (b *Bay) Formed(within float64) []outline {
	h, top := b.Cell.HalfSpan, b.Cell.PlaneTop()
	// what is cast with the invert is there already
	foot := math.Max(b.Cell.Kicker, b.Cell.Bottom.Rise)
	edge := h - b.Cell.Top.Run
	out := []outline{{"left wall", geom.Point2{h, foot}, geom.Point2{h, top}, within}}
	if b.Cell.Top.Exists() {
		out = append(out, outline{"left top haunch", geom.Point2{h, top}, geom.Point2{edge, b.Cell.Rise}, within})
	}
	out = append(out, outline{"soffit", geom.Point2{edge, b.Cell.Rise}, geom.Point2{-edge, b.Cell.Rise}, within})
	if b.Cell.Top.Exists() {
		out = append(out, outline{"right top haunch", geom.Point2{-edge, b.Cell.Rise}, geom.Point2{-h, top}, within})
	}
	return append(out, outline{"right wall", geom.Point2{-h, top}, geom.Point2{-h, foot}, within})
}

// Opening is the widest gap on one piece of the section and where it is. A gap
// counts with the lesser of its width across and of the length along which it
// is at least that wide.
func (b *Bay) Opening(o outline) (worst, at float64) {
	slices := b.slices(b.Carrier.Rear, b.Carrier.Rear+b.Needed)
	gaps := make([]float64, len(slices))
	faces := b.faces()
	for i, s := range slices {
		gaps[i] = widest(faces, o, (s[0]+s[1])/2)
	}
	for i, gap := range gaps {
		first, last := i, i
		for first > 0 && gaps[first-1] >= gap {
			first--
		}
		for last < len(gaps)-1 && gaps[last+1] >= gap {
			last++
		}
		if open := math.Min(gap, slices[last][1]-slices[first][0]); open > worst {
			worst, at = open, slices[i][0]
		}
	}
	return worst, at
}

// slices lie between neighbouring ends of faced parts and hangers within the
// pour: nothing changes within one.
func (b *Bay) slices(rear, front float64) [][2]float64 {
	ends := []float64{rear, front}
	keep := func(box geom.Box) {
		for _, x := range [2]float64{box.Min[0], box.Max[0]} {
			if x > rear && x < front {
				ends = append(ends, x)
			}
		}
	}
	for _, p := range b.Carrier.Parts {
		if p.Role.Faced() {
			keep(p.Box())
		}
	}
	for _, s := range b.LeftFaces() {
		keep(s.Box())
	}
	sort.Float64s(ends)
	var out [][2]float64
	for i := 1; i < len(ends); i++ {
		if ends[i]-ends[i-1] > 1e-6 {
			out = append(out, [2]float64{ends[i-1], ends[i]})
		}
	}
	return out
}

// keptFaces are the plates and nuts that stay, each with the seal that closes the
// play of its pocket.
func (b *Bay) LeftFaces() []*geom.Solid {
	seal := 0.0
	if b.Carrier.Gear.Roof.Pocket != nil {
		seal = float64(b.Carrier.Gear.Roof.Seal)
	}
	var out []*geom.Solid
	for _, s := range b.Stripped.Solids {
		switch {
		case s.Zone != culvert.Hanger:
		case seal == 0:
			out = append(out, s.Solid)
		default:
			box := s.Box()
			for axis := range 2 { // its top stays level with the facing
				box.Min[axis], box.Max[axis] = box.Min[axis]-seal, box.Max[axis]+seal
			}
			out = append(out, geom.Block(box))
		}
	}
	return out
}

// faceSolid is a solid that forms concrete, and the box around it.
type faceSolid struct {
	*geom.Solid
	box geom.Box
}

// faces are the panels and what stays.
func (b *Bay) faces() []faceSolid {
	var out []faceSolid
	for _, p := range b.Carrier.Parts {
		if p.Role.Faced() {
			out = append(out, faceSolid{p.Solid, p.Box()})
		}
	}
	for _, s := range b.LeftFaces() {
		out = append(out, faceSolid{s, s.Box()})
	}
	return out
}

// widest is the widest part of a piece of the section that nothing covers at a
// station. A solid covers where it touches the piece to the limit of
// setup.faces.
func widest(faces []faceSolid, o outline, x float64) float64 {
	along := o.to.Sub(o.from)
	length := along.Len()
	along = along.Mul(1 / length)
	var covered [][2]float64
	for i := range faces {
		if lo, hi, ok := faces[i].covers(x, o, along); ok {
			covered = append(covered, [2]float64{lo, hi})
		}
	}
	sort.Slice(covered, func(i, j int) bool { return covered[i][0] < covered[j][0] })
	reached, widest := 0.0, 0.0
	for _, c := range covered {
		widest = math.Max(widest, math.Min(c[0], length)-reached)
		reached = math.Max(reached, c[1])
	}
	return math.Max(widest, length-reached)
}

// covers is the stretch of a line, from a point along a direction, that a
// solid's vertices on the line bound at a station.
func (s *faceSolid) covers(x float64, o outline, along geom.Point2) (lo, hi float64, ok bool) {
	if x < s.box.Min[0] || x > s.box.Max[0] {
		return 0, 0, false
	}
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, v := range s.Vertices {
		d := geom.Point2{v[1], v[2]}.Sub(o.from)
		if math.Abs(along[0]*d[1]-along[1]*d[0]) > o.within {
			continue
		}
		t := d.Dot(along)
		lo, hi = math.Min(lo, t), math.Max(hi, t)
	}
	return lo, hi, hi > lo
}
