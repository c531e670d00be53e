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
	touch  bool
	s0, s1 float64
}

// tree writes the tree of one claim.
type tree struct {
	*Claim
	out         *records
	carrier     *Carrier
	place       *Place
	free, touch []float64 // by part: what is asked
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

// floors is the most that is asked of any pair of two sets. A plane holds the
// seams among them without a contact, and so to the greater of both numbers.
func (t *tree) floors(n node) float64 {
	most := math.Inf(-1)
	for _, i := range n.a {
		most = math.Max(most, t.free[i])
	}
	if t.place != nil {
		return most + spare
	}
	for _, i := range n.b {
		most = math.Max(most, t.free[i])
	}
	for _, pair := range t.carrier.Seam {
		if touch := t.touch[min(pair[0], pair[1])]; touch > most && across(pair, n) {
			most = touch
		}
	}
	return most + spare
}

// across tells whether a pair lies with one part in either set of a node.
func across(pair [2]int, n node) bool {
	in := func(set []int, i int) bool { _, ok := slices.BinarySearch(set, i); return ok }
	return in(n.a, pair[0]) && in(n.b, pair[1]) || in(n.a, pair[1]) && in(n.b, pair[0])
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
		if d, ok := t.apart(n); ok {
			t.out.plane(direction(d))
			return
		}
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
	p, q := c.Parts[a].Body, c.Parts[b].Body
	if p == q || c.pinned[[2]int{min(a, b), max(a, b)}] {
		return true
	}
	if s == c.Steps[0] {
		return false
	}
	frame := c.common(p, q)
	return s.Rests(frame, p) && s.Rests(frame, q)
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

// splitSelf divides a set by bodies, so that parts of one body stay together.
func (t *tree) splitSelf(n node) {
	weight := map[int]int{}
	var bodies []int
	for _, i := range n.a {
		b := t.carrier.Parts[i].Body
		if weight[b]++; weight[b] == 1 {
			bodies = append(bodies, b)
		}
	}
	slices.Sort(bodies)
	first, sum := map[int]bool{}, 0
	for _, b := range bodies[:len(bodies)-1] {
		if sum > 0 && sum+weight[b] > len(n.a)/2 {
			break
		}
		first[b], sum = true, sum+weight[b]
	}
	in, rest := divide(n.a, func(i int) bool { return first[t.carrier.Parts[i].Body] })
	t.out.ids("S", in, n.a)
	one, across, two := n, n, n
	one.a, one.b = in, in
	across.a, across.b, across.self = in, rest, false
	two.a, two.b = rest, rest
	t.prove(one)
	t.prove(across)
	t.prove(two)
}

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

// frame is what a node is seen from: the nearest common ancestor of its bodies
// among parts themselves, else the ground.
func (t *tree) frame(n node) int {
	if t.place != nil {
		return Ground
	}
	f := t.carrier.Parts[n.a[0]].Body
	for _, list := range [2][]int{n.a, n.b} {
		for _, i := range list {
			f = t.carrier.common(f, t.carrier.Parts[i].Body)
		}
	}
	return f
}

// sides are the lows of the two sets of a node.
func (t *tree) sides(n node) (a, b *lows) {
	a = t.Step.table(t.carrier, t.frame(n))
	if t.place == nil {
		return a, a
	}
	return a, t.place.lows
}

// apart finds a direction in which two sets are as far apart as is asked.
func (t *tree) apart(n node) (int, bool) {
	a, b := t.sides(n)
	ask := t.floors(n)
	for d := range directions {
		low := math.Inf(1)
		for _, k := range n.b {
			low = math.Min(low, b[d][k])
		}
		good := !math.IsInf(low, 0)
		for _, i := range n.a {
			if !good {
				break
			}
			good = a[d^1][i]+low >= ask
		}
		if good {
			return d, true
		}
	}
	return 0, false
}

// split divides the set that lies more spread out at the middle of its spread.
func (t *tree) split(n node) {
	a, b := t.sides(n)
	axisA, spreadA := widest(a, n.a)
	axisB, spreadB := widest(b, n.b)
	one, two := n, n
	if len(n.b) == 1 || (len(n.a) > 1 && spreadA >= spreadB) {
		in, rest := halves(a, n.a, axisA)
		t.out.ids("A", in, n.a)
		one.a, two.a = in, rest
	} else {
		in, rest := halves(b, n.b, axisB)
		t.out.ids("B", in, n.b)
		one.b, two.b = in, rest
	}
	t.prove(one)
	t.prove(two)
}

// middle of a solid along the axis of a direction.
func (l *lows) middle(d, i int) float64 { return (l[d][i] - l[d^1][i]) / 2 }

// axes are the directions along x, y and z.
var axes = [3]int{0, 2, 14}

// widest is the axis along which the middles of a set lie farthest apart.
func widest(l *lows, set []int) (axis int, spread float64) {
	for _, d := range axes {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, i := range set {
			m := l.middle(d, i)
			lo, hi = math.Min(lo, m), math.Max(hi, m)
		}
		if hi-lo > spread || axis == 0 && spread == 0 {
			axis, spread = d, hi-lo
		}
	}
	return axis, spread
}

// halves of a set by the order of its middles along an axis, equal ones by
// their place; neither is empty.
func halves(l *lows, set []int, axis int) (in, rest []int) {
	order := slices.Clone(set)
	slices.SortStableFunc(order, func(i, k int) int {
		switch p, q := l.middle(axis, i), l.middle(axis, k); {
		case p < q:
			return -1
		case p > q:
			return 1
		}
		return i - k
	})
	in, rest = order[:len(order)/2], order[len(order)/2:]
	slices.Sort(in)
	slices.Sort(rest)
	return in, rest
}

// pair proves one pair over its interval; a pair that is meant to touch is held
// to what is asked of such pairs.
func (t *tree) pair(n node) {
	a, b := n.a[0], n.b[0]
	if !n.touch && t.meant(a, b) && !math.IsInf(t.touch[t.first(a, b)], -1) {
		t.out.add("C")
		n.touch = true
	}
	frame := t.frame(n)
	p, q := t.Step.Parts[a], t.other(b)
	t.interval(n, frame, p, q, t.floor(a, b, n.touch), 0)
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

// interval closes a branch by a fixed plane, or one that turns, or divides it.
func (t *tree) interval(n node, frame int, p, q sweep.Part, floor float64, depth int) {
	m := t.Step.Motion
	ra, rb := sweep.RideOf(m, frame, p.Body, n.s0, n.s1, caution), sweep.Standing(n.s1-n.s0)
	if t.place == nil {
		rb = sweep.RideOf(m, frame, q.Body, n.s0, n.s1, caution)
	}
	a, b := ra.Span(p), rb.Span(q)
	normal, _, at := sweep.Separate(m, frame, p, q, n.s0, n.s1, floor)
	if sweep.Plane(a, b, normal) >= floor {
		t.out.plane(normal)
		return
	}
	normals := [2]geom.Vec{}
	for i, s := range [2]float64{n.s0, n.s1} {
		normals[i] = sweep.At(m, frame, p, []sweep.Part{q}, s).N
		if sweep.Plane(a, b, normals[i]) >= floor {
			t.out.plane(normals[i])
			return
		}
	}
	if sweep.Turns(a, b) && sweep.Swing(a, b, normals[0], normals[1]) >= floor {
		t.out.swing(normals[0], normals[1])
		return
	}
	if depth == deepest {
		t.err = fmt.Errorf("step %q: %s against %s cannot be shown to keep %.9g m near s = %g", t.Step.Name, t.carrier.Parts[n.a[0]].Mark, t.Set, floor, n.s0)
		return
	}
	d := n.s1 - n.s0
	at = math.Max(n.s0+d/8, math.Min(n.s1-d/8, at))
	t.out.number("T", at)
	one, two := n, n
	one.s1, two.s0 = at, at
	t.interval(one, frame, p, q, floor, depth+1)
	if t.err == nil {
		t.interval(two, frame, p, q, floor, depth+1)
	}
}
