package proof

import "math"

// kind is how a body hangs on its parent.
type kind string

// The kinds of joint. A turning body may be driven by a link; an aim points
// from its pin at the far pin of its link.
const (
	isFixed kind = "fixed"
	isSlide kind = "slide"
	isTurn  kind = "turn"
	isAim   kind = "aim"
)

const ground = -1

type body struct {
	parent int
	kind   kind
	axis   vec
	pin    vec
	link   int // -1 for none
	depth  int // bodies that it hangs on
	e1, e2 vec // span the plane square to axis, e1 x e2 = axis
}

type link struct {
	a, b       int
	pinA, pinB vec
}

func (l link) raised() float64 { return l.pinB.sub(l.pinA).length() }

// gear is the bodies and links of one carrier.
type gear struct {
	bodies []body
	links  []link
}

// square spans the plane square to the unit axis k.
func square(k vec) (e1, e2 vec) {
	least := 0
	for i := range k {
		if math.Abs(k[i]) < math.Abs(k[least]) {
			least = i
		}
	}
	var pick vec
	pick[least] = 1
	e1 = pick.sub(k.mul(k.dot(pick)))
	e1 = e1.mul(1 / e1.length())
	return e1, k.cross(e1)
}

// common is the nearest common ancestor of two bodies.
func (g *gear) common(a, b int) int {
	for a != b {
		if a > b {
			a = g.bodies[a].parent
		} else {
			b = g.bodies[b].parent
		}
	}
	return a
}

// drive is what a joint is given over a step.
type drive struct{ from, to float64 }

// instant holds the joint coordinates of a step over one interval of s.
type instant struct {
	*gear
	drives []drive
	s0, s1 float64
	ops    int    // points taken through joints
	state  []byte // 0 not known, 1 being worked out, 2 known
	q      []rate
	why    string // why the coordinates cannot be told
}

func newInstant(g *gear, drives []drive, s0, s1 float64) *instant {
	n := len(g.bodies)
	return &instant{gear: g, drives: drives, s0: s0, s1: s1, state: make([]byte, n), q: make([]rate, n)}
}

func (t *instant) lost(why string) rate {
	if t.why == "" {
		t.why = why
	}
	return rate{anything(), anything(), anything()}
}

// coordinate of the joint of body i.
func (t *instant) coordinate(i int) rate {
	switch t.state[i] {
	case 2:
		return t.q[i]
	case 1:
		return t.lost("a link hangs on the body that it drives")
	}
	t.state[i] = 1
	t.q[i] = t.work(i)
	t.state[i] = 2
	return t.q[i]
}

func (t *instant) work(i int) rate {
	b := &t.bodies[i]
	switch {
	case b.kind == isFixed:
		return rate{}
	case b.kind == isAim:
		return t.aim(b)
	case b.link < 0:
		return steady(t.drives[i].from, t.drives[i].to, t.s0, t.s1)
	case b.kind == isTurn:
		return t.swing(i)
	}
	return t.stroke(i)
}

// carried takes a point of body from to the coordinates of body to.
func (t *instant) carried(p vec, from, to int) track {
	x, top := fixed(p), t.common(from, to)
	for b := from; b != top; b = t.bodies[b].parent {
		x = t.through(b, x, 1)
	}
	var down []int
	for b := to; b != top; b = t.bodies[b].parent {
		down = append(down, b)
	}
	for k := len(down) - 1; k >= 0; k-- {
		x = t.through(down[k], x, -1)
	}
	return x
}

// through takes a point through the joint of body b, outward or (-1) inward.
func (t *instant) through(b int, x track, sign float64) track {
	t.ops++
	j, q := &t.bodies[b], t.coordinate(b)
	q = rate{q.v.times(sign), q.d.times(sign), q.dd.times(sign)}
	switch j.kind {
	case isSlide:
		return x.slid(j.axis, q)
	case isTurn, isAim:
		return x.spun(j.pin, j.axis, q)
	}
	return x
}

// deadCentre is the least sine between link and lever that is accepted.
const deadCentre = 0.05

// swing is the angle of a turning joint set by its link. In the plane square to
// the axis let g run from hinge to far pin, r from hinge to near pin, at angle
// q from where it is raised, and l be the link's length:
//
//	|g - r|² = l², so with k r the turned r
//	q' = (g.g' - g'.r - l l') / (g.kr),
//	q” = (g'.g' + g.g” - g”.r - 2 q' g'.kr + q'² g.r - l'²) / (g.kr).
func (t *instant) swing(i int) rate {
	b := &t.bodies[i]
	l := t.links[b.link]
	g := t.carried(l.pinA, l.a, b.parent).shift(b.pin.mul(-1))
	x, y := g.along(b.e1), g.along(b.e2)
	r0 := l.pinB.sub(b.pin)
	long := math.Hypot(r0.dot(b.e1), r0.dot(b.e2))
	raised := math.Atan2(r0.dot(b.e2), r0.dot(b.e1))
	turn := at(b.open(l)).turned().mid()
	length := steady(t.drives[i].from, t.drives[i].to, t.s0, t.s1)

	g2 := x.v.sqr().add(y.v.sqr())
	cosine := g2.add(at(long).sqr()).sub(length.v.sqr()).div(g2.sqrt().times(2 * long))
	if c := cosine.most(); !(c <= 1 && math.Sqrt(1-c*c) >= deadCentre) {
		return t.lost("a link does not close, or comes near dead centre")
	}
	f := cosine.acos()
	if turn < 0 {
		f = f.neg()
	}
	place := angle(x.v, y.v).add(f)
	rx, ry := place.cos().times(long), place.sin().times(long)
	in := func(ax, ay, bx, by iv) iv { return ax.mul(bx).add(ay.mul(by)) }
	kx, ky := ry.neg(), rx
	arm := in(x.v, y.v, kx, ky)
	q := rate{v: place.sub(wide(raised, raised)).turned()}
	q.d = in(x.v, y.v, x.d, y.d).sub(in(x.d, y.d, rx, ry)).sub(length.v.mul(length.d)).div(arm)
	top := x.d.sqr().add(y.d.sqr()).add(in(x.v, y.v, x.dd, y.dd)).sub(in(x.dd, y.dd, rx, ry)).
		sub(q.d.mul(in(x.d, y.d, kx, ky)).times(2)).add(q.d.sqr().mul(in(x.v, y.v, rx, ry))).sub(length.d.sqr())
	q.dd = top.div(arm)
	return q
}

// stroke is the coordinate of a sliding joint set by its link: with e from the
// far pin to the near one at zero stroke and p = e + q u, |p|² = l², so p.u is
// the root of (e.u)² - u² (|e|² - l²), of the sign of e.u, which it keeps, and
//
//	q' = (l l' - p.e') / (p.u),  q” = (l'² - |e' + q' u|² - p.e”) / (p.u).
func (t *instant) stroke(i int) rate {
	b := &t.bodies[i]
	l := t.links[b.link]
	e := t.carried(l.pinA, l.a, b.parent)
	for n := range e {
		e[n] = e[n].mul(at(-1))
	}
	e = e.shift(l.pinB)
	length := steady(t.drives[i].from, t.drives[i].to, t.s0, t.s1)
	eu, u2 := e[0].to(b.axis), b.axis.dot(b.axis)
	pu := eu.sqr().sub(e[0].with(e[0]).sub(length.v.sqr()).times(u2))
	if !(pu.lo > 0) {
		return t.lost("a link does not close, or comes near dead centre")
	}
	pu = pu.sqrt()
	if !(pu.lo >= deadCentre*math.Sqrt(u2)*length.v.hi) {
		return t.lost("a link comes near dead centre")
	}
	switch raised := b.axis.dot(l.pinB.sub(l.pinA)); {
	case raised < 0 && eu.hi < 0:
		pu = pu.neg()
	case raised > 0 && eu.lo > 0:
	default:
		return t.lost("a link that pushes a slide passes dead centre")
	}
	q := rate{v: pu.sub(eu).div(wide(u2, u2))}
	p := e.slid(b.axis, q)[0]
	q.d = length.v.mul(length.d).sub(p.with(e[1])).div(pu)
	p1 := e.slid(b.axis, q)[1]
	q.dd = length.d.sqr().sub(p1.with(p1)).sub(p.with(e[2])).div(pu)
	return q
}

// aim is the angle of the direction from a body's pin to the far pin of its link.
func (t *instant) aim(b *body) rate {
	l := t.links[b.link]
	far, on := l.pinB, l.b
	if b.pin == l.pinB {
		far, on = l.pinA, l.a
	}
	d := t.carried(far, on, b.parent).shift(b.pin.mul(-1))
	q := turning(d.along(b.e1), d.along(b.e2))
	d0 := far.sub(b.pin)
	raised := math.Atan2(d0.dot(b.e2), d0.dot(b.e1))
	q.v = q.v.sub(wide(raised, raised)).turned()
	return q
}
