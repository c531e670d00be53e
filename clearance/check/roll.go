package check

import (
	"errors"
	"fmt"
	"math"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/model/culvert"
	"boxwalk/model/motion"
)

// halted says why an advance cannot be worked out.
func (b *bay) halted(err error) string {
	var tips *motion.Unstable
	var sharp *motion.TooSharp
	switch {
	case errors.Is(err, measure.ErrNoRollers):
		return "travel.rollers is not given: say where the guide rollers are"
	case errors.As(err, &tips):
		return fmt.Sprintf("the centre of gravity at %s, give or take %s, does not lie between the first wheels at %s and the last at %s: the carrier tips",
			b.Distance(tips.Centre), b.Distance(tips.Uncertain), b.Distance(tips.First), b.Distance(tips.Last))
	case errors.As(err, &sharp):
		return fmt.Sprintf("within %s from %s on the way turns by %.1f deg, more than a carrier is taken through",
			b.Distance(sharp.Stretch), b.Distance(sharp.At), sharp.Turn*180/math.Pi)
	}
	return b.told(err)
}

// rollChecks are the clearances over the whole advance, zone by zone, with the
// tolerance allowance taken off.
func (b *bay) rollChecks(r *measure.Advance, list []measure.Gaps) []Judged {
	if r == nil {
		return []Judged{open("roll.clear", b.subject("advance"), "m", "the collapse does not end on the wheels, so the carrier cannot roll", b.underway())}
	}
	if r.Stop != nil {
		return []Judged{open("roll.clear", b.subject("advance"), "m", "the advance cannot be worked out: "+b.halted(r.Stop), b.underway())}
	}
	step := b.RollStep(r.Way)
	var out []Judged
	for z, zone := range culvert.Zones {
		limit, a := b.limits.of("roll.clear"), b.Tol.Of(zone)
		var found []candidate
		anything := false
		for i := range list {
			m := &list[i]
			anything = anything || m.Any[z]
			if v := m.At(z).MustClear; m.Any[z] && v.Lower < measure.Far {
				part := m.Part
				loss := b.RollLoss(r, part, zone, v)
				tell := func() (result.Where, string) {
					w := b.where(step, part, string(zone), v)
					station := b.StationAt(r, v.At)
					w.Station = &station
					return w, fmt.Sprintf("%s passes the %s at %s; %s", b.label(part), zone.Words(), b.said(bracketOf(v)), b.allowed(a, loss.Tilt)+b.forTwist(loss.Twist)+b.forRests(loss.Rests))
				}
				c := candidate{Value: bracketOf(v), Allowance: a.RootSumSquare + loss.All(), worst: a.WorstCase + loss.All(), tell: tell, Part: part, Against: v.Against, Zone: zone}
				found = append(found, c)
			}
		}
		if anything {
			c := entry("roll.clear", b.About().At(zone), found, limit, result.Min, fmt.Sprintf("every part passes the %s more than %s away", zone.Words(), b.mm(measure.Far)))
			out = append(out, b.carried(c, list, z))
		}
	}
	return out
}

// carried leaves a pass open where a wheel enters what it rolls on deeper than
// the allowance for how that lies: then the motion is not known well enough.
func (b *bay) carried(c Judged, list []measure.Gaps, z int) Judged {
	for i := range list {
		v := list[i].At(z).MayTouch
		if most := measure.ContactTolerance + c.Allowance; c.Verdict == result.Pass && v.Lower < -most {
			c.Verdict, c.Text = result.Open, fmt.Sprintf("%s enters the %s it rolls on by %s, and the allowance for how that lies is only %s; %s",
				b.label(list[i].Part), culvert.Zones[z].Words(), b.mm(-v.Lower), b.mm(c.Allowance), c.Text)
		}
	}
	return c
}

// RollStep is the advance as a step is named: ahead or back, and how far.
func (b *bay) RollStep(way float64) string {
	if way < 0 {
		return "roll back " + b.Distance(-way)
	}
	return "roll ahead " + b.Distance(way)
}

// underway is the place of an entry about the advance as a whole.
func (b *bay) underway() result.Where { return b.at(b.RollStep(b.Rolls)) }
