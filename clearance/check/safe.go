package check

import (
	"fmt"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// safeCandidate is the difference between jacks up to which nothing is entered in a
// step.
func (b *bay) safeCandidate(s carrier.Step, r measure.StepGaps) candidate {
	safe := b.SafeIn(s, r)
	c := candidate{Value: result.Between(safe.Differ, safe.Differ)}
	if safe.Governs == nil {
		c.where, c.text = b.at(s.Name), fmt.Sprintf("nothing is entered with jacks %s apart", b.small(safe.Differ))
		return c
	}
	g := safe.Governs
	c.tell = func() (result.Where, string) {
		return b.where(s.Name, g.Part, string(g.Zone), g.V), b.safeWords(*g, safe.Unit, safe.Differ)
	}
	return c
}

// safeWords say what governs a safe difference, with its arithmetic where that
// gives the number printed. A search of the step gives less than it, for what the
// second order adds, or more, where the gap closes by another way.
func (b *bay) safeWords(g measure.GapNearby, unit measure.Lean, safe float64) string {
	text := fmt.Sprintf("%s keeps %s from %s; jacks may differ by %s until the frame leans so far", b.label(g.Part), b.said(bracketOf(g.V)), b.gapTo(g.Zone, g.Left), b.small(safe))
	rise := g.Leant.Across/unit.Gauge + g.Leant.Along/unit.Lever // per metre of difference
	if b.small(g.V.Lower/rise) != b.small(safe) {
		return text + ", across and along at once; a search of the whole step found that, from where the part stands at each moment"
	}
	return text + fmt.Sprintf(": %s / (%s / gauge %s across + %s / %s along)",
		b.mm(g.V.Lower), b.mm(g.Leant.Across), b.mm(unit.Gauge), b.mm(g.Leant.Along), b.mm(unit.Lever))
}

// gapTo is what a gap is to: what stays, by its place among the solids, or concrete.
func (b *bay) gapTo(zone culvert.Zone, left int) string {
	if left >= 0 {
		return b.Stripped.Solids[left].Name
	}
	return "the " + zone.Words()
}
