package sweep

import (
	"math"

	"boxwalk/clearance/gap"
)

// First finds the first s of [s0, s1] at which the signed distance of a and b,
// seen from ref, is less than -below.
//
// found: the pair is proved to stay at or above -below on [s0, lo], and is
// below it at hi, where it was evaluated. hi - lo <= resolution, except when
// the pair came so near to -below before hi that neither can be shown there.
//
// Not found: lo == hi == s1 if the whole interval is proved clear. Otherwise
// lo < hi: clear is proved up to lo only (nothing at all if lo <= s0), and
// nothing is known about the rest, except that no violation was met. Never take
// that for clear. lo is -Inf for an interval that is none.
func First(m Motion, ref int, a, b Part, s0, s1, below, resolution float64) (lo, hi float64, found bool) {
	if !(s0 <= s1) {
		return math.Inf(-1), s1, false
	}
	w := pool.Get().(*work)
	defer w.release()
	w.one[0] = b
	w.reset(m, ref, a, w.one[:])
	f := firstSearch{work: w, limit: -below, resolution: resolution, proved: s0, end: s1}
	f.floor = math.Max(resolution/64, (s1-s0)*narrowest)
	w.cap, w.held = -below, true
	if f.below(s0) {
		return s0, s0, true
	}
	n := node{lower: math.Inf(-1), s0: s0, s1: s1}
	hi, found = f.search(&n)
	if !found && !f.stuck && !w.lost {
		return s1, s1, false
	}
	if !found {
		hi = s1
		if s0 == s1 {
			f.proved = math.Inf(-1)
		}
	}
	return f.proved, hi, found
}

// firstBudget is the number of intervals after which First gives up; a pair
// that hovers at the limit for a long way would use any number.
const firstBudget = 1 << 12

type firstSearch struct {
	*work
	limit, resolution, floor float64
	end                      float64
	proved                   float64 // clear is proved up to here
	stuck                    bool    // something before was neither clear nor violated
	spent                    int
}

// search goes through n from left to right and returns the first violation.
func (f *firstSearch) search(n *node) (hi float64, found bool) {
	f.spent++
	at := f.bound(n)
	if f.lost {
		return 0, false
	}
	if n.lower >= f.limit {
		f.clear(n)
		return 0, false
	}
	d := n.s1 - n.s0
	if d <= f.resolution && f.below(n.s1) {
		return n.s1, true
	}
	middle := n.s0 + d/2
	if d <= f.floor || f.spent > firstBudget || middle <= n.s0 || middle >= n.s1 {
		return f.giveUp(n, at)
	}
	left, right := *n, *n
	left.s1, left.n1 = middle, gap.XYZ{}
	right.s0, right.n0 = middle, gap.XYZ{}
	if hi, found = f.search(&left); found || f.lost {
		return hi, found
	}
	return f.search(&right)
}

func (f *firstSearch) clear(n *node) {
	if !f.stuck {
		f.proved = n.s1
	}
}

// giveUp leaves an interval undecided, unless one of three looks shows a
// violation.
func (f *firstSearch) giveUp(n *node, at float64) (hi float64, found bool) {
	for _, s := range [3]float64{at, n.s0 + (n.s1-n.s0)/2, n.s1} {
		if f.below(s) {
			return s, true
		}
	}
	f.stuck = true
	return 0, false
}

// below tells whether the pair is certainly below the limit at s.
func (f *firstSearch) below(s float64) bool {
	r, e := f.distance(0, s)
	return !f.lost && r.Distance+r.Slack+e < f.limit
}
