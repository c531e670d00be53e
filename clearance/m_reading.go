package clearance

import (
	"math"
	"slices"

	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// far is the distance beyond which nobody asks for a gap: a part certified to
// stay farther away is reported as that.
const far = 0.3

// near is the same for gaps between parts of the carrier itself.
const near = 0.15

// measure is one part over one step, against each zone that it comes near.
type measure struct {
	part  int
	alike []int     // other parts that measure the same
	any   [8]bool   // by place in culvert.Zones: whether there is anything of the zone at all
	near  []reading // in the order of the zones
}

// reading is one part over one step against one zone: what may not touch, what
// may, and how it stands at the end. Against is -1 and Upper +Inf where nothing
// is near.
type reading struct {
	zone            int // place in culvert.Zones
	free, held, end sweep.Bracket
}

// away is the reading of a zone that is not near.
var away = reading{free: nothing(), held: nothing(), end: nothing()}

// at is the reading of a zone; away is everybody's, so nobody writes to it.
func (m *measure) at(zone int) *reading {
	for i := range m.near {
		if m.near[i].zone == zone {
			return &m.near[i]
		}
	}
	return &away
}

// also takes in what was measured over another piece of the same step.
func (m *measure) also(o measure) {
	m.any = o.any
	for _, r := range o.near {
		i, known := slices.BinarySearchFunc(m.near, r.zone, func(r reading, zone int) int { return r.zone - zone })
		if !known {
			m.near = slices.Insert(m.near, i, r)
			continue
		}
		m.near[i].free, m.near[i].held = lesser(m.near[i].free, r.free), lesser(m.near[i].held, r.held)
	}
}

// nothing is the bracket of a part with nothing to meet nearer than far.
func nothing() sweep.Bracket {
	return sweep.Bracket{Lower: math.Inf(1), Upper: math.Inf(1), Against: -1}
}

// mover is a part in a motion: what moves, seen from the ground.
type mover struct {
	motion sweep.Motion
	moving bool
	part   sweep.Part
	around geom.Box // holds the part throughout
	ends   bool     // whether to tell how it stands at the end
}

// in is a part of the carrier in one step.
func (b *Bay) in(path *motion.Path, part int, around geom.Box) mover {
	return mover{motion: path, moving: path.Moves(motion.Ground, b.Carrier.Parts[part].Body), part: b.parts[part], around: around}
}

// against measures one part against the obstacles over one step. allowed says
// which solids it may touch.
func (v mover) against(o *obstacles, part int, allowed func(solid int) bool) measure {
	m := measure{part: part}
	var free, held []sweep.Part
	var freeAt, heldAt []int
	for z := range culvert.Zones {
		free, held, freeAt, heldAt = free[:0], held[:0], freeAt[:0], heldAt[:0]
		for _, k := range o.zones[z] {
			switch {
			case v.around.Gap(o.boxes[k]) >= far:
			case allowed(k):
				held, heldAt = append(held, o.parts[k]), append(heldAt, k)
			default:
				free, freeAt = append(free, o.parts[k]), append(freeAt, k)
			}
		}
		m.any[z] = len(o.zones[z]) > 0
		if len(free)+len(held) == 0 {
			continue
		}
		r := reading{zone: z, end: nothing()}
		r.free = renumber(v.least(sweep.Ground, free, sweep.Options{Cap: far + likeness}), freeAt)
		r.held = renumber(v.least(sweep.Ground, held, sweep.Options{Epsilon: contactTolerance / 5, Cap: far + likeness}), heldAt)
		if v.ends && math.Min(r.free.Lower, r.held.Lower) < far {
			r.end = renumber(sweep.At(v.motion, sweep.Ground, v.part, append(free, held...), 1), append(freeAt, heldAt...))
		}
		m.near = append(m.near, r)
	}
	return m
}

// least searches a moving part over the whole step, and looks once at one that
// stands still.
func (v mover) least(ref int, against []sweep.Part, o sweep.Options) sweep.Bracket {
	if len(against) == 0 {
		return nothing()
	}
	if !v.moving {
		return sweep.At(v.motion, ref, v.part, against, 0)
	}
	return sweep.Least(v.motion, ref, v.part, against, 0, 1, o)
}

// renumber turns a place in the list searched into a place in the whole list, and
// widens the bracket to that of all parts alike.
func renumber(v sweep.Bracket, at []int) sweep.Bracket {
	v = likened(v)
	if v.Against >= 0 {
		v.Against = at[v.Against]
	}
	return v
}

// present lists the parts that are there while a step moves and that do not
// run through concrete by design.
func (b *Bay) present(s carrier.Step) []int {
	var out []int
	for i, p := range b.Carrier.Parts {
		if s.Present(p) && !through(s.Path, p) {
			out = append(out, i)
		}
	}
	return out
}

// byPart lists measures part by part, those of a cohort for each of its parts.
func byPart(list []measure) []measure {
	var out []measure
	for _, m := range list {
		for _, m.part = range append([]int{m.part}, m.alike...) {
			out = append(out, m)
		}
	}
	slices.SortFunc(out, func(a, b measure) int { return a.part - b.part })
	return out
}

// presentAfter lists the parts that are there when a step is done.
func (b *Bay) presentAfter(s carrier.Step) []int {
	var out []int
	for _, i := range b.present(s) {
		if s.PresentAfter(b.Carrier.Parts[i]) {
			out = append(out, i)
		}
	}
	return out
}

// roleName is a part's role, or its link's name.
func roleName(p carrier.Part) string {
	if p.Name != "" && p.Role == carrier.LinkBar {
		return p.Name
	}
	return string(p.Role)
}
