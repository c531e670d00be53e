package sweep

import (
	"math"

	"boxwalk/clearance/gap"
)

// bound raises n.lower by planes until it reaches the target or there are no
// more to try, and returns where along the interval the solids seem nearest.
// On the way it offers what it evaluates as upper bounds. The planes, cheapest
// first: the one inherited; the one from the hull of both ends, if that keeps
// off the origin; and the exact normals where the pair is nearest or, in
// contact and overlap, at the two ends and in the middle.
func (w *work) bound(n *node) (at float64) {
	at = n.s0 + (n.s1-n.s0)/2
	t := &w.t
	if !t.load(&w.cache, w.part, w.against[n.against], n.s0, n.s1, w.joints[n.against]) {
		w.lost = true
		return at
	}
	if w.tried(n, n.n) {
		return at
	}
	h := gap.OverEnds(w.part.Solid, t.b.part.Solid, &t.a.p0, &t.b.p0, &t.a.p1, &t.b.p1, n.n, w.target()+t.bow()+2*t.e)
	if h.Touch {
		w.touching(n, at)
		return at
	}
	if w.tried(n, h.N) {
		return at
	}
	at = math.Min(n.s1, n.s0+h.At*(n.s1-n.s0))
	w.tried(n, w.exact(n.against, at))
	return at
}

// touching bounds a pair whose hull over the ends meets.
func (w *work) touching(n *node, middle float64) {
	if n.n0 == (gap.XYZ{}) {
		n.n0 = w.exact(n.against, n.s0)
	}
	if w.tried(n, n.n0) || n.s0 == n.s1 {
		return
	}
	if n.n1 == (gap.XYZ{}) {
		n.n1 = w.exact(n.against, n.s1)
	}
	if w.tried(n, n.n1) {
		return
	}
	w.tried(n, w.exact(n.against, middle))
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

// exact evaluates the pair at s, offers the distance as an upper bound and
// returns the normal.
func (w *work) exact(against int, s float64) gap.XYZ {
	r, e := w.distance(against, s)
	if w.lost {
		return gap.XYZ{}
	}
	if upper := up(r.Distance + r.Slack + e); upper < w.best.Upper {
		w.best = Bracket{Upper: upper, At: s, Against: against, N: r.N, A: r.A, B: r.B}
	}
	return gap.FromVec(r.N)
}

// distance is the exact query at s, and E there.
func (w *work) distance(against int, s float64) (gap.Result, float64) {
	b := w.against[against]
	pa := *w.cache.pose(w.part.Body, s)
	pb := *w.cache.pose(b.Body, s)
	if !finite(&pa) || !finite(&pb) {
		w.lost = true
		return gap.Result{}, 0
	}
	size := w.part.Solid.Reach() + b.Solid.Reach() + 2*pa.T.Len() + 2*pb.T.Len()
	return gap.Between(w.part.Solid, b.Solid, pa, pb), rounding(w.joints[against], size)
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
		if upper := up(r.Distance + r.Slack + e); upper < w.best.Upper {
			w.best = Bracket{Upper: upper, At: s, Against: n.against, N: r.N, A: r.A, B: r.B}
		}
	}
	return w.answer()
}
