package clearance

import (
	"fmt"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/result"
	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// stripChecks are the entries of all steps, in the order of the steps.
func (b *bay) stripChecks(done []stripped) []judged {
	var out []judged
	for k, s := range b.Steps {
		if s.Stop != nil {
			out = append(out, b.stopped(s)...)
			continue
		}
		r := done[k]
		out = append(out, b.digCheck(s, r), b.dragCheck(s, r))
		out = append(out, b.selfChecks(s, r)...)
		out = append(out, b.releaseChecks(s, r)...)
		out = append(out, b.supportsChecks(s, r)...)
		if c, ok := b.levelCheck(s, r); ok {
			out = append(out, c)
		}
	}
	if n := len(b.Steps); n > 0 && b.Steps[n-1].Stop == nil {
		out = append(out, b.travelChecks(b.Steps[n-1], done[n-1])...)
	}
	return out
}

// stopped are the checks of a step that cannot be made.
func (b *bay) stopped(s carrier.Step) []judged {
	var out []judged
	for _, id := range []string{"strip.dig", "strip.drag", "strip.self", "strip.clear", "strip.supports"} {
		out = append(out, open(id, b.about().In(s.Name), "m", "the step cannot be made: "+s.Stop.Say(b.mm), result.Where{Cell: b.Cell.Number, Pour: b.Pour.Number, Step: s.Name, Frame: b.Name()}))
	}
	return out
}

func (b *bay) digCheck(s carrier.Step, r stripped) judged {
	lean, leaning := b.leanDown(r.k)
	if leaning && b.beyondSight(lean, 0) {
		return b.unseen("strip.dig", b.about().In(s.Name), lean, s.Name)
	}
	var list []candidate
	for i := range r.measures {
		m := &r.measures[i]
		for z, zone := range culvert.Zones {
			if !m.any[z] || !concreteZone(zone) {
				continue
			}
			near := m.at(z)
			if near.held.Lower < far {
				held := b.digCandidate(s, m, zone, near.held)
				held.held = true
				list = append(list, held)
			}
			if near.free.Lower < far {
				free := b.digCandidate(s, m, zone, near.free)
				if leaning && leans(b.Carrier.Parts[m.part], zone) {
					free = b.leaning(free, lean, b.leanOff(lean, s.Path, m, near.free, near.free.Lower, b.releasedFrom(r.k, z)), 0)
				}
				list = append(list, free)
			}
		}
	}
	c := entry("strip.dig", b.about().In(s.Name), list, b.limits.of("strip.dig"), result.Min, "no part meets concrete in this step")
	return b.withFirst(c, s, r.measures, func(m *measure, z int) []sweep.Bracket { return []sweep.Bracket{m.at(z).held, m.at(z).free} })
}

func (b *bay) digCandidate(s carrier.Step, m *measure, zone culvert.Zone, v sweep.Bracket) candidate {
	part := m.part
	tell := func() (result.Where, string) {
		text := fmt.Sprintf("%s stays %s from the %s", b.label(part), b.said(bracketOf(v)), zone.Words())
		if v.Upper < -contactTolerance {
			text = fmt.Sprintf("%s digs %s into the %s", b.label(part), b.mm(-v.Upper), zone.Words())
		}
		return b.where(s.Name, part, string(zone), v), text
	}
	return candidate{value: bracketOf(v), tell: tell, part: part, against: v.Against, alike: m.alike, zone: zone}
}

// withFirst adds to a failed check where its part first touches.
func (b *bay) withFirst(c judged, s carrier.Step, measures []measure, of func(*measure, int) []sweep.Bracket) judged {
	if c.Verdict != result.Fail {
		return c
	}
	for i := range measures {
		m := &measures[i]
		if b.Carrier.Parts[m.part].Mark != c.Where.Part {
			continue
		}
		for z, zone := range culvert.Zones {
			for _, v := range of(m, z) {
				if string(zone) == c.Where.Zone && v.Against >= 0 && v.Upper < -contactTolerance {
					c.Where.First = b.first(s, m.part, b.stripped.parts[v.Against], contactTolerance)
				}
			}
		}
	}
	return c
}

func (b *bay) dragCheck(s carrier.Step, r stripped) judged {
	var list []candidate
	for _, d := range facesFirst(r.drags) {
		zone := b.stripped.solids[d.solid].Zone
		kind := "an edge"
		if d.travel.Face {
			kind = "a face"
		}
		text := fmt.Sprintf("%s leaves the %s without sliding on it", b.label(d.part), zone.Words())
		if d.travel.Upper > 0 {
			text = fmt.Sprintf("%s of %s slides %s on the %s before it comes off", kind, b.label(d.part), b.mm(d.travel.Upper), zone.Words())
		}
		list = append(list, candidate{value: result.Between(d.travel.Lower, d.travel.Upper), text: text,
			where: b.where(s.Name, d.part, string(zone), nothing())})
	}
	return entry("strip.drag", b.about().In(s.Name), list, b.limits.of("strip.drag"), result.Max, "nothing that touches concrete moves in this step")
}

// facesFirst puts sliding faces before edges: of two that slide alike the face
// is the one to name.
func facesFirst(list []dragMeasure) []dragMeasure {
	var faces, edges []dragMeasure
	for _, d := range list {
		if d.travel.Face {
			faces = append(faces, d)
			continue
		}
		edges = append(edges, d)
	}
	return append(faces, edges...)
}

// releaseChecks are the release gaps of a step, zone by zone: everything that
// is not, or no longer, in contact by design.
func (b *bay) releaseChecks(s carrier.Step, r stripped) []judged {
	var out []judged
	for z, zone := range culvert.Zones {
		if !concreteZone(zone) {
			continue
		}
		var list []candidate
		for i := range r.measures {
			m := &r.measures[i]
			if v := m.at(z).free; m.any[z] && v.Lower < far {
				list = append(list, b.releaseCandidate(s, m, zone, v))
			}
		}
		c := entry("strip.clear", b.about().In(s.Name).At(zone), list, b.limits.of("strip.release"), result.Min, "no part that has been released comes near the "+zone.Words())
		out = append(out, c)
	}
	return out
}

func (b *bay) releaseCandidate(s carrier.Step, m *measure, zone culvert.Zone, v sweep.Bracket) candidate {
	part := m.part
	lag := b.lag(s, part)
	tell := func() (result.Where, string) {
		return b.where(s.Name, part, string(zone), v), b.keeps(part, v, "the "+zone.Words(), lag)
	}
	return candidate{value: bracketOf(v), allowance: lag, worst: lag, tell: tell, part: part, against: v.Against, alike: m.alike, zone: zone}
}

// keeps says how far a part stays from something, or how deep it runs in.
func (b *bay) keeps(part int, v sweep.Bracket, from string, lag float64) string {
	text := fmt.Sprintf("%s keeps %s from %s", b.label(part), b.said(bracketOf(v)), from)
	if v.Upper < -contactTolerance {
		text = fmt.Sprintf("%s runs %s into %s", b.label(part), b.mm(-v.Upper), from)
	}
	if lag > 0 {
		text += fmt.Sprintf("; %s are taken off for adjusters out of step", b.mm(lag))
	}
	return text
}

// supportsChecks are the gaps to hangers and whatever else stays, told apart by
// what it is: plates, nuts.
func (b *bay) supportsChecks(s carrier.Step, r stripped) []judged {
	kinds := b.keptKinds()
	if len(kinds) == 0 {
		return []judged{entry("strip.supports", b.about().In(s.Name), nil, b.limits.of("strip.supports"), result.Min, "nothing stays in place")}
	}
	var out []judged
	for _, kind := range kinds {
		out = append(out, b.supportsCheck(s, r, kind))
	}
	return out
}

func (b *bay) supportsCheck(s carrier.Step, r stripped, kind string) judged {
	limit := b.limits.of("strip.supports")
	lean, leaning := b.leanDown(r.k)
	if leaning && b.beyondSight(lean, limit.Value) {
		return b.unseen("strip.supports", b.about().In(s.Name).As("hanger "+kind), lean, s.Name)
	}
	var list []candidate
	for i := range r.measures {
		m := &r.measures[i]
		for _, k := range r.kept[m.part] {
			if kindOf(b.stripped.solids[k.solid]) != kind || k.value.Lower >= far {
				continue
			}
			c := b.releaseCandidate(s, m, culvert.Hanger, k.value)
			c.held = k.held
			part, lag := m.part, c.allowance
			c.tell = func() (result.Where, string) {
				return b.where(s.Name, part, string(culvert.Hanger), k.value), b.keeps(part, k.value, b.stripped.solids[k.solid].Name, lag)
			}
			if k.held && k.value.Lower >= -contactTolerance {
				continue // touches by design and does not dig
			}
			if pour := b.stripped.solids[k.solid].Pour; pour != b.Pour.Number {
				c.remedy = b.backUnder(pour)
			}
			if leaning && !k.held {
				c = b.leaning(c, lean, b.leanOff(lean, s.Path, m, k.value, k.value.Lower-lag, b.keptFree(r.k, kind)), limit.Value)
			}
			list = append(list, c)
		}
	}
	c := entry("strip.supports", b.about().In(s.Name).As("hanger "+kind), list, limit, result.Min, "nothing comes near a hanger "+kind)
	return b.withFirst(c, s, r.measures, func(m *measure, z int) []sweep.Bracket {
		var out []sweep.Bracket
		for _, k := range r.kept[m.part] {
			if kindOf(b.stripped.solids[k.solid]) == kind {
				out = append(out, k.value)
			}
		}
		return out
	})
}

// travelChecks are the clearances when collapsed, zone by zone, with the
// tolerance allowance taken off.
func (b *bay) travelChecks(s carrier.Step, r stripped) []judged {
	var out []judged
	for z, zone := range culvert.Zones {
		limit := b.limits.travel(zone)
		a := b.tol.Of(zone)
		var list []candidate
		anything := false
		for i := range r.measures {
			m := &r.measures[i]
			v, ok := b.collapsed(s, m, z)
			anything = anything || m.any[z]
			if !ok || v.Lower >= far {
				continue
			}
			part := m.part
			tilt := b.tilt(s.Path, part, zone, v)
			tell := func() (result.Where, string) {
				w := b.where(s.Name, part, string(zone), v)
				w.At = 1
				return w, fmt.Sprintf("%s stands %s from the %s; %s", b.label(part), b.said(bracketOf(v)), zone.Words(), b.takenOff(a, tilt))
			}
			list = append(list, candidate{value: bracketOf(v), allowance: a.RootSumSquare + tilt, worst: a.WorstCase + tilt, tell: tell, part: part, against: v.Against, alike: m.alike, zone: zone})
		}
		if !anything {
			continue
		}
		out = append(out, entry("strip.clear", b.about().At(zone).As(result.Collapsed), list, limit, result.Min, fmt.Sprintf("every part stands more than %s from the %s", b.mm(far), zone.Words())))
	}
	return out
}

// takenOff says what comes off a travel clearance.
func (b *bay) takenOff(a allow.Allowance, tilt float64) string {
	text := fmt.Sprintf("%s are taken off for tolerances (%s if all add up)", b.mm(a.RootSumSquare), b.mm(a.WorstCase))
	if tilt > 0 {
		text += fmt.Sprintf(" and %s for the crossfall of %.2f %%", b.mm(tilt), 100*b.crossfall)
	}
	return text
}
