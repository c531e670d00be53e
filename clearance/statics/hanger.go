package statics

import (
	"errors"
	"math"

	"boxwalk/model"
	"boxwalk/model/culvert"
	"boxwalk/model/frame"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// HangingCase is what a young roof weighs and bears that hangs when the carrier has left.
type HangingCase struct {
	Concrete units.UnitWeight // kN/m³, with its bars
	Live     units.Pressure   // kPa
	Beam     float64          // kN/m, of the beam above itself
	Bears    float64          // m from the wall's face to the middle of where the beam above bears on the wall's top
}

// Hanging is a young roof on its hangers: the slab spans across from wall to hanger lines
// to wall, its walls no clamps; along the cell it spans from hanger to hanger, and stands
// out at the pour's ends. Loads are shares as in Load: the slab is Concrete.
type Hanging struct {
	Case   HangingCase
	Lines  []float64 // m left of the centreline
	At     []float64 // m, stations of the hangers over the pour
	Span   float64   // m, of the slab, wall to wall: clear span and on each side half the lesser of slab and wall
	Area   []float64 // m, slab thickness times the breadth that each line carries of it: the share of concrete
	Width  []float64 // m, breadth that each line carries at most of live load
	Reach  []float64 // m along the cell, that one hanger of each line has of it at most
	Line   int       // the line that has the most
	Hanger Load      // kN, on it
	Moment Load      // kN m per m, the most that the slab bends across, either way; nobody judges it here
	Beam   BeamAbove
}

// BeamAbove is the beam on the wall tops that a bent's hangers hang from, on two supports.
type BeamAbove struct {
	Span          float64 // m
	Moment, Shear Load
	Bears         Load // kN, on one wall's top
}

// HangingOf works the hangers of a bay out; nil where none stay. A pour over which no
// hanger stands is an error.
func HangingOf(b *model.Bay, c HangingCase, k *Kept) (*Hanging, error) {
	kept := b.Carrier.Kept
	if kept.Hangers == nil {
		return nil, nil
	}
	h := &Hanging{Case: c}
	for _, y := range kept.Lines {
		h.Lines = append(h.Lines, float64(y))
	}
	h.At = hangersOver(b)
	if len(h.At) == 0 {
		return nil, errors.New("no hanger stands over the pour")
	}
	if err := h.across(b.Cell.Section, k); err != nil {
		return nil, err
	}
	rear, front := b.Cell.Ends(b.Pour)
	for i, y := range h.Lines {
		reach, err := h.along(rear.At(y, 0), front.At(y, 0), k)
		if err != nil {
			return nil, err
		}
		h.Reach = append(h.Reach, reach)
		if l := h.on(i); l.Sum() > h.Hanger.Sum() {
			h.Line, h.Hanger = i, l
		}
	}
	return h, h.beam(b.Cell.Section, k)
}

// hangersOver are the stations of the hangers that stand over a bay's pour.
func hangersOver(b *model.Bay) []float64 {
	var out []float64
	for _, s := range b.Concrete {
		if s.Zone == culvert.Hanger && s.Pour == b.Pour.Number {
			box := s.Box()
			if x := (box.Min[0] + box.Max[0]) / 2; len(out) == 0 || x > out[len(out)-1]+1e-6 {
				out = append(out, x)
			}
		}
	}
	return out
}

// on is the most on one hanger of a line.
func (h *Hanging) on(i int) Load {
	return Load{Concrete: float64(h.Case.Concrete) * h.Area[i], Live: float64(h.Case.Live) * h.Width[i]}.Times(h.Reach[i])
}

// across solves a strip of slab of 1 m over walls and lines.
func (h *Hanging) across(sec culvert.Section, k *Kept) error {
	left, right := math.Min(sec.Roof, sec.Left)/2, math.Min(sec.Roof, sec.Right)/2
	from, to := -sec.HalfSpan-right, sec.HalfSpan+left
	h.Span = to - from
	beam := frame.Beam{Stretches: []frame.Stretch{{Length: units.Length(h.Span), EI: 1}}, Supports: []frame.Support{frame.Pin(0), frame.Pin(units.Length(h.Span))}}
	for _, y := range h.Lines {
		beam.Supports = append(beam.Supports, frame.Pin(units.Length(y-from)))
	}
	concrete := frame.Loading{}
	cuts := cutsOf(sec, -sec.HalfSpan, sec.HalfSpan)
	for i := 1; i < len(cuts); i++ {
		concrete.Lines = append(concrete.Lines, frame.Distributed{From: units.Length(cuts[i-1] - from), To: units.Length(cuts[i] - from), Start: load.LineLoad(depth(sec, cuts[i-1])), End: load.LineLoad(depth(sec, cuts[i]))})
	}
	loads := []frame.Loading{{}, concrete}
	ends := cutsOf(culvert.Section{}, from, to, h.Lines...)
	for i := 1; i < len(ends); i++ {
		loads = append(loads, frame.Evenly(units.Length(ends[i-1]-from), units.Length(ends[i]-from), 1))
	}
	solved, err := k.Solve(beam, loads...)
	if err != nil {
		return err
	}
	for i := range h.Lines {
		width := 0.0
		for _, r := range solved[2:] {
			width += math.Max(0, float64(r.Supports[2+i].Up))
		}
		h.Area, h.Width = append(h.Area, float64(solved[1].Supports[2+i].Up)), append(h.Width, width)
	}
	slab, err := frame.EachOrNot(solved[1])
	if err != nil {
		return err
	}
	live, err := frame.EachOrNot(solved[0], solved[2:]...)
	if err != nil {
		return err
	}
	h.Moment = Load{Concrete: float64(h.Case.Concrete) * extreme(slab.Moment), Live: float64(h.Case.Live) * extreme(live.Moment)}
	return nil
}

// extreme is the greatest moment either way.
func extreme(r frame.Range[load.Moment]) float64 {
	return math.Max(float64(r.Most.Value), -float64(r.Least.Value))
}

// along solves a line over its hangers, from one end of the pour on it to the other: how
// much of it one hanger has at most.
func (h *Hanging) along(rear, front float64, k *Kept) (float64, error) {
	if len(h.At) == 1 {
		return front - rear, nil
	}
	beam := frame.Beam{Stretches: []frame.Stretch{{Length: units.Length(front - rear), EI: 1}}}
	for _, x := range h.At {
		beam.Supports = append(beam.Supports, frame.Pin(units.Length(clamped(x-rear, front-rear))))
	}
	cuts := cutsOf(culvert.Section{}, rear, front, h.At...)
	loads := []frame.Loading{}
	for i := 1; i < len(cuts); i++ {
		loads = append(loads, frame.Evenly(units.Length(cuts[i-1]-rear), units.Length(cuts[i]-rear), 1))
	}
	solved, err := k.Solve(beam, loads...)
	if err != nil {
		return 0, err
	}
	most := 0.0
	for i := range h.At {
		sum := 0.0
		for _, r := range solved {
			sum += math.Max(0, float64(r.Supports[i].Up))
		}
		most = math.Max(most, sum)
	}
	return most, nil
}

// beam solves the beam above, with the most on each hanger.
func (h *Hanging) beam(sec culvert.Section, k *Kept) error {
	from, to := -sec.HalfSpan-h.Case.Bears, sec.HalfSpan+h.Case.Bears
	h.Beam.Span = to - from
	beam := frame.Beam{Stretches: []frame.Stretch{{Length: units.Length(h.Beam.Span), EI: 1}}, Supports: []frame.Support{frame.Pin(0), frame.Pin(units.Length(h.Beam.Span))}}
	loads := []frame.Loading{frame.Evenly(0, units.Length(h.Beam.Span), 1)}
	for _, y := range h.Lines {
		loads = append(loads, frame.Loading{Points: []frame.PointLoad{{At: units.Length(y - from), Down: 1}}})
	}
	solved, err := k.Solve(beam, loads...)
	if err != nil {
		return err
	}
	shares := []Load{{Dead: h.Case.Beam}}
	for i := range h.Lines {
		shares = append(shares, h.on(i))
	}
	for i, r := range solved {
		// all sag it: the peaks of each added are no less than that of all
		h.Beam.Moment = h.Beam.Moment.plus(shares[i].Times(float64(r.Moment().Most.Value)))
	}
	for side := range 2 {
		var bears Load
		for i, r := range solved {
			bears = bears.plus(shares[i].Times(float64(r.Supports[side].Up)))
		}
		if bears.Sum() > h.Beam.Bears.Sum() {
			h.Beam.Bears, h.Beam.Shear = bears, bears
		}
	}
	return nil
}
