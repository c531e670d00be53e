package load

import (
	"errors"
	"math"
)

// TieLoads returns the thrust on the area that belongs to each tie of a panel:
// all that is nearer to it than to another, so half the way to each neighbour
// and out to the edge, also a skewed one. The areas cover the panel once, so the
// forces add up to the thrust on the panel. It is common practice and no
// statics: a beam over its ties gives the last one more where it stands out by
// more than some 0.4 of the spacing, and the one before it more where it does not,
// by 13 % of many equal spans and 25 % of two. Errors: those of
// [Diagram.On]; no tie, two in one place, one off the panel. Source: common
// practice (derived).
func (d Diagram) TieLoads(panel Outline, ties []Point) ([]Thrust, error) {
	if err := errors.Join(d.Check(), panel.check()); err != nil {
		return nil, err
	}
	if err := panel.checkTies(ties); err != nil {
		return nil, err
	}
	out := make([]Thrust, len(ties))
	for i := range ties {
		own := nearest(panel, ties, i)
		if len(own) < 3 {
			continue // an area of nothing, at the corner of an outline that turns in
		}
		t, err := d.over(own)
		if err != nil {
			return nil, err
		}
		out[i] = t
	}
	return out, nil
}

func (o Outline) checkTies(ties []Point) error {
	if len(ties) == 0 || len(ties) > 1000 {
		return outsideBecause("%d ties, must be 1 to 1000", len(ties))
	}
	for i, t := range ties {
		if !o.holds(t) {
			return outsideBecause("tie %d at %v along and %v up is not on the panel", i+1, amount{float64(t.Along), "m"}, amount{float64(t.Up), "m"})
		}
		for j, other := range ties[:i] {
			if math.Hypot(float64(t.Along-other.Along), float64(t.Up-other.Up)) < 1e-6 {
				return outsideBecause("ties %d and %d are in one place", j+1, i+1)
			}
		}
	}
	return nil
}

// nearest is the part of the panel that is nearer to tie i than to any other.
func nearest(panel Outline, ties []Point, i int) Outline {
	t, own := ties[i], panel
	for j, other := range ties {
		if j == i {
			continue
		}
		along, up := float64(t.Along-other.Along), float64(t.Up-other.Up)
		half := along*float64(t.Along+other.Along)/2 + up*float64(t.Up+other.Up)/2
		own = own.cut(along, up, half)
	}
	return own
}
