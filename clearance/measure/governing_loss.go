package measure

import (
	"math"

	"boxwalk/model/carrier"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// What adjusters out of step and a lean take off a part's gap is bounded by what they
// do to a box around it: how far a point moves, as a turn and a shift take it, is a
// convex function of where it lies, and so are its distances from a line and a point
// and the curvature of its way. The most over a convex solid is therefore not above
// the most over the corners of a box that holds it.

// bodyBoxes are boxes around all parts of each body.
func (b *Bay) bodyBoxes() []geom.Box {
	out := make([]geom.Box, len(b.Carrier.Mechanism.Bodies))
	for i := range out {
		out[i] = geom.EmptyBox()
	}
	for i, p := range b.Carrier.Parts {
		out[p.Body] = out[p.Body].Union(boxOf(b.Parts[i]))
	}
	return out
}

// boxed is a body as if it were one part that fills a box.
func boxed(body int, box geom.Box) carrier.Part {
	corners := box.Corners()
	return carrier.Part{Body: body, Solid: &geom.Solid{Vertices: corners[:]}}
}

// lags adds what adjusters out of step may take off.
func (s *scope) lags(step carrier.Step) {
	type half struct{ body, side int }
	most := map[half]float64{}
	boxes := s.bodies
	for _, i := range s.parts {
		p := s.Carrier.Parts[i]
		at := half{p.Body, int(p.Side)}
		lag, ok := most[at]
		if !ok {
			lag = s.lagOver(step, s.Turned(step, p.Side), []int{p.Body}, boxes)
			most[at] = lag
		}
		s.takes[i] += lag
	}
}

// lagOver is more than lagOf anything in boxes of bodies.
func (b *Bay) lagOver(s carrier.Step, adjusters, bodies []int, boxes []geom.Box) float64 {
	if len(adjusters) < 2 {
		return 0
	}
	var sum, most float64
	for _, k := range adjusters {
		var v float64
		for _, body := range bodies {
			v += b.swayOver(s, body, boxes[body], k)
		}
		sum, most = sum+v, math.Max(most, v)
	}
	return (sum - most) * (1 + 1e-12)
}

// swayOver is sway for anything in a box of a body. Where the box lies along x makes
// no difference: no joint moves anything along it.
func (b *Bay) swayOver(s carrier.Step, body int, box geom.Box, adjuster int) float64 {
	n := b.nudges.of(b, s, adjuster)
	if n.stuck {
		return math.Inf(1)
	}
	key := boxKey{body, [4]float64{box.Min[1], box.Min[2], box.Max[1], box.Max[2]}}
	n.mu.Lock()
	defer n.mu.Unlock()
	most, ok := n.over[key]
	if ok {
		return most
	}
	for _, path := range n.paths {
		if path.Moves(motion.Ground, body) {
			most = math.Max(most, Swing(path, boxed(body, box)))
		}
	}
	if n.over == nil {
		n.over = map[boxKey]float64{}
	}
	n.over[key] = most
	return most
}

// boxKey is a box of a body, wherever it lies along x.
type boxKey struct {
	body int
	yz   [4]float64
}

// leans adds what a lean may take off: LeanOff searches a part wherever the lean takes
// it, to a fifth of a contact's tolerance, and no vertex goes farther than reaches.
func (s *scope) leans(l Lean) {
	reach := s.reaches(l)
	for _, i := range s.parts {
		s.takes[i] += reach(i, 1) + ContactTolerance
	}
}

// reaches is how far a part, or one alike, may be moved by a lean of so many times l, unsure included.
func (s *scope) reaches(l Lean) func(part int, times float64) float64 {
	type turn struct{ swing, turns float64 }
	bodies := map[int]turn{}
	boxes := s.bodies
	middle := geom.Vec{l.Middle, 0, 0}
	down, tilt := l.Across*l.BearsBeside+l.Along*l.BearsAhead, l.tilt()
	return func(part int, times float64) float64 {
		body := s.Carrier.Parts[part].Body
		t, ok := bodies[body]
		if !ok {
			t = turn{Swing(s.path, boxed(body, boxes[body])), s.path.Bound(motion.Ground, body, 0, 1).Omega / 2}
			bodies[body] = t
		}
		box := BoxAt(s.Parts[part], s.path.Pose(motion.Ground, body, 0.5)).Moved(middle.Mul(-1))
		box.Min[0], box.Max[0] = box.Min[0]+s.span[part][0], box.Max[0]+s.span[part][1]
		far := farOf(box)
		any := l.Across*math.Hypot(far[1], far[2]) + l.Along*math.Hypot(far[0], far[2]) + down
		w, reach := tilt*times, far.Len()
		return (any*times + w*t.swing + w*reach*t.turns + w*w*(reach+t.swing)/2) * (1 + 1e-12)
	}
}

// farOf is the most that any point of a box has for coordinates, by size.
func farOf(b geom.Box) (out geom.Vec) {
	for i := range out {
		out[i] = math.Max(math.Abs(b.Min[i]), math.Abs(b.Max[i]))
	}
	return out
}
