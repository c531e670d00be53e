package measure

import (
	"errors"
	"math"

	"boxwalk/clearance/sweep"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// CentreUncertain is how far the centre of gravity of the collapsed carrier may
// be from where its parts put it, along it, beside what is not known of their
// masses: judgement; hoses, tools and a crew's boxes lie on a deck. It decides only which wheel lines of three or more carry
// over a grade break.
const CentreUncertain = 0.1

// ErrNoRollers stops an advance that rollers are to guide which nobody placed.
var ErrNoRollers = errors.New("no guide rollers are given")

// RestEvery is how far apart in height the poses are swept between the two rests
// of a carrier that may stand on either side of a wheel line: judgement, between
// what is taken off for it and the time it takes.
const RestEvery = 0.002

// ride lays the advance over grade breaks and round angle points: the outer
// wheel lines run along the cell's centrelines, and the carrier pitches as its
// wheels stand on the planes of the pours.
func (b *Bay) ride(r *Advance, last carrier.Step) {
	g := b.ground()
	track, err := motion.NewTrack(g.Grade, g.Joints)
	if err != nil {
		r.Stop = err
		return
	}
	c := b.Carriage(last)
	if steering := b.travel.Steering; steering == "guide rollers" && b.travel.Rollers == nil {
		r.Stop = ErrNoRollers
		return
	}
	from, to := b.onGround(g, c.Rear), b.onGround(g, c.Rear+r.Way)
	ride, err := motion.NewRide(track, c, from, to, g.BayFromLevel)
	if err != nil {
		r.Stop = err
		return
	}
	r.cross, r.high = math.Max(b.Ground.Cross(), b.crossSlope()), track.Overstated(c.Radius)
	share := func(at float64) float64 { return (at - from) / (to - from) }
	for _, way := range ride.Ways {
		for _, piece := range way.Stretches {
			b.add(r, last, piece, share(piece.Rear(0)), share(piece.Rear(1)))
		}
	}
	rests, most, err := ride.Between(RestEvery)
	if err != nil {
		r.Stop = err
		return
	}
	if most > 1e-9 { // rounding of heights
		r.ride = ride
	}
	for _, piece := range rests {
		b.add(r, last, piece, share(piece.Rear(0)), share(piece.Rear(1)))
	}
}

// ground is what the carrier rolls on: the inverts as they are, or on one grade
// the plane of this pour's invert, into which the others are laid.
func (b *Bay) ground() model.Ground {
	if b.Ground.Breaks() {
		return b.Ground
	}
	g := model.Ground{BayFromLevel: geom.Identity()}
	for _, j := range b.Ground.Joints {
		if j.Turn != 0 {
			g.Joints = append(g.Joints, motion.TrackJoint{At: j.At * math.Hypot(1, b.Ground.Grade), Turn: j.Turn})
		}
	}
	return g
}

// Carriage is the collapsed carrier as it is guided and carried.
func (b *Bay) Carriage(last carrier.Step) motion.Carriage {
	gear := b.Carrier.Gear.Wheels
	c := motion.Carriage{Radius: float64(gear.Diameter) / 2}
	for _, at := range gear.At {
		c.Wheels = append(c.Wheels, b.Carrier.Rear+float64(at))
	}
	c.Rear, c.Front = c.Wheels[0], c.Wheels[len(c.Wheels)-1]
	b.steer(&c)
	if !b.Ground.Breaks() { // in one plane it makes no difference which lines carry
		c.Centre = (c.Wheels[0] + c.Wheels[len(c.Wheels)-1]) / 2
		return c
	}
	w := b.Carrier.Weigh(last.PresentAfter, last.Pose)
	unsure := CentreUncertain + (w.Most[0]-w.Least[0])/2
	c.Centre, c.Uncertain = (w.Least[0]+w.Most[0])/2, unsure
	// on a grade the weight acts below the centre of gravity
	for _, g := range b.Ground.Grades() {
		c.Uncertain = math.Max(c.Uncertain, unsure+math.Abs(g)*b.Cell.Rise)
	}
	return c
}

// steer sets the guides as the job says: wheels beside the centreline, or
// rollers that run along a wall's face. A roller's own radius makes no
// difference but on the outside of a bend, where it rounds the corner nearer to
// the wall than its mitre by r (1/cos(turn/2) - 1): 4 micrometres at r 100 and 1
// degree.
func (b *Bay) steer(c *motion.Carriage) {
	switch t := b.travel; {
	case t.Steering == "offset":
		c.Beside = float64(t.Offset)
	case t.Steering == "guide rollers" && t.Rollers != nil:
		c.Rear, c.Front = b.Carrier.Rear+float64(t.Rollers.Rear), b.Carrier.Rear+float64(t.Rollers.Front)
		c.Guide = b.Cell.HalfSpan
		if t.Rollers.Side == "right" {
			c.Guide = -c.Guide
		}
		c.Beside = c.Guide
	}
}

// steered tells whether the way differs from that of wheels on the centreline.
func (b *Bay) steered() bool {
	t := b.travel
	return (t.Steering == "offset" && t.Offset != 0) || (t.Steering == "guide rollers" && b.Turns())
}

// onGround is how far from the bay's origin, along the ground in plan, an axle
// stands whose wheel is at a distance along the inverts.
func (b *Bay) onGround(g model.Ground, along float64) float64 {
	at, grade := inPlan(g, along)
	// an axle stands its radius above the invert, square to it
	radius := float64(b.Carrier.Gear.Wheels.Diameter) / 2
	return at - radius*grade/math.Hypot(1, grade)
}

// inPlan is how far from the bay's origin in plan a place is that lies at a distance
// along the inverts, and the grade there.
func inPlan(g model.Ground, along float64) (at, grade float64) {
	joints, grades := g.Joints, g.Grades()
	home := 0
	for home < len(joints) && joints[home].At <= 0 {
		home++
	}
	i := home
	for along != 0 {
		steep := math.Hypot(1, grades[i])
		next := at + along/steep
		switch {
		case along > 0 && i < len(joints) && next > joints[i].At:
			along -= (joints[i].At - at) * steep
			at, i = joints[i].At, i+1
		case along < 0 && i > 0 && next < joints[i-1].At:
			along += (at - joints[i-1].At) * steep
			at, i = joints[i-1].At, i-1
		default:
			at, along = next, 0
		}
	}
	return at, grades[i]
}

// StationAt is where the rear end of the form stands on the job's line at a
// share of the way, from the inlet.
func (b *Bay) StationAt(r *Advance, share float64) float64 {
	x := b.Carrier.Rear + share*r.Way
	if !b.Turns() {
		return b.Cell.LineFromBay(b.Pour).Apply(geom.Vec{x})[0]
	}
	// the inverts run on evenly from the joint behind, or from the first
	joints, i := b.Ground.Joints, 0
	at, _ := inPlan(b.Ground, x)
	for i+1 < len(joints) && joints[i+1].At <= at {
		i++
	}
	return joints[i].Station + at - joints[i].At
}

// crossSlope is how much the invert leans across under a carrier in a bend on
// one grade.
func (b *Bay) crossSlope() float64 {
	track, err := motion.NewTrack(b.Ground.Grade, b.Ground.Joints)
	if err != nil {
		return math.Abs(b.Ground.Grade)
	}
	return track.CrossSlope()
}

// rollTwist is what a twisted invert takes off: where a bend lies on a grade, or
// a grade breaks along a skewed joint, the wheel lines lean by up to the cross
// slope, either way. It also covers by how much the wheels may stand too high.
func (b *Bay) rollTwist(r *Advance, part int, v sweep.Bracket) float64 {
	if r.cross == 0 && r.high == 0 || v.Against < 0 {
		return 0
	}
	var arm float64
	for _, w := range r.Parts[part].Solid.Vertices() {
		arm = math.Max(arm, math.Abs(v.N[2]*w.Y-v.N[1]*w.Z))
	}
	return r.cross*(arm+b.aside()) + r.high
}

// aside is how far heights under the guides' course are off those under the
// carrier's middle, by cross slope: the course's distance, and more where the
// form overhangs the wheels.
func (b *Bay) aside() float64 {
	if !b.steered() {
		return 0
	}
	wheels := b.Carrier.Gear.Wheels.At
	first, last := float64(wheels[0]), float64(wheels[len(wheels)-1])
	over := math.Max(first, float64(b.Carrier.Gear.Form.Length)-last)
	beside := math.Abs(float64(b.travel.Offset))
	if b.travel.Steering == "guide rollers" {
		beside = b.Cell.HalfSpan
	}
	return beside * (1 + 2*over/(last-first))
}

// betweenRests is what is taken off a part because the poses between two rests
// are swept at heights restEvery apart only.
func (b *Bay) betweenRests(r *Advance, part int) float64 {
	if r.ride == nil {
		return 0
	}
	return r.ride.Within(RestEvery, b.armOf(r, part))
}

// armOf is how far a part reaches, seen from the side, from the farthest inner
// wheel line, at axle height.
func (b *Bay) armOf(r *Advance, part int) float64 {
	gear := b.Carrier.Gear.Wheels
	var most float64
	for _, at := range gear.At[1 : len(gear.At)-1] {
		for _, v := range boxOf(r.Parts[part]).Corners() {
			most = math.Max(most, math.Hypot(v[0]-b.Carrier.Rear-float64(at), v[2]-float64(gear.Diameter)/2))
		}
	}
	return most
}
