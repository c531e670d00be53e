package sweep

import (
	"math"
	"sync"

	"boxwalk/clearance/gap"
)

// work is the memory of one search. It is reused between searches; nothing in
// it outlives one, so the answer does not depend on who used it before.
type work struct {
	cache   cache
	queue   queue
	t       stretch
	part    Part
	against []Part
	ref     int

	epsilon float64 // how far below the best upper bound still matters
	cap     float64 // what is proved to stay above it does not matter
	low     float64 // least bound of everything settled
	best    Bracket
	seen    float64 // the last distance evaluated
	held    bool    // the target is the cap alone
	still   bool    // only planes fixed in ref
	lost    bool    // the motion gave numbers that are not finite
	one     [1]Part
}

var pool = sync.Pool{New: func() any { return new(work) }}

// narrowest is the width, relative to the interval asked for, below which an
// interval is not split again, and expansions the number of nodes after which
// a search stops. Either leaves a wide bracket. The motions of a carrier need
// tens of nodes.
const (
	narrowest  = 0x1p-40
	expansions = 1 << 14
)

// Least brackets the least signed distance between part and the solids of
// against over [s0, s1], all seen from the frame ref; take ref as the nearest
// common ancestor of the bodies, where common motion drops out. All of against
// are searched together: those that cannot set the minimum cost a box test or
// one query. With nothing to meet both ends are +Inf.
//
// The answer depends on the arguments only, not on how many goroutines search.
// It does not allocate once warm.
func Least(m Motion, ref int, part Part, against []Part, s0, s1 float64, o Options) Bracket {
	w := pool.Get().(*work)
	defer w.release()
	return w.least(m, ref, part, against, s0, s1, o)
}

func (w *work) least(m Motion, ref int, part Part, against []Part, s0, s1 float64, o Options) Bracket {
	w.reset(m, ref, part, against)
	w.epsilon, w.cap = o.Epsilon*(1-1e-9), math.Inf(1)
	if !(o.Epsilon > 0) {
		w.epsilon = DefaultEpsilon * (1 - 1e-9)
	}
	if o.Cap > 0 {
		w.cap = o.Cap
	}
	w.seed(math.Min(s0, s1), math.Max(s0, s1))
	w.run(math.Abs(s1-s0) * narrowest)
	return w.answer()
}

// release gives the memory back without what it points to.
func (w *work) release() {
	w.part, w.against, w.one = Part{}, nil, [1]Part{}
	w.t.a.part, w.t.b.part = Part{}, Part{}
	pool.Put(w)
}

func (w *work) reset(m Motion, ref int, part Part, against []Part) {
	w.cache.reset(m, ref)
	w.t.a.loaded, w.t.b.loaded = false, false
	w.ref, w.part, w.against = ref, part, against
	w.queue = w.queue[:0]
	w.low, w.best = math.Inf(1), unknown()
	w.held, w.still, w.lost = false, false, false
}

// target is the bound from which a pair no longer matters.
func (w *work) target() float64 {
	if w.held {
		return w.cap
	}
	return math.Min(w.best.Upper-w.epsilon, w.cap)
}

// seed queues every pair over the whole interval, bounded by its boxes.
func (w *work) seed(s0, s1 float64) {
	a := &w.t.a
	if len(w.against) == 0 {
		return
	}
	if !a.load(&w.cache, w.part, s0, s1) || !(s1-s0 >= 0) {
		w.lost = true
		return
	}
	around := a.around(s1 - s0)
	for i := range w.against {
		o, ok := w.other(i, s0, s1)
		if !ok {
			w.lost = true
			return
		}
		n := node{lower: around.gap(&o) - 2*(a.off()+w.t.b.off()), s0: s0, s1: s1, against: i}
		if n.lower >= w.cap {
			w.settle(n.lower)
			continue
		}
		w.queue.push(&n)
	}
}

// other is the box of against[i] over the interval.
func (w *work) other(i int, s0, s1 float64) (swept, bool) {
	b := &w.t.b
	if !b.load(&w.cache, w.against[i], s0, s1) {
		return swept{}, false
	}
	if b.still {
		return boxAround(b.part.Solid, &b.p0), true
	}
	return b.around(s1 - s0), true
}

// settle records the bound of something that needs no more looking at.
func (w *work) settle(lower float64) { w.low = math.Min(w.low, lower) }

// run takes the node with the least bound until none matters. What is left in
// the queue is then bounded by the node at its head.
func (w *work) run(narrow float64) {
	var n node
	for k := 0; len(w.queue) > 0 && !w.lost; k++ {
		w.queue.pop(&n)
		if n.lower >= w.target() || k >= expansions {
			w.settle(n.lower)
			return
		}
		at := w.bound(&n)
		if n.lower >= w.target() {
			w.settle(n.lower)
			continue
		}
		w.split(&n, at, narrow)
	}
}

// split cuts a piece out of the node around s = at, where the pair was last
// seen, and queues it and what is left on either side. The piece is as wide as
// curvature K allows the distance seen to stay above the target when it is a
// minimum, and an eighth of the node at least: K h²/2 = seen - target with h on
// either side.
func (w *work) split(n *node, at, narrow float64) {
	d := n.s1 - n.s0
	h := d / 8
	if k := 8 * w.t.bow() / (d * d); k > 0 {
		h = math.Max(h, 0.9*math.Sqrt(2*math.Max(0, w.seen-w.target())/k))
	}
	from, to := at-h, at+h
	if !(h < 3*d/8) || from > n.s0 && to < n.s1 && 2*h > d/2 {
		from, to = n.s0+d/2, n.s1
	}
	if d <= narrow || !w.cut(n, from, to) {
		w.settle(n.lower)
	}
}

// cut queues n in up to three pieces, cut at from and to where they fall
// inside; false if neither does.
func (w *work) cut(n *node, from, to float64) bool {
	piece := *n
	for _, s := range [2]float64{from, to} {
		if s > piece.s0 && s < n.s1 {
			left := piece
			left.s1, left.n1 = s, gap.XYZ{}
			piece.s0, piece.n0 = s, gap.XYZ{}
			w.queue.push(&left)
		}
	}
	if piece.s0 == n.s0 {
		return false
	}
	w.queue.push(&piece)
	return true
}

func (w *work) answer() Bracket {
	if w.lost {
		return unknown()
	}
	if w.low >= w.cap {
		b := unknown()
		b.Lower = w.low
		return b
	}
	w.best.Lower = w.low
	return w.best
}
