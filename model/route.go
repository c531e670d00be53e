package model

import (
	"math"

	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// Ground is the invert along a cell as a carrier meets it that rolls from one
// pour to another: each pour a plane of its own grade and heading, level
// across.
type Ground struct {
	BayFromLevel geom.Pose // from the level frame at the bay's origin, x ahead along the pour
	Grade        float64   // before the first bend
	Bends        []motion.Bend
	Along        []float64 // of the bends on the job's line, from the inlet
	Cross        float64   // greatest cross slope that a grade break at a skewed joint makes
	Breaks       bool      // whether any grade changes
}

// route is all that a carrier meets on its way from a pour to the next that it
// casts, and the ground it rolls on, over the pours from first to last. Over grade breaks every solid is where it is; on one
// grade, with or without bends, each pour is laid into the plane of this pour's
// invert, in which the carrier then rolls: a bend on a grade g leaves that
// plane by no more than the cross slope g sin(turn), which is taken off.
func (s *Study) route(cell culvert.Cell, pour culvert.Pour, first, last int, solids []culvert.Solid) ([]culvert.Solid, Ground) {
	g := s.ground(cell, pour, max(1, first), min(len(s.Culvert.Pours), last))
	if g.Breaks {
		return solids, g
	}
	return s.flattened(cell, pour, solids), g
}

// ground of the pours from first to last, seen from one of them.
func (s *Study) ground(cell culvert.Cell, pour culvert.Pour, first, last int) Ground {
	pitch := math.Atan(s.Culvert.GradeOf(pour))
	levelFromBay := geom.Rotation(geom.Vec{}, geom.Vec{0, 1, 0}, -pitch)
	g := Ground{BayFromLevel: levelFromBay.Inverse()}
	g.Grade = s.Culvert.GradeOf(s.Culvert.Pours[first-1])
	if s.Line == nil {
		return g
	}
	var joints []joint
	for n := first + 1; n <= last; n++ {
		before, next := s.Culvert.Pours[n-2], s.Culvert.Pours[n-1]
		frame := func(p culvert.Pour) geom.Pose { return levelFromBay.Mul(cell.BayFromBay(pour, p)) }
		j := joined(frame(before), frame(next), next.Rear.X)
		joints = append(joints, j)
		g.Bends = append(g.Bends, motion.Bend{Turn: next.Turn, Grade: s.Culvert.GradeOf(next), Step: j.step})
		g.Along = append(g.Along, s.startOf(n))
		if math.Abs(next.Break) > straightOn {
			g.Breaks = true
			skew := math.Atan(next.Rear.Slope) - next.Turn/2
			g.Cross = math.Max(g.Cross, math.Abs(s.Culvert.GradeOf(next)-s.Culvert.GradeOf(before))*math.Abs(math.Tan(skew)))
		}
	}
	g.place(joints, pour.Number-first)
	return g
}

// place finds the bends along the ground in plan from the bay's origin, which
// lies just before joint number home.
func (g *Ground) place(joints []joint, home int) {
	origin := 0.0
	for i := home; i < len(joints); i++ {
		g.Bends[i].At = origin + joints[i].ends
		origin = g.Bends[i].At - joints[i].begins
	}
	origin = 0
	for i := home - 1; i >= 0; i-- {
		g.Bends[i].At = math.Min(origin, origin+joints[i].begins) // behind, whichever way it was rounded
		origin = g.Bends[i].At - joints[i].ends
	}
}

// joint is where the axes of two neighbouring bays meet in plan: how far along
// the first from its origin, along the second from its own, and by how much the
// second's invert stands above the first's there.
type joint struct{ ends, begins, step float64 }

// joined is the joint of two bays whose frames are given in one level frame. The
// second's origin lies half the joint's gap beyond it.
func joined(first, second geom.Pose, half float64) joint {
	type axis struct{ x, y, dx, dy, z, grade float64 }
	of := func(p geom.Pose) axis {
		u := geom.Vec{p.R.At(0, 0), p.R.At(1, 0), p.R.At(2, 0)}
		run := math.Hypot(u[0], u[1])
		return axis{p.T[0], p.T[1], u[0] / run, u[1] / run, p.T[2], u[2] / run}
	}
	a, b := of(first), of(second)
	begins := -half / math.Hypot(1, b.grade)
	if turn := a.dx*b.dy - a.dy*b.dx; math.Abs(turn) > straightOn {
		begins = ((a.x-b.x)*a.dy - (a.y-b.y)*a.dx) / -turn
	}
	ends := (b.x+begins*b.dx-a.x)*a.dx + (b.y+begins*b.dy-a.y)*a.dy
	return joint{ends, begins, b.z + b.grade*begins - a.z - a.grade*ends}
}

// startOf is where a pour begins on the job's line.
func (s *Study) startOf(number int) float64 {
	var at float64
	for _, l := range s.Job.Culvert.Pours.Lengths()[:number-1] {
		at += float64(l)
	}
	return at
}
