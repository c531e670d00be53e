package measure

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
	Crossfall float64 // of the invert, rise over run
	travel    job.Travel
	Tol       allow.Standing

	Parts []sweep.Part
	Stripped,
	Before Obstacles
	Declared map[[2]int]carrier.Contact
	nudges   *knownNudges
	stances  *stances
	bodies   []geom.Box // around all parts of each
}

func inTrees(parts []sweep.Part) []*sweep.Tree {
	list := make([]sweep.Member, len(parts))
	for i, p := range parts {
		list[i] = sweep.Member{Part: p, Number: i}
	}
	return sweep.TreesOf(list)
}

// Obstacles are the concrete at one moment, with the pairs of parts and solids
// that touch when the carrier is raised.
type Obstacles struct {
	Solids  []culvert.Solid
	Parts   []sweep.Part
	Touch   map[[2]int]bool // part, solid
	Last    map[[2]int]int  // last step in which a pair may touch; for raising the first
	boxes   []geom.Box
	touches [][]int  // the solids that each part touches, in order
	zones   [8][]int // solids of each zone, by place in culvert.Zones
	trees   [8][]*sweep.Tree
}

// obstaclesOf prepares solids for search.
func obstaclesOf(solids []culvert.Solid) Obstacles {
	o := Obstacles{Solids: solids, Touch: map[[2]int]bool{}}
	for k, s := range solids {
		o.Parts = append(o.Parts, sweep.NewPart(sweep.Ground, s.Solid))
		o.boxes = append(o.boxes, s.Box())
		for z, zone := range culvert.Zones {
			if s.Zone == zone {
				o.zones[z] = append(o.zones[z], k)
			}
		}
	}
	for z, list := range o.zones {
		var members []sweep.Member
		for _, k := range list {
			members = append(members, sweep.Member{Part: o.Parts[k], Number: k})
		}
		o.trees[z] = sweep.TreesOf(members)
	}
	return o
}

// around prepares the concrete and finds, part by part, what touches it as
// raised.
func (b *Bay) around(solids []culvert.Solid) Obstacles {
	o := obstaclesOf(solids)
	o.touches = make([][]int, len(b.Carrier.Parts))
	for i, p := range b.Carrier.Parts {
		if !p.Role.Faced() {
			continue
		}
		box := p.Box()
		for k, s := range solids {
			if box.Gap(o.boxes[k]) <= ContactTolerance && mayTouch(p, s) && math.Abs(b.raisedGap(i, o.Parts[k])) <= ContactTolerance {
				o.Touch[[2]int{i, k}] = true
				o.touches[i] = append(o.touches[i], k)
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
	return s.Zone == culvert.Invert && onFeet(p)
}

// onFeet tells the parts on which a carrier stands.
func onFeet(p carrier.Part) bool { return p.Role == carrier.JackPlate || p.Role == carrier.Wheel }

// AtRest is a motion in which nothing moves: everything stands as raised.
type AtRest struct{}

func (AtRest) Pose(ref, body int, s float64) geom.Pose { return geom.Identity() }

func (AtRest) Bound(ref, body int, s0, s1 float64) geom.Bound { return geom.Bound{} }

func (AtRest) ErrorBound(ref, body int, s float64) geom.ErrorBound { return geom.ErrorBound{} }

func (b *Bay) raisedGap(part int, other sweep.Part) float64 {
	return sweep.At(AtRest{}, sweep.Ground, b.Parts[part], []sweep.Part{other}, 0).Upper
}

// releases is, for each pair that touches as raised, the step at whose end it
// has come apart: until then it may touch. A pair that never comes apart may
// touch to the end; what it slides on the way is counted as drag.
func (b *Bay) releases() map[[2]int]int {
	out := map[[2]int]int{}
	for pair := range b.Stripped.Touch {
		out[pair] = len(b.Steps)
		for k, s := range b.Steps {
			if s.Path != nil && b.gapAt(s.Path, pair, &b.Stripped, 1) > ContactTolerance {
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
	for pair := range b.Before.Touch {
		for k, s := range b.Raising {
			if s.Path != nil && b.gapAt(s.Path, pair, &b.Before, 0) > ContactTolerance {
				out[pair] = k
			}
		}
	}
	return out
}

// gapAt is the distance of a part from a solid at s of a step.
func (b *Bay) gapAt(m sweep.Motion, pair [2]int, o *Obstacles, s float64) float64 {
	return sweep.At(m, sweep.Ground, b.Parts[pair[0]], o.Parts[pair[1]:pair[1]+1], s).Upper
}

// held tells whether a part may touch a solid during step k of the collapse.
func (b *Bay) MayTouch(o *Obstacles, part, solid, k int) bool {
	if stands(b.Carrier.Parts[part], o.Solids[solid]) {
		return true
	}
	return len(o.touches[part]) > 0 && o.Touch[[2]int{part, solid}] && k <= o.Last[[2]int{part, solid}]
}

// Through tells whether a part runs through concrete by design. It may do so
// as long as its body stands still; one that is still there when its body
// moves is held against the concrete like any other.
func Through(path *motion.Path, p carrier.Part) bool {
	return p.Role == carrier.Tie && !path.Moves(motion.Ground, p.Body)
}

// AtRestIn is a bay before anything is looked at.
func AtRestIn(b *model.Bay, j *job.Job, t allow.Tolerances) *Bay {
	return &Bay{Bay: b, Crossfall: float64(j.Alignment.Crossfall), travel: j.Travel, Tol: t.In(b.Cell.Section, b.Carrier.Gauge), Declared: map[[2]int]carrier.Contact{}, nudges: &knownNudges{}, stances: &stances{known: map[stanceKey]*stance{}}}
}

// Inspect prepares a bay.
func Inspect(b *model.Bay, j *job.Job, t allow.Tolerances) *Bay {
	v := AtRestIn(b, j, t)
	for _, p := range b.Carrier.Parts {
		v.Parts = append(v.Parts, sweep.NewPart(p.Body, p.Solid))
	}
	v.bodies = v.bodyBoxes()
	v.Stripped = v.around(b.Concrete)
	v.Before = v.around(b.Before)
	for _, d := range b.Carrier.Declared {
		v.Declared[[2]int{d.A, d.B}] = d.Kind
	}
	v.Stripped.Last = v.releases()
	v.Before.Last = v.arrivals()
	return v
}

// ContactTolerance is how far a face that touches by design may seem to dig:
// rounding of a whole chain of poses is far below it, and it is far below what
// concrete or steel notices. Contacts are searched to a fifth of it.
const ContactTolerance = 0.05e-3

// free are the solids of a zone that a part may not touch.
func (o *Obstacles) MustClear(z int, allowed func(solid int) bool) []sweep.Part {
	var out []sweep.Part
	for _, k := range o.zones[z] {
		if !allowed(k) {
			out = append(out, o.Parts[k])
		}
	}
	return out
}
