package step

import "boxwalk/model/geom"

// solid is a closed one of plane faces; each edge is written once and used once in each
// direction.
func (f *file) solid(name string, s *geom.Solid) id {
	b := brep{f, s, make([]id, len(s.Vertices)), map[[2]int]id{}}
	for i, v := range s.Vertices {
		b.vertices[i] = f.add("VERTEX_POINT('',%v)", f.point(v))
	}
	var faces []id
	for i := range s.Faces {
		faces = append(faces, b.face(i))
	}
	return f.add("MANIFOLD_SOLID_BREP(%s,%v)", text(name), f.add("CLOSED_SHELL('',%s)", list(faces...)))
}

// brep is a solid being written.
type brep struct {
	*file
	of       *geom.Solid
	vertices []id
	edges    map[[2]int]id // by the smaller vertex first
}

// face is one plane face, its loop counterclockwise from outside.
func (b *brep) face(i int) id {
	loop := b.of.Faces[i]
	var round []id
	for k, from := range loop {
		round = append(round, b.oriented(from, loop[(k+1)%len(loop)]))
	}
	bound := b.add("FACE_OUTER_BOUND('',%v,.T.)", b.add("EDGE_LOOP('',%s)", list(round...)))
	along := b.of.Vertices[loop[1]].Sub(b.of.Vertices[loop[0]]).Normalize()
	plane := b.add("PLANE('',%v)", b.axes(b.of.Vertices[loop[0]], b.of.Plane(i).N, along))
	return b.add("ADVANCED_FACE('',(%v),%v,.T.)", bound, plane)
}

// oriented is an edge as a loop runs along it.
func (b *brep) oriented(from, to int) id {
	key, sense := [2]int{from, to}, ".T."
	if from > to {
		key, sense = [2]int{to, from}, ".F."
	}
	edge, ok := b.edges[key]
	if !ok {
		p, q := b.of.Vertices[key[0]], b.of.Vertices[key[1]]
		line := b.add("LINE('',%v,%v)", b.point(p), b.add("VECTOR('',%v,1.)", b.direction(q.Sub(p).Normalize())))
		edge = b.add("EDGE_CURVE('',%v,%v,%v,.T.)", b.vertices[key[0]], b.vertices[key[1]], line)
		b.edges[key] = edge
	}
	return b.add("ORIENTED_EDGE('',*,*,%v,%s)", edge, sense)
}
