package measure

import (
	"math"
	"slices"

	"boxwalk/clearance/sweep"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/motion"
)

// planGoverning queues what may govern. Bays that go through a step on the same path
// are measured one after another, so that what one measured serves those after it and
// the answer does not depend on who was first.
func planGoverning(w *workers, m *memo, s *model.Study, reports []*Report, a Ask) {
	type bays struct {
		known *known
		each  []func(*known)
	}
	on := map[*motion.Path]*bays{}
	queue := func(path *motion.Path, do func(*known)) {
		g := on[path]
		if g == nil {
			g = &bays{known: &known{memo: m, seen: map[string]*seen{}}}
			on[path] = g
			w.Add(func() {
				for _, do := range g.each {
					do(g.known)
				}
			})
		}
		g.each = append(g.each, do)
	}
	for _, i := range s.Reported() {
		r := reports[i]
		shapes := m.shapesOf(r.Bay.Carrier)
		around, before := m.profiles(r.Bay.Stripped.Solids), m.profiles(r.Bay.Before.Solids)
		for k, step := range r.Bay.Steps {
			if a.strips(r.Bay, k) {
				queue(step.Path, func(known *known) { r.governStep(k, known, shapes, around) })
				w.after(func() { r.Strip[k].Selves = r.kin.selvesOf(r.Bay, k) })
			}
		}
		for k, step := range r.Bay.Raising {
			if a.Raising && step.Stop == nil {
				queue(step.Path, func(known *known) { r.governRaising(k, known, shapes, before) })
			}
		}
		if r.Rolling != nil {
			w.Add(r.governAdvance)
		}
	}
}

// governAdvance measures what may govern the advance: what must clear each zone, and
// what rolls on one.
func (r *Report) governAdvance() {
	b, adv := r.Bay, r.Rolling
	parts := b.presentAfterAll()
	if len(adv.Segments) == 0 {
		for _, p := range parts {
			r.Rolled = append(r.Rolled, Gaps{Part: p})
		}
		return
	}
	found := map[int]*Gaps{}
	keep := func(p int, g ZoneGaps) {
		m := found[p]
		if m == nil {
			m = &Gaps{Part: p, Any: adv.any()}
			found[p] = m
		}
		m.also(Gaps{Any: m.Any, Near: []ZoneGaps{g}})
	}
	takes := b.rollTakes(adv, parts)
	for _, z := range adv.zonesOf(func(culvert.Zone) bool { return true }) {
		var list []candidate
		for _, p := range parts {
			free, held := adv.lowest(b, p, z)
			if free < Far {
				list = append(list, candidate{p, free})
			}
			if held < Far {
				keep(p, ZoneGaps{Zone: z, MustClear: Nothing(), MayTouch: b.rolledBy(adv, p, z, mover.touch, true), End: Nothing()})
			}
		}
		slices.SortStableFunc(list, func(x, y candidate) int { return compare(x.low-takes[x.part], y.low-takes[y.part]) })
		u := math.Inf(1)
		for _, c := range list {
			floor := u + takes[c.part] + blur
			if c.low >= floor {
				break
			}
			if floor < Far && b.rollsClear(adv, c.part, z, floor) {
				continue
			}
			v := b.rolledBy(adv, c.part, z, mover.clear, false)
			keep(c.part, ZoneGaps{Zone: z, MustClear: v, MayTouch: Nothing(), End: Nothing()})
			u = math.Min(u, v.Upper)
		}
	}
	for _, p := range parts {
		if m := found[p]; m != nil {
			r.Rolled = append(r.Rolled, *m)
		}
	}
	if len(r.Rolled) == 0 && len(parts) > 0 {
		r.Rolled = append(r.Rolled, Gaps{Part: parts[0], Any: adv.any()})
	}
}

// lowest is how near a part's boxes come to a zone on the way: to what it may not
// touch, and to what it rolls on.
func (r *Advance) lowest(b *Bay, part, z int) (free, held float64) {
	low := [2]float64{Far, Far}
	for _, s := range r.Segments {
		for _, k := range r.zones[z] {
			most := max(low[0], low[1])
			if beyond(&s.boxes[part], &r.boxes[k], most) {
				continue
			}
			g := apart(&s.boxes[part], &r.boxes[k])
			if g >= most {
				continue
			}
			kind := 0
			if b.rollsOn(r, part, k) {
				kind = 1
			}
			low[kind] = min(low[kind], g)
		}
	}
	return low[0], low[1]
}

// rolledBy measures one part against one zone over the advance: what it rolls on, or
// what it may not touch.
func (b *Bay) rolledBy(r *Advance, part, z int, search func(mover, met) sweep.Bracket, on bool) sweep.Bracket {
	out := Nothing()
	for i, s := range r.Segments {
		v := mover{motion: s.Motion, moving: true, part: r.Parts[part], around: s.boxes[part]}
		free, held := v.near(&r.Obstacles, z, func(solid int) bool { return b.rollsOn(r, part, solid) })
		if len(free.at)+len(held.at) == 0 {
			continue
		}
		if on {
			free = held
		}
		one := search(v, free)
		one.At = s.From + one.At*(s.to-s.From)
		if i == 0 {
			out = one
			continue
		}
		out = lesser(out, one)
	}
	return out
}

// rollsClear tells whether a part is proved to stay so far from what it may not touch
// of a zone, all the way.
func (b *Bay) rollsClear(r *Advance, part, z int, floor float64) bool {
	for _, s := range r.Segments {
		var near []sweep.Part
		for _, k := range r.zones[z] {
			if apart(&s.boxes[part], &r.boxes[k]) < floor && !b.rollsOn(r, part, k) {
				near = append(near, r.Obstacles.Parts[k])
			}
		}
		if len(near) > 0 && !sweep.Clears(s.Motion, sweep.Ground, r.Parts[part], near, 0, 1, floor) {
			return false
		}
	}
	return true
}

// rollTakes is, by part, more than RollLoss can take off a gap of it: an arm square to
// a direction is not longer than the point is far off, seen along the cell.
func (b *Bay) rollTakes(r *Advance, parts []int) []float64 {
	out := make([]float64, len(r.Parts))
	for _, p := range parts {
		far := armOver(boxOf(r.Parts[p]))
		start := armOver(BoxAt(r.Parts[p], r.Segments[0].Motion.Pose(sweep.Ground, r.Parts[p].Body, 0)))
		out[p] = (math.Abs(b.Crossfall)*start+r.cross*(far+b.aside())+r.high)*(1+1e-12) + b.betweenRests(r, p)
	}
	return out
}

// selvesGoverning are the gaps of the carrier's parts to each other that may govern
// step k.
func (b *Bay) selvesGoverning(k int, cohorts []*cohort) []SelfGaps {
	s := b.Steps[k]
	takes := b.lagsBetween(s)
	clear, seam := math.Inf(1), math.Inf(1)
	out := []SelfGaps{}
	for _, c := range cohorts {
		if b.selfClears(s, c, clear, seam, takes) {
			continue
		}
		m := b.selfOf(k, c.part, c.meets, false)
		m.Alike = c.Alike
		out = append(out, m)
		clear, seam = math.Min(clear, m.MustClear.Upper), math.Min(seam, m.Seam.Upper)
	}
	return out
}

// selfClears tells whether a part is proved to stay so far from those behind it that
// neither gap governs.
func (b *Bay) selfClears(s carrier.Step, c *cohort, clear, seam float64, takes func(p, q int) float64) bool {
	for _, q := range c.meets {
		ref := b.Common(c.part, q)
		floor := clear + takes(c.part, q) + blur
		if b.Declared[[2]int{c.part, q}] == carrier.Seam {
			floor = seam + takes(c.part, q) + blur
		}
		end := 1.0
		if !s.Path.Moves(ref, b.Carrier.Parts[c.part].Body) && !s.Path.Moves(ref, b.Carrier.Parts[q].Body) {
			end = 0
		}
		if !(floor < Near) || !sweep.Clears(s.Path, ref, b.Parts[c.part], []sweep.Part{b.Parts[q]}, 0, end, floor) {
			return false
		}
	}
	return true
}

// lagsBetween is more than LagBetween for any parts.
func (b *Bay) lagsBetween(s carrier.Step) func(p, q int) float64 {
	boxes := b.bodies
	type pair struct {
		p, q  int
		sides culvert.Side
	}
	most := map[pair]float64{}
	return func(p, q int) float64 {
		one, other := b.Carrier.Parts[p], b.Carrier.Parts[q]
		key := pair{one.Body, other.Body, one.Side}
		if one.Side != other.Side {
			key.sides = culvert.Both
		}
		lag, ok := most[key]
		if !ok {
			lag = b.lagOver(s, b.Turned(s, key.sides), []int{key.p, key.q}, boxes)
			most[key] = lag
		}
		return lag
	}
}
