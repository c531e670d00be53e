package trace

import (
	"fmt"
	"math"
	"slices"

	"boxwalk/clearance/sweep"
	"boxwalk/model/geom"
)

// slack is how far below a stated number a proof may stay (FORMAT.md), and
// spare is how much of that is kept for what the verifier does otherwise.
const (
	slack = 2e-6
	spare = 5e-7
)

// caution is by how much curvature is taken larger than it is known to be. The
// verifier encloses the same derivatives by other formulas; the proofs of every
// gear and job of testdata hold with it, and are held before they are written.
const caution = 1.25

// deepest is the number of times that an interval may be halved: far beyond
// what a provable claim needs.
const deepest = 40

// node is a set of pairs over an interval that is still to be proved; with self
// set every pair within a.
type node struct {
	a, b   []int
	self   bool
	s0, s1 float64
}

// tree writes the tree of one claim.
type tree struct {
	*Claim
	out         *records
	carrier     *Carrier
	place       *Place
	free, touch []float64 // by part: what is asked
	rides       map[rideKey]*sweep.Ride
	err         error
}

// floor is what is asked of a pair: by its first part among parts themselves.
func (t *tree) floor(a, b int, touch bool) float64 {
	if t.place == nil {
		a = min(a, b)
	}
	if touch {
		return t.touch[a] + spare
	}
	return t.free[a] + spare
}

// prove writes the records of a branch, in pre-order.
func (t *tree) prove(n node) {
	switch {
	case t.err != nil:
	case t.nothing(n):
		t.out.add("N")
	case n.self:
		t.splitSelf(n)
	case len(n.a) == 1 && len(n.b) == 1:
		t.pair(n)
	default:
		t.split(n)
	}
}

// nothing tells whether no pair of the node needs a proof.
func (t *tree) nothing(n node) bool {
	if t.place != nil {
		return false
	}
	for i, a := range n.a {
		rest := n.b
		if n.self {
			rest = n.a[i+1:]
		}
		for _, b := range rest {
			if !t.carrier.exempt(t.Step, a, b) {
				return false
			}
		}
	}
	return true
}

// exempt pairs are of one body, pinned together, or, but in the first step, at
// rest against each other.
func (c *Carrier) exempt(s *Step, a, b int) bool {
	return s.group[c.Parts[a].Body] == s.group[c.Parts[b].Body] || slices.Contains(c.pinned[a], b)
}

// common is the nearest common ancestor of two bodies.
func (c *Carrier) common(a, b int) int {
	for a != b {
		if a > b {
			a = c.Bodies[a].Parent
		} else {
			b = c.Bodies[b].Parent
		}
	}
	return a
}

// splitSelf divides a set by bodies, so that parts of one body, and of bodies that
// rest against each other, stay together.
func (t *tree) splitSelf(n node) {
	weight := map[int]int{}
	var groups []int
	for _, i := range n.a {
		g := t.group(i)
		if weight[g]++; weight[g] == 1 {
			groups = append(groups, g)
		}
	}
	slices.Sort(groups)
	first, sum := map[int]bool{}, 0
	for _, g := range groups[:len(groups)-1] {
		if sum > 0 && sum+weight[g] > len(n.a)/2 {
			break
		}
		first[g], sum = true, sum+weight[g]
	}
	in, rest := divide(n.a, func(i int) bool { return first[t.group(i)] })
	t.out.ids("S", in, n.a)
	one, across, two := n, n, n
	one.a, one.b = in, in
	across.a, across.b, across.self = in, rest, false
	two.a, two.b = rest, rest
	t.prove(one)
	t.prove(across)
	t.prove(two)
}

func (t *tree) group(part int) int { return t.Step.group[t.carrier.Parts[part].Body] }

func divide(set []int, in func(int) bool) (yes, no []int) {
	for _, i := range set {
		if in(i) {
			yes = append(yes, i)
		} else {
			no = append(no, i)
		}
	}
	return yes, no
}

// pair proves one pair. One that is meant to touch is held to what is asked of such
// pairs where it is not farther apart all the time.
func (t *tree) pair(n node) {
	a, b := n.a[0], n.b[0]
	floor := t.floor(a, b, false)
	if t.meant(a, b) && !math.IsInf(t.touch[t.first(a, b)], -1) {
		touch := t.floor(a, b, true)
		if d, ok := t.apart(n, math.Max(floor, touch)); ok {
			t.out.plane(normals[d])
			return
		}
		t.out.add("C")
		floor = touch
	}
	if d, ok := t.apart(n, floor); ok {
		t.out.plane(normals[d])
		return
	}
	t.interval(n, t.frame(n), t.Step.Parts[a], t.other(b), floor, geom.Vec{}, 0)
}

// apart finds a direction along which a pair is as far apart as is asked.
func (t *tree) apart(n node, floor float64) (int, bool) {
	a, b := t.sides(n)
	for d := range directions {
		if a[d^1][n.a[0]]+b[d][n.b[0]] >= floor {
			return d, true
		}
	}
	return 0, false
}

func (t *tree) first(a, b int) int {
	if t.place == nil {
		return min(a, b)
	}
	return a
}

// other is the second solid of a pair.
func (t *tree) other(b int) sweep.Part {
	if t.place == nil {
		return t.Step.Parts[b]
	}
	return t.place.Solids[b].Part
}

// interval closes a branch by a fixed plane, or one that turns, or halves it: then
// claims of one step share their intervals. Before is a plane that was tried on a longer one.
func (t *tree) interval(n node, frame int, p, q sweep.Part, floor float64, before geom.Vec, depth int) {
	m := t.Step.Motion
	a, b := t.span(frame, p, n), t.span(frame, q, n)
	closes := func(normal geom.Vec) bool {
		if normal == (geom.Vec{}) || sweep.Plane(a, b, normal) < floor {
			return false
		}
		t.out.plane(normal)
		return true
	}
	if closes(before) {
		return
	}
	normal, _, _ := sweep.Separate(m, frame, p, q, n.s0, n.s1, floor)
	if closes(normal) {
		return
	}
	ends := [2]geom.Vec{}
	for i, s := range [2]float64{n.s0, n.s1} {
		if ends[i] = sweep.At(m, frame, p, []sweep.Part{q}, s).N; closes(ends[i]) {
			return
		}
	}
	if sweep.Turns(a, b) && sweep.Swing(a, b, ends[0], ends[1]) >= floor {
		t.out.swing(ends[0], ends[1])
		return
	}
	if depth == deepest {
		t.err = fmt.Errorf("step %q: %s against %s cannot be shown to keep %.9g m near s = %g", t.Step.Name, t.carrier.Parts[n.a[0]].Mark, t.Set, floor, n.s0)
		return
	}
	middle := n.s0 + (n.s1-n.s0)/2
	t.out.number("T", middle)
	one, two := n, n
	one.s1, two.s0 = middle, middle
	t.interval(one, frame, p, q, floor, normal, depth+1)
	if t.err == nil {
		t.interval(two, frame, p, q, floor, normal, depth+1)
	}
}

// span is a part over the interval of a node.
func (t *tree) span(frame int, p sweep.Part, n node) *sweep.Span {
	if p.Body == Ground && t.place != nil {
		r := sweep.Standing(n.s1 - n.s0)
		return r.Span(p)
	}
	key := rideKey{frame, p.Body, n.s0, n.s1}
	r, ok := t.rides[key]
	if !ok {
		if t.rides == nil {
			t.rides = map[rideKey]*sweep.Ride{}
		}
		ride := sweep.RideOf(t.Step.Motion, frame, p.Body, n.s0, n.s1, caution)
		r = &ride
		t.rides[key] = r
	}
	return r.Span(p)
}

// rideKey names a body over an interval, seen from a frame.
type rideKey struct {
	frame, body int
	s0, s1      float64
}
