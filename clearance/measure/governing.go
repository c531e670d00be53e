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
// own number. Where only that is asked for, parts are taken in the order of how near
// their boxes come, and one is left out as soon as it is proved that it cannot
// govern: let u be the least upper end measured so far against the surface, and t
// more than can be taken off a gap of a part. What is left of the part measured is
// at most u, for nothing is ever added to a gap; a part that stays u + t away has
// more left. So a part is left out that stays
//
//	u + t + blur
//
// away: by its box, or by planes (sweep.Clears). blur is by how much a search may
// tell less than it is, so that whatever might have been told to govern is measured
// in full, in the same way, as where every part is asked for.

// blur is the width that a bracket is searched to, and a tenth more for rounding and
// for gaps that count as alike.
const blur = 1.1 * sweep.DefaultEpsilon

// scope is a bay in one step, with what it takes to measure in it.
type scope struct {
	*Bay
	path   *motion.Path
	o      *Obstacles
	parts  []int
	around []geom.Box // of each part, throughout
	may    func(part, solid int) bool
	takes  []float64 // by part: more than can be taken off a gap of it
	known  *known
	used   map[*seen][]int // the parts measured, by what they measure
	ofPart map[int]*seen
	keys   map[int]keyed
	shape  func(part int) int
	in     meeting
}

// candidate is a part and what its box tells of its gap to a surface.
type candidate struct {
	part int
	low  float64
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

// candidates are the parts whose boxes come nearer than Far to solids that they may
// not touch, and to those that they may; the first those that may have least left.
func (s *scope) candidates(solids []int) (free, held []candidate) {
	for _, p := range s.parts {
		low := [2]float64{Far, Far}
		for _, k := range solids {
			most := max(low[0], low[1])
			if beyond(&s.around[p], &s.o.boxes[k], most) {
				continue
			}
			g := apart(&s.around[p], &s.o.boxes[k])
			if g >= most {
				continue
			}
			kind := 0
			if s.may(p, k) {
				kind = 1
			}
			low[kind] = min(low[kind], g)
		}
		if low[0] < Far {
			free = append(free, candidate{p, low[0]})
		}
		if low[1] < Far {
			held = append(held, candidate{p, low[1]})
		}
	}
	slices.SortStableFunc(free, func(a, b candidate) int { return compare(a.low-s.takes[a.part], b.low-s.takes[b.part]) })
	slices.SortStableFunc(held, func(a, b candidate) int { return compare(a.low, b.low) })
	return free, held
}

// govern measures the candidates that may govern; u is the least upper end so far,
// of this and other surfaces that are judged together.
func (s *scope) govern(list []candidate, takes func(part int) float64, solids []int, may bool, u *float64, take func(part int) sweep.Bracket) {
	for _, c := range list {
		floor := *u + takes(c.part) + blur
		if c.low >= floor {
			break
		}
		if floor < Far && s.clears(c.part, solids, may, floor) {
			continue
		}
		*u = math.Min(*u, take(c.part).Upper)
	}
}

func (s *scope) taken(part int) float64 { return s.takes[part] }

func nothingTaken(int) float64 { return 0 }

// clears tells whether a part is proved to stay so far from some solids.
func (s *scope) clears(part int, solids []int, may bool, floor float64) bool {
	var near []sweep.Part
	for _, k := range solids {
		if apart(&s.around[part], &s.o.boxes[k]) < floor && s.may(part, k) == may {
			near = append(near, s.o.Parts[k])
		}
	}
	end := 1.0
	if !s.path.Moves(motion.Ground, s.Carrier.Parts[part].Body) {
		end = 0
	}
	return sweep.Clears(s.path, sweep.Ground, s.Parts[part], near, 0, end, floor)
}

// of is what a part measures, with all that are like it.
func (s *scope) of(part int) *seen {
	if f := s.ofPart[part]; f != nil {
		return f
	}
	k := s.keyOf(part)
	f := s.known.seen[k.key]
	if f == nil {
		first := s.firstLike(part)
		f = &seen{key: k.key, bay: s.Bay, part: first, meets: s.keyOf(first).meets, scope: s}
		s.known.seen[k.key] = f
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
		k.meets, k.key = s.known.key(s.Bay, s.shape(part), part, s.in)
		s.keys[part] = k
	}
	return k
}

// firstLike is the first part that measures like one: the same, whichever is asked for
// first, so that the last digits do not depend on what is.
func (s *scope) firstLike(part int) int {
	for _, p := range s.parts {
		if p == part || s.shape(p) == s.shape(part) && s.keyOf(p).key == s.keyOf(part).key {
			return p
		}
	}
	return part
}

// as a mover is the part that was seen first.
func (f *seen) mover() mover { return f.scope.in_(f.part) }

func (s *scope) in_(part int) mover { return s.Bay.in(s.path, part, s.around[part]) }

// zone is the place for what is measured against one.
func (f *seen) zone(z int) *ZoneGaps {
	i, ok := slices.BinarySearchFunc(f.measure.Near, z, func(r ZoneGaps, zone int) int { return r.Zone - zone })
	if !ok {
		r := away
		r.Zone, r.endUnasked = z, true
		f.measure.Near = slices.Insert(f.measure.Near, i, r)
	}
	return &f.measure.Near[i]
}

// once does something for what was seen that was not done before.
func (f *seen) once(what asked, do func()) {
	if !f.done[what] {
		if f.done == nil {
			f.done = map[asked]bool{}
		}
		f.done[what] = true
		do()
	}
}

// asked is one thing that may be measured of a part.
type asked struct {
	what byte // c for what it must clear, t for what it may touch, e for the end, d for drags, l for what is left in place
	zone int
	kind string
	may  bool
}

// clear is the gap of a part to what it may not touch of a zone.
func (s *scope) clear(part, z int) sweep.Bracket {
	f := s.of(part)
	f.once(asked{what: 'c', zone: z}, func() {
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
	f.once(asked{what: 't', zone: z}, func() {
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
	f.once(asked{what: 'e', zone: z}, func() {
		f.zone(z).endUnasked = false
		free, held := f.mover().near(f.scope.o, z, func(k int) bool { return f.scope.may(f.part, k) })
		if r := f.measure.At(z); math.Min(r.MustClear.Lower, r.MayTouch.Lower) < Far {
			f.zone(z).End = f.mover().end(free, held)
		}
	})
	return f.measure.At(z).End
}

// gaps are what was measured of the bay's parts: cohorts in the order of their first
// parts, one at least, for it tells of which zones there is anything.
func (s *scope) gaps() (cohorts []*cohort) {
	if len(s.used) == 0 && len(s.parts) > 0 {
		s.of(s.parts[0])
	}
	for f, parts := range s.used {
		slices.Sort(parts)
		cohorts = append(cohorts, &cohort{part: parts[0], Alike: parts[1:], seen: f})
	}
	slices.SortFunc(cohorts, func(a, b *cohort) int { return a.part - b.part })
	for _, c := range cohorts {
		c.meets = s.keyOf(c.part).meets
	}
	return cohorts
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
