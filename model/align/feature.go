package align

import "math"

// Bend is an angle point of the plan or a grade break of the profile.
type Bend struct {
	Along, Station float64
	Turn           float64 // rad, positive left or up
}

// AnglePoints are the places where the plan turns at a point by more than the
// least angle.
func (a *Alignment) AnglePoints(least float64) []Bend {
	var out []Bend
	for _, p := range a.plan[1:] {
		if math.Abs(p.turn) > least {
			out = append(out, Bend{p.from, a.Station(p.from), p.turn})
		}
	}
	return out
}

// GradeBreaks are the places where the grade changes at a point by more than
// the least angle: phi = atan g2 - atan g1.
func (a *Alignment) GradeBreaks(least float64) []Bend {
	var out []Bend
	for i, r := range a.profile[1:] {
		turn := math.Atan(r.grade) - math.Atan(a.profile[i].gradeAt(r.from))
		if math.Abs(turn) > math.Max(least, 1e-12) {
			out = append(out, Bend{r.from, a.Station(r.from), turn})
		}
	}
	return out
}

// Curve is a circular curve of the plan. The methods are the usual elements of
// a circular curve of radius R and angle d.
type Curve struct {
	From, To float64 // along the alignment
	Radius   float64 // positive turning left
}

// Curves of the plan, in order.
func (a *Alignment) Curves() []Curve {
	var out []Curve
	for _, p := range a.plan {
		if p.radius != 0 {
			out = append(out, Curve{p.from, p.to, p.radius})
		}
	}
	return out
}

// Length along the curve, L = R d.
func (c Curve) Length() float64 { return c.To - c.From }

// Angle by which it turns, positive left.
func (c Curve) Angle() float64 { return c.Length() / c.Radius }

// Chord from end to end, 2 R sin(d/2).
func (c Curve) Chord() float64 { return 2 * c.Radius * math.Sin(c.Angle()/2) }

// Tangent length from either end to where the tangents meet, R tan(d/2); only
// for curves of less than half a turn.
func (c Curve) Tangent() float64 { return c.Radius * math.Tan(c.Angle()/2) }

// External distance from the curve to where the tangents meet, R (sec(d/2) - 1).
func (c Curve) External() float64 {
	return math.Abs(c.Radius) * (1/math.Cos(c.Angle()/2) - 1)
}

// MidOrdinate from the chord to the curve, R (1 - cos(d/2)).
func (c Curve) MidOrdinate() float64 {
	h := math.Sin(c.Angle() / 4)
	return math.Abs(c.Radius) * 2 * h * h
}

// VerticalCurve is a parabolic curve of the profile.
type VerticalCurve struct {
	From, To           float64 // along the alignment
	GradeIn, GradeOut  float64
	ElevationIn, AtPVI float64 // of its beginning, and of the curve under or over its PVI, m
	ElevationOut       float64
	Offset             float64 // of the curve from its PVI, E = (g2-g1) L/8, positive up
	Radius             float64 // L/|g2-g1|
	Turns              bool    // it has a crest or a low point
	Extreme, ExtremeAt float64 // elevation of that, and where along the alignment
}

// VerticalCurves of the profile, in order; one that the alignment's end cuts is told
// as far as the alignment goes.
func (a *Alignment) VerticalCurves() []VerticalCurve {
	var out []VerticalCurve
	for _, r := range a.profile {
		if r.rate == 0 {
			continue
		}
		length := r.to - r.from
		v := VerticalCurve{From: r.from, To: r.to, GradeIn: r.grade, GradeOut: r.gradeAt(r.to),
			ElevationIn: r.z, AtPVI: r.elevation(r.from + length/2), ElevationOut: r.elevation(r.to),
			Offset: r.rate * length * length / 8, Radius: 1 / math.Abs(r.rate)}
		if at := r.from - r.grade/r.rate; at >= r.from && at <= r.to {
			v.Turns, v.ExtremeAt, v.Extreme = true, at, r.elevation(at)
		}
		out = append(out, v)
	}
	return out
}
