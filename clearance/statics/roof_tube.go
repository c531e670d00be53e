package statics

import (
	"math"
	"slices"

	"boxwalk/model/carrier"
	"boxwalk/model/frame"
	"boxwalk/model/units"
)

// influences are what a header's tube has of 1 kN on each seat, by place: moments where
// it sags, shears beside each place, what legs and shores give, sags times E I.
type influences struct {
	moment, shear, sag []effect
	sags               []float64 // kN m by which the tube's own weight may sag a moment beside a place at most
	up                 []effect
	ends, inner        [2]effect // sags of the tube's ends and of where the arms end in it, left and right
}

// finely is into how many lengths a tube is cut to look for its greatest sag: between two
// of them it is larger by less than a thousandth (the sag is smooth; judgement).
const finely = 40

// influences are read from the solved tube.
func (r *Roof) influences(solved []frame.Response) (influences, error) {
	var out influences
	b := r.Bent
	places := r.places()
	var failed error
	state := func(x float64, of func(frame.State) float64) effect {
		e := effect{of: make([]float64, len(r.Seats))}
		for i, one := range append([]frame.Response{solved[1]}, solved[2:]...) {
			s, err := one.At(units.Length(math.Max(0, math.Min(2*b.half, x))))
			if err != nil {
				failed = err
			}
			if i == 0 {
				e.own = of(s)
				continue
			}
			e.of[i-1] = of(s)
		}
		return e
	}
	moment := func(s frame.State) float64 { return float64(s.Moment) }
	shear := func(s frame.State) float64 { return float64(s.Shear) }
	sag := func(s frame.State) float64 { return float64(s.Deflection) }
	w := r.Weights.Tube / (2 * b.half)
	for n, x := range places {
		longest := 0.0
		if n > 0 {
			longest = x - places[n-1]
			out.shear = append(out.shear, state(x-beside, shear))
		}
		if n+1 < len(places) {
			longest = math.Max(longest, places[n+1]-x)
		}
		out.moment, out.sags = append(out.moment, state(x, moment)), append(out.sags, w*longest*longest/8)
		out.shear = append(out.shear, state(x, shear))
	}
	for n := range finely + 1 {
		out.sag = append(out.sag, state(2*b.half*float64(n)/finely, sag))
	}
	for side, sign := range [2]float64{1, -1} {
		out.ends[side], out.inner[side] = state(b.half+sign*b.half, sag), state(b.half+sign*b.inner, sag)
	}
	for k := range solved[1].Supports {
		e := effect{own: float64(solved[1].Supports[k].Up), of: make([]float64, len(r.Seats))}
		for i := range e.of {
			e.of[i] = float64(solved[2+i].Supports[k].Up)
		}
		out.up = append(out.up, e)
	}
	return out, failed
}

// beside is how far from a place its left side is asked for, m: shears run straight
// between places but for the tube's own weight, so that it is as good as the place itself.
const beside = 1e-8

// places are where something acts on the tube, from its right end on.
func (r *Roof) places() []float64 {
	b := r.Bent
	out := []float64{0, 2 * b.half, b.half - r.Weights.gauge/2, b.half + r.Weights.gauge/2}
	for _, s := range r.Seats {
		if s.On == carrier.Header {
			out = append(out, s.At+b.half)
		}
	}
	if r.Weights.armLong > 0 {
		out = append(out, b.half-b.inner, b.half+b.inner)
	}
	for _, y := range r.Case.Shores {
		out = append(out, y+b.half)
	}
	slices.Sort(out)
	return slices.CompactFunc(out, func(a, b float64) bool { return math.Abs(a-b) < 1e-6 })
}
