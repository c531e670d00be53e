package statics

import (
	"fmt"
	"math"

	"boxwalk/model/carrier"
	"boxwalk/model/frame"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// Bent is what a bent has to take, the greatest of each over every way of placing: its
// tube over two legs and shores, its arms, its legs and jacks. Sags are E I times them,
// kN m³, without factors; Tip is of an arm's outermost seat by the arm's own bending, and
// TubeTip by that of the tube in which it stands.
type Bent struct {
	Reach                float64 // m along the cell, what one bent has of a load spread evenly, at most
	TubeMoment, TubeSag  float64
	TubeShear            float64
	ArmMoment, ArmShear  float64 // kN m at the tube's end; kN outside the tube or in it, the greater
	ArmLoad, ArmLever    float64 // kN on the arm outside the tube; m from the tube's end to where it acts
	ArmOverlap           float64 // m of arm in the tube: the couple that holds it
	ArmHold              float64 // kN by which the arm's inner end pushes the tube up
	Tip, TubeTip         float64
	Screw                float64   // kN on one seat of the roof, the greatest
	Header               float64   // kN, from the header on one leg, at most
	Least                float64   // kN, on one jack, at least; below 0 where it would have to hold down
	Couple               float64   // kN by which what pushes sideways adds to a leg
	Leg, Jack            float64   // kN, at most
	Shores               []float64 // kN, at most
	half, inner, overlap float64
}

// Whole is a bent when all is poured and loaded: what comes down on it and what holds it
// up, kN, without what pushes sideways.
type Whole struct {
	Down   float64
	Jacks  [2]float64 // right, left
	Shores []float64
}

// factors of the loads of a bent: how much of a load of 1 kN/m comes on it where the
// pour lies, beyond it, and from the pour's ends; with all of them on for what is always there.
type reach struct{ in, out, ends, dead float64 }

// bents works all bents out and keeps the greatest.
func (r *Roof) bents(c *carrier.Carrier) error {
	b := &r.Bent
	b.half = float64(c.Gear.Frame.Header.Length) / 2
	b.inner = c.ArmInner
	b.overlap = b.half - b.inner
	if r.Weights.armLong > 0 {
		b.ArmOverlap = b.overlap
	}
	if err := r.stands(); err != nil {
		return err
	}
	solved, err := r.kept.Solve(tubeOf(c, r.Case.Shores), r.tubeLoads()...)
	if err != nil {
		return err
	}
	tube, err := r.influences(solved)
	if err != nil {
		return err
	}
	for k := range c.Bents {
		r.bent(k, tube)
	}
	return nil
}

// stands tells whether every seat stands on the tube or on an arm, and every shore under
// the tube.
func (r *Roof) stands() error {
	b := r.Bent
	for _, s := range r.Seats {
		switch {
		case s.On == carrier.Header && math.Abs(s.At) > b.half+1e-6:
			return fmt.Errorf("what bears %.0f mm from the centreline stands beyond the header's tube, which ends at %.0f mm", 1e3*math.Abs(s.At), 1e3*b.half)
		case s.On == carrier.Arm && b.overlap < 1e-6:
			return fmt.Errorf("the arms do not reach into the header's tube")
		}
	}
	for _, y := range r.Case.Shores {
		if math.Abs(y) > b.half {
			return fmt.Errorf("a shore %.0f mm from the centreline stands beyond the header's tube, which ends at %.0f mm", 1e3*math.Abs(y), 1e3*b.half)
		}
	}
	return nil
}

// tubeOf is a header's tube on its legs and shores, which do not give.
func tubeOf(c *carrier.Carrier, shores []float64) frame.Beam {
	long := float64(c.Gear.Frame.Header.Length)
	beam := frame.Beam{Stretches: []frame.Stretch{{Length: units.Length(long), EI: 1}}}
	for _, y := range append([]float64{-c.Gauge / 2, c.Gauge / 2}, shores...) {
		beam.Supports = append(beam.Supports, frame.Pin(units.Length(y+long/2)))
	}
	return beam
}

// tubeLoads are: nothing; the tube and its arms; 1 kN on every seat in turn.
func (r *Roof) tubeLoads() []frame.Loading {
	b, w := r.Bent, r.Weights
	own := frame.Evenly(0, units.Length(2*b.half), load.LineLoad(w.Tube/(2*b.half)))
	if w.Arm > 0 {
		for _, sign := range [2]float64{1, -1} {
			own.Points = append(own.Points, b.byArm(sign, r.armCentre(), w.Arm)...)
		}
	}
	out := []frame.Loading{{}, own}
	for _, s := range r.Seats {
		if s.On == carrier.Arm {
			out = append(out, frame.Loading{Points: b.byArm(math.Copysign(1, s.At), math.Abs(s.At), 1)})
			continue
		}
		out = append(out, frame.Loading{Points: []frame.PointLoad{{At: units.Length(s.At + b.half), Down: 1}}})
	}
	return out
}

// armCentre is where an arm's own weight acts.
func (r *Roof) armCentre() float64 { return r.Bent.inner + r.Weights.armLong/2 }

// byArm is what an arm that carries a load at a place hands to its tube: down at the
// tube's end, up at its own inner end. It touches the tube at these two ends, since it
// has play in it.
func (b Bent) byArm(sign, at, down float64) []frame.PointLoad {
	up := down * (at - b.half) / b.overlap
	return []frame.PointLoad{
		{At: units.Length(sign*b.half + b.half), Down: units.Force(down + up)},
		{At: units.Length(sign*b.inner + b.half), Down: units.Force(-up)},
	}
}

// bent adds a bent to the greatest of all.
func (r *Roof) bent(k int, tube influences) {
	c, plain := r.Case, r.Case
	plain.Dead, plain.Variable = 1, 1
	most, least := r.reach(k, true), r.reach(k, false)
	r.Bent.Reach = math.Max(r.Bent.Reach, most.in)
	couple := float64(c.Sideways) * most.dead * r.Weights.high / r.Weights.gauge
	r.tube(c, most, least, tube)
	r.legs(c, most, least, tube, couple)
	r.arms(c, most, least)
	r.lift(k == 0, plain, most, least, tube)
	r.sag(plain, most, least, tube)
	r.whole(k, tube)
}

// reach is how much of loads of 1 comes on a bent, at most or at least.
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

// brings is what concrete and live load bring to a bent, of an area of section and a
// breadth.
func (c RoofCase) brings(area, width float64, by reach) float64 {
	return c.Variable * (by.in*(float64(c.Concrete)*area+float64(c.Live)*width) + by.out*float64(c.Live)*width + by.ends*float64(c.Edge)*width)
}

// tube keeps the greatest of the tube. Between two places where something acts moments
// run straight but for the tube's own weight, which sags between them by at most w l²/8.
func (r *Roof) tube(c RoofCase, most, least reach, tube influences) {
	b := &r.Bent
	for n, m := range tube.moment {
		own := c.Dead * tube.sags[n]
		keep(&b.TubeMoment, r.most(c, most, least, m)+own, r.most(c, most, least, m.negative()))
	}
	for _, v := range tube.shear {
		keep(&b.TubeShear, r.most(c, most, least, v), r.most(c, most, least, v.negative()))
	}
}

// legs keeps the greatest of legs, jacks and shores.
func (r *Roof) legs(c RoofCase, most, least reach, tube influences, couple float64) {
	b, w := &r.Bent, r.Weights
	couple *= c.Variable
	header := math.Max(r.most(c, most, least, tube.up[0]), r.most(c, most, least, tube.up[1]))
	if header+couple > b.Header+b.Couple {
		b.Header, b.Couple = header, couple
	}
	keep(&b.Leg, header+couple+c.Dead*w.Leg)
	keep(&b.Jack, header+couple+c.Dead*(w.Leg+w.Rest))
	if b.Shores == nil {
		b.Shores = make([]float64, len(c.Shores))
	}
	for i := range b.Shores {
		keep(&b.Shores[i], r.most(c, most, least, tube.up[2+i]))
	}
}

// lift keeps the least on a jack, without factors: what is always there at least, with the left
// half of the roof poured and loaded, the right one, both or none, in any spans; a filler
// in the middle and what braces draw the walls down by as they are worst.
func (r *Roof) lift(first bool, plain RoofCase, most, least reach, tube influences) {
	for _, up := range tube.up[:2] {
		low := r.Weights.light.Share * up.own
		for i, s := range r.Seats {
			low += most.dead * min(s.Dead*up.of[i], s.Light*up.of[i])
			if s.Wall {
				low += math.Min(0, plain.Walls[0]*up.of[i]) + math.Min(0, plain.Walls[1]*up.of[i])
			}
		}
		halves := map[bool]float64{}
		for _, z := range r.Zones {
			var area, width float64
			for i, v := range up.of {
				area, width = area+v*z.Area[i], width+v*z.Width[i]
			}
			if by := plain.brings(area, width, most); math.Abs(z.From+z.To) < 1e-6 {
				low += math.Min(0, by)
			} else {
				halves[z.From+z.To > 0] += by
			}
			low += math.Min(0, plain.brings(area, width, least))
		}
		low += math.Min(0, halves[false]) + math.Min(0, halves[true])
		if first || low < r.Bent.Least {
			r.Bent.Least, first = low, false
		}
	}
}

func keep(into *float64, values ...float64) {
	for _, v := range values {
		*into = math.Max(*into, v)
	}
}

// effect is what a quantity has of 1 kN on each seat, and of the tube and arms themselves.
type effect struct {
	of  []float64
	own float64
}

func (e effect) negative() effect {
	out := effect{make([]float64, len(e.of)), -e.own}
	for i, v := range e.of {
		out.of[i] = -v
	}
	return out
}

// most is the greatest sum of effects of the zones, each on or off, with what is always
// there, at least and without its factor where it relieves, and what braces draw the
// walls down by.
func (r *Roof) most(c RoofCase, most, least reach, e effect) float64 {
	sum := max(c.Dead*e.own, r.Weights.light.Share*e.own)
	for i, s := range r.Seats {
		sum += most.dead * max(c.Dead*s.Dead*e.of[i], s.Light*e.of[i])
		if s.Wall {
			for _, pull := range c.Walls {
				sum += math.Max(0, c.Variable*pull*e.of[i])
			}
		}
	}
	for _, z := range r.Zones {
		var area, width float64
		for i, v := range e.of {
			area, width = area+v*z.Area[i], width+v*z.Width[i]
		}
		sum += math.Max(0, c.brings(area, width, most)) + math.Max(0, c.brings(area, width, least))
	}
	return sum
}

// of is an effect by seat, of nothing else.
func (r *Roof) of(f func(i int) float64) effect {
	e := effect{of: make([]float64, len(r.Seats))}
	for i := range e.of {
		e.of[i] = f(i)
	}
	return e
}

// outside tells how far beyond the tube's end on a side a seat on the arm is; false for
// every other seat.
func (r *Roof) outside(i int, sign float64) (lever float64, yes bool) {
	s := r.Seats[i]
	return sign*s.At - r.Bent.half, s.On == carrier.Arm && sign*s.At > 0
}

// arms keeps the greatest of the arms, which stand out of the tube's ends, and of the
// roof's seats.
func (r *Roof) arms(c RoofCase, most, least reach) {
	b, w := &r.Bent, r.Weights
	for i, s := range r.Seats {
		if !s.Wall {
			keep(&b.Screw, r.most(c, most, least, r.of(func(k int) float64 { return only(k == i) })))
		}
	}
	if w.armLong == 0 {
		return
	}
	long := b.inner + w.armLong - b.half // of arm outside the tube
	own := w.Arm / w.armLong
	for _, sign := range [2]float64{1, -1} {
		down := r.of(func(i int) float64 { _, yes := r.outside(i, sign); return only(yes) })
		moment := r.of(func(i int) float64 { lever, yes := r.outside(i, sign); return lever * only(yes) })
		down.own, moment.own = own*long, own*long*long/2
		hold := r.of(func(i int) float64 { return moment.of[i] / b.overlap })
		hold.own = (moment.own - own*b.overlap*b.overlap/2) / b.overlap
		force, m, h := r.most(c, most, least, down), r.most(c, most, least, moment), r.most(c, most, least, hold)
		if m > b.ArmMoment {
			b.ArmMoment, b.ArmLoad, b.ArmLever = m, force, m/force
		}
		keep(&b.ArmHold, h)
		keep(&b.ArmShear, force, h+c.Dead*own*b.overlap)
	}
}

func only(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// sag keeps the greatest sags without factors.
func (r *Roof) sag(plain RoofCase, most, least reach, tube influences) {
	b := &r.Bent
	for _, d := range tube.sag {
		keep(&b.TubeSag, r.most(plain, most, least, d), r.most(plain, most, least, d.negative()))
	}
	if r.Weights.armLong == 0 {
		return
	}
	out := r.outermost()
	for side, sign := range [2]float64{1, -1} {
		end, inner := tube.ends[side], tube.inner[side]
		turned := r.of(func(i int) float64 { return end.of[i] + (end.of[i]-inner.of[i])/b.overlap*(out-b.half) })
		turned.own = end.own + (end.own-inner.own)/b.overlap*(out-b.half)
		tip := r.of(func(i int) float64 {
			lever, yes := r.outside(i, sign)
			return only(yes) * overhang(b.overlap, lever, out-b.half)
		})
		keep(&b.Tip, r.most(plain, most, least, tip))
		keep(&b.TubeTip, r.most(plain, most, least, turned))
	}
}

// outermost is the place of the outermost seat on an arm.
func (r *Roof) outermost() float64 {
	out := r.Bent.half
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

// whole is a bent with everything on it: what comes down and what holds it.
func (r *Roof) whole(k int, tube influences) {
	c, w := r.Case, r.Weights
	all := reach{r.Along.In.All[k], r.Along.Out.All[k], r.Along.Ends.All[k], r.Along.In.All[k] + r.Along.Out.All[k]}
	out := Whole{Down: c.Dead * (w.Tube + 2*w.Arm + 2*w.Leg + 2*w.Rest)}
	on := make([]float64, len(r.Seats))
	for i, s := range r.Seats {
		on[i] = c.Dead * s.Dead * all.dead
		for _, z := range r.Zones {
			on[i] += c.brings(z.Area[i], z.Width[i], all)
		}
		out.Down += on[i]
	}
	up := func(e effect) float64 {
		sum := c.Dead * e.own
		for i, v := range e.of {
			sum += v * on[i]
		}
		return sum
	}
	for i := range out.Jacks {
		out.Jacks[i] = up(tube.up[i]) + c.Dead*(w.Leg+w.Rest)
	}
	for i := range c.Shores {
		out.Shores = append(out.Shores, up(tube.up[2+i]))
	}
	r.Bents = append(r.Bents, out)
}
