package measure

import (
	"maps"
	"math"
	"slices"
	"strings"

	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// stripped is everything measured over one step of the collapse.
type StepGaps struct {
	K      int
	Parts  []Gaps
	Selves []SelfGaps
	Drags  []Drag
	Left   map[int][]LeftGap // by part
}

// keptMeasure is one part against one thing that stays; near ones only.
type LeftGap struct {
	Solid    int
	MayTouch bool // may touch during this step
	Value    sweep.Bracket
}

// keptBy measures a part against each kind of thing that stays, the nearest
// of each.
func (b *Bay) keptBy(k, part int, around geom.Box) []LeftGap {
	v := b.in(b.Steps[k].Path, part, around)
	var out []LeftGap
	for _, kind := range b.LeftKinds() {
		for _, held := range [2]bool{false, true} {
			if g, ok := b.leftBy(v, &b.Stripped, kind, held, func(solid int) bool { return b.MayTouch(&b.Stripped, part, solid, k) }); ok {
				out = append(out, g)
			}
		}
	}
	return out
}

// leftBy measures a part against what stays of a kind, what it may touch or what it
// may not; false where nothing is near.
func (b *Bay) leftBy(v mover, o *Obstacles, kind string, may bool, allowed func(solid int) bool) (LeftGap, bool) {
	var list met
	for i, c := range o.Solids {
		if c.Zone == culvert.Hanger && KindOf(c) == kind && v.around.Gap(o.boxes[i]) < Far && allowed(i) == may {
			list.add(o.Parts[i], i)
		}
	}
	search := v.clear
	if may {
		search = v.touch
	}
	found := search(list)
	return LeftGap{Solid: found.Against, MayTouch: may, Value: found}, found.Against >= 0
}

// dragMeasure is how far one part slides on one solid over a step.
type Drag struct {
	Part, Solid int
	Travel      sweep.Travel
}

// strip measures one part over step k.
func (b *Bay) strip(k, part int, around geom.Box) (Gaps, []Drag) {
	s := b.Steps[k]
	v := b.in(s.Path, part, around)
	v.ends = true
	m := v.against(&b.Stripped, part, func(solid int) bool { return b.MayTouch(&b.Stripped, part, solid, k) })
	return m, b.drags(s, k, part)
}

// slides tells whether a part may slide on concrete in step k.
func (b *Bay) slides(k, part int) bool {
	if !b.Steps[k].Path.Moves(motion.Ground, b.Carrier.Parts[part].Body) {
		return false
	}
	for _, solid := range b.Stripped.touches[part] {
		if ConcreteZone(b.Stripped.Solids[solid].Zone) && k <= b.Stripped.Last[[2]int{part, solid}] {
			return true
		}
	}
	return false
}

// drags of a part on what it touches while it moves.
func (b *Bay) drags(s carrier.Step, k, part int) []Drag {
	body := b.Carrier.Parts[part].Body
	if !s.Path.Moves(motion.Ground, body) {
		return nil
	}
	var out []Drag
	for _, solid := range b.Stripped.touches[part] {
		if ConcreteZone(b.Stripped.Solids[solid].Zone) && k <= b.Stripped.Last[[2]int{part, solid}] {
			out = append(out, Drag{part, solid, b.drag(s, part, solid)})
		}
	}
	return out
}

// drag of a part on a solid. A face that touches is only known to touch within
// the tolerance of a contact; a slide shorter than that is rounding.
func (b *Bay) drag(s carrier.Step, part, solid int) sweep.Travel {
	t := sweep.Drag(s.Path, sweep.Ground, b.Parts[part], b.Stripped.Parts[solid], 0, 1, sweep.DragOptions{Epsilon: ContactTolerance / 5})
	if t.Upper <= ContactTolerance {
		return sweep.Travel{}
	}
	return t
}

// ConcreteZone tells whether a zone is concrete rather than what stays in it.
func ConcreteZone(z culvert.Zone) bool { return z != culvert.Hanger && z != culvert.SteelAhead }

// ReleasedFrom are the solids of a zone that a part may not touch in step k.
func (b *Bay) ReleasedFrom(k, z int) func(part int) []sweep.Part {
	return func(part int) []sweep.Part {
		return b.Stripped.MustClear(z, func(solid int) bool { return b.MayTouch(&b.Stripped, part, solid, k) })
	}
}

// keptKinds lists what stays, by the last word of its name.
func (b *Bay) LeftKinds() []string {
	var out []string
	for _, s := range b.Stripped.Solids {
		if k := KindOf(s); s.Zone == culvert.Hanger && !slices.Contains(out, k) {
			out = append(out, k)
		}
	}
	return out
}

// KindOf is what a kept solid is: plate or nut.
func KindOf(s culvert.Solid) string { return s.Name[strings.LastIndex(s.Name, " ")+1:] }

// keptFree are the things of a kind that stay and that a part may not touch in
// step k.
func (b *Bay) LeftClear(k int, kind string) func(part int) []sweep.Part {
	return func(part int) []sweep.Part {
		return b.Stripped.MustClear(slices.Index(culvert.Zones[:], culvert.Hanger), func(solid int) bool {
			return KindOf(b.Stripped.Solids[solid]) != kind || b.MayTouch(&b.Stripped, part, solid, k)
		})
	}
}

// Collapsed is how one part stands against a zone at the end of the collapse.
// What stands on the invert is left to setup.rest.
func (b *Bay) Collapsed(s carrier.Step, m *Gaps, z int) (sweep.Bracket, bool) {
	p := b.Carrier.Parts[m.Part]
	if !m.Any[z] || !s.PresentAfter(p) {
		return Nothing(), false
	}
	if culvert.Zones[z] == culvert.Invert && (p.Role == carrier.Wheel || p.Role == carrier.JackPlate) {
		return Nothing(), false
	}
	near := m.At(z)
	if near.endUnasked {
		return Nothing(), false
	}
	if near.End.Against < 0 {
		return sweep.Bracket{Lower: math.Min(near.MustClear.Lower, near.MayTouch.Lower), Upper: math.Inf(1), Against: -1}, true
	}
	return near.End, true
}

// CarryOver brings the gaps between parts up to date at a step's end: pairs
// that moved against each other are measured anew, the others stay.
func (b *Bay) CarryOver(s carrier.Step, r StepGaps, between map[[2]int]sweep.Bracket) {
	if s.Path == nil {
		clear(between)
		return
	}
	for pair := range between {
		ref := b.Common(pair[0], pair[1])
		if s.Path.Moves(ref, b.Carrier.Parts[pair[0]].Body) || s.Path.Moves(ref, b.Carrier.Parts[pair[1]].Body) {
			delete(between, pair)
		}
	}
	for _, m := range r.Selves {
		for _, e := range m.end {
			between[[2]int{e.part, e.other}] = e.value
		}
	}
}

func SortedPairs(m map[[2]int]sweep.Bracket) [][2]int {
	return slices.SortedFunc(maps.Keys(m), func(a, b [2]int) int { return slices.Compare(a[:], b[:]) })
}

// keptEnd is how a part stands at a step's end against all that stays of the
// kind of one solid.
func (b *Bay) LeftEnd(s carrier.Step, part, solid int) sweep.Bracket {
	var list []sweep.Part
	for i, c := range b.Stripped.Solids {
		if c.Zone == culvert.Hanger && KindOf(c) == KindOf(b.Stripped.Solids[solid]) {
			list = append(list, b.Stripped.Parts[i])
		}
	}
	return sweep.At(s.Path, sweep.Ground, b.Parts[part], list, 1)
}

// Driver is the adjuster that a step's progress is best told by for a part:
// the first one turned on its side.
func (b *Bay) Driver(s carrier.Step, part int) (carrier.Move, carrier.Adjuster, bool) {
	side := b.Carrier.Parts[part].Side
	for _, m := range s.Moves {
		a := b.Carrier.Adjusters[m.Adjuster]
		if m.Moves() && !a.Follows() && (side == 0 || a.Side == 0 || a.Side == side) {
			return m, a, true
		}
	}
	return carrier.Move{}, carrier.Adjuster{}, false
}
