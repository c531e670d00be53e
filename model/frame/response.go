package frame

import (
	"errors"

	"boxwalk/model/load"
	"boxwalk/model/units"
)

// Reaction is what a support gives to the beam.
type Reaction struct {
	Up units.Force // kN
	// Turn is the couple in kN m that holds the beam against turning, above 0
	// where it would turn down to the right.
	Turn load.Moment
}

// Response is what a beam does under a loading.
type Response struct {
	Supports []Reaction    // in the order of the beam's supports
	Links    []units.Force // kN, compression; in the order of the beam's links
	pieces   []piece
}

// piece is an element with the forces and movements of its left end: from there
// everything within is a polynomial.
type piece struct {
	element
	load                       [2]float64 // kN/m at its ends
	shear, moment, down, slope float64    // kN, kN m, m, rad at its left end
}

func (p piece) long() float64 { return p.to - p.from }

// The polynomials run over t from 0 to 1 along the piece.

func (p piece) shearLine() poly {
	l := p.long()
	return poly{p.shear, -p.load[0] * l, -(p.load[1] - p.load[0]) * l / 2}
}

func (p piece) momentLine() poly {
	l := p.long()
	return poly{p.moment, p.shear * l, -p.load[0] * l * l / 2, -(p.load[1] - p.load[0]) * l * l / 6}
}

func (p piece) downLine() poly {
	l := p.long()
	f := l * l / p.ei
	return poly{p.down, p.slope * l, -p.moment * f / 2, -p.shear * l * f / 6,
		p.load[0] * l * l * f / 24, (p.load[1] - p.load[0]) * l * l * f / 120}
}

// Plus returns the response to both loadings at once, the other's taken so many
// times; both must be answers of one call of [Beam.Solve].
func (r Response) Plus(other Response, factor float64) (Response, error) {
	if err := within("factor", factor, -1e6, 1e6, ""); err != nil {
		return Response{}, err
	}
	if !r.alike(other) {
		return Response{}, refused("responses of two beams cannot be added")
	}
	if err := errors.Join(r.finite(), other.finite()); err != nil {
		return Response{}, err
	}
	out := Response{Supports: make([]Reaction, len(r.Supports)), Links: make([]units.Force, len(r.Links)), pieces: make([]piece, len(r.pieces))}
	for i, s := range r.Supports {
		o := other.Supports[i]
		out.Supports[i] = Reaction{s.Up + units.Force(factor)*o.Up, s.Turn + load.Moment(factor)*o.Turn}
	}
	for i, n := range r.Links {
		out.Links[i] = n + units.Force(factor)*other.Links[i]
	}
	for i, p := range r.pieces {
		o := other.pieces[i]
		p.load[0], p.load[1] = p.load[0]+factor*o.load[0], p.load[1]+factor*o.load[1]
		p.shear, p.moment = p.shear+factor*o.shear, p.moment+factor*o.moment
		p.down, p.slope = p.down+factor*o.down, p.slope+factor*o.slope
		out.pieces[i] = p
	}
	if err := out.finite(); err != nil {
		return Response{}, err
	}
	return out, nil
}

func (r Response) alike(o Response) bool {
	if len(r.pieces) == 0 || len(r.pieces) != len(o.pieces) || len(r.Supports) != len(o.Supports) || len(r.Links) != len(o.Links) {
		return false
	}
	for i, p := range r.pieces {
		if p.element != o.pieces[i].element {
			return false
		}
	}
	return true
}

func (r Response) finite() error {
	var all []float64
	for _, s := range r.Supports {
		all = append(all, float64(s.Up), float64(s.Turn))
	}
	for _, n := range r.Links {
		all = append(all, float64(n))
	}
	for _, p := range r.pieces {
		all = append(all, p.shear, p.moment, p.down, p.slope)
	}
	return finite(all...)
}

// Peak is a value and a place where it is reached.
type Peak[T ~float64] struct {
	Value T
	At    units.Length // m
}

// Range holds the least and the greatest value along a beam.
type Range[T ~float64] struct{ Least, Most Peak[T] }

// Moment returns the least (most hogging) and the most sagging moment in kN m.
func (r Response) Moment() Range[load.Moment] { return along[load.Moment](r.pieces, piece.momentLine) }

// Shear returns the extreme shears in kN, both sides of each support and load.
func (r Response) Shear() Range[units.Force] { return along[units.Force](r.pieces, piece.shearLine) }

// Deflection returns the extreme deflections in m, down above 0.
func (r Response) Deflection() Range[units.Length] {
	return along[units.Length](r.pieces, piece.downLine)
}

// along takes the extremes of each piece's polynomial: its ends and every place
// where it turns.
func along[T ~float64](pieces []piece, of func(piece) poly) Range[T] {
	var out Range[T]
	for i, p := range pieces {
		line := of(p)
		for j, t := range line.turns(0, 1) {
			out.widen(line.at(t), p.from+t*p.long(), i == 0 && j == 0)
		}
	}
	return out
}

func (r *Range[T]) widen(v, at float64, first bool) {
	here := Peak[T]{T(v), units.Length(at)}
	if first || here.Value < r.Least.Value {
		r.Least = here
	}
	if first || here.Value > r.Most.Value {
		r.Most = here
	}
}

// State is what a beam does at one place.
type State struct {
	Moment     load.Moment  // kN m
	Shear      units.Force  // kN
	Deflection units.Length // m, down
	Slope      units.Angle  // rad, down to the right
}

// At returns the state at a place, where something jumps on its right side, at
// the right end on its left. Errors: a place off the beam.
func (r Response) At(x units.Length) (State, error) {
	if len(r.pieces) == 0 {
		return State{}, refused("no response")
	}
	last := len(r.pieces) - 1
	if err := within("place on the beam", float64(x), -near, r.pieces[last].to+near, "m"); err != nil {
		return State{}, err
	}
	i := 0
	for i < last && r.pieces[i].to <= float64(x) {
		i++
	}
	p := r.pieces[i]
	t := min(max((float64(x)-p.from)/p.long(), 0), 1)
	down := p.downLine()
	return State{
		load.Moment(p.momentLine().at(t)), units.Force(p.shearLine().at(t)),
		units.Length(down.at(t)), units.Angle(down.slope().at(t) / p.long()),
	}, nil
}
