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

// ownWeight is what every load on wheels, jacks and pads is of.
const ownWeight = "own weight only; loads of the pour are held by pour.jacks"

// shared is what the places that a carrier stands on have to carry.
type shared struct {
	on       load.Wheels
	standing load.Worst // the most on one, standing as a rigid frame on all of them
	rocking  load.Worst // the most on one, on any three of them
	stand    error      // why standing is not known
}

// share spreads a carrier over what it stands on. An error is one of both.
func share(w load.Wheels) (shared, error) {
	out := shared{on: w}
	var err error
	out.standing, out.stand = w.Standing()
	out.rocking, err = w.Rocking()
	return out, err
}

// leaning are wheels or jacks whose carrier stands on a slope between two, in
// rise over run ahead, and up to a slope across either way: its weight acts
// where the plumb line through its centre of gravity meets the ground.
func leaning(w load.Wheels, height, least, most, across float64) load.Wheels {
	w.Along -= units.Length(height * (least + most) / 2)
	w.AlongOff += units.Length(height * (most - least) / 2)
	w.LeftOff += units.Length(height * math.Abs(across))
	return w
}

// wheelLoads are the loads on the wheels, on every slope of the way: one answer
// for all checks of wheels.
func (r *route) wheelLoads() (shared, error) {
	return share(leaning(r.wheels(), r.centre[2], r.least, r.most, r.acrossSlope()))
}

// acrossSlope is how much the ground may lean across under the wheels.
func (r *route) acrossSlope() float64 {
	return math.Abs(float64(r.job.Alignment.Crossfall)) + r.bay.Tol.Value("track_level")/r.bay.Carrier.Gauge
}

// wheelChecks hold what a wheel carries, standing and rocking, against what the
// gear says it can.
func (r *route) wheelChecks(*model.Study) []Judged {
	capacity := r.bay.Carrier.Gear.Wheels.Capacity
	w, err := r.wheelLoads()
	if err != nil {
		return []Judged{open("roll.wheel", r.bay.subject("wheels"), "kN", r.bay.told(err), r.bay.underway())}
	}
	rocking, on := units.Force(float64(w.rocking.Load)*load.LiveFactor), r.underWheels(w)
	return []Judged{
		r.carries("roll.wheel", "wheel, standing", "", w.standing.Load, w.stand, capacity, w.standingText(r, "wheels"), r.workedStanding(on)),
		r.carries("roll.wheel", "wheel, rocking", "", rocking, nil, capacity, w.rockingText(r, "two diagonal wheels carry", load.LiveFactor), r.workedRocking(on, load.LiveFactor)),
	}
}

// jackChecks hold what a screw jack carries with the carrier raised and all on
// it, standing on all jacks and on the worst three, against what the gear says
// it can.
func (b *bay) jackChecks(s *model.Study) []Judged {
	r := &route{bay: b, job: s.Job}
	r.weighRaised()
	jacks := r.wheels()
	jacks.Lines = nil
	for _, x := range b.Carrier.Bents {
		jacks.Lines = append(jacks.Lines, units.Length(x))
	}
	grade := s.Culvert.GradeOf(b.Pour)
	w, err := share(leaning(jacks, r.centre[2], grade, grade, b.Crossfall))
	if err != nil {
		return []Judged{open("setup.jacks", b.subject("jacks"), "kN", b.told(err), b.at("raised"))}
	}
	capacity, on := stated(jackCarries(b.Carrier.Gear.Jack.Capacity, b.Carrier.Jack)), r.underJacks(w, grade)
	return []Judged{
		r.carries("setup.jacks", "jack, standing", "raised", w.standing.Load, w.stand, capacity, w.standingText(r, "jacks"), r.workedStanding(on)),
		r.carries("setup.jacks", "jack, worst three", "raised", w.rocking.Load, nil, capacity, w.rockingText(r, "three jacks carry alone", 1), r.workedRocking(on, 1)),
	}
}

// stated is a force that may not be; 0 is not stated.
func stated(v *float64) units.Force {
	if v == nil {
		return 0
	}
	return units.Force(*v)
}

// standingText shows how a load standing, as it is printed, comes about.
func (s shared) standingText(r *route, what string) func(load string) string {
	n := 2 * len(s.on.Lines)
	even := s.on.Weight / units.Force(n)
	return func(load string) string {
		return fmt.Sprintf("%s on %d %s as a rigid frame: %s x %.3f for the centre of gravity off their middle and slopes = %s",
			r.weighs(), n, what, r.bay.force(even), float64(s.standing.Load/even), load)
	}
}

// rockingText shows how a load rocking, as it is printed, comes about.
func (s shared) rockingText(r *route, how string, factor float64) func(load string) string {
	text := fmt.Sprintf("on uneven ground a rigid frame of %s rocks so that %s: the worst takes %s x %.3f = ",
		r.weighs(), how, r.bay.force(s.on.Weight), float64(s.rocking.Load/s.on.Weight))
	if factor != 1 {
		text += fmt.Sprintf("%s; rolling, x %.2f = ", r.bay.demand(s.rocking.Load), factor)
	}
	return func(load string) string { return text + load }
}

// bearers are what wheels and jacks are called, and the keys of what they carry.
var bearers = map[string]struct{ what, key string }{
	"roll.wheel":  {"wheel", "wheels.capacity"},
	"setup.jacks": {"jack", "jack.capacity"},
}

// carries holds the carrier's own weight on a wheel or jack against what the gear
// says that carries.
func (r *route) carries(id, rest, step string, value units.Force, unknown error, capacity units.Force, text func(load string) string, working []result.Line) Judged {
	where := r.bay.underway()
	if step != "" {
		where = r.bay.at(step)
	}
	if unknown != nil {
		return open(id, r.bay.subject(rest), "kN", r.bay.told(unknown), where)
	}
	bearer := bearers[id]
	return r.bay.held(holding{id: id, about: r.bay.subject(rest), where: where, unit: "kN", text: text, note: ownWeight, working: working,
		demand: Demand{Dead: float64(value)}, rating: r.bay.Carrier.Gear.Rated(bearer.key, job.IfStated(capacity)), bearer: "a " + bearer.what, verb: "carries",
		source: load.Source{Text: "statics of a rigid frame", Flag: load.Derived}.String()})
}

// capacityRemedy is what mends a bearer that is overloaded, or whose capacity is
// not known.
func capacityRemedy(stronger string) advice {
	return func(_ *bay, e Judged) string {
		if e.Limit == nil && e.Value != nil {
			return fmt.Sprintf("state what a %s carries, from its maker's papers (%s in the gear file)", bearers[e.ID].what, bearers[e.ID].key)
		}
		return stronger
	}
}
