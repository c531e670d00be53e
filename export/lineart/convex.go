package lineart

import (
	"fmt"
	"math"
	"slices"

	"github.com/fogleman/ln/ln"

	"boxwalk/model/geom"
)

// Tie is how far before itself, in millimetres towards the viewer, a line is
// taken when asked what hides it. It is twice the overlap of 0.05 mm that
// parts in contact may have, so that the lines where they meet are seen.
const Tie = 0.1

// grown is how far a solid is grown when it hides, in millimetres: a hundred
// times the rounding of coordinates of 100 m, so that two solids side by side
// leave no crack to look through.
const grown = 1e-6

// thin is the area in square millimetres under which a face has no direction
// to trust; the solid is bounded well enough without it.
const thin = 1e-6

// Convex is a convex solid in millimetres.
type Convex struct {
	verts  []ln.Vector
	faces  [][]int // as in the solid
	planes []plane // of each face
	edges  []edge
	box    ln.Box
}

// plane is n.p = d with unit normal n outward; flat faces without a direction
// have the zero normal.
type plane struct {
	n ln.Vector
	d float64
}

// edge joins two vertices; left and right are the faces that use it forward
// and backward.
type edge struct{ from, to, left, right int32 }

// NewConvex carries a solid from metres in its own frame to millimetres in the
// view frame. It reports vertices that are not finite and edges that do not
// have two faces; whether the solid is convex is for geom.Solid.Check.
func NewConvex(s *geom.Solid, viewFromSolid geom.Pose) (*Convex, error) {
	c := &Convex{
		verts: make([]ln.Vector, len(s.Vertices)), faces: s.Faces, planes: make([]plane, len(s.Faces)),
	}
	for i, v := range s.Vertices {
		p := viewFromSolid.Apply(v)
		if m := p.Len(); math.IsNaN(m) || math.IsInf(m, 0) {
			return nil, fmt.Errorf("vertex %d is not finite", i)
		}
		c.verts[i] = ln.Vector{X: 1e3 * p[0], Y: 1e3 * p[1], Z: 1e3 * p[2]}
	}
	for i, loop := range s.Faces {
		c.planes[i] = c.planeOf(loop)
	}
	c.box = ln.BoxForVectors(c.verts)
	return c, c.findEdges()
}

// planeOf is the outward plane of a face (area vector by fan, through the
// vertex furthest out).
func (c *Convex) planeOf(loop []int) plane {
	var n ln.Vector
	o := c.verts[loop[0]]
	for k := 1; k+1 < len(loop); k++ {
		n = n.Add(c.verts[loop[k]].Sub(o).Cross(c.verts[loop[k+1]].Sub(o)))
	}
	size := n.Length()
	if size < thin {
		return plane{d: math.Inf(1)}
	}
	n = n.DivScalar(size)
	d := math.Inf(-1)
	for _, v := range loop {
		d = math.Max(d, n.Dot(c.verts[v]))
	}
	return plane{n: n, d: d}
}

// findEdges pairs the two directions in which faces use each edge.
func (c *Convex) findEdges() error {
	var uses []use
	for f, loop := range c.faces {
		for k, a := range loop {
			uses = append(uses, newUse(a, loop[(k+1)%len(loop)], f))
		}
	}
	slices.SortFunc(uses, compareUses)
	if len(uses)%2 != 0 {
		return fmt.Errorf("an edge has one face only")
	}
	c.edges = make([]edge, 0, len(uses)/2)
	for i := 0; i < len(uses); i += 2 {
		u, v := uses[i], uses[i+1]
		if u.low != v.low || u.high != v.high || u.back == v.back {
			return fmt.Errorf("edge %d-%d is not used once in each direction", u.low, u.high)
		}
		c.edges = append(c.edges, edge{from: u.low, to: u.high, left: u.face, right: v.face})
	}
	return nil
}

// use is one side of an edge: the face that runs along it.
type use struct {
	low, high, face int32
	back            bool // from high to low
}

func newUse(a, b, face int) use {
	return use{low: int32(min(a, b)), high: int32(max(a, b)), face: int32(face), back: a > b}
}

func compareUses(u, v use) int {
	switch {
	case u.low != v.low:
		return int(u.low - v.low)
	case u.high != v.high:
		return int(u.high - v.high)
	case u.back == v.back:
		return 0
	case v.back:
		return -1
	}
	return 1
}
