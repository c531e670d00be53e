package frame

import "boxwalk/model/units"

// mostTurns is how often the state of a support may change before it is said
// that none settles. Changing the first that is wrong ends by itself (Murty's
// least-index rule, from memory); it takes a few turns.
const mostTurns = 1000

// Lying is a beam that lies on its supports: they push it up and cannot hold it
// down. It has no answers that can be added.
type Lying struct {
	Response Response
	Lifted   []bool // supports that it has left, in the order of the beam's
}

// Lie returns what a beam does under a loading when every support only pushes:
// each that is in contact carries at least 0, and the beam stands at or above
// each that it has left. Links hold both ways. Errors: those of [Beam.Solve]; a
// clamp, which holds against turning; a beam that tips over what is left under
// it. Source: statics with contact (derived).
func (b Beam) Lie(l Loading) (Lying, error) {
	for _, s := range b.Supports {
		if s.Turn != (Restraint{}) {
			return Lying{}, refused("a beam that lies on its supports is not held against turning by them")
		}
	}
	lifted := make([]bool, len(b.Supports))
	for range mostTurns {
		r, err := b.without(lifted, l)
		if err != nil {
			return Lying{}, err
		}
		i, err := b.wrong(r, lifted)
		if err != nil {
			return Lying{}, err
		}
		if i < 0 {
			return Lying{r, lifted}, nil
		}
		lifted[i] = !lifted[i]
	}
	return Lying{}, refused("which supports carry does not settle")
}

// without solves on the supports that are left; the others carry nothing.
func (b Beam) without(lifted []bool, l Loading) (Response, error) {
	left := b
	left.Supports = append([]Support{}, b.Supports...)
	for i := range left.Supports {
		if lifted[i] {
			left.Supports[i].Down = Restraint{}
		}
	}
	r, err := left.Solve(l)
	if err != nil {
		return Response{}, err
	}
	return r[0], nil
}

// wrong is the first support that pulls, or that the beam has left and is pressed
// into; −1 where there is none. What is within rounding of 0 is right either way.
func (b Beam) wrong(r Response, lifted []bool) (int, error) {
	most, deep := units.Force(0), r.Deflection()
	for _, s := range r.Supports {
		most += max(s.Up, -s.Up)
	}
	for i, s := range b.Supports {
		if !lifted[i] {
			if r.Supports[i].Up < -1e-12*most {
				return i, nil
			}
			continue
		}
		at, err := r.At(s.At)
		if err != nil {
			return 0, err
		}
		if at.Deflection > 1e-12*max(deep.Most.Value, -deep.Least.Value) {
			return i, nil
		}
	}
	return -1, nil
}
