package trace

import (
	"math"

	"boxwalk/clearance/sweep"
	"boxwalk/model/geom"
)

// directions is the number of normals that are tried between two whole sets:
// along the cell, and every 15 degrees across it. A cross-section's faces are
// level, plumb or those of haunches, so that most sets are apart along one.
const directions = 26

// normals are those directions; i^1 is the opposite of i.
var normals = func() (out [directions]geom.Vec) {
	for i := range out {
		out[i] = direction(i)
	}
	return out
}()

func direction(i int) geom.Vec {
	sign := 1 - 2*float64(i&1)
	if i < 2 {
		return geom.Vec{sign}
	}
	sin, cos := math.Sincos(float64(i/2-1) * math.Pi / 12)
	return geom.Vec{0, sign * cos, sign * sin}
}

// lows is, for each direction, the lowest that each of some solids comes along
// it over a whole step.
type lows [directions][]float64

// tables are the lows of a carrier's parts in each frame asked for.
type tables map[int]*lows

// standing are the lows of solids that do not move.
func standing(solids []Solid) *lows {
	var out lows
	ride := sweep.Standing(1)
	for _, s := range solids {
		span := ride.Span(s.Part)
		for d := range directions {
			out[d] = append(out[d], span.Lowest(normals[d]))
		}
	}
	return &out
}

// moving are the lows of the parts on bodies below a frame; those of others are
// -Inf, since nobody asks for them there.
func moving(s *Step, below func(body int) bool, frame int) *lows {
	var out lows
	for d := range directions {
		out[d] = make([]float64, len(s.Parts))
	}
	rides := map[int]*sweep.Ride{}
	for i, p := range s.Parts {
		if !below(p.Body) {
			for d := range directions {
				out[d][i] = math.Inf(-1)
			}
			continue
		}
		r := rides[p.Body]
		if r == nil {
			ride := sweep.RideOf(s.Motion, frame, p.Body, 0, 1, caution)
			r = &ride
			rides[p.Body] = r
		}
		span := r.Span(p)
		for d := range directions {
			out[d][i] = span.Lowest(normals[d])
		}
	}
	return &out
}
