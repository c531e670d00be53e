package measure

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
type Advance struct {
	Way      float64
	Segments []Segment
	Obstacles
	Parts []sweep.Part // by place in Carrier.Parts
	rigid bool         // the parts are those of the collapsed carrier, which rolls as one body
	cross float64      // how much the invert leans across under a wheel line at most, bends and breaks together
	high  float64      // by which the wheels may stand too high in the model
	ride  *motion.Ride // where the carrier may stand between two rests on the way
	Stop  error        // why it cannot be worked out
}

// stretch is one smooth piece of the advance: its motion, what holds each part
// throughout, and where it lies in the whole.
type Segment struct {
	Motion   sweep.Motion
	around   func(part int) geom.Box
	From, to float64
}

// rolls prepares the advance; nil when the collapse does not end on wheels.
func (b *Bay) Advance() *Advance {
	if len(b.Steps) == 0 {
		return nil
	}
	last := b.Steps[len(b.Steps)-1]
	if last.Stop != nil || !last.Carried {
		return nil
	}
	r := &Advance{Way: b.Rolls, Obstacles: obstaclesOf(b.Route)}
	if b.Turns() || b.steered() {
		b.ride(r, last)
		return r
	}
	path, err := b.Carrier.Rolling(last, r.Way)
	if err != nil {
		r.Stop = err
		return r
	}
	r.Parts = b.Parts
	boxes := b.sweptBoxes(path, newNumbers().shapesOf(b.Carrier))
	r.Segments = []Segment{{path, func(part int) geom.Box { return boxes[part] }, 0, 1}}
	return r
}

// Turns tells whether the way is more than a straight in one plane within reach.
func (b *Bay) Turns() bool {
	if b.Ground.Breaks() {
		return true
	}
	for _, j := range b.JointsOnTheWay() {
		if math.Abs(j.Turn) > 1e-9 {
			return true
		}
	}
	return false
}

// add appends a stretch of an advance on which the carrier is one rigid body.
func (b *Bay) add(r *Advance, last carrier.Step, piece sweep.Motion, from, to float64) {
	if r.Parts == nil {
		r.rigid = true
		for i, p := range b.Carrier.Parts {
			r.Parts = append(r.Parts, b.Parts[i].Fixed(0, last.Pose(p.Body)))
		}
	}
	body := sweptBody{bound: piece.Bound(sweep.Ground, 0, 0, 1)}
	for n := range sweptPieces + 1 {
		body.poses = append(body.poses, piece.Pose(sweep.Ground, 0, float64(n)/sweptPieces))
	}
	around := func(part int) geom.Box { return body.around(boxOf(r.Parts[part])) }
	r.Segments = append(r.Segments, Segment{piece, around, from, to})
}

// roll measures one part over the advance, zone by zone.
func (b *Bay) Rolled(r *Advance, part int) Gaps {
	var m Gaps
	for i, s := range r.Segments {
		v := mover{motion: s.Motion, moving: true, part: r.Parts[part], around: s.around(part)}
		one := v.against(&r.Obstacles, part, func(solid int) bool {
			return stands(b.Carrier.Parts[part], r.Solids[solid]) && b.Carrier.Parts[part].Role == carrier.Wheel
		})
		for z := range one.Near {
			r := &one.Near[z]
			r.MustClear.At = s.From + r.MustClear.At*(s.to-s.From)
			r.MayTouch.At = s.From + r.MayTouch.At*(s.to-s.From)
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
type AdvanceLoss struct{ Tilt, Twist, Rests float64 }

func (l AdvanceLoss) All() float64 { return l.Tilt + l.Twist + l.Rests }

func (b *Bay) RollLoss(r *Advance, part int, zone culvert.Zone, v sweep.Bracket) AdvanceLoss {
	if v.Against < 0 {
		return AdvanceLoss{}
	}
	return AdvanceLoss{b.rollTilt(r, part, zone, v), b.rollTwist(r, part, v), b.betweenRests(r, part)}
}

// rollTilt is what the crossfall takes off while rolling: as when collapsed,
// with the part where it is carried.
func (b *Bay) rollTilt(r *Advance, part int, zone culvert.Zone, v sweep.Bracket) float64 {
	if zone == culvert.Invert || b.Crossfall == 0 || v.Against < 0 {
		return 0
	}
	var arm float64
	for _, w := range r.Parts[part].Solid.Vertices() {
		p := r.Segments[0].Motion.Pose(sweep.Ground, r.Parts[part].Body, 0).Apply(w.Vec())
		arm = math.Max(arm, math.Abs(v.N[2]*p[1]-v.N[1]*p[2]))
	}
	return math.Abs(b.Crossfall) * arm
}

// Moment is where a place of the whole advance lies in the stretch.
func (s Segment) Moment(at float64) (float64, bool) {
	if s.From == s.to {
		return 0, at == s.From
	}
	m := (at - s.From) / (s.to - s.From)
	return math.Max(0, math.Min(1, m)), m > -1e-9 && m < 1+1e-9
}
