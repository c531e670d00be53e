package statics

import (
	"fmt"
	"math"

	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// RoofCase is what comes on a roof form while it is poured.
type RoofCase struct {
	Concrete units.UnitWeight // kN/m³, fresh, with its bars
	Live     units.Pressure   // kPa, people and equipment, wherever they may stand
	Edge     load.LineLoad    // kN/m along both ends of the pour, of people and equipment
	Sideways load.LineLoad    // kN/m of the form's length, across the cell at soffit level, either way
	Factors  Load             // on each kind of load, where factored numbers are asked for
	Shores   []float64        // places under each header's tube, m left of the centreline
	Walls    WallDraws
}

// WallDraws are what braces do to the walls that hang on a bent, both sides alike: by how
// much they draw a wall down at most, and what lifts it at most, below 0, kN; and where
// braces that draw it down push the header's tube up by as much, m from the centreline.
// Without a place nothing pushes the tube.
type WallDraws struct {
	Down, Lift float64
	Pin        float64
	Pinned     bool
}

// Load is a number by what it comes from: what always weighs, fresh concrete, and people
// and equipment with what pushes sideways.
type Load struct{ Dead, Concrete, Live float64 }

// Sum is all of it.
func (l Load) Sum() float64 { return l.Dead + l.Concrete + l.Live }

// By is all of it, each times its factor.
func (l Load) By(f Load) float64 { return f.Dead*l.Dead + f.Concrete*l.Concrete + f.Live*l.Live }

func (l Load) plus(o Load) Load {
	return Load{l.Dead + o.Dead, l.Concrete + o.Concrete, l.Live + o.Live}
}

// Times is so many times all of it.
func (l Load) Times(f float64) Load { return Load{f * l.Dead, f * l.Concrete, f * l.Live} }

// single are the factors of loads that are taken as they are.
var single = Load{1, 1, 1}

// Roof is how a bay's roof comes down to its jacks. kN, m. What is above 0 pushes down or
// up as its name says.
type Roof struct {
	Case      RoofCase
	Thickness float64 // m, of the slab
	Form      float64 // kPa, panels, corners, fillers and what lies on them, over the soffit
	Spacing   float64 // m, the widest of bent to bent
	Seats     []Seat
	Zones     []Zone
	Along     Along
	AsIs      Numbers // the worst of loads as they are
	Factored  Numbers // the worst of loads by their factors; the loads in it are as they are
	Bents     []Whole // all poured and loaded, bent by bent
	Weights   Weights

	frame  bentFrame
	solved influences
	kept   *Kept
}

// Numbers are the greatest of each number over every way of placing concrete and live load
// span by span along the cell and strip by strip across it.
type Numbers struct {
	Stringer Stringer // the worst of them
	Bent     Bent     // the greatest of each over all bents
}

// Seat is where a stringer, or a wall that hangs, bears on each bent.
type Seat struct {
	At    float64 // m left of the centreline
	On    carrier.Role
	Wall  bool
	Dead  float64 // kN/m along the cell, what is always there, at most
	Light float64 // kN/m, the same at least, where it relieves
	Area  float64 // m² of concrete in section that may lie on it, at most
	Width float64 // m of soffit that may lie on it, at most
}

// Line is the greatest load along a seat where the pour lies, kN/m.
func (s Seat) Line(c RoofCase) Load {
	return Load{s.Dead, float64(c.Concrete) * s.Area, float64(c.Live) * s.Width}
}

// Stringer is the most that a stringer has to take. Sag is E I times it, kN m³.
type Stringer struct {
	Seat               int // that governs bending
	Moment, Shear, Sag Load
}

// RoofOf works the roof of a bay out. An error says what keeps the statics from being
// known: a stringer without a seat, a strip on fewer than two stringers.
func RoofOf(b *model.Bay, c RoofCase, k *Kept) (*Roof, error) {
	car := b.Carrier
	r := &Roof{Case: c, Thickness: b.Cell.Roof, Weights: Weigh(car), kept: k}
	r.Form = r.Weights.Soffit / (2 * car.Half)
	r.Spacing = widest(car.Bents)
	if err := r.across(car, b.Cell.Section); err != nil {
		return nil, err
	}
	rear, front := b.Cell.Reach(b.Pour)
	var err error
	if r.Along, err = alongOf(car, rear, front, k); err != nil {
		return nil, fmt.Errorf("stringers: %w", err)
	}
	if err := r.tubes(car); err != nil {
		return nil, fmt.Errorf("headers: %w", err)
	}
	r.AsIs, r.Factored = r.numbers(len(car.Bents), single), r.numbers(len(car.Bents), c.Factors)
	for k := range car.Bents {
		r.whole(k)
	}
	return r, nil
}

// numbers are the worst of loads by factors.
func (r *Roof) numbers(bents int, factors Load) Numbers {
	n := Numbers{Stringer: r.stringers(factors)}
	for k := range bents {
		r.bent(&n.Bent, k, factors)
	}
	return n
}

// widest is the widest of bent to bent.
func widest(bents []float64) float64 {
	var w float64
	for i := 1; i < len(bents); i++ {
		w = math.Max(w, bents[i]-bents[i-1])
	}
	return w
}

// stringers finds the most that any stringer has to take: all are beams alike.
func (r *Roof) stringers(factors Load) Stringer {
	var out Stringer
	for i, s := range r.Seats {
		if s.Wall {
			continue
		}
		moment := r.alongSeat(s, func(e Effect) float64 { return e.Moment })
		if moment.By(factors) > out.Moment.By(factors) {
			out.Seat, out.Moment = i, moment
		}
		greater(&out.Shear, r.alongSeat(s, func(e Effect) float64 { return e.Shear }), factors)
		greater(&out.Sag, r.alongSeat(s, func(e Effect) float64 { return e.Sag }), factors)
	}
	return out
}

// greater keeps the greater of two loads by their factors.
func greater(into *Load, l, factors Load) {
	if l.By(factors) > into.By(factors) {
		*into = l
	}
}

// alongSeat is an effect on a stringer: where the pour lies of all of it, beyond only of
// form and live load, and of what stands along the pour's ends.
func (r *Roof) alongSeat(s Seat, of func(Effect) float64) Load {
	beyond := s
	beyond.Area = 0
	ends := Load{Live: float64(r.Case.Edge) * s.Width}
	return s.Line(r.Case).Times(of(r.Along.In)).plus(beyond.Line(r.Case).Times(of(r.Along.Out))).plus(ends.Times(of(r.Along.Ends)))
}

// signs are those of the sides that a part stands on; the middle is one.
func signs(side culvert.Side) []float64 {
	if side == culvert.Both {
		return []float64{1}
	}
	return []float64{1, -1}
}
