package statics

import (
	"math"

	"boxwalk/model"
	"boxwalk/model/culvert"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// Slide is what drives a carrier along and across while concrete is placed, kN.
type Slide struct {
	Bulkhead       int                 // which end has one that pushes on the carrier: 1 front, -1 rear, 0 none or both
	Both           bool                // both ends have one: what they push cancels
	Thrust         load.BulkheadThrust // on the one; it counts where Bulkhead is not 0
	Skew           float64             // rad, the worse of the bulkhead's and of the end that stands
	Grade          float64             // rise over run ahead
	Heavy, Light   float64             // kN, the carrier's weight at most and at least
	Driving        float64             // kN, along the ground, whichever way
	Ahead, Lateral float64             // kN, shares of Driving's resultant: along, with the weight's; and to the side
}

// SlideOf works out what drives a bay's carrier, its form and bulkheads included.
func SlideOf(b *model.Bay, s *model.Study, f Fresh) (Slide, error) {
	w := b.Carrier.WeighRaised()
	out := Slide{Grade: s.Culvert.GradeOf(b.Pour), Heavy: w.Mass.High * gravity, Light: w.Mass.Low * gravity}
	front, rear := openEnd(s, b, 1), openEnd(s, b, -1)
	switch {
	case s.Job.Pour.Bulkhead == "apart":
	case front && rear:
		out.Both = true
	case front:
		out.Bulkhead = 1
	case rear:
		out.Bulkhead = -1
	}
	if out.Bulkhead != 0 {
		if err := out.push(b, s, f); err != nil {
			return out, err
		}
	}
	slope := -out.Grade * sign(out.Bulkhead)
	m, err := load.Sliding{Weight: units.Force(out.Heavy), Slope: units.Slope(slope), Thrust: out.Thrust.Ahead, Sideways: out.Thrust.Left}.Margin()
	out.Driving, out.Lateral = float64(m.Driving), math.Abs(float64(out.Thrust.Left))
	out.Ahead = math.Sqrt(math.Max(0, out.Driving*out.Driving-out.Lateral*out.Lateral))
	return out, err
}

func sign(n int) float64 {
	if n < 0 {
		return -1
	}
	return 1
}

// Holds is what friction of the plates holds on the slope, of the carrier's weight at
// least.
func (s Slide) Holds(friction float64) float64 {
	return friction * s.Light / math.Hypot(1, s.Grade)
}

// push is the thrust on the bulkhead, with the worse skew of it and of the concrete at
// the other end that takes what the bulkhead does not.
func (s *Slide) push(b *model.Bay, st *model.Study, f Fresh) error {
	rear, front := b.Cell.Ends(b.Pour)
	slope := front.Slope
	if math.Abs(rear.Slope) > math.Abs(slope) {
		slope = rear.Slope
	}
	s.Skew = math.Atan(slope)
	for _, o := range crossSection(b, st, f) {
		t, err := f.Diagram.OnBulkhead(o, units.Angle(s.Skew))
		if err != nil {
			return err
		}
		s.Thrust.Normal += t.Normal
		s.Thrust.Ahead += t.Ahead
		s.Thrust.Left += t.Left
		s.Thrust.Turn += t.Turn
		s.Thrust.Source = t.Source
	}
	return nil
}

// crossSection is the fresh concrete of a pour in a cell, seen along it: walls, of which
// those between two cells that are cast together count half, roof and top haunches.
func crossSection(b *model.Bay, st *model.Study, f Fresh) []load.Outline {
	sec := b.Cell.Section
	var out []load.Outline
	edge := [2]float64{}
	for i, side := range [2]culvert.Side{culvert.Left, culvert.Right} {
		t := wallShare(b, st, side)
		sign := float64(side)
		edge[i] = sign * (sec.HalfSpan + t)
		if t > 0 {
			out = append(out, box(sign*sec.HalfSpan, edge[i], f.Base, sec.Rise))
		}
		if h := sec.Top; h.Exists() {
			x := sign * sec.HalfSpan
			out = append(out, load.Outline{{Along: units.Length(x), Up: units.Length(sec.Rise - h.Rise)}, {Along: units.Length(x), Up: units.Length(sec.Rise)}, {Along: units.Length(x - sign*h.Run), Up: units.Length(sec.Rise)}})
		}
	}
	return append(out, box(edge[1], edge[0], sec.Rise, f.Top))
}

func box(x0, x1, z0, z1 float64) load.Outline {
	p := func(x, z float64) load.Point { return load.Point{Along: units.Length(x), Up: units.Length(z)} }
	return load.Outline{p(x0, z0), p(x1, z0), p(x1, z1), p(x0, z1)}
}

// wallShare is how much of a wall's thickness is cast with the cell: half of one whose
// other face is cast by the cell beside it at the same time, none of one that stands.
func wallShare(b *model.Bay, st *model.Study, side culvert.Side) float64 {
	t, beside := b.Cell.Left, b.Cell.Number-1
	if side == culvert.Right {
		t, beside = b.Cell.Right, b.Cell.Number+1
	}
	switch {
	case st.Culvert.WallStands(b.Cell, side, b.Pour):
		return 0
	case beside < 1 || beside > len(st.Culvert.Cells):
		return t
	case st.Culvert.PoursIn(st.Culvert.Cells[beside-1])[b.Pour.Number-1].Cast == b.Pour.Cast:
		return t / 2
	}
	return t
}

// openEnd tells whether nothing stands beyond an end of a pour when it is cast: it has a
// bulkhead there.
func openEnd(st *model.Study, b *model.Bay, way int) bool {
	n := b.Pour.Number + way
	pours := st.Culvert.PoursIn(b.Cell)
	return n < 1 || n > len(pours) || pours[n-1].Cast > b.Pour.Cast
}

// LiftOf is what fresh concrete lifts the form with, of faces that slope over it, kN per m;
// none where no face looks down on it. Faces of a cell's form: the wall's, the top
// haunch's and the soffit's.
func LiftOf(sec culvert.Section, f Fresh) (load.FaceThrust, error) {
	p := func(y, z float64) load.Point { return load.Point{Along: units.Length(-y), Up: units.Length(z)} }
	half, low := sec.HalfSpan, f.Base
	line := []load.Point{p(half, low), p(half, sec.Rise-sec.Top.Rise)}
	if sec.Top.Exists() {
		line = append(line, p(half-sec.Top.Run, sec.Rise))
	}
	return f.Diagram.OnFaces(append(line, p(0, sec.Rise)))
}
