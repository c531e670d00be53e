package motion

import (
	"fmt"
	"math"
	"sync"

	"boxwalk/model/geom"
)

// Drive is what a body's joint is given over one step: the coordinate itself,
// or the length of the link that sets it. Readings go from From at s = 0 to To
// at s = 1 at a constant rate.
type Drive struct{ From, To float64 }

// Path is one step of a mechanism. It is safe for use by many goroutines.
type Path struct {
	m      *Mechanism
	drives []Drive

	mu    sync.RWMutex
	poses map[float64][]geom.Pose
	jets  map[[2]float64][]jet
}

// DeadCentre is the least sine of the angle between a driving link and its
// lever that is accepted: below it the link's length hardly sets the angle.
const DeadCentre = 0.05

// Blocked says why a step's links cannot close.
type Blocked struct {
	Link       string
	Body       string
	Length     float64 // what the link is asked to give, m
	Least      float64 // least length that reaches, m
	Most       float64 // greatest length that reaches, m
	S          float64 // where in the step
	Sine       float64 // of the angle between link and lever, where it closes
	DeadCentre bool
}

func (e *Blocked) Error() string {
	if e.DeadCentre {
		return fmt.Sprintf("link %q comes within sine %.2f of dead centre at %.1f mm (it reaches from %.1f to %.1f mm)",
			e.Link, DeadCentre, 1e3*e.Length, 1e3*e.Least, 1e3*e.Most)
	}
	return fmt.Sprintf("link %q at %.1f mm cannot close: its pins reach from %.1f to %.1f mm", e.Link, 1e3*e.Length, 1e3*e.Least, 1e3*e.Most)
}

// NewPath is the step in which each body's joint runs through its drive
// (drives of Fixed and Aim joints are not looked at). It returns a *Blocked
// error when a link cannot close or comes near dead centre anywhere in the
// step.
func NewPath(m *Mechanism, drives []Drive) (*Path, error) {
	p := &Path{m: m, drives: drives, poses: map[float64][]geom.Pose{}, jets: map[[2]float64][]jet{}}
	for i, b := range m.Bodies {
		if b.Joint.Kind != Revolute || b.Joint.Link == None {
			continue
		}
		if err := p.reach(i); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// reachSteps is how many pieces of a step are enclosed when a driving link is
// held against its reach. The sine moves by well under 0.01 over a piece.
const reachSteps = 16

// reach checks the driving link of body i over the whole step.
func (p *Path) reach(i int) error {
	l := p.m.Links[p.m.Bodies[i].Joint.Link]
	for k := range reachSteps {
		s0, s1 := float64(k)/reachSteps, float64(k+1)/reachSteps
		q := p.solveTo(i, s0, s1)
		lever, ground, length := p.triangle(i, q, s0, s1)
		a, b := ground.v, lever
		e := &Blocked{Link: l.Name, Body: p.m.Bodies[i].Name, Length: length.v.lo,
			Least: math.Abs(a.mid() - b), Most: a.mid() + b, S: s0}
		cosine := cosine(ground, b, length).v
		sine := math.Sqrt(1 - cosine.mag()*cosine.mag())
		switch {
		case !(cosine.lo >= -1 && cosine.hi <= 1):
			return e
		case !(sine >= DeadCentre):
			e.DeadCentre, e.Sine = true, sine
			return e
		}
	}
	return nil
}

// triangle of a revolute joint with its link: lever from hinge to pin B,
// ground from hinge to pin A, and the link's length.
func (p *Path) triangle(i int, q []jet, s0, s1 float64) (lever float64, ground, length jet) {
	j := p.m.Bodies[i].Joint
	l := p.m.Links[j.Link]
	pinA := p.carry(l.A, p.m.Bodies[i].Parent, still(l.PinA), q)
	e1, e2 := frame(j.Axis)
	g := pinA.sub(still(j.Pin))
	x, y := g.dot(e1), g.dot(e2)
	r := l.PinB.Sub(j.Pin)
	return math.Hypot(r.Dot(e1), r.Dot(e2)), x.sqr().add(y.sqr()).sqrt(), steady(p.drives[i].From, p.drives[i].To, s0, s1)
}

// cosine of the angle at the hinge (law of cosines).
func cosine(ground jet, lever float64, length jet) jet {
	num := ground.sqr().add(constant(lever).sqr()).sub(length.sqr())
	return num.mul(ground.scale(2 * lever).inv())
}

// solve encloses every joint coordinate over [s0, s1], parents first.
func (p *Path) solve(s0, s1 float64) []jet { return p.solveTo(len(p.m.Bodies), s0, s1) }

// solveTo encloses the coordinates of the first n bodies; the rest are zero.
func (p *Path) solveTo(n int, s0, s1 float64) []jet {
	q := make([]jet, len(p.m.Bodies))
	for i, b := range p.m.Bodies[:n] {
		switch {
		case b.Joint.Kind == Fixed:
		case b.Joint.Kind == Aim:
			q[i] = p.aim(i, q)
		case b.Joint.Link == None:
			q[i] = steady(p.drives[i].From, p.drives[i].To, s0, s1)
		case b.Joint.Kind == Revolute:
			q[i] = p.swing(i, q, s0, s1)
		default:
			q[i] = p.stroke(i, q, s0, s1)
		}
	}
	return q
}

// swing is the angle of a revolute joint set by its link's length. The
// direction from hinge to pin B is that to pin A plus or minus the triangle's
// angle; the sign is the one of the raised position.
func (p *Path) swing(i int, q []jet, s0, s1 float64) jet {
	if d := p.drives[i]; d.From == d.To && d.From == p.m.Links[p.m.Bodies[i].Joint.Link].Raised() && p.restsAtRaised(i, q) {
		return jet{}
	}
	j := p.m.Bodies[i].Joint
	l := p.m.Links[j.Link]
	e1, e2 := frame(j.Axis)
	g0, r0 := l.PinA.Sub(j.Pin), l.PinB.Sub(j.Pin)
	at := func(v geom.Vec) float64 { return math.Atan2(v.Dot(e2), v.Dot(e1)) }
	turn := wrap(at(r0) - at(g0))
	lever, ground, length := p.triangle(i, q, s0, s1)
	f := cosine(ground, lever, length).acos()
	pinA := p.carry(l.A, p.m.Bodies[i].Parent, still(l.PinA), q).sub(still(j.Pin))
	delta := direction(pinA.dot(e1), pinA.dot(e2), at(g0)).sub(constant(at(g0)))
	f0 := constant(math.Abs(turn))
	if turn < 0 {
		return delta.sub(f).add(f0)
	}
	return delta.add(f).sub(f0)
}

// restsAtRaised tells whether nothing between the joint's parent and pin A has
// moved from raised, so that an untouched link leaves the joint exactly there.
func (p *Path) restsAtRaised(i int, q []jet) bool {
	parent := p.m.Bodies[i].Parent
	a := p.m.Links[p.m.Bodies[i].Joint.Link].A
	top := p.m.Common(a, parent)
	for _, end := range [2]int{a, parent} {
		for _, b := range p.m.Chain(top, end) {
			if q[b] != (jet{}) {
				return false
			}
		}
	}
	return true
}

// stroke is the coordinate of a prismatic joint set by its link's length: with
// e from pin A to pin B at coordinate zero, |e + u q| = l gives
// q = (-e.u ± sqrt((e.u)^2 - u^2 (e^2 - l^2))) / u^2, the sign being that of
// e.u: the link pushes the way it lies.
func (p *Path) stroke(i int, q []jet, s0, s1 float64) jet {
	j := p.m.Bodies[i].Joint
	l := p.m.Links[j.Link]
	e := still(l.PinB).sub(p.carry(l.A, p.m.Bodies[i].Parent, still(l.PinA), q))
	eu, u2 := e.dot(j.Axis), j.Axis.Dot(j.Axis)
	length := steady(p.drives[i].From, p.drives[i].To, s0, s1)
	e2 := e[0].sqr().add(e[1].sqr()).add(e[2].sqr())
	root := eu.sqr().sub(e2.sub(length.sqr()).scale(u2)).sqrt()
	if eu.v.hi < 0 {
		root = root.scale(-1)
	}
	return root.sub(eu).scale(1 / u2)
}

// aim is the angle that points half of a link's bar from its own pin to the
// far pin, both carried with their bodies.
func (p *Path) aim(i int, q []jet) jet {
	b := p.m.Bodies[i]
	l := p.m.Links[b.Joint.Link]
	far, farBody := l.PinB, l.B
	if b.Joint.Pin == l.PinB {
		far, farBody = l.PinA, l.A
	}
	e1, e2 := frame(b.Joint.Axis)
	d0 := far.Sub(b.Joint.Pin)
	ref := math.Atan2(d0.Dot(e2), d0.Dot(e1))
	d := p.carry(farBody, b.Parent, still(far), q).sub(still(b.Joint.Pin))
	return direction(d.dot(e1), d.dot(e2), ref).sub(constant(ref))
}

// carry takes a point fixed on one body to the coordinates of another.
func (p *Path) carry(from, to int, v vec, q []jet) vec {
	top := p.m.Common(from, to)
	for b := from; b != top; b = p.m.Bodies[b].Parent {
		v = p.m.Bodies[b].Joint.forward(v, q[b])
	}
	for _, b := range p.m.Chain(top, to) {
		v = p.m.Bodies[b].Joint.backward(v, q[b])
	}
	return v
}

func (j Joint) forward(v vec, q jet) vec {
	switch j.Kind {
	case Prismatic:
		return v.add(still(j.Axis).times(q))
	case Revolute, Aim:
		return v.turned(j.Pin, j.Axis, q)
	}
	return v
}

func (j Joint) backward(v vec, q jet) vec { return j.forward(v, q.scale(-1)) }

// wrap brings an angle to (-pi, pi].
func wrap(a float64) float64 {
	for a > math.Pi {
		a -= 2 * math.Pi
	}
	for a <= -math.Pi {
		a += 2 * math.Pi
	}
	return a
}
