package measure

import (
	"cmp"
	"encoding/binary"
	"math"
	"slices"

	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// selfMeasure is one part against the parts behind it in the list, over one
// step: those it meets at a seam, and the rest.
type SelfGaps struct {
	Part            int
	Alike           []int // other parts that measure the same against those behind them
	MustClear, Seam sweep.Bracket
	end             []selfEnd
}

// selfEnd is a gap between two parts at the end of a step.
type selfEnd struct {
	part, other int
	value       sweep.Bracket
}

// sweptPieces is into how many pieces a step is cut for its boxes.
const sweptPieces = 4

// sweptBoxes are boxes, in the ground frame, that hold each part throughout a
// step: a vertex leaves the chord between two poses by at most K D^2/8. Parts of one
// shape have one box, moved along x.
func (b *Bay) sweptBoxes(path *motion.Path, shapes []int) []geom.Box {
	bodies := make([]sweptBody, len(b.Carrier.Mechanism.Bodies))
	for i := range bodies {
		bodies[i] = sweptBodyOf(path, i)
	}
	known := map[int]int{}
	out := make([]geom.Box, len(b.Parts))
	for i, p := range b.Carrier.Parts {
		if of, ok := known[shapes[i]]; ok {
			out[i] = out[of].Moved(geom.Vec{b.ahead(i, of)})
			continue
		}
		known[shapes[i]] = i
		out[i] = bodies[p.Body].around(boxOf(b.Parts[i]))
	}
	return out
}

// sweptBody is a body's poses along a step, one alone if it does not move, and
// the bound on what lies between.
type sweptBody struct {
	poses []geom.Pose
	bound geom.Bound
}

func sweptBodyOf(path *motion.Path, body int) sweptBody {
	if !path.Moves(motion.Ground, body) {
		return sweptBody{poses: []geom.Pose{path.Pose(motion.Ground, body, 0)}}
	}
	s := sweptBody{bound: path.Bound(motion.Ground, body, 0, 1)}
	for n := range sweptPieces + 1 {
		s.poses = append(s.poses, path.Pose(motion.Ground, body, float64(n)/sweptPieces))
	}
	return s
}

// boxOf is the box around a part in its body.
func boxOf(p sweep.Part) geom.Box {
	center, half := p.Solid.Box()
	return geom.Box{Min: center.Sub(half).Vec(), Max: center.Add(half).Vec()}
}

// around is a box that holds all of a box of the body throughout.
func (s sweptBody) around(part geom.Box) geom.Box {
	box, sag := geom.EmptyBox(), 0.0
	for _, p := range s.poses {
		box = box.Union(part.Turned(p))
	}
	switch turns := s.bound.Omega != 0 || s.bound.Alpha != 0; {
	case len(s.poses) == 1:
	case !turns: // every point curves alike
		sag = s.bound.Curvature(part.Min)
	default:
		for _, v := range part.Corners() {
			sag = math.Max(sag, s.bound.Curvature(v))
		}
	}
	return box.Grow(sag / (8 * sweptPieces * sweptPieces))
}

// beside lists, for each part, the later ones that it comes near to and has to be
// looked at with: pairs that do not move against each other in the first step
// only. Along the carrier the parts are gone through in the order of their boxes,
// so that those far ahead are never asked for.
func (b *Bay) beside(k int, present []int, boxes []geom.Box) map[int][]int {
	out := map[int][]int{}
	along := slices.Clone(present)
	slices.SortFunc(along, func(p, q int) int { return cmp.Compare(boxes[p].Min[0], boxes[q].Min[0]) })
	moves := b.movesBetween(b.Steps[k])
	for i, p := range along {
		for _, q := range along[i+1:] {
			if boxes[q].Min[0] > boxes[p].Max[0]+Near {
				break
			}
			first, later := min(p, q), max(p, q)
			if (k == 0 || moves(first, later)) && !beyond(&boxes[p], &boxes[q], Near+likeness) && boxes[p].Gap(boxes[q]) <= Near && b.meets(first, later) {
				out[first] = append(out[first], later)
			}
		}
	}
	for _, list := range out {
		slices.Sort(list)
	}
	return out
}

// selfDuplicates groups parts that measure the same against those behind them: the
// same solids at the same places along x. Parts with none behind them near are
// left out.
func (b *Bay) selfDuplicates(k int, present, shapes []int, boxes []geom.Box) []*duplicates {
	known := map[string]*duplicates{}
	var out []*duplicates
	all := b.beside(k, present, boxes)
	for _, p := range present {
		beside := all[p]
		if len(beside) == 0 {
			continue
		}
		key := binary.AppendVarint(nil, int64(shapes[p]))
		at := b.Carrier.Parts[p].Vertices[0][0]
		for _, q := range beside {
			key = binary.AppendVarint(key, int64(shapes[q]))
			key = binary.AppendVarint(key, pico(b.Carrier.Parts[q].Vertices[0][0]-at))
			key = append(key, b.Declared[[2]int{p, q}]...)
		}
		if c := known[string(key)]; c != nil {
			c.Alike = append(c.Alike, p)
			continue
		}
		c := &duplicates{part: p, meets: beside}
		known[string(key)] = c
		out = append(out, c)
	}
	return out
}

// selfOf measures one part against others over step k, and if asked how it stands to
// each at its end.
func (b *Bay) selfOf(k, part int, others []int, ends bool) SelfGaps {
	s := b.Steps[k]
	m := SelfGaps{Part: part, MustClear: Nothing(), Seam: Nothing()}
	byFrame := map[int][]int{}
	var frames []int
	for _, q := range others {
		ref := b.Common(part, q)
		if byFrame[ref] == nil {
			frames = append(frames, ref)
		}
		byFrame[ref] = append(byFrame[ref], q)
	}
	for _, ref := range frames {
		b.selfIn(s, &m, ref, byFrame[ref], ends)
	}
	return m
}

// meets tells whether two parts have to be looked at.
func (b *Bay) meets(p, q int) bool {
	return b.Carrier.Parts[p].Body != b.Carrier.Parts[q].Body && b.Declared[[2]int{p, q}] != carrier.Pinned
}

// movesBetween tells of two parts whether they move against each other in a step,
// worked out once for each pair of bodies.
func (b *Bay) movesBetween(s carrier.Step) func(p, q int) bool {
	n := len(b.Carrier.Mechanism.Bodies)
	known := make([]byte, n*n) // 0 not known yet, 1 no, 2 yes
	return func(p, q int) bool {
		pb, qb := b.Carrier.Parts[p].Body, b.Carrier.Parts[q].Body
		at := &known[pb*n+qb]
		if *at == 0 {
			*at = 1
			if ref := b.Common(p, q); s.Path.Moves(ref, pb) || s.Path.Moves(ref, qb) {
				*at = 2
			}
		}
		return *at == 2
	}
}

// Common is the nearest common ancestor of two parts' bodies.
func (b *Bay) Common(p, q int) int {
	return b.Carrier.Mechanism.Common(b.Carrier.Parts[p].Body, b.Carrier.Parts[q].Body)
}

// selfIn searches the pairs that share one frame.
func (b *Bay) selfIn(s carrier.Step, m *SelfGaps, ref int, others []int, ends bool) {
	var free, seam []sweep.Part
	var freeAt, seamAt []int
	moving := s.Path.Moves(ref, b.Carrier.Parts[m.Part].Body)
	for _, q := range others {
		moving = moving || s.Path.Moves(ref, b.Carrier.Parts[q].Body)
		if b.Declared[[2]int{m.Part, q}] == carrier.Seam {
			seam, seamAt = append(seam, b.Parts[q]), append(seamAt, q)
			continue
		}
		free, freeAt = append(free, b.Parts[q]), append(freeAt, q)
	}
	me := b.Parts[m.Part]
	v := mover{motion: s.Path, moving: moving, part: me}
	m.MustClear = lesser(m.MustClear, renumber(v.least(ref, free, sweep.Options{Cap: Near + likeness}), freeAt))
	m.Seam = lesser(m.Seam, renumber(v.least(ref, seam, sweep.Options{Epsilon: ContactTolerance / 5, Cap: Near + likeness}), seamAt))
	if !ends {
		return
	}
	for n, q := range append(freeAt, seamAt...) {
		other := append(free, seam...)[n]
		if v := likened(sweep.At(s.Path, ref, me, []sweep.Part{other}, 1)); v.Upper < Near {
			m.end = append(m.end, selfEnd{m.Part, q, v})
		}
	}
}

// lesser is the bracket of the least of two least distances; the witness is
// the one of the lesser upper end.
func lesser(a, b sweep.Bracket) sweep.Bracket {
	low := math.Min(a.Lower, b.Lower)
	if b.Upper < a.Upper {
		a = b
	}
	a.Lower = low
	return a
}
