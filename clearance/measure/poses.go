package measure

import (
	"math"

	"boxwalk/clearance/result"
	"boxwalk/clearance/sweep"
	"boxwalk/model/geom"
)

// astray is how far a corner of the carrier may be from its way between two poses, m:
// half of what whoever plays them is promised.
const astray = 0.5e-4

// RolledPoses are as many poses on the way as it takes that between two of them the
// carrier goes straight and turns evenly (geom.Keys); none where it cannot roll.
func (b *Bay) RolledPoses(r *Advance) []result.RolledPose {
	if r == nil || r.Stop != nil {
		return nil
	}
	box := geom.EmptyBox()
	for _, p := range b.Carrier.Parts {
		box = box.Union(p.Box())
	}
	out := []result.RolledPose{{Share: 0, Pose: geom.Identity()}} // from which it may be moved over first
	for _, on := range r.oneWay() {
		at := func(share float64) geom.Pose { return b.rolledOn(r, on, share) }
		if !alikeIn(box, out[len(out)-1].Pose, at(on.From)) {
			out = append(out, result.RolledPose{Share: on.From, Pose: at(on.From)})
		}
		if !(on.to > on.From) {
			continue
		}
		for _, share := range geom.Keys(at, box, astray, on.From, on.to) {
			out = append(out, result.RolledPose{Share: share, Pose: at(share)})
		}
	}
	return out
}

// oneWay are the stretches one after the other on which the carrier gets from its place
// to the next: where it may stand in several ways, the first of them.
func (r *Advance) oneWay() []Segment {
	const joined = 1e-9 // of the way
	var out []Segment
	at := 0.0
	for _, s := range r.Segments {
		if math.Abs(s.From-at) <= joined && s.to >= s.From && (s.to > at || s.From < 1-joined) {
			out, at = append(out, s), s.to
		}
	}
	return out
}

// rolledOn is RolledTo on a stretch.
func (b *Bay) rolledOn(r *Advance, on Segment, share float64) geom.Pose {
	if !r.rigid {
		return geom.Translation(geom.Vec{share * r.Way})
	}
	return on.Motion.Pose(sweep.Ground, 0, on.share(share))
}

// alikeIn tells whether two poses put every corner of a box in one place.
func alikeIn(box geom.Box, a, b geom.Pose) bool {
	for _, v := range box.Corners() {
		if a.Apply(v).Sub(b.Apply(v)).Len() > astray {
			return false
		}
	}
	return true
}
