package sweep

import (
	"math"

	"boxwalk/clearance/gap"
)

// plane is the half-space n.p <= d in ref.
type plane struct {
	n gap.XYZ
	d float64
}

func (q plane) height(p gap.XYZ) float64 { return q.n.Dot(p) - q.d }

// clipper cuts from the surface of solid a the part that is near one face of b:
// in the prism over the face's outline, up to some height. Points are in ref, with a where
// it is at the start of the interval.
type clipper struct {
	n      gap.XYZ // outward normal of the face
	top    plane   // the face's own plane
	sides  []plane // through the edges of its outline, outward
	limits []plane // the sides and the top, moved
	polys  [2][]gap.XYZ
	points []gap.XYZ
	rubs   []gap.XYZ // see dragSearch.most
	out    []glide
}

// faceOf sets the prism over face i of b.
func (c *clipper) faceOf(t *stretch, i int) {
	n, offset, loop := t.b.part.Solid.Face(i)
	vertices := t.b.part.Solid.Vertices()
	pose := &t.b.p0
	c.n = gap.Turn(&pose.R, n)
	c.top = plane{c.n, offset + c.n.Dot(gap.FromVec(pose.T))}
	c.sides = c.sides[:0]
	for k, from := range loop {
		p, q := vertices[from], vertices[loop[(k+1)%len(loop)]]
		g := q.Sub(p).Cross(n)
		g = gap.Turn(&pose.R, g.Mul(1/g.Len()))
		c.sides = append(c.sides, plane{g, g.Dot(gap.Apply(pose, p))})
	}
}

// run is the corners of a superset of all rubbing points of a that come within
// height of the face's plane, over its outline grown by margin, at some s of
// the interval. A point can approach a plane over the interval by no more than the
// vertex that approaches it most.
func (c *clipper) run(t *stretch, margin, height float64) []gap.XYZ {
	c.limits = c.limits[:0]
	for _, q := range c.sides {
		c.limits = append(c.limits, plane{q.n, q.d + margin + c.approach(t, q.n)})
	}
	c.limits = append(c.limits, plane{c.n, c.top.d + height + c.approach(t, c.n)})
	return c.cut(t)
}

// inner is the corners of a set of points of a that all stay over the face's
// outline and within height of its plane throughout the interval.
func (c *clipper) inner(t *stretch, height float64) []gap.XYZ {
	c.limits = c.limits[:0]
	for _, q := range c.sides {
		c.limits = append(c.limits, plane{q.n, q.d - t.e - c.approach(t, q.n.Mul(-1))})
	}
	c.limits = append(c.limits, plane{c.n, c.top.d + height - c.approach(t, c.n.Mul(-1))})
	return c.cut(t)
}

// approach is how far any point of a can move against n from its start.
func (c *clipper) approach(t *stretch, n gap.XYZ) float64 {
	t.a.project(n)
	dd := (t.s1 - t.s0) * (t.s1 - t.s0)
	most := 0.0
	for j, f := range t.a.f {
		most = math.Max(most, f[0]-dip(f[0], f[1], t.a.curvature(j)*dd))
	}
	return most
}

// steep is the sine of the slope against the contact face, about 20 degrees,
// from which a surface of a does not rub. It leaves the band within 1.5 mm of
// its lowest edge or vertex, which are in the patch themselves.
const steep = 0.35

// cut is the corners of the surface of a that rubs, within all limits: faces
// and edges that are not steep, and vertices. What turns over the interval may
// be steep at its start only, so the turn is allowed for.
func (c *clipper) cut(t *stretch) []gap.XYZ {
	c.points = c.points[:0]
	s := t.a.part.Solid
	lean := steep + t.a.bound.Omega*(t.s1-t.s0)
	normal := gap.TurnBack(&t.a.p0.R, c.n)
	for i := range s.Faces() {
		if n, _, loop := s.Face(i); n.Dot(normal) <= lean-2*steep {
			c.add(t, loop...)
		}
	}
	for i := range s.Edges() {
		if a, b, along := s.Edge(i); math.Abs(along.Dot(normal)) <= lean {
			c.add(t, a, b)
		}
	}
	for i := range s.Vertices() {
		c.add(t, i)
	}
	return c.points
}

// add cuts the polygon, edge or vertex with the given vertices of a.
func (c *clipper) add(t *stretch, loop ...int) {
	poly := c.polys[0][:0]
	for _, j := range loop {
		poly = append(poly, gap.Apply(&t.a.p0, t.a.part.Solid.Vertices()[j]))
	}
	c.polys[0] = poly
	for _, q := range c.limits {
		c.polys[1] = q.trim(c.polys[0], c.polys[1][:0])
		c.polys[0], c.polys[1] = c.polys[1], c.polys[0]
	}
	c.points = append(c.points, c.polys[0]...)
}

// trim appends to out the part of a convex polygon on the inner side
// (Sutherland and Hodgman 1974).
func (q plane) trim(poly, out []gap.XYZ) []gap.XYZ {
	for i, p := range poly {
		next := poly[(i+1)%len(poly)]
		h, k := q.height(p), q.height(next)
		if h <= 0 {
			out = append(out, p)
		}
		if h < 0 && k > 0 || h > 0 && k < 0 {
			out = append(out, p.Add(next.Sub(p).Mul(h/(h-k))))
		}
	}
	return out
}

// bodyPoint is a point of ref in the coordinates of a body at its first pose.
func bodyPoint(v *moving, p gap.XYZ) gap.XYZ {
	return gap.TurnBack(&v.p0.R, p.Sub(gap.FromVec(v.p0.T)))
}

// glides of the given points of ref.
func (c *clipper) glides(t *stretch, points []gap.XYZ, opening float64) []glide {
	c.out = c.out[:0]
	for _, p := range points {
		c.out = append(c.out, glideOf(t, bodyPoint(&t.a, p), c.n, opening))
	}
	return c.out
}

// breadth is the width of a flat set of points with normal n across its length.
// The length is taken from a farthest point to the point farthest from that: a
// line of points has breadth zero, and a patch is not made narrower.
func breadth(points []gap.XYZ, n gap.XYZ) float64 {
	if len(points) == 0 {
		return 0
	}
	end := farthest(points, points[0])
	along := farthest(points, end).Sub(end)
	if along == (gap.XYZ{}) {
		return 0
	}
	across := n.Cross(along)
	across = across.Mul(1 / across.Len())
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range points {
		low, high = math.Min(low, across.Dot(p)), math.Max(high, across.Dot(p))
	}
	return high - low
}

func farthest(points []gap.XYZ, from gap.XYZ) gap.XYZ {
	best, most := from, 0.0
	for _, p := range points {
		if d := p.Sub(from); d.Dot(d) > most {
			best, most = p, d.Dot(d)
		}
	}
	return best
}
