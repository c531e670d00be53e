package measure

import (
	"math"
	"slices"

	"boxwalk/clearance/sweep"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// A verdict needs the least of what is left over each surface, not every part's
// own number. Where only that is asked for, parts and surface contend in trees of boxes
// (sweep.Contest), and a part is left out as soon as it is proved that it cannot
// govern: let u be the least upper end measured so far against the surface, and t
// more than can be taken off a gap of a part. What is left of the part measured is
// at most u, for nothing is ever added to a gap; a part that stays u + t away has
// more left. So a part is left out that stays
//
//	u + t + blur
//
// away: by boxes, or by planes. blur is by how much a search may
// tell less than it is, so that whatever might have been told to govern is measured
// in full, in the same way, as where every part is asked for.

// blur is the width that a bracket is searched to, and a tenth more for rounding and
// for gaps that count as alike.
const blur = 1.1 * sweep.DefaultEpsilon

// scope is a bay in one step, with what it takes to measure in it. Of parts that are
// alike all the way the first stands for all.
type scope struct {
	*Bay
	*passage
	in     encounter
	path   *motion.Path
	o      *Obstacles
	parts  []int
	may    func(part, solid int) bool
	there  []bool    // by part
	takes  []float64 // by part: more than can be taken off a gap of it, or of one alike
	known  *known
	used   map[*representative][]int // the parts measured, by what they measure
	ofPart map[int]*representative
	keys   map[int]keyed
}

// apart is how far two boxes are apart, which bounds the gap of what is in them; -Inf
// where they meet, for then nothing is known of it.
func apart(a, b *geom.Box) float64 {
	if g := a.Gap(*b); g > 0 {
		return g
	}
	return math.Inf(-1)
}

// beyond tells whether two boxes are so far apart along one axis already.
func beyond(a, b *geom.Box, most float64) bool {
	for i := range a.Min {
		if b.Min[i]-a.Max[i] >= most || a.Min[i]-b.Max[i] >= most {
			return true
		}
	}
	return false
}

// surface is what is told apart: solids of a zone, or some of them.
type surface struct {
	zone   int
	solids []int
	kind   string // of what stays in place; empty for a zone of concrete
}

// surfaceOf is all of a zone.
func (s *scope) surfaceOf(z int) surface { return surface{zone: z, solids: s.o.zones[z]} }

// has tells of a solid of the zone whether it belongs to the surface.
func (f surface) has(o *Obstacles, solid int) bool {
	return f.kind == "" || KindOf(o.Solids[solid]) == f.kind
}

// contend finds out which parts may govern against what they may touch of a surface, or
// what they may not.
func (s *scope) contend(f surface, may bool, o sweep.Terms) sweep.Outcome {
	if o.Cap = Far; may {
		return s.known.contest.Among(s.touching(f), o)
	}
	o.Skip = func(part, solid int) bool {
		return !s.there[part] || s.may(part, solid) || !f.has(s.o, solid)
	}
	return s.known.contest.Against(s.o.trees[f.zone], o)
}

// touching are the parts that may touch a surface, body by body, with what they may touch.
func (s *scope) touching(f surface) []sweep.Pair {
	var out []sweep.Pair
	for _, k := range f.solids {
		for _, p := range s.parts {
			if (len(s.o.touches[p]) > 0 || onFeet(s.Carrier.Parts[p])) && s.may(p, k) {
				out = append(out, sweep.Pair{Part: p, Other: k, A: s.Parts[p], B: s.o.Parts[k]})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b sweep.Pair) int { return a.A.Body - b.A.Body })
	return out
}

// govern measures the parts that may govern; u is the least upper end so far, of this
// and other surfaces that are judged together.
func (s *scope) govern(f surface, may bool, takes []float64, u *float64, take func(part int) sweep.Bracket) {
	found := s.contend(f, may, sweep.Terms{Takes: takes, Beyond: blur, Best: *u})
	*u = found.Best
	s.each(found.List, f, may, func(part int) float64 {
		if takes == nil {
			return *u + blur
		}
		return *u + takes[part] + blur
	}, func(part int) { *u = math.Min(*u, take(part).Upper) })
}

// measured tells whether a part, or one like it, was measured against a surface.
func (s *scope) measured(part int, f surface, may bool) bool {
	what := aspect{what: 'c', zone: f.zone}
	switch {
	case f.kind != "":
		what = aspect{what: 'l', kind: f.kind, may: may}
	case may:
		what.what = 't'
	}
	like := s.known.of[s.keyOf(part).key]
	return like != nil && like.done[what]
}

// each does something with the parts that contend and are not proved to stay as far away
// as it takes not to count, one after another.
func (s *scope) each(list []sweep.Contender, f surface, may bool, floor func(part int) float64, do func(part int)) {
	done := map[int]bool{}
	for _, c := range list {
		far := floor(c.Part)
		if done[c.Part] || c.Low >= far {
			continue
		}
		if done[c.Part] = true; c.Seen < far || !(far < Far) || s.measured(c.Part, f, may) || !s.clears(c.Part, f.solids, may, far) {
			do(c.Part)
		}
	}
}

// clears tells whether a part is proved to stay so far from some solids.
func (s *scope) clears(part int, solids []int, may bool, floor float64) bool {
	var near []sweep.Part
	around := s.in.box(part)
	for _, k := range solids {
		if apart(&around, &s.o.boxes[k]) < floor && s.may(part, k) == may {
			near = append(near, s.o.Parts[k])
		}
	}
	end := 1.0
	if !s.path.Moves(motion.Ground, s.Carrier.Parts[part].Body) {
		end = 0
	}
	return sweep.Clears(s.path, sweep.Ground, s.Parts[part], near, 0, end, floor)
}

// of is what a part measures, with all that are like it in this step.
func (s *scope) of(part int) *representative {
	if f := s.ofPart[part]; f != nil {
		return f
	}
	k := s.keyOf(part)
	f := s.known.of[k.key]
	if f == nil {
		first := s.firstLike(part)
		f = &representative{key: k.key, bay: s.Bay, part: first, meets: s.keyOf(first).meets, scope: s}
		s.known.of[k.key] = f
	}
	s.ofPart[part] = f
	s.used[f] = append(s.used[f], part)
	return f
}

// keyed is what a part is and what it meets.
type keyed struct {
	meets []int
	key   string
}

func (s *scope) keyOf(part int) keyed {
	k, ok := s.keys[part]
	if !ok {
		k.meets, k.key = s.in.key(s.Bay, s.shapes[part], part)
		s.keys[part] = k
	}
	return k
}

// firstLike is the first part that measures like one: the same, whichever is asked for
// first, so that the last digits do not depend on what is.
func (s *scope) firstLike(part int) int {
	for _, p := range s.parts {
		if p == part || s.shapes[p] == s.shapes[part] && s.keyOf(p).key == s.keyOf(part).key {
			return p
		}
	}
	return part
}

// mover is the part that is measured for all.
func (f *representative) mover() mover { return f.scope.in_(f.part) }

func (s *scope) in_(part int) mover { return s.Bay.in(s.path, part, s.in.box(part)) }

// zone is the place for what is measured against one.
func (f *representative) zone(z int) *ZoneGaps {
	i, ok := slices.BinarySearchFunc(f.measure.Near, z, func(r ZoneGaps, zone int) int { return r.Zone - zone })
	if !ok {
		r := away
		r.Zone, r.endUnasked = z, true
		f.measure.Near = slices.Insert(f.measure.Near, i, r)
	}
	return &f.measure.Near[i]
}

// once does something for a representative that was not done before.
func (f *representative) once(what aspect, do func()) {
	if !f.done[what] {
		if f.done == nil {
			f.done = map[aspect]bool{}
		}
		f.done[what] = true
		do()
	}
}

// aspect is one thing that may be measured of a part.
type aspect struct {
	what byte // c for what it must clear, t for what it may touch, e for the end, d for drags, l for what is left in place
	zone int
	kind string
	may  bool
}

// clear is the gap of a part to what it may not touch of a zone.
func (s *scope) clear(part, z int) sweep.Bracket {
	f := s.of(part)
	f.once(aspect{what: 'c', zone: z}, func() {
		free, _ := f.mover().near(f.scope.o, z, func(k int) bool { return f.scope.may(f.part, k) })
		if v := f.mover().clear(free); len(free.at) > 0 {
			f.zone(z).MustClear = v
		}
	})
	return f.measure.At(z).MustClear
}

// touch is the gap of a part to what it may touch of a zone.
func (s *scope) touch(part, z int) sweep.Bracket {
	f := s.of(part)
	f.once(aspect{what: 't', zone: z}, func() {
		_, held := f.mover().near(f.scope.o, z, func(k int) bool { return f.scope.may(f.part, k) })
		if v := f.mover().touch(held); len(held.at) > 0 {
			f.zone(z).MayTouch = v
		}
	})
	return f.measure.At(z).MayTouch
}

// end is how a part stands to a zone at the end.
func (s *scope) end(part, z int) sweep.Bracket {
	s.clear(part, z)
	s.touch(part, z)
	f := s.of(part)
	f.once(aspect{what: 'e', zone: z}, func() {
		f.zone(z).endUnasked = false
		free, held := f.mover().near(f.scope.o, z, func(k int) bool { return f.scope.may(f.part, k) })
		if r := f.measure.At(z); math.Min(r.MustClear.Lower, r.MayTouch.Lower) < Far {
			f.zone(z).End = f.mover().end(free, held)
		}
	})
	return f.measure.At(z).End
}

// gaps are what was measured of the bay's parts: duplicates in the order of their first
// parts, one at least, for it tells of which zones there is anything.
func (s *scope) gaps() (groups []*duplicates) {
	if len(s.used) == 0 && len(s.parts) > 0 {
		s.of(s.parts[0])
	}
	for f, parts := range s.used {
		slices.Sort(parts)
		all := s.all(parts)
		groups = append(groups, &duplicates{part: parts[0], meets: s.keyOf(parts[0]).meets, Alike: all[1:], of: f})
	}
	slices.SortFunc(groups, func(a, b *duplicates) int { return a.part - b.part })
	return groups
}

// zonesOf lists the zones in which there is anything.
func (o *Obstacles) zonesOf(want func(culvert.Zone) bool) (out []int) {
	for z, zone := range culvert.Zones {
		if len(o.zones[z]) > 0 && want(zone) {
			out = append(out, z)
		}
	}
	return out
}
