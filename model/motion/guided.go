package motion

import (
	"fmt"
	"math"
	"slices"

	"boxwalk/model/geom"
)

// Guides are the two points of a body, in its own coordinates, that run along a
// course; their heights do not count. With both at y = 0 the wheels run on the
// course; otherwise the body stands beside it by -y.
type Guides struct{ Rear, Front geom.Vec }

// base is the distance of the guides in plan, and the angle of the line from
// rear to front in the body.
func (g Guides) base() (b, angle float64) {
	d := g.Front.Sub(g.Rear)
	return math.Hypot(d[0], d[1]), math.Atan2(d[1], d[0])
}

// Guided is a rigid body on two guides that roll along a course in plan: while
// s runs over [0, 1] the rear guide goes from From to To along the course at a
// constant rate, and the front guide is where the course ahead is one base
// away. It answers for one body, numbered 0, seen from Ground, whose frame is
// that of the course. It does not change and is safe for use by many
// goroutines.
//
// With tangents at angles theta_r and theta_f to the course's x and the base B
// at psi, the guides' distance is constant when
//
//	dt_f/dt_r = cos(theta_r - psi) / cos(theta_f - psi),
//	psi' = sin(theta_f - theta_r) / (B cos(theta_f - psi)).
//
// On two straights at phi that is psi' = sin phi/(B cos(phi - psi)), and on one
// circle psi' = 1/R, a pure turn about its centre.
type Guided struct {
	course   *Course
	guides   Guides
	base     float64
	angle    float64
	from, to float64
}

// Bends that a body on two guides is taken through: within a stretch of 1.2
// bases the course may turn by 60 degrees in all. A stretch of length L that
// turns by d has a chord of at least L cos(d/2), so the two guides are at most
// B/cos 30° = 1.155 B of course apart, and the base lies within 60 degrees of
// both tangents.
const (
	mostSharp = math.Pi / 3
	sharpOver = 1.2
)

// TooSharp says that a course bends more than a body on two guides is taken
// through.
type TooSharp struct {
	At      float64 // along the course
	Stretch float64 // m
	Turn    float64 // within the stretch, rad
}

func (e *TooSharp) Error() string {
	return fmt.Sprintf("from %.3f m on the course turns by %.1f deg within %.3f m; a body on two guides is taken through at most %.0f deg",
		e.At, e.Turn*180/math.Pi, e.Stretch, mostSharp*180/math.Pi)
}

// NewGuided puts a body on a course; its rear guide rolls from one distance
// along it to another, ahead or back. It returns a *TooSharp error when the
// course bends too much for the base.
func NewGuided(c *Course, guides Guides, from, to float64) (*Guided, error) {
	b, angle := guides.base()
	if !(b > 1e-3 && b < apart/10) {
		return nil, fmt.Errorf("guides %g m apart guide nothing", b)
	}
	least := -apart / 2
	if !(from >= least && to >= least && math.Max(from, to) <= c.length+apart/2) {
		return nil, fmt.Errorf("the rear guide cannot roll from %g m to %g m: the course runs from 0 to %g m", from, to, c.length)
	}
	if turn, at := c.sharpest(sharpOver * b); !(turn <= mostSharp) {
		return nil, &TooSharp{At: at, Stretch: sharpOver * b, Turn: turn}
	}
	return &Guided{course: c, guides: guides, base: b, angle: angle, from: from, to: to}, nil
}

// Rear is how far along the course the rear guide is at s.
func (g *Guided) Rear(s float64) float64 { return lerp(g.from, g.to, s) }

// Front is how far along the course the front guide is at s.
func (g *Guided) Front(s float64) float64 {
	t, _ := g.course.ahead(g.Rear(s), g.base)
	return t
}

// Yaw is the direction of the body's x at s, from the course's x, positive
// left.
func (g *Guided) Yaw(s float64) float64 {
	t := g.Rear(s)
	rear := g.course.Point(t)
	d := g.course.Point(g.Front(s)).Sub(rear)
	psi := math.Atan2(d[1], d[0])
	ref := g.course.Heading(t)
	return psi + 2*math.Pi*math.Round((ref-psi)/(2*math.Pi)) - g.angle
}

// Pose is courseFromBody at s. body is 0; Ground, or ref == body, gives the
// identity.
func (g *Guided) Pose(ref, body int, s float64) geom.Pose {
	if body == ref {
		return geom.Identity()
	}
	turn := geom.Rotation(geom.Vec{}, geom.Vec{0, 0, 1}, g.Yaw(s))
	rear := g.guides.Rear
	at := g.course.Point(g.Rear(s)).Sub(turn.Apply(geom.Vec{rear[0], rear[1]}))
	turn.T = at
	return turn
}

// sameShare of a roll is rounding: of a roll of 300 m it is 0.03 nanometres.
const sameShare = 1e-13

// Breaks are the values of s, in order and without 0 and 1, at which a guide
// passes from one piece of the course to the next: there the yaw rate jumps, so
// an interval must not reach across one. See Stretches.
func (g *Guided) Breaks() []float64 {
	if g.from == g.to {
		return nil
	}
	var out []float64
	for _, k := range g.course.strokes[1:] {
		for _, t := range [2]float64{k.from, g.course.behind(k.from, g.base)} {
			if s := (t - g.from) / (g.to - g.from); s > sameShare && s < 1-sameShare {
				out = append(out, s)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// Stretches are the same roll cut at its breaks: one after the other they make
// the whole, each with s over [0, 1] and a bound on any interval of it.
func (g *Guided) Stretches() []*Guided {
	at := append(append([]float64{0}, g.Breaks()...), 1)
	var out []*Guided
	for i := 0; i+1 < len(at); i++ {
		part := *g
		part.from, part.to = g.Rear(at[i]), g.Rear(at[i+1])
		out = append(out, &part)
	}
	return out
}

// Straights are the two lines that a roll between breaks runs on: the rear guide
// from From to To, the front guide on the line through On at Heading from the
// course's x.
type Straights struct {
	From, To, On geom.Vec
	Heading      float64
}

// Straights of the roll; false where either guide is on a curve or passes a
// break.
func (g *Guided) Straights() (Straights, bool) {
	front := g.Front(0.5)
	curved := g.course.strokes[g.course.strokeAt(g.Rear(0.5))].radius != 0 || g.course.strokes[g.course.strokeAt(front)].radius != 0
	s := Straights{From: g.course.Point(g.from), To: g.course.Point(g.to), On: g.course.Point(front), Heading: g.course.Heading(front)}
	return s, !curved && len(g.Breaks()) == 0
}

// Guides are the two guided points, in the body's coordinates.
func (g *Guided) Guides() Guides { return g.guides }
