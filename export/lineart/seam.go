package lineart

import (
	"cmp"
	"math"
	"slices"

	"github.com/fogleman/ln/ln"
)

const (
	// touching is how close in millimetres pieces of a whole lie together.
	touching = 0.01
	// flat is the turn in radians up to which two faces count as one.
	flat = 1e-3
)

// piece is a stretch of an edge, in shares of its length in space, and what it
// is when nothing hides it.
type piece struct {
	span
	kind Kind
}

// seams finds where the edges of a piece are no edges of the whole.
type seams struct {
	view  view
	its   []item
	mates map[int32][]int32 // items of each whole
}

func newSeams(its []item, v view) *seams {
	s := &seams{view: v, its: its, mates: map[int32][]int32{}}
	for i, it := range its {
		s.mates[it.whole] = append(s.mates[it.whole], int32(i))
	}
	return s
}

// pieces splits an edge of item i where its neighbours in the whole change
// what it is, and leaves out what is no edge: inside the whole or in a face
// that runs on.
func (s *seams) pieces(dst []piece, i int, e edge, kind Kind) []piece {
	it := &s.its[i]
	a, b := it.verts[e.from], it.verts[e.to]
	length := b.Sub(a).Length()
	contacts := s.contacts(i, a, b, length)
	left, right := it.planes[e.left].n, it.planes[e.right].n
	if len(contacts) == 0 || left.Dot(left) == 0 || right.Dot(right) == 0 {
		return append(dst, piece{span{0, 1}, kind})
	}
	frame := newAxial(b.Sub(a).DivScalar(length))
	own, _ := frame.wedge(left, right)
	marks := marksOf(contacts)
	for k := 1; k < len(marks); k++ {
		part := span{marks[k-1], marks[k]}
		if (part.to-part.from)*length < touching {
			continue
		}
		mid := (part.from + part.to) / 2
		solid := append(frame.solidAt(contacts, mid), own)
		at := a.Add(b.Sub(a).MulScalar(mid))
		around, ok := s.kindAround(frame, solid, at, kind)
		if !ok {
			continue
		}
		if kind == CutRim {
			around = CutRim
		}
		dst = append(dst, piece{part, around})
	}
	return dst
}

// contact is a stretch of an edge on or in another piece of the whole, with
// the normals of that piece's faces there.
type contact struct {
	span
	normals []ln.Vector
}

func (s *seams) contacts(i int, a, b ln.Vector, length float64) []contact {
	var out []contact
	mates := s.mates[s.its[i].whole]
	if len(mates) < 2 {
		return nil
	}
	box := ln.BoxForVectors([]ln.Vector{a, b})
	for _, m := range mates {
		if int(m) == i || apart(box, s.its[m].box, touching) {
			continue
		}
		if c, ok := s.its[m].contact(a, b, length); ok {
			out = append(out, c)
		}
	}
	return out
}

func apart(a, b ln.Box, by float64) bool {
	return a.Min.X > b.Max.X+by || b.Min.X > a.Max.X+by ||
		a.Min.Y > b.Max.Y+by || b.Min.Y > a.Max.Y+by ||
		a.Min.Z > b.Max.Z+by || b.Min.Z > a.Max.Z+by
}

// contact is where a-b lies in c or within touching of it.
func (c *Convex) contact(a, b ln.Vector, length float64) (contact, bool) {
	out := contact{span: span{0, 1}}
	for _, p := range c.planes {
		da, db := p.n.Dot(a)-p.d, p.n.Dot(b)-p.d
		if math.Abs(da) <= touching && math.Abs(db) <= touching {
			out.normals = append(out.normals, p.n)
			continue
		}
		switch {
		case da > 0 && db > 0:
			return contact{}, false
		case da > 0:
			out.from = max(out.from, da/(da-db))
		case db > 0:
			out.to = min(out.to, da/(da-db))
		}
	}
	return out, (out.to-out.from)*length > touching
}

// marksOf are the places where contacts begin and end, with 0 and 1, in order.
func marksOf(contacts []contact) []float64 {
	marks := []float64{0, 1}
	for _, c := range contacts {
		marks = append(marks, c.from, c.to)
	}
	slices.Sort(marks)
	return marks
}

// kindAround is what an edge is, given the arcs of solid around it; false for
// none.
func (s *seams) kindAround(frame axial, solid []arc, at ln.Vector, kind Kind) (Kind, bool) {
	open := gaps(solid)
	switch {
	case len(open) == 0:
		return 0, false
	case len(open) > 1:
		return kind, true
	case math.Abs(open[0].width-math.Pi) < flat:
		return 0, false
	}
	g := open[0]
	first := s.view.faces(plane{n: frame.direction(g.start + math.Pi/2)}, at)
	last := s.view.faces(plane{n: frame.direction(g.start + g.width - math.Pi/2)}, at)
	switch {
	case first && last:
		return Inner, true
	case first || last:
		return Silhouette, true
	}
	return 0, false
}

// axial is a pair of axes square to an edge.
type axial struct{ x, y ln.Vector }

func newAxial(along ln.Vector) axial {
	x := along.Cross(along.MinAxis()).Normalize()
	return axial{x: x, y: along.Cross(x)}
}

func (f axial) direction(angle float64) ln.Vector {
	return f.x.MulScalar(math.Cos(angle)).Add(f.y.MulScalar(math.Sin(angle)))
}

// arc is a range of angles around an edge.
type arc struct{ start, width float64 }

// wedge is where faces with these outward normals leave solid around an edge
// that lies in them; false if nothing.
func (f axial) wedge(normals ...ln.Vector) (arc, bool) {
	w := arc{0, 2 * math.Pi}
	for i, n := range normals {
		start := math.Atan2(f.y.Dot(n), f.x.Dot(n)) + math.Pi/2
		if i == 0 {
			w = arc{start, math.Pi}
			continue
		}
		ahead := math.Remainder(start-w.start, 2*math.Pi)
		end := math.Min(w.width, ahead+math.Pi)
		from := math.Max(0, ahead)
		w = arc{w.start + from, end - from}
	}
	return w, w.width > flat
}

// solidAt are the arcs of the pieces in contact at a place.
func (f axial) solidAt(contacts []contact, at float64) []arc {
	var out []arc
	for _, c := range contacts {
		if at < c.from || at > c.to {
			continue
		}
		if w, ok := f.wedge(c.normals...); ok {
			out = append(out, w)
		}
	}
	return out
}

// gaps is what arcs leave of the full turn, without slits up to flat.
func gaps(solid []arc) []arc {
	const turn = 2 * math.Pi
	for i := range solid {
		if solid[i].width >= turn-flat {
			return nil
		}
		solid[i].start = math.Mod(math.Mod(solid[i].start, turn)+turn, turn)
	}
	slices.SortFunc(solid, func(a, b arc) int { return cmp.Compare(a.start, b.start) })
	var out []arc
	reach := solid[0].start
	for _, a := range solid { // what comes round to the first again
		reach = math.Max(reach, a.start+a.width-turn)
	}
	for _, a := range append(solid, arc{start: solid[0].start + turn}) {
		if a.start > reach+flat {
			out = append(out, arc{reach, a.start - reach})
		}
		reach = math.Max(reach, a.start+a.width)
	}
	return out
}
