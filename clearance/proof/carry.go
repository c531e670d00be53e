package proof

import "math"

// carry is a carrier that rolls on two wheel lines, each on a plane, guided at
// two points, each along a straight in plan. All but guide is in the level
// frame.
type carry struct {
	level
	guide      vec     // of the carrier, at axle height
	base       float64 // from there to the second guide, along the carrier
	on, ahead  line
	from, to   float64 // of guide, along its line
	low, high  wheel
	p, q, k    vec // the carrier's x is p + q s + k sqrt(1 - |p + q s|²), in the axes of the straight ahead
	inexact    float64
	directions [2]vec // of the straight ahead: along and left
}

// line is a straight in plan through a point.
type line struct {
	at      vec
	heading float64
}

func (l line) along() vec { return vec{math.Cos(l.heading), math.Sin(l.heading), 0} }

func (l line) point(t float64) vec { return l.at.add(l.along().mul(t)) }

// wheel is a wheel line, its distance ahead of the guide, and the plane its axle
// runs on: height h + slope.(x, y).
type wheel struct {
	ahead float64
	slope vec
	h     float64
}

func (w wheel) under(p vec) float64 { return w.h + w.slope.dot(p) }

// readCarry reads `carry ORIGIN TILT GUIDE BASE AT HEADING FROM TO AT HEADING
// AHEAD PLANE AHEAD PLANE`.
func readCarry(t *text) frame {
	if !t.want(15, 15, false) {
		return nil
	}
	w := t.words
	straight := func(at, heading string) line {
		l := line{t.vector(at), t.number(heading)}
		l.at[2] = 0
		return l
	}
	wheels := func(ahead, plane string) wheel {
		v := t.vector(plane)
		return wheel{t.number(ahead), vec{v[0], v[1], 0}, v[2]}
	}
	c := &carry{level: t.level(w[1], w[2]), guide: t.vector(w[3]), base: t.number(w[4]), on: straight(w[5], w[6]), from: t.number(w[7]), to: t.number(w[8]),
		ahead: straight(w[9], w[10]), low: wheels(w[11], w[12]), high: wheels(w[13], w[14])}
	if t.bad != nil {
		return nil
	}
	if !(c.base >= shortest && c.high.ahead-c.low.ahead >= shortest && c.low.slope.length() <= steepest && c.high.slope.length() <= steepest) || !c.solve() {
		t.fail("guides or wheels less than %g m apart, planes steeper than %g, or a carrier that leans or turns more than %g against the straight ahead, or goes less than %g along it", shortest, steepest, sharpest, forward)
	}
	return c
}

// Bounds of what is looked at, far beyond what rolls: they keep what rounding
// does to a direction small.
const (
	shortest = 0.1 // m, between guides, and between wheel lines
	steepest = 0.5 // slope of a plane
	sharpest = 0.9 // sine of the angle between the carrier and the straight ahead
	forward  = 0.3 // share of the carrier's x that lies along it
)

// solve finds the directions of the carrier: with u along the straight ahead, n
// left of it and P the guide, the unit vector e has
//
//	n.(P + base e) = n.A                                  the guide ahead
//	h_l + s_l.(P + l e) - l e_z = h_h + s_h.(P + h e) - h e_z    both wheels
//
// two planes n.e = r1, (w, -1).e = r2 whose right sides run evenly with s.
func (c *carry) solve() bool {
	u := c.ahead.along()
	n := vec{-u[1], u[0], 0}
	c.directions = [2]vec{u, n}
	wide := c.high.ahead - c.low.ahead
	w := c.high.slope.mul(c.high.ahead / wide).sub(c.low.slope.mul(c.low.ahead / wide))
	if !(w.length() <= 1) {
		return false
	}
	start, way := c.on.point(c.from), c.on.along().mul(c.to-c.from)
	slopes := c.low.slope.sub(c.high.slope)
	r1 := n.dot(c.ahead.at.sub(c.on.at)) / c.base
	r2 := (c.low.h - c.high.h + slopes.dot(start)) / wide
	var d1, d2 float64
	if c.on.heading != c.ahead.heading { // on one heading exactly nothing turns
		r1, d1 = n.dot(c.ahead.at.sub(start))/c.base, -n.dot(way)/c.base
	}
	if c.low.slope != c.high.slope {
		d2 = slopes.dot(way) / wide
	}
	// in the axes u, n, z: (0, 1, 0).e = r1, (a, b, -1).e = r2; both planes are
	// square to (1, 0, a), and the least e on them is that square to it
	a, b := w.dot(u), w.dot(n)
	least := func(r1, r2 float64) vec {
		x := (r2 - b*r1) / (1 + a*a)
		return vec{a * x, r1, -x}
	}
	c.p, c.q = least(r1, r2), least(d1, d2)
	c.k = vec{1, 0, a}.mul(1 / math.Hypot(1, a))
	most := math.Max(start.length(), start.add(way).length())
	c.inexact = 0x1p-45 * (1 + (c.ahead.at.length()+most)/c.base + (math.Abs(c.low.h)+math.Abs(c.high.h)+most)/wide)
	// along u the direction is concave in s: between the ends it is no less
	return c.p.length() < sharpest && c.p.add(c.q).length() < sharpest && c.direction(0)[0] >= forward && c.direction(1)[0] >= forward
}

// direction is the carrier's x at s, in the axes of the straight ahead.
func (c *carry) direction(s float64) vec {
	m := c.p.add(c.q.mul(s))
	return m.add(c.k.mul(math.Sqrt(1 - m.dot(m))))
}

// axes takes those of the straight ahead to the carrier's own frame.
func (c *carry) axes() pose {
	return c.level.pose().after(spin(vec{}, vec{0, 0, 1}, c.ahead.heading))
}

func (c *carry) pose(s float64) pose {
	e := c.direction(s)
	flat := c.directions[0].mul(e[0]).add(c.directions[1].mul(e[1]))
	p := c.on.point(c.from + (c.to-c.from)*s)
	p[2] = c.low.under(p.add(flat.mul(c.low.ahead))) - c.low.ahead*e[2]
	yaw := c.ahead.heading + math.Atan2(e[1], e[0])
	return c.level.pose().after(facing(yaw, math.Atan2(e[2], math.Hypot(e[0], e[1]))).held(c.guide, p))
}

// curve encloses yaw, pitch and the height of the guide over pieces of the
// interval. e = m + k l with l = sqrt(1 - m²), m running evenly and square to k:
// l' = -m.m'/l, l” = -(m'² + l'²)/l.
func (c *carry) curve(s0, s1 float64) curve {
	var yaw, pitch, height rate
	for i := range cuts {
		from, to := s0+(s1-s0)*float64(i)/cuts, s0+(s1-s0)*float64(i+1)/cuts
		if i == cuts-1 {
			to = s1
		}
		y, p, h := c.rates(from, to)
		if i == 0 {
			yaw, pitch, height = y, p, h
		}
		yaw, pitch, height = yaw.hull(y), pitch.hull(p), height.hull(h)
	}
	return yawed(c.axes(), c.guide, height.dd.most(), yaw, pitch)
}

// rates are yaw against the straight ahead, pitch, and the height of the guide
// but for what runs evenly.
func (c *carry) rates(s0, s1 float64) (yaw, pitch, height rate) {
	var m [3]rate
	for i := range m {
		m[i] = steady(c.p[i], c.p[i]+c.q[i], s0, s1)
	}
	mm := m[0].v.sqr().add(m[1].v.sqr()).add(m[2].v.sqr())
	root := at(1).sub(mm)
	if !(root.lo > 0) {
		lost := rate{anything(), anything(), anything()}
		return lost, lost, lost
	}
	l := rate{v: root.sqrt()}
	dot := m[0].v.mul(m[0].d).add(m[1].v.mul(m[1].d)).add(m[2].v.mul(m[2].d))
	l.d = dot.neg().div(l.v)
	l.dd = m[0].d.sqr().add(m[1].d.sqr()).add(m[2].d.sqr()).add(l.d.sqr()).neg().div(l.v)
	var e [3]rate
	for i := range e {
		e[i] = m[i].add(l.times(c.k[i]))
	}
	flat := hypot(e[0], e[1])
	// h + slope.(P + low e) - low e_z
	a := c.low.ahead
	height = e[0].times(a * c.low.slope.dot(c.directions[0])).add(e[1].times(a * c.low.slope.dot(c.directions[1]))).add(e[2].times(-a))
	return turning(e[0], e[1]), turning(flat, e[2]), height
}

// joints: yaw, pitch, and the height that follows them.
func (c *carry) joints() int { return 3 }

func (c *carry) far() float64 {
	return c.guide.length() + c.origin.length() + c.on.at.length() + math.Abs(c.from) + math.Abs(c.to) +
		math.Abs(c.low.ahead) + math.Abs(c.high.ahead) + math.Abs(c.low.h)
}

func (c *carry) unsure() float64 { return c.inexact }
