package certify

import (
	"fmt"
	"math"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/trace"
	"boxwalk/model/geom"
	"boxwalk/model/motion"
)

// rollTraced is one stretch of the advance as a proof has it; false where the
// format has no words for it.
func (q *placed) rollTraced(s measure.Segment, id int) (*trace.Step, bool) {
	b, way := q.r.Found.Bay, q.r.Found.Rolling.Way
	last := b.Steps[len(b.Steps)-1]
	lead, _ := q.r.Found.Lead()
	if path, ok := s.Motion.(*motion.Path); ok {
		step := traced(lead, last, id, trace.Roll, b.PresentAfter(last))
		step.Name, step.Drives, step.Motion = q.r.RollStep(way), drives(b, path), path
		return step, true
	}
	frame, ok := q.frame(s)
	if !ok {
		return nil, false
	}
	step := traced(b, last, id, trace.Roll, b.PresentAfter(last))
	for i := range step.Drives {
		step.Drives[i].From = step.Drives[i].To
	}
	step.Name = fmt.Sprintf("%s, from %s", q.r.RollStep(way), q.r.Distance(s.From*math.Abs(way)))
	step.Motion, step.Parts, step.Frame = shifted{s.Motion, q.place.Shift}, q.r.Found.Rolling.Parts, frame
	return step, true
}

// frame is how a stretch places the carrier's frame.
func (q *placed) frame(s measure.Segment) (trace.Placed, bool) {
	switch m := s.Motion.(type) {
	case *motion.Glide:
		return q.carried(m)
	case *motion.Tip:
		return q.tipped(m)
	}
	return nil, false
}

// shiftedBack takes a point to the carrier's own coordinates.
func (q *placed) shiftedBack(p geom.Vec) geom.Vec { return p.Sub(geom.Vec{q.place.Shift}) }

func (q *placed) carried(m *motion.Glide) (trace.Placed, bool) {
	c, ok := m.Carried()
	line := func(l motion.Line) trace.Line { return trace.Line{At: l.At.Vec3(0), Heading: l.Heading} }
	wheels := func(ahead float64, p motion.Plane) trace.Wheels {
		return trace.Wheels{Ahead: ahead, Plane: p.Slope.Vec3(p.Height)}
	}
	return trace.Carry{Level: q.level(c.Level), Guide: q.shiftedBack(c.Guide), Base: c.Base,
		On: line(c.On), From: c.From, To: c.To, Front: line(c.Front),
		Low: wheels(c.Low, c.Under), High: wheels(c.High, c.UnderAhead)}, ok
}

func (q *placed) tipped(m *motion.Tip) (trace.Placed, bool) {
	t, ok := m.Tipped()
	return trace.Tip{Level: q.level(t.Level), Pivot: q.shiftedBack(t.Pivot), From: t.From, To: t.To, Yaw: t.Yaw, Pitch: t.Pitch}, ok
}

func (q *placed) level(l motion.Level) trace.Level {
	return trace.Level{Origin: q.shiftedBack(l.Origin), Tilt: l.Tilt}
}
