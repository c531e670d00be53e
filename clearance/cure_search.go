package clearance

import "sync"

// cure searches one dimension both ways for a change that is smaller than
// within, and takes the lesser.
func (t *trials) cure(d dimension, now shortfall, within float64) (Cure, bool) {
	ways := [2]int{1, -1}
	var steps [2]int
	var found [2]bool
	both(func(i int) { steps[i], found[i] = t.least(d, ways[i], now, d.reaches(within)) })
	n := ways[0] * steps[0]
	if !found[0] || (found[1] && steps[1] < steps[0]) {
		n = ways[1] * steps[1]
	}
	c := Cure{Dimension: d.name, File: d.file, Key: d.key, From: d.from, To: d.value(n), Step: d.step, Stepless: !d.stepped, dimension: d}
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
		next := t.at(d, d.value(way*stride))
		switch {
		case next.passes():
			return t.close(d, way, fails, stride), true
		case next.better(at):
			fails, at = stride, next
			stride *= 2
		case next == at && stride < min(patience, reach):
			stride *= 16 // it has no part in what is missing, so far
		case !at.better(next) && stride < min(patience, reach):
			stride *= 4 // nothing changes yet
		case fails == 0:
			return 0, false
		default:
			return t.between(d, way, fails/2, stride)
		}
	}
	return 0, false
}

// between looks for a pass among strides where nearness to passing rises and
// falls again (ternary search), then closes in on its beginning.
func (t *trials) between(d dimension, way, lo, hi int) (int, bool) {
	for hi-lo > 2 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		fa := t.at(d, d.value(way*a))
		if fa.passes() {
			return t.close(d, way, lo, a), true
		}
		fb := t.at(d, d.value(way*b))
		if fb.passes() {
			return t.close(d, way, a, b), true
		}
		switch {
		case fa.better(fb):
			hi = b
		case fb.better(fa):
			lo = a
		default:
			return 0, false // nothing changes here
		}
	}
	if k := lo + 1; k < hi && t.at(d, d.value(way*k)).passes() {
		return t.close(d, way, lo, k), true
	}
	return 0, false
}

// close bisects between a number of steps that fails and one that passes.
func (t *trials) close(d dimension, way, fails, passes int) int {
	for passes-fails > 1 {
		if mid := (fails + passes) / 2; t.at(d, d.value(way*mid)).passes() {
			passes = mid
		} else {
			fails = mid
		}
	}
	return passes
}
