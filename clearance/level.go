package clearance

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/model/carrier"
	"boxwalk/model/motion"
)

// levelCheck is the difference between jacks at which nothing is entered: side
// to side the least gap x gauge / height beside the walls, over every vertex of
// every part, and of every other gap what both directions together leave.
func (b *bay) levelCheck(s carrier.Step, r stripped) (judged, bool) {
	if !b.jacksMove(s) {
		return judged{}, false
	}
	if l := b.leanOfJacks(b.tol.Value("jack_level")); !(l.lever > 0) {
		return b.unseen("strip.level", b.about().In(s.Name), l, s.Name), true
	}
	var list []candidate
	for i, p := range b.Carrier.Parts {
		if !s.Present(p) || p.Role == carrier.Tie {
			continue
		}
		if c, ok := b.levelCandidate(s, i); ok {
			list = append(list, c)
		}
	}
	list = append(list, b.safeCandidate(s, r))
	limit := Limit{Value: b.tol.Value("jack_level"), Source: "tolerance.jack_level: " + b.tol.Source("jack_level")}
	return entry("strip.level", b.about().In(s.Name), list, limit, result.Min, "no part stands beside a wall"), true
}

// levelCandidate is the least gap x gauge / height of a part's vertices. In a
// step that only lowers, the gap stays and the height is greatest at the
// start; curvature is taken off so that it holds for any step.
func (b *bay) levelCandidate(s carrier.Step, part int) (candidate, bool) {
	p := b.Carrier.Parts[part]
	bound := s.Path.Bound(motion.Ground, p.Body, 0, 1)
	from, to := s.Path.Pose(motion.Ground, p.Body, 0), s.Path.Pose(motion.Ground, p.Body, 1)
	best := candidate{value: result.Between(math.Inf(1), math.Inf(1))}
	found := false
	for _, v := range p.Vertices {
		v0, v1, sag := from.Apply(v), to.Apply(v), bound.Curvature(v)/8
		top := math.Max(v0[2], v1[2]) + sag
		if top <= 0 {
			continue
		}
		gap := func(y float64) float64 { return b.Cell.HalfSpan - math.Abs(y) }
		least := math.Min(gap(v0[1]), gap(v1[1]))
		lower := (least - sag) * b.Carrier.Gauge / top
		upper := math.Min(gap(v0[1])*b.Carrier.Gauge/math.Max(v0[2], 1e-3), gap(v1[1])*b.Carrier.Gauge/math.Max(v1[2], 1e-3))
		if lower < best.value.Lower {
			found = true
			best.value = result.Between(lower, math.Max(lower, upper))
			best.tell = func() (result.Where, string) {
				w := b.where(s.Name, part, "wall", nothing())
				w.A = point(v0)
				return w, fmt.Sprintf("%s stands %s from the wall at a height of %s: %s x gauge %s / %s = %s of jack difference allowed",
					b.label(part), b.mm(least-sag), b.mm(top), b.mm(least-sag), b.mm(b.Carrier.Gauge), b.mm(top), b.small(lower))
			}
		}
	}
	return best, found
}
