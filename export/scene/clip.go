package scene

import (
	"errors"
	"math"

	"boxwalk/model/geom"
)

// onPlane is the distance in metres up to which a vertex counts as lying in a
// cutting plane. It is a fifth of what geom.Solid.Check allows a face to be
// out of plane, so that a clipped solid stays sound.
const onPlane = 2e-10

// errOpen means that the cut faces do not close: the solid was not convex.
var errOpen = errors.New("the cut does not close; the solid is not convex")

// Clip is the part of convex solid s inside plane q, where q.Distance <= 0:
// s itself (the same pointer) if all of it is, nil if nothing but a face, edge
// or corner is. Vertices up to 0.2 nm off the plane count as on it.
func Clip(s *geom.Solid, q geom.Plane) (*geom.Solid, error) {
	c := clipper{from: s, side: make([]float64, len(s.Vertices))}
	inside, outside := false, false
	for i, v := range s.Vertices {
		d := q.Distance(v)
		if math.Abs(d) <= onPlane {
			d = 0
		}
		if math.IsNaN(d) {
			return nil, errors.New("a vertex or the plane is not a number")
		}
		c.side[i] = d
		inside = inside || d < 0
		outside = outside || d > 0
	}
	switch {
	case !outside:
		return s, nil
	case !inside:
		return nil, nil
	}
	return c.run()
}

// clipper builds the clipped solid.
type clipper struct {
	from   *geom.Solid
	side   []float64 // signed distance of each vertex, 0 when on the plane
	out    geom.Solid
	number map[[2]int]int // edge crossed, or {v, v} for a kept vertex -> new vertex
	onCut  []bool         // of each new vertex
}

func (c *clipper) run() (*geom.Solid, error) {
	c.number = map[[2]int]int{}
	for _, loop := range c.from.Faces {
		if kept := c.clipLoop(loop); len(kept) >= 3 {
			c.out.Faces = append(c.out.Faces, kept)
		}
	}
	lid, err := c.lid()
	if err != nil {
		return nil, err
	}
	c.out.Faces = append(c.out.Faces, lid)
	return &c.out, nil
}

// clipLoop is the part of a face inside the plane, in new vertex numbers.
func (c *clipper) clipLoop(loop []int) []int {
	inside := false
	for _, v := range loop {
		inside = inside || c.side[v] < 0
	}
	if !inside {
		return nil
	}
	var kept []int
	for k, v := range loop {
		w := loop[(k+1)%len(loop)]
		if c.side[v] <= 0 {
			kept = append(kept, c.vertex(v, v))
		}
		if c.side[v]*c.side[w] < 0 {
			kept = append(kept, c.vertex(min(v, w), max(v, w)))
		}
	}
	return kept
}

// vertex is the new number of kept vertex v (v == w) or of the point where
// edge v-w crosses the plane.
func (c *clipper) vertex(v, w int) int {
	key := [2]int{v, w}
	if n, ok := c.number[key]; ok {
		return n
	}
	p := c.from.Vertices[v]
	if v != w {
		t := c.side[v] / (c.side[v] - c.side[w])
		p = p.Add(c.from.Vertices[w].Sub(p).Mul(t))
	}
	n := len(c.out.Vertices)
	c.number[key] = n
	c.out.Vertices = append(c.out.Vertices, p)
	c.onCut = append(c.onCut, v != w || c.side[v] == 0)
	return n
}

// lid closes the solid: its edges are those on the cut that so far have a face
// on one side only, run the other way.
func (c *clipper) lid() ([]int, error) {
	used := map[[2]int]bool{}
	for _, loop := range c.out.Faces {
		for k, a := range loop {
			used[[2]int{a, loop[(k+1)%len(loop)]}] = true
		}
	}
	next := map[int]int{}
	start := -1
	for _, loop := range c.out.Faces {
		for k, a := range loop {
			b := loop[(k+1)%len(loop)]
			if c.onCut[a] && c.onCut[b] && !used[[2]int{b, a}] {
				next[b] = a
				start = b
			}
		}
	}
	return walk(next, start)
}

// walk follows next from start until it is back, through all of next.
func walk(next map[int]int, start int) ([]int, error) {
	var loop []int
	for v := start; len(loop) < len(next); {
		loop = append(loop, v)
		n, ok := next[v]
		if !ok {
			return nil, errOpen
		}
		if v = n; v == start {
			break
		}
	}
	if len(loop) < 3 || len(loop) != len(next) {
		return nil, errOpen
	}
	return loop, nil
}
