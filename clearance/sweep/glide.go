package sweep

import (
	"math"

	"boxwalk/clearance/gap"
)

// glide is how one body point of a moves relative to a face over an interval
// of length D. Let x and c be its displacement along the normal and along the
// face, and |p”| <= K. Then D times its velocity stays within bend = K D²/2 of
// the displacement, and the variance of its velocity is at most K² D²/12 (half
// the mean squared difference of two values of a function with slope K).
type glide struct {
	// path is the longest it may travel along the face: D times the root mean
	// square of its speed, sqrt(c² + (K D²)²/12).
	path float64
	// chord is the least it travels along the face.
	chord float64
	// miss is not positive if it opens at every s.
	miss float64
	// rubs: it opens at no s.
	rubs bool
}

// glideOf is the glide of body point v along the face with normal n. Without a
// normal all its motion is along the face.
func glideOf(t *stretch, v, n gap.XYZ, opening float64) glide {
	step := gap.Apply(&t.a.p1, v).Sub(gap.Apply(&t.a.p0, v))
	x := step.Dot(n)
	c := step.Sub(n.Mul(x)).Len()
	kdd := 0.0
	if d := t.s1 - t.s0; d > 0 {
		kdd = curvature(&t.a.bound, v) * d * d
	}
	bend := kdd/2 + t.e
	return glide{
		path:  math.Sqrt(c*c+kdd*kdd/12) + t.e,
		chord: math.Max(0, c-t.e),
		miss:  opening*(c+bend) - (x - bend),
		rubs:  x+bend < opening*(c-bend),
	}
}
