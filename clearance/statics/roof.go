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

// RoofCase is what comes on a roof form while it is poured, and by what it is
// multiplied.
type RoofCase struct {
	Concrete units.UnitWeight // kN/m³, fresh, with its bars
	Live     units.Pressure   // kPa, people and equipment, wherever they may stand
	Edge     load.LineLoad    // kN/m along both ends of the pour
	Sideways load.LineLoad    // kN/m of the form's length, across the cell at soffit level, either way
	Dead     float64          // factor on what is always there: the form and the carrier
	Variable float64          // factor on concrete, live load and what pushes sideways
	Shores   []float64        // places under each header's tube, m left of the centreline
	Walls    [2]float64       // kN by which braces draw a wall down on its bent, at most and at least; of each bent and side
}

// Roof is how a bay's roof comes down to its jacks: the greatest of each number over
// every way of placing concrete and live load span by span along the cell and strip by
// strip across it. kN, m. What is above 0 pushes down or up as its name says.
type Roof struct {
	Case      RoofCase
	Thickness float64 // m, of the slab
	Form      float64 // kPa, panels, corners, fillers and what lies on them, over the soffit
	Spacing   float64 // m, the widest of bent to bent
	Seats     []Seat
	Zones     []Zone
	Along     Along
	Stringer  Stringer // the worst of them
	Bent      Bent     // the greatest of each over all bents
	Bents     []Whole  // all poured and loaded, bent by bent
	Weights   Weights

	kept *Kept
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

// Line is the greatest load along a seat where the pour lies, kN/m: what is always there,
// and concrete and live load, each with its factor.
func (s Seat) Line(c RoofCase) float64 {
	return c.Dead*s.Dead + c.Variable*(float64(c.Concrete)*s.Area+float64(c.Live)*s.Width)
}

// Stringer is the most that a stringer has to take. Sag is E I times it, kN m³, under
// loads without factors.
type Stringer struct {
	Seat               int // that governs bending
	Line               float64
	Moment, Shear, Sag float64
}

// RoofOf works the roof of a bay out. An error says what keeps the statics from being
// known: a stringer without a seat, a strip on fewer than two stringers.
func RoofOf(b *model.Bay, c RoofCase, k *Kept) (*Roof, error) {
	car := b.Carrier
	r := &Roof{Case: c, Thickness: b.Cell.Roof, Weights: weigh(car), kept: k}
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
	r.stringers()
	if err := r.bents(car); err != nil {
		return nil, fmt.Errorf("headers: %w", err)
	}
	return r, nil
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
func (r *Roof) stringers() {
	plain := r.Case
	plain.Dead, plain.Variable = 1, 1
	for i, s := range r.Seats {
		if s.Wall {
			continue
		}
		m, v, _ := r.alongSeat(s, r.Case)
		_, _, sag := r.alongSeat(s, plain)
		if m > r.Stringer.Moment {
			r.Stringer.Seat, r.Stringer.Line, r.Stringer.Moment = i, s.Line(r.Case), m
		}
		r.Stringer.Shear = math.Max(r.Stringer.Shear, v)
		r.Stringer.Sag = math.Max(r.Stringer.Sag, sag)
	}
}

// alongSeat is moment, shear and E I sag of a stringer with loads by their factors:
// where the pour lies all of it, beyond only form and live load.
func (r *Roof) alongSeat(s Seat, c RoofCase) (moment, shear, sag float64) {
	beyond := s
	beyond.Area = 0
	in, out, ends := s.Line(c), beyond.Line(c), c.Variable*float64(c.Edge)*s.Width
	sum := func(of func(Effect) float64) float64 {
		return in*of(r.Along.In) + out*of(r.Along.Out) + ends*of(r.Along.Ends)
	}
	return sum(func(e Effect) float64 { return e.Moment }), sum(func(e Effect) float64 { return e.Shear }), sum(func(e Effect) float64 { return e.Sag })
}

// mirrored is a side's sign; the middle has none of its own.
func signs(side culvert.Side) []float64 {
	if side == culvert.Both {
		return []float64{1}
	}
	return []float64{1, -1}
}
