package measure

import (
	"math"
	"slices"

	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// Far is the distance beyond which nobody asks for a gap: a part certified to
// stay farther away is reported as that.
const Far = 0.3

// Near is the same for gaps between parts of the carrier itself.
const Near = 0.15

// measure is one part over one step, against each zone that it comes near.
type Gaps struct {
	Part  int
	Alike []int      // other parts that measure the same
	Any   [8]bool    // by place in culvert.Zones: whether there is anything of the zone at all
	Near  []ZoneGaps // in the order of the zones
}

// reading is one part over one step against one zone: what may not touch, what
// may, and how it stands at the end. Against is -1 and Upper +Inf where nothing
// is near.
type ZoneGaps struct {
	Zone                     int // place in culvert.Zones
	MustClear, MayTouch, End sweep.Bracket
	endUnasked               bool // the end was left out: it does not govern
}

// away is the reading of a zone that is not near.
var away = ZoneGaps{MustClear: Nothing(), MayTouch: Nothing(), End: Nothing()}

// At is the reading of a zone; away is everybody's, so nobody writes to it.
func (m *Gaps) At(zone int) *ZoneGaps {
	for i := range m.Near {
		if m.Near[i].Zone == zone {
			return &m.Near[i]
		}
	}
	return &away
}

// also takes in what was measured over another piece of the same step.
func (m *Gaps) also(o Gaps) {
	m.Any = o.Any
	for _, r := range o.Near {
		i, known := slices.BinarySearchFunc(m.Near, r.Zone, func(r ZoneGaps, zone int) int { return r.Zone - zone })
		if !known {
			m.Near = slices.Insert(m.Near, i, r)
			continue
		}
		m.Near[i].MustClear, m.Near[i].MayTouch = lesser(m.Near[i].MustClear, r.MustClear), lesser(m.Near[i].MayTouch, r.MayTouch)
	}
}

// Nothing is the bracket of a part with nothing to meet nearer than far.
func Nothing() sweep.Bracket {
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
	return mover{motion: path, moving: path.Moves(motion.Ground, b.Carrier.Parts[part].Body), part: b.Parts[part], around: around}
}

// against measures one part against the obstacles over one step. allowed says
// which solids it may touch.
func (v mover) against(o *Obstacles, part int, allowed func(solid int) bool) Gaps {
	m := Gaps{Part: part, Any: o.any()}
	for z := range culvert.Zones {
		free, held := v.near(o, z, allowed)
		if len(free.at)+len(held.at) == 0 {
			continue
		}
		r := ZoneGaps{Zone: z, MustClear: v.clear(free), MayTouch: v.touch(held), End: Nothing()}
		if v.ends && math.Min(r.MustClear.Lower, r.MayTouch.Lower) < Far {
			r.End = v.end(free, held)
		}
		m.Near = append(m.Near, r)
	}
	return m
}

// met are solids that a part comes near, with their places among all.
type met struct {
	parts []sweep.Part
	at    []int
}

func (m *met) add(p sweep.Part, at int) { m.parts, m.at = append(m.parts, p), append(m.at, at) }

// near are the solids of a zone that a part may come nearer than Far: those that it
// may not touch, and those that it may.
func (v mover) near(o *Obstacles, z int, allowed func(solid int) bool) (free, held met) {
	for _, k := range o.zones[z] {
		switch {
		case v.around.Gap(o.boxes[k]) >= Far:
		case allowed(k):
			held.add(o.Parts[k], k)
		default:
			free.add(o.Parts[k], k)
		}
	}
	return free, held
}

// clear is the least distance from what a part may not touch.
func (v mover) clear(free met) sweep.Bracket {
	return renumber(v.least(sweep.Ground, free.parts, sweep.Options{Cap: Far + likeness}), free.at)
}

// touch is that from what it may touch, searched to a fifth of what counts as digging.
func (v mover) touch(held met) sweep.Bracket {
	return renumber(v.least(sweep.Ground, held.parts, sweep.Options{Epsilon: ContactTolerance / 5, Cap: Far + likeness}), held.at)
}

// end is the distance from both when the step is done.
func (v mover) end(free, held met) sweep.Bracket {
	return renumber(sweep.At(v.motion, sweep.Ground, v.part, slices.Concat(free.parts, held.parts), 1), slices.Concat(free.at, held.at))
}

// any tells of which zones there is anything at all.
func (o *Obstacles) any() (out [8]bool) {
	for z := range culvert.Zones {
		out[z] = len(o.zones[z]) > 0
	}
	return out
}

// least searches a moving part over the whole step, and looks once at one that
// stands still.
func (v mover) least(ref int, against []sweep.Part, o sweep.Options) sweep.Bracket {
	if len(against) == 0 {
		return Nothing()
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

// Present lists the parts that are there while a step moves and that do not
// run through concrete by design.
func (b *Bay) Present(s carrier.Step) []int {
	var out []int
	for i, p := range b.Carrier.Parts {
		if s.Present(p) && !Through(s.Path, p) {
			out = append(out, i)
		}
	}
	return out
}

// ByPart lists measures part by part, duplicates for each of theirs.
func ByPart(list []Gaps) []Gaps {
	var out []Gaps
	for _, m := range list {
		for _, m.Part = range append([]int{m.Part}, m.Alike...) {
			out = append(out, m)
		}
	}
	slices.SortFunc(out, func(a, b Gaps) int { return a.Part - b.Part })
	return out
}

// PresentAfter lists the parts that are there when a step is done.
func (b *Bay) PresentAfter(s carrier.Step) []int {
	var out []int
	for _, i := range b.Present(s) {
		if s.PresentAfter(b.Carrier.Parts[i]) {
			out = append(out, i)
		}
	}
	return out
}

// RoleName is a part's role, or its link's name.
func RoleName(p carrier.Part) string {
	if p.Name != "" && p.Role == carrier.LinkBar {
		return p.Name
	}
	return string(p.Role)
}
