package motion

import (
	"fmt"
	"math"
	"slices"

	"boxwalk/model/geom"

	"github.com/go-gl/mathgl/mgl64"
)

// Track is the ground that a carrier rolls on, in a level frame (z up): a chain
// of planes, each level across, that a line straight between its bends runs on.
// At distance 0 along it the line is at the origin and runs along x. It does
// not change and is safe for use by many goroutines.
type Track struct{ spans []span }

// span is one plane of the ground between two bends.
type span struct {
	from, to float64 // along the track
	at       mgl64.Vec2
	heading  float64
	grade    float64
	height   float64 // of the ground at at
}

// apart is how far a track runs on straight beyond its ends: further than any
// carrier is long.
const apart = 1e4

// Limits of a track that is rolled along, judgement: grades beyond them are slips
// of the pen.
const mostGrade = 0.3

// Bends that a body on two guides is taken through: within a stretch of 1.2
// bases the track may turn by 60 degrees in all. A stretch of length L that
// turns by d has a chord of at least L cos(d/2), so the two guides are at most
// B/cos 30° = 1.155 B of track apart, and the base lies within 60 degrees of
// both tangents.
const (
	mostSharp = math.Pi / 3
	sharpOver = 1.2
)

// TooSharp says that a track bends more than a body on two guides is taken
// through.
type TooSharp struct {
	At      float64 // along the track
	Stretch float64 // m
	Turn    float64 // within the stretch, rad
}

func (e *TooSharp) Error() string {
	return fmt.Sprintf("from %.3f m on the course turns by %.1f deg within %.3f m; a body on two guides is taken through at most %.0f deg",
		e.At, e.Turn*180/math.Pi, e.Stretch, mostSharp*180/math.Pi)
}

// NewTrack lays planes end to end. grade is that before the first joint. The
// joints must be in order; of each it takes At, Turn, Grade and Step. It refuses
// what is not finite, grades above 30 % and turns of 60 degrees and more.
func NewTrack(grade float64, joints []TrackJoint) (*Track, error) {
	for i, j := range joints {
		if !(math.Abs(j.At) < apart) || !(math.Abs(j.Turn) < mostSharp) || !(math.Abs(j.Step) < 1) || (i > 0 && !(j.At > joints[i-1].At)) {
			return nil, fmt.Errorf("joint %d of the track is not one: at %g m, turning %g rad, stepping %g m", i+1, j.At, j.Turn, j.Step)
		}
	}
	t := &Track{spans: []span{{from: -apart, grade: grade}}}
	home := 0 // the span that holds distance 0
	for _, j := range joints {
		last := &t.spans[len(t.spans)-1]
		last.to = j.At
		t.spans = append(t.spans, span{from: j.At, grade: j.Grade})
		if j.At <= 0 {
			home++
		}
	}
	t.spans[len(t.spans)-1].to = apart
	for _, k := range t.spans {
		if !(math.Abs(k.grade) <= mostGrade) {
			return nil, fmt.Errorf("a grade of %g %% is not rolled over", 100*k.grade)
		}
	}
	for i := home; i < len(joints); i++ { // ahead of home
		here, next := t.spans[i], &t.spans[i+1]
		next.heading = here.heading + joints[i].Turn
		at := here.point(next.from)
		next.at = at.Sub(next.along().Mul(next.from))
		next.height = here.heightAt(next.from) + joints[i].Step - next.grade*next.from
	}
	for i := home - 1; i >= 0; i-- { // behind it
		here, before := t.spans[i+1], &t.spans[i]
		before.heading = here.heading - joints[i].Turn
		at := here.point(before.to)
		before.at = at.Sub(before.along().Mul(before.to))
		before.height = here.heightAt(before.to) - joints[i].Step - before.grade*before.to
	}
	return t, nil
}

// along is the unit direction of a span in plan; left is square to it.
func (k span) along() mgl64.Vec2 {
	sin, cos := math.Sincos(k.heading)
	return mgl64.Vec2{cos, sin}
}

func (k span) left() mgl64.Vec2 {
	sin, cos := math.Sincos(k.heading)
	return mgl64.Vec2{-sin, cos}
}

// point of the line, and height of the ground there, at a distance along the
// track, also beyond the span's own ends.
func (k span) point(t float64) mgl64.Vec2 { return k.at.Add(k.along().Mul(t)) }
func (k span) heightAt(t float64) float64 { return k.height + k.grade*t }
func (k span) slope() mgl64.Vec2          { return k.along().Mul(k.grade) }
func (k span) under(p mgl64.Vec2) float64 { return k.height + k.slope().Dot(p.Sub(k.at)) }
func (k span) plane() (c float64, q mgl64.Vec2) {
	q = k.slope()
	return k.height - q.Dot(k.at), q
}

// lifted is the ground that wheel axles run on: each plane moved up square to
// itself by the wheels' radius r. Two grades lifted so meet
// r (g1 + g2)/(sqrt(1 + g1²) + sqrt(1 + g2²)) before the bend. Over a crest an
// axle really runs round the bend on a radius r: this track stands above it by
// at most r (1/cos(d/2) - 1), d the angle of the break.
func (t *Track) lifted(r float64) *Track {
	out := &Track{spans: slices.Clone(t.spans)}
	for i := range out.spans {
		k := &out.spans[i]
		k.height += r * math.Hypot(1, k.grade)
		if i > 0 {
			g1, g2 := out.spans[i-1].grade, k.grade
			k.from -= r * (g1 + g2) / (math.Hypot(1, g1) + math.Hypot(1, g2))
			out.spans[i-1].to = k.from
		}
	}
	return out
}

// Overstated is the most by which wheels of radius r stand above the ground in
// the model of a ride, over the sharpest crest.
func (t *Track) Overstated(r float64) float64 {
	var most float64
	for i := 1; i < len(t.spans); i++ {
		d := math.Atan(t.spans[i-1].grade) - math.Atan(t.spans[i].grade)
		if d > 0 {
			most = math.Max(most, r*(1/math.Cos(d/2)-1))
		}
	}
	return most
}

// CrossSlope is a bound on how much any wheel line of a body on the track leans
// across: a body that lies at an angle psi to a plane of grade g, level across,
// has cross slope g sin psi under it, and psi is at most all the turns within
// reach, to and fro.
func (t *Track) CrossSlope() float64 {
	var turns, steepest float64
	for i, k := range t.spans {
		if i > 0 {
			turns += math.Abs(k.heading - t.spans[i-1].heading)
		}
		steepest = math.Max(steepest, math.Abs(k.grade))
	}
	return steepest * math.Sin(math.Min(turns, math.Pi/2))
}

// Point of the ground on the line, at a distance along it.
func (t *Track) Point(at float64) geom.Vec {
	k := t.spans[t.spanAt(at)]
	p := k.point(at)
	return geom.Vec{p[0], p[1], k.heightAt(at)}
}

func (t *Track) spanAt(at float64) int {
	i := 0
	for i+1 < len(t.spans) && t.spans[i+1].from <= at {
		i++
	}
	return i
}

// beside is the plan of the track at a distance left of it: a course of
// straights whose bends lie on the mitres of the track's. Heights do not count.
func (t *Track) beside(d float64) []span {
	out := slices.Clone(t.spans)
	for i := range out {
		out[i].at = out[i].at.Add(out[i].left().Mul(d))
		if i > 0 {
			// the mitre: d tan(turn/2) before the bend on its inside, on both
			// sides of it; distances go on from the home span
			half := math.Tan((t.spans[i].heading - t.spans[i-1].heading) / 2)
			out[i-1].to = t.spans[i].from - d*half
			out[i].from = t.spans[i].from + d*half
		}
	}
	return continued(out)
}

// continued lets distances run on without a jump from span to span, as they are
// on the span that holds 0.
func continued(spans []span) []span {
	home := 0
	for i, k := range spans {
		if k.from <= 0 {
			home = i
		}
	}
	shift := func(k *span, by float64) {
		k.at = k.at.Sub(k.along().Mul(by))
		k.from, k.to = k.from+by, k.to+by
	}
	for i := home + 1; i < len(spans); i++ {
		shift(&spans[i], spans[i-1].to-spans[i].from)
	}
	for i := home - 1; i >= 0; i-- {
		shift(&spans[i], spans[i+1].from-spans[i].to)
	}
	return spans
}
