package fix

import (
	"math"
	"sync"
)

// fix searches one dimension both ways for a change that is smaller than
// within, and takes the lesser.
func (t *trials) fix(d dimension, now shortfall, within float64) (Fix, bool) {
	ways := [2]int{1, -1}
	var steps [2]int
	var found [2]bool
	both(func(i int) { steps[i], found[i] = t.least(d, ways[i], now, d.reaches(within)) })
	n := ways[0] * steps[0]
	if !found[0] || (found[1] && steps[1] < steps[0]) {
		n = ways[1] * steps[1]
	}
	c := Fix{Dimension: d.name, Ease: d.ease, File: d.file, Key: d.key, From: d.from, To: d.value(n), Step: d.step, Stepless: !d.stepped, dimension: d}
	return c, (found[0] || found[1]) && c.Size() < within
}

// both does two things at once, and panics with what either panics with, where
// it can be caught.
func both(do func(i int)) {
	var broken [2]any
	var wg sync.WaitGroup
	for i := range broken {
		wg.Go(func() {
			defer func() { broken[i] = recover() }()
			do(i)
		})
	}
	wg.Wait()
	for _, p := range broken {
		if p != nil {
			panic(p)
		}
	}
}

// firm is the shortfall with that many steps one way. What passes there alone,
// and no more with one step farther, is no fix: a filler exactly as wide as the
// plate beside it passes, and a millimetre either way it does not.
func (t *trials) firm(d dimension, way, n int) shortfall {
	f := t.at(d, d.value(way*n))
	if farther := d.value(way * (n + 1)); f.passes() && !d.stepped && farther >= d.least && farther <= d.most {
		return t.at(d, farther)
	}
	return f
}

// patience is for how many steps nothing may change before a search gives up.
const patience = 1 << 6

// least is the least number of steps one way that passes, within reach, such
// that one step less does not. Strides double as long as they bring the job
// nearer to passing, and grow faster while nothing changes; when one goes too
// far, the best place before it is closed in on.
func (t *trials) least(d dimension, way int, now shortfall, reach int) (int, bool) {
	stride, fails, at := 4, 0, now
	if d.stepped {
		stride = 1
	}
	for stride = min(stride, reach); stride > fails; stride = min(stride, reach) {
		next := t.firm(d, way, stride)
		switch {
		case next.passes():
			return t.close(d, way, fails, stride), true
		case next.better(at):
			if hopeless(now, next, stride, reach-stride) {
				return 0, false
			}
			fails, at = stride, next
			stride *= 2
		case next == at && stride < min(patience, reach):
			stride *= 16 // it has no part in what is missing, so far
		case !at.better(next) && stride < min(patience, reach):
			stride *= 4 // nothing changes yet
		case fails == 0:
			return 0, false
		case hopeless(now, at, fails, stride-fails):
			return 0, false
		default:
			return t.between(d, way, now, fails/2, stride)
		}
	}
	return 0, false
}

// hopeless tells whether so little was gained with the best number of steps so
// far that nobody expects a pass within that many steps of it: a change gains
// about as much with each step until it goes too far, and four times that is
// allowed for.
func hopeless(now, best shortfall, steps, room int) bool {
	const sudden = 4
	gained := (now.sum - best.sum) / float64(steps)
	return best.stage == now.stage && now.sum < undecided && sudden*gained*float64(room) < best.sum
}

// between looks for a pass among strides where nearness to passing rises and
// falls again, then closes in on its beginning. Golden section: what one round
// tried, the next has at one of its two places.
func (t *trials) between(d dimension, way int, now shortfall, lo, hi int) (int, bool) {
	const golden = 0.381966
	tried := map[int]shortfall{}
	at := func(n int) shortfall {
		f, ok := tried[n]
		if !ok {
			f = t.firm(d, way, n)
			tried[n] = f
		}
		return f
	}
	a := lo + int(math.Round(golden*float64(hi-lo)))
	for hi-lo > 2 {
		if 2*a >= lo+hi || a <= lo { // rounding took the two places into one
			a = lo + (hi-lo)/3
		}
		b := lo + hi - a
		fa := at(a)
		if fa.passes() {
			return t.close(d, way, lo, a), true
		}
		fb := at(b)
		if fb.passes() {
			return t.close(d, way, a, b), true
		}
		switch {
		case fa.better(fb):
			if hopeless(now, fa, a, b-lo) {
				return 0, false
			}
			hi, a = b, lo+b-a
		case fb.better(fa):
			if hopeless(now, fb, b, hi-a) {
				return 0, false
			}
			lo, a = a, b
		default:
			return 0, false // nothing changes here
		}
	}
	if k := lo + 1; k < hi && at(k).passes() {
		return t.close(d, way, lo, k), true
	}
	return 0, false
}

// close bisects between a number of steps that fails and one that passes.
func (t *trials) close(d dimension, way, fails, passes int) int {
	for passes-fails > 1 {
		if mid := (fails + passes) / 2; t.firm(d, way, mid).passes() {
			passes = mid
		} else {
			fails = mid
		}
	}
	return passes
}
