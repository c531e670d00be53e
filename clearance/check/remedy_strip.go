package check

import (
	"fmt"
	"math"
	"slices"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/units"
)

// digRemedy tells what digs as it is set from what runs into concrete on its way.
func (b *bay) digRemedy(e Judged) string {
	p := b.marked(e.Where.Part)
	switch {
	case p != nil && (p.Role == carrier.Wheel || p.Role == carrier.Fork || p.Role == carrier.JackPlate):
		return "a narrower gauge (`set: {gauge: ...}`) keeps wheels and jacks clear of it"
	case b.bentLap():
		return "the form reaches across a bend or a grade break: first fix what roll.bend says, and end it in the joint (culvert.lap 0 there, a pour as long as the form, a joint wide enough)"
	case len(b.Steps) > 0 && e.Where.Step == b.Steps[0].Name && e.Value != nil && e.Value.Upper < 0 && !b.moves(b.Steps[0].Name):
		return "it enters as it is set, before anything moves: compare section and gear (setup.faces, setup.range), or keep clear what was cast before"
	case e.Value != nil && e.Value.Upper > -measure.ContactTolerance:
		return "draw the part in farther before this step, so that a frame that leans does not touch; or lower less in it, and the rest later"
	}
	return "change the order or the size of the steps (`sequence:` in the job, `steps:` in the gear) so that the part leaves its face first"
}

// bentLap tells whether the form reaches over a joint at which the line bends.
func (b *bay) bentLap() bool {
	rear, front := b.Carrier.Rear, b.Carrier.Rear+float64(b.Carrier.Gear.Form.Length)
	for _, j := range b.JointsOnTheWay() {
		over := math.Min(j.Along-rear, front-j.Along) // the shorter end lies across
		if over > 0 && over*math.Sin(math.Abs(j.Turn)+math.Abs(j.Break)) > b.limits.of("roll.bend.lap").Value {
			return true
		}
	}
	return false
}

// moves tells whether a step turns anything.
func (b *bay) moves(step string) bool {
	for _, s := range b.Steps {
		for _, m := range s.Moves {
			if s.Name == step && m.Moves() {
				return true
			}
		}
	}
	return false
}

// selfRemedy goes by which two parts meet.
func (b *bay) selfRemedy(e Judged) string {
	p, q := b.marked(e.Where.Part), b.marked(e.Where.Zone)
	if p == nil || q == nil {
		return "change the order, or stop the step before the two parts meet"
	}
	for _, pair := range [2][2]*carrier.Part{{p, q}, {q, p}} {
		a, other := pair[0], pair[1]
		switch {
		case a.Role == carrier.Filler && other.Role != carrier.Filler:
			return "the filler is still in: take it out first, in a step before this one (`removes: [fillers]`)"
		case under(a.Role) && (other.Role == carrier.JackPlate || other.Role == carrier.JackScrew || other.Role == carrier.Leg):
			return b.moveWheel(a, other)
		case a.Role == carrier.LinkBar || a.Role == carrier.Lug:
			return fmt.Sprintf("the %s runs through it: give it other pins or another plane along the cell (links: from, to, beside), or stop the step before they meet", a.Name)
		}
	}
	if e.Subject.Kind == SeamPairs && len(b.Carrier.Hinged()) > 0 {
		return "the seam closes as the parts turn: draw the wall bottoms in farther before the arms, or set the hinge nearer to the face or higher (hinge.behind, hinge.above)"
	}
	if len(b.Steps) > 0 && e.Where.Step == b.Steps[0].Name && !b.moves(e.Where.Step) {
		return "they overlap as set, before anything moves: no order of steps fixes that; change the gear or its setting (`set:`)"
	}
	return "change the order, or stop the step before the two parts meet"
}

// under tells whether a part is a wheel or its fork.
func under(r carrier.Role) bool { return r == carrier.Wheel || r == carrier.Fork }

// wheelPlay is left between a wheel and a jack plate where a place for the wheel
// is proposed: judgement.
const wheelPlay = 0.010

// moveWheel proposes a place for the wheel line that stands in a jack: the
// nearest at which no jack is met.
func (b *bay) moveWheel(wheel, jack *carrier.Part) string {
	g, box := b.Carrier.Gear, wheel.Box()
	at := (box.Min[0]+box.Max[0])/2 - b.Carrier.Rear
	line, was := 0, math.Inf(1)
	for i, x := range g.Wheels.At {
		if d := math.Abs(float64(x) - at); d < was {
			line, was = i, d
		}
	}
	at = float64(g.Wheels.At[line])
	text := fmt.Sprintf("move the wheel line clear of the jack of bent %d (wheels.at[%d])", jack.Bent, line)
	apart := float64(g.Wheels.Diameter)/2 + math.Max(float64(g.Jack.Plate.X), float64(g.Frame.Leg.Section))/2 + wheelPlay
	if to, ok := b.freeOfJacks(at, apart); ok {
		sys := units.Metric
		if b.imperial {
			sys = units.Imperial
		}
		text += fmt.Sprintf(", for example from %s to %s", units.Length(at).Text(sys), units.Length(to).Text(sys))
	}
	return text + "; lifting pads must be free of it as well"
}

// freeOfJacks is the place along the form nearest to one, rounded to what people
// write, that lies at least so far from every bent.
func (b *bay) freeOfJacks(at, apart float64) (float64, bool) {
	round := 0.010
	if b.imperial {
		round = 0.0254
	}
	long := float64(b.Carrier.Gear.Form.Length)
	for n := range int(long/round) + 1 {
		for _, to := range [2]float64{(math.Round(at/round) + float64(n)) * round, (math.Round(at/round) - float64(n)) * round} {
			free := to >= 0 && to <= long
			for _, x := range b.Carrier.Bents {
				free = free && math.Abs(to-(x-b.Carrier.Rear)) >= apart
			}
			if free {
				return to, true
			}
		}
	}
	return 0, false
}

// clearRemedy is for gaps while collapsing and when collapsed.
func (b *bay) clearRemedy(e Judged) string {
	p := b.marked(e.Where.Part)
	collapsed := e.Subject.Kind == result.Collapsed
	switch {
	case p != nil && (under(p.Role) || p.Role == carrier.JackPlate || p.Role == carrier.JackScrew) && e.Where.Zone != string(culvert.Invert):
		return "a narrower gauge (`set: {gauge: ...}`) keeps wheels and jacks clear of it"
	case p != nil && (p.Role == carrier.JackPlate || p.Role == carrier.JackScrew):
		return "raise the plates farther in the last step (such as `jack: wheels - 60 mm`)"
	case collapsed && e.Where.Zone == string(culvert.Hanger) && b.ofHalf(p):
		return besidePlates
	case collapsed && e.Where.Zone == string(culvert.Hanger):
		return "lower farther onto the wheels, or draw in farther, before the carrier rolls; or hang the roof where the form passes clear (left_in_place.hangers: lines, tail)"
	case collapsed && (e.Where.Zone == string(culvert.Invert) || e.Where.Zone == string(culvert.HaunchBottom)):
		return "draw the wall bottoms in farther, or end the panels higher (less over the kicker: `set: {foot: ...}`); larger wheels carry the form higher"
	case collapsed:
		return "draw the part in farther, or lower farther onto the wheels, before the carrier rolls"
	}
	return "draw the part in farther in the step named, or in a step before it; where the allowance for adjusters out of step is large, turn fewer of them in one step"
}

// ofHalf tells whether a part is on one of two roof halves, which draw in toward
// the hangers.
func (b *bay) ofHalf(p *carrier.Part) bool {
	return p != nil && b.Carrier.DrawsIn(p.Body) && (p.Role == carrier.RoofPanel || p.Role == carrier.Stringer)
}

// besidePlates is for halves that come near plate or nut.
const besidePlates = "the halves draw in toward the hangers: lower farther onto the wheels (jack.lower, jack.reading), a wider filler (roof.widths, `set: {filler: ...}`), or a shorter tail under the plate (left_in_place.hangers.tail)"

// backUnder is for what meets the hangers of another pour as the form is set.
func (b *bay) backUnder(pour int) string {
	return fmt.Sprintf("the form reaches under the roof of pour %d, where a hanger stays: less lap (culvert.lap), or bents that come to lie elsewhere along that pour (form.first), so that none hangs there; on a skew the form reaches back by width x tan(skew) as well", pour)
}

// supportsRemedy tells a one-piece roof, which needs pockets for plates, from
// halves that part beside them.
func (b *bay) supportsRemedy(e Judged) string {
	g, kept := b.Carrier.Gear, b.Carrier.Kept.Hangers
	if kept == nil || slices.ContainsFunc(b.Carrier.Parts, func(p carrier.Part) bool { return b.ofHalf(&p) }) {
		return "a wider filler, so that the halves keep clear of plate and nut (roof.widths, `set: {filler: ...}`); part the halves farther before lowering; or move the hanger lines (left_in_place.hangers.lines)"
	}
	play := b.pocketPlay()
	wide := func(plate units.Length) string { return b.atLeast(float64(plate) + 2*play) }
	pocket := fmt.Sprintf("at least %s x %s x %s for plates of %s x %s x %s: a plate as large as its pocket leaves no play",
		wide(kept.Plate.X), wide(kept.Plate.Y), b.mm(float64(kept.Plate.Z)), b.mm(float64(kept.Plate.X)), b.mm(float64(kept.Plate.Y)), b.mm(float64(kept.Plate.Z)))
	switch {
	case e.Subject.Kind == "hanger nut":
		return "under a one-piece roof nothing may hang below the plate: hold it from above, stud up (left_in_place.hangers.tail: 0 mm), and let it lie in a pocket, a recess in the facing as deep as the plate is thick (roof.pocket), " + pocket
	case g.Roof.Pocket == nil:
		return "a plate under a one-piece roof lies in a pocket, a recess in the facing as deep as the plate is thick, with its top level with the facing: state one (roof.pocket), " + pocket
	}
	for _, y := range kept.Lines {
		if math.Abs(float64(y)) > measure.ContactTolerance {
			return "pockets lie on the centreline over every bent: hang the roof there (left_in_place.hangers.lines: [0 m])"
		}
	}
	return "a larger pocket (roof.pocket), " + pocket + "; close the play with a seal round the plate (roof.seal)"
}

// raiseRemedy is for what is met on the way up.
func (b *bay) raiseRemedy(e Judged) string {
	if e.Where.Zone == string(culvert.SteelAhead) {
		return "have the bars ahead tied nearer to plumb and held back from the form before it is raised, or give them more cover; the form comes up beside them"
	}
	if b.bentLap() {
		return "the form reaches across a bend or a grade break: first fix what roll.bend says, and end it in the joint (culvert.lap 0 there)"
	}
	if e.Value != nil && e.Limit != nil && e.Value.Lower >= *e.Limit {
		return "the gap is there while the frame is level: " + b.smallerPass(e) + ", so that it leans less, or draw in farther the part that comes near in the collapse step named"
	}
	return "raising takes the collapse back, step by step: change the collapse step named so that it comes clear, or lap less over what is cast (culvert.lap)"
}

// smallerPass is which pass of lifting to make smaller: that of the step named.
func (b *bay) smallerPass(e Judged) string {
	lifting := b.Carrier.Gear.Lifting
	last := b.LastLift()
	switch {
	case lifting == nil:
		return "state what it is lifted with (lifting), in passes"
	case last < 0 || b.Raising[last].Name != e.Where.Step:
		return "lift in smaller passes (lifting.pass)"
	case lifting.Last == nil:
		return "make the last lift in a pass of its own, smaller than the others (lifting.last)"
	}
	return "make the last lift in a smaller pass (lifting.last)"
}
