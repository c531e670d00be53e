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
	of      map[string]*representative
	contest sweep.Contest
}

// scopeOf a bay in a step.
func scopeOf(b *Bay, g *passage, in encounter, s carrier.Step, k *known) *scope {
	n := len(b.Parts)
	out := &scope{Bay: b, passage: g, in: in, path: s.Path, o: in.Obstacles, parts: g.firsts(b.Present(s)), known: k,
		used: map[*representative][]int{}, ofPart: map[int]*representative{}, keys: map[int]keyed{}, takes: make([]float64, n), there: make([]bool, n)}
	out.may = func(part, solid int) bool { return in.mark(part, solid) != 0 }
	for _, p := range out.parts {
		out.there[p] = true
	}
	k.contest.Set(s.Path, sweep.Ground, g.trees, 0, 1)
	return out
}

// governStep measures what may govern step k of the collapse.
func (r *Report) governStep(k int, known *known) {
	b, step := r.Bay, r.Bay.Steps[k]
	s := scopeOf(b, &r.down, r.stepping(k), step, known)
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

// nearby is a surface, and how a part is measured against it.
type nearby struct {
	surface
	take func(part int) sweep.Bracket
}

// surfaces are the zones of concrete: what must clear each, and what may touch any.
func (s *stripScope) surfaces() {
	for _, z := range s.o.zonesOf(ConcreteZone) {
		f, u := s.surfaceOf(z), math.Inf(1)
		clear := func(part int) sweep.Bracket { return s.clear(part, z) }
		s.govern(f, false, s.takes, &u, clear)
		s.govern(f, true, nil, &s.dig, func(part int) sweep.Bracket { return s.touch(part, z) })
		s.later = append(s.later, nearby{f, clear})
	}
}

// leftInPlace is what stays, told apart by kind. What may touch it matters where it digs.
func (s *stripScope) leftInPlace() {
	hangers := slices.Index(culvert.Zones[:], culvert.Hanger)
	for _, kind := range s.LeftKinds() {
		f, u := surface{zone: hangers, kind: kind}, math.Inf(1)
		for _, i := range s.o.zones[hangers] {
			if f.has(s.o, i) {
				f.solids = append(f.solids, i)
			}
		}
		clear := func(part int) sweep.Bracket { return s.left(part, kind, false) }
		s.govern(f, false, s.takes, &u, clear)
		s.digs(f, func(part int) { s.left(part, kind, true) })
		s.later = append(s.later, nearby{f, clear})
	}
}

// digs does something with the parts that may enter what they may touch.
func (s *scope) digs(f surface, do func(part int)) {
	found := s.contend(f, true, sweep.Terms{Best: -ContactTolerance, Given: true})
	s.each(found.List, f, true, func(int) float64 { return -ContactTolerance }, do)
}

// left is the gap of a part to what stays of a kind.
func (s *scope) left(part int, kind string, may bool) sweep.Bracket {
	f := s.of(part)
	f.once(aspect{what: 'l', kind: kind, may: may}, func() {
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
	early := slices.Sorted(maps.Keys(s.ofPart))
	for _, n := range s.later {
		for _, part := range early {
			allow(part, culvert.Zones[n.zone], n.take(part))
		}
	}
	reach := s.reaches(unit)
	takes := make([]float64, len(s.Parts))
	for _, part := range s.parts {
		takes[part] = reach(part, d)
	}
	for _, n := range s.later {
		zone := culvert.Zones[n.zone]
		found := s.contend(n.surface, false, sweep.Terms{Takes: takes, Beyond: blur, Given: true})
		s.each(found.List, n.surface, false, func(part int) float64 {
			if _, known := slices.BinarySearch(early, part); known || !Leans(s.Carrier.Parts[part], zone) {
				return math.Inf(-1)
			}
			return reach(part, d) + blur
		}, func(part int) { allow(part, zone, n.take(part)) })
	}
}

// collapsed are the parts that may come nearest to a zone when the last step is done.
func (s *stripScope) collapsed() {
	contest := &s.known.contest
	contest.Set(s.path, sweep.Ground, s.trees, 1, 1)
	tilt, any := s.tilts(), s.o.any()
	for z := range culvert.Zones {
		found := contest.Against(s.o.trees[z], sweep.Terms{Takes: tilt, Beyond: blur, Best: math.Inf(1), Cap: Far,
			Skip: func(part, solid int) bool {
				_, counts := s.Collapsed(s.step, &Gaps{Part: part, Any: any}, z)
				return !s.there[part] || !counts
			}})
		u := found.Best
		for _, c := range found.List {
			if c.Low < u+tilt[c.Part]+blur {
				u = math.Min(u, s.end(c.Part, z).Upper)
			}
		}
	}
}

// tilts are more than an invert that leans may take off each part at the step's end.
func (s *stripScope) tilts() []float64 {
	out := make([]float64, len(s.Parts))
	if s.Crossfall == 0 {
		return out
	}
	for _, p := range s.parts {
		var arm float64
		for _, at := range [2]float64{0, 1} {
			arm = math.Max(arm, armOver(BoxAt(s.Parts[p], s.path.Pose(motion.Ground, s.Carrier.Parts[p].Body, at))))
		}
		out[p] = math.Abs(s.Crossfall) * arm
	}
	return out
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
			f.once(aspect{what: 'd'}, func() { f.drags = f.bay.drags(s.step, s.k, f.part) })
		}
	}
	groups := s.gaps()
	done := StepGaps{K: s.k, Parts: make([]Gaps, 0, len(groups)), Left: map[int][]LeftGap{}}
	for _, c := range groups {
		m, drags, left := c.as(s.Bay, s.o)
		done.Parts, done.Drags, done.Left[c.part] = append(done.Parts, m), append(done.Drags, drags...), left
	}
	return done
}

// governRaising measures what may govern step k of raising.
func (r *Report) governRaising(k int, known *known) {
	b, step := r.Bay, r.Bay.Raising[k]
	s := scopeOf(b, &r.up, r.rising(k), step, known)
	s.lags(step)
	if l, leaning := b.LeanUp(k); leaning {
		s.leans(l)
	}
	u := math.Inf(1)
	for _, z := range s.o.zonesOf(func(culvert.Zone) bool { return true }) {
		f := s.surfaceOf(z)
		s.govern(f, false, s.takes, &u, func(part int) sweep.Bracket { return s.clear(part, z) })
		s.digs(f, func(part int) { s.touch(part, z) })
	}
	for _, c := range s.gaps() {
		m, _, _ := c.as(b, s.o)
		r.Raising[k] = append(r.Raising[k], m)
	}
}
