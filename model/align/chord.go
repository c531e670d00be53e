package align

import (
	"fmt"
	"math"

	"boxwalk/model/geom"
)

// Chord is one pour: straight between two places on the alignment, as the carrier
// that casts it is.
type Chord struct {
	From, To    float64 // along the alignment
	Rear, Front geom.Vec
	Length      float64 // from end to end in space, m
	Heading     float64 // in plan, positive left of the job frame's x
	Pitch       float64 // up, rad
	// Plan and Profile are the greatest distances of the alignment from the chord,
	// square to it: to its left or right, and above or below.
	Plan, Profile float64
}

// Chord of the alignment between two distances along it; from must be less than to.
func (a *Alignment) Chord(from, to float64) (Chord, error) {
	for _, along := range [2]float64{from, to} {
		if err := a.reaches(along); err != nil {
			return Chord{}, err
		}
	}
	if !(from < to) {
		return Chord{}, fmt.Errorf("a pour from %s to %s has no length", num(from, "m"), num(to, "m"))
	}
	c := Chord{From: from, To: to, Rear: a.Point(from), Front: a.Point(to)}
	d := c.Front.Sub(c.Rear)
	run := math.Hypot(d[0], d[1])
	c.Length = d.Len()
	c.Heading = near(math.Atan2(d[1], d[0]), a.pieceAt(from).headingAt(from-a.pieceAt(from).from))
	c.Pitch = math.Atan2(d[2], run)
	c.Plan, c.Profile = a.planOrdinate(c, run), a.profileOrdinate(c)
	return c, nil
}

// near is the angle plus whole turns that lies within half a turn of ref.
func near(angle, ref float64) float64 {
	return angle + 2*math.Pi*math.Round((ref-angle)/(2*math.Pi))
}

// planOrdinate is exact: the distance from the chord has its extremes where
// pieces meet and where a curve runs along the chord.
func (a *Alignment) planOrdinate(c Chord, run float64) float64 {
	ux, uy := (c.Front[0]-c.Rear[0])/run, (c.Front[1]-c.Rear[1])/run
	off := func(along float64) float64 {
		p := a.planPoint(along)
		return math.Abs(ux*(p[1]-c.Rear[1]) - uy*(p[0]-c.Rear[0]))
	}
	var most float64
	for _, p := range a.plan {
		from, to := math.Max(p.from, c.From), math.Min(p.to, c.To)
		if from >= to {
			continue
		}
		most = math.Max(most, math.Max(off(from), off(to)))
		if p.radius == 0 {
			continue
		}
		turn := c.Heading - p.heading
		for k := -2.0; k <= 2; k++ { // along the chord, or against it
			if s := p.from + p.radius*(turn+k*math.Pi); s > from && s < to {
				most = math.Max(most, off(s))
			}
		}
	}
	return most
}

// profileOrdinate holds the profile, unrolled along the alignment, against the
// straight from end to end; a parabola is farthest where its grade is the
// chord's.
func (a *Alignment) profileOrdinate(c Chord) float64 {
	z0 := a.elevation(c.From)
	g := (a.elevation(c.To) - z0) / (c.To - c.From)
	var most float64
	off := func(along float64) { most = math.Max(most, math.Abs(a.elevation(along)-z0-g*(along-c.From))) }
	for _, r := range a.profile {
		from, to := math.Max(r.from, c.From), math.Min(r.to, c.To)
		if from >= to {
			continue
		}
		off(from)
		if s := r.from + (g-r.grade)/r.rate; s > from && s < to {
			off(s)
		}
	}
	return most * math.Cos(math.Atan(g))
}
