package check

import (
	"fmt"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

func (b *bay) digCheck(s carrier.Step, r measure.StepGaps) Judged {
	lean, leaning := b.LeanDown(r.K)
	if leaning && b.BeyondSight(lean, 0) {
		return b.unseen("strip.dig", b.About().In(s.Name), lean, s.Name)
	}
	var list []candidate
	for i := range r.Parts {
		m := &r.Parts[i]
		for z, zone := range culvert.Zones {
			if !m.Any[z] || !measure.ConcreteZone(zone) {
				continue
			}
			near := m.At(z)
			if near.MayTouch.Lower < measure.Far {
				held := b.digCandidate(s, m, zone, near.MayTouch)
				held.MayTouch = true
				list = append(list, held)
			}
			if near.MustClear.Lower < measure.Far {
				free := b.digCandidate(s, m, zone, near.MustClear)
				if leaning && measure.Leans(b.Carrier.Parts[m.Part], zone) {
					free = b.leaning(free, lean, b.LeanOff(lean, s.Path, m, near.MustClear, near.MustClear.Lower, b.ReleasedFrom(r.K, z)), 0)
				}
				list = append(list, free)
			}
		}
	}
	c := entry("strip.dig", b.About().In(s.Name), list, b.limits.of("strip.dig"), result.Min, "no part meets concrete in this step")
	return b.withFirst(c, s, r.Parts, func(m *measure.Gaps, z int) []sweep.Bracket {
		return []sweep.Bracket{m.At(z).MayTouch, m.At(z).MustClear}
	})
}

func (b *bay) digCandidate(s carrier.Step, m *measure.Gaps, zone culvert.Zone, v sweep.Bracket) candidate {
	part := m.Part
	tell := func() (result.Where, string) {
		text := fmt.Sprintf("%s stays %s clear of the %s", b.label(part), b.said(bracketOf(v)), zone.Words())
		if v.Upper < -measure.ContactTolerance {
			text = fmt.Sprintf("%s enters the %s by %s", b.label(part), zone.Words(), b.deep(v.Lower))
		}
		return b.where(s.Name, part, string(zone), v), text
	}
	return candidate{Value: bracketOf(v), tell: tell, Part: part, Against: v.Against, Alike: m.Alike, Zone: zone}
}

// withFirst adds to a failed check where its part first touches.
func (b *bay) withFirst(c Judged, s carrier.Step, measures []measure.Gaps, of func(*measure.Gaps, int) []sweep.Bracket) Judged {
	if c.Verdict != result.Fail {
		return c
	}
	for i := range measures {
		m := &measures[i]
		if b.Carrier.Parts[m.Part].At() != c.Where.Part {
			continue
		}
		for z, zone := range culvert.Zones {
			for _, v := range of(m, z) {
				if string(zone) == c.Where.Zone && v.Against >= 0 && v.Upper < -measure.ContactTolerance {
					c.Where.First = b.first(s, m.Part, b.Stripped.Parts[v.Against], measure.ContactTolerance)
				}
			}
		}
	}
	return c
}

func (b *bay) dragCheck(s carrier.Step, r measure.StepGaps) Judged {
	var list []candidate
	for _, d := range facesFirst(r.Drags) {
		zone := b.Stripped.Solids[d.Solid].Zone
		kind := "an edge"
		if d.Travel.Face {
			kind = "a face"
		}
		text := fmt.Sprintf("%s leaves the %s without sliding on it", b.label(d.Part), zone.Words())
		if d.Travel.Upper > 0 {
			text = fmt.Sprintf("%s of %s slides %s on the %s before it comes off", kind, b.label(d.Part), b.roundedUp(d.Travel.Upper), zone.Words())
		}
		list = append(list, candidate{Value: result.Between(d.Travel.Lower, d.Travel.Upper), text: text,
			where: b.where(s.Name, d.Part, string(zone), measure.Nothing())})
	}
	return entry("strip.drag", b.About().In(s.Name), list, b.limits.of("strip.drag"), result.Max, "nothing that touches concrete moves in this step")
}

// facesFirst puts sliding faces before edges: of two that slide alike the face
// is the one to name.
func facesFirst(list []measure.Drag) []measure.Drag {
	var faces, edges []measure.Drag
	for _, d := range list {
		if d.Travel.Face {
			faces = append(faces, d)
			continue
		}
		edges = append(edges, d)
	}
	return append(faces, edges...)
}

// releaseChecks are the release gaps of a step, zone by zone: everything that
// is not, or no longer, in contact by design.
func (b *bay) releaseChecks(s carrier.Step, r measure.StepGaps) []Judged {
	var out []Judged
	for z, zone := range culvert.Zones {
		if !measure.ConcreteZone(zone) {
			continue
		}
		var list []candidate
		for i := range r.Parts {
			m := &r.Parts[i]
			if v := m.At(z).MustClear; m.Any[z] && v.Lower < measure.Far {
				list = append(list, b.releaseCandidate(s, m, zone, v))
			}
		}
		c := entry("strip.clear", b.About().In(s.Name).At(zone), list, b.limits.of("strip.release"), result.Min, "no part that has been released comes near the "+zone.Words())
		out = append(out, c)
	}
	return out
}

func (b *bay) releaseCandidate(s carrier.Step, m *measure.Gaps, zone culvert.Zone, v sweep.Bracket) candidate {
	part := m.Part
	lag := b.Lag(s, part)
	tell := func() (result.Where, string) {
		return b.where(s.Name, part, string(zone), v), b.keeps(part, v, "the "+zone.Words(), lag)
	}
	return candidate{Value: bracketOf(v), Allowance: lag, worst: lag, tell: tell, Part: part, Against: v.Against, Alike: m.Alike, Zone: zone}
}

// keeps says how far a part stays from something, or how deep it runs in.
func (b *bay) keeps(part int, v sweep.Bracket, from string, lag float64) string {
	text := fmt.Sprintf("%s stays %s clear of %s", b.label(part), b.said(bracketOf(v)), from)
	if v.Upper < -measure.ContactTolerance {
		text = fmt.Sprintf("%s enters %s by %s", b.label(part), from, b.deep(v.Lower))
	}
	if lag > 0 {
		text += fmt.Sprintf("; allowance %s for adjusters out of step", b.mm(lag))
	}
	return text
}

// supportsChecks are the gaps to hangers and whatever else stays, told apart by
// what it is: plates, nuts.
func (b *bay) supportsChecks(s carrier.Step, r measure.StepGaps) []Judged {
	kinds := b.LeftKinds()
	if len(kinds) == 0 {
		return []Judged{entry("strip.supports", b.About().In(s.Name), nil, b.limits.of("strip.supports"), result.Min, "nothing stays in place")}
	}
	var out []Judged
	for _, kind := range kinds {
		out = append(out, b.supportsCheck(s, r, kind))
	}
	return out
}

func (b *bay) supportsCheck(s carrier.Step, r measure.StepGaps, kind string) Judged {
	limit := b.limits.of("strip.supports")
	lean, leaning := b.LeanDown(r.K)
	if leaning && b.BeyondSight(lean, limit.Value) {
		return b.unseen("strip.supports", b.About().In(s.Name).As("hanger "+kind), lean, s.Name)
	}
	var list []candidate
	for i := range r.Parts {
		m := &r.Parts[i]
		for _, k := range r.Left[m.Part] {
			if measure.KindOf(b.Stripped.Solids[k.Solid]) != kind || k.Value.Lower >= measure.Far {
				continue
			}
			c := b.releaseCandidate(s, m, culvert.Hanger, k.Value)
			c.MayTouch = k.MayTouch
			part, lag := m.Part, c.Allowance
			c.tell = func() (result.Where, string) {
				return b.where(s.Name, part, string(culvert.Hanger), k.Value), b.keeps(part, k.Value, b.Stripped.Solids[k.Solid].Name, lag)
			}
			if k.MayTouch && k.Value.Lower >= -measure.ContactTolerance {
				continue // touches by design and does not dig
			}
			if pour := b.Stripped.Solids[k.Solid].Pour; pour != b.Pour.Number {
				c.remedy = b.backUnder(pour)
			}
			if leaning && !k.MayTouch {
				c = b.leaning(c, lean, b.LeanOff(lean, s.Path, m, k.Value, k.Value.Lower-lag, b.LeftClear(r.K, kind)), limit.Value)
			}
			list = append(list, c)
		}
	}
	c := entry("strip.supports", b.About().In(s.Name).As("hanger "+kind), list, limit, result.Min, "nothing comes near a hanger "+kind)
	return b.withFirst(c, s, r.Parts, func(m *measure.Gaps, z int) []sweep.Bracket {
		var out []sweep.Bracket
		for _, k := range r.Left[m.Part] {
			if measure.KindOf(b.Stripped.Solids[k.Solid]) == kind {
				out = append(out, k.Value)
			}
		}
		return out
	})
}

// travelChecks are the clearances when collapsed, zone by zone, with the
// tolerance allowance taken off.
func (b *bay) travelChecks(s carrier.Step, r measure.StepGaps) []Judged {
	var out []Judged
	for z, zone := range culvert.Zones {
		limit := b.limits.Travel(zone)
		a := b.Tol.Of(zone)
		var list []candidate
		anything := false
		for i := range r.Parts {
			m := &r.Parts[i]
			v, ok := b.Collapsed(s, m, z)
			anything = anything || m.Any[z]
			if !ok || v.Lower >= measure.Far {
				continue
			}
			part := m.Part
			tilt := b.Tilt(s.Path, part, zone, v)
			tell := func() (result.Where, string) {
				w := b.where(s.Name, part, string(zone), v)
				w.At = 1
				return w, fmt.Sprintf("%s is %s clear of the %s; %s", b.label(part), b.said(bracketOf(v)), zone.Words(), b.allowed(a, tilt))
			}
			list = append(list, candidate{Value: bracketOf(v), Allowance: a.RootSumSquare + tilt, worst: a.WorstCase + tilt, tell: tell, Part: part, Against: v.Against, Alike: m.Alike, Zone: zone})
		}
		if !anything {
			continue
		}
		out = append(out, entry("strip.clear", b.About().At(zone).As(result.Collapsed), list, limit, result.Min, fmt.Sprintf("every part is more than %s clear of the %s", b.mm(measure.Far), zone.Words())))
	}
	return out
}

// clearChecks are the release gaps of a step, and of the last the clearances of the
// carrier collapsed.
func (b *bay) clearChecks(s carrier.Step, r measure.StepGaps) []Judged {
	out := b.releaseChecks(s, r)
	if r.K == len(b.Steps)-1 {
		out = append(out, b.travelChecks(s, r)...)
	}
	return out
}

// allowed says what the allowance on a travel clearance is for.
func (b *bay) allowed(a allow.Allowance, tilt float64) string {
	text := fmt.Sprintf("allowance %s for tolerances (%s if all add up)", b.roundedUp(a.RootSumSquare), b.roundedUp(a.WorstCase))
	if tilt > 0 {
		text += fmt.Sprintf(" and %s for the crossfall of %.2f %%", b.roundedUp(tilt), 100*b.Crossfall)
	}
	return text
}
