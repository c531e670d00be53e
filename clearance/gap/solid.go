package gap

import (
	"math"
	"sync"
	"sync/atomic"

	"boxwalk/model/geom"
)

// Solid is a convex solid prepared for distance queries, in body coordinates.
// It does not change after New, so any number of goroutines may share it. Its faces
// and edges, which most queries never ask for, are made when they first are.
type Solid struct {
	vertices []XYZ
	made     atomic.Bool // whether faces and edges are
	making   sync.Mutex
	from     *geom.Solid // what faces and edges are made from: this,
	base     *Solid      // or another as a pose takes it
	by       geom.Pose
	faces    []face
	edges    []edge
	center   XYZ // of the box around the vertices
	half     XYZ // half its sides
	reach    float64
}

// face is a plane n.p = offset with its loop of vertices, counter-clockwise
// from outside. The offset is the largest n.v over the whole solid.
type face struct {
	n      XYZ
	offset float64
	loop   []int
}

// edge runs from vertex a to b. dir is its unit direction taken so that it is
// a positive multiple of n2 x n1, where n1 and n2 are the outward normals of
// its two faces: the ends of the edge's arc on the Gauss sphere.
type edge struct {
	a, b        int
	dir, n1, n2 XYZ
}

// New prepares a solid that has passed geom.Solid.Check and is not changed any more.
func New(s *geom.Solid) *Solid {
	box := s.Box()
	out := &Solid{from: s, vertices: make([]XYZ, 0, len(s.Vertices)), center: FromVec(box.Center()), half: FromVec(box.Max.Sub(box.Min).Mul(0.5))}
	for _, v := range s.Vertices {
		p := FromVec(v)
		out.vertices = append(out.vertices, p)
		out.reach = math.Max(out.reach, p.Len())
	}
	return out
}

// sided is the solid with its faces and edges.
func (s *Solid) sided() *Solid {
	if s.made.Load() { // apart from what follows, which allocates
		return s
	}
	s.making.Lock()
	defer s.making.Unlock()
	switch {
	case s.made.Load():
	case s.base != nil:
		s.takeSides()
	case s.from != nil:
		s.makeSides()
	}
	s.made.Store(true)
	return s
}

func (s *Solid) makeSides() {
	s.faces = make([]face, len(s.from.Faces))
	for i, loop := range s.from.Faces {
		q := s.from.Plane(i)
		n := FromVec(q.N)
		_, offset := highest(s.vertices, n)
		s.faces[i] = face{n: n, offset: offset, loop: loop}
	}
	s.findEdges()
}

// Moved is the solid as a pose takes it. What it is made of is taken over; the
// planes are laid anew, so that no vertex is above its face.
func (s *Solid) Moved(aFromB geom.Pose) *Solid {
	out := &Solid{base: s, by: aFromB, vertices: make([]XYZ, len(s.vertices))}
	box := geom.EmptyBox()
	for i, v := range s.vertices {
		p := Apply(&aFromB, v)
		out.vertices[i] = p
		out.reach = math.Max(out.reach, p.Len())
		box = box.Add(p.Vec())
	}
	out.center, out.half = FromVec(box.Center()), FromVec(box.Max.Sub(box.Min).Mul(0.5))
	return out
}

// takeSides turns the sides of the base.
func (s *Solid) takeSides() {
	base, r := s.base.sided(), &s.by.R
	s.faces, s.edges = make([]face, len(base.faces)), make([]edge, len(base.edges))
	for i, f := range base.faces {
		n := unit(Turn(r, f.n))
		_, offset := highest(s.vertices, n)
		s.faces[i] = face{n: n, offset: offset, loop: f.loop}
	}
	for i, e := range base.edges {
		s.edges[i] = edge{a: e.a, b: e.b, dir: unit(Turn(r, e.dir)), n1: unit(Turn(r, e.n1)), n2: unit(Turn(r, e.n2))}
	}
}

// unit takes off what turning has left of a length that is not 1.
func unit(v XYZ) XYZ { return v.Mul(1 / v.Len()) }

// findEdges pairs every directed edge of a face loop with its reverse.
func (s *Solid) findEdges() {
	type side struct{ to, face, next int }             // next of those that leave the same vertex, -1 for none
	both := 2 * max(0, len(s.vertices)+len(s.faces)-2) // Euler: twice the edges
	sides := make([]side, 0, both)
	s.edges = make([]edge, 0, both/2)
	leaving := make([]int, len(s.vertices))
	for i := range leaving {
		leaving[i] = -1
	}
	each := func(do func(a, b, face int)) {
		for i, f := range s.faces {
			for k, a := range f.loop {
				do(a, f.loop[(k+1)%len(f.loop)], i)
			}
		}
	}
	each(func(a, b, face int) {
		sides = append(sides, side{b, face, leaving[a]})
		leaving[a] = len(sides) - 1
	})
	each(func(a, b, face int) {
		if a > b {
			return
		}
		for k := leaving[b]; k >= 0; k = sides[k].next {
			if sides[k].to == a {
				s.addEdge(a, b, face, sides[k].face)
				return
			}
		}
	})
}

// addEdge adds the edge that the loop of face i runs from a to b and the loop
// of face j from b to a. For a convex edge b - a is then a positive multiple
// of ni x nj.
func (s *Solid) addEdge(a, b, i, j int) {
	d := s.vertices[a].Sub(s.vertices[b])
	l := d.Len()
	if l == 0 {
		return
	}
	s.edges = append(s.edges, edge{a: a, b: b, dir: d.Mul(1 / l), n1: s.faces[i].n, n2: s.faces[j].n})
}

// Vertices in body coordinates. The caller must not change them.
func (s *Solid) Vertices() []XYZ { return s.vertices }

// Box is the middle of the least axis-parallel box in body coordinates, and
// half its sides.
func (s *Solid) Box() (center, half XYZ) { return s.center, s.half }

// Reach is the largest distance of a vertex from the body's origin.
func (s *Solid) Reach() float64 { return s.reach }

// Faces is the number of faces.
func (s *Solid) Faces() int { return len(s.sided().faces) }

// Face is the outward unit normal, the offset and the vertex loop of face i:
// no vertex of the solid has n.v above the offset. The caller must not change
// the loop.
func (s *Solid) Face(i int) (n XYZ, offset float64, loop []int) {
	f := &s.sided().faces[i]
	return f.n, f.offset, f.loop
}

// Edges is the number of edges.
func (s *Solid) Edges() int { return len(s.sided().edges) }

// Edge is the two vertices of edge i and its unit direction, in either sense.
func (s *Solid) Edge(i int) (a, b int, along XYZ) {
	e := &s.sided().edges[i]
	return e.a, e.b, e.dir
}
