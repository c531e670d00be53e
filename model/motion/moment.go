package motion

import (
	"math"
	"sync"

	"boxwalk/model/geom"
)

// moment encloses joint coordinates over one interval of a path, each worked
// out when it is first asked for: most questions concern a few bodies.
type moment struct {
	*Path
	s0, s1 float64

	mu    sync.Mutex
	q     []jet
	known []bool
	poses []geom.Pose // of a single instant: parentFromBody
	posed []bool
}

func newMoment(p *Path, s0, s1 float64) *moment {
	n := len(p.m.Bodies)
	return &moment{Path: p, s0: s0, s1: s1, q: make([]jet, n), known: make([]bool, n)}
}

// moment is the cached one for an interval.
func (p *Path) moment(s0, s1 float64) *moment {
	key := [2]float64{s0, s1}
	p.mu.RLock()
	t, ok := p.moments[key]
	p.mu.RUnlock()
	if ok {
		return t
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if t, ok = p.moments[key]; !ok {
		t = newMoment(p, s0, s1)
		p.moments[key] = t
	}
	return t
}

// coordinate of the joint of body i. A joint asks only for bodies that come
// before its own or for those that its link's far pin hangs on.
func (t *moment) coordinate(i int) jet {
	if !t.known[i] {
		t.q[i] = t.work(i)
		t.known[i] = true
	}
	return t.q[i]
}

func (t *moment) work(i int) jet {
	j := t.m.Bodies[i].Joint
	switch {
	case j.Kind == Fixed:
		return jet{}
	case j.Kind == Aim:
		return t.aim(i)
	case j.Link == None:
		return steady(t.drives[i].From, t.drives[i].To, t.s0, t.s1)
	case j.Kind == Revolute:
		return t.swing(i)
	}
	return t.stroke(i)
}

// triangle of a revolute joint with its link: lever from hinge to pin B,
// ground from hinge to pin A, and the link's length.
func (t *moment) triangle(i int) (lever float64, ground, length jet) {
	j := t.m.Bodies[i].Joint
	l := t.m.Links[j.Link]
	pinA := t.carry(l.A, t.m.Bodies[i].Parent, still(l.PinA))
	e1, e2 := frame(j.Axis)
	g := pinA.sub(still(j.Pin))
	x, y := g.dot(e1), g.dot(e2)
	r := l.PinB.Sub(j.Pin)
	return math.Hypot(r.Dot(e1), r.Dot(e2)), x.sqr().add(y.sqr()).sqrt(), steady(t.drives[i].From, t.drives[i].To, t.s0, t.s1)
}

// cosine of the angle at the hinge (law of cosines).
func cosine(ground jet, lever float64, length jet) jet {
	num := ground.sqr().add(constant(lever).sqr()).sub(length.sqr())
	return num.mul(ground.scale(2 * lever).inv())
}

// swing is the angle of a revolute joint set by its link's length. The
// direction from hinge to pin B is that to pin A plus or minus the triangle's
// angle; the sign is the one of the raised position.
func (t *moment) swing(i int) jet {
	if d := t.drives[i]; d.From == d.To && d.From == t.m.Links[t.m.Bodies[i].Joint.Link].Raised() && t.restsAtRaised(i) {
		return jet{}
	}
	j := t.m.Bodies[i].Joint
	l := t.m.Links[j.Link]
	e1, e2 := frame(j.Axis)
	g0, r0 := l.PinA.Sub(j.Pin), l.PinB.Sub(j.Pin)
	at := func(v geom.Vec) float64 { return math.Atan2(v.Dot(e2), v.Dot(e1)) }
	start := at(g0)
	turn := wrap(at(r0) - start)
	f0 := jet{v: interval{math.Abs(turn) - angleOff, math.Abs(turn) + angleOff}}
	lever, ground, length := t.triangle(i)
	f := cosine(ground, lever, length).acos()
	pinA := t.carry(l.A, t.m.Bodies[i].Parent, still(l.PinA)).sub(still(j.Pin))
	delta := direction(pinA.dot(e1), pinA.dot(e2), start).sub(jet{v: interval{start - angleOff, start + angleOff}})
	if turn < 0 {
		return delta.sub(f).add(f0)
	}
	return delta.add(f).sub(f0)
}

// restsAtRaised tells whether nothing between the joint's parent and pin A has
// moved from raised, so that an untouched link leaves the joint exactly there.
func (t *moment) restsAtRaised(i int) bool {
	parent := t.m.Bodies[i].Parent
	a := t.m.Links[t.m.Bodies[i].Joint.Link].A
	top := t.m.Common(a, parent)
	for _, end := range [2]int{a, parent} {
		for _, b := range t.m.Chain(top, end) {
			if t.coordinate(b) != (jet{}) {
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
func (t *moment) stroke(i int) jet {
	j := t.m.Bodies[i].Joint
	l := t.m.Links[j.Link]
	e := still(l.PinB).sub(t.carry(l.A, t.m.Bodies[i].Parent, still(l.PinA)))
	eu, u2 := e.dot(j.Axis), j.Axis.Dot(j.Axis)
	length := steady(t.drives[i].From, t.drives[i].To, t.s0, t.s1)
	e2 := e[0].sqr().add(e[1].sqr()).add(e[2].sqr())
	root := eu.sqr().sub(e2.sub(length.sqr()).scale(u2)).sqrt()
	if eu.v.hi < 0 {
		root = root.scale(-1)
	}
	return root.sub(eu).scale(1 / u2)
}

// aim is the angle that points half of a link's bar from its own pin to the
// far pin, both carried with their bodies.
func (t *moment) aim(i int) jet {
	b := t.m.Bodies[i]
	l := t.m.Links[b.Joint.Link]
	far, farBody := l.PinB, l.B
	if b.Joint.Pin == l.PinB {
		far, farBody = l.PinA, l.A
	}
	e1, e2 := frame(b.Joint.Axis)
	d0 := far.Sub(b.Joint.Pin)
	ref := math.Atan2(d0.Dot(e2), d0.Dot(e1))
	d := t.carry(farBody, b.Parent, still(far)).sub(still(b.Joint.Pin))
	return direction(d.dot(e1), d.dot(e2), ref).sub(jet{v: interval{ref - angleOff, ref + angleOff}})
}

// angleOff is more than the direction of a vector as raised is off by: two dots
// with directions that are unit and square to 4u, 8u of its length together, the
// arc tangent 2u of half a turn, and as much for the difference of two.
const angleOff = 32 * ulp

// carry takes a point fixed on one body to the coordinates of another.
func (t *moment) carry(from, to int, v vec) vec {
	top := t.m.Common(from, to)
	for b := from; b != top; b = t.m.Bodies[b].Parent {
		v = t.m.Bodies[b].Joint.forward(v, t.coordinate(b))
	}
	for _, b := range t.m.Chain(top, to) {
		v = t.m.Bodies[b].Joint.backward(v, t.coordinate(b))
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
