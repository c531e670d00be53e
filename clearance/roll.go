package clearance

import (
	"fmt"
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
	if last.Stop != "" || !last.Carried {
		return nil
	}
	r := &rolling{way: b.Advance, obstacles: obstaclesOf(b.Route)}
	if r.way <= 0 {
		// after the last pour the carrier leaves over the end
		r.way = float64(b.Carrier.Gear.Form.Length)
	}
	if b.turns() {
		b.guide(r, last)
		return r
	}
	path, err := b.Carrier.Rolling(last, r.way)
	if err != nil {
		r.stop = err.Error()
		return r
	}
	r.parts = b.parts
	r.stretches = []stretch{{path, b.sweptBoxes(path), 0, 1}}
	return r
}

// turns tells whether the way bends within reach.
func (b *bay) turns() bool {
	for _, w := range b.Ways {
		if math.Abs(w.Turn) > 1e-9 {
			return true
		}
	}
	return false
}

// beyond is how far the way runs on straight behind the last joint in reach:
// farther than any carrier is long.
const beyond = 100

// guide lays the advance around angle points: the outer wheel lines run along
// the cell's centrelines, joint by joint.
func (b *bay) guide(r *rolling, last carrier.Step) {
	var legs []motion.Leg
	at := 0.0
	for _, w := range b.Ways {
		legs = append(legs, motion.Leg{Length: w.At - at}, motion.Leg{Turn: w.Turn})
		at = w.At
	}
	course, err := motion.NewCourse(append(legs, motion.Leg{Length: beyond}))
	if err != nil {
		r.stop = err.Error()
		return
	}
	wheels := b.Carrier.Gear.Wheels.At
	rear := b.Carrier.Rear + float64(wheels[0])
	front := b.Carrier.Rear + float64(wheels[len(wheels)-1])
	if b.Advance > 0 {
		r.way = b.nextStand() - b.Carrier.Rear
	}
	g, err := motion.NewGuided(course, motion.Guides{Rear: geom.Vec{rear}, Front: geom.Vec{front}}, rear, rear+r.way)
	if err != nil {
		r.stop = err.Error()
		return
	}
	solids := make([]*geom.Solid, len(b.Carrier.Parts))
	for i, p := range b.Carrier.Parts {
		solids[i] = p.Solid.Moved(last.Pose(p.Body))
		r.parts = append(r.parts, sweep.NewPart(0, solids[i]))
	}
	for _, piece := range g.Stretches() {
		body := sweptBody{bound: piece.Bound(sweep.Ground, 0, 0, 1)}
		for n := range sweptPieces + 1 {
			body.poses = append(body.poses, piece.Pose(sweep.Ground, 0, float64(n)/sweptPieces))
		}
		boxes := make([]geom.Box, len(solids))
		for i, s := range solids {
			boxes[i] = body.around(s.Vertices)
		}
		share := func(at float64) float64 { return (piece.Rear(at) - rear) / r.way }
		r.stretches = append(r.stretches, stretch{piece, boxes, share(0), share(1)})
	}
}

// nextStand is how far along the way the form's rear end stands at the next
// pour.
func (b *bay) nextStand() float64 {
	first := b.Ways[0]
	return first.At + b.NextRear - first.Begins
}

// roll measures one part over the advance, zone by zone.
func (b *bay) roll(r *rolling, part int) measure {
	var m measure
	for i, s := range r.stretches {
		v := mover{motion: s.motion, moving: true, part: r.parts[part], around: s.boxes[part]}
		one := v.against(&r.obstacles, part, func(solid int) bool {
			return stands(b.Carrier.Parts[part], r.solids[solid]) && b.Carrier.Parts[part].Role == carrier.Wheel
		})
		for z := range one.free {
			one.free[z].At = s.from + one.free[z].At*(s.to-s.from)
			one.held[z].At = s.from + one.held[z].At*(s.to-s.from)
			if i > 0 {
				one.free[z], one.held[z] = lesser(m.free[z], one.free[z]), lesser(m.held[z], one.held[z])
			}
		}
		m = one
	}
	return m
}

// breakLoss is what the grade breaks within reach take off clearances up and
// down, as if all of one kind acted together. Over a crest the carrier's middle
// comes down by B dg/4 and its overhangs come up by overhang x dg; in a sag it
// is the other way round.
func (b *bay) breakLoss(zone culvert.Zone) float64 {
	var crest, sag float64
	for _, w := range b.Ways {
		crest += math.Max(0, -math.Tan(w.Break))
		sag += math.Max(0, math.Tan(w.Break))
	}
	wheels := b.Carrier.Gear.Wheels.At
	first, last := float64(wheels[0]), float64(wheels[len(wheels)-1])
	overhang := math.Max(first, float64(b.Carrier.Gear.Form.Length)-last)
	middle := (last - first) / 4
	switch zone {
	case culvert.Roof, culvert.HaunchTop, culvert.Hanger:
		return math.Max(crest*overhang, sag*middle)
	case culvert.Invert, culvert.HaunchBottom:
		return math.Max(crest*middle, sag*overhang)
	}
	return 0
}

// rollChecks are the clearances over the whole advance, zone by zone, with the
// tolerance allowance taken off.
func (b *bay) rollChecks(r *rolling, list []measure) []Entry {
	if r == nil {
		return []Entry{open("roll.clear", b.subject("advance"), "m", "the collapse does not end on the wheels, so the carrier cannot roll", b.at("roll ahead"))}
	}
	if r.stop != "" {
		return []Entry{open("roll.clear", b.subject("advance"), "m", "the advance cannot be worked out: "+r.stop, b.at("roll ahead"))}
	}
	step := fmt.Sprintf("roll ahead %.3f m", r.way)
	var out []Entry
	for z, zone := range culvert.Zones {
		limit, a := b.limits.of("roll.clear"), b.tol.Of(zone)
		var found []candidate
		anything := false
		for i := range list {
			m := &list[i]
			anything = anything || m.any[z]
			if v := m.free[z]; m.any[z] && v.Lower < far {
				part := m.part
				tilt, broken := b.rollTilt(r, part, zone, v), b.breakLoss(zone)
				tell := func() (Where, string) {
					w := b.where(step, part, string(zone), v)
					station := b.Cell.LineFromBay(b.Pour).Apply(geom.Vec{b.Carrier.Rear + v.At*r.way})[0]
					w.Station = &station
					return w, fmt.Sprintf("%s passes the %s at %s; %s", b.label(part), zone.Words(), b.said(bracketOf(v)), b.takenOff(a, tilt)+b.forBreaks(broken))
				}
				c := candidate{value: bracketOf(v), allowance: a.RootSumSquare + tilt + broken, worst: a.WorstCase + tilt + broken, tell: tell, part: part, zone: zone}
				found = append(found, c)
			}
		}
		if anything {
			out = append(out, entry("roll.clear", b.subject(zone.Words()), found, limit, Min, fmt.Sprintf("every part passes the %s more than %s away", zone.Words(), b.mm(far))))
		}
	}
	return out
}

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

// forBreaks says what grade breaks take off.
func (b *bay) forBreaks(loss float64) string {
	if loss == 0 {
		return ""
	}
	return fmt.Sprintf(" and %s for the grade breaks in reach", b.mm(loss))
}
