package culvert

import (
	"math"

	"boxwalk/model/geom"
	"boxwalk/model/job"

	"github.com/go-gl/mathgl/mgl64"
)

// Line is where the job's line runs.
type Line interface {
	// Point at a distance along the line from the inlet, in the level frame at
	// the line's start: x ahead along its direction there, y left, z up.
	Point(along float64) geom.Vec
}

// chord is one pour as straight as its carrier: between two points of the line.
type chord struct {
	from, to geom.Vec
	heading  float64 // in plan, from the line's first direction, positive left
	pitch    float64 // up
	middle   float64 // mid-ordinate: the line's greatest distance from the chord
}

// chordsOf cuts the line into the pours' chords.
func chordsOf(j *job.Culvert, line Line) []chord {
	var out []chord
	along := 0.0
	for _, l := range j.Pours.Lengths() {
		c := chord{from: line.Point(along), to: line.Point(along + float64(l))}
		d := c.to.Sub(c.from)
		c.heading = math.Atan2(d[1], d[0])
		c.pitch = math.Atan2(d[2], math.Hypot(d[0], d[1]))
		c.middle = c.midOrdinate(line, along, float64(l))
		along += float64(l)
		out = append(out, c)
	}
	return out
}

// ordinates is at how many places a chord is held against the line. Elements of
// a line are straight, circular or parabolic; the greatest distance lies within
// a part in a thousand of the greatest of these.
const ordinates = 64

func (c chord) midOrdinate(line Line, along, length float64) float64 {
	unit := c.to.Sub(c.from).Normalize()
	var most float64
	for i := 1; i < ordinates; i++ {
		d := line.Point(along + length*float64(i)/ordinates).Sub(c.from)
		most = math.Max(most, d.Sub(unit.Mul(d.Dot(unit))).Len())
	}
	return most
}

// pose of the chord's frame in the level frame at the line's start.
func (c chord) pose() geom.Pose {
	ch, sh := math.Cos(c.heading), math.Sin(c.heading)
	cp, sp := math.Cos(c.pitch), math.Sin(c.pitch)
	x := geom.Vec{ch * cp, sh * cp, sp}
	y := geom.Vec{-sh, ch, 0}
	return geom.Pose{R: mgl64.Mat3FromCols(x, y, x.Cross(y)), T: c.from}
}

// chordPours are the pours along chords, seen from the line's frame, which is
// tilted with the first pour. Joints are mitred: where two pours meet at an
// angle, the face turns by half of it for each.
func chordPours(j *job.Culvert, chords []chord) []Pour {
	n := len(chords)
	levelFromLine := geom.Rotation(geom.Vec{}, geom.Vec{0, 1, 0}, -chords[0].pitch)
	out := make([]Pour, n)
	for i, c := range chords {
		p := &out[i]
		p.LineFromPour = levelFromLine.Inverse().Mul(c.pose())
		p.MidOrdinate = c.middle
		p.Rear = geom.End{Slope: math.Tan(j.SkewAt(i, n)), Lean: leaning(j, c.pitch, 0)}
		p.Front = geom.End{X: c.to.Sub(c.from).Len(), Slope: math.Tan(j.SkewAt(i+1, n)), Lean: leaning(j, c.pitch, 0)}
		if i > 0 {
			p.Turn, p.Break = c.heading-chords[i-1].heading, c.pitch-chords[i-1].pitch
			p.Rear = geom.End{Slope: math.Tan(j.SkewAt(i, n) + p.Turn/2), Lean: leaning(j, c.pitch, p.Break)}
			before := &out[i-1]
			before.Front.Slope = math.Tan(j.SkewAt(i, n) - p.Turn/2)
			before.Front.Lean = leaning(j, chords[i-1].pitch, -p.Break)
		}
	}
	return numbered(j, out)
}

// leaning is how a face leans ahead as it goes up, seen from a pour's frame: a
// plumb face by the pitch, a face square to the grade by half the break.
func leaning(j *job.Culvert, pitch, broken float64) float64 {
	if j.Face == "plumb" {
		return math.Tan(pitch)
	}
	return math.Tan(broken / 2)
}

// GradeOf is the rise over run of a pour.
func (c *Culvert) GradeOf(p Pour) float64 {
	// the line's frame is tilted with the first pour
	return math.Tan(math.Atan(c.Grade) + math.Asin(math.Max(-1, math.Min(1, p.LineFromPour.R.At(2, 0)))))
}
