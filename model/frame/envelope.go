package frame

import (
	"errors"
	"slices"

	"boxwalk/model/load"
	"boxwalk/model/units"
)

// Between holds the least and the greatest force of one support or link, in kN.
type Between struct{ Least, Most units.Force }

// Envelope holds the extremes of a beam over several states of loading.
type Envelope struct {
	Moment     Range[load.Moment]  // kN m
	Shear      Range[units.Force]  // kN
	Deflection Range[units.Length] // m, down
	Supports   []Between           // upward
	Links      []Between           // compression
}

// EachOrNot returns the envelope over every choice of which loadings are on: one
// is on always, each of the others is on or off whatever the rest does. It takes
// all 2ⁿ choices at once, because what is worst at a place is the sum of those
// loadings that are bad there; between two places where one of them changes sign
// that sum is a polynomial, so that the extremes are exact. The responses must be
// answers of one call of [Beam.Solve].
func EachOrNot(always Response, may ...Response) (Envelope, error) {
	if err := count("loadings that may be on", len(may), 0); err != nil {
		return Envelope{}, err
	}
	if !always.alike(always) {
		return Envelope{}, refused("no response")
	}
	err := always.finite()
	for _, m := range may {
		if !always.alike(m) {
			return Envelope{}, refused("responses of two beams cannot be combined")
		}
		err = errors.Join(err, m.finite())
	}
	if err != nil {
		return Envelope{}, err
	}
	e := Envelope{
		Moment:     worst[load.Moment](always, may, piece.momentLine),
		Shear:      worst[units.Force](always, may, piece.shearLine),
		Deflection: worst[units.Length](always, may, piece.downLine),
		Supports:   make([]Between, len(always.Supports)),
		Links:      make([]Between, len(always.Links)),
	}
	for i := range e.Supports {
		e.Supports[i] = sums(always.Supports[i].Up, may, func(r Response) units.Force { return r.Supports[i].Up })
	}
	for i := range e.Links {
		e.Links[i] = sums(always.Links[i], may, func(r Response) units.Force { return r.Links[i] })
	}
	return e, nil
}

func sums(always units.Force, may []Response, of func(Response) units.Force) Between {
	b := Between{always, always}
	for _, m := range may {
		b.Least, b.Most = b.Least+min(0, of(m)), b.Most+max(0, of(m))
	}
	return b
}

// worst joins, piece by piece, the sums of what adds and of what takes away.
func worst[T ~float64](always Response, may []Response, of func(piece) poly) Range[T] {
	var out Range[T]
	for i, p := range always.pieces {
		base, lines, places := of(p), make([]poly, len(may)), []float64{0, 1}
		for k, m := range may {
			lines[k] = of(m.pieces[i])
			places = append(places, lines[k].roots(0, 1)...)
		}
		slices.Sort(places)
		for j := 1; j < len(places); j++ {
			low, high := base, base
			for _, line := range lines {
				if line.at((places[j-1]+places[j])/2) > 0 {
					high = high.plus(line)
				} else {
					low = low.plus(line)
				}
			}
			for k, sum := range []poly{low, high} {
				for n, t := range sum.turns(places[j-1], places[j]) {
					out.widen(sum.at(t), p.from+t*p.long(), i+j+k+n == 1)
				}
			}
		}
	}
	return out
}

// InOrder returns the envelope over the stages of placing: the first loading,
// then the second on top of it, and so on.
func InOrder(stages ...Response) (Envelope, error) {
	if err := count("stages", len(stages), 1); err != nil {
		return Envelope{}, err
	}
	on := stages[0]
	e, err := EachOrNot(on)
	for _, s := range stages[1:] {
		if err != nil {
			return Envelope{}, err
		}
		if on, err = on.Plus(s, 1); err == nil {
			err = e.join(on)
		}
	}
	if err != nil {
		return Envelope{}, err
	}
	return e, nil
}

func (e *Envelope) join(r Response) error {
	one, err := EachOrNot(r)
	if err != nil {
		return err
	}
	e.Moment.join(one.Moment)
	e.Shear.join(one.Shear)
	e.Deflection.join(one.Deflection)
	for i, s := range one.Supports {
		e.Supports[i].join(s)
	}
	for i, l := range one.Links {
		e.Links[i].join(l)
	}
	return nil
}

func (r *Range[T]) join(o Range[T]) {
	if o.Least.Value < r.Least.Value {
		r.Least = o.Least
	}
	if o.Most.Value > r.Most.Value {
		r.Most = o.Most
	}
}

func (b *Between) join(o Between) { b.Least, b.Most = min(b.Least, o.Least), max(b.Most, o.Most) }
