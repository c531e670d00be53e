package clearance

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
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

// safeCandidate is the difference between jacks up to which nothing is entered
// in a step, in both directions at once. A frame that leans less stays within
// the planes that hold it apart at more, so that what is safe at a difference is
// safe below it.
func (b *bay) safeCandidate(s carrier.Step, r stripped) candidate {
	unit := b.bearing(b.leanOfJacks(1), r.k)
	list := b.gapsNearby(s, r, unit)
	// what is not listed stays farther away than far
	safe, governs := far/math.Max(b.farthest(unit), 1e-9), -1
	for i, g := range list {
		if d := start * g.v.Lower / math.Max(g.leant.toward, 1e-9); d < safe {
			safe, governs = d, i
		}
	}
	for i, g := range list {
		if d := b.safeFor(g, s, unit, safe); d < safe {
			safe, governs = d, i
		}
	}
	if governs < 0 {
		return candidate{value: result.Between(safe, safe), where: b.at(s.Name), text: fmt.Sprintf("nothing is entered with jacks %s apart", b.small(safe))}
	}
	g := list[governs]
	return candidate{value: result.Between(safe, safe), tell: func() (result.Where, string) {
		return b.where(s.Name, g.part, string(g.zone), g.v), b.safeWords(g, unit, safe)
	}}
}

// safeWords say what governs a safe difference, with its arithmetic where that
// gives the number printed. A search of the step gives less than it, for what the
// second order adds, or more, where the gap closes by another way.
func (b *bay) safeWords(g gapNearby, unit lean, safe float64) string {
	text := fmt.Sprintf("%s keeps %s from %s; jacks may differ by %s until the frame leans so far", b.label(g.part), b.said(bracketOf(g.v)), g.from, b.small(safe))
	rise := g.leant.across/unit.gauge + g.leant.along/unit.lever // per metre of difference
	if b.small(g.v.Lower/rise) != b.small(safe) {
		return text + ", across and along at once; a search of the whole step found that, from where the part stands at each moment"
	}
	return text + fmt.Sprintf(": %s / (%s / gauge %s across + %s / %s along)",
		b.mm(g.v.Lower), b.mm(g.leant.across), b.mm(unit.gauge), b.mm(g.leant.along), b.mm(unit.lever))
}

// farthest is how far any vertex of the carrier goes with jacks a metre apart,
// lying as high as raised.
func (b *bay) farthest(unit lean) float64 {
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
func (b *bay) safeFor(g gapNearby, s carrier.Step, unit lean, d float64) float64 {
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
func (b *bay) gapsNearby(s carrier.Step, r stripped, unit lean) []gapNearby {
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
