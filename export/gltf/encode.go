package gltf

import (
	"io"
	"math"

	"boxwalk/export/assembly"
	"boxwalk/model/geom"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/qmuntal/gltf"
)

// Head is what the file says of itself.
type Head struct {
	Origin  string   `json:"origin"`  // the tool and the files that it was made from
	Remarks []string `json:"remarks"` // what whoever opens it has to know
}

// yUp turns the frame of cell and pour to that of the format: a quarter back about x.
var yUp = [4]float64{-math.Sqrt2 / 2, 0, 0, math.Sqrt2 / 2}

// Encode writes an assembly with its motions. Errors: those of w.
func Encode(w io.Writer, a assembly.Assembly, motions []assembly.Motion, h Head) error {
	e := encoder{doc: gltf.NewDocument(), meshes: map[string]int{}, materials: map[assembly.Colour]int{}}
	e.doc.Asset = gltf.Asset{Version: "2.0", Generator: "boxwalk", Extras: h}
	root := e.node(&gltf.Node{Name: a.Name, Rotation: yUp})
	for _, g := range a.Groups {
		e.body(root, g)
	}
	e.doc.Scenes[0].Nodes = []int{root}
	for _, m := range motions {
		e.animate(m)
	}
	out := gltf.NewEncoder(w)
	out.AsBinary = true
	return out.Encode(e.doc)
}

// encoder fills a document: meshes by shape, materials by colour, and the nodes of bodies
// and of their pieces.
type encoder struct {
	doc       *gltf.Document
	meshes    map[string]int
	materials map[assembly.Colour]int
	bodies    []int
	pieces    [][]int
}

func (e *encoder) node(n *gltf.Node) int {
	e.doc.Nodes = append(e.doc.Nodes, n)
	return len(e.doc.Nodes) - 1
}

// body is a node for a group, and below it one for each piece.
func (e *encoder) body(root int, g assembly.Group) {
	body := e.node(&gltf.Node{Name: g.Name, Translation: g.Pose.T, Rotation: rotation(g.Pose)})
	e.doc.Nodes[root].Children = append(e.doc.Nodes[root].Children, body)
	var pieces []int
	for _, p := range g.Pieces {
		n := e.node(&gltf.Node{Name: p.At + " " + p.Name, Mesh: gltf.Index(e.mesh(p)), Translation: p.Corner()})
		e.doc.Nodes[body].Children = append(e.doc.Nodes[body].Children, n)
		pieces = append(pieces, n)
	}
	e.bodies, e.pieces = append(e.bodies, body), append(e.pieces, pieces)
}

// rotation is a pose's turn as the format has it: x, y, z, w.
func rotation(p geom.Pose) [4]float64 {
	q := mgl64.Mat4ToQuat(p.R.Mat4()).Normalize()
	return [4]float64{q.V[0], q.V[1], q.V[2], q.W}
}

// material of a colour: dull and not metallic, so that every viewer shows it alike.
func (e *encoder) material(c assembly.Colour) int {
	if n, ok := e.materials[c]; ok {
		return n
	}
	e.doc.Materials = append(e.doc.Materials, &gltf.Material{PBRMetallicRoughness: &gltf.PBRMetallicRoughness{
		BaseColorFactor: &[4]float64{linear(c[0]), linear(c[1]), linear(c[2]), 1}, MetallicFactor: gltf.Float(0), RoughnessFactor: gltf.Float(1)}})
	e.materials[c] = len(e.doc.Materials) - 1
	return e.materials[c]
}

// linear is a share of light, as the format has colours, of one as screens have it
// (IEC 61966-2-1, sRGB).
func linear(v float64) float64 {
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}
