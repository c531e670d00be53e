package scene

import (
	"fmt"
	"math"
	"slices"

	"boxwalk/model/geom"
)

// Cut takes away what lies outside a plane (on the side of its normal). With
// Groups or Styles it touches only objects of one of them.
type Cut struct {
	Plane  geom.Plane
	Groups []string
	Styles []Style
	Drop   bool // leave out an object that reaches outside instead of cutting it
}

// touches tells whether the cut is meant for o.
func (k Cut) touches(o Object) bool {
	if len(k.Groups) == 0 && len(k.Styles) == 0 {
		return true
	}
	return slices.Contains(k.Groups, o.Group) || slices.Contains(k.Styles, o.Style)
}

// Cutaway is a scene after its cuts.
type Cutaway struct {
	Scene  Scene
	Source []int // index of each object in the scene before the cuts
	Faces  []Face
}

// Face is the bared face of a cut object, counter-clockwise seen from the
// side that was taken away.
type Face struct {
	Object int // index in the scene after the cuts
	Face   int // index in the object's Solid.Faces
	Cut    int // index of the cut that bared it
}

// Loop is the rim of a bared face, in the scene's frame.
func (c Cutaway) Loop(f Face) []geom.Vec {
	s := c.Scene.Objects[f.Object].Solid
	loop := make([]geom.Vec, len(s.Faces[f.Face]))
	for i, v := range s.Faces[f.Face] {
		loop[i] = s.Vertices[v]
	}
	return loop
}

// Cut applies cuts in turn. The given scene is not changed.
func (s Scene) Cut(cuts []Cut) (Cutaway, error) {
	var out Cutaway
	for i, o := range s.Objects {
		solid, bared, err := o.cut(cuts)
		if err != nil {
			return Cutaway{}, fmt.Errorf("object %q: %w", o.ID, err)
		}
		if solid == nil {
			continue
		}
		o.Solid = solid
		out.Scene.Objects = append(out.Scene.Objects, o)
		out.Source = append(out.Source, i)
		for _, k := range bared {
			for _, f := range facesOn(solid, cuts[k].Plane) {
				out.Faces = append(out.Faces, Face{Object: len(out.Source) - 1, Face: f, Cut: k})
			}
		}
	}
	return out, nil
}

// cut is what stays of the object's solid, nil for nothing, and which cuts bared
// a face of it: they went through it, or along a face, so that a cut at a joint
// shows the piece that stays as one beside the joint would.
func (o Object) cut(cuts []Cut) (*geom.Solid, []int, error) {
	solid := o.Solid
	var through []int
	for i, k := range cuts {
		if !k.touches(o) {
			continue
		}
		rest, err := Clip(solid, k.Plane)
		if err != nil || rest == nil {
			return nil, nil, err
		}
		if rest != solid && k.Drop {
			return nil, nil, nil
		}
		solid = rest
		through = append(through, i)
	}
	return solid, through, nil
}

// facesOn lists the faces of s that lie in q.
func facesOn(s *geom.Solid, q geom.Plane) []int {
	var out []int
	for f, loop := range s.Faces {
		if !slices.ContainsFunc(loop, func(v int) bool { return math.Abs(q.Distance(s.Vertices[v])) > 2*onPlane }) {
			out = append(out, f)
		}
	}
	return out
}
