package check

import (
	"fmt"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/motion"
)

// selfChecks are the entries of one step: bodies and links, and seams.
func (b *bay) selfChecks(s carrier.Step, r measure.StepGaps) []Judged {
	var free, seam []candidate
	for _, m := range r.Selves {
		if m.MustClear.Lower < measure.Near {
			free = append(free, b.selfCandidate(s, &m, m.MustClear))
		}
		if m.Seam.Lower < measure.Near {
			seam = append(seam, b.selfCandidate(s, &m, m.Seam))
		}
	}
	return []Judged{
		entry("strip.self", b.About().In(s.Name).As(FreePairs), free, b.limits.of("strip.self"), result.Min, "no two bodies that move against each other come nearer than "+b.mm(measure.Near)),
		entry("strip.self", b.About().In(s.Name).As(SeamPairs), seam, b.limits.of("strip.self.seams"), result.Min, "no seam moves in this step"),
	}
}

func (b *bay) selfCandidate(s carrier.Step, m *measure.SelfGaps, v sweep.Bracket) candidate {
	part := m.Part
	c := candidate{Value: bracketOf(v), Part: part, Against: v.Against, Alike: m.Alike}
	if v.Against < 0 {
		c.tell = func() (result.Where, string) {
			return b.where(s.Name, part, "", v), b.keeps(part, v, "every other body", 0)
		}
		return c
	}
	c.Allowance = b.LagBetween(s, part, v.Against)
	c.worst = c.Allowance
	c.tell = func() (result.Where, string) { return b.selfWhere(s, part, v), b.selfText(part, v, c.Allowance) }
	return c
}

// selfWhere names both parts. They were seen from the frame they share; the
// witness goes to cell and pour.
func (b *bay) selfWhere(s carrier.Step, part int, v sweep.Bracket) result.Where {
	w := b.where(s.Name, part, b.Carrier.Parts[v.Against].At(), v)
	pose := s.Path.Pose(motion.Ground, b.Common(part, v.Against), v.At)
	w.A, w.B = point(pose.Apply(v.A)), point(pose.Apply(v.B))
	return w
}

func (b *bay) selfText(part int, v sweep.Bracket, lag float64) string {
	if v.Upper < -measure.ContactTolerance {
		return fmt.Sprintf("%s clashes with %s by %s", b.label(part), b.label(v.Against), b.deep(v.Lower))
	}
	return b.keeps(part, v, b.label(v.Against), lag)
}
