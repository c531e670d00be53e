package measure

import (
	"encoding/binary"
	"math"
	"slices"

	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// A carrier repeats itself bent by bent, and pours repeat each other. Parts that
// are the same solid on the same body but for a shift along x, and that meet the
// same solids in the same way, measure the same: no joint of a carrier but the
// roll moves anything along x. Such parts are a cohort, measured once. What a
// part meets is every solid nearer than far to the box that holds it throughout;
// of a prism along x that reaches beyond that box by far at both ends only the
// section counts, of anything else also where it stands.
//
// Alike is to a picometre in each coordinate, so that what one part measures is
// off by at most two diagonals of that for another: every bracket is told that
// much wider at either end, see likened.

// cohort is parts that measure the same over a step.
type cohort struct {
	part  int   // the first of them, which is measured
	Alike []int // the others, in order
	meets []int // solids near it, in order
	seen  *seen
}

// seen is what a cohort of parts, perhaps of another bay, measures.
type seen struct {
	key     string
	bay     *Bay
	part    int
	meets   []int
	measure Gaps
	drags   []Drag
	Left    []LeftGap
	scope   *scope         // where it was measured, of what may govern
	done    map[asked]bool // what of it was
}

// memo finds what was seen before, over all bays of a study.
type memo struct {
	seen   map[string]*seen
	shapes map[string]int
	paths  map[*motion.Path]int
}

func newMemo() *memo {
	return &memo{seen: map[string]*seen{}, shapes: map[string]int{}, paths: map[*motion.Path]int{}}
}

// numbered gives equal keys equal numbers.
func numbered[K comparable](known map[K]int, key K) int {
	n, ok := known[key]
	if !ok {
		n = len(known)
		known[key] = n
	}
	return n
}

// pico rounds a length to what tells places apart: a picometre, far below what is
// built, and a hundred times what rounding leaves at ten metres.
func pico(x float64) int64 { return int64(math.Round(x * 1e12)) }

// likeness is more than two corners are apart that are the same to a picometre, on
// both sides of a gap: 2 sqrt 3 of it.
const likeness = 4e-12

// likened is a bracket that holds for all parts alike.
func likened(v sweep.Bracket) sweep.Bracket {
	v.Lower, v.Upper = v.Lower-likeness, v.Upper+likeness
	return v
}

// shapeOf is the corners of a solid from its first one along x.
func shapeOf(key []byte, vertices []geom.Vec) []byte {
	for _, v := range vertices {
		key = binary.AppendVarint(key, pico(v[0]-vertices[0][0]))
		key = binary.AppendVarint(key, pico(v[1]))
		key = binary.AppendVarint(key, pico(v[2]))
	}
	return key
}

// shapes number the carrier's parts: equal numbers are the same solid of the
// same role on the same body.
func (m *memo) shapesOf(c *carrier.Carrier) []int {
	out := make([]int, len(c.Parts))
	for i, p := range c.Parts {
		key := binary.AppendVarint(nil, int64(p.Body))
		key = append(append(append(append(key, p.Role...), 0), p.Name...), 0)
		key = append(binary.AppendVarint(key, int64(p.Side)), 'p')
		out[i] = numbered(m.shapes, string(shapeOf(key, p.Vertices)))
	}
	return out
}

// profile is how a solid looks to a part beside it.
type profile struct {
	shape, section int     // numbers of the whole solid, and of its section if it is a prism along x
	at             float64 // x of its first corner
	from, to       float64 // where it has its full section; from > to if it is no prism
}

// profiles of solids.
func (m *memo) profiles(solids []culvert.Solid) []profile {
	out := make([]profile, len(solids))
	for i, s := range solids {
		key := append(append([]byte(s.Zone), 0), KindOf(s)...)
		if s.Zone != culvert.Hanger {
			key = append([]byte(s.Zone), 0)
		}
		p := profile{shape: numbered(m.shapes, string(shapeOf(append(slices.Clone(key), 's'), s.Vertices))), at: s.Vertices[0][0]}
		var section []byte
		section, p.from, p.to = sectionOf(s.Vertices)
		p.section = numbered(m.shapes, string(append(append(key, 'x'), section...)))
		out[i] = p
	}
	return out
}

// sectionOf is the section of a prism along x, and where it is full.
func sectionOf(vertices []geom.Vec) (section []byte, from, to float64) {
	type yz [2]int64
	ends := map[yz][]float64{}
	var order []yz
	for _, v := range vertices {
		key := yz{pico(v[1]), pico(v[2])}
		if ends[key] == nil {
			order = append(order, key)
		}
		ends[key] = append(ends[key], v[0])
	}
	from, to = math.Inf(-1), math.Inf(1)
	slices.SortFunc(order, func(a, b yz) int { return slices.Compare(a[:], b[:]) })
	for _, key := range order {
		x := ends[key]
		if len(x) != 2 {
			return nil, math.Inf(1), math.Inf(-1)
		}
		from, to = math.Max(from, math.Min(x[0], x[1])), math.Min(to, math.Max(x[0], x[1]))
		section = binary.AppendVarint(binary.AppendVarint(section, key[0]), key[1])
	}
	return section, from, to
}

// meeting is what a step is measured against.
type meeting struct {
	path *motion.Path
	no   int  // of the path
	kind byte // of step, so that collapse and raising are told apart
	*Obstacles
	profiles []profile
	box      func(part int) geom.Box
	MayTouch func(part, solid int) bool
}

// cohorts groups parts over one step. What none saw before is to be measured.
func (m *memo) cohorts(b *Bay, shapes, parts []int, in meeting) (out []*cohort, fresh []*seen) {
	own := map[*seen]*cohort{}
	for _, p := range parts {
		meets, key := m.key(b, shapes[p], p, in)
		s := m.seen[key]
		if s == nil {
			s = &seen{key: key, bay: b, part: p, meets: meets}
			m.seen[key] = s
			fresh = append(fresh, s)
		}
		if c := own[s]; c != nil {
			c.Alike = append(c.Alike, p)
			continue
		}
		c := &cohort{part: p, meets: meets, seen: s}
		own[s] = c
		out = append(out, c)
	}
	return out, fresh
}

// key says what a part is and what it meets.
func (m *memo) key(b *Bay, shape, part int, in meeting) (meets []int, key string) {
	k := []byte{in.kind}
	k = binary.AppendVarint(k, int64(in.no))
	k = binary.AppendVarint(k, int64(shape))
	box, at := in.box(part), b.Carrier.Parts[part].Vertices[0][0]
	for i, p := range in.profiles {
		if box.Gap(in.boxes[i]) >= Far {
			continue
		}
		meets = append(meets, i)
		mark := byte(0)
		if in.MayTouch(part, i) {
			mark = 1
		}
		if p.from <= box.Min[0]-Far && p.to >= box.Max[0]+Far {
			k = binary.AppendVarint(append(k, mark), int64(p.section))
			continue
		}
		k = binary.AppendVarint(append(k, mark|2), int64(p.shape))
		k = binary.AppendVarint(k, pico(p.at-at))
	}
	return meets, string(k)
}

// as is what was seen, as a cohort of this bay has it.
func (c *cohort) as(b *Bay, o *Obstacles) (Gaps, []Drag, []LeftGap) {
	s := c.seen
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
func (c *cohort) here(solid int) int {
	i, ok := slices.BinarySearch(c.seen.meets, solid)
	if !ok {
		panic("clearance: a part met a solid that is not near it")
	}
	return c.meets[i]
}
