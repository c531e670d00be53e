package clearance

import (
	"errors"
	"fmt"
	"math"

	"boxwalk/clearance/result"
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
	stop  string       // why it cannot be worked out
}

// stretch is one smooth piece of the advance: its motion, the boxes that hold
// each part, and where it lies in the whole.
type stretch struct {
	motion   sweep.Motion
	boxes    []geom.Box
	from, to float64
}

// rolls prepares the advance; nil when the collapse does not end on wheels.
func (b *bay) rolls() *rolling {
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
		r.stop = b.halted(err)
		return r
	}
	r.parts = b.parts
	r.stretches = []stretch{{path, b.sweptBoxes(path), 0, 1}}
	return r
}

// halted says why an advance cannot be worked out.
func (b *bay) halted(err error) string {
	var tips *motion.Unstable
	var sharp *motion.TooSharp
	switch {
	case errors.As(err, &tips):
		return fmt.Sprintf("the centre of gravity at %s, give or take %s, does not lie between the first wheels at %s and the last at %s: the carrier tips",
			b.distance(tips.Centre), b.distance(tips.Uncertain), b.distance(tips.First), b.distance(tips.Last))
	case errors.As(err, &sharp):
		return fmt.Sprintf("within %s from %s on the way turns by %.1f deg, more than a carrier is taken through",
			b.distance(sharp.Stretch), b.distance(sharp.At), sharp.Turn*180/math.Pi)
	}
	return b.told(err)
}

// turns tells whether the way is more than a straight in one plane within reach.
func (b *bay) turns() bool {
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
func (b *bay) add(r *rolling, last carrier.Step, piece sweep.Motion, from, to float64) {
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
func (b *bay) roll(r *rolling, part int) measure {
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

// rollChecks are the clearances over the whole advance, zone by zone, with the
// tolerance allowance taken off.
func (b *bay) rollChecks(r *rolling, list []measure) []judged {
	if r == nil {
		return []judged{open("roll.clear", b.subject("advance"), "m", "the collapse does not end on the wheels, so the carrier cannot roll", b.underway())}
	}
	if r.stop != "" {
		return []judged{open("roll.clear", b.subject("advance"), "m", "the advance cannot be worked out: "+r.stop, b.underway())}
	}
	step := b.rollStep(r.way)
	var out []judged
	for z, zone := range culvert.Zones {
		limit, a := b.limits.of("roll.clear"), b.tol.Of(zone)
		var found []candidate
		anything := false
		for i := range list {
			m := &list[i]
			anything = anything || m.any[z]
			if v := m.at(z).free; m.any[z] && v.Lower < far {
				part := m.part
				loss := b.rollLoss(r, part, zone, v)
				tell := func() (result.Where, string) {
					w := b.where(step, part, string(zone), v)
					station := b.stationAt(r, v.At)
					w.Station = &station
					return w, fmt.Sprintf("%s passes the %s at %s; %s", b.label(part), zone.Words(), b.said(bracketOf(v)), b.takenOff(a, loss.tilt)+b.forTwist(loss.twist)+b.forRests(loss.rests))
				}
				c := candidate{value: bracketOf(v), allowance: a.RootSumSquare + loss.all(), worst: a.WorstCase + loss.all(), tell: tell, part: part, against: v.Against, zone: zone}
				found = append(found, c)
			}
		}
		if anything {
			c := entry("roll.clear", b.about().At(zone), found, limit, result.Min, fmt.Sprintf("every part passes the %s more than %s away", zone.Words(), b.mm(far)))
			out = append(out, b.carried(c, list, z))
		}
	}
	return out
}

// carried leaves a pass open where a wheel dips deeper into what it rolls on than
// is taken off for how that lies: then the motion is not known well enough.
func (b *bay) carried(c judged, list []measure, z int) judged {
	for i := range list {
		v := list[i].at(z).held
		if most := contactTolerance + c.Allowance; c.Verdict == result.Pass && v.Lower < -most {
			c.Verdict, c.Text = result.Open, fmt.Sprintf("%s dips %s into the %s it rolls on, and only %s are taken off for how that lies; %s",
				b.label(list[i].part), b.mm(-v.Lower), culvert.Zones[z].Words(), b.mm(c.Allowance), c.Text)
		}
	}
	return c
}

// rollingLoss is what comes off a rolling clearance besides the tolerances: for a
// crossfall, for a twisted invert, and for the poses between two rests.
type rollingLoss struct{ tilt, twist, rests float64 }

func (l rollingLoss) all() float64 { return l.tilt + l.twist + l.rests }

func (b *bay) rollLoss(r *rolling, part int, zone culvert.Zone, v sweep.Bracket) rollingLoss {
	if v.Against < 0 {
		return rollingLoss{}
	}
	return rollingLoss{b.rollTilt(r, part, zone, v), b.rollTwist(r, part, v), b.betweenRests(r, part)}
}

// rollStep is the advance as a step is named: ahead or back, and how far.
func (b *bay) rollStep(way float64) string {
	if way < 0 {
		return "roll back " + b.distance(-way)
	}
	return "roll ahead " + b.distance(way)
}

// underway is the place of an entry about the advance as a whole.
func (b *bay) underway() result.Where { return b.at(b.rollStep(b.Rolls)) }

// rollTilt is what the crossfall takes off while rolling: as when collapsed,
// with the part where it is carried.
func (b *bay) rollTilt(r *rolling, part int, zone culvert.Zone, v sweep.Bracket) float64 {
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
