package measure

import (
	"math"
	"sync"

	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// Leans tells whether a part leans toward a zone: what the frame stands on, and
// what that stands on, it does not.
func Leans(p carrier.Part, zone culvert.Zone) bool {
	return zone != culvert.Invert || p.Role != carrier.JackPlate && p.Role != carrier.JackScrew
}

// Leant is what a lean does to one part over a step.
type Leant struct {
	Across, Along float64 // m, arms of the point told of
	Toward        float64 // m, how far a vertex goes toward the other at most, both ways at once
	any           float64 // m, how far any vertex goes in whatever direction
	Unsure        float64 // m, by how much each of them may be more
	N             geom.Vec
}

// arms of a point at r from the middle along a direction n. A frame that leans
// by w moves the point by w x r and, whatever the order of its turns, no farther
// off that than |w|^2 |r| / 2; w has the slopes for components at most, for an
// angle is less than its tangent. Along n that is across |n_z y - n_y z| +
// along |n_x z - n_z x|, less what a roof that bears keeps it down.
func (l Lean) arms(n, r geom.Vec) (across, along float64) {
	across, along = math.Abs(n[2]*r[1]-n[1]*r[2]), math.Abs(n[0]*r[2]-n[2]*r[0])
	if n[2] > 0 {
		across, along = math.Max(0, across-n[2]*l.BearsBeside), math.Max(0, along-n[2]*l.BearsAhead)
	}
	return across, along
}

// Toward is the lean as it counts along a direction: what bears keeps the frame
// down, which helps nothing that lies below it.
func (l Lean) Toward(n geom.Vec) Lean {
	if n[2] <= 0 {
		l.BearsAhead, l.BearsBeside = 0, 0
	}
	return l
}

// leant of a part along n, the direction of its gap. The arms are those of the
// vertex that goes farthest toward the other.
func (b *Bay) leant(l Lean, path *motion.Path, part int, n geom.Vec) Leant {
	p, s := b.Carrier.Parts[part], b.stance(path, part)
	middle := geom.Vec{l.Middle, 0, 0}
	out := Leant{Toward: -1, N: n}
	down := l.Across*l.BearsBeside + l.Along*l.BearsAhead
	for _, w := range p.Vertices {
		r := s.half.Apply(w).Sub(middle)
		a, x := l.arms(n, r)
		if d := l.Across*a + l.Along*x; d > out.Toward {
			out.Across, out.Along, out.Toward = a, x, d
		}
		out.any = math.Max(out.any, l.Across*math.Hypot(r[1], r[2])+l.Along*math.Hypot(r[0], r[2])+down)
	}
	out.Unsure = s.unsure(l)
	return out
}

// ahead is how far a part stands ahead of one like it.
func (b *Bay) ahead(part, of int) float64 {
	return b.Carrier.Parts[part].Vertices[0][0] - b.Carrier.Parts[of].Vertices[0][0]
}

// unsure is how far off w x r a vertex can be that is worked out where the part
// stands at half the step: by the second order of the angle, and because arms
// change while the part moves and a turning part takes its displacement along.
func (s *stance) unsure(l Lean) float64 {
	w := l.tilt()
	return w*s.moves + w*s.reach*s.turns + w*w*(s.reach+s.moves)/2
}

// stance is how a part stands at half a step, and how it moves about that.
type stance struct {
	half  geom.Pose
	reach float64 // of the vertex farthest from the middle that leans are about
	moves float64 // see Swing
	turns float64 // by half the step at most
}

// stances are those that were asked for: leans ask again and again.
type stances struct {
	mu    sync.Mutex
	known map[stanceKey]*stance
	reach float64 // see reachOfAll; 0 until asked for
}

type stanceKey struct {
	path *motion.Path
	part int
}

// reachOfAll is how far any vertex as raised lies from the middle that leans are about.
func (b *Bay) reachOfAll() float64 {
	b.stances.mu.Lock()
	defer b.stances.mu.Unlock()
	if b.stances.reach == 0 {
		for _, p := range b.Carrier.Parts {
			for _, v := range p.Vertices {
				b.stances.reach = math.Max(b.stances.reach, v.Sub(geom.Vec{b.middleOf(), 0, 0}).Len())
			}
		}
	}
	return b.stances.reach
}

// stance of a part in a step.
func (b *Bay) stance(path *motion.Path, part int) *stance {
	b.stances.mu.Lock()
	defer b.stances.mu.Unlock()
	key := stanceKey{path, part}
	s := b.stances.known[key]
	if s == nil {
		p := b.Carrier.Parts[part]
		s = &stance{half: path.Pose(motion.Ground, p.Body, 0.5), moves: Swing(path, p), turns: path.Bound(motion.Ground, p.Body, 0, 1).Omega / 2}
		for _, v := range p.Vertices {
			s.reach = math.Max(s.reach, s.half.Apply(v).Sub(geom.Vec{b.middleOf(), 0, 0}).Len())
		}
		b.stances.known[key] = s
	}
	return s
}

// smeared is a part wherever a lean can take it, but for what is unsure: the
// hull of its vertices as each of the corners of the two slopes moves them, and,
// where the roof bears, as each slope does by itself and none. Displacements are
// linear in the slopes of one sign, so that it holds those between. Only its
// vertices are of use: nothing asks how deep it lies in something.
func (b *Bay) smeared(l Lean, path *motion.Path, part int) sweep.Part {
	p := b.Carrier.Parts[part]
	pose := path.Pose(motion.Ground, p.Body, 0.5)
	back := pose.Inverse()
	bears := l.BearsAhead > 0 || l.BearsBeside > 0
	var out geom.Solid
	for _, v := range p.Vertices {
		at := pose.Apply(v)
		r := at.Sub(geom.Vec{l.Middle, 0, 0})
		for i := range 9 {
			a, x := float64(i%3-1), float64(i/3-1)
			if a*x == 0 && !bears {
				continue
			}
			w := geom.Vec{a * l.Across, x * l.Along, 0}
			down := geom.Vec{0, 0, math.Abs(w[0])*l.BearsBeside + math.Abs(w[1])*l.BearsAhead}
			out.Vertices = append(out.Vertices, back.Apply(at.Add(w.Cross(r)).Sub(down)))
		}
	}
	return sweep.NewPart(p.Body, &out)
}

// LeantGap is the least gap of a part to some solids over a step, whichever way
// the frame leans: a lower bound, and what is near it.
func (b *Bay) LeantGap(l Lean, path *motion.Path, part int, solids []sweep.Part) float64 {
	v := sweep.Least(path, motion.Ground, b.smeared(l, path, part), solids, 0, 1, sweep.Options{Epsilon: ContactTolerance / 5, Cap: Far})
	return v.Lower - b.stance(path, part).unsure(l)
}

// LeanOff is what a lean takes off the gap of a measure's parts, the most among
// those alike. Where no vertex goes so far that it could close what room there
// is, that is how far one goes along the gap at most, which is told; else it is
// what a search of the whole step finds, which holds for every direction that the
// gap has on its way, and the nearest point is told.
func (b *Bay) LeanOff(l Lean, path *motion.Path, m *Gaps, v sweep.Bracket, room float64, solids func(part int) []sweep.Part) Leant {
	l = l.Toward(v.N)
	var most Leant
	for _, part := range append([]int{m.Part}, m.Alike...) {
		o := b.leant(l, path, part, v.N)
		o.Toward += o.Unsure
		if o.any+o.Unsure > room {
			o.Toward = math.Max(0, v.Lower-b.LeantGap(l, path, part, solids(part)))
			o.Across, o.Along = l.arms(v.N, v.A.Sub(geom.Vec{l.Middle - b.ahead(part, m.Part), 0, 0}))
		}
		if o.Toward > most.Toward {
			most = o
		}
	}
	return most
}

// BeyondSight tells whether a lean could close a gap that is not looked at, for
// only those below far are: then nothing is known. A form that does not stand
// over its jacks is such a one.
func (b *Bay) BeyondSight(l Lean, limit float64) bool {
	most := (l.Across + l.Along) * b.reachOfAll()
	return !(l.Lever > 0 && most < Far-limit)
}
