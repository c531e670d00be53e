package carrier

import (
	"fmt"
	"math"
	"slices"

	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// A piece mark stands for one size and shape in a whole job: pieces that bear the
// same mark are interchangeable, and no two marks of one role and side look alike.
// Left and right pieces that are mirror images share the number and keep the letter
// of their side: the gear file does not tell where holes, lugs and hinge plates
// sit, so that only the yard knows whether a piece serves on both sides when it is
// turned end for end. A letter too many costs a look; one too few, a panel that
// does not go on.

// sameShape is how far corners may be apart and belong to one mark, m: a tenth of a
// millimetre, finer than any panel is made.
const sameShape = 1e-4

// shape is a piece by its corners, from the least corner of the box around it,
// those of a right piece as its mirror image on the left has them. A link is told
// by its size alone, as it stands slanted differently in every cell.
type shape struct {
	letter, name string
	corners      []geom.Vec
}

// MarkTogether gives the parts of a job's carriers their piece marks, in the order
// they are built, and numbers the pieces of each mark within its carrier. Carriers
// may be in the list more than once.
func MarkTogether(list ...*Carrier) {
	m := marker{number: map[string]int{}, shapes: map[string][]numbered{}}
	done := map[*Carrier]bool{}
	for _, c := range list {
		if !done[c] {
			done[c] = true
			m.mark(c.Parts)
		}
	}
}

// marker numbers shapes, those of each letter by themselves.
type marker struct {
	number map[string]int
	shapes map[string][]numbered // by letter and name
}

type numbered struct {
	shape
	n int
}

// mark marks the parts of one carrier.
func (m *marker) mark(parts []Part) {
	count := map[string]int{}
	var pieces [][]int
	for i := range parts {
		if parts[i].Piece == 0 {
			pieces = append(pieces, nil)
		}
		pieces[len(pieces)-1] = append(pieces[len(pieces)-1], i)
	}
	for _, piece := range pieces {
		first := parts[piece[0]]
		mark := fmt.Sprintf("%s%d%s", marks[first.Role], m.of(shapeOf(parts, piece)), sideLetter[first.Side])
		count[mark]++
		for _, i := range piece {
			parts[i].Mark, parts[i].Place = mark, count[mark]
		}
	}
	for i := range parts { // one that is alone needs no number
		if count[parts[i].Mark] == 1 {
			parts[i].Place = 0
		}
		parts[i].at = parts[i].placed()
	}
}

var sideLetter = map[culvert.Side]string{culvert.Left: "L", culvert.Right: "R"}

// of is the number of a shape, the next one where it has none yet.
func (m *marker) of(s shape) int {
	key := s.letter + " " + s.name
	for _, known := range m.shapes[key] {
		if known.like(s) {
			return known.n
		}
	}
	m.number[s.letter]++
	m.shapes[key] = append(m.shapes[key], numbered{s, m.number[s.letter]})
	return m.number[s.letter]
}

// like tells whether each corner of one is a corner of the other.
func (s shape) like(o shape) bool {
	if len(s.corners) != len(o.corners) {
		return false
	}
	for i, c := range s.corners {
		// corners come in the same order, but for pieces cut from an outline
		near := func(v geom.Vec) bool { return v.Sub(c).Len() <= sameShape }
		if !near(o.corners[i]) && !slices.ContainsFunc(o.corners, near) {
			return false
		}
	}
	return true
}

// shapeOf is the shape of a piece that is some of the parts.
func shapeOf(parts []Part, piece []int) shape {
	first := parts[piece[0]]
	out := shape{letter: marks[first.Role], name: first.Name}
	if first.Role == LinkBar {
		out.corners = []geom.Vec{first.Size()}
		return out
	}
	for _, i := range piece {
		out.corners = append(out.corners, parts[i].Vertices...)
	}
	if first.Side == culvert.Right {
		for i := range out.corners {
			out.corners[i][1] *= -1
		}
	}
	least := geom.BoxOf(out.corners).Min
	for i := range out.corners {
		out.corners[i] = out.corners[i].Sub(least)
	}
	return out
}

// Size of a part, m: that of the box around it as raised, along the cell, across it
// and up; of a link its thickness twice and how long the bar is. It is to a thousandth
// of a millimetre, so that pieces of one mark print alike wherever they lie.
func (p Part) Size() geom.Vec {
	out := p.size()
	for i, v := range out {
		out[i] = math.Round(v*1e6) / 1e6
	}
	return out
}

func (p Part) size() geom.Vec {
	if p.Role != LinkBar {
		b := p.Box()
		return b.Max.Sub(b.Min)
	}
	var sides []float64
	for _, e := range p.Edges() {
		sides = append(sides, p.Vertices[e[0]].Sub(p.Vertices[e[1]]).Len())
	}
	slices.Sort(sides)
	return geom.Vec{sides[0], sides[len(sides)/2], sides[len(sides)-1]}
}
