package clearance

import (
	"fmt"

	"boxwalk/clearance/result"
	"boxwalk/model/culvert"
)

// raiseChecks are the entries of all raising steps.
func (b *bay) raiseChecks(done [][]measure) []judged {
	var out []judged
	for k, s := range b.Raising {
		if s.Stop != nil {
			out = append(out, open("raise.clear", b.about().In(s.Name), "m", "the step cannot be made: "+s.Stop.Say(b.mm), b.at(s.Name)))
			continue
		}
		out = append(out, b.raiseCheck(k, done[k]))
	}
	return out
}

// raiseCheck is one raising step: what must not touch keeps the release gap,
// and what comes to rest on concrete already cast must not dig into it.
func (b *bay) raiseCheck(k int, list []measure) judged {
	s, limit := b.Raising[k], b.limits.of("raise.clear")
	lean, leaning := b.leanUp(k)
	if leaning && b.beyondSight(lean, limit.Value) {
		return b.unseen("raise.clear", b.about().In(s.Name), lean, s.Name)
	}
	var found []candidate
	for i := range list {
		m := &list[i]
		for z, zone := range culvert.Zones {
			near := m.at(z)
			if m.any[z] && near.free.Lower < far {
				c := b.releaseCandidate(s, m, zone, near.free)
				if leaning && leans(b.Carrier.Parts[m.part], zone) {
					c = b.leaning(c, lean, b.leanOff(lean, s.Path, m, near.free, near.free.Lower-c.allowance, b.risesPast(k, z)), limit.Value)
				}
				found = append(found, c)
			}
			if v := near.held; v.Against >= 0 && v.Lower < -contactTolerance {
				found = append(found, candidate{value: result.Between(v.Lower, v.Upper), part: m.part, against: v.Against, alike: m.alike, zone: zone, held: true, where: b.where(s.Name, m.part, string(zone), v),
					text: fmt.Sprintf("%s digs %s into the %s it comes to rest on", b.label(m.part), b.mm(-v.Upper), zone.Words())})
			}
		}
	}
	return entry("raise.clear", b.about().In(s.Name), found, limit, result.Min, "nothing that is cast already stands near")
}
