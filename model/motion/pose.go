package motion

import (
	"math"

	"boxwalk/model/geom"
)

// Pose is refFromBody at s in [0, 1], to rounding. ref is Ground or an
// ancestor of body.
func (p *Path) Pose(ref, body int, s float64) geom.Pose {
	t := p.moment(s, s)
	t.mu.Lock()
	defer t.mu.Unlock()
	pose := geom.Identity()
	for b := body; b != ref; b = p.m.Bodies[b].Parent {
		own, moved := t.own(b)
		if moved {
			pose = own.Mul(pose)
		}
	}
	return pose
}

// own is parentFromBody at a single instant, and whether it is not the
// identity.
func (t *moment) own(i int) (pose geom.Pose, moved bool) {
	if t.posed == nil {
		t.posed, t.poses = make([]bool, len(t.q)), make([]geom.Pose, len(t.q))
	}
	if !t.posed[i] {
		t.poses[i] = t.m.Bodies[i].Joint.pose(t.coordinate(i).v.mid())
		t.posed[i] = true
	}
	return t.poses[i], t.q[i].v.mid() != 0
}

func (j Joint) pose(q float64) geom.Pose {
	switch {
	case j.Kind == Fixed || q == 0:
		return geom.Identity()
	case j.Kind == Prismatic:
		return geom.Translation(j.Axis.Mul(q))
	}
	return geom.Rotation(j.Pin, j.Axis, q)
}

// Bound encloses the motion of body seen from ref over [s0, s1]: a body point,
// and upper bounds on its acceleration, on angular speed and on angular
// acceleration. A joint moves the point by
//
//	revolute: a += (Om^2 + al) |pin - c|, then Om and al gain q' and q''
//	prismatic: a += (Om^2 + al) max|d| + 2 Om |d'| + |d''|
//
// Rates about parallel axes add with their signs; otherwise by size.
func (p *Path) Bound(ref, body int, s0, s1 float64) geom.Bound {
	t := p.moment(s0, s1)
	t.mu.Lock()
	defer t.mu.Unlock()
	var b geom.Bound
	var rate, spin interval
	parallel := true
	for _, i := range p.m.Chain(ref, body) {
		j, q := p.m.Bodies[i].Joint, t.coordinate(i)
		switch j.Kind {
		case Prismatic:
			u := j.Axis.Len()
			b.A += (b.Omega*b.Omega+b.Alpha)*u*q.v.mag() + 2*b.Omega*u*q.d.mag() + u*q.dd.mag()
		case Revolute, Aim:
			if b.Omega != 0 || b.Alpha != 0 {
				b.A += (b.Omega*b.Omega + b.Alpha) * b.Radius(j.Pin)
			}
			if b.Axis == (geom.Vec{}) && rate.zero() && spin.zero() {
				b.Axis = j.Axis
			}
			parallel = parallel && (b.Axis == j.Axis || (q.d.zero() && q.dd.zero()))
			rate, spin = rate.add(q.d), spin.add(q.dd)
			if parallel {
				b.Omega, b.Alpha = rate.mag(), spin.mag()
			} else {
				// Alpha of two turning axes also holds Om x q'
				b.Alpha += q.dd.mag() + b.Omega*q.d.mag()
				b.Omega += q.d.mag()
				b.Axis = geom.Vec{}
			}
			b.C = j.Pin
		}
	}
	if !parallel {
		b.Axis = geom.Vec{}
	}
	return grown(b)
}

// grown covers the rounding of the few additions and products above.
func grown(b geom.Bound) geom.Bound {
	const up = 1 + 64*0x1p-52
	b.A *= up
	b.Omega *= up
	b.Alpha *= up
	if math.IsNaN(b.A + b.Omega + b.Alpha) {
		b.A = math.Inf(1)
	}
	return b
}

// Coordinate of a body's joint at s.
func (p *Path) Coordinate(body int, s float64) float64 {
	t := p.moment(s, s)
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.coordinate(body).v.mid()
}

// Length of a link at s, pin to pin.
func (p *Path) Length(link int, s float64) float64 { return p.length(link, s, s).v.mid() }

func (p *Path) length(link int, s0, s1 float64) jet {
	l := p.m.Links[link]
	t := p.moment(s0, s1)
	t.mu.Lock()
	defer t.mu.Unlock()
	top := p.m.Common(l.A, l.B)
	return t.carry(l.B, top, still(l.PinB)).sub(t.carry(l.A, top, still(l.PinA))).length()
}

// LengthRange is a bracket of everything a link measures during the step: the
// true least lies in [least - wide, least], the true greatest in
// [most, most + wide].
func (p *Path) LengthRange(link int) (least, most, wide float64) {
	r := extent{least: math.Inf(1), most: math.Inf(-1), lo: math.Inf(1), hi: math.Inf(-1)}
	p.reachOver(link, 0, 1, finest, &r)
	return r.least, r.most, math.Max(r.least-r.lo, r.hi-r.most)
}

// extent is what a link was seen to measure, and bounds on what it may measure.
type extent struct{ least, most, lo, hi float64 }

// finest is how often a step is halved at most where a link's length turns.
const finest = 6

// reachOver takes in an interval. A length that only grows or only shrinks is
// extreme at the ends; any other leaves the chord between them by at most K D²/8.
func (p *Path) reachOver(link int, s0, s1 float64, halvings int, r *extent) {
	over := p.length(link, s0, s1)
	monotone := over.d.lo >= 0 || over.d.hi <= 0
	if middle := s0 + (s1-s0)/2; !monotone && halvings > 0 {
		p.reachOver(link, s0, middle, halvings-1, r)
		p.reachOver(link, middle, s1, halvings-1, r)
		return
	}
	sag := 0.0
	if !monotone {
		sag = over.dd.mag() * (s1 - s0) * (s1 - s0) / 8
	}
	for _, s := range [2]float64{s0, s1} {
		l := p.length(link, s, s).v
		r.least, r.most = math.Min(r.least, l.mid()), math.Max(r.most, l.mid())
		r.lo, r.hi = math.Min(r.lo, l.lo-sag), math.Max(r.hi, l.hi+sag)
	}
}

// Moves tells whether a body moves at all seen from ref during the step. Rates
// of joints that nothing drives are exactly zero.
func (p *Path) Moves(ref, body int) bool {
	t := p.moment(0, 1)
	t.mu.Lock()
	defer t.mu.Unlock()
	for b := body; b != ref; b = p.m.Bodies[b].Parent {
		if q := t.coordinate(b); !q.d.zero() || !q.dd.zero() {
			return true
		}
	}
	return false
}
