package statics

import (
	"fmt"
	"math"
	"slices"

	"boxwalk/model/carrier"
	"boxwalk/model/frame"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// bentFrame is a bent's size, m: half the tube, from the middle to where its arms end in
// it, and how much of an arm is in it.
type bentFrame struct{ half, inner, overlap float64 }

// ArmOverlap is how much of an arm is in its tube, m: the couple that holds it; 0 where
// there are no arms.
func (r *Roof) ArmOverlap() float64 {
	if r.Weights.armLong == 0 {
		return 0
	}
	return r.frame.overlap
}

// tubes solves a header's tube on its legs and shores; all bents are alike.
func (r *Roof) tubes(c *carrier.Carrier) error {
	half := float64(c.Gear.Frame.Header.Length) / 2
	r.frame = bentFrame{half, c.ArmInner, half - c.ArmInner}
	if err := r.stands(); err != nil {
		return err
	}
	solved, err := r.kept.Solve(tubeOf(c, r.Case.Shores), r.tubeLoads()...)
	if err != nil {
		return err
	}
	r.solved, err = r.influences(solved)
	return err
}

// stands tells whether every seat stands on the tube or on an arm, and every shore under
// the tube.
func (r *Roof) stands() error {
	f := r.frame
	for _, s := range r.Seats {
		switch {
		case s.On == carrier.Header && math.Abs(s.At) > f.half+1e-6:
			return fmt.Errorf("what bears %.0f mm from the centreline stands beyond the header's tube, which ends at %.0f mm", 1e3*math.Abs(s.At), 1e3*f.half)
		case s.On == carrier.Arm && f.overlap < 1e-6:
			return fmt.Errorf("the arms do not reach into the header's tube")
		}
	}
	for _, y := range r.Case.Shores {
		if math.Abs(y) > f.half {
			return fmt.Errorf("a shore %.0f mm from the centreline stands beyond the header's tube, which ends at %.0f mm", 1e3*math.Abs(y), 1e3*f.half)
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

// tubeLoads are: nothing; the tube and its arms; 1 kN on every seat in turn; 1 kN at both
// places where braces stand on the tube.
func (r *Roof) tubeLoads() []frame.Loading {
	f, w := r.frame, r.Weights
	own := frame.Evenly(0, units.Length(2*f.half), load.LineLoad(w.Tube/(2*f.half)))
	if w.Arm > 0 {
		for _, sign := range [2]float64{1, -1} {
			own.Points = append(own.Points, f.byArm(sign, f.inner+w.armLong/2, w.Arm)...)
		}
	}
	out := []frame.Loading{{}, own}
	for _, s := range r.Seats {
		if s.On == carrier.Arm {
			out = append(out, frame.Loading{Points: f.byArm(math.Copysign(1, s.At), math.Abs(s.At), 1)})
			continue
		}
		out = append(out, frame.Loading{Points: []frame.PointLoad{{At: units.Length(s.At + f.half), Down: 1}}})
	}
	pin := math.Min(r.Case.Walls.Pin, f.half)
	return append(out, frame.Loading{Points: []frame.PointLoad{{At: units.Length(f.half - pin), Down: 1}, {At: units.Length(f.half + pin), Down: 1}}})
}

// byArm is what an arm that carries a load at a place hands to its tube: down at the
// tube's end, up at its own inner end. It touches the tube at these two ends, since it
// has play in it.
func (f bentFrame) byArm(sign, at, down float64) []frame.PointLoad {
	up := down * (at - f.half) / f.overlap
	return []frame.PointLoad{
		{At: units.Length(sign*f.half + f.half), Down: units.Force(down + up)},
		{At: units.Length(sign*f.inner + f.half), Down: units.Force(-up)},
	}
}

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
	b := r.frame
	places := r.places()
	var failed error
	state := func(x float64, of func(frame.State) float64) effect {
		e := effect{of: make([]float64, len(r.Seats))}
		for i, one := range append([]frame.Response{solved[1]}, solved[2:]...) {
			s, err := one.At(units.Length(math.Max(0, math.Min(2*b.half, x))))
			if err != nil {
				failed = err
			}
			switch {
			case i == 0:
				e.own = of(s)
			case i <= len(e.of):
				e.of[i-1] = of(s)
			default:
				e.pins = of(s)
			}
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
		e.pins = float64(solved[2+len(e.of)].Supports[k].Up)
		out.up = append(out.up, e)
	}
	return out, failed
}

// beside is how far from a place its left side is asked for, m: shears run straight
// between places but for the tube's own weight, so that it is as good as the place itself.
const beside = 1e-8

// places are where something acts on the tube, from its right end on.
func (r *Roof) places() []float64 {
	b := r.frame
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
	if pin := r.Case.Walls.Pin; r.Case.Walls.Pinned && pin < b.half {
		out = append(out, b.half-pin, b.half+pin)
	}
	slices.Sort(out)
	return slices.CompactFunc(out, func(a, b float64) bool { return math.Abs(a-b) < 1e-6 })
}

// turning is what the outermost seat of an arm sags by the turning and sinking of the
// tube that the arm stands in.
func (t influences) turning(side int, f bentFrame, out float64) effect {
	end, inner := t.ends[side], t.inner[side]
	by := (out - f.half) / f.overlap
	e := effect{of: make([]float64, len(end.of)), own: end.own + (end.own-inner.own)*by, pins: end.pins + (end.pins-inner.pins)*by}
	for i := range e.of {
		e.of[i] = end.of[i] + (end.of[i]-inner.of[i])*by
	}
	return e
}
