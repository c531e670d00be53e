package model

import (
	"math"

	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// reached is the number of the pour that the carrier rolls to, or the outermost
// one on the side over which it leaves.
func (b Bay) reached(pours int) int {
	switch {
	case !b.Leaves:
		return b.Next
	case b.Rolls < 0:
		return 1
	}
	return pours
}

// OnTheWay are the pours that a bay's carrier is on while it rolls, in the order
// in which they lie ahead.
func (s *Study) OnTheWay(b Bay) []culvert.Pour {
	pours := s.Culvert.PoursIn(b.Cell)
	to := b.reached(len(pours))
	return pours[min(b.Pour.Number, to)-1 : max(b.Pour.Number, to)]
}

// along is how far from the origin of one pour that of another lies, along the
// centrelines of a cell.
func (s *Study) along(cell culvert.Cell, from, to culvert.Pour) float64 {
	if to.Number < from.Number {
		return -s.along(cell, to, from)
	}
	at := 0.0
	for i := from.Number; i < to.Number; i++ {
		kink, begins := meeting(cell.BayFromBay(s.Culvert.Pours[i-1], s.Culvert.Pours[i]))
		at += kink - begins
	}
	return at
}

// Stretch is how another pour of a bay's cell lies as its carrier comes to it in
// the plane of the bay's invert: its frame in that of the bay, and how far its
// origin is along the centrelines.
func (s *Study) Stretch(b Bay, pour culvert.Pour) (bayFromPour geom.Pose, along float64) {
	return flat(b.Cell.BayFromBay(b.Pour, pour)), s.along(b.Cell, b.Pour, pour)
}

// flat is a pose with only its turn and its offset in plan.
func flat(full geom.Pose) geom.Pose {
	heading := math.Atan2(full.R.At(1, 0), full.R.At(0, 0))
	out := geom.Rotation(geom.Vec{}, geom.Vec{0, 0, 1}, heading)
	out.T = geom.Vec{full.T[0], full.T[1], 0}
	return out
}

// flattened are solids of several pours of a cell as a carrier meets them that
// rolls in the plane of one pour's invert: in plan where they are, but each as
// if its invert went on in that plane. What grade breaks do to the carrier is
// taken off its clearances.
func (s *Study) flattened(cell culvert.Cell, pour culvert.Pour, solids []culvert.Solid) []culvert.Solid {
	out := make([]culvert.Solid, len(solids))
	for i, c := range solids {
		out[i] = c
		if c.Pour == 0 || c.Pour == pour.Number || s.Line == nil {
			continue
		}
		full := cell.BayFromBay(pour, s.Culvert.Pours[c.Pour-1])
		out[i].Solid = c.Solid.Moved(flat(full).Mul(full.Inverse()))
	}
	return out
}
