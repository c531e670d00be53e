package scene

import (
	"fmt"
	"math"

	"boxwalk/model/geom"
)

// Object is one convex solid of a scene.
type Object struct {
	ID    string // unique in the scene
	Name  string // for people
	Group string // the body it moves with, or the zone of concrete; may be empty
	Style Style
	// Whole names the thing of which this solid is a convex piece. Where pieces
	// with the same non-empty name lie side by side in one plane, no line parts
	// them.
	Whole string
	// Round marks a prism that stands for a drum: an edge between two faces
	// less than 30 degrees apart is no edge of the drum.
	Round bool
	Solid *geom.Solid // in the scene's frame, m
	Mass  float64     // kg; 0 where it plays no part
}

// Scene is a set of placed solids. Order carries no meaning, but outputs name
// objects by their index.
type Scene struct{ Objects []Object }

// Box is the least axis-parallel box around all objects, m.
func (s Scene) Box() geom.Box {
	b := geom.EmptyBox()
	for _, o := range s.Objects {
		b = b.Union(o.Solid.Box())
	}
	return b
}

// Mass is the mass of all objects but ghosts, kg.
func (s Scene) Mass() float64 {
	var m float64
	for _, o := range s.Objects {
		if o.Style != Ghost {
			m += o.Mass
		}
	}
	return m
}

// Groups lists the groups in order of first use, without the empty one.
func (s Scene) Groups() []string {
	seen := map[string]bool{"": true}
	var groups []string
	for _, o := range s.Objects {
		if !seen[o.Group] {
			seen[o.Group] = true
			groups = append(groups, o.Group)
		}
	}
	return groups
}

// Moved is the scene with every object carried by the pose of its group;
// groups without a pose stay. The given scene is not changed.
func (s Scene) Moved(newFromOld map[string]geom.Pose) Scene {
	out := Scene{Objects: append([]Object(nil), s.Objects...)}
	for i := range out.Objects {
		o := &out.Objects[i]
		if pose, ok := newFromOld[o.Group]; ok {
			o.Solid = o.Solid.Moved(pose)
		}
	}
	return out
}

// Check reports the first object that makes the scene unfit to draw or export:
// no ID or one used twice, an unknown style, a mass that is negative or not
// finite, no solid or an unsound one (see geom.Solid.Check).
func (s Scene) Check() error {
	seen := map[string]bool{}
	for i, o := range s.Objects {
		if o.ID == "" {
			return fmt.Errorf("object %d has no ID", i)
		}
		if seen[o.ID] {
			return fmt.Errorf("object %q stands twice in the scene", o.ID)
		}
		seen[o.ID] = true
		if err := o.check(); err != nil {
			return fmt.Errorf("object %q: %w", o.ID, err)
		}
	}
	return nil
}

func (o Object) check() error {
	switch {
	case !o.Style.Valid():
		return fmt.Errorf("style %d is not known", o.Style)
	case !(o.Mass >= 0) || math.IsInf(o.Mass, 1):
		return fmt.Errorf("mass %v kg is not a mass", o.Mass)
	case o.Solid == nil:
		return fmt.Errorf("it has no solid")
	}
	return o.Solid.Check()
}
