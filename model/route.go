package model

import (
	"math"
	"slices"

	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// Ground is the invert along a cell as a carrier meets it that rolls from one
// pour to another: each pour a plane of its own grade and heading, level
// across.
type Ground struct {
	BayFromLevel geom.Pose // from the level frame at the bay's origin, x ahead along the pour
	Grade        float64   // before the first joint
	Joints       []motion.TrackJoint
}

// Breaks tells whether any grade changes.
func (g Ground) Breaks() bool {
	return slices.ContainsFunc(g.Joints, func(j motion.TrackJoint) bool { return math.Abs(j.Break) > straightOn })
}

// Cross is the greatest cross slope that a grade break at a skewed joint makes.
func (g Ground) Cross() float64 {
	var most float64
	grade := g.Grade
	for _, j := range g.Joints {
		if math.Abs(j.Break) > straightOn {
			most = math.Max(most, math.Abs(j.Grade-grade)*math.Abs(math.Tan(j.Skew)))
		}
		grade = j.Grade
	}
	return most
}

// Grades are those of the pours, the rearmost first.
func (g Ground) Grades() []float64 {
	out := []float64{g.Grade}
	for _, j := range g.Joints {
		out = append(out, j.Grade)
	}
	return out
}

// route is all that a carrier meets on its way from a pour to the next that it
// casts, and the ground it rolls on, over the pours from first to last. Over grade breaks every solid is where it is; on one
// grade, with or without bends, each pour is laid into the plane of this pour's
// invert, in which the carrier then rolls: a bend on a grade g leaves that
// plane by no more than the cross slope g sin(turn), which is taken off.
func (s *Study) route(cell culvert.Cell, pour culvert.Pour, first, last int, solids []culvert.Solid) ([]culvert.Solid, Ground) {
	g := s.ground(cell, pour, max(1, first), min(len(s.Culvert.Pours), last))
	if g.Breaks() {
		return solids, g
	}
	return s.flattened(cell, pour, solids), g
}

// ground of the pours from first to last, seen from one of them.
func (s *Study) ground(cell culvert.Cell, pour culvert.Pour, first, last int) Ground {
	return Ground{s.levelFromBay(pour).Inverse(), s.Culvert.GradeOf(s.Culvert.Pours[first-1]), s.joints(cell, pour, first, last)}
}

// levelFromBay turns a pour's frame level.
func (s *Study) levelFromBay(pour culvert.Pour) geom.Pose {
	return geom.Rotation(geom.Vec{}, geom.Vec{0, 1, 0}, -math.Atan(s.Culvert.GradeOf(pour)))
}

// startOf is where a pour begins on the job's line.
func (s *Study) startOf(number int) float64 {
	var at float64
	for _, l := range s.Job.Culvert.Pours.Lengths()[:number-1] {
		at += float64(l)
	}
	return at
}
