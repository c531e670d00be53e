package measure

import (
	"maps"
	"math"
	"slices"

	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// known is what was measured in one step, over the bays that go through it.
type known struct {
	*memo
	seen map[string]*seen
}

// scopeOf a bay in a step.
func (r *Report) scopeOf(s carrier.Step, k *known, shapes []int, in meeting, boxes []geom.Box) *scope {
	b := r.Bay
	out := &scope{Bay: b, path: s.Path, o: in.Obstacles, parts: b.Present(s), may: in.MayTouch, known: k, used: map[*seen][]int{}, ofPart: map[int]*seen{}, keys: map[int]keyed{}, takes: make([]float64, len(b.Parts))}
	out.shape = func(part int) int { return shapes[part] }
	by := r.kin.shift(b)
	out.around = make([]geom.Box, len(boxes))
	for i, box := range boxes {
		out.around[i] = box.Moved(by)
	}
	out.in = in
	out.in.box = func(part int) geom.Box { return out.around[part] }
	return out
}

// governStep measures what may govern step k of the collapse.
func (r *Report) governStep(k int, known *known, shapes []int, profiles []profile) {
	b, step := r.Bay, r.Bay.Steps[k]
	s := r.scopeOf(step, known, shapes, meeting{path: step.Path, kind: 's', Obstacles: &b.Stripped, profiles: profiles,
		MayTouch: func(part, solid int) bool { return b.MayTouch(&b.Stripped, part, solid, k) }}, r.kin.boxes[k])
	l, leaning := b.LeanDown(k)
	s.lags(step)
	if leaning {
		s.leans(l)
	}
	strip := stripScope{scope: s, k: k, step: step, dig: math.Inf(1)}
	strip.surfaces()
	strip.leftInPlace()
	if leaning {
		strip.untilSafe(b.Bearing(b.LeanOfJacks(1), k))
	}
	if k == len(b.Steps)-1 {
		strip.collapsed()
	}
	r.Strip[k] = strip.report()
}

// stripScope is a scope in a step of the collapse.
type stripScope struct {
	*scope
	k     int
	step  carrier.Step
	dig   float64  // least upper end of what may touch
	later []nearby // what need not be measured for its gap alone
}

// nearby are parts against a surface, and how one is measured.
type nearby struct {
	list   []candidate
	solids []int
	zone   culvert.Zone
	take   func(part int) sweep.Bracket
}

// surfaces are the zones of concrete: what must clear each, and what may touch any.
func (s *stripScope) surfaces() {
	for _, z := range s.o.zonesOf(ConcreteZone) {
		solids := s.o.zones[z]
		free, held := s.candidates(solids)
		u := math.Inf(1)
		clear := func(part int) sweep.Bracket { return s.clear(part, z) }
		s.govern(free, s.taken, solids, false, &u, clear)
		s.govern(held, nothingTaken, solids, true, &s.dig, func(part int) sweep.Bracket { return s.touch(part, z) })
		s.later = append(s.later, nearby{free, solids, culvert.Zones[z], clear})
	}
}

// leftInPlace is what stays, told apart by kind. What may touch it matters where it digs.
func (s *stripScope) leftInPlace() {
	for _, kind := range s.LeftKinds() {
		var solids []int
		for i, c := range s.o.Solids {
			if c.Zone == culvert.Hanger && KindOf(c) == kind {
				solids = append(solids, i)
			}
		}
		free, held := s.candidates(solids)
		u := math.Inf(1)
		clear := func(part int) sweep.Bracket { return s.left(part, kind, false) }
		s.govern(free, s.taken, solids, false, &u, clear)
		for _, c := range held {
			if !s.clears(c.part, solids, true, -ContactTolerance) {
				s.left(c.part, kind, true)
			}
		}
		s.later = append(s.later, nearby{free, solids, culvert.Hanger, clear})
	}
}

// left is the gap of a part to what stays of a kind.
func (s *scope) left(part int, kind string, may bool) sweep.Bracket {
	f := s.of(part)
	f.once(asked{what: 'l', kind: kind, may: may}, func() {
		if g, ok := f.scope.leftBy(f.scope.in_(f.part), f.scope.o, kind, may, func(k int) bool { return f.scope.may(f.part, k) }); ok {
			f.Left = append(f.Left, g)
		}
	})
	for _, g := range f.Left {
		if g.MayTouch == may && KindOf(f.scope.o.Solids[g.Solid]) == kind {
			return g.Value
		}
	}
	return Nothing()
}

// untilSafe measures besides what may govern the safe difference between jacks, as
// SafeIn works it out. That is not above d, the least of what those measured allow; what
// stays farther away than a difference of d moves it does not lessen it.
func (s *stripScope) untilSafe(unit Lean) {
	d := Far / math.Max(s.farthest(unit), 1e-9)
	allow := func(part int, zone culvert.Zone, v sweep.Bracket) {
		if v.Lower > 0 && v.Lower < Far && Leans(s.Carrier.Parts[part], zone) {
			d = math.Min(d, start*v.Lower/math.Max(s.leant(unit.Toward(v.N), s.path, part, v.N).Toward, 1e-9))
		}
	}
	each := func(f func(n nearby, c candidate)) {
		for _, n := range s.later {
			for _, c := range n.list {
				f(n, c)
			}
		}
	}
	early := maps.Clone(s.ofPart)
	each(func(n nearby, c candidate) {
		if early[c.part] != nil {
			allow(c.part, n.zone, n.take(c.part))
		}
	})
	reach := s.reaches(unit)
	each(func(n nearby, c candidate) {
		floor := reach(c.part, d) + blur
		if early[c.part] != nil || c.low >= floor || !Leans(s.Carrier.Parts[c.part], n.zone) || s.clears(c.part, n.solids, false, floor) {
			return
		}
		allow(c.part, n.zone, n.take(c.part))
	})
}

// collapsed are the parts that may come nearest to a zone when the last step is done.
func (s *stripScope) collapsed() {
	at := make([]geom.Box, len(s.around))
	arm := make([]float64, len(s.around))
	for _, p := range s.parts {
		body := s.Carrier.Parts[p].Body
		at[p] = BoxAt(s.Parts[p], s.path.Pose(motion.Ground, body, 1))
		before := BoxAt(s.Parts[p], s.path.Pose(motion.Ground, body, 0))
		arm[p] = math.Abs(s.Crossfall) * math.Max(armOver(at[p]), armOver(before))
	}
	for z := range culvert.Zones {
		var list []candidate
		for _, p := range s.parts {
			if _, counts := s.Collapsed(s.step, &Gaps{Part: p, Any: s.o.any()}, z); !counts {
				continue
			}
			low := Far
			for _, k := range s.o.zones[z] {
				low = min(low, apart(&at[p], &s.o.boxes[k]))
			}
			if low < Far {
				list = append(list, candidate{p, low})
			}
		}
		s.nearestAt(list, z, arm)
	}
}

// nearestAt measures those at the step's end that may govern; tilt is what an invert
// that leans may take off.
func (s *stripScope) nearestAt(list []candidate, z int, tilt []float64) {
	slices.SortStableFunc(list, func(a, b candidate) int { return compare(a.low-tilt[a.part], b.low-tilt[b.part]) })
	u := math.Inf(1)
	for _, c := range list {
		floor := u + tilt[c.part] + blur
		if c.low >= floor {
			break
		}
		var near []sweep.Part
		for _, k := range s.o.zones[z] {
			near = append(near, s.o.Parts[k])
		}
		if floor < Far && sweep.Clears(s.path, sweep.Ground, s.Parts[c.part], near, 1, 1, floor) {
			continue
		}
		u = math.Min(u, s.end(c.part, z).Upper)
	}
}

// armOver is more than any point of a box has for an arm about the middle of the feet.
func armOver(b geom.Box) float64 {
	return math.Hypot(math.Max(math.Abs(b.Min[1]), math.Abs(b.Max[1])), math.Max(math.Abs(b.Min[2]), math.Abs(b.Max[2])))
}

// report is what was measured, with what slides on what it touches.
func (s *stripScope) report() StepGaps {
	for _, p := range s.parts {
		if s.slides(s.k, p) {
			f := s.of(p)
			f.once(asked{what: 'd'}, func() { f.drags = f.bay.drags(s.step, s.k, f.part) })
		}
	}
	cohorts := s.gaps()
	done := StepGaps{K: s.k, Parts: make([]Gaps, 0, len(cohorts)), Left: map[int][]LeftGap{}}
	for _, c := range cohorts {
		m, drags, left := c.as(s.Bay, s.o)
		done.Parts, done.Drags, done.Left[c.part] = append(done.Parts, m), append(done.Drags, drags...), left
	}
	return done
}

// governRaising measures what may govern step k of raising.
func (r *Report) governRaising(k int, known *known, shapes []int, profiles []profile) {
	b, step := r.Bay, r.Bay.Raising[k]
	s := r.scopeOf(step, known, shapes, meeting{path: step.Path, kind: 'r', Obstacles: &b.Before, profiles: profiles,
		MayTouch: func(part, solid int) bool { return b.lands(part, solid, k) }}, r.kin.raising[k])
	s.lags(step)
	if l, leaning := b.LeanUp(k); leaning {
		s.leans(l)
	}
	u := math.Inf(1)
	for _, z := range s.o.zonesOf(func(culvert.Zone) bool { return true }) {
		solids := s.o.zones[z]
		free, held := s.candidates(solids)
		s.govern(free, s.taken, solids, false, &u, func(part int) sweep.Bracket { return s.clear(part, z) })
		for _, c := range held {
			if !s.clears(c.part, solids, true, -ContactTolerance) {
				s.touch(c.part, z)
			}
		}
	}
	for _, c := range s.gaps() {
		m, _, _ := c.as(b, s.o)
		r.Raising[k] = append(r.Raising[k], m)
	}
}
