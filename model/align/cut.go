package align

import (
	"fmt"
	"math"
)

// leastCut is the shortest part of a line that is one: a hundredth of a
// millimetre.
const leastCut = 1e-5

// Between is the part of the alignment from one distance along it to another, as a
// line of its own: its start is there, with its station, elevation, bearing and
// coordinates. A *Beyond error names an end that is not on the alignment.
func (a *Alignment) Between(from, to float64) (*Alignment, error) {
	if !(to-from >= leastCut) {
		return nil, fmt.Errorf("from %s to %s of the alignment there is no length", num(from, "m"), num(to, "m"))
	}
	here, err := a.At(from)
	if err != nil {
		return nil, err
	}
	if err := a.reaches(to); err != nil {
		return nil, err
	}
	from, to = here.Along, math.Min(to, a.length)
	ground := a.GroundFromJob().Apply(here.Point)
	start := Start{Station: here.Station, Elevation: here.Elevation, Bearing: here.Bearing,
		Easting: ground[0], Northing: ground[1], Grade: here.Grade}
	cut, faults := New(start, a.cut(from, to), a.points, a.crossfall)
	if len(faults) > 0 {
		panic("align: a part of a sound line is not sound: " + faults[0].String())
	}
	return cut, nil
}

// cut is the plan between two distances.
func (a *Alignment) cut(from, to float64) []Element {
	var out []Element
	for _, p := range a.plan {
		s0, s1 := math.Max(p.from, from), math.Min(p.to, to)
		if s0 >= s1 {
			continue
		}
		if p.turn != 0 && len(out) > 0 {
			out = append(out, AnglePoint(p.turn))
		}
		out = append(out, Arc(p.radius, s1-s0))
	}
	return out
}
