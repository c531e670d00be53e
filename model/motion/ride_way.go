package motion

import (
	"fmt"
	"math"
	"slices"

	"boxwalk/model/geom"

	"github.com/go-gl/mathgl/mgl64"
)

// A ride is cut where its footing changes. Just past each change the footing is
// found again, nudge further on; so little of a stretch may be on a footing that
// was over by then, which moves no point of a carrier by more than a hundredth
// of that.
const nudge = 1e-6

// mostCuts is more stretches than any ride over a few joints has.
const mostCuts = 1000

// way is the ride with the centre of gravity over one place.
func (g *ground) way(over, from, to float64) (RideWay, error) {
	w := RideWay{Over: over}
	lo, hi := math.Min(from, to), math.Max(from, to)
	var list []*Glide
	for t := lo; ; {
		on, err := g.settle(over, math.Min(t+nudge, math.Max(lo, hi-nudge/2)))
		if err != nil {
			return w, err
		}
		d := g.glide(on, t, hi)
		end := d.end()
		list = append(list, g.glide(on, t, end))
		if t = end; t >= hi {
			break
		}
		if len(list) > mostCuts {
			return w, fmt.Errorf("the body finds no way over the ground at %g m", t)
		}
	}
	if from > to { // the same path reversed
		slices.Reverse(list)
		for i, d := range list {
			list[i] = g.glide(d.on, d.to, d.from)
		}
	}
	for i, d := range list {
		if i > 0 {
			if tip := tipBetween(list[i-1], 1, d, 0); tip.moves() {
				w.Stretches = append(w.Stretches, tip)
			}
		}
		w.Stretches = append(w.Stretches, d)
	}
	return w, g.set(&w)
}

// set moves the body over from the middle of the track before it rolls, and
// back when it has.
func (g *ground) set(w *RideWay) error {
	if g.carriage.Beside == g.carriage.Guide {
		return nil
	}
	middle := *g
	middle.course = g.track.beside(g.carriage.Guide)
	stand := func(t float64) (*Glide, error) {
		on, err := middle.settle(w.Over, t)
		return middle.glide(on, t, t), err
	}
	first, last := w.ends()
	before, err := stand(first.from)
	if err != nil {
		return err
	}
	after, err := stand(last.to)
	if err != nil {
		return err
	}
	w.Stretches = append([]Stretch{tipBetween(before, 0, first, 0)}, w.Stretches...)
	w.Stretches = append(w.Stretches, tipBetween(last, 1, after, 0))
	return nil
}

// Turns of settle after which it takes a wheel for past a bend, rests for taking
// turns, and the body for one without a rest. Elsewhere a few do: each gains the
// square of the grade.
const (
	disowned    = 20
	takingTurns = 40
	giveUp      = 60
)

// settle finds the footing with the rear guide at t: from a guess of the
// body's direction where the guides and wheels are, from there the direction
// again, until nothing changes. Where the ground steps at a bend there may be
// no such footing for a wheel within a fraction of the step: then it counts as
// past the bend, and should two rests still take turns, the body stays on the
// wheel lines it was on.
func (g *ground) settle(over, t float64) (footing, error) {
	rear := 0
	for rear+1 < len(g.course) && g.course[rear+1].from <= t {
		rear++
	}
	p := g.course[rear].point(t)
	u := g.course[rear].along()
	e := geom.Vec{u[0], u[1], 0}
	wheels := make([]Wheel, len(g.carriage.Wheels))
	heights, on := make([]float64, len(wheels)), make([]int, len(wheels))
	for i, x := range g.carriage.Wheels {
		wheels[i] = Wheel{X: x}
	}
	var was footing
	passed := make([]int, len(wheels))
	for n := range giveUp {
		f := footing{rear: rear, front: spanUnder(g.course, p.Add(flat(e).Mul(g.carriage.base())))}
		for i := range wheels {
			q := p.Add(flat(e).Mul(g.lever(i)))
			on[i] = spanUnder(g.planes, q)
			if n > disowned { // at a step both sides disown a wheel: it has passed
				on[i] = max(on[i], passed[i])
				passed[i] = on[i]
			}
			heights[i] = g.planes[on[i]].under(q)
		}
		if f.low, f.high = facet(wheels, heights, over); n > takingTurns {
			f.low, f.high = was.low, was.high
		}
		f.lowOn, f.highOn = on[f.low], on[f.high]
		if n > disowned {
			f.front = max(f.front, was.front)
		}
		if n > 0 && f == was {
			return f, nil
		}
		if e = g.glide(f, t, t).ahead(0); math.IsNaN(e[0]) {
			break
		}
		was = f
	}
	return footing{}, fmt.Errorf("the body finds no rest with its rear guide at %g m", t)
}

// spanUnder is the span that a point in plan is on: a span ends at the line
// through its bend that halves the angle there.
func spanUnder(spans []span, p mgl64.Vec2) int {
	i := 0
	for i+1 < len(spans) && beyondBend(spans, i+1, p) >= 0 {
		i++
	}
	return i
}

// beyondBend is how far a point lies beyond the bend where span i begins.
func beyondBend(spans []span, i int, p mgl64.Vec2) float64 {
	b := spans[i-1].along().Add(spans[i].along())
	return b.Dot(p.Sub(spans[i].point(spans[i].from))) / b.Len()
}

// end is where the footing of a glide that goes ahead ends, at most its to.
func (d *Glide) end() float64 {
	g := d.g
	end := math.Min(d.to, g.course[d.on.rear].to)
	at := func(t float64) (mgl64.Vec2, geom.Vec) {
		s := 0.0
		if d.to > d.from {
			s = (t - d.from) / (d.to - d.from)
		}
		return g.course[d.on.rear].point(t), d.ahead(s)
	}
	// a guide or wheel goes ahead with the body: each bend is passed once
	cross := func(spans []span, i int, lever float64) {
		if i+1 >= len(spans) {
			return
		}
		end = firstAbove(d.from, end, func(t float64) float64 {
			p, e := at(t)
			return beyondBend(spans, i+1, p.Add(flat(e).Mul(lever)))
		})
	}
	mid := math.Min(d.from+nudge, end)
	p, e := at(mid)
	cross(g.course, d.on.front, g.carriage.base())
	for i := range g.carriage.Wheels {
		cross(g.planes, spanUnder(g.planes, p.Add(flat(e).Mul(g.lever(i)))), g.lever(i))
	}
	for i := range g.carriage.Wheels {
		if i != d.on.low && i != d.on.high {
			plane := g.planes[spanUnder(g.planes, p.Add(flat(e).Mul(g.lever(i))))]
			end = d.lands(end, func(t float64) float64 {
				p, e := at(t)
				a, l := g.lever(i), g.lever(d.on.low)
				carried := g.planes[d.on.lowOn].under(p.Add(flat(e).Mul(l))) + (a-l)*e[2]
				return plane.under(p.Add(flat(e).Mul(a))) - carried
			})
		}
	}
	if end <= d.from { // nothing shorter than a nudge is told apart
		return math.Min(d.to, d.from+nudge)
	}
	return end
}

// landed is how deep in the ground a wheel that hangs has to be to count.
const landed = 1e-11

// lands is the first place up to end at which a wheel that hangs comes to the
// ground, deep telling how deep it is in. Along one glide deep is affine plus a
// multiple of sqrt(1 - m²), so that it is convex or concave: up to its greatest
// value, found by thirds, it passes zero once.
func (d *Glide) lands(end float64, deep func(t float64) float64) float64 {
	lo, hi := d.from, end
	for range 100 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if deep(a) < deep(b) {
			lo = a
		} else {
			hi = b
		}
	}
	top := lo
	for _, t := range [2]float64{hi, end} {
		if deep(t) > deep(top) {
			top = t
		}
	}
	if !(deep(top) > landed) || deep(d.from) > landed {
		return end
	}
	return firstAbove(d.from, top, func(t float64) float64 { return deep(t) - landed })
}

// firstAbove is where f, which grows, passes zero between from and to; to if it
// stays below. What is not a number counts as above.
func firstAbove(from, to float64, f func(float64) float64) float64 {
	if f(to) <= 0 {
		return to
	}
	for range 200 {
		mid := from + (to-from)/2
		if mid <= from || mid >= to {
			break
		}
		if f(mid) <= 0 {
			from = mid
		} else {
			to = mid
		}
	}
	return to
}
