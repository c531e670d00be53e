package sweep

import (
	"math"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// Ground is the frame that does not move.
const Ground = -1

// Motion is the path of a set of bodies, s running over [0, 1]. The search
// knows nothing else: no joints, links or wheels. Implementations must be safe
// for calls from many goroutines and give the same bits for the same
// arguments.
type Motion interface {
	// Pose is refFromBody at s. With body == ref it is the identity.
	Pose(ref, body int, s float64) geom.Pose
	// Bound encloses the body's motion seen from ref over [s0, s1].
	Bound(ref, body int, s0, s1 float64) geom.Bound
	// ErrorBound bounds how far Pose is off at s.
	ErrorBound(ref, body int, s float64) geom.ErrorBound
}

// Part is a convex solid in the coordinates of the body that carries it;
// Ground carries what does not move.
type Part struct {
	Body  int
	Solid *gap.Solid
}

// DefaultEpsilon is 0.1 mm: the width of a bracket that a crew's millimetres
// never notice (design section 7).
const DefaultEpsilon = 1e-4

// Options of a search.
type Options struct {
	// Epsilon is the widest bracket wanted, in metres; DefaultEpsilon if not
	// positive.
	Epsilon float64
	// Cap, if positive: anything certified to stay at or above it need not be
	// known better.
	Cap float64
}

// Bracket encloses the least signed distance, in metres. Lower is proved over
// the whole interval: -Inf if the motion gave numbers that are not finite. It
// may be farther from Upper than Epsilon when the search ran into its limits,
// never wrong.
type Bracket struct {
	Lower float64
	// Upper is the signed distance at s = At, rounded up; +Inf when nothing
	// below the cap was found (Lower >= Cap) or there was nothing to meet.
	Upper float64
	// At, Against and the points say where Upper was found: the index of the
	// other solid (-1 if Upper is +Inf), the unit normal from the part to it,
	// and the nearest points of the part and of the other, in the frame ref.
	At      float64
	Against int
	N, A, B geom.Vec
}

func unknown() Bracket {
	return Bracket{Lower: math.Inf(-1), Upper: math.Inf(1), Against: -1}
}
