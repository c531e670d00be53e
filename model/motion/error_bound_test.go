package motion

import (
	"math"
	"math/rand"
	"testing"

	"boxwalk/model/geom"
	"boxwalk/model/geom/exact"
)

// exactly is a path in arithmetic of 240 bits at one s, by the law of cosines and
// turns given as sine and cosine: written from the geometry, not from moment.go.
type exactly struct {
	p *Path
	s float64
}

// drive is what a joint is given.
func (x exactly) drive(i int) exact.Number {
	d := x.p.drives[i]
	return exact.Of(d.From).Add(exact.Of(d.To).Sub(exact.Of(d.From)).Mul(exact.Of(x.s)))
}

// turning is the unit axis of a joint.
func turning(j Joint) exact.Vec { return exact.OfVec(j.Axis).Unit() }

// turnOf is sine and cosine of the coordinate of a turning joint.
func (x exactly) turnOf(i int) (sine, cosine exact.Number) {
	j := x.p.m.Bodies[i].Joint
	k := turning(j)
	flat := func(v exact.Vec) exact.Vec { return v.Sub(k.Times(k.Dot(v))) }
	from := func(v geom.Vec) exact.Vec { return flat(exact.OfVec(v).Sub(exact.OfVec(j.Pin))) }
	carried := func(body int, v geom.Vec) exact.Vec {
		return flat(x.seen(body, x.p.m.Bodies[i].Parent, exact.OfVec(v)).Sub(exact.OfVec(j.Pin)))
	}
	angle := func(a, b exact.Vec) (exact.Number, exact.Number) {
		l := a.Len().Mul(b.Len())
		return k.Dot(a.Cross(b)).Quo(l), a.Dot(b).Quo(l)
	}
	switch {
	case j.Kind == Aim:
		l := x.p.m.Links[j.Link]
		far, body := l.PinB, l.B
		if j.Pin == l.PinB {
			far, body = l.PinA, l.A
		}
		return angle(from(far), carried(body, far))
	case j.Link == None:
		return exact.Turn(x.drive(i))
	}
	l := x.p.m.Links[j.Link]
	g0, g, r := from(l.PinA), carried(l.A, l.PinA), from(l.PinB)
	long := x.drive(i)
	cosine = g.Dot(g).Add(r.Dot(r)).Sub(long.Mul(long)).Quo(exact.Of(2).Mul(g.Len()).Mul(r.Len()))
	sine = exact.Of(1).Sub(cosine.Mul(cosine)).Sqrt()
	if k.Dot(g0.Cross(r)).Less(exact.Of(0)) {
		sine = exact.Of(0).Sub(sine)
	}
	zero := exact.Vec{exact.Of(0), exact.Of(0), exact.Of(0)}
	return angle(r, g.Turned(zero, k, sine, cosine))
}

// strokeOf is the coordinate of a sliding joint.
func (x exactly) strokeOf(i int) exact.Number {
	j := x.p.m.Bodies[i].Joint
	if j.Link == None {
		return x.drive(i)
	}
	l := x.p.m.Links[j.Link]
	u, long := exact.OfVec(j.Axis), x.drive(i)
	e := exact.OfVec(l.PinB).Sub(x.seen(l.A, x.p.m.Bodies[i].Parent, exact.OfVec(l.PinA)))
	eu := e.Dot(u)
	root := eu.Mul(eu).Sub(u.Dot(u).Mul(e.Dot(e).Sub(long.Mul(long)))).Sqrt()
	if eu.Less(exact.Of(0)) {
		root = exact.Of(0).Sub(root)
	}
	return root.Sub(eu).Quo(u.Dot(u))
}

// through takes a point through one joint, or back.
func (x exactly) through(i int, v exact.Vec, back bool) exact.Vec {
	j := x.p.m.Bodies[i].Joint
	sign := exact.Of(1)
	if back {
		sign = exact.Of(-1)
	}
	switch j.Kind {
	case Fixed:
		return v
	case Prismatic:
		return v.Add(exact.OfVec(j.Axis).Times(x.strokeOf(i).Mul(sign)))
	}
	sine, cosine := x.turnOf(i)
	return v.Turned(exact.OfVec(j.Pin), turning(j), sine.Mul(sign), cosine)
}

// seen takes a point of one body to the coordinates of another.
func (x exactly) seen(from, to int, v exact.Vec) exact.Vec {
	top := x.p.m.Common(from, to)
	for b := from; b != top; b = x.p.m.Bodies[b].Parent {
		v = x.through(b, v, false)
	}
	for _, b := range x.p.m.Chain(top, to) {
		v = x.through(b, v, true)
	}
	return v
}

type dice struct{ *rand.Rand }

func (r dice) vec(size float64) geom.Vec {
	return geom.Vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.Mul(size)
}

// chain of joints that are driven, anyhow; pins and slides of the given size.
func (r dice) chain(n int, size float64) (*Mechanism, []Drive) {
	m, drives := &Mechanism{}, []Drive{}
	for i := range n {
		j := Joint{Kind: Revolute, Axis: r.vec(1).Normalize(), Pin: r.vec(size), Link: None}
		if r.Intn(4) == 0 {
			j.Kind, j.Axis = Prismatic, r.vec(1)
		}
		m.Bodies = append(m.Bodies, Body{Parent: i - 1, Joint: j})
		drives = append(drives, Drive{r.NormFloat64(), r.NormFloat64()})
	}
	return m, drives
}

// linked is a wall on a roof half on a lift, as a carrier has it: the wall's brace
// goes to the ground, a slide is set by a jack, and a bar aims along the brace.
func (r dice) linked(size float64) (*Mechanism, []Drive) {
	k := r.vec(1).Normalize()
	e1, e2 := frame(k)
	at := func(x, y float64) geom.Vec {
		return e1.Mul(x + 0.2*r.Float64()).Add(e2.Mul(y + 0.2*r.Float64())).Mul(size)
	}
	pins := [2]geom.Vec{at(0, 0), at(0, 2)}
	turn := func(pin geom.Vec, link int) Joint { return Joint{Kind: Revolute, Axis: k, Pin: pin, Link: link} }
	m := &Mechanism{
		Bodies: []Body{
			{Name: "lift", Parent: Ground, Joint: Joint{Kind: Prismatic, Axis: e2, Link: 1}},
			{Name: "roof half", Parent: 0, Joint: turn(pins[1], None)},
			{Name: "wall", Parent: 1, Joint: turn(at(-1, 2), 0)},
		},
	}
	m.Links = []Link{
		{Name: "brace", A: Ground, B: 2, PinA: at(0.5, 1), PinB: at(-1, 1)},
		{Name: "jack", A: Ground, B: 0, PinA: at(0.1, -2), PinB: pins[0]},
	}
	brace := m.Links[0]
	m.Bodies = append(m.Bodies,
		Body{Name: "half of the brace", Parent: Ground, Joint: Joint{Kind: Aim, Axis: k, Pin: brace.PinA, Link: 0}},
		Body{Name: "its other half", Parent: 2, Joint: Joint{Kind: Aim, Axis: k, Pin: brace.PinB, Link: 0}})
	small := func() float64 { return 0.2 * (r.Float64() - 0.5) }
	l, jack := brace.Raised(), m.Links[1].Raised()
	return m, []Drive{{jack, jack * (1 + small())}, {0, small()}, {l, l * (1 + small())}, {}, {}}
}

// worstShare is the largest error of a path's poses as a share of their error bound.
func worstShare(t *testing.T, r dice, p *Path, size float64) float64 {
	t.Helper()
	worst := 0.0
	for _, s := range []float64{0, 1, r.Float64(), 0.5} {
		for body := range p.m.Bodies {
			v := r.vec(size)
			pose, bound := p.Pose(Ground, body, s), p.ErrorBound(Ground, body, s)
			there := exact.OfVec(pose.T)
			for i := range v {
				there = there.Add(exact.OfVec(pose.R.Col(i)).Times(exact.Of(v[i])))
			}
			off := there.Sub(exactly{p, s}.seen(body, Ground, exact.OfVec(v))).Len().Float()
			if may := bound.At(v.Len()); off > 0 {
				worst = math.Max(worst, off/may)
			}
		}
	}
	return worst
}

func TestNoPoseOfAPathIsFartherOffThanItsErrorBound(t *testing.T) {
	for _, kind := range []string{"chain", "linked"} {
		for _, size := range []float64{0.1, 3, 1000} {
			r := dice{rand.New(rand.NewSource(7))}
			worst := 0.0
			for range 60 {
				m, drives := r.chain(4, size)
				if kind == "linked" {
					m, drives = r.linked(size)
				}
				if err := m.Check(); err != nil {
					t.Fatal(err)
				}
				p, err := NewPath(m, drives)
				if err != nil {
					continue
				}
				worst = math.Max(worst, worstShare(t, r, p, size))
			}
			t.Logf("%s of %g m: %.3f of the error bound", kind, size, worst)
			if !(worst <= 1) || worst < 1e-3 {
				t.Errorf("%s of %g m: poses are off by %.3g of their error bound", kind, size, worst)
			}
		}
	}
}

// A coordinate passes zero on the way from -1/3 to 1/10: what is left there is far
// smaller than what it is the difference of.
func TestACoordinateIsEnclosedWhereItPassesZero(t *testing.T) {
	from, to := -1.0/3, 0.1
	r := dice{rand.New(rand.NewSource(8))}
	for range 10000 {
		s := (-from/(to-from))*(1+1e-15*r.NormFloat64()) + 1e-17*r.NormFloat64()
		q := steady(from, to, s, s).v
		is := exact.Of(from).Add(exact.Of(to).Sub(exact.Of(from)).Mul(exact.Of(s)))
		if is.Less(exact.Of(q.lo)) || exact.Of(q.hi).Less(is) {
			t.Fatalf("at s = %v: %g is not in [%g, %g]", s, is.Float(), q.lo, q.hi)
		}
	}
}
