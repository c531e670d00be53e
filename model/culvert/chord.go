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

// ordinates is at how many places a chord is first held against the line.
const ordinates = 64

// midOrdinate is the greatest distance of the line from the chord. Elements of a
// line are straight, circular or parabolic, so that around the greatest of these
// places the distance rises to one peak, be it an angle point or a grade break
// inside the pour, and falls from it: golden sections find it.
func (c chord) midOrdinate(line Line, along, length float64) float64 {
	unit := c.to.Sub(c.from).Normalize()
	off := func(at float64) float64 {
		d := line.Point(along + length*at).Sub(c.from)
		return d.Sub(unit.Mul(d.Dot(unit))).Len()
	}
	best := 0
	for i := 1; i < ordinates; i++ {
		if off(float64(i)/ordinates) > off(float64(best)/ordinates) {
			best = i
		}
	}
	most := off(float64(best) / ordinates)
	lo, hi := math.Max(0, float64(best-1)/ordinates), math.Min(1, float64(best+1)/ordinates)
	for range 60 { // to 1e-12 of the pour
		part := (math.Sqrt(5) - 1) / 2 * (hi - lo)
		if p, q := hi-part, lo+part; off(p) < off(q) {
			lo = p
		} else {
			hi = q
		}
	}
	return math.Max(most, off((lo+hi)/2))
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
			p.Turn, p.Break = math.Remainder(c.heading-chords[i-1].heading, 2*math.Pi), c.pitch-chords[i-1].pitch
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
	// the line's frame is tilted with the first pour: what the pour's x rises in it
	// and what it runs in the tilted direction both make it rise
	tilt := math.Atan(c.Grade)
	rise := math.Cos(tilt)*p.LineFromPour.R.At(2, 0) + math.Sin(tilt)*p.LineFromPour.R.At(0, 0)
	return math.Tan(math.Asin(math.Max(-1, math.Min(1, rise))))
}
