package step

import (
	"boxwalk/export/assembly"
	"boxwalk/model/geom"
)

// cylinder is a true one square to the cell: its round face has one seam.
func (f *file) cylinder(name string, r assembly.Round) id {
	c := cylinder{file: f, axis: geom.Vec{0, 1, 0}, out: geom.Vec{1, 0, 0}, radius: r.Radius}
	low, high := geom.Vec{r.X, r.From, r.Z}, geom.Vec{r.X, r.To, r.Z}
	near, far := c.rim(low), c.rim(high)
	seam := f.add("EDGE_CURVE('',%v,%v,%v,.T.)", near.vertex, far.vertex,
		f.add("LINE('',%v,%v)", f.point(c.onRim(low)), f.add("VECTOR('',%v,1.)", f.direction(c.axis))))
	mantle := f.add("CYLINDRICAL_SURFACE('',%v,%s)", f.axes(low, c.axis, c.out), number(1000*r.Radius))
	faces := []id{
		c.face(mantle, near.edge, ".T.", seam, ".T.", far.edge, ".F.", seam, ".F."),
		c.face(f.add("PLANE('',%v)", f.axes(low, c.axis.Mul(-1), c.out)), near.edge, ".F."),
		c.face(f.add("PLANE('',%v)", f.axes(high, c.axis, c.out)), far.edge, ".T."),
	}
	return f.add("MANIFOLD_SOLID_BREP(%s,%v)", text(name), f.add("CLOSED_SHELL('',%s)", list(faces...)))
}

// cylinder being written; out is square to its axis.
type cylinder struct {
	*file
	axis, out geom.Vec
	radius    float64
}

// rim is the edge of an end, from its one vertex round to it.
type rim struct{ vertex, edge id }

func (c cylinder) onRim(centre geom.Vec) geom.Vec { return centre.Add(c.out.Mul(c.radius)) }

func (c cylinder) rim(centre geom.Vec) rim {
	v := c.add("VERTEX_POINT('',%v)", c.point(c.onRim(centre)))
	circle := c.add("CIRCLE('',%v,%s)", c.axes(centre, c.axis, c.out), number(1000*c.radius))
	return rim{v, c.add("EDGE_CURVE('',%v,%v,%v,.T.)", v, v, circle)}
}

// face on a surface within edges, each followed by its sense.
func (c cylinder) face(surface id, edges ...any) id {
	var round []id
	for i := 0; i < len(edges); i += 2 {
		round = append(round, c.add("ORIENTED_EDGE('',*,*,%v,%v)", edges[i], edges[i+1]))
	}
	return c.add("ADVANCED_FACE('',(%v),%v,.T.)", c.add("FACE_OUTER_BOUND('',%v,.T.)", c.add("EDGE_LOOP('',%s)", list(round...))), surface)
}
