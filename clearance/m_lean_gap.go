package clearance

import (
	"math"

	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// leans tells whether a part leans toward a zone: what the frame stands on, and
// what that stands on, it does not.
func leans(p carrier.Part, zone culvert.Zone) bool {
	return zone != culvert.Invert || p.Role != carrier.JackPlate && p.Role != carrier.JackScrew
}

// leant is what a lean does to one part over a step.
type leant struct {
	across, along float64 // m, arms of the point told of
	toward        float64 // m, how far a vertex goes toward the other at most, both ways at once
	any           float64 // m, how far any vertex goes in whatever direction
	unsure        float64 // m, by how much each of them may be more
	n             geom.Vec
}

// arms of a point at r from the middle along a direction n. A frame that leans
// by w moves the point by w x r and, whatever the order of its turns, no farther
// off that than |w|^2 |r| / 2; w has the slopes for components at most, for an
// angle is less than its tangent. Along n that is across |n_z y - n_y z| +
// along |n_x z - n_z x|, less what a roof that bears keeps it down.
func (l lean) arms(n, r geom.Vec) (across, along float64) {
	across, along = math.Abs(n[2]*r[1]-n[1]*r[2]), math.Abs(n[0]*r[2]-n[2]*r[0])
	if n[2] > 0 {
		across, along = math.Max(0, across-n[2]*l.bearsBeside), math.Max(0, along-n[2]*l.bearsAhead)
	}
	return across, along
}

// toward is the lean as it counts along a direction: what bears keeps the frame
// down, which helps nothing that lies below it.
func (l lean) toward(n geom.Vec) lean {
	if n[2] <= 0 {
		l.bearsAhead, l.bearsBeside = 0, 0
	}
	return l
}

// leant of a part along n, the direction of its gap. The arms are those of the
// vertex that goes farthest toward the other.
func (b *Bay) leant(l lean, path *motion.Path, part int, n geom.Vec) leant {
	p := b.Carrier.Parts[part]
	pose, middle := path.Pose(motion.Ground, p.Body, 0.5), geom.Vec{l.middle, 0, 0}
	out := leant{toward: -1, n: n}
	down := l.across*l.bearsBeside + l.along*l.bearsAhead
	for _, w := range p.Vertices {
		r := pose.Apply(w).Sub(middle)
		a, x := l.arms(n, r)
		if d := l.across*a + l.along*x; d > out.toward {
			out.across, out.along, out.toward = a, x, d
		}
		out.any = math.Max(out.any, l.across*math.Hypot(r[1], r[2])+l.along*math.Hypot(r[0], r[2])+down)
	}
	out.unsure = b.unsure(l, path, p, pose)
	return out
}

// ahead is how far a part stands ahead of one like it.
func (b *Bay) ahead(part, of int) float64 {
	return b.Carrier.Parts[part].Vertices[0][0] - b.Carrier.Parts[of].Vertices[0][0]
}

// unsure is how far off w x r a vertex can be that is worked out where the part
// stands at half the step: by the second order of the angle, and because arms
// change while the part moves and a turning part takes its displacement along.
func (b *Bay) unsure(l lean, path *motion.Path, p carrier.Part, half geom.Pose) float64 {
	var reach float64
	for _, v := range p.Vertices {
		reach = math.Max(reach, half.Apply(v).Sub(geom.Vec{l.middle, 0, 0}).Len())
	}
	w, moves := l.tilt(), swing(path, p)
	turns := path.Bound(motion.Ground, p.Body, 0, 1).Omega / 2
	return w*moves + w*reach*turns + w*w*(reach+moves)/2
}

// smeared is a part wherever a lean can take it, but for what is unsure: the
// hull of its vertices as each of the corners of the two slopes moves them, and,
// where the roof bears, as each slope does by itself and none. Displacements are
// linear in the slopes of one sign, so that it holds those between. Only its
// vertices are of use: nothing asks how deep it lies in something.
func (b *Bay) smeared(l lean, path *motion.Path, part int) sweep.Part {
	p := b.Carrier.Parts[part]
	pose := path.Pose(motion.Ground, p.Body, 0.5)
	back := pose.Inverse()
	bears := l.bearsAhead > 0 || l.bearsBeside > 0
	var out geom.Solid
	for _, v := range p.Vertices {
		at := pose.Apply(v)
		r := at.Sub(geom.Vec{l.middle, 0, 0})
		for i := range 9 {
			a, x := float64(i%3-1), float64(i/3-1)
			if a*x == 0 && !bears {
				continue
			}
			w := geom.Vec{a * l.across, x * l.along, 0}
			down := geom.Vec{0, 0, math.Abs(w[0])*l.bearsBeside + math.Abs(w[1])*l.bearsAhead}
			out.Vertices = append(out.Vertices, back.Apply(at.Add(w.Cross(r)).Sub(down)))
		}
	}
	return sweep.NewPart(p.Body, &out)
}

// leantGap is the least gap of a part to some solids over a step, whichever way
// the frame leans: a lower bound, and what is near it.
func (b *Bay) leantGap(l lean, path *motion.Path, part int, solids []sweep.Part) float64 {
	v := sweep.Least(path, motion.Ground, b.smeared(l, path, part), solids, 0, 1, sweep.Options{Epsilon: contactTolerance / 5, Cap: far})
	pose := path.Pose(motion.Ground, b.Carrier.Parts[part].Body, 0.5)
	return v.Lower - b.unsure(l, path, b.Carrier.Parts[part], pose)
}

// leanOff is what a lean takes off the gap of a measure's parts, the most among
// those alike. Where no vertex goes so far that it could close what room there
// is, that is how far one goes along the gap at most, which is told; else it is
// what a search of the whole step finds, which holds for every direction that the
// gap has on its way, and the nearest point is told.
func (b *Bay) leanOff(l lean, path *motion.Path, m *measure, v sweep.Bracket, room float64, solids func(part int) []sweep.Part) leant {
	l = l.toward(v.N)
	var most leant
	for _, part := range append([]int{m.part}, m.alike...) {
		o := b.leant(l, path, part, v.N)
		o.toward += o.unsure
		if o.any+o.unsure > room {
			o.toward = math.Max(0, v.Lower-b.leantGap(l, path, part, solids(part)))
			o.across, o.along = l.arms(v.N, v.A.Sub(geom.Vec{l.middle - b.ahead(part, m.part), 0, 0}))
		}
		if o.toward > most.toward {
			most = o
		}
	}
	return most
}

// beyondSight tells whether a lean could close a gap that is not looked at, for
// only those below far are: then nothing is known. A form that does not stand
// over its jacks is such a one.
func (b *Bay) beyondSight(l lean, limit float64) bool {
	var reach float64
	for _, p := range b.Carrier.Parts {
		for _, v := range p.Vertices {
			reach = math.Max(reach, v.Sub(geom.Vec{l.middle, 0, 0}).Len())
		}
	}
	most := (l.across + l.along) * reach
	return !(l.lever > 0 && most < far-limit)
}
