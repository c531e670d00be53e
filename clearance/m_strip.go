package clearance

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
type stripped struct {
	k        int
	measures []measure
	selves   []selfMeasure
	drags    []dragMeasure
	kept     map[int][]keptMeasure // by part
}

// keptMeasure is one part against one thing that stays; near ones only.
type keptMeasure struct {
	solid int
	held  bool // may touch during this step
	value sweep.Bracket
}

// keptBy measures a part against each kind of thing that stays, the nearest
// of each.
func (b *Bay) keptBy(k, part int, around geom.Box) []keptMeasure {
	s := b.Steps[k]
	moving := s.Path.Moves(motion.Ground, b.Carrier.Parts[part].Body)
	var out []keptMeasure
	for _, kind := range b.keptKinds() {
		for _, held := range [2]bool{false, true} {
			var list []sweep.Part
			var at []int
			for i, c := range b.stripped.solids {
				if c.Zone == culvert.Hanger && kindOf(c) == kind && around.Gap(b.stripped.boxes[i]) < far && b.held(&b.stripped, part, i, k) == held {
					list, at = append(list, b.stripped.parts[i]), append(at, i)
				}
			}
			o := sweep.Options{Cap: far + likeness}
			if held {
				o.Epsilon = contactTolerance / 5
			}
			if v := renumber(mover{motion: s.Path, moving: moving, part: b.parts[part]}.least(sweep.Ground, list, o), at); v.Against >= 0 {
				out = append(out, keptMeasure{solid: v.Against, held: held, value: v})
			}
		}
	}
	return out
}

// dragMeasure is how far one part slides on one solid over a step.
type dragMeasure struct {
	part, solid int
	travel      sweep.Travel
}

// strip measures one part over step k.
func (b *Bay) strip(k, part int, around geom.Box) (measure, []dragMeasure) {
	s := b.Steps[k]
	v := b.in(s.Path, part, around)
	v.ends = true
	m := v.against(&b.stripped, part, func(solid int) bool { return b.held(&b.stripped, part, solid, k) })
	return m, b.drags(s, k, part)
}

// drags of a part on what it touches while it moves.
func (b *Bay) drags(s carrier.Step, k, part int) []dragMeasure {
	body := b.Carrier.Parts[part].Body
	if !s.Path.Moves(motion.Ground, body) {
		return nil
	}
	var out []dragMeasure
	for solid, c := range b.stripped.solids {
		if concreteZone(c.Zone) && b.stripped.touch[[2]int{part, solid}] && k <= b.stripped.last[[2]int{part, solid}] {
			out = append(out, dragMeasure{part, solid, b.drag(s, part, solid)})
		}
	}
	return out
}

// drag of a part on a solid. A face that touches is only known to touch within
// the tolerance of a contact; a slide shorter than that is rounding.
func (b *Bay) drag(s carrier.Step, part, solid int) sweep.Travel {
	t := sweep.Drag(s.Path, sweep.Ground, b.parts[part], b.stripped.parts[solid], 0, 1, sweep.DragOptions{Epsilon: contactTolerance / 5})
	if t.Upper <= contactTolerance {
		return sweep.Travel{}
	}
	return t
}

// concreteZone tells whether a zone is concrete rather than what stays in it.
func concreteZone(z culvert.Zone) bool { return z != culvert.Hanger && z != culvert.SteelAhead }

// releasedFrom are the solids of a zone that a part may not touch in step k.
func (b *Bay) releasedFrom(k, z int) func(part int) []sweep.Part {
	return func(part int) []sweep.Part {
		return b.stripped.free(z, func(solid int) bool { return b.held(&b.stripped, part, solid, k) })
	}
}

// keptKinds lists what stays, by the last word of its name.
func (b *Bay) keptKinds() []string {
	var out []string
	for _, s := range b.stripped.solids {
		if k := kindOf(s); s.Zone == culvert.Hanger && !slices.Contains(out, k) {
			out = append(out, k)
		}
	}
	return out
}

// kindOf is what a kept solid is: plate or nut.
func kindOf(s culvert.Solid) string { return s.Name[strings.LastIndex(s.Name, " ")+1:] }

// keptFree are the things of a kind that stay and that a part may not touch in
// step k.
func (b *Bay) keptFree(k int, kind string) func(part int) []sweep.Part {
	return func(part int) []sweep.Part {
		return b.stripped.free(slices.Index(culvert.Zones[:], culvert.Hanger), func(solid int) bool {
			return kindOf(b.stripped.solids[solid]) != kind || b.held(&b.stripped, part, solid, k)
		})
	}
}

// collapsed is how one part stands against a zone at the end of the collapse.
// What stands on the invert is left to setup.rest.
func (b *Bay) collapsed(s carrier.Step, m *measure, z int) (sweep.Bracket, bool) {
	p := b.Carrier.Parts[m.part]
	if !m.any[z] || !s.PresentAfter(p) {
		return nothing(), false
	}
	if culvert.Zones[z] == culvert.Invert && (p.Role == carrier.Wheel || p.Role == carrier.JackPlate) {
		return nothing(), false
	}
	near := m.at(z)
	if near.end.Against < 0 {
		return sweep.Bracket{Lower: math.Min(near.free.Lower, near.held.Lower), Upper: math.Inf(1), Against: -1}, true
	}
	return near.end, true
}

// carryOver brings the gaps between parts up to date at a step's end: pairs
// that moved against each other are measured anew, the others stay.
func (b *Bay) carryOver(s carrier.Step, r stripped, between map[[2]int]sweep.Bracket) {
	if s.Path == nil {
		clear(between)
		return
	}
	for pair := range between {
		ref := b.common(pair[0], pair[1])
		if s.Path.Moves(ref, b.Carrier.Parts[pair[0]].Body) || s.Path.Moves(ref, b.Carrier.Parts[pair[1]].Body) {
			delete(between, pair)
		}
	}
	for _, m := range r.selves {
		for _, e := range m.end {
			between[[2]int{e.part, e.other}] = e.value
		}
	}
}

func sortedPairs(m map[[2]int]sweep.Bracket) [][2]int {
	return slices.SortedFunc(maps.Keys(m), func(a, b [2]int) int { return slices.Compare(a[:], b[:]) })
}

// keptEnd is how a part stands at a step's end against all that stays of the
// kind of one solid.
func (b *Bay) keptEnd(s carrier.Step, part, solid int) sweep.Bracket {
	var list []sweep.Part
	for i, c := range b.stripped.solids {
		if c.Zone == culvert.Hanger && kindOf(c) == kindOf(b.stripped.solids[solid]) {
			list = append(list, b.stripped.parts[i])
		}
	}
	return sweep.At(s.Path, sweep.Ground, b.parts[part], list, 1)
}

// driver is the adjuster that a step's progress is best told by for a part:
// the first one turned on its side.
func (b *Bay) driver(s carrier.Step, part int) (carrier.Move, carrier.Adjuster, bool) {
	side := b.Carrier.Parts[part].Side
	for _, m := range s.Moves {
		a := b.Carrier.Adjusters[m.Adjuster]
		if m.Moves() && !a.Follows() && (side == 0 || a.Side == 0 || a.Side == side) {
			return m, a, true
		}
	}
	return carrier.Move{}, carrier.Adjuster{}, false
}
