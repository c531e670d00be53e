package certify

import (
	"encoding/binary"
	"math"
	"slices"
	"strings"

	"boxwalk/clearance/check"
	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/clearance/sweep"
	"boxwalk/clearance/trace"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// placed is a bay on its way into the proof.
type placed struct {
	*prover
	r       *check.Examined
	at      int
	place   *trace.Place
	carrier *trace.Carrier
	known   map[string]int // solids, by zone and corners
	// where the solids of each scene stand in the place's list
	stripped, raised, ahead []int
}

// place adds what stands around a bay, and what is claimed there.
func (p *prover) place(r *check.Examined) {
	b := r.Found.Bay
	q := &placed{prover: p, r: r, at: len(p.proof.Places), known: map[string]int{}}
	_, ahead := r.Found.Lead()
	q.place = &trace.Place{Carrier: p.carrier(r), Shift: ahead, Name: result.Subject{Cell: b.Cell.Number, Pour: b.Pour.Number}.String()}
	q.carrier = p.proof.Carriers[q.place.Carrier]
	for i := range p.Study.Bays {
		if twin := &p.Study.Bays[i]; twin.Twin == b.Twin && twin != b.Bay {
			q.place.Twins = append(q.place.Twins, result.Subject{Cell: twin.Cell.Number, Pour: twin.Pour.Number}.String())
		}
	}
	p.proof.Places = append(p.proof.Places, q.place)
	q.stripped = q.solids(&b.Stripped, "s")
	q.raised = q.solids(&b.Before, "r")
	if r.Found.Rolling != nil && r.Found.Rolling.Stop == nil {
		q.ahead = q.solids(&r.Found.Rolling.Obstacles, "a")
	} else {
		p.proof.Whole = false
	}
	q.contacts()
	q.stripClaims()
	q.raiseClaims()
	q.rollClaims()
}

// solids adds those of a scene; one that stands in several is written once.
func (q *placed) solids(o *measure.Obstacles, scene string) []int {
	var at []int
	for _, s := range o.Solids {
		key := cornersOf(s)
		i, ok := q.known[key]
		if !ok {
			i = len(q.place.Solids)
			q.known[key] = i
			by := geom.Vec{-q.place.Shift}
			x := trace.Solid{Zone: string(s.Zone), Vertices: s.Vertices, Part: sweep.NewPart(sweep.Ground, s.Solid.Moved(geom.Translation(by)))}
			if s.Zone == culvert.Hanger {
				x.Kind = measure.KindOf(s)
			}
			q.place.Solids = append(q.place.Solids, x)
		}
		if x := &q.place.Solids[i]; !strings.Contains(x.Scenes, scene) {
			x.Scenes += scene
		}
		at = append(at, i)
	}
	return at
}

// cornersOf tells solids apart.
func cornersOf(s culvert.Solid) string {
	key := []byte(s.Zone)
	key = append(key, ' ')
	if s.Zone == culvert.Hanger {
		key = append(key, measure.KindOf(s)...)
	}
	for _, v := range s.Vertices {
		for _, x := range v {
			key = binary.LittleEndian.AppendUint64(key, math.Float64bits(x))
		}
	}
	return string(key)
}

// contacts declares the pairs that may touch, as the checks take them.
func (q *placed) contacts() {
	b := q.r.Found.Bay
	first := q.firstRaise()
	q.place.Faces = lives(b.Stripped.Touch, q.stripped, func(pair [2]int) int { return b.Stripped.Last[pair] + 1 })
	q.place.Lands = lives(b.Before.Touch, q.raised, func(pair [2]int) int { return b.Before.Last[pair] + first })
	var feet, wheels []int
	for i, p := range b.Carrier.Parts {
		if p.Role == carrier.JackPlate || p.Role == carrier.Wheel {
			feet = append(feet, i)
		}
		if p.Role == carrier.Wheel {
			wheels = append(wheels, i)
		}
	}
	for i, s := range q.place.Solids {
		if s.Zone != string(culvert.Invert) {
			continue
		}
		if strings.ContainsAny(s.Scenes, "sr") {
			q.place.Stands = append(q.place.Stands, trace.Contact{Solid: i, Parts: feet})
		}
		if strings.Contains(s.Scenes, "a") {
			q.place.Rolls = append(q.place.Rolls, trace.Contact{Solid: i, Parts: wheels})
		}
	}
}

// firstRaise is the id of the first raising step.
func (q *placed) firstRaise() int {
	for _, s := range q.carrier.Steps {
		if s.Kind == trace.Raise {
			return s.ID
		}
	}
	return len(q.carrier.Steps) + 1
}

// lives groups pairs by solid and step, in order.
func lives(touch map[[2]int]bool, at []int, step func(pair [2]int) int) []trace.Contact {
	parts := map[[2]int][]int{}
	for pair := range touch {
		key := [2]int{at[pair[1]], step(pair)}
		parts[key] = append(parts[key], pair[0])
	}
	var out []trace.Contact
	for key, list := range parts {
		slices.Sort(list)
		out = append(out, trace.Contact{Solid: key[0], Step: key[1], Parts: slices.Compact(list)})
	}
	slices.SortFunc(out, func(a, b trace.Contact) int {
		if a.Solid != b.Solid {
			return a.Solid - b.Solid
		}
		return a.Step - b.Step
	})
	return out
}

// step of the carrier by kind and place among its kind; nil if it cannot be
// made.
func (q *placed) step(kind string, k int) *trace.Step {
	for _, s := range q.carrier.Steps {
		if s.Kind != kind {
			continue
		}
		if k == 0 {
			return s
		}
		k--
	}
	return nil
}

// there tells whether a set has any solid in a scene.
func (q *placed) there(zone culvert.Zone, at []int) bool {
	for _, i := range at {
		if q.place.Solids[i].Zone == string(zone) {
			return true
		}
	}
	return false
}

// serve is the need of an entry, if it was asked for and can be stated.
func (q *placed) serve(needs []trace.Need, in scene, id string, about result.Subject, zone culvert.Zone, touch bool) []trace.Need {
	if !q.asked(id) {
		return needs
	}
	e := q.r.Entry(id, about)
	n, ok := q.need(e, id, zone, touch, measure.Far)
	if !ok {
		return needs
	}
	if !touch {
		n.Near = q.near(e, in, zone)
	}
	return append(needs, n)
}

// scene is a step and the solids around it, by place in the place's list.
type scene struct {
	step *trace.Step
	at   []int
	// where an entry's moment lies in the step; false if in another step
	moment func(at float64) (s float64, ok bool)
}

// same is the moment of an entry of the step itself.
func same(at float64) (float64, bool) { return at, true }

func (q *placed) claimed(step *trace.Step, set string, needs []trace.Need, each []trace.Each) {
	q.addClaim(trace.Claim{Place: q.at, Carrier: q.place.Carrier, Step: step, Set: set, Each: each}, needs)
}

// stripClaims are those of the collapse and of how it ends.
func (q *placed) stripClaims() {
	b := q.r.Found.Bay
	for k, s := range b.Steps {
		step := q.step(trace.Strip, k)
		if step == nil {
			return
		}
		done := q.r.Found.Strip[k]
		for z, zone := range culvert.Zones {
			if !measure.ConcreteZone(zone) || !q.there(zone, q.stripped) {
				continue
			}
			about := q.r.About().In(s.Name)
			in := scene{step, q.stripped, same}
			needs := q.serve(nil, in, "strip.dig", about, zone, false)
			needs = q.serve(needs, in, "strip.clear", about.At(zone), zone, false)
			if q.asked("strip.dig") {
				needs = q.serve(needs, in, "strip.dig", about, zone, true)
			} else { // what touches is held to that all the same
				needs = append(needs, touching("strip.dig", done.Parts, z))
			}
			q.claimed(step, string(zone), needs, q.each(done.Parts, z))
		}
		q.keptClaims(step, s, done)
	}
	if end := q.step(trace.End, 0); end != nil {
		q.endClaims(end)
	}
}

// keptClaims are those against each kind of thing that stays.
func (q *placed) keptClaims(step *trace.Step, s carrier.Step, done measure.StepGaps) {
	for _, kind := range q.r.Found.Bay.LeftKinds() {
		needs := q.serve(nil, scene{step, q.stripped, same}, "strip.supports", q.r.About().In(s.Name).As("hanger "+kind), culvert.Hanger, false)
		touch := trace.Need{ID: "strip.supports", Lower: -measure.ContactTolerance, Touch: true, Less: map[int]int{}}
		for _, m := range done.Parts {
			for _, k := range done.Left[m.Part] {
				if v := k.Value.Lower; k.MayTouch && measure.KindOf(q.r.Found.Bay.Stripped.Solids[k.Solid]) == kind && v < touch.Lower {
					for _, part := range append([]int{m.Part}, m.Alike...) {
						touch.Less[part] = int(math.Floor((v - touch.Lower) / micro))
					}
				}
			}
		}
		q.claimed(step, string(culvert.Hanger)+":"+kind, append(needs, touch), nil)
	}
}

// endClaims are those of the collapsed carrier.
func (q *placed) endClaims(end *trace.Step) {
	last := q.r.Found.Strip[len(q.r.Found.Bay.Steps)-1].Parts
	for z, zone := range culvert.Zones {
		if q.there(zone, q.stripped) {
			needs := q.serve(nil, scene{end, q.stripped, same}, "strip.clear", q.r.About().At(zone).As(result.Collapsed), zone, false)
			q.claimed(end, string(zone), append(needs, touching("strip.clear", last, z)), nil)
		}
	}
}

func (q *placed) raiseClaims() {
	for k, s := range q.r.Found.Bay.Raising {
		step := q.step(trace.Raise, k)
		if step == nil {
			return
		}
		for z, zone := range culvert.Zones {
			if q.there(zone, q.raised) {
				needs := q.serve(nil, scene{step, q.raised, same}, "raise.clear", q.r.About().In(s.Name), zone, false)
				list := q.r.Found.Raising[k]
				q.claimed(step, string(zone), append(needs, touching("raise.clear", list, z)), q.each(list, z))
			}
		}
	}
}

func (q *placed) rollClaims() {
	if q.ahead == nil {
		return
	}
	for i, s := range q.r.Found.Rolling.Segments {
		step, ok := q.rollTraced(s, len(q.carrier.Steps)+1+i)
		if !ok {
			q.proof.Whole = false
			q.place.Steps = nil
			return
		}
		q.place.Steps = append(q.place.Steps, step)
	}
	for i, step := range q.place.Steps {
		in := scene{step, q.ahead, q.r.Found.Rolling.Segments[i].Moment}
		for z, zone := range culvert.Zones {
			if q.there(zone, q.ahead) {
				needs := q.serve(nil, in, "roll.clear", q.r.About().At(zone), zone, false)
				q.claimed(step, string(zone), append(needs, touching("roll.clear", q.r.Found.Rolled, z)), q.each(q.r.Found.Rolled, z))
			}
		}
	}
}
