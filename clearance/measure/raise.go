package measure

import (
	"boxwalk/clearance/sweep"
	"boxwalk/model/geom"
)

// raise measures one part over step k of raising the carrier for this pour.
func (b *Bay) raise(k, part int, around geom.Box) Gaps {
	s := b.Raising[k]
	return b.in(s.Path, part, around).against(&b.Before, part, func(solid int) bool { return b.lands(part, solid, k) })
}

// lands tells whether a part may touch a solid during step k of raising.
func (b *Bay) lands(part, solid, k int) bool {
	if stands(b.Carrier.Parts[part], b.Before.Solids[solid]) {
		return true
	}
	return len(b.Before.touches[part]) > 0 && b.Before.Touch[[2]int{part, solid}] && k >= b.Before.Last[[2]int{part, solid}]
}

// RisesPast are the solids of a zone that a part may not touch in step k of raising.
func (b *Bay) RisesPast(k, z int) func(part int) []sweep.Part {
	return func(part int) []sweep.Part {
		return b.Before.MustClear(z, func(solid int) bool { return b.lands(part, solid, k) })
	}
}
