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
//
// It returns an error where the rests share no wheel line, where wheel lines are
// too near each other for Within to bound what lies between the stretches, and
// where a body that is moved over before and after it rolls stands over a crest
// then: those moves lead from rest to rest only.
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
	if r.g.carriage.Beside != r.g.carriage.Guide && r.standsOverCrest() {
		return nil, 0, fmt.Errorf("the body is moved over where it may stand on either side of a wheel line over a crest")
	}
	if turn := r.g.turn(every); most > standing && !(turn > 0 && turn < mostTurn) {
		return nil, 0, fmt.Errorf("the wheel lines are too near each other to tell how a body may stand between two rests over these breaks of grade")
	}
	return out, most, nil
}

// standsOverCrest tells whether two rests differ where the ride begins or ends.
func (r *Ride) standsOverCrest() bool {
	for i := 1; i < len(r.Ways); i++ {
		first, last := r.Ways[i-1].ends()
		otherFirst, otherLast := r.Ways[i].ends()
		if !first.on.same(otherFirst.on) && first.hang(first.from, otherFirst.on) > standing ||
			!last.on.same(otherLast.on) && last.hang(last.to, otherLast.on) > standing {
			return true
		}
	}
	return false
}

// ends are the first and the last glide of a way; every way has one.
func (w RideWay) ends() (first, last *Glide) {
	for _, x := range w.Stretches {
		if d, ok := x.(*Glide); ok {
			if first == nil {
				first = d
			}
			last = d
		}
	}
	return first, last
}

// standing is a height that a wheel line hangs by and stands for all that: what
// heights are rounded by.
const standing = 1e-9

// mostTurn between two poses that are swept is beyond what a bound means anything
// for: 60 mm at 6 m.
const mostTurn = 0.01

// Within is how far, at most, a point of the body is from where it is in one of
// the ways or of the stretches of Between, however the body stands. arm is the
// point's distance, seen from the side, from the inner wheel line farthest from
// it, at axle height.
//
// The body stands with its rear guide where one that is swept has it, turned
// against that about the wheel line that carries in both; the line ahead, L
// further on, is no more than every/2 higher or lower. With the pivot a ahead of
// the guide, on a plane of grade gl, and the line ahead over one of gh, its height
// over that is, at pitch p and but for constants,
//
//	H = z + (a + L) sin p - gh (a + L) cos p, z = gl a cos p - a sin p,
//	dH/dp = L cos p + sin p (gh L + (gh - gl) a) >= L (1 - 3/2 g²) - d g a
//
// where no pitch or grade is beyond g and no two grades differ by more than d. A
// point moves by the turn times its distance from the pivot, and along with the
// pivot by at most the turn times g a sqrt(1 + g²).
//
// A pose that is swept keeps the planes of the rest ahead until a wheel or guide
// of that rest passes a bend. In plan the body is shorter or longer between the
// rests by at most base g²/2, over which way it may be on the next plane or
// straight: pivot and line ahead are then off by d, the turns in it, times that.
// Where a wheel passes a bend up to two nudges of the way are left out, over which
// a point goes about as far.
func (r *Ride) Within(every, arm float64) float64 {
	g, d := r.g.steepest()
	base := r.g.span()
	return r.g.turn(every)*(arm+g*base*math.Hypot(1, g)) + d*base*g*g/2*(1+2*arm/r.g.shortest()) + 4*nudge
}

// turn is that of Within; not positive where nothing bounds it.
func (g *ground) turn(every float64) float64 {
	steep, d := g.steepest()
	lever := g.shortest()
	return every / 2 / (lever*(1-1.5*steep*steep) - d*steep*(g.span()-lever))
}

// steepest is the greatest slope on the track, of a plane or of a body whose wheel
// lines stand on either side of a step, and all breaks and turns added up.
func (g *ground) steepest() (slope, breaks float64) {
	var grade, step float64
	for i, k := range g.track.spans {
		grade = math.Max(grade, math.Abs(k.grade))
		if i > 0 {
			before := g.track.spans[i-1]
			breaks += math.Abs(k.grade-before.grade) + math.Abs(k.heading-before.heading)
			step += math.Abs(k.heightAt(k.from) - before.heightAt(k.from))
		}
	}
	return grade + step/g.shortest(), breaks
}

// span is the distance between the first and the last of the wheel lines and
// guides.
func (g *ground) span() float64 {
	c := g.carriage
	return math.Max(c.Front, c.Wheels[len(c.Wheels)-1]) - math.Min(c.Rear, c.Wheels[0])
}

// shortest is the least distance from an inner wheel line to the one ahead of it.
func (g *ground) shortest() float64 {
	least := g.span()
	for i := 1; i+1 < len(g.carriage.Wheels); i++ {
		least = math.Min(least, g.carriage.Wheels[i+1]-g.carriage.Wheels[i])
	}
	return least
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
