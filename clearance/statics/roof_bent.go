package statics

import (
	"math"

	"boxwalk/model/carrier"
)

// Bent is what a bent has to take, the greatest of each. Sags are E I times them, kN m³;
// Tip is of an arm's outermost seat by the arm's own bending, and TubeTip by that of the
// tube in which it stands.
type Bent struct {
	TubeMoment, TubeShear Load
	ArmMoment             Load // at the tube's end
	ArmShear              Load // outside the tube or in it, the greater
	ArmLoad               Load // kN on the arm outside the tube when its moment is greatest
	ArmHold               Load // kN by which the arm's inner end pushes the tube up
	Seat                  Load // kN on one seat of the roof
	Header                Load // kN, from the header on one leg
	Leg, Jack             Load // kN, with what pushes sideways
	Shores                []Load
	TubeSag, Tip, TubeTip Load
	Least                 float64 // kN, on one jack, at least and of loads as they are; below 0 where it would have to hold down
}

// Whole is a bent when all is poured and loaded: what comes down on it and what holds it
// up, kN, without what pushes sideways.
type Whole struct {
	Down   float64
	Jacks  [2]float64 // right, left
	Shores []float64
}

// reach is how much of a load of 1 kN/m comes on a bent where the pour lies and beyond
// it, of 1 kN at the pour's ends, and of what is always there.
type reach struct{ in, out, ends, dead float64 }

// reach of a bent, at most or at least.
func (r *Roof) reach(k int, most bool) reach {
	of := func(e Effect) float64 {
		if most {
			return e.Most[k]
		}
		return e.Least[k]
	}
	a := r.Along
	return reach{of(a.In), of(a.Out), of(a.Ends), a.In.All[k] + a.Out.All[k]}
}

// state is a bent with its loads: how much may come on it, at most and at least.
type state struct {
	most, least reach
	factors     Load
}

// bent adds a bent to the greatest of all.
func (r *Roof) bent(b *Bent, k int, factors Load) {
	s := state{r.reach(k, true), r.reach(k, false), factors}
	for n, m := range r.solved.moment {
		own := Load{Dead: r.solved.sags[n]}
		greater(&b.TubeMoment, r.most(s, m).plus(own), factors)
		greater(&b.TubeMoment, r.most(s, m.negative()), factors)
	}
	for _, v := range r.solved.shear {
		greater(&b.TubeShear, r.most(s, v), factors)
		greater(&b.TubeShear, r.most(s, v.negative()), factors)
	}
	r.legs(b, s)
	r.seats(b, s)
	if r.Weights.armLong > 0 {
		r.arms(b, s)
	}
	for _, d := range r.solved.sag {
		greater(&b.TubeSag, r.most(s, d), factors)
		greater(&b.TubeSag, r.most(s, d.negative()), factors)
	}
	if low := r.lift(k); k == 0 || low < b.Least {
		b.Least = low
	}
}

// legs keeps the greatest of legs, jacks and shores.
func (r *Roof) legs(b *Bent, s state) {
	w := r.Weights
	couple := Load{Live: float64(r.Case.Sideways) * s.most.dead * w.high / w.gauge}
	for _, up := range r.solved.up[:2] {
		header := r.most(s, up)
		greater(&b.Header, header, s.factors)
		greater(&b.Leg, header.plus(couple).plus(Load{Dead: w.Leg}), s.factors)
		greater(&b.Jack, header.plus(couple).plus(Load{Dead: w.Leg + w.Rest}), s.factors)
	}
	if b.Shores == nil {
		b.Shores = make([]Load, len(r.Case.Shores))
	}
	for i := range b.Shores {
		greater(&b.Shores[i], r.most(s, r.solved.up[2+i]), s.factors)
	}
}

// seats keeps the greatest on one seat of the roof.
func (r *Roof) seats(b *Bent, s state) {
	for i, seat := range r.Seats {
		if !seat.Wall {
			greater(&b.Seat, r.most(s, r.of(func(k int) float64 { return only(k == i) })), s.factors)
		}
	}
}

// effect is what a quantity has of 1 kN on each seat, of the tube and arms themselves, and
// of 1 kN on the tube at both places where braces stand on it.
type effect struct {
	of        []float64
	own, pins float64
}

func (e effect) negative() effect {
	out := effect{make([]float64, len(e.of)), -e.own, -e.pins}
	for i, v := range e.of {
		out.of[i] = -v
	}
	return out
}

// of is an effect by seat, of nothing else.
func (r *Roof) of(f func(i int) float64) effect {
	e := effect{of: make([]float64, len(r.Seats))}
	for i := range e.of {
		e.of[i] = f(i)
	}
	return e
}

func only(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// brings is what concrete and live load bring to a bent, of an area of section and a
// breadth.
func (c RoofCase) brings(area, width float64, by reach) Load {
	return Load{Concrete: by.in * float64(c.Concrete) * area, Live: (by.in+by.out)*float64(c.Live)*width + by.ends*float64(c.Edge)*width}
}

// dead is what is always there, at most, or where it relieves at least and without its
// factor, which it is divided by here.
func dead(heavy, light float64, factors Load) Load {
	if heavy >= 0 {
		return Load{Dead: heavy}
	}
	return Load{Dead: light / factors.Dead}
}

// most is the greatest sum of effects of the zones, each on or off, with what is always
// there and what braces draw the walls down by.
func (r *Roof) most(s state, e effect) Load {
	sum := dead(e.own, r.Weights.light.Share*e.own, s.factors)
	for i, seat := range r.Seats {
		v := e.of[i]
		sum.Dead += dead(seat.Dead*s.most.dead*v, seat.Light*s.most.dead*v, s.factors).Dead
	}
	sum.Concrete += r.drawn(e)
	for _, z := range r.Zones {
		area, width := z.under(e)
		for _, by := range [2]reach{s.most, s.least} {
			if l := r.Case.brings(area, width, by); l.By(s.factors) > 0 {
				sum = sum.plus(l)
			}
		}
	}
	return sum
}

// drawn is the most that an effect has of what braces do to both walls at once, which
// press alike while concrete rises in both: they draw the walls down and push the tube up
// by as much where they stand on it, or lift them, or do nothing yet.
func (r *Roof) drawn(e effect) float64 {
	w := r.Case.Walls
	var hung float64
	for i, seat := range r.Seats {
		if seat.Wall {
			hung += e.of[i]
		}
	}
	pushed := 0.0
	if w.Pinned {
		pushed = e.pins
	}
	return math.Max(0, math.Max(w.Down*(hung-pushed), w.Lift*hung))
}

// under is what an effect has of a zone: of concrete of unit weight 1, and of 1 kPa.
func (z Zone) under(e effect) (area, width float64) {
	for i, v := range e.of {
		area, width = area+v*z.Area[i], width+v*z.Width[i]
	}
	return area, width
}

// lift is the least on a jack of a bent, of loads as they are: what is always there at
// least, with the left half of the roof poured and loaded from end to end, the right one,
// both or none; a filler in the middle as it is worst. What braces do to walls and frame
// sums to nothing on the jacks.
func (r *Roof) lift(k int) float64 {
	all := r.all(k)
	least := math.Inf(1)
	for _, up := range r.solved.up[:2] {
		low := r.Weights.light.Jack + r.Weights.light.Share*up.own
		for i, seat := range r.Seats {
			low += all.dead * min(seat.Dead*up.of[i], seat.Light*up.of[i])
		}
		for _, half := range r.halves(up) {
			low += math.Min(0, r.Case.brings(half[0], half[1], all).Sum())
		}
		least = math.Min(least, low)
	}
	return least
}

// all is what comes on a bent of loads from end to end.
func (r *Roof) all(k int) reach {
	a := r.Along
	return reach{a.In.All[k], a.Out.All[k], a.Ends.All[k], a.In.All[k] + a.Out.All[k]}
}

// halves are what an effect has of the left half of the roof, of the right one, and of
// fillers in the middle, area and breadth.
func (r *Roof) halves(e effect) (out [3][2]float64) {
	for _, z := range r.Zones {
		area, width := z.under(e)
		half := 2
		switch mid := z.From + z.To; {
		case mid > 1e-6:
			half = 0
		case mid < -1e-6:
			half = 1
		}
		out[half][0], out[half][1] = out[half][0]+area, out[half][1]+width
	}
	return out
}

// whole is a bent with everything on it: what comes down and what holds it.
func (r *Roof) whole(k int) {
	c, w := r.Case, r.Weights
	all := r.all(k)
	out := Whole{Down: w.Tube + 2*w.Arm + 2*w.Leg + 2*w.Rest}
	on := make([]float64, len(r.Seats))
	for i, s := range r.Seats {
		on[i] = s.Dead * all.dead
		for _, z := range r.Zones {
			on[i] += c.brings(z.Area[i], z.Width[i], all).Sum()
		}
		out.Down += on[i]
	}
	up := func(e effect) float64 {
		sum := e.own
		for i, v := range e.of {
			sum += v * on[i]
		}
		return sum
	}
	for i := range out.Jacks {
		out.Jacks[i] = up(r.solved.up[i]) + w.Leg + w.Rest
	}
	for i := range c.Shores {
		out.Shores = append(out.Shores, up(r.solved.up[2+i]))
	}
	r.Bents = append(r.Bents, out)
}

// outside tells how far beyond the tube's end on a side a seat on the arm is; false for
// every other seat.
func (r *Roof) outside(i int, sign float64) (lever float64, yes bool) {
	s := r.Seats[i]
	return sign*s.At - r.frame.half, s.On == carrier.Arm && sign*s.At > 0
}

// arms keeps the greatest of the arms, which stand out of the tube's ends.
func (r *Roof) arms(b *Bent, s state) {
	f, w := r.frame, r.Weights
	long := f.inner + w.armLong - f.half // of arm outside the tube
	own := w.Arm / w.armLong
	out := r.Outermost()
	for side, sign := range [2]float64{1, -1} {
		down := r.of(func(i int) float64 { _, yes := r.outside(i, sign); return only(yes) })
		moment := r.of(func(i int) float64 { lever, yes := r.outside(i, sign); return lever * only(yes) })
		tip := r.of(func(i int) float64 {
			lever, yes := r.outside(i, sign)
			return overhang(f.overlap, lever, out-f.half) * only(yes)
		})
		down.own, moment.own = own*long, own*long*long/2
		hold := r.of(func(i int) float64 { return moment.of[i] / f.overlap })
		hold.own = (moment.own - own*f.overlap*f.overlap/2) / f.overlap
		m := r.most(s, moment)
		if m.By(s.factors) > b.ArmMoment.By(s.factors) {
			b.ArmMoment, b.ArmLoad = m, r.most(s, down)
		}
		greater(&b.ArmHold, r.most(s, hold), s.factors)
		greater(&b.ArmShear, r.most(s, down), s.factors)
		greater(&b.ArmShear, r.most(s, hold).plus(Load{Dead: own * f.overlap}), s.factors)
		greater(&b.Tip, r.most(s, tip), s.factors)
		greater(&b.TubeTip, r.most(s, r.solved.turning(side, f, out)), s.factors)
	}
}

// Outermost is the place of the outermost seat on an arm.
func (r *Roof) Outermost() float64 {
	out := r.frame.half
	for _, s := range r.Seats {
		if s.On == carrier.Arm {
			out = math.Max(out, math.Abs(s.At))
		}
	}
	return out
}

// overhang is E I times the sag at a place x beyond the end of a beam of a span on two
// supports by 1 kN at a place a beyond it: (span a x)/3 by the turning over the end, and
// a² (3x - a)/6 or x² (3a - x)/6 of a cantilever (derived, Euler-Bernoulli).
func overhang(span, a, x float64) float64 {
	lo, hi := math.Min(a, x), math.Max(a, x)
	return span*a*x/3 + lo*lo*(3*hi-lo)/6
}
