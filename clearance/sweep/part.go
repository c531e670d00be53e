package sweep

import (
	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// NewPart prepares a solid once for any number of searches.
func NewPart(body int, s *geom.Solid) Part { return Part{Body: body, Solid: gap.New(s)} }

// Fixed is the part as another body holds it, in which it stands at a pose.
func (p Part) Fixed(body int, pose geom.Pose) Part {
	return Part{Body: body, Solid: p.Solid.Moved(pose)}
}
