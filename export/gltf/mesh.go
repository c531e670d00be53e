package gltf

import (
	"boxwalk/export/assembly"
	"boxwalk/model/geom"

	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/modeler"
)

// mesh of a piece's shape, from its corner; every face flat.
func (e *encoder) mesh(p assembly.Piece) int {
	key := p.Shape()
	if n, ok := e.meshes[key]; ok {
		return n
	}
	var t triangles
	for _, s := range p.Solids {
		t.solid(s, p.Corner())
	}
	e.doc.Meshes = append(e.doc.Meshes, &gltf.Mesh{Name: p.Name + " " + p.Mark, Primitives: []*gltf.Primitive{{
		Indices: gltf.Index(modeler.WriteIndices(e.doc, t.indices)), Material: gltf.Index(e.material(p.Colour())),
		Attributes: gltf.PrimitiveAttributes{gltf.POSITION: modeler.WritePosition(e.doc, t.points), gltf.NORMAL: modeler.WriteNormal(e.doc, t.normals)},
	}}})
	e.meshes[key] = len(e.doc.Meshes) - 1
	return e.meshes[key]
}

// triangles of convex faces, each with points and normals of its own.
type triangles struct {
	points, normals [][3]float32
	indices         []uint32
}

func (t *triangles) solid(s *geom.Solid, from geom.Vec) {
	for i, loop := range s.Faces {
		first, n := uint32(len(t.points)), single(s.Plane(i).N)
		for k, v := range loop {
			t.points, t.normals = append(t.points, single(s.Vertices[v].Sub(from))), append(t.normals, n)
			if k >= 2 {
				t.indices = append(t.indices, first, first+uint32(k)-1, first+uint32(k))
			}
		}
	}
}

func single(v geom.Vec) [3]float32 { return [3]float32{float32(v[0]), float32(v[1]), float32(v[2])} }
