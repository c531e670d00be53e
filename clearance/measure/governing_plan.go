package measure

import (
	"cmp"
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
func planGoverning(w *workers, s *model.Study, reports []*Report, a Ask) {
	type bays struct {
		known *known
		each  []func(*known)
	}
	on := map[*motion.Path]*bays{}
	queue := func(path *motion.Path, do func(*known)) {
		g := on[path]
		if g == nil {
			g = &bays{known: &known{of: map[string]*representative{}}}
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
		for k, step := range r.Bay.Steps {
			if a.strips(r.Bay, k) {
				queue(step.Path, func(known *known) { r.governStep(k, known) })
				w.after(func() { r.Strip[k].Selves = r.carriers.selvesOf(r.Bay, k) })
			}
		}
		for k, step := range r.Bay.Raising {
			if a.Raising && step.Stop == nil {
				queue(step.Path, func(known *known) { r.governRaising(k, known) })
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
	there := make([]bool, len(b.Parts))
	for _, p := range parts {
		there[p] = true
		for _, z := range adv.zonesOf(func(culvert.Zone) bool { return true }) {
			if b.rolls(p) && adv.onIt(b, p, z) {
				keep(p, ZoneGaps{Zone: z, MustClear: Nothing(), MayTouch: b.rolledBy(adv, p, z, mover.touch, true), End: Nothing()})
			}
		}
	}
	takes := b.rollTakes(adv, parts)
	lists, least := adv.contend(b, there, takes)
	for z, list := range lists {
		u, done := least[z], map[int]bool{}
		for _, c := range list {
			floor := u + takes[c.Part] + blur
			if done[c.Part] || c.Low >= floor {
				continue
			}
			if done[c.Part] = true; !(c.Seen < floor) && floor < Far && b.rollsClear(adv, c.Part, z, floor) {
				continue
			}
			v := b.rolledBy(adv, c.Part, z, mover.clear, false)
			keep(c.Part, ZoneGaps{Zone: z, MustClear: v, MayTouch: Nothing(), End: Nothing()})
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

// contend finds out which parts may govern each zone on the way, with what its least is
// at most.
func (r *Advance) contend(b *Bay, there []bool, takes []float64) (lists [8][]sweep.Contender, least [8]float64) {
	var c sweep.Contest
	trees := inTrees(r.Parts)
	for z := range least {
		least[z] = math.Inf(1)
	}
	for _, s := range r.Segments {
		c.Set(s.Motion, sweep.Ground, trees, 0, 1)
		for z := range lists {
			found := c.Against(r.trees[z], sweep.Terms{Takes: takes, Beyond: blur, Best: least[z], Cap: Far,
				Skip: func(part, solid int) bool { return !there[part] || b.rollsOn(r, part, solid) }})
			lists[z], least[z] = append(lists[z], found.List...), found.Best
		}
	}
	for _, list := range lists {
		slices.SortStableFunc(list, func(x, y sweep.Contender) int {
			return cmp.Or(cmp.Compare(x.Low-takes[x.Part], y.Low-takes[y.Part]), cmp.Compare(x.Part, y.Part))
		})
	}
	return lists, least
}

// onIt tells whether a wheel comes near a zone on which it rolls.
func (r *Advance) onIt(b *Bay, part, z int) bool {
	for _, s := range r.Segments {
		around := s.around(part)
		for _, k := range r.zones[z] {
			if b.rollsOn(r, part, k) && around.Gap(r.boxes[k]) < Far {
				return true
			}
		}
	}
	return false
}

// rolledBy measures one part against one zone over the advance: what it rolls on, or
// what it may not touch.
func (b *Bay) rolledBy(r *Advance, part, z int, search func(mover, met) sweep.Bracket, on bool) sweep.Bracket {
	out := Nothing()
	for i, s := range r.Segments {
		v := mover{motion: s.Motion, moving: true, part: r.Parts[part], around: s.around(part)}
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
		around := s.around(part)
		for _, k := range r.zones[z] {
			if apart(&around, &r.boxes[k]) < floor && !b.rollsOn(r, part, k) {
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
func (b *Bay) selvesGoverning(k int, groups []*duplicates) []SelfGaps {
	s := b.Steps[k]
	takes := b.lagsBetween(s)
	clear, seam := math.Inf(1), math.Inf(1)
	out := []SelfGaps{}
	for _, c := range groups {
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
func (b *Bay) selfClears(s carrier.Step, c *duplicates, clear, seam float64, takes func(p, q int) float64) bool {
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
