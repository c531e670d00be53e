package clearance

import (
	"math"

	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/motion"
)

// jacksMove tells whether a step turns the jacks while they carry.
func (b *Bay) jacksMove(s carrier.Step) bool {
	for _, m := range s.Moves {
		if b.Carrier.Adjusters[m.Adjuster].Jack() && m.Moves() && math.Max(m.From, m.To) > b.Carrier.Wheels+1e-9 {
			return true
		}
	}
	return false
}

// tilt is what a crossfall of the invert takes off a travel clearance: the
// carrier leans with it on its wheels while walls and roof stand plumb. The
// invert leans as the carrier does.
func (b *Bay) tilt(path *motion.Path, part int, zone culvert.Zone, v sweep.Bracket) float64 {
	if zone == culvert.Invert {
		return 0
	}
	return b.reach(path, part, v, math.Abs(b.crossfall))
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
