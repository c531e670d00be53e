package measure

import (
	"fmt"
	"slices"

	"boxwalk/clearance/sweep"
	"boxwalk/model"
	"boxwalk/model/geom"
)

// One way of not working twice: what is asked has a key, the first to be asked under a
// key is the representative, and whatever else has that key is its duplicate and takes
// over what it found, moved along x. No joint of a carrier but the roll moves anything
// along x: joints slide across and up, or turn about x. So what differs by a shift along
// x alone goes through the same. Three things have such keys, each because a benchmark
// shows that it pays (BenchmarkDuplicates here, BenchmarkPoursApart in clearance/check; in
// brackets how many times as long it takes without):
//
//   - pours: the same concrete and carrier in the same place. model.Build finds them
//     (Bay.Twin), and all that hangs on geometry is worked out for the first alone (a check of 16: 1.9).
//   - carriers that are set alike: where they stand makes no difference to what their
//     parts do among themselves (carriers; measuring: 1.1 to 1.4).
//   - parts that are the same solid on the same body and meet the same solids in the same
//     way: bents repeat along a carrier, and pours repeat each other. passage has those of
//     one bay that are alike throughout, so that all but one need not be asked for in any
//     step; representative has what is alike in one step over all bays (measuring what may
//     govern: 1.1 to 1.4, every part: 1.3 to 1.5).
//
// Alike is to a picometre in each coordinate, so that what one part measures is
// off by at most two diagonals of that for another: every bracket is told that
// much wider at either end, see likened.

// likeness is more than two corners are apart that are the same to a picometre, on
// both sides of a gap: 2 sqrt 3 of it.
const likeness = 4e-12

// likened is a bracket that holds for all parts alike.
func likened(v sweep.Bracket) sweep.Bracket {
	v.Lower, v.Upper = v.Lower-likeness, v.Upper+likeness
	return v
}

// passage is what a bay's parts go through while it is collapsed, or raised, and which of
// them are alike all the way.
type passage struct {
	encounter              // over all steps
	shapes    []int        // by part
	boxes     [][]geom.Box // of each part in each step, of a carrier that stands by behind
	by        geom.Vec
	first     []int        // by part: the first of those alike
	alike     [][]int      // by part that is the first: all of them, in order
	span      [][2]float64 // by part that is the first: how far they reach behind it and ahead
	trees     []*sweep.Tree
}

// boxIn holds a part throughout step k.
func (g *passage) boxIn(k, part int) geom.Box { return g.boxes[k][part].Moved(g.by) }

// group finds what is alike. boxes and profiles are known.
func (g *passage) group(b *Bay) {
	g.box = func(part int) geom.Box {
		box := geom.EmptyBox()
		for _, step := range g.boxes {
			if step != nil {
				box = box.Union(step[part])
			}
		}
		return box.Moved(g.by)
	}
	n := len(b.Parts)
	g.first, g.alike, g.span = make([]int, n), make([][]int, n), make([][2]float64, n)
	known := map[string]int{}
	var firsts []sweep.Member
	for i, part := range b.Parts {
		_, key := g.key(b, g.shapes[i], i)
		first, ok := known[key]
		if !ok {
			first, known[key] = i, i
			firsts = append(firsts, sweep.Member{Part: part, Number: i})
		}
		ahead := b.ahead(i, first)
		g.first[i], g.alike[first] = first, append(g.alike[first], i)
		g.span[first] = [2]float64{min(g.span[first][0], ahead), max(g.span[first][1], ahead)}
	}
	g.trees = sweep.TreesOf(firsts)
}

// firsts are those of some parts that stand for others alike.
func (g *passage) firsts(parts []int) []int {
	var out []int
	for _, p := range parts {
		if g.first[p] == p {
			out = append(out, p)
		}
	}
	return out
}

// all are parts with those that they stand for, in order.
func (g *passage) all(firsts []int) []int {
	var out []int
	for _, p := range firsts {
		out = append(out, g.alike[p]...)
	}
	slices.Sort(out)
	return out
}

// duplicates are parts of a bay that measure the same over a step.
type duplicates struct {
	part  int   // the first of them
	Alike []int // the others, in order
	meets []int // solids near it, in order
	of    *representative
}

// representative is the part, perhaps of another bay, that is measured for all that
// measure the same.
type representative struct {
	key     string
	bay     *Bay
	part    int
	meets   []int
	measure Gaps
	drags   []Drag
	Left    []LeftGap
	scope   *scope          // where it was measured, of what may govern
	done    map[aspect]bool // what of it was
}

// duplicates groups the parts of a step by what they measure. What was not asked before
// is to be measured.
func (g *passage) duplicates(b *Bay, known map[string]*representative, parts []int, in encounter) (out []*duplicates, fresh []*representative) {
	own := map[*representative]*duplicates{}
	for _, p := range g.firsts(parts) {
		meets, key := in.key(b, g.shapes[p], p)
		r := known[key]
		if r == nil {
			r = &representative{key: key, bay: b, part: p, meets: meets}
			known[key] = r
			fresh = append(fresh, r)
		}
		if d := own[r]; d != nil {
			d.Alike = append(d.Alike, g.alike[p]...)
			continue
		}
		d := &duplicates{part: p, meets: meets, of: r, Alike: slices.Clone(g.alike[p][1:])}
		own[r] = d
		out = append(out, d)
	}
	for _, d := range out {
		slices.Sort(d.Alike)
	}
	return out, fresh
}

// as is what the representative measured, as it is for these parts.
func (c *duplicates) as(b *Bay, o *Obstacles) (Gaps, []Drag, []LeftGap) {
	s := c.of
	m := s.measure
	m.Part, m.Alike = c.part, c.Alike
	for z := range m.Any {
		m.Any[z] = len(o.zones[z]) > 0
	}
	if s.bay == b && s.part == c.part {
		return m, s.drags, s.Left
	}
	by := geom.Vec{b.Carrier.Parts[c.part].Vertices[0][0] - s.bay.Carrier.Parts[s.part].Vertices[0][0]}
	move := func(v sweep.Bracket) sweep.Bracket {
		if v.Against >= 0 {
			v.A, v.B, v.Against = v.A.Add(by), v.B.Add(by), c.here(v.Against)
		}
		return v
	}
	m.Near = slices.Clone(m.Near)
	for i := range m.Near {
		r := &m.Near[i]
		r.MustClear, r.MayTouch, r.End = move(r.MustClear), move(r.MayTouch), move(r.End)
	}
	drags := slices.Clone(s.drags)
	for i := range drags {
		drags[i].Part, drags[i].Solid = c.part, c.here(drags[i].Solid)
	}
	kept := slices.Clone(s.Left)
	for i := range kept {
		kept[i].Solid, kept[i].Value = c.here(kept[i].Solid), move(kept[i].Value)
	}
	return m, drags, kept
}

// here is the place in this bay of a solid that was met there.
func (c *duplicates) here(solid int) int {
	i, ok := slices.BinarySearch(c.of.meets, solid)
	if !ok {
		panic("clearance: a part met a solid that is not near it")
	}
	return c.meets[i]
}

// carriers are those that are set alike, by the bays in which they stand: among itself
// each goes through the same motion wherever it stands along the cell. They differ by a
// shift along x.
type carriers struct {
	lead    *Bay
	boxes   [][]geom.Box // of each part in each step
	raising [][]geom.Box
	Alike   [][]*duplicates // of parts in each step, that measure alike among themselves
	Selves  [][]SelfGaps
}

// setAlike finds the carriers that are set alike, in the order of their leads. The lead
// measures for all.
func setAlike(s *model.Study, reports []*Report) []*carriers {
	known := map[string]*carriers{}
	var out []*carriers
	for _, i := range s.Reported() {
		r := reports[i]
		c := r.Bay.Carrier
		key := fmt.Sprintf("%v %v %v", c.Setting, c.Kept.Over, c.Kept.Untied)
		if known[key] == nil {
			known[key] = &carriers{lead: r.Bay}
			out = append(out, known[key])
		}
		// how adjusters out of step move bodies depends on the path alone
		r.carriers, r.Bay.nudges = known[key], out[0].lead.nudges
	}
	return out
}

// box queues what every other measurement wants: the boxes, and which parts
// measure alike.
func (f *carriers) box(w *workers, shapes []int, a Ask) {
	b := f.lead
	f.boxes = make([][]geom.Box, len(b.Steps))
	f.raising = make([][]geom.Box, len(b.Raising))
	f.Selves = make([][]SelfGaps, len(b.Steps))
	f.Alike = make([][]*duplicates, len(b.Steps))
	for k, s := range b.Raising {
		if a.Raising && s.Stop == nil {
			w.Add(func() { f.raising[k] = b.sweptBoxes(s.Path, shapes) })
		}
	}
	for k, s := range b.Steps {
		if a.strips(b, k) {
			w.Add(func() {
				f.boxes[k] = b.sweptBoxes(s.Path, shapes)
				f.Alike[k] = b.selfDuplicates(k, b.Present(s), shapes, f.boxes[k])
			})
		}
	}
}

// plan queues the measurements of the lead's parts among themselves.
func (f *carriers) plan(w *workers, a Ask) {
	for k, groups := range f.Alike {
		if !a.EveryPart {
			w.Add(func() { f.Selves[k] = f.lead.selvesGoverning(k, groups) })
			continue
		}
		f.Selves[k] = make([]SelfGaps, len(groups))
		for n, c := range groups {
			w.Add(func() {
				f.Selves[k][n] = f.lead.selfOf(k, c.part, c.meets, true)
				f.Selves[k][n].Alike = c.Alike
			})
		}
	}
}

// shift is how far a member stands ahead of the lead.
func (f *carriers) shift(b *Bay) geom.Vec { return geom.Vec{b.Carrier.Rear - f.lead.Carrier.Rear} }

// selvesOf are the lead's gaps at the place of a member.
func (f *carriers) selvesOf(b *Bay, k int) []SelfGaps {
	by := f.shift(b)
	if by == (geom.Vec{}) {
		return f.Selves[k]
	}
	moved := func(v sweep.Bracket) sweep.Bracket {
		if v.Against >= 0 {
			v.A, v.B = v.A.Add(by), v.B.Add(by)
		}
		return v
	}
	out := make([]SelfGaps, len(f.Selves[k]))
	for i, m := range f.Selves[k] {
		m.MustClear, m.Seam = moved(m.MustClear), moved(m.Seam)
		end := make([]selfEnd, len(m.end))
		for n, e := range m.end {
			end[n] = selfEnd{e.part, e.other, moved(e.value)}
		}
		m.end = end
		out[i] = m
	}
	return out
}
