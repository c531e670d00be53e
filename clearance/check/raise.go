package check

import (
	"fmt"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/model/culvert"
)

// raiseChecks are the entries of all raising steps.
func (b *bay) raiseChecks(done [][]measure.Gaps) []Judged {
	var out []Judged
	for k, s := range b.Raising {
		if s.Stop != nil {
			out = append(out, open("raise.clear", b.About().In(s.Name), "m", "the step cannot be made: "+s.Stop.Say(b.mm), b.at(s.Name)))
			continue
		}
		out = append(out, b.raiseCheck(k, done[k]))
	}
	return out
}

// raiseCheck is one raising step: what must not touch keeps the release gap,
// and what comes to rest on concrete already cast must not dig into it.
func (b *bay) raiseCheck(k int, list []measure.Gaps) Judged {
	s, limit := b.Raising[k], b.limits.of("raise.clear")
	lean, leaning := b.LeanUp(k)
	if leaning && b.BeyondSight(lean, limit.Value) {
		return b.unseen("raise.clear", b.About().In(s.Name), lean, s.Name)
	}
	var found []candidate
	for i := range list {
		m := &list[i]
		for z, zone := range culvert.Zones {
			near := m.At(z)
			if m.Any[z] && near.MustClear.Lower < measure.Far {
				c := b.releaseCandidate(s, m, zone, near.MustClear)
				if leaning && measure.Leans(b.Carrier.Parts[m.Part], zone) {
					c = b.leaning(c, lean, b.LeanOff(lean, s.Path, m, near.MustClear, near.MustClear.Lower-c.Allowance, b.RisesPast(k, z)), limit.Value)
				}
				found = append(found, c)
			}
			if v := near.MayTouch; v.Against >= 0 && v.Lower < -measure.ContactTolerance {
				found = append(found, candidate{Value: result.Between(v.Lower, v.Upper), Part: m.Part, Against: v.Against, Alike: m.Alike, Zone: zone, MayTouch: true, where: b.where(s.Name, m.Part, string(zone), v),
					text: fmt.Sprintf("%s enters the %s it comes to rest on by %s", b.label(m.Part), zone.Words(), b.deep(v.Lower))})
			}
		}
	}
	return entry("raise.clear", b.About().In(s.Name), found, limit, result.Min, "nothing that is cast already is near")
}
