package measure

import (
	"math"

	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// GapNearby is one part over a step against what it may not touch.
type GapNearby struct {
	Part   int
	Zone   culvert.Zone
	Left   int // by place among the solids, of what stays; -1 if it is concrete
	V      sweep.Bracket
	solids func(part int) []sweep.Part
	Leant  Leant // of jacks that differ by one metre
}

// start is where the search for a safe difference begins: well beyond what
// the vertex that goes farthest along the gap allows, for the one that comes
// nearest may be another.
const start = 1.5

// Safe is a difference between jacks, in metres, up to which nothing is entered in a
// step, in both directions at once, and the gap that governs it; nil where none does.
type Safe struct {
	Differ  float64
	Governs *GapNearby
	Unit    Lean // of a difference of one metre
}

// SafeIn works a step's safe difference out. A frame that leans less stays within the
// planes that hold it apart at more, so that what is safe at a difference is safe
// below it.
func (b *Bay) SafeIn(s carrier.Step, r StepGaps) Safe {
	unit := b.Bearing(b.LeanOfJacks(1), r.K)
	list := b.gapsNearby(s, r, unit)
	// what is not listed stays farther away than Far
	out := Safe{Differ: Far / math.Max(b.farthest(unit), 1e-9), Unit: unit}
	least := func(d float64, g *GapNearby) {
		if d < out.Differ {
			out.Differ, out.Governs = d, g
		}
	}
	for i, g := range list {
		least(start*g.V.Lower/math.Max(g.Leant.Toward, 1e-9), &list[i])
	}
	for i, g := range list {
		least(b.safeFor(g, s, unit, out.Differ), &list[i])
	}
	return out
}

// farthest is how far any vertex of the carrier goes with jacks a metre apart,
// lying as high as raised.
func (b *Bay) farthest(unit Lean) float64 {
	var most float64
	for _, p := range b.Carrier.Parts {
		for _, v := range p.Vertices {
			x := v[0] - unit.Middle
			most = math.Max(most, unit.Across*math.Hypot(v[1], v[2])+unit.Along*math.Hypot(x, v[2]))
		}
	}
	return most
}

// safeFor is a difference not above d at which a part is clear. Searches of the
// whole step halve down from d where a vertex could close the gap by going some
// other way than along it.
func (b *Bay) safeFor(g GapNearby, s carrier.Step, unit Lean, d float64) float64 {
	clear := func(d float64) bool {
		l := unit.scaled(d).Toward(g.V.N)
		o := b.leant(l, s.Path, g.Part, g.V.N)
		return o.any+o.Unsure <= g.V.Lower || b.LeantGap(l, s.Path, g.Part, g.solids(g.Part)) >= -ContactTolerance
	}
	if clear(d) {
		return d
	}
	low, high := 0.0, d
	for range 12 {
		if mid := (low + high) / 2; clear(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// gapsNearby are all gaps of a step that a lean can close. What is entered by a
// level frame is not for a lean to tell of.
func (b *Bay) gapsNearby(s carrier.Step, r StepGaps, unit Lean) []GapNearby {
	var out []GapNearby
	add := func(m *Gaps, zone culvert.Zone, left int, v sweep.Bracket, solids func(part int) []sweep.Part) {
		for _, part := range append([]int{m.Part}, m.Alike...) {
			if v.Lower > 0 && v.Lower < Far && Leans(b.Carrier.Parts[part], zone) {
				out = append(out, GapNearby{part, zone, left, v, solids, b.leant(unit.Toward(v.N), s.Path, part, v.N)})
			}
		}
	}
	for i := range r.Parts {
		m := &r.Parts[i]
		for z, zone := range culvert.Zones {
			if m.Any[z] && ConcreteZone(zone) {
				add(m, zone, -1, m.At(z).MustClear, b.ReleasedFrom(r.K, z))
			}
		}
		for _, k := range r.Left[m.Part] {
			if !k.MayTouch {
				add(m, culvert.Hanger, k.Solid, k.Value, b.LeftClear(r.K, KindOf(b.Stripped.Solids[k.Solid])))
			}
		}
	}
	return out
}
