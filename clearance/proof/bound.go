package proof

import "math"

// ride is a body over one interval, seen from one frame.
type ride struct {
	p0, p1 pose
	k      curve
	depth  int
	moves  bool
	far    float64 // pins and strokes of the chain added up
	turn   float64 // how far its angles, and strokes, are not known exactly
	stroke float64
	offset float64 // twice the longer translation of its ends
}

// rideKey names a ride.
type rideKey struct {
	step     *step
	frame, b int
	s0, s1   float64
}

// rides keeps what was worked out last.
type rides struct {
	instants map[instantKey]*instant
	rides    map[rideKey]*ride
	made     int // rides and instants worked out
}

type instantKey struct {
	step   *step
	s0, s1 float64
}

// mostKept bounds the memory of the caches.
const mostKept = 1 << 12

func (r *rides) instant(g *gear, s *step, s0, s1 float64) *instant {
	key := instantKey{s, s0, s1}
	if t := r.instants[key]; t != nil {
		return t
	}
	if r.instants == nil || len(r.instants)*len(g.bodies) >= 64*mostKept {
		r.instants = map[instantKey]*instant{}
	}
	r.made += 32 * len(g.bodies)
	t := newInstant(g, s.drives, s0, s1)
	if s0 != s1 {
		if s.rests == nil { // which joints rest
			r.made += len(g.bodies) + len(g.bodies)*len(g.bodies)/16
		}
		t = piecewise(g, s, s0, s1)
		r.made += (32*len(g.bodies) + 64*t.ops/cuts) * cuts
	}
	r.instants[key] = t
	return t
}

// cuts is into how many pieces an interval is cut to enclose its derivatives: what
// an enclosure adds to the truth shrinks with the width of the pieces.
const cuts = 8

// piecewise is the hull of the coordinates over the pieces of an interval. A joint
// that keeps its coordinate has the same in each, and is worked out once.
func piecewise(g *gear, s *step, s0, s1 float64) *instant {
	whole := newInstant(g, s.drives, s0, s1)
	for i := range g.bodies {
		if g.rests(s, i) {
			whole.coordinate(i)
		}
	}
	for k := range cuts {
		from, to := s0+(s1-s0)*float64(k)/cuts, s0+(s1-s0)*float64(k+1)/cuts
		if k == cuts-1 {
			to = s1
		}
		part := newInstant(g, s.drives, from, to)
		for i := range g.bodies {
			if g.rests(s, i) {
				part.q[i], part.state[i] = whole.q[i], 2
			}
		}
		for i := range g.bodies {
			if g.rests(s, i) {
				continue
			}
			q := part.coordinate(i)
			if k > 0 {
				q = whole.q[i].hull(q)
			}
			whole.q[i], whole.state[i] = q, 2
		}
		if whole.ops += part.ops; whole.why == "" {
			whole.why = part.why
		}
	}
	return whole
}

// ride of body b seen from frame; why is not empty if it cannot be told.
func (r *rides) ride(g *gear, s *step, frame, b int, s0, s1 float64) (out *ride, why string) {
	key := rideKey{s, frame, b, s0, s1}
	if out = r.rides[key]; out != nil {
		return out, ""
	}
	if r.rides == nil || len(r.rides) >= mostKept {
		r.rides = map[rideKey]*ride{}
	}
	t0, t1, over := r.instant(g, s, s0, s0), r.instant(g, s, s1, s1), r.instant(g, s, s0, s1)
	before := t0.ops + t1.ops + over.ops
	out = &ride{p0: t0.pose(frame, b), p1: t1.pose(frame, b)}
	var start curve
	if f := s.frame; f != nil && frame == ground {
		out.p0, out.p1 = f.pose(s0).after(out.p0), f.pose(s1).after(out.p1)
		start = f.curve(s0, s1)
		out.depth, out.far, out.turn = f.joints(), f.far(), f.unsure()
	}
	out.k = over.curve(start, frame, b)
	for x := b; x != frame; x = g.bodies[x].parent {
		out.joint(&g.bodies[x], t0.coordinate(x).v, t1.coordinate(x).v)
	}
	r.made += 64*(t0.ops+t1.ops+over.ops-before) + 64*out.depth
	out.moves = out.p0 != out.p1 || out.k.a != 0 || out.k.om != 0 || out.k.al != 0
	for _, t := range [3]*instant{t0, t1, over} {
		if t.why != "" {
			return nil, t.why
		}
	}
	out.offset = 2 * math.Max(out.p0.t.length(), out.p1.t.length())
	r.rides[key] = out
	return out, ""
}

// joint adds what a joint of the chain, with its coordinate at both ends, does
// to rounding.
func (r *ride) joint(b *body, q0, q1 iv) {
	r.depth++
	width := math.Max(q0.hi-q0.lo, q1.hi-q1.lo)
	if l := b.axis.length(); b.kind == isSlide {
		r.far += l * math.Max(q0.most(), q1.most())
		r.stroke += l * width
	} else {
		r.far += b.pin.length()
		r.turn += width
	}
}

// still is the ride of what stands on the ground.
var still = &ride{p0: unmoved(), p1: unmoved()} // its offset is 0

// least is m(f0, f1, K, D) for kdd = K D²: the least value on an interval of
// length D of any function with these end values and a second derivative of at
// most K.
func least(f0, f1, kdd float64) float64 {
	d := math.Abs(f1 - f0)
	if 2*d >= kdd {
		return math.Min(f0, f1)
	}
	return (f0+f1)/2 - kdd/8 - d*d/(2*kdd)
}

// lowest is the least of m(n.v(s0), n.v(s1), K_v, D) over the vertices: n is taken
// to the body, not each vertex to the frame.
func (r *ride) lowest(vs []vec, n vec, dd float64) float64 {
	low, n0, at0 := math.Inf(1), r.p0.turnedBack(n), n.dot(r.p0.t)
	if !r.moves {
		for i := range vs {
			low = min(low, n0.dot(vs[i])+at0)
		}
		return low
	}
	across, n1, at1 := r.k.across(n), r.p1.turnedBack(n), n.dot(r.p1.t)
	for i := range vs {
		low = min(low, least(n0.dot(vs[i])+at0, n1.dot(vs[i])+at1, r.k.of(vs[i], across)*dd))
	}
	return low
}

// mover is a set of vertices on a ride.
type mover struct {
	*ride
	v []vec
	inexact
}

func newMover(r *ride, v []vec, size float64) mover {
	reach := size + r.offset + r.far
	return mover{r, v, inexact{r.depth, reach, r.turn*reach + r.stroke}}
}

// inexact is what rounding does to the vertices of a mover.
type inexact struct {
	joints int
	reach  float64 // the size of the numbers that enter a vertex's place
	unsure float64 // how far a vertex is off for coordinates that are not known exactly
}

// worse is the larger of each.
func (a inexact) worse(b inexact) inexact {
	return inexact{max(a.joints, b.joints), max(a.reach, b.reach), max(a.unsure, b.unsure)}
}

// rounding covers what poses, products and sums are off by: about 30 roundings
// of 2^-53 a joint, each of the lengths that enter, where 2^-43 is 1024 of them;
// and how far the coordinates themselves, which links magnify, are not known.
func rounding(a, b inexact) float64 {
	return 0x1p-43*float64(1+a.joints+b.joints)*(a.reach+b.reach) + a.unsure + b.unsure
}

// plane bounds the signed distance of a and b from below by the plane square to
// the unit n: each side by itself.
func plane(a, b *mover, n vec, dd float64) float64 {
	return b.lowest(b.v, n, dd) + a.lowest(a.v, n.mul(-1), dd) - rounding(a.inexact, b.inexact)
}

// together is the same vertex pair by vertex pair, which keeps what two moving
// bodies have in common.
func together(a, b *mover, n vec, dd float64) float64 {
	low := math.Inf(1)
	var space [2][16]ends
	f := a.along(space[0][:0], n, dd)
	for _, w := range b.along(space[1][:0], n, dd) {
		for i := range f {
			low = min(low, least(w.f0-f[i].f0, w.f1-f[i].f1, w.kdd+f[i].kdd))
		}
	}
	return low - rounding(a.inexact, b.inexact)
}

// ends is n.v at both ends and K D² of a vertex.
type ends struct{ f0, f1, kdd float64 }

// along adds those of each vertex.
func (m *mover) along(out []ends, n vec, dd float64) []ends {
	across, n0, n1 := m.k.across(n), m.p0.turnedBack(n), m.p1.turnedBack(n)
	at0, at1 := n.dot(m.p0.t), n.dot(m.p1.t)
	for _, v := range m.v {
		out = append(out, ends{n0.dot(v) + at0, n1.dot(v) + at1, m.k.of(v, across) * dd})
	}
	return out
}

// swung bounds it by a plane whose normal runs straight from n0 to n1. For u =
// w - v the function n.u has second derivative 2 n'.u' + n.u”, at most K D² +
// 2 |n1 - n0| (|u(s1) - u(s0)| + K D²/2) over the whole interval; and n is
// between h = |n0 + n1|/2 and 1 long.
func swung(a, b *mover, n0, n1 vec, dd float64) float64 {
	h, turn := n0.add(n1).length()/2, n1.sub(n0).length()
	if !(h > 0.5) {
		return math.Inf(-1)
	}
	low := math.Inf(1)
	for _, v := range a.v {
		v0, v1, kv := a.p0.apply(v), a.p1.apply(v), a.k.of(v, 1)
		for _, w := range b.v {
			u0, u1 := b.p0.apply(w).sub(v0), b.p1.apply(w).sub(v1)
			k := (kv + b.k.of(w, 1)) * dd
			k += 2 * turn * (u1.sub(u0).length() + k/2) * (1 + 0x1p-30)
			low = math.Min(low, least(n0.dot(u0), n1.dot(u1), k))
		}
	}
	if low -= 2 * rounding(a.inexact, b.inexact); low < 0 {
		low /= h
	}
	return low
}
