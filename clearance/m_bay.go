package clearance

import (
	"math"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/sweep"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/motion"
)

// Bay is one cell at one pour under inspection: its solids prepared for
// search, and which of them touch by design and how long.
type Bay struct {
	*model.Bay
	crossfall float64 // of the invert, rise over run
	travel    job.Travel
	tol       allow.Standing

	parts []sweep.Part
	stripped,
	raised obstacles
	sealed map[[2]int]carrier.Contact
	nudges *knownNudges
}

// obstacles are the concrete at one moment, with the pairs of parts and solids
// that touch when the carrier is raised.
type obstacles struct {
	solids []culvert.Solid
	parts  []sweep.Part
	touch  map[[2]int]bool // part, solid
	last   map[[2]int]int  // last step in which a pair may touch; for raising the first
	boxes  []geom.Box
	zones  [8][]int // solids of each zone, by place in culvert.Zones
}

// obstaclesOf prepares solids for search.
func obstaclesOf(solids []culvert.Solid) obstacles {
	o := obstacles{solids: solids, touch: map[[2]int]bool{}}
	for k, s := range solids {
		o.parts = append(o.parts, sweep.NewPart(sweep.Ground, s.Solid))
		o.boxes = append(o.boxes, s.Box())
		for z, zone := range culvert.Zones {
			if s.Zone == zone {
				o.zones[z] = append(o.zones[z], k)
			}
		}
	}
	return o
}

// around prepares the concrete and finds, part by part, what touches it as
// raised.
func (b *Bay) around(solids []culvert.Solid) obstacles {
	o := obstaclesOf(solids)
	for i, p := range b.Carrier.Parts {
		if !p.Role.Faced() {
			continue
		}
		box := p.Box()
		for k, s := range solids {
			if box.Gap(o.boxes[k]) <= contactTolerance && mayTouch(p, s) && math.Abs(b.raisedGap(i, o.parts[k])) <= contactTolerance {
				o.touch[[2]int{i, k}] = true
			}
		}
	}
	return o
}

// mayTouch tells what a faced panel may touch as raised, by design: what it forms
// or laps. A one-piece roof comes straight down past the plates in its pockets:
// only a pocket's floor may touch one, its sides need play. What stands on the
// invert is told by stands.
func mayTouch(p carrier.Part, s culvert.Solid) bool {
	if s.Zone == culvert.Hanger && p.Role == carrier.RoofPanel && p.Side == culvert.Both {
		return p.Name == carrier.PocketFloor
	}
	return s.Zone != culvert.Invert && s.Zone != culvert.SteelAhead
}

// stands tells whether a part may stand on the invert in any step.
func stands(p carrier.Part, s culvert.Solid) bool {
	return s.Zone == culvert.Invert && (p.Role == carrier.JackPlate || p.Role == carrier.Wheel)
}

// atRest is a motion in which nothing moves: everything stands as raised.
type atRest struct{}

func (atRest) Pose(ref, body int, s float64) geom.Pose { return geom.Identity() }

func (atRest) Bound(ref, body int, s0, s1 float64) geom.Bound { return geom.Bound{} }

func (atRest) Doubt(ref, body int, s float64) geom.Doubt { return geom.Doubt{} }

func (b *Bay) raisedGap(part int, other sweep.Part) float64 {
	return sweep.At(atRest{}, sweep.Ground, b.parts[part], []sweep.Part{other}, 0).Upper
}

// releases is, for each pair that touches as raised, the step at whose end it
// has come apart: until then it may touch. A pair that never comes apart may
// touch to the end; what it slides on the way is counted as drag.
func (b *Bay) releases() map[[2]int]int {
	out := map[[2]int]int{}
	for pair := range b.stripped.touch {
		out[pair] = len(b.Steps)
		for k, s := range b.Steps {
			if s.Path != nil && b.gapAt(s.Path, pair, &b.stripped, 1) > contactTolerance {
				out[pair] = k
				break
			}
		}
	}
	return out
}

// arrivals is, for each pair that touches as raised, the raising step at whose
// start it is still apart and from which on it may touch.
func (b *Bay) arrivals() map[[2]int]int {
	out := map[[2]int]int{}
	for pair := range b.raised.touch {
		for k, s := range b.Raising {
			if s.Path != nil && b.gapAt(s.Path, pair, &b.raised, 0) > contactTolerance {
				out[pair] = k
			}
		}
	}
	return out
}

// gapAt is the distance of a part from a solid at s of a step.
func (b *Bay) gapAt(m sweep.Motion, pair [2]int, o *obstacles, s float64) float64 {
	return sweep.At(m, sweep.Ground, b.parts[pair[0]], o.parts[pair[1]:pair[1]+1], s).Upper
}

// held tells whether a part may touch a solid during step k of the collapse.
func (b *Bay) held(o *obstacles, part, solid, k int) bool {
	if stands(b.Carrier.Parts[part], o.solids[solid]) {
		return true
	}
	return o.touch[[2]int{part, solid}] && k <= o.last[[2]int{part, solid}]
}

// through tells whether a part runs through concrete by design. It may do so
// as long as its body stands still; one that is still there when its body
// moves is held against the concrete like any other.
func through(path *motion.Path, p carrier.Part) bool {
	return p.Role == carrier.Tie && !path.Moves(motion.Ground, p.Body)
}

// atRestIn is a bay before anything is looked at.
func atRestIn(b *model.Bay, j *job.Job, t allow.Tolerances) *Bay {
	return &Bay{Bay: b, crossfall: float64(j.Alignment.Crossfall), travel: j.Travel, tol: t.In(b.Cell.Section, b.Carrier.Gauge), sealed: map[[2]int]carrier.Contact{}, nudges: &knownNudges{}}
}

// inspect prepares a bay.
func inspect(b *model.Bay, j *job.Job, t allow.Tolerances) *Bay {
	v := atRestIn(b, j, t)
	for _, p := range b.Carrier.Parts {
		v.parts = append(v.parts, sweep.NewPart(p.Body, p.Solid))
	}
	v.stripped = v.around(b.Concrete)
	v.raised = v.around(b.Before)
	for _, d := range b.Carrier.Declared {
		v.sealed[[2]int{d.A, d.B}] = d.Kind
	}
	v.stripped.last = v.releases()
	v.raised.last = v.arrivals()
	return v
}

// contactTolerance is how far a face that touches by design may seem to dig:
// rounding of a whole chain of poses is far below it, and it is far below what
// concrete or steel notices. Contacts are searched to a fifth of it.
const contactTolerance = 0.05e-3

// free are the solids of a zone that a part may not touch.
func (o *obstacles) free(z int, allowed func(solid int) bool) []sweep.Part {
	var out []sweep.Part
	for _, k := range o.zones[z] {
		if !allowed(k) {
			out = append(out, o.parts[k])
		}
	}
	return out
}
