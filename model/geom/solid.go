package geom

import (
	"fmt"
	"math"
)

// Solid is a convex polyhedron. Faces are loops of vertex numbers, counter-
// clockwise seen from outside; every edge is used once in each direction.
type Solid struct {
	Vertices []Vec
	Faces    [][]int
}

// Plane is the half-space boundary n.p = d with outward unit normal n.
type Plane struct {
	N Vec
	D float64
}

// Distance of p outside the plane; negative inside.
func (q Plane) Distance(p Vec) float64 { return q.N.Dot(p) - q.D }

// Plane of face i, outward.
func (s *Solid) Plane(i int) Plane {
	n := s.areaVector(i).Normalize()
	d := math.Inf(-1)
	for _, v := range s.Faces[i] {
		d = math.Max(d, n.Dot(s.Vertices[v]))
	}
	return Plane{N: n, D: d}
}

// areaVector is twice the face's area times its outward normal (Newell).
func (s *Solid) areaVector(i int) Vec {
	var n Vec
	loop := s.Faces[i]
	o := s.Vertices[loop[0]]
	for k := 1; k+1 < len(loop); k++ {
		n = n.Add(s.Vertices[loop[k]].Sub(o).Cross(s.Vertices[loop[k+1]].Sub(o)))
	}
	return n
}

// Edges lists each edge once, as pairs of vertex numbers with the smaller
// first, in order of first use.
func (s *Solid) Edges() [][2]int {
	seen := map[[2]int]bool{}
	var edges [][2]int
	for _, loop := range s.Faces {
		for k, a := range loop {
			e := [2]int{min(a, loop[(k+1)%len(loop)]), max(a, loop[(k+1)%len(loop)])}
			if !seen[e] {
				seen[e] = true
				edges = append(edges, e)
			}
		}
	}
	return edges
}

// Box is the least axis-parallel box around the solid.
func (s *Solid) Box() Box { return BoxOf(s.Vertices) }

// Moved is the solid carried by the pose.
func (s *Solid) Moved(aFromB Pose) *Solid {
	out := &Solid{Vertices: make([]Vec, len(s.Vertices)), Faces: s.Faces}
	for i, v := range s.Vertices {
		out.Vertices[i] = aFromB.Apply(v)
	}
	return out
}

// Mirrored is the solid seen in the plane y = 0.
func (s *Solid) Mirrored() *Solid {
	out := &Solid{Vertices: make([]Vec, len(s.Vertices)), Faces: make([][]int, len(s.Faces))}
	for i, v := range s.Vertices {
		out.Vertices[i] = Vec{v[0], -v[1], v[2]}
	}
	for i, loop := range s.Faces {
		for k := len(loop) - 1; k >= 0; k-- {
			out.Faces[i] = append(out.Faces[i], loop[k])
		}
	}
	return out
}

// Volume in cubic metres (divergence theorem over the faces).
func (s *Solid) Volume() float64 {
	var v float64
	c := s.Box().Center()
	for i, loop := range s.Faces {
		v += s.areaVector(i).Dot(s.Vertices[loop[0]].Sub(c))
	}
	return v / 6
}

// Centroid of the solid's volume.
func (s *Solid) Centroid() Vec {
	var sum Vec
	var vol float64
	c := s.Box().Center()
	for _, loop := range s.Faces {
		a := s.Vertices[loop[0]]
		for k := 1; k+1 < len(loop); k++ {
			b, d := s.Vertices[loop[k]], s.Vertices[loop[k+1]]
			t := a.Sub(c).Cross(b.Sub(c)).Dot(d.Sub(c))
			sum = sum.Add(a.Add(b).Add(d).Add(c).Mul(t / 4))
			vol += t
		}
	}
	return sum.Mul(1 / vol)
}

// Check reports the first defect that makes the solid unfit for the clearance
// kernel: too few vertices, numbers that are not finite, an edge not shared by
// exactly two faces, a face that is not plane, or a vertex outside a face.
// The tolerance is 1 nm plus rounding of the coordinates.
func (s *Solid) Check() error {
	if len(s.Vertices) < 4 || len(s.Faces) < 4 {
		return fmt.Errorf("solid has %d vertices and %d faces; it needs 4 of each", len(s.Vertices), len(s.Faces))
	}
	var reach float64
	for i, v := range s.Vertices {
		if m := v.Len(); math.IsNaN(m) || math.IsInf(m, 0) {
			return fmt.Errorf("vertex %d is not finite", i)
		}
		reach = math.Max(reach, v.Len())
	}
	if err := s.checkEdges(); err != nil {
		return err
	}
	return s.checkFaces(1e-9 + 64*0x1p-52*reach)
}

func (s *Solid) checkEdges() error {
	// the edges that leave each vertex, in lists: a map costs ten times as much
	type side struct{ to, next int }
	sides := make([]side, 0, 8*len(s.Faces))
	leaving := make([]int, len(s.Vertices))
	for i := range leaving {
		leaving[i] = -1
	}
	for _, loop := range s.Faces {
		for k, a := range loop {
			sides = append(sides, side{loop[(k+1)%len(loop)], leaving[a]})
			leaving[a] = len(sides) - 1
		}
	}
	uses := func(a, b int) (n int) {
		for k := leaving[a]; k >= 0; k = sides[k].next {
			if sides[k].to == b {
				n++
			}
		}
		return n
	}
	for _, loop := range s.Faces {
		for k, a := range loop {
			if b := loop[(k+1)%len(loop)]; uses(a, b) != 1 || uses(b, a) != 1 {
				return fmt.Errorf("edge %d-%d is not used once in each direction", min(a, b), max(a, b))
			}
		}
	}
	return nil
}

func (s *Solid) checkFaces(tolerance float64) error {
	for i, loop := range s.Faces {
		q := s.Plane(i)
		for _, v := range loop {
			if !(math.Abs(q.Distance(s.Vertices[v])) <= tolerance) {
				return fmt.Errorf("face %d is not plane", i)
			}
		}
		for v, p := range s.Vertices {
			if !(q.Distance(p) <= tolerance) {
				return fmt.Errorf("vertex %d lies %.3g m outside face %d: not convex", v, q.Distance(p), i)
			}
		}
	}
	return nil
}
