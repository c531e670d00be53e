package proof

import "math"

// pose takes body coordinates to those of the frame looked from.
type pose struct {
	r [3]vec // rows
	t vec
}

func (p pose) apply(v vec) vec {
	return vec{p.r[0].dot(v), p.r[1].dot(v), p.r[2].dot(v)}.add(p.t)
}

// turned is a direction, and back and turnedBack the way of a point and of a
// direction the other way.
func (p pose) turned(v vec) vec { return vec{p.r[0].dot(v), p.r[1].dot(v), p.r[2].dot(v)} }

func (p pose) turnedBack(v vec) vec {
	return p.r[0].mul(v[0]).add(p.r[1].mul(v[1])).add(p.r[2].mul(v[2]))
}

func (p pose) back(v vec) vec { return p.turnedBack(v.sub(p.t)) }

func unmoved() pose { return pose{r: [3]vec{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}} }

// spin is the turn by q about the unit axis k through pin, column by column:
// k (k.x) + (x - k (k.x)) cos q + k x x sin q.
func spin(pin, k vec, q float64) pose {
	sin, cos := math.Sincos(q)
	var p pose
	for c := range 3 {
		var x vec
		x[c] = 1
		axial := k.mul(k[c])
		y := axial.add(x.sub(axial).mul(cos)).add(k.cross(x).mul(sin))
		for r := range 3 {
			p.r[r][c] = y[r]
		}
	}
	p.t = pin.sub(vec{p.r[0].dot(pin), p.r[1].dot(pin), p.r[2].dot(pin)})
	return p
}

// after is p of what q gives.
func (p pose) after(q pose) pose {
	var out pose
	for r := range 3 {
		for c := range 3 {
			out.r[r][c] = p.r[r].dot(vec{q.r[0][c], q.r[1][c], q.r[2][c]})
		}
	}
	out.t = p.apply(q.t)
	return out
}

// pose of body seen from ref at an instant (s0 = s1).
func (t *instant) pose(ref, b int) pose {
	p := unmoved()
	for ; b != ref; b = t.bodies[b].parent {
		j, q := &t.bodies[b], t.coordinate(b).v.mid()
		switch j.kind {
		case isSlide:
			p.t = p.t.add(j.axis.mul(q))
		case isTurn, isAim:
			p = spin(j.pin, j.axis, q).after(p)
		}
	}
	return p
}

// curve bounds how a body curves over an interval: the acceleration a of the
// point c, the angular speed om and the angular acceleration al. A body point
// at rho from the line through c along axis (from c if turns about several
// axes mix) has an acceleration of at most a + (om² + al) rho, square to the
// axis but for a. c and axis are in the body's coordinates; abroad is the axis,
// and tilt what joints that keep still have turned, in the frame looked from.
type curve struct {
	c, axis   vec
	abroad    vec
	tilt      pose
	mixed     bool
	a, om, al float64
	rate, acc iv // signed, about axis
}

func (k *curve) turns() bool { return k.om != 0 || k.al != 0 }

// radius is rounded up by far more than the joints before cost.
func (k *curve) radius(p vec) float64 {
	d := p.sub(k.c)
	if k.mixed || k.axis == (vec{}) {
		return d.length() * (1 + 0x1p-40)
	}
	return d.cross(k.axis).length() + 0x1p-40*d.length()
}

// across is what of the turning part of a point's acceleration may lie along the
// unit n: turning about one axis accelerates nothing along that axis.
func (k *curve) across(n vec) float64 {
	if k.mixed || k.abroad == (vec{}) {
		return 1
	}
	return math.Min(1, n.cross(k.abroad).length()+0x1p-40)
}

// of a body point, with so much of its turning part; raised against the rounding
// of all that it comes from.
func (k *curve) of(p vec, across float64) float64 {
	if !k.turns() {
		return k.a * (1 + 0x1p-30)
	}
	v := (k.a + (k.om*k.om+k.al)*k.radius(p)*across) * (1 + 0x1p-30)
	if math.IsNaN(v) {
		return math.Inf(1)
	}
	return v
}

// turn adds a turning joint.
func (k *curve) turn(pin, axis vec, q rate) {
	d, dd := q.d, q.dd
	if d.zero() && dd.zero() {
		k.keep(spin(pin, axis, q.v.mid()), axis)
		return
	}
	if k.turns() {
		k.a += (k.om*k.om + k.al) * k.radius(pin)
	}
	k.c = pin
	switch {
	case !k.turns():
		k.axis, k.abroad = axis, k.tilt.turned(axis)
	case axis == k.axis.mul(-1):
		d, dd = d.neg(), dd.neg()
	case axis != k.axis:
		k.mixed = true
	}
	if k.mixed { // two axes that turn with each other also give om x q'
		k.al += dd.most() + k.om*d.most()
		k.om += d.most()
		return
	}
	k.rate, k.acc = k.rate.add(d), k.acc.add(dd)
	k.om, k.al = k.rate.most(), k.acc.most()
}

// keep passes a turning joint that keeps still, which turns as p does: c and the
// axis are the same point and direction, in the coordinates of what hangs on it.
func (k *curve) keep(p pose, axis vec) {
	k.c = p.back(k.c)
	if !k.turns() {
		k.tilt = k.tilt.after(p)
		return
	}
	if axis != k.axis && axis != k.axis.mul(-1) {
		k.axis = p.turnedBack(k.axis)
	}
}

// slide adds a sliding joint.
func (k *curve) slide(u vec, q rate) {
	if q.d.zero() && q.dd.zero() {
		k.c = k.c.sub(u.mul(q.v.mid()))
		return
	}
	l := u.length()
	k.a += (k.om*k.om+k.al)*l*q.v.most() + 2*k.om*l*q.d.most() + l*q.dd.most()
}

// curve of body seen from ref over the interval, starting from what the frame
// ref itself does.
func (t *instant) curve(k curve, ref, b int) curve {
	var chain []int
	for ; b != ref; b = t.bodies[b].parent {
		chain = append(chain, b)
	}
	if k.tilt == (pose{}) {
		k.tilt = unmoved()
	}
	for n := len(chain) - 1; n >= 0; n-- {
		j, q := &t.bodies[chain[n]], t.coordinate(chain[n])
		switch j.kind {
		case isSlide:
			k.slide(j.axis, q)
		case isTurn, isAim:
			k.turn(j.pin, j.axis, q)
		}
	}
	return k
}
