package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/model/carrier"
)

// levelChecks are, in a step that turns the jacks while they carry, the difference between jacks at which nothing is entered: side
// to side the least gap x gauge / height beside the walls, over every vertex of
// every part, and of every other gap what both directions together leave.
func (b *bay) levelChecks(s carrier.Step, r measure.StepGaps) []Judged {
	if !b.JacksMove(s) {
		return nil
	}
	if l := b.LeanOfJacks(b.Tol.Value("jack_level")); !(l.Lever > 0) {
		return []Judged{b.unseen("strip.level", b.About().In(s.Name), l, s.Name)}
	}
	var list []candidate
	least := math.Inf(1) // upper end: a part that leaves more than that does not govern
	for i, p := range b.Carrier.Parts {
		if !s.Present(p) || p.Role == carrier.Tie {
			continue
		}
		if w, ok := b.BesideWall(s, i); ok && w.Differ <= least+2*alike {
			list = append(list, b.levelCandidate(s, i, w))
			least = math.Min(least, math.Max(w.Differ, w.Upper))
		}
	}
	list = append(list, b.safeCandidate(s, r))
	limit := Limit{Value: b.Tol.Value("jack_level"), Source: "tolerance.jack_level: " + b.Tol.Source("jack_level")}
	return []Judged{entry("strip.level", b.About().In(s.Name), list, limit, result.Min, "no part stands beside a wall")}
}

// levelCandidate is what a part beside a wall leaves between jacks side to side.
func (b *bay) levelCandidate(s carrier.Step, part int, w measure.BesideWall) candidate {
	return candidate{Value: result.Between(w.Differ, math.Max(w.Differ, w.Upper)), working: b.workedDiffer(w.Gap, w.Height), tell: func() (result.Where, string) {
		at := b.where(s.Name, part, "wall", measure.Nothing())
		at.A = point(w.At)
		return at, fmt.Sprintf("%s is %s clear of the wall at a height of %s: %s x gauge %s / %s = %s of jack difference allowed",
			b.label(part), b.mm(w.Gap), b.mm(w.Height), b.mm(w.Gap), b.mm(b.Carrier.Gauge), b.mm(w.Height), b.small(w.Differ))
	}}
}
