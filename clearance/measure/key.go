package measure

import (
	"encoding/binary"
	"math"
	"slices"

	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// numbers tell shapes, sections and paths apart over all bays of a study.
type numbers struct {
	shapes map[string]int
	paths  map[*motion.Path]int
}

func newNumbers() *numbers {
	return &numbers{shapes: map[string]int{}, paths: map[*motion.Path]int{}}
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
func (m *numbers) shapesOf(c *carrier.Carrier) []int {
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
func (m *numbers) profiles(solids []culvert.Solid) []profile {
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

// encounter is what parts meet in a step, or throughout.
type encounter struct {
	path *motion.Path
	no   int  // of the path
	kind byte // of step, so that collapse and raising are told apart
	*Obstacles
	profiles []profile
	box      func(part int) geom.Box
	mark     func(part, solid int) byte // how the part may touch the solid; 0 for not at all
}

// key says what a part is and what it meets: every solid nearer than Far to the box that
// holds it. Of a prism along x that reaches beyond that box by Far at both ends only the
// section counts, of anything else also where it stands.
func (in *encounter) key(b *Bay, shape, part int) (meets []int, key string) {
	k := []byte{in.kind}
	k = binary.AppendVarint(k, int64(in.no))
	k = binary.AppendVarint(k, int64(shape))
	box, at := in.box(part), b.Carrier.Parts[part].Vertices[0][0]
	for i := range in.profiles {
		if beyond(&box, &in.boxes[i], Far) || box.Gap(in.boxes[i]) >= Far {
			continue
		}
		p := &in.profiles[i]
		meets = append(meets, i)
		mark := in.mark(part, i)
		if p.from <= box.Min[0]-Far && p.to >= box.Max[0]+Far {
			k = binary.AppendVarint(append(k, 'x', mark), int64(p.section))
			continue
		}
		k = binary.AppendVarint(append(k, 's', mark), int64(p.shape))
		k = binary.AppendVarint(k, pico(p.at-at))
	}
	return meets, string(k)
}
