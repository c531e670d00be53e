package clearance

import (
	"math"

	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// rolling is the advance from this pour to the next, or out over the end, cut
// into stretches over which the motion is smooth.
type rolling struct {
	way       float64
	stretches []stretch
	obstacles
	parts []sweep.Part // by place in Carrier.Parts
	rigid bool         // the parts are those of the collapsed carrier, which rolls as one body
	cross float64      // how much the invert leans across under a wheel line at most, bends and breaks together
	high  float64      // by which the wheels may stand too high in the model
	ride  *motion.Ride // where the carrier may stand between two rests on the way
	stop  error        // why it cannot be worked out
}

// stretch is one smooth piece of the advance: its motion, the boxes that hold
// each part, and where it lies in the whole.
type stretch struct {
	motion   sweep.Motion
	boxes    []geom.Box
	from, to float64
}

// rolls prepares the advance; nil when the collapse does not end on wheels.
func (b *Bay) rolls() *rolling {
	if len(b.Steps) == 0 {
		return nil
	}
	last := b.Steps[len(b.Steps)-1]
	if last.Stop != nil || !last.Carried {
		return nil
	}
	r := &rolling{way: b.Rolls, obstacles: obstaclesOf(b.Route)}
	if b.turns() || b.steered() {
		b.ride(r, last)
		return r
	}
	path, err := b.Carrier.Rolling(last, r.way)
	if err != nil {
		r.stop = err
		return r
	}
	r.parts = b.parts
	r.stretches = []stretch{{path, b.sweptBoxes(path), 0, 1}}
	return r
}

// turns tells whether the way is more than a straight in one plane within reach.
func (b *Bay) turns() bool {
	if b.Ground.Breaks {
		return true
	}
	for _, w := range b.Ways {
		if math.Abs(w.Turn) > 1e-9 {
			return true
		}
	}
	return false
}

// add appends a stretch of an advance on which the carrier is one rigid body.
func (b *Bay) add(r *rolling, last carrier.Step, piece sweep.Motion, from, to float64) {
	if r.parts == nil {
		r.rigid = true
		for i, p := range b.Carrier.Parts {
			r.parts = append(r.parts, b.parts[i].Fixed(0, last.Pose(p.Body)))
		}
	}
	body := sweptBody{bound: piece.Bound(sweep.Ground, 0, 0, 1)}
	for n := range sweptPieces + 1 {
		body.poses = append(body.poses, piece.Pose(sweep.Ground, 0, float64(n)/sweptPieces))
	}
	boxes := make([]geom.Box, len(r.parts))
	for i, p := range r.parts {
		boxes[i] = body.around(boxOf(p))
	}
	r.stretches = append(r.stretches, stretch{piece, boxes, from, to})
}

// roll measures one part over the advance, zone by zone.
func (b *Bay) roll(r *rolling, part int) measure {
	var m measure
	for i, s := range r.stretches {
		v := mover{motion: s.motion, moving: true, part: r.parts[part], around: s.boxes[part]}
		one := v.against(&r.obstacles, part, func(solid int) bool {
			return stands(b.Carrier.Parts[part], r.solids[solid]) && b.Carrier.Parts[part].Role == carrier.Wheel
		})
		for z := range one.near {
			r := &one.near[z]
			r.free.At = s.from + r.free.At*(s.to-s.from)
			r.held.At = s.from + r.held.At*(s.to-s.from)
		}
		if i == 0 {
			m = one
			continue
		}
		m.also(one)
	}
	return m
}

// rollingLoss is what comes off a rolling clearance besides the tolerances: for a
// crossfall, for a twisted invert, and for the poses between two rests.
type rollingLoss struct{ tilt, twist, rests float64 }

func (l rollingLoss) all() float64 { return l.tilt + l.twist + l.rests }

func (b *Bay) rollLoss(r *rolling, part int, zone culvert.Zone, v sweep.Bracket) rollingLoss {
	if v.Against < 0 {
		return rollingLoss{}
	}
	return rollingLoss{b.rollTilt(r, part, zone, v), b.rollTwist(r, part, v), b.betweenRests(r, part)}
}

// rollTilt is what the crossfall takes off while rolling: as when collapsed,
// with the part where it is carried.
func (b *Bay) rollTilt(r *rolling, part int, zone culvert.Zone, v sweep.Bracket) float64 {
	if zone == culvert.Invert || b.crossfall == 0 || v.Against < 0 {
		return 0
	}
	var arm float64
	for _, w := range r.parts[part].Solid.Vertices() {
		p := r.stretches[0].motion.Pose(sweep.Ground, r.parts[part].Body, 0).Apply(w.Vec())
		arm = math.Max(arm, math.Abs(v.N[2]*p[1]-v.N[1]*p[2]))
	}
	return math.Abs(b.crossfall) * arm
}

// moment is where a place of the whole advance lies in the stretch.
func (s stretch) moment(at float64) (float64, bool) {
	if s.from == s.to {
		return 0, at == s.from
	}
	m := (at - s.from) / (s.to - s.from)
	return math.Max(0, math.Min(1, m)), m > -1e-9 && m < 1+1e-9
}
