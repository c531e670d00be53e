package trace

import (
	"math"
	"slices"
)

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

// worth is the least share of a node's pairs for which solids are split off that
// one plane keeps apart from the other set; for less the sets are halved.
const worth = 0.25

// split divides one of the sets of a node: into solids that one plane keeps apart
// from all of the other set, and the rest; or where no plane does so for many,
// the set that lies more spread out at the middle of its spread.
func (t *tree) split(n node) {
	p := t.peel(n)
	switch whole := len(n.a) * len(n.b); {
	case p.pairs == whole:
		t.out.plane(normals[p.d])
	case float64(p.pairs) >= worth*float64(whole):
		t.take(n, p)
	default:
		t.halve(n)
	}
}

// take closes the branch of what was found apart, and goes on with the rest. Among
// parts themselves fewer bodies may have a nearer common ancestor, from which things
// look otherwise.
func (t *tree) take(n node, p peel) {
	one, two := n, n
	if p.ofB {
		t.out.ids("B", p.members, n.b)
		one.b, two.b = p.members, without(n.b, p.members)
	} else {
		t.out.ids("A", p.members, n.a)
		one.a, two.a = p.members, without(n.a, p.members)
	}
	if len(one.a)*len(one.b) > 1 && t.frame(one) == t.frame(n) {
		t.out.plane(normals[p.d])
	} else {
		t.prove(one)
	}
	t.prove(two)
}

// without is a sorted set less a sorted list of its members.
func without(set, in []int) []int {
	out := make([]int, 0, len(set)-len(in))
	for _, x := range set {
		if len(in) > 0 && in[0] == x {
			in = in[1:]
			continue
		}
		out = append(out, x)
	}
	return out
}

// peel is a direction, and the members of one set of a node that are as far apart
// along it from the whole other set as is asked.
type peel struct {
	d       int
	ofB     bool
	members []int
	pairs   int
}

// peel is the one that settles most pairs.
func (t *tree) peel(n node) peel {
	a, b := t.sides(n)
	var best, next peel
	for d := range directions {
		for _, next.ofB = range [2]bool{false, true} {
			if whole := len(n.a) == 1 && !next.ofB || len(n.b) == 1 && next.ofB; whole {
				continue // all of it or none, as the other way round
			}
			s := side{t, n.a, n.b, a[d^1], b[d], true, t.place == nil}
			if next.ofB {
				s = side{t, n.b, n.a, b[d], a[d^1], t.place == nil, true}
			}
			next.d, next.members = d, s.clear(next.members[:0])
			if next.pairs = len(next.members) * len(s.others); next.pairs > best.pairs {
				best, next = next, best
			}
			if best.pairs == len(n.a)*len(n.b) {
				return best
			}
		}
	}
	return best
}

// side is one set of a node against the other along one direction: how far along it
// each begins, and which of them are parts of the carrier.
type side struct {
	*tree
	own, others      []int
	low, high        []float64
	parts, alsoParts bool
}

// clear adds the members that are as far from all others as is asked.
func (s side) clear(out []int) []int {
	at, beyond, asked := -1, math.Inf(1), math.Inf(1)
	for _, k := range s.others {
		if s.high[k] < beyond {
			at, beyond = k, s.high[k]
		}
		if s.alsoParts && s.high[k]-s.free[k] < asked {
			asked = s.high[k] - s.free[k]
		}
	}
	for _, i := range s.own {
		good := (!s.alsoParts || s.low[i]+asked >= spare) && (!s.parts || s.low[i]+beyond-s.free[i] >= spare)
		if s.parts && s.alsoParts {
			if good {
				good = s.seamed(i)
			} else if slices.Contains(s.carrier.pinned[i], at) {
				good = s.oneByOne(i)
			}
		}
		if good {
			out = append(out, i)
		}
	}
	return out
}

// seamed tells whether a part that keeps what is asked of any pair keeps what is
// asked of its seams: they are held to both numbers where they pass no contact.
func (s side) seamed(i int) bool {
	for _, k := range s.carrier.seams[i] {
		if _, there := slices.BinarySearch(s.others, k); there && s.low[i]+s.high[k] < s.touch[min(i, k)]+spare {
			return false
		}
	}
	return true
}

// oneByOne leaves out those that a part is pinned to.
func (s side) oneByOne(i int) bool {
	for _, k := range s.others {
		if s.low[i]+s.high[k] < s.free[min(i, k)]+spare && !slices.Contains(s.carrier.pinned[i], k) {
			return false
		}
	}
	return s.seamed(i)
}

// halve divides the set that lies more spread out at the middle of its spread.
func (t *tree) halve(n node) {
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
