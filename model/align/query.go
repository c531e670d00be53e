package align

import (
	"math"
	"slices"

	"boxwalk/model/geom"

	"github.com/go-gl/mathgl/mgl64"
)

// Length of the alignment in plan.
func (a *Alignment) Length() float64 { return a.length }

// Start of the alignment, as given.
func (a *Alignment) Start() Start { return a.start }

// Crossfall of the invert across the alignment, positive falling to the right.
func (a *Alignment) Crossfall() float64 { return a.crossfall }

// Elements of the plan and points of the profile, as given.
func (a *Alignment) Elements() ([]Element, []PVI) {
	return slices.Clone(a.elements), slices.Clone(a.points)
}

// Station at a distance along the alignment.
func (a *Alignment) Station(along float64) float64 { return a.start.Station + along }

// Along is the distance of a station from the start of the alignment; a *Beyond
// error when the alignment does not reach there.
func (a *Alignment) Along(station float64) (float64, error) {
	along := station - a.start.Station
	if err := a.reaches(along); err != nil {
		return 0, err
	}
	return math.Max(0, math.Min(a.length, along)), nil
}

// reaches allows for a micrometre at either end, so that sums of pour lengths
// may end where the alignment does.
func (a *Alignment) reaches(along float64) error {
	if along >= -1e-6 && along <= a.length+1e-6 {
		return nil
	}
	return &Beyond{Along: along, Length: a.length, Station: a.Station(along), Least: a.start.Station, Greatest: a.Station(a.length)}
}

// Place is one place on the alignment. Where two elements meet, its directions are
// those ahead; at the end of the alignment, those behind.
type Place struct {
	Along, Station float64
	Point          geom.Vec // in the job frame
	Heading        float64  // in plan, from the job frame's x, positive left; it does not jump by a full turn
	Bearing        float64  // clockwise from north, from 0 to a full turn
	Curvature      float64  // 1/radius in plan, positive left
	Grade          float64  // rise over run
	GradeRate      float64  // change of grade per metre
	Elevation      float64  // on the ground
}

// At is the place at a distance along the alignment; a *Beyond error when the alignment
// does not reach there.
func (a *Alignment) At(along float64) (Place, error) {
	if err := a.reaches(along); err != nil {
		return Place{}, err
	}
	along = math.Max(0, math.Min(a.length, along))
	p, r := a.pieceAt(along), a.riseAt(along)
	here := Place{Along: along, Station: a.Station(along), Point: a.Point(along)}
	here.Heading = p.headingAt(along - p.from)
	here.Bearing = a.bearing(here.Heading)
	if p.radius != 0 {
		here.Curvature = 1 / p.radius
	}
	here.Grade, here.GradeRate, here.Elevation = r.gradeAt(along), r.rate, r.elevation(along)
	return here, nil
}

func (a *Alignment) bearing(heading float64) float64 {
	b := math.Mod(a.start.Bearing-heading, 2*math.Pi)
	if b < 0 {
		b += 2 * math.Pi
	}
	if b >= 2*math.Pi {
		b = 0
	}
	return b
}

// Point on the alignment in the job frame. Beyond its ends the alignment runs on straight
// on its last direction and grade, as an apron does; use At to be told.
func (a *Alignment) Point(along float64) geom.Vec {
	p := a.planPoint(along)
	return geom.Vec{p[0], p[1], a.elevation(along) - a.start.Elevation}
}

// JobFromStation is the frame at a distance along the alignment: x ahead along it
// and its grade, y left and level, z square to both. The crossfall is not in it.
func (a *Alignment) JobFromStation(along float64) (geom.Pose, error) {
	here, err := a.At(along)
	if err != nil {
		return geom.Pose{}, err
	}
	return framed(here.Point, here.Heading, math.Atan(here.Grade)), nil
}

// framed is the pose with x at a heading in plan and a pitch up, and y level.
func framed(at geom.Vec, heading, pitch float64) geom.Pose {
	sh, ch := math.Sincos(heading)
	sp, cp := math.Sincos(pitch)
	x := geom.Vec{ch * cp, sh * cp, sp}
	y := geom.Vec{-sh, ch, 0}
	return geom.Pose{R: mgl64.Mat3FromCols(x, y, x.Cross(y)), T: at}
}

// GroundFromJob takes the job frame to easting, northing and elevation. It is
// for export alone: nothing is worked out in such large numbers.
func (a *Alignment) GroundFromJob() geom.Pose {
	s := a.start
	return framed(geom.Vec{s.Easting, s.Northing, s.Elevation}, math.Pi/2-s.Bearing, 0)
}

// Breaks are the distances along the alignment where its plan or its profile changes
// from one piece to the next, in order, without its ends.
func (a *Alignment) Breaks() []float64 {
	var out []float64
	for _, p := range a.plan[1:] {
		out = append(out, p.from)
	}
	for _, r := range a.profile[1:] {
		out = append(out, r.from)
	}
	slices.Sort(out)
	return slices.Compact(out)
}
