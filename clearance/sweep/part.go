package sweep

import (
	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// NewPart prepares a solid once for any number of searches.
func NewPart(body int, s *geom.Solid) Part { return Part{Body: body, Solid: gap.New(s)} }
