package model

import (
	"math"

	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// Way is one joint ahead of a bay at which the cell's centreline changes its
// direction: where it is along the way, from the bay's origin, and by how much
// it turns (in plan, positive left) and breaks (in profile, positive up).
// Begins is the same joint in the next bay's frame, along its centreline.
type Way struct{ At, Turn, Break, Begins float64 }

// straightOn is an angle too small to matter: a nanometre over ten metres.
const straightOn = 1e-10

// ways follows the cell's centreline from a pour over the next two joints,
// which is as far as a carrier reaches that rolls to the next pour.
func (s *Study) ways(cell culvert.Cell, pour culvert.Pour) []Way {
	var out []Way
	at := 0.0      // along the way to the origin of the pour before
	started := 0.0 // of that pour's straight piece, in its own frame
	before := pour
	for i := pour.Number; i < len(s.Culvert.Pours) && i < pour.Number+2; i++ {
		next := s.Culvert.Pours[i]
		kink, begins := meeting(cell.BayFromBay(before, next))
		at += kink - started
		out = append(out, Way{At: at, Turn: next.Turn, Break: next.Break, Begins: begins})
		started, before = begins, next
	}
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
		heading := math.Atan2(full.R.At(1, 0), full.R.At(0, 0))
		flat := geom.Rotation(geom.Vec{}, geom.Vec{0, 0, 1}, heading)
		flat.T = geom.Vec{full.T[0], full.T[1], 0}
		out[i].Solid = c.Solid.Moved(flat.Mul(full.Inverse()))
	}
	return out
}

// meeting is where the x axes of two neighbouring bays meet in plan: along the
// first from its origin, and along the second from its own (before it, by half
// the joint's gap). Axes in line meet at the second's origin.
func meeting(firstFromSecond geom.Pose) (along, begins float64) {
	o := firstFromSecond.T
	heading := math.Atan2(firstFromSecond.R.At(1, 0), firstFromSecond.R.At(0, 0))
	if math.Abs(math.Sin(heading)) < straightOn {
		return o[0], 0
	}
	t := -o[1] / math.Sin(heading)
	return o[0] + t*math.Cos(heading), t
}
