package check

import (
	"boxwalk/clearance/result"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

func (b *bay) liftRemedy(e Judged) string {
	if b.Carrier.Gear.Lifting == nil {
		return "state where and with what the carrier is lifted (lifting: {pads, capacity, stroke} in the gear file)"
	}
	switch e.Subject.What {
	case liftLoad:
		return "lifting jacks that carry as much (lifting.capacity: as their maker states it), or pads farther apart on both sides of the centre of gravity (lifting.pads)"
	case liftStroke:
		return "lifting jacks with a longer stroke (lifting.stroke), or less to lift: the legs in another hole (`set: {leg: ...}`)"
	case tiltAlong:
		return "smaller passes (lifting.pass), or pads farther apart (lifting.pads)"
	case tiltAcross:
		return "smaller passes (lifting.pass), or a wider gauge (`set: {gauge: ...}`)"
	}
	return "pads on both sides of the centre of gravity (lifting.pads), and jacks that carry it"
}

// passRemedy is for what the carrier passes on its way.
func (b *bay) passRemedy(e Judged) string {
	p := b.marked(e.Where.Part)
	low := p != nil && (p.Role == carrier.JackPlate || p.Role == carrier.JackScrew)
	switch {
	case e.Verdict == result.Open && e.Value == nil:
		return "fix what stops the advance; it stands in the sentence"
	case p != nil && (under(p.Role) || low) && e.Where.Zone != string(culvert.Invert):
		return "a narrower gauge (`set: {gauge: ...}`), or steering that keeps to the middle of the cell round a bend (`travel: {steering: ...}`)"
	case low:
		return "raise the plates farther in the last step (such as `jack: wheels - 100 mm`), which the jack's range must allow (jack.reading.min)"
	case e.Where.Zone == string(culvert.SteelAhead):
		return "have the bars ahead tied nearer to plumb and held back from the way, or draw the walls in farther"
	case e.Where.Zone == string(culvert.Hanger) && b.ofHalf(p):
		return besidePlates
	case e.Where.Zone == string(culvert.Hanger):
		return "lower farther onto the wheels, or draw in farther; or hang the roof where the form passes clear (left_in_place.hangers: lines, tail)"
	case e.Where.Zone == string(culvert.Invert) || e.Where.Zone == string(culvert.HaunchBottom) || e.Where.Zone == string(culvert.Kicker):
		return "draw the wall bottoms in farther, or end the panels higher (less over the kicker: `set: {foot: ...}`)"
	case b.Turns():
		return "collapse farther in the steps, or steer the carrier over to the side that has room (`travel: {steering: offset, offset: ...}`)"
	}
	return "collapse farther in the steps: draw the walls in, or lower onto the wheels, by what is missing"
}

func (b *bay) trackRemedy(e Judged) string {
	if e.Subject.What == lowFlowChannel {
		return "another wheel gauge (`set: {gauge: ...}`), or lay the channel elsewhere (culvert.channel)"
	}
	return "a narrower wheel gauge (`set: {gauge: ...}`)"
}

func (b *bay) bendRemedy(e Judged) string {
	switch e.Subject.What {
	case midOrdinate:
		return "shorter pours on the curve (culvert.pours): half the length leaves a quarter"
	case lapBefore, lapBreak:
		return "no lap over a bend or a grade break (culvert.lap: 0 there); end the form in the joint"
	case formAhead:
		return "end the form in the joint: a pour as long as the form (culvert.pours), and a joint wide enough for its square end (culvert.joint_gap)"
	case scrubbing:
		return "wheels that turn in plan (wheels.swivel), or state what a wheel carries sideways, as its maker has it (wheels.side)"
	case pullRound:
		return "bring a pulling line that can do it round the bend (travel.capacity: as its maker states it), or wheels that turn in plan (wheels.swivel)"
	}
	return "steer the carrier over to the side that has room (`travel: {steering: offset, offset: ...}`), collapse farther, or split the turn over two joints"
}

func (b *bay) bearingRemedy(e Judged) string {
	if e.Verdict == result.Open {
		return "state what is missing; the sentence above names it, and nothing is taken for granted until then"
	}
	return "let the invert grow older before wheels run on it (schedule.invert_age), or use gear with more or wider wheels"
}

// supportRemedy is for wheels that come too near to the end of the invert, or
// past it.
func (r *route) supportRemedy(left, limit float64, end string) string {
	if left >= limit {
		return ""
	}
	return r.bay.longerApron(end, limit-left)
}
