package measure

import (
	"math"

	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// JacksMove tells whether a step turns the jacks while they carry.
func (b *Bay) JacksMove(s carrier.Step) bool {
	for _, m := range s.Moves {
		if b.Carrier.Adjusters[m.Adjuster].Jack() && m.Moves() && math.Max(m.From, m.To) > b.Carrier.Wheels+1e-9 {
			return true
		}
	}
	return false
}

// Tilt is what a crossfall of the invert takes off a travel clearance: the
// carrier leans with it on its wheels while walls and roof stand plumb. The
// invert leans as the carrier does.
func (b *Bay) Tilt(path *motion.Path, part int, zone culvert.Zone, v sweep.Bracket) float64 {
	if zone == culvert.Invert {
		return 0
	}
	return b.reach(path, part, v, math.Abs(b.Crossfall))
}

// reach is how far an angle moves a part along the direction of its gap: the
// angle times the largest arm of any vertex about the middle of the feet.
func (b *Bay) reach(path *motion.Path, part int, v sweep.Bracket, angle float64) float64 {
	if angle == 0 || v.Against < 0 {
		return 0
	}
	var arm float64
	for _, at := range [2]float64{0, 1} {
		pose := path.Pose(motion.Ground, b.Carrier.Parts[part].Body, at)
		for _, w := range b.Carrier.Parts[part].Vertices {
			p := pose.Apply(w)
			arm = math.Max(arm, math.Abs(v.N[2]*p[1]-v.N[1]*p[2]))
		}
	}
	return angle * arm
}

// BesideWall is the vertex of a part that side to side leaves the least between
// jacks: gap x gauge / height. Metres.
type BesideWall struct {
	Differ, Upper float64  // the difference that is left, and what it is at most
	Gap, Height   float64  // the gap it is worked from, curvature taken off, and the height
	At            geom.Vec // where the vertex stands as the step begins
}

// BesideWall finds it; false where no vertex comes to lie above the invert. In a step
// that only lowers, the gap stays and the height is greatest at the start; curvature
// is taken off so that it holds for any step.
func (b *Bay) BesideWall(s carrier.Step, part int) (least BesideWall, ok bool) {
	p, gauge := b.Carrier.Parts[part], b.Carrier.Gauge
	bound := s.Path.Bound(motion.Ground, p.Body, 0, 1)
	from, to := s.Path.Pose(motion.Ground, p.Body, 0), s.Path.Pose(motion.Ground, p.Body, 1)
	beside := func(v geom.Vec) float64 { return b.Cell.HalfSpan - math.Abs(v[1]) }
	least.Differ, least.Upper = math.Inf(1), math.Inf(1)
	for _, v := range p.Vertices {
		v0, v1, sag := from.Apply(v), to.Apply(v), bound.Curvature(v)/8
		top := math.Max(v0[2], v1[2]) + sag
		if top <= 0 {
			continue
		}
		gap := math.Min(beside(v0), beside(v1)) - sag
		if differ := gap * gauge / top; differ < least.Differ {
			upper := math.Min(beside(v0)*gauge/math.Max(v0[2], 1e-3), beside(v1)*gauge/math.Max(v1[2], 1e-3))
			least, ok = BesideWall{differ, upper, gap, top, v0}, true
		}
	}
	return least, ok
}
