package gap

import (
	"math"

	"boxwalk/model/geom"
)

// Result of a distance query, in the frame in which the poses were given.
type Result struct {
	// Distance is the signed distance in metres: positive apart, negative
	// when the solids overlap. Touching is zero give or take rounding: never
	// branch on its sign.
	Distance float64
	// Slack bounds |Distance - sd|, rounding of the query included; the error
	// of the poses themselves is not.
	Slack float64
	// N is the unit normal from A to B along which Distance is measured.
	N geom.Vec
	// A and B are points of the two solids with (B - A).N = Distance to
	// rounding. Apart, B - A = Distance N; in overlap one of them may lie on
	// the plane of a face, or the two beside each other on edges that meet.
	A, B geom.Vec
}

// wanted is the spread between upper and lower bound up to which the iteration
// is believed; the goal for distances is 1e-12 m + 32u of the largest
// coordinate, half of it is left for rounding.
func wanted(scale float64) float64 { return 5e-13 + 8*epsilon*scale }

// rounding of a result, by the package comment.
func rounding(scale float64) float64 { return 32 * epsilon * scale }

// Between is the signed distance between solid a at aPose and solid b at
// bPose, each pose taking body coordinates to one common frame. It does not
// allocate and is never NaN: for a pose that is not finite it is -Inf with
// infinite slack.
//
// Guarantee, for solids that pass geom.Solid.Check: within Slack, which is at
// most 1e-12 m + 48u S apart, and 64u S in overlap.
func Between(a, b *Solid, aPose, bPose *geom.Pose) (r Result) {
	var q query
	q.at[0].ra, q.at[0].rb = &aPose.R, &bPose.R
	q.between(a, b, &aPose.T, &bPose.T)
	var f found
	q.run(&f, q.start(), math.Inf(1))
	if !f.touch && f.d-f.low <= wanted(q.scale) {
		if w, sure := q.met(&f); sure {
			q.apart(&r, &f, w, aPose)
			return r
		}
	}
	a.sided() // here: through q every pose would go to the heap
	b.sided()
	return q.careful(&f, aPose)
}

// met is the point w that the simplex carries, if its length meets the lower
// bound. It bounds the distance from above; the iteration's own length is more
// accurate but, on a triangle much longer than wide, may fall below what is true
// by more than its spread.
func (q *query) met(f *found) (w XYZ, sure bool) {
	for i := range f.s.n {
		c := &f.s.c[i]
		w.X += c.w.X * c.portion
		w.Y += c.w.Y * c.portion
		w.Z += c.w.Z * c.portion
	}
	most := f.low + wanted(q.scale)
	return w, w.Dot(w) <= most*most
}

// apart is the result of a run whose bounds have met in w.
func (q *query) apart(r *Result, f *found, w XYZ, aPose *geom.Pose) {
	top := w.Len()
	d := f.d
	if d > top {
		d = top
	}
	if d < f.low {
		d = f.low
	}
	spread := top - d
	if d-f.low > spread {
		spread = d - f.low
	}
	pa := Apply(aPose, q.carried(&f.s))
	r.Distance, r.Slack = d, spread+rounding(q.scale)
	r.N, r.A, r.B = f.n.Vec(), pa.Vec(), pa.Add(w).Vec()
}

// careful settles what the iteration could not: contact, overlap, and pairs
// so ill-shaped that its bounds did not meet. It works in A's body frame.
func (q *query) careful(f *found, aPose *geom.Pose) Result {
	p := relative(q)
	if !p.finite() {
		return unknown()
	}
	best := p.faces()
	if f.touch && math.Abs(best.sep) <= wanted(q.scale) { // in contact on a face, to rounding
		best.pa = q.carried(&f.s)
		best.pb = best.pa.Add(best.n.Mul(best.sep))
		return p.result(best, aPose)
	}
	p.edges(&best)
	if best.sep <= -wanted(q.scale) || f.touch && best.sep <= wanted(q.scale) {
		return p.result(best, aPose)
	}
	return p.result(p.features(best), aPose)
}

func unknown() Result {
	return Result{Distance: math.Inf(-1), Slack: math.Inf(1), N: geom.Vec{1, 0, 0}}
}

// Hull is a distance query over two ends of a motion.
type Hull struct {
	// N is the unit direction with the largest least separation found, from A
	// to B, in the common frame.
	N XYZ
	// Low = min(sep_N at end 0, sep_N at end 1), to 16u S.
	Low float64
	// At is the weight of end 1 in the nearest point: where along the motion
	// the solids are likely nearest.
	At float64
	// Touch: the hull holds the origin or comes within rounding of it; N and
	// Low are then of no use.
	Touch bool
}

// OverEnds runs GJK on the convex hull of B(0) - A(0) and B(1) - A(1), the
// poses taking body coordinates to one frame that does not turn. Its distance
// from the origin is the largest, over unit n, of the lesser separation at the
// two ends. The run stops when Low exceeds cut. hint is a first direction, or
// zero. No allocation.
func OverEnds(a, b *Solid, a0, b0, a1, b1 *geom.Pose, hint XYZ, cut float64) Hull {
	q := overEnds(a, b, placed(a0, b0), placed(a1, b1))
	if hint == (XYZ{}) {
		hint = q.start()
	}
	var f found
	q.run(&f, hint, cut)
	h := Hull{N: f.n, Low: f.low, Touch: f.touch || f.n == XYZ{} || !(f.low > math.Inf(-1))}
	for i := range f.s.n {
		if f.s.c[i].end == 1 {
			h.At += f.s.c[i].portion
		}
	}
	return h
}
