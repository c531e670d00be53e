package clearance

import (
	"math"

	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// gapNearby is one part over a step against what it may not touch.
type gapNearby struct {
	part   int
	from   string // what the gap is to
	zone   culvert.Zone
	v      sweep.Bracket
	solids func(part int) []sweep.Part
	leant  leant // of jacks that differ by one metre
}

// start is where the search for a safe difference begins: well beyond what
// the vertex that goes farthest along the gap allows, for the one that comes
// nearest may be another.
const start = 1.5

// farthest is how far any vertex of the carrier goes with jacks a metre apart,
// lying as high as raised.
func (b *Bay) farthest(unit lean) float64 {
	var most float64
	for _, p := range b.Carrier.Parts {
		for _, v := range p.Vertices {
			x := v[0] - unit.middle
			most = math.Max(most, unit.across*math.Hypot(v[1], v[2])+unit.along*math.Hypot(x, v[2]))
		}
	}
	return most
}

// safeFor is a difference not above d at which a part is clear. Searches of the
// whole step halve down from d where a vertex could close the gap by going some
// other way than along it.
func (b *Bay) safeFor(g gapNearby, s carrier.Step, unit lean, d float64) float64 {
	clear := func(d float64) bool {
		l := unit.scaled(d).toward(g.v.N)
		o := b.leant(l, s.Path, g.part, g.v.N)
		return o.any+o.unsure <= g.v.Lower || b.leantGap(l, s.Path, g.part, g.solids(g.part)) >= -contactTolerance
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
func (b *Bay) gapsNearby(s carrier.Step, r stripped, unit lean) []gapNearby {
	var out []gapNearby
	add := func(m *measure, zone culvert.Zone, from string, v sweep.Bracket, solids func(part int) []sweep.Part) {
		for _, part := range append([]int{m.part}, m.alike...) {
			if v.Lower > 0 && v.Lower < far && leans(b.Carrier.Parts[part], zone) {
				out = append(out, gapNearby{part, from, zone, v, solids, b.leant(unit.toward(v.N), s.Path, part, v.N)})
			}
		}
	}
	for i := range r.measures {
		m := &r.measures[i]
		for z, zone := range culvert.Zones {
			if m.any[z] && concreteZone(zone) {
				add(m, zone, "the "+zone.Words(), m.at(z).free, b.releasedFrom(r.k, z))
			}
		}
		for _, k := range r.kept[m.part] {
			if !k.held {
				add(m, culvert.Hanger, b.stripped.solids[k.solid].Name, k.value, b.keptFree(r.k, kindOf(b.stripped.solids[k.solid])))
			}
		}
	}
	return out
}
