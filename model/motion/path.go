package motion

import (
	"fmt"
	"math"
	"sync"
)

// Drive is what a body's joint is given over one step: the coordinate itself,
// or the length of the link that sets it. Readings go from From at s = 0 to To
// at s = 1 at a constant rate.
type Drive struct{ From, To float64 }

// Path is one step of a mechanism. It is safe for use by many goroutines.
type Path struct {
	m      *Mechanism
	drives []Drive

	mu      sync.RWMutex
	moments map[[2]float64]*moment
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
	p := &Path{m: m, drives: drives, moments: map[[2]float64]*moment{}}
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
		lever, ground, length := newMoment(p, s0, s1).triangle(i)
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

// Drive is what the joint of a body is given; its coordinate where no link sets
// it, else the length of that link.
func (p *Path) Drive(body int) Drive { return p.drives[body] }
