package motion

import (
	"fmt"
	"math"
	"slices"
)

// Between is how the body may stand between two rests: where its centre of
// gravity may be on either side of a wheel line that stands on a crest, it tips
// over that line, from standing on it and the one behind to standing on it and
// the one ahead. Each stretch holds the line ahead at one height above its
// ground, every apart from the next, the first and the last half of that from
// the rests, over as much of the way as it hangs that high or higher in the rest
// behind. So the line ahead hangs at most every/2 higher or lower in one of the
// stretches or rests, with the rear guide at the same place, than however the
// body may stand. most is how high it ever hangs, zero for a body on two wheel
// lines.
func (r *Ride) Between(every float64) (out []Stretch, most float64, err error) {
	for i := 1; i < len(r.Ways); i++ {
		for _, x := range r.Ways[i-1].Stretches {
			for _, y := range r.Ways[i].Stretches {
				behind, ok1 := x.(*Glide)
				ahead, ok2 := y.(*Glide)
				if !ok1 || !ok2 {
					continue
				}
				list, high, err := between(behind, ahead, every)
				if err != nil {
					return nil, 0, err
				}
				out, most = append(out, list...), math.Max(most, high)
			}
		}
	}
	return out, most, nil
}

// between are the stretches over what two glides have in common.
func between(behind, ahead *Glide, every float64) (out []Stretch, most float64, err error) {
	lo := math.Max(math.Min(behind.from, behind.to), math.Min(ahead.from, ahead.to))
	hi := math.Min(math.Max(behind.from, behind.to), math.Max(ahead.from, ahead.to))
	// where both rests come together one may change its footing a nudge later
	if !(hi-lo > 2*nudge) || behind.on.same(ahead.on) {
		return nil, 0, nil
	}
	if behind.on.high != ahead.on.low {
		return nil, 0, fmt.Errorf("the two rests of the body with its rear guide at %g m share no wheel line", lo)
	}
	hang := func(t float64) float64 { return behind.hang(t, ahead.on) }
	for _, piece := range monotone(hang, lo, hi) {
		high := math.Max(hang(piece[0]), hang(piece[1]))
		if !(high < 1) {
			return nil, 0, fmt.Errorf("a wheel line hangs %g m above the ground with the rear guide at %g m", high, piece[0])
		}
		most = math.Max(most, high)
		for h := every / 2; h < high; h += every {
			from, to := above(hang, h, piece[0], piece[1])
			on := ahead.on
			on.hang = h
			out = append(out, ahead.g.glide(on, from, to))
		}
	}
	return out, most, nil
}

// same tells whether two footings are one rest: on the same wheel lines, or on
// one plane.
func (f footing) same(o footing) bool {
	return f.low == o.low && f.high == o.high || f.lowOn == f.highOn && f.highOn == o.lowOn && o.lowOn == o.highOn
}

// hang is how far above its ground the line ahead of another footing is, with
// the rear guide at t.
func (d *Glide) hang(t float64, on footing) float64 {
	s := 0.0
	if d.from != d.to {
		s = (t - d.from) / (d.to - d.from)
	}
	p, e := d.g.course[d.on.rear].point(t), d.ahead(s)
	a, l := d.g.lever(on.high), d.g.lever(d.on.low)
	carried := d.g.planes[d.on.lowOn].under(p.Add(flat(e).Mul(l))) + (a-l)*e[2]
	return carried - d.g.planes[on.highOn].under(p.Add(flat(e).Mul(a)))
}

// monotone cuts an interval where f, convex or concave, turns.
func monotone(f func(t float64) float64, lo, hi float64) [][2]float64 {
	cuts := []float64{lo, least(f, lo, hi), least(func(t float64) float64 { return -f(t) }, lo, hi), hi}
	slices.Sort(cuts)
	var out [][2]float64
	for i := range cuts[1:] {
		if cuts[i+1]-cuts[i] > 1e-9 {
			out = append(out, [2]float64{cuts[i], cuts[i+1]})
		}
	}
	return out
}

// least is where a convex f is least, by thirds; an end where it is not convex.
func least(f func(t float64) float64, lo, hi float64) float64 {
	a, b := lo, hi
	for range 100 {
		x, y := a+(b-a)/3, b-(b-a)/3
		if f(x) > f(y) {
			a = x
		} else {
			b = y
		}
	}
	return a
}

// above is the part of an interval on which f, that grows or falls, is at least
// h; it reaches h at one end at least.
func above(f func(t float64) float64, h, lo, hi float64) (from, to float64) {
	switch rises := f(lo) < f(hi); {
	case f(lo) >= h && f(hi) >= h:
		return lo, hi
	case rises:
		return firstAbove(lo, hi, func(t float64) float64 { return f(t) - h }), hi
	default:
		return lo, firstAbove(lo, hi, func(t float64) float64 { return h - f(t) })
	}
}
