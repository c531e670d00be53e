package sweep

import "math"

// tries is the number of nodes after which Clears gives up. A pair that one or two
// planes do not hold apart is as well searched.
const tries = 24

// Clears tells whether part is proved to stay at least floor away from all of against
// over [s0, s1], seen from the frame ref. False says nothing: it stops at the first
// distance below floor that it sees, and soon where planes do not settle it.
func Clears(m Motion, ref int, part Part, against []Part, s0, s1, floor float64) bool {
	w := pool.Get().(*work)
	defer w.release()
	w.reset(m, ref, part, against)
	w.cap, w.held = floor, true
	w.seed(s0, s1)
	narrow := math.Abs(s1-s0) * narrowest
	var n node
	for k := 0; len(w.queue) > 0 && !w.lost; k++ {
		w.queue.pop(&n)
		if n.lower >= floor {
			w.settle(n.lower) // of all that is left the least
			break
		}
		if k == tries {
			return false
		}
		at := w.bound(&n)
		if w.best.Upper < floor {
			return false
		}
		if n.lower >= floor {
			w.settle(n.lower)
			continue
		}
		w.split(&n, at, narrow)
	}
	return !w.lost && w.low >= floor
}
