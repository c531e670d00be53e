package sweep

import (
	"math"

	"boxwalk/clearance/gap"
)

// bound raises n.lower by planes until it reaches the target or there are no
// more to try, and returns where along the interval the solids seem nearest. On
// the way it offers what it evaluates as upper bounds. The planes, cheapest
// first: the one inherited; the one from the hull of both ends, if that keeps
// off the origin; the exact normal where the pair is nearest; the exact normals
// at the two ends; and the one that swings from end to end.
func (w *work) bound(n *node) (at float64) {
	at = n.s0 + (n.s1-n.s0)/2
	t := &w.t
	if !t.load(&w.cache, w.part, w.against[n.against], n.s0, n.s1) {
		w.lost = true
		return at
	}
	if w.tried(n, n.n) {
		return at
	}
	h := gap.OverEnds(w.part.Solid, t.b.part.Solid, &t.a.p0, &t.b.p0, &t.a.p1, &t.b.p1, n.n, w.target()+t.bow()+2*t.e)
	if h.Touch {
		if !w.ends(n) {
			w.tried(n, w.exact(n, at))
		}
		return at
	}
	if w.tried(n, h.N) {
		return at
	}
	at = math.Min(n.s1, n.s0+h.At*(n.s1-n.s0))
	if !w.tried(n, w.exact(n, at)) && t.turns() {
		seen := w.seen
		w.ends(n)
		w.seen = seen
	}
	return at
}

// ends tries the exact normals at both ends and the plane that swings between
// them.
func (w *work) ends(n *node) (settled bool) {
	if n.n0 == (gap.XYZ{}) {
		n.n0 = w.exact(n, n.s0)
	}
	if w.tried(n, n.n0) || n.s0 == n.s1 {
		return true
	}
	if n.n1 == (gap.XYZ{}) {
		n.n1 = w.exact(n, n.s1)
	}
	if w.tried(n, n.n1) || w.lost {
		return true
	}
	if !w.still && w.t.turns() {
		n.lower = math.Max(n.lower, w.t.swing(n.n0, n.n1))
	}
	return n.lower >= w.target()
}

// tried raises the node's bound by the plane p, keeps the plane if it is the
// best yet, and tells whether the node still matters.
func (w *work) tried(n *node, p gap.XYZ) (settled bool) {
	if p == (gap.XYZ{}) {
		return false
	}
	if lower := w.t.plane(p); lower > n.lower {
		n.lower, n.n = lower, p
	}
	return n.lower >= w.target()
}

// exact evaluates the node's pair at s, offers the distance as an upper bound
// and returns the normal.
func (w *work) exact(n *node, s float64) gap.XYZ {
	r, e := w.distance(n.against, s)
	if w.lost {
		return gap.XYZ{}
	}
	w.seen = r.Distance
	w.offer(n.against, s, &r, e)
	return gap.FromVec(r.N)
}

func (w *work) offer(against int, s float64, r *gap.Result, e float64) {
	if upper := up(r.Distance + r.Slack + e); upper < w.best.Upper {
		w.best = Bracket{Upper: upper, At: s, Against: against, N: r.N, A: r.A, B: r.B}
	}
}

// distance is the exact query at s, and E there.
func (w *work) distance(against int, s float64) (gap.Result, float64) {
	b := w.against[against]
	pa := *w.cache.pose(w.part.Body, s) // the cache may move what it holds
	pb := w.cache.pose(b.Body, s)
	if !finite(&pa.pose) || !finite(&pb.pose) || !bounds(pa.errorBound) || !bounds(pb.errorBound) {
		w.lost = true
		return gap.Result{}, 0
	}
	e := offAt(w.part.Solid, pa.pose.T.Len(), pa.errorBound) + offAt(b.Solid, pb.pose.T.Len(), pb.errorBound)
	return gap.Between(w.part.Solid, b.Solid, &pa.pose, &pb.pose), e
}

// At brackets the least signed distance between part and the solids of against
// at one s; the bracket is as wide as rounding only.
func At(m Motion, ref int, part Part, against []Part, s float64) Bracket {
	w := pool.Get().(*work)
	defer w.release()
	w.reset(m, ref, part, against)
	w.epsilon, w.cap = 0, math.Inf(1)
	w.seed(s, s)
	var n node
	for len(w.queue) > 0 && !w.lost {
		w.queue.pop(&n)
		if n.lower >= w.best.Upper {
			w.settle(n.lower)
			break
		}
		r, e := w.distance(n.against, s)
		w.settle(down(r.Distance - r.Slack - e))
		w.offer(n.against, s, &r, e)
	}
	return w.answer()
}
