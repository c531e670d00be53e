package clearance

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/model/carrier"
)

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
