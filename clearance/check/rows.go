package check

import (
	"math"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// settings is how every adjuster stands raised and collapsed, bent by bent.
func (b *bay) settings() []result.Setting {
	var out []result.Setting
	add := func(bent int, name string, raised, collapsed float64) {
		out = append(out, result.Setting{Cell: b.Cell.Number, Pour: b.Pour.Number, Bent: bent, Adjuster: name, Raised: raised, Collapsed: collapsed, Unit: "m"})
	}
	for n := range b.Carrier.Bents {
		add(n+1, "leg", b.Carrier.Leg, b.Carrier.Leg)
		for _, arm := range b.armsAt(n + 1) {
			add(n+1, "arm in tube "+arm.Side.String(), b.insideTube(arm, nil), b.insideTube(arm, b.lastMade()))
		}
		for k, a := range b.Carrier.Adjusters {
			add(n+1, a.Label(), a.Raised, b.collapsedReading(k))
		}
	}
	return out
}

// armsAt are the sliding arms of a bent.
func (b *bay) armsAt(bent int) []carrier.Part {
	var out []carrier.Part
	for _, p := range b.Carrier.Parts {
		if p.Role == carrier.Arm && p.Bent == bent {
			out = append(out, p)
		}
	}
	return out
}

// insideTube is how much of an arm is in its header's tube, as raised or at the
// end of a step: from the end of the tube to the inner end of the arm.
func (b *bay) insideTube(arm carrier.Part, at *carrier.Step) float64 {
	end := geom.Vec{0, float64(arm.Side) * b.Carrier.ArmInner, b.Carrier.Header}
	if at != nil {
		end = at.Path.Pose(b.Carrier.Mechanism.Bodies[arm.Body].Parent, arm.Body, 1).Apply(end)
	}
	return float64(b.Carrier.Gear.Frame.Header.Length)/2 - math.Abs(end[1])
}

// lastMade is the last step that can be made; nil if there is none.
func (b *bay) lastMade() *carrier.Step {
	var last *carrier.Step
	for i := range b.Steps {
		if b.Steps[i].Stop != nil {
			break
		}
		last = &b.Steps[i]
	}
	return last
}

// collapsedReading is an adjuster's reading after the last step that can be
// made.
func (b *bay) collapsedReading(k int) float64 {
	v := b.Carrier.Adjusters[k].Raised
	for _, s := range b.Steps {
		if s.Stop != nil {
			break
		}
		v = s.Moves[k].To
	}
	return v
}

// stepRows are the steps as the crew does them, with the gaps at their ends unless
// brief.
func (b *bay) stepRows(done []measure.StepGaps, brief bool) []result.StepRow {
	var out []result.StepRow
	between := map[[2]int]sweep.Bracket{}
	for k, s := range b.Steps {
		row := result.StepRow{Cell: b.Cell.Number, Pour: b.Pour.Number, Name: s.Name, Say: s.Say, Caution: s.Caution, Removes: s.Removes}
		if row.Removes == nil {
			row.Removes = []string{}
		}
		row.Moves, row.Lag = b.moveRows(s), b.lagRow(s)
		if row.End = []result.EndRow{}; !brief {
			b.CarryOver(s, done[k], between)
			row.End = b.endRows(s, done[k], between)
		}
		out = append(out, row)
	}
	return out
}

// endKey groups gaps at a step's end.
type endKey struct {
	role    carrier.Role
	name    string
	side    culvert.Side
	against string
}

// endRows are the least gaps at a step's end, by role, side and what they are
// to.
func (b *bay) endRows(s carrier.Step, r measure.StepGaps, between map[[2]int]sweep.Bracket) []result.EndRow {
	rows := []result.EndRow{}
	place := map[endKey]int{}
	keep := func(part int, against string, v sweep.Bracket) {
		p := b.Carrier.Parts[part]
		key := endKey{p.Role, p.Name, p.Side, against}
		row := result.EndRow{Part: p.At(), Role: measure.RoleName(p), Side: p.Side.String(), Against: against, Value: bracketOf(v)}
		at, ok := place[key]
		switch {
		case !ok:
			place[key] = len(rows)
			rows = append(rows, row)
		case v.Upper < rows[at].Value.Upper:
			rows[at] = row
		}
	}
	for _, m := range r.Parts {
		if !s.PresentAfter(b.Carrier.Parts[m.Part]) {
			continue
		}
		for z, zone := range culvert.Zones {
			if v := m.At(z).End; zone != culvert.Hanger && v.Against >= 0 && v.Upper < measure.Far {
				keep(m.Part, string(zone), v)
			}
		}
	}
	for _, m := range r.Parts {
		for _, k := range r.Left[m.Part] {
			if v := b.LeftEnd(s, m.Part, k.Solid); s.PresentAfter(b.Carrier.Parts[m.Part]) && v.Upper < measure.Far {
				keep(m.Part, "hanger "+measure.KindOf(b.Stripped.Solids[k.Solid]), v)
			}
		}
	}
	for _, pair := range measure.SortedPairs(between) {
		p, q := b.Carrier.Parts[pair[0]], b.Carrier.Parts[pair[1]]
		if s.PresentAfter(p) && s.PresentAfter(q) {
			keep(pair[0], measure.RoleName(q), between[pair])
		}
	}
	return rows
}

// partRows is every part in every step against every zone near it.
func (b *bay) partRows(done []measure.StepGaps) []result.PartRow {
	var out []result.PartRow
	for k, s := range b.Steps {
		for _, m := range measure.ByPart(done[k].Parts) {
			p := b.Carrier.Parts[m.Part]
			for z, zone := range culvert.Zones {
				for n, v := range [2]sweep.Bracket{m.At(z).MustClear, m.At(z).MayTouch} {
					held := n == 1
					if math.IsInf(v.Lower, 1) || v.Lower >= measure.Far {
						continue
					}
					out = append(out, result.PartRow{Cell: b.Cell.Number, Pour: b.Pour.Number, Step: s.Name, Part: p.At(), Role: measure.RoleName(p), Zone: string(zone), Contact: held, Value: bracketOf(v), At: v.At})
				}
			}
		}
	}
	return out
}
