package scene

import (
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
