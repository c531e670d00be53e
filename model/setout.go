package model

import (
	"math"

	"boxwalk/model/align"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// SetPoint is a place that a surveyor sets out for a bay. Stations and offsets are
// in plan on the alignment, whatever the grade; levels have the crossfall in them.
type SetPoint struct {
	What     string       // of the names below
	Bent     int          // from 1 at the rear; 0 where it is none
	Side     culvert.Side // of the cell's centreline
	Along    float64      // m ahead of the pour's rear end on the centreline, along the pour
	Station  float64
	Offset   float64 // m left of the alignment
	Easting  float64
	Northing float64
	Invert   float64 // level of the invert's top there, of whatever pour or apron that is
	Soffit   float64 // level of the pour's own soffit above it, camber included
	Ahead    float64 // m that a corner of the pour lies ahead of its end on the centreline
}

// What is set out.
const (
	RearEnd   = "pour, rear end"
	FrontEnd  = "pour, front end"
	FormRear  = "form, rear end"
	FormFront = "form, front end"
	AtBent    = "bent"
	AtJack    = "jack"
)

// surveyor takes places of bays to the level frame at the alignment's start, and on
// to the ground.
type surveyor struct {
	study         *Study
	line          *align.Alignment
	jobFromLine   geom.Pose
	groundFromJob geom.Pose
	fall          float64 // crossfall, positive falling to the right
}

// SetOut are the places of a bay, its ends first, from the rear.
func (s *Study) SetOut(b *Bay) []SetPoint { return s.surveyor().bay(b) }

// surveyor of a study. A job on one tangent has no line of its own and gets one.
func (s *Study) surveyor() *surveyor {
	line := s.Line
	if line == nil {
		long := 1.0
		for _, l := range s.Job.Culvert.Pours.Lengths() {
			long += float64(l)
		}
		a := s.Job.Alignment
		start := align.Start{Station: float64(a.Start.Station), Elevation: float64(a.Start.Elevation), Bearing: float64(a.Start.Bearing),
			Easting: float64(a.Start.Easting), Northing: float64(a.Start.Northing), Grade: float64(a.Grade)}
		line, _ = align.New(start, []align.Element{align.Tangent(long)}, nil, float64(a.Crossfall))
	}
	return &surveyor{study: s, line: line, fall: float64(s.Job.Alignment.Crossfall), groundFromJob: line.GroundFromJob(),
		jobFromLine: geom.Rotation(geom.Vec{}, geom.Vec{0, 1, 0}, -math.Atan(s.Culvert.Grade))}
}

func (v *surveyor) bay(b *Bay) []SetPoint {
	c := b.Carrier
	rear, front := b.Cell.Ends(b.Pour)
	half := b.Cell.HalfSpan
	var out []SetPoint
	for _, e := range []struct {
		what string
		end  geom.End
	}{{RearEnd, rear}, {FrontEnd, front}} {
		for _, side := range []culvert.Side{culvert.Left, culvert.Both, culvert.Right} {
			y := float64(side) * half
			p := v.point(b, e.what, 0, side, e.end.At(y, 0), y)
			p.Ahead = e.end.At(y, 0) - e.end.At(0, 0)
			out = append(out, p)
		}
	}
	out = append(out, v.point(b, FormRear, 0, culvert.Both, c.Rear, 0), v.point(b, FormFront, 0, culvert.Both, c.Rear+float64(c.Gear.Form.Length), 0))
	for i, x := range c.Bents {
		out = append(out, v.point(b, AtBent, i+1, culvert.Both, x, 0))
		for _, p := range c.Parts {
			if p.Role == carrier.JackPlate && p.Bent == i+1 {
				at := p.Box().Center()
				out = append(out, v.point(b, AtJack, i+1, p.Side, at[0], at[1]))
			}
		}
	}
	return out
}

// point sets out what stands at (x, y) in the frame of cell and pour.
func (v *surveyor) point(b *Bay, what string, bent int, side culvert.Side, x, y float64) SetPoint {
	own := v.jobFromLine.Mul(b.Cell.LineFromBay(b.Pour))
	at := own.Apply(geom.Vec{x, y, 0})
	out := SetPoint{What: what, Bent: bent, Side: side, Along: x}
	var along float64
	along, out.Offset = v.project(at)
	out.Station = v.line.Station(along)
	ground := v.groundFromJob.Apply(geom.Vec{at[0], at[1], v.under(at) + v.fall*out.Offset})
	out.Easting, out.Northing, out.Invert = ground[0], ground[1], ground[2]
	out.Soffit = v.groundFromJob.Apply(geom.Vec{at[0], at[1], level(own, b.Cell.Rise, at) + v.fall*out.Offset})[2]
	return out
}

// level is how high, above or below a place in plan, a plane lies that is z above
// the invert in the frame of a pose.
func level(jobFromPour geom.Pose, z float64, at geom.Vec) float64 {
	up := jobFromPour.R.Col(2)
	t := jobFromPour.T
	return t[2] + (z-up[0]*(at[0]-t[0])-up[1]*(at[1]-t[1]))/up[2]
}

// under is the level of the invert at a place in plan: that of the pour it lies in,
// or of the nearest one, whose grade an apron goes on with.
func (v *surveyor) under(at geom.Vec) float64 {
	least, out := math.Inf(1), 0.0
	for _, p := range v.study.Culvert.Pours {
		pose := v.jobFromLine.Mul(p.LineFromPour)
		in := pose.Inverse().Apply(geom.Vec{at[0], at[1], level(pose, 0, at)})
		off := math.Max(p.Rear.At(in[1], 0)-in[0], in[0]-p.Front.At(in[1], 0))
		if off = math.Max(0, off); off < least {
			least, out = off, level(pose, 0, at)
		}
	}
	return out
}

// projecting is how far either side of a guess the foot of a place on the line is
// looked for, m: farther than a skewed end or a bend puts it.
const projecting = 60

// project is where the foot of a place on the alignment is, along it in plan, and how
// far left of it the place lies. Outside an angle point the foot is the point itself.
func (v *surveyor) project(at geom.Vec) (along, left float64) {
	ahead := func(along float64) (geom.Vec, geom.Vec) {
		const h = 1e-3
		p, t := v.line.Point(along), v.line.Point(along+h).Sub(v.line.Point(along-h))
		return at.Sub(p), geom.Vec{t[0], t[1], 0}.Normalize()
	}
	guess := v.nearest(at)
	lo, hi := guess-projecting, guess+projecting
	for range 80 {
		mid := (lo + hi) / 2
		if off, t := ahead(mid); off[0]*t[0]+off[1]*t[1] > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	along = (lo + hi) / 2
	off, t := ahead(along)
	return along, t[0]*off[1] - t[1]*off[0]
}

// nearest is the nearest of places a metre apart along the line.
func (v *surveyor) nearest(at geom.Vec) float64 {
	best, least := 0.0, math.Inf(1)
	for along := -20.0; along <= v.line.Length()+20; along++ {
		d := v.line.Point(along).Sub(at)
		if off := math.Hypot(d[0], d[1]); off < least {
			best, least = along, off
		}
	}
	return best
}
