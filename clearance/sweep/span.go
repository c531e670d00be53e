package sweep

import (
	"math"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// Ride is one body over one interval of a motion, seen from one frame: all that
// the plane bound asks of it. A proof holds many parts and planes against one
// interval, so it is worked out once for each body.
type Ride struct {
	p0, p1     geom.Pose
	errorBound geom.ErrorBound
	bound      geom.Bound
	home       bool
	d          float64
	ok         bool
}

// RideOf is body's ride over [s0, s1] in ref. Caution, at least 1, multiplies
// every curvature: whoever checks a proof bounds curvature in a way of its own,
// which may be wider than this one.
func RideOf(m Motion, ref, body int, s0, s1, caution float64) Ride {
	r := Ride{p0: m.Pose(ref, body, s0), errorBound: m.ErrorBound(ref, body, s0), home: body == ref, d: s1 - s0}
	r.p1 = r.p0
	if s1 != s0 {
		r.p1, r.bound = m.Pose(ref, body, s1), m.Bound(ref, body, s0, s1)
		r.errorBound = larger(r.errorBound, m.ErrorBound(ref, body, s1))
		r.bound.A *= caution
		r.bound.Alpha *= caution
		r.bound.Omega *= math.Sqrt(caution) * raise
	}
	b := &r.bound
	r.ok = b.A >= 0 && b.Omega >= 0 && b.Alpha >= 0 && finite(&r.p0) && finite(&r.p1) && bounds(r.errorBound)
	return r
}

// Standing is the ride of what does not move in ref.
func Standing(d float64) Ride {
	return Ride{p0: geom.Identity(), p1: geom.Identity(), home: true, d: d, ok: true}
}

// Span is a part on a ride.
type Span struct{ moving }

// Span of a part of the ride's body. Its bounds are -Inf where the motion gave
// numbers that are not finite.
func (r *Ride) Span(p Part) *Span {
	s := &Span{}
	s.part, s.p0, s.p1, s.errorBound, s.bound, s.home = p, r.p0, r.p1, r.errorBound, r.bound, r.home
	s.s0, s.s1 = 0, r.d
	s.offset = math.Sqrt(math.Max(r.p0.T.Dot(r.p0.T), r.p1.T.Dot(r.p1.T)))
	s.loaded = s.curve() && r.ok
	return s
}

// Lowest is a lower bound on n.v of every point of the part throughout, up to
// the rounding of the pair it is used for.
func (s *Span) Lowest(n geom.Vec) float64 {
	if !s.loaded {
		return math.Inf(-1)
	}
	return s.lowest(gap.FromVec(n), s.s1-s.s0)
}

// Turns tells whether either of two spans turns.
func Turns(a, b *Span) bool {
	t := stretch{a: a.moving, b: b.moving}
	return t.turns()
}

// Plane is the plane bound of a pair over the interval of its rides.
func Plane(a, b *Span, n geom.Vec) float64 {
	if !a.loaded || !b.loaded {
		return math.Inf(-1)
	}
	t := pair(a, b)
	return t.plane(gap.FromVec(n))
}

// Swing is the bound of a plane that turns from n0 to n1, unit vectors both.
func Swing(a, b *Span, n0, n1 geom.Vec) float64 {
	if !a.loaded || !b.loaded {
		return math.Inf(-1)
	}
	t := pair(a, b)
	return t.swing(gap.FromVec(n0), gap.FromVec(n1))
}

func pair(a, b *Span) stretch {
	return stretch{a: a.moving, b: b.moving, s0: a.s0, s1: a.s1, e: a.off() + b.off()}
}
