package clearance

import (
	"boxwalk/clearance/sweep"
	"boxwalk/model/geom"
)

// raise measures one part over step k of raising the carrier for this pour.
func (b *Bay) raise(k, part int, around geom.Box) measure {
	s := b.Raising[k]
	return b.in(s.Path, part, around).against(&b.raised, part, func(solid int) bool { return b.lands(part, solid, k) })
}

// lands tells whether a part may touch a solid during step k of raising.
func (b *Bay) lands(part, solid, k int) bool {
	if stands(b.Carrier.Parts[part], b.raised.solids[solid]) {
		return true
	}
	return b.raised.touch[[2]int{part, solid}] && k >= b.raised.last[[2]int{part, solid}]
}

// risesPast are the solids of a zone that a part may not touch in step k of raising.
func (b *Bay) risesPast(k, z int) func(part int) []sweep.Part {
	return func(part int) []sweep.Part {
		return b.raised.free(z, func(solid int) bool { return b.lands(part, solid, k) })
	}
}
