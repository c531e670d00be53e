package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/job"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// liftChecks are load and stroke of the lifting jacks that raise the carrier
// off its wheels for this pour, and the tilt between the pads they lift at.
func (b *bay) liftChecks(s *model.Study) []Judged {
	stuck := func(unit, why string) []Judged {
		return []Judged{open("raise.lift", b.subject("lifting jacks"), unit, why, b.at(raising))}
	}
	if !b.RollsAway() {
		return stuck("kN", "the collapse does not end on the wheels, so that there is nothing to raise from")
	}
	l := b.Carrier.Gear.Lifting
	if l == nil {
		return stuck("kN", "the gear does not say where and with what the carrier is lifted; give lifting: {pads, capacity, stroke} in the gear file")
	}
	r := &route{bay: b, job: s.Job}
	r.weigh()
	return append(r.liftLoads(l, s.Culvert.GradeOf(b.Pour)), r.liftStroke(l), r.liftTilt(l, "along"), r.liftTilt(l, "across"))
}

// raising is the step that lifting belongs to, as entries name it.
const raising = "raise"

// lifted is an entry of raise.lift from a number that must not exceed a limit.
func (r *route) lifted(rest, unit string, value float64, limit Limit, text string) Judged {
	c := candidate{Value: *result.Exactly(value), where: r.bay.at(raising), text: text}
	e := entry("raise.lift", r.bay.subject(rest), []candidate{c}, limit, result.Max, "")
	e.Unit = unit
	return e
}

// pads of the gear, in the frame of cell and pour.
func (r *route) pads(l *job.Lifting) []units.Length {
	out := make([]units.Length, len(l.Pads))
	for i, x := range l.Pads {
		out[i] = units.Length(r.bay.Carrier.Rear) + x
	}
	return out
}

// liftLoads hold the most that the jack under one pad can have to carry against
// what it carries: the rest of the frame stands on its screw jacks, on its
// wheels, or on some of either.
func (r *route) liftLoads(l *job.Lifting, grade float64) []Judged {
	stands := r.wheelLines()
	for _, x := range r.bay.Carrier.Bents {
		stands = append(stands, units.Length(x))
	}
	along, across := r.plumbOff(l, grade)
	if why := r.besidePads(l, r.unsure[0]+along); why != "" {
		return []Judged{open("raise.lift", r.bay.subject(liftLoad), "kN", why, r.bay.at(raising))}
	}
	p, err := load.Lifting{Weight: r.weight, Gauge: units.Length(r.bay.Carrier.Gauge), Pads: r.pads(l), Stands: stands,
		Along: units.Length(r.centre[0]), Left: units.Length(r.centre[1]), AlongOff: units.Length(r.unsure[0] + along), LeftOff: units.Length(r.unsure[1] + across)}.Loads()
	if err != nil {
		return []Judged{open("raise.lift", r.bay.subject(liftLoad), "kN", r.bay.told(err), r.bay.at(raising))}
	}
	side := "right"
	if p.Left {
		side = "left"
	}
	even := ""
	if p.Even > 0 {
		even = fmt.Sprintf("; with all %d pads carrying alike it is %s at most", 2*len(l.Pads), r.bay.demand(p.Even))
	}
	text := func(demand string) string {
		return fmt.Sprintf("the carrier weighs %s; lifted pad by pad a rigid frame can rock on two diagonal places, and the %s pad %s from the rear end takes %s then%s",
			r.weighs(), side, r.bay.mm(float64(p.At)-r.bay.Carrier.Rear), demand, even)
	}
	return []Judged{r.bay.held(holding{id: "raise.lift", about: r.bay.subject(liftLoad), where: r.bay.at(raising), unit: "kN", text: text, source: p.Source.String(),
		demand: Demand{Dead: float64(p.Worst)}, rating: r.bay.Carrier.Gear.Rated("lifting.capacity", job.IfStated(l.Capacity)), bearer: "a lifting jack", verb: "carries", working: r.workedLift(l, grade, p.How)})}
}

// besidePads tells why lifting does not raise the carrier: its centre of gravity, give
// or take so much, does not lie between the outer pads. Empty where it does.
func (r *route) besidePads(l *job.Lifting, off float64) string {
	pads := r.pads(l)
	first, last := float64(pads[0]), float64(pads[len(pads)-1])
	if at := r.centre[0]; at-off > first && at+off < last {
		return ""
	}
	rear := r.bay.Carrier.Rear
	return fmt.Sprintf("the centre of gravity at %s from the rear end, give or take %s, does not lie between the outer pads at %s and %s: lifting there does not raise the other end",
		r.bay.mm(r.centre[0]-rear), r.bay.mm(off), r.bay.mm(first-rear), r.bay.mm(last-rear))
}

// plumbOff is how far the plumb line through the centre of gravity meets the ground
// off the places below it, along and across: the pour's grade and crossfall, and the
// lean of a pass between pads.
func (r *route) plumbOff(l *job.Lifting, grade float64) (along, across float64) {
	height := r.centre[2] // the most that it may be
	pass := float64(l.Pass)
	return height * (math.Abs(grade) + pass/float64(nearest(l.Pads))), height * (math.Abs(r.bay.Crossfall) + pass/r.bay.Carrier.Gauge)
}

// liftStroke holds the height from wheels to raised, and what packing takes,
// against the stroke.
func (r *route) liftStroke(l *job.Lifting) Judged {
	rise := math.Max(0, r.bay.Carrier.Jack-r.bay.Carrier.Wheels)
	need, err := load.Stroke(units.Length(rise), l.Packing)
	if err != nil {
		return open("raise.lift", r.bay.subject(liftStroke), "m", r.bay.told(err), r.bay.at(raising))
	}
	limit := float64(l.Stroke) + rangeSlack
	demand, has := r.bay.against("m", float64(need), limit)
	text := fmt.Sprintf("from wheels to raised the pads rise %s: jack %s - %s at which the wheels touch; with %s for packing a lifting jack needs a stroke of %s and has %s",
		r.bay.mm(rise), r.bay.mm(r.bay.Carrier.Jack), r.bay.mm(r.bay.Carrier.Wheels), r.bay.mm(float64(l.Packing)), demand, has)
	return r.lifted(liftStroke, "m", float64(need), Limit{Value: limit, Source: "geometry; stroke: gear"}, text).with(r.workedStroke(l))
}

// liftTilt is how far out of level over a metre the frame gets while one pad is
// a pass above the nearest one beside it.
func (r *route) liftTilt(l *job.Lifting, way string) Judged {
	limit := r.bay.limits.of("raise.lift")
	apart := units.Length(r.bay.Carrier.Gauge)
	if way == "along" {
		apart = nearest(l.Pads)
	}
	tilt, err := load.Tilt(l.Pass, apart)
	if err != nil {
		return open("raise.lift", r.bay.subject("tilt "+way), "m", r.bay.told(err), r.bay.at(raising))
	}
	text := fmt.Sprintf("%s, one pad a pass of %s above the next %s away leans the frame by 1:%.0f, %s over %s",
		way, r.bay.mm(float64(l.Pass)), r.bay.mm(float64(apart)), 1/float64(tilt), r.bay.roundedUp(float64(tilt)), r.bay.Distance(1))
	if way == "across" {
		high := r.bay.Carrier.Soffit
		text += fmt.Sprintf("; at the roof, %s up, that is %s to the side", r.bay.mm(high), r.bay.mm(float64(tilt)*high))
	}
	return r.lifted("tilt "+way, "m", float64(tilt), limit, text).with(workedTilt(l.Pass, apart))
}

// nearest is the least distance between neighbouring places, which are in order.
func nearest(places []units.Length) units.Length {
	least := units.Length(math.Inf(1))
	for i := 1; i < len(places); i++ {
		least = min(least, places[i]-places[i-1])
	}
	return least
}
