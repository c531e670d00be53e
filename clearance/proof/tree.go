package proof

import (
	"math"
	"slices"
)

// node is a set of pairs over an interval that is still to be proved. With self
// set it is every pair within a.
type node struct {
	a, b   []int
	self   bool
	touch  bool // one pair, which may touch
	s0, s1 float64
}

// walker goes through the tree of a claim.
type walker struct {
	*claim
	t      *text
	rides  *rides
	report *Report
	seams  int // pairs at a seam that were held to a number

	// space for one node: the rides of its bodies, its solids on them, and how far
	// along a normal those of the second set begin
	on    []*ride
	space [2][]mover
	low   []float64
}

func (w *walker) charge(n int) { w.t.charge(n) }

// walk reads the tree in pre-order. The line at hand is its first record.
func (w *walker) walk() {
	stack := []node{{a: w.a, b: w.b, self: w.self(), s0: 0, s1: 1}}
	for first := true; len(stack) > 0 && w.t.bad == nil; first = false {
		if !first && !w.t.next() {
			w.t.fail("the file ends inside a tree: %d of its branches are missing", len(stack))
			return
		}
		n := stack[len(stack)-1]
		stack = append(stack[:len(stack)-1], w.record(n)...)
		w.report.Records++
	}
	if w.seams == 0 && w.serves("strip.self.seams") && w.t.bad == nil {
		w.t.fail("a number of seams that no pair is held to")
	}
}

// record checks one record; what it leaves to prove comes back, last first.
func (w *walker) record(n node) []node {
	t := w.t
	if t.named {
		t.fail("a record of a tree has no name")
		return nil
	}
	switch t.words[0] {
	case "A", "B", "S":
		return w.split(n)
	case "T":
		return w.cut(n)
	case "C":
		return w.contact(n)
	case "N":
		w.nothing(n)
	case "P":
		w.plane(n)
	case "W":
		w.swing(n)
	default:
		t.fail("a tree has no record %q", t.words[0])
	}
	return nil
}

// split divides one of the sets: those listed, then the rest.
func (w *walker) split(n node) []node {
	t := w.t
	if !t.want(2, 2, false) {
		return nil
	}
	set := n.a
	if t.is("B") {
		set = n.b
	}
	if n.self != t.is("S") {
		t.fail("pairs within one set are split by S, pairs of two sets by A and B")
		return nil
	}
	in := t.ids(t.words[1], set)
	if t.bad != nil {
		return nil
	}
	rest := without(set, in)
	if len(rest) == 0 {
		t.fail("the split leaves nothing on its other side")
		return nil
	}
	one, two := n, n
	switch {
	case n.self:
		one.a, one.b, two.a, two.b = in, in, rest, rest
		across := n
		across.a, across.b, across.self = in, rest, false
		return []node{two, across, one}
	case t.is("A"):
		one.a, two.a = in, rest
	default:
		one.b, two.b = in, rest
	}
	return []node{two, one}
}

// without is the sorted set less the sorted list in it.
func without(set, in []int) []int {
	out := make([]int, 0, len(set)-len(in))
	k := 0
	for _, x := range set {
		if k < len(in) && in[k] == x {
			k++
			continue
		}
		out = append(out, x)
	}
	return out
}

// cut divides the interval.
func (w *walker) cut(n node) []node {
	if !w.t.want(2, 2, false) {
		return nil
	}
	s := w.t.number(w.t.words[1])
	if w.t.bad == nil && !(n.s0 < s && s < n.s1) {
		w.t.fail("%g does not lie between %g and %g", s, n.s0, n.s1)
	}
	one, two := n, n
	one.s1, two.s0 = s, s
	return []node{two, one}
}

// contact goes over to what is asked of a pair that may touch.
func (w *walker) contact(n node) []node {
	if !w.t.want(1, 1, false) {
		return nil
	}
	switch {
	case n.self || len(n.a) != 1 || len(n.b) != 1:
		w.t.fail("a contact is one pair; here are %d by %d", len(n.a), len(n.b))
	case n.touch || !w.meant(n.a[0], n.b[0]):
		w.t.fail("the pair is not declared to touch in this step")
	case math.IsInf(w.floor(n.a[0], n.b[0], true), -1):
		w.t.fail("nothing is said of what a pair that touches must keep")
	}
	w.report.Contacts++
	w.report.touch(w.floor(n.a[0], n.b[0], true))
	n.touch = true
	return []node{n}
}

// nothing holds that no pair needs a proof.
func (w *walker) nothing(n node) {
	if !w.t.want(1, 1, false) {
		return
	}
	for _, a := range n.a {
		w.charge(8 * len(n.b))
		for _, b := range n.b {
			if w.t.bad != nil {
				return
			}
			if !(w.self() && a == b) && !w.exempt(a, b) {
				w.t.fail("%s is left out against %s", w.carrier.parts[a].mark, w.other(b))
				return
			}
		}
	}
}

// other names what stands against a part.
func (w *walker) other(b int) string {
	if w.self() {
		return w.carrier.parts[b].mark
	}
	s := w.place.solids[b]
	return "solid " + itoa(b) + " of zone " + s.zone
}

// normal reads a direction and makes it a unit vector.
func (w *walker) normal(s string) vec {
	n := w.t.vector(s)
	l := n.length()
	if w.t.bad == nil && !(l > 1e-9) {
		w.t.fail("a normal without a direction")
		return vec{}
	}
	return n.mul(1 / l)
}

// movers are the solids of a node on their rides. They are good until the next node.
func (w *walker) movers(n node) (a, b []mover) {
	frame := ground
	if w.self() {
		frame = w.frame(n)
	}
	clear(w.on)
	w.on = slices.Grow(w.on[:0], len(w.carrier.bodies))[:len(w.carrier.bodies)]
	a, b = w.space[0][:0], w.space[1][:0]
	for _, i := range n.a {
		a = append(a, w.mover(&w.carrier.parts[i], frame, n))
	}
	for _, i := range n.b {
		if w.self() {
			b = append(b, w.mover(&w.carrier.parts[i], frame, n))
			continue
		}
		s := &w.place.solids[i]
		w.charge(8 + len(s.v))
		b = append(b, newMover(still, s.v, s.size))
	}
	w.space = [2][]mover{a, b}
	return a, b
}

func (w *walker) mover(p *part, frame int, n node) mover {
	w.charge(32 + len(p.v))
	r := w.on[p.body]
	if r == nil {
		made, why := w.rides.made, ""
		if r, why = w.rides.ride(&w.carrier.gear, w.step, frame, p.body, n.s0, n.s1); why != "" {
			w.t.fail("the motion cannot be told: %s", why)
			r = still
		}
		w.charge(w.rides.made - made)
		w.on[p.body] = r
	}
	return newMover(r, p.v, p.size)
}

// frame is the nearest common ancestor of all bodies of a node.
func (w *walker) frame(n node) int {
	f := w.carrier.parts[n.a[0]].body
	for _, list := range [2][]int{n.a, n.b} {
		for _, i := range list {
			body := w.carrier.parts[i].body
			w.charge(1 + w.carrier.bodies[body].depth)
			f = w.carrier.common(f, body)
		}
	}
	return f
}

// plane holds every pair of the node against one plane. One pair of moving
// bodies is held vertex by vertex, a set side by side.
func (w *walker) plane(n node) {
	if !w.t.want(2, 2, false) {
		return
	}
	if n.self {
		w.t.fail("a plane lies between two sets")
		return
	}
	normal := w.normal(w.t.words[1])
	a, b := w.movers(n)
	if w.t.bad != nil {
		return
	}
	w.report.Planes++
	dd := (n.s1 - n.s0) * (n.s1 - n.s0)
	if len(a) == 1 && len(b) == 1 {
		got := 0.0
		if a[0].moves && b[0].moves {
			w.charge(len(a[0].v) * len(b[0].v))
			got = together(&a[0], &b[0], normal, dd)
		} else {
			got = plane(&a[0], &b[0], normal, dd)
		}
		w.hold(n, n.a[0], n.b[0], got)
		return
	}
	w.sides(n, a, b, normal, dd)
}

// sides holds every pair of two sets that is not exempt, each side by itself. What a
// solid keeps from the nearest of the others at the greatest rounding of any, it keeps
// from all of them: sums are rounded in the same order as what they are of.
func (w *walker) sides(n node, a, b []mover, normal vec, dd float64) {
	worst := w.worst(n, b, normal, dd)
	back := normal.mul(-1)
	for i := range a {
		w.charge(8 * len(b))
		if w.t.bad != nil {
			return
		}
		own := a[i].lowest(a[i].v, back, dd)
		keeps := func(k int) { w.hold(n, n.a[i], n.b[k], own+w.low[k]-rounding(a[i].inexact, b[k].inexact)) }
		if own+worst.low-rounding(a[i].inexact, worst.inexact) >= math.Max(w.free[n.a[i]], worst.free) {
			w.eachSeam(n, i, keeps)
			continue
		}
		for k := range b {
			if !w.exempt(n.a[i], n.b[k]) {
				keeps(k)
			}
			if w.t.bad != nil {
				return
			}
		}
	}
}

// eachSeam goes through those of the second set that part i of the first is at a
// seam with: of them more may be asked than of others.
func (w *walker) eachSeam(n node, i int, do func(k int)) {
	if !w.self() {
		return
	}
	seams := w.carrier.seamsOf[n.a[i]]
	w.charge(len(seams))
	for _, part := range seams {
		if k, there := slices.BinarySearch(n.b, part); there && !w.exempt(n.a[i], part) {
			do(k)
		}
	}
}

// worst is the least and the most of some solids along a normal.
type worst struct {
	low  float64 // how far off the nearest begins
	free float64 // the most that is asked of any, among parts themselves
	inexact
}

func (w *walker) worst(n node, b []mover, normal vec, dd float64) worst {
	out := worst{low: math.Inf(1), free: math.Inf(-1)}
	w.low = w.low[:0]
	for k := range b {
		low := b[k].lowest(b[k].v, normal, dd)
		w.low = append(w.low, low)
		out.low, out.inexact = min(out.low, low), out.worse(b[k].inexact)
		if w.self() {
			out.free = math.Max(out.free, w.free[n.b[k]])
		}
	}
	return out
}

// hold compares what a record shows with what is asked. The number of seams is one
// of the result, so that it holds a seam with a contact or without.
func (w *walker) hold(n node, a, b int, got float64) {
	floor := w.floor(a, b, n.touch)
	if w.self() && w.meant(a, b) {
		w.seams++
		if !n.touch {
			floor = math.Max(floor, w.floor(a, b, true))
		}
	}
	if !(got >= floor) {
		w.t.fail("shows that %s keeps %.9g m from %s for s from %g to %g, and %.9g m are asked", w.carrier.parts[a].mark, got, w.other(b), n.s0, n.s1, floor)
	}
}

// swing holds one pair against a plane that turns.
func (w *walker) swing(n node) {
	if !w.t.want(3, 3, false) {
		return
	}
	if n.self || len(n.a) != 1 || len(n.b) != 1 {
		w.t.fail("a plane that turns is for one pair")
		return
	}
	n0, n1 := w.normal(w.t.words[1]), w.normal(w.t.words[2])
	a, b := w.movers(n)
	if w.t.bad != nil {
		return
	}
	w.charge(len(a[0].v) * len(b[0].v))
	w.report.Swings++
	w.hold(n, n.a[0], n.b[0], swung(&a[0], &b[0], n0, n1, (n.s1-n.s0)*(n.s1-n.s0)))
}
