package sweep

import (
	"math"

	"boxwalk/model/geom"
)

// Separate looks for one plane, fixed in ref, that bounds the signed distance
// of a and b over the whole of [s0, s1] from below, and stops at the first that
// bounds it by floor. It returns the best unit normal found (from a to b), its
// bound by the plane bound of the package comment, and where to split the
// interval if that is not enough. lower is -Inf if the motion gives numbers
// that are not finite. A proof is made of such planes.
func Separate(m Motion, ref int, a, b Part, s0, s1, floor float64) (n geom.Vec, lower, split float64) {
	w := pool.Get().(*work)
	defer w.release()
	w.one[0] = b
	w.reset(m, ref, a, w.one[:])
	w.cap, w.held, w.still = floor, true, true
	x := node{lower: math.Inf(-1), s0: s0, s1: s1}
	split = w.bound(&x)
	if w.lost {
		return geom.Vec{1, 0, 0}, math.Inf(-1), split
	}
	return x.n.Vec(), x.lower, split
}
