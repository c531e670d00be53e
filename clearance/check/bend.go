package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/culvert"
	"boxwalk/model/job"
	"boxwalk/model/load"
	"boxwalk/model/motion"
	"boxwalk/model/units"
)

// bendChecks ask that the carrier passes the angle points within its reach, by
// the hand formulas that a detailer knows: what the swept width leaves beside
// it, how wheels that cannot steer scrub, and how the straight form fits the
// bent line. They stand beside roll.clear, which searches the way itself.
func (b *bay) bendChecks(s *model.Study) []Judged {
	out := append(b.midOrdinateCheck(s), b.lapChecks(s)...)
	t := b.turning()
	switch {
	case t.all == 0:
		return append(out, b.unbent("advance", "m", "no angle point comes to lie between the wheels on the way"))
	case !b.RollsAway():
		return append(out, open("roll.bend", b.subject("swept width"), "m", "the collapse does not end on the wheels, so the carrier cannot roll", b.underway()))
	}
	r := &bending{bay: b, route: b.onTheWay(s), turning: t, gap: s.Culvert.JointGap}
	out = append(out, r.sweptChecks()...)
	return append(out, r.scrubChecks()...)
}

// unbent is an entry with nothing to check.
func (b *bay) unbent(rest, unit, text string) Judged {
	e := entry("roll.bend", b.subject(rest), nil, b.limits.of("roll.clear"), result.Min, text)
	e.Unit, e.Limit, e.Where = unit, nil, b.underway()
	return e
}

// turning is how the way turns under the wheels while the carrier rolls. Joints
// that it can stand over at once count as one with all their turns: of all lines
// that turn by an angle in all, the one with a single angle point in its middle
// leaves its chord the farthest, as atan(h/p) + atan(h/q) <= phi with p + q = B
// is least at p = q.
type turning struct {
	all    float64 // the most of the joints under the carrier at once, rad, signs left out
	single float64 // the most of one joint
	joints int     // under the carrier at once
	side   float64 // +1 where every joint turns left, -1 right, 0 some of each
}

func (b *bay) turning() turning {
	passed := b.passed()
	var t turning
	for i, j := range passed {
		sum, joints := 0.0, 0
		for _, v := range passed[i:] {
			if v.Along-j.Along < float64(b.Carrier.Gear.Form.Length) {
				sum, joints = sum+math.Abs(v.Turn), joints+1
			}
		}
		if sum > t.all {
			t.all, t.joints = sum, joints
		}
		t.single = math.Max(t.single, math.Abs(j.Turn))
		switch side := math.Copysign(1, j.Turn); {
		case i == 0:
			t.side = side
		case side != t.side:
			t.side = 0
		}
	}
	return t
}

// passed are the angle points that come to lie between the outer wheel lines on
// the way, in order.
func (b *bay) passed() []motion.TrackJoint {
	wheels := b.Carrier.Gear.Wheels.At
	rear, front := b.Carrier.Rear+float64(wheels[0]), b.Carrier.Rear+float64(wheels[len(wheels)-1])
	from, to := math.Min(rear, rear+b.Rolls), math.Max(front, front+b.Rolls)
	var out []motion.TrackJoint
	for _, j := range b.JointsOnTheWay() {
		if math.Abs(j.Turn) > 1e-9 && j.Along > from && j.Along < to {
			out = append(out, j)
		}
	}
	return out
}

// words of the turn.
func (t turning) words() string {
	if t.joints > 1 {
		return fmt.Sprintf("%d angle points of %.2f deg together", t.joints, t.all*180/math.Pi)
	}
	return fmt.Sprintf("an angle point of %.2f deg", t.all*180/math.Pi)
}

// bending is the carrier on its way round a bend.
type bending struct {
	bay     *bay
	route   *route
	turning turning
	gap     float64 // of the joints
}

// ends are the outer wheel lines, in the frame of cell and pour.
func (r *bending) ends() (rear, front float64) {
	lines := r.route.wheelLines()
	return float64(lines[0]), float64(lines[len(lines)-1])
}

func (r *bending) bend(turn float64) load.Bend {
	rear, front := r.ends()
	return load.Bend{Base: units.Length(front - rear), Turn: units.Angle(turn)}
}

// steered is what the carrier moves to each side where it is steered the best
// way round a turn: a body of length Lc with its middle over the angle point
// stands half of (Lc/2) tan(phi/2) to each side.
func (r *bending) steered(turn float64) float64 {
	return float64(r.bay.Carrier.Gear.Form.Length) / 4 * math.Tan(turn/2)
}

// thrown is how far a part that reaches from x0 to x1 along the carrier comes
// toward the inside of the bend under the base, and toward the outside with what
// overhangs it. A carrier that is run to one side stands there all the way.
func (r *bending) thrown(x0, x1, turn float64) (inside, outside float64, err error) {
	rear, front := r.guides()
	at := math.Max(x0, math.Min(x1, (rear+front)/2)) // of the part, the place nearest mid base
	at = math.Max(rear, math.Min(front, at))
	h, err := load.Bend{Base: units.Length(front - rear), Turn: units.Angle(turn)}.OffCourse(units.Length(at - rear))
	over := math.Max(0, math.Max(rear-x0, x1-front))
	in, out := r.beside()
	return float64(h) + in, over*math.Sin(turn) + out, err
}

// guides are the two places along the carrier that follow the bend: the outer
// wheel lines, or the rollers that run along a wall.
func (r *bending) guides() (rear, front float64) {
	if t := r.route.job.Travel; t.Steering == "guide rollers" && t.Rollers != nil {
		return r.bay.Carrier.Rear + float64(t.Rollers.Rear), r.bay.Carrier.Rear + float64(t.Rollers.Front)
	}
	return r.ends()
}

// beside is how far the carrier is run toward the inside of the bends and toward
// their outside; where they turn both ways it counts to either side.
func (r *bending) beside() (inside, outside float64) {
	if r.route.job.Travel.Steering != "offset" {
		return 0, 0
	}
	off := float64(r.route.job.Travel.Offset)
	if r.turning.side == 0 {
		return math.Abs(off), math.Abs(off)
	}
	return r.turning.side * off, -r.turning.side * off
}

// face is one plane of the section that the carrier passes, on either side:
// n is what a millimetre sideways takes off the distance to it.
type face struct {
	zone     culvert.Zone
	n        float64
	distance func(y, z float64) float64 // y outward
}

// faces are wall and haunches; a plane's distance is never more than that to
// the concrete behind it.
func (r *bending) faces() []face {
	half := r.bay.Cell.HalfSpan
	out := []face{{culvert.Wall, 1, func(y, _ float64) float64 { return half - y }}}
	haunch := func(zone culvert.Zone, h culvert.Haunch, up func(z float64) float64) {
		if h.Exists() {
			l := math.Hypot(h.Run, h.Rise)
			out = append(out, face{zone, h.Rise / l, func(y, z float64) float64 { return ((half-y)*h.Rise + (up(z)-h.Rise)*h.Run) / l }})
		}
	}
	haunch(culvert.HaunchBottom, r.bay.Cell.Bottom, func(z float64) float64 { return z })
	haunch(culvert.HaunchTop, r.bay.Cell.Top, func(z float64) float64 { return r.bay.Cell.Rise - z })
	return out
}

// sweptChecks hold what the swept width leaves against the rolling clearance,
// for the running gear and for all that is above it.
func (r *bending) sweptChecks() []Judged {
	groups := map[bool][]candidate{}
	last := r.bay.Steps[len(r.bay.Steps)-1]
	faces := r.faces()
	for i, p := range r.bay.Carrier.Parts {
		if !last.PresentAfter(p) {
			continue
		}
		list, err := r.swept(i, faces)
		if err != nil {
			return []Judged{open("roll.bend", r.bay.subject("swept width"), "m", r.bay.told(err), r.bay.underway())}
		}
		low := runningGear[p.Role]
		groups[low] = append(groups[low], list...)
	}
	limit := r.bay.limits.of("roll.clear")
	nothing := "every part stays more than " + r.bay.mm(measure.Far) + " from walls and haunches"
	return []Judged{
		entry("roll.bend", r.bay.subject("swept width, panels and frame"), groups[false], limit, result.Min, nothing),
		entry("roll.bend", r.bay.subject("swept width, wheels and jacks"), groups[true], limit, result.Min, nothing),
	}
}

// scrubChecks are what wheels that cannot steer do at the bend.
func (r *bending) scrubChecks() []Judged {
	w := r.bay.Carrier.Gear.Wheels
	if w.Swivel {
		return []Judged{r.bay.unbent(scrubbing, "kN", "the wheels turn in plan, so that they roll round the bend without sliding")}
	}
	rear, _ := r.ends()
	bend := r.bend(r.turning.all)
	loads, err := r.route.wheelLoads()
	if err == nil {
		worst := loads.rocking.Load
		var s load.Scrubbing
		if s, err = bend.Scrub(r.route.weight, worst, units.Length(r.route.centre[0]-rear), float64(r.route.job.Travel.Scrub)); err == nil {
			return []Judged{r.scrubCheck(bend, s, worst), r.bentPull(s)}
		}
	}
	return []Judged{open("roll.bend", r.bay.subject(scrubbing), "kN", r.bay.told(err), r.bay.underway())}
}

// scrubCheck holds the side force of one wheel against what it carries
// sideways, where the gear says so.
func (r *bending) scrubCheck(bend load.Bend, s load.Scrubbing, wheel units.Force) Judged {
	w := r.bay.Carrier.Gear.Wheels
	text := func(side string) string {
		return fmt.Sprintf("%s; with friction %.2f (travel.scrub) a wheel with %s is pushed sideways with %s, and steering a wheel line takes up to %s",
			r.slips(bend), float64(r.route.job.Travel.Scrub), r.bay.demand(wheel), side, r.bay.demand(s.Line))
	}
	e := r.bay.held(holding{id: "roll.bend", about: r.bay.subject(scrubbing), where: r.bay.underway(), unit: "kN", text: text, source: coefficients(s.Source.String(), r.route.job, "travel.scrub"),
		demand: Demand{Live: float64(s.Wheel)}, rating: r.bay.Carrier.Gear.Rated("wheels.side", job.IfStated(w.Side)), bearer: "a wheel", verb: "carries", way: " sideways", working: r.workedScrub(float64(wheel))})
	if e.Lacks != "" {
		e.Text += ", or wheels.swivel where they turn in plan"
	}
	return e
}

// slips says how far the wheels of every line slide.
func (r *bending) slips(bend load.Bend) string {
	rear, _ := r.ends()
	text := fmt.Sprintf("at %s the wheels slide sideways", r.turning.words())
	for i, x := range r.route.wheelLines() {
		slip, err := bend.Slip(x - units.Length(rear))
		if err != nil {
			return text
		}
		text += fmt.Sprintf("%s %s at line %d", map[bool]string{true: ",", false: ""}[i > 0], r.bay.mm(float64(slip)), i+1)
	}
	return text
}

// bentPull holds the pull that starts the carrier on the grade while its wheels
// scrub against the line's capacity.
func (r *bending) bentPull(s load.Scrubbing) Judged {
	p, err := r.route.demands(r.route.up + r.route.off)
	if err != nil {
		return open("roll.bend", r.bay.subject(pullRound), "kN", r.bay.told(err), r.bay.underway())
	}
	need := p.Starting + s.Pull
	source := coefficients(s.Source.String(), r.route.job, "travel.scrub", "travel.rolling.most", "travel.breakaway")
	return r.route.pulled("roll.bend", pullRound, need, source, r.workedBentPull(), func(demand string) string {
		return fmt.Sprintf("to start it takes %s, and the scrubbing wheels add up to %s at %s: %s", r.bay.demand(p.Starting), r.bay.demand(s.Pull), r.turning.words(), demand)
	})
}
