package model

import (
	"math"

	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// straightOn is an angle too small to matter: a nanometre over ten metres.
const straightOn = 1e-10

// JointsOnTheWay are the joints that a bay's carrier comes to between leaving a
// pour and the pour that it rolls to, and the next one beyond, over which the form
// may reach, in the order in which they lie ahead.
func (b *Bay) JointsOnTheWay() []motion.TrackJoint {
	joints := b.Ground.Joints
	home := 0 // the first ahead of the bay's origin
	for home < len(joints) && joints[home].Along <= 0 {
		home++
	}
	if b.Rolls < 0 {
		return joints[:home]
	}
	return joints[home:]
}

// joints are those between the pours from first to last, seen from one of them.
func (s *Study) joints(cell culvert.Cell, pour culvert.Pour, first, last int) []motion.TrackJoint {
	var out []motion.TrackJoint
	var ends, begins []float64 // of each, from the origins of the pours behind and ahead of it, in plan
	for n := first + 1; n <= last; n++ {
		j, a, b := s.joint(cell, pour, n)
		out, ends, begins = append(out, j), append(ends, a), append(begins, b)
	}
	home := pour.Number - first // the first ahead of the pour
	origin := 0.0
	for i := home; i < len(out); i++ {
		out[i].At = origin + ends[i]
		origin = out[i].At - begins[i]
	}
	origin = 0
	for i := home - 1; i >= 0; i-- {
		out[i].At = math.Min(origin, origin+begins[i]) // behind, whichever way it was rounded
		origin = out[i].At - ends[i]
	}
	return out
}

// joint is that before pour n, seen from a pour, with all but its place in plan:
// how far it is from the origins of the pours behind and ahead of it.
func (s *Study) joint(cell culvert.Cell, pour culvert.Pour, n int) (j motion.TrackJoint, ends, begins float64) {
	before, next := s.Culvert.Pours[n-2], s.Culvert.Pours[n-1]
	levelFromBay := s.levelFromBay(pour)
	a, b := levelAxis(levelFromBay.Mul(cell.BayFromBay(pour, before))), levelAxis(levelFromBay.Mul(cell.BayFromBay(pour, next)))
	ends, begins = meet(a, b, next.Rear.X/math.Hypot(1, b.grade))
	rolled, _ := meeting(cell.BayFromBay(before, next))
	j = motion.TrackJoint{Along: s.along(cell, pour, before) + rolled, Station: s.startOf(n), Turn: next.Turn, Break: next.Break,
		Skew: math.Atan(next.Rear.Slope) - next.Turn/2, Grade: s.Culvert.GradeOf(next), Step: b.z + b.grade*begins - a.z - a.grade*ends}
	if n <= pour.Number {
		j.Along = math.Min(j.Along, 0) // behind, whichever way it was rounded
	}
	return j, ends, begins
}

// axis is the centreline of a bay in a plane: through its origin (x, y), along
// the unit vector (dx, dy); and how high it is there and how steep, square to the
// plane.
type axis struct{ x, y, dx, dy, z, grade float64 }

// levelAxis is that of a bay's frame in plan.
func levelAxis(levelFromBay geom.Pose) axis {
	o, r := levelFromBay.T, levelFromBay.R
	run := math.Hypot(r.At(0, 0), r.At(1, 0))
	return axis{o[0], o[1], r.At(0, 0) / run, r.At(1, 0) / run, o[2], r.At(2, 0) / run}
}

// meet is how far along two axes from their origins they cross; axes in line meet
// apart before the second's origin.
func meet(a, b axis, apart float64) (ends, begins float64) {
	begins = -apart
	if turn := a.dx*b.dy - a.dy*b.dx; math.Abs(turn) > straightOn {
		begins = ((a.x-b.x)*a.dy - (a.y-b.y)*a.dx) / -turn
	}
	return (b.x+begins*b.dx-a.x)*a.dx + (b.y+begins*b.dy-a.y)*a.dy, begins
}

// meeting is where the axes of two neighbouring bays meet in the plane of the
// first's invert: along the first from its origin, and along the second from its
// own. Axes in line meet at the second's origin.
func meeting(firstFromSecond geom.Pose) (ends, begins float64) {
	heading := math.Atan2(firstFromSecond.R.At(1, 0), firstFromSecond.R.At(0, 0))
	sin, cos := math.Sin(heading), math.Cos(heading)
	return meet(axis{dx: 1}, axis{x: firstFromSecond.T[0], y: firstFromSecond.T[1], dx: cos, dy: sin}, 0)
}
