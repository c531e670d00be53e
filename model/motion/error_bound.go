package motion

import (
	"math"

	"boxwalk/model/geom"
)

// Every pose is off by rounding; ErrorBound of a motion says by how much at most. A
// path's joint coordinates are enclosed, so that a link near its dead centre or an
// aim at a near pin tells its own error bound, which grows in the chain as geom.ErrorBound
// has it. The poses of rolls come from closed forms, whose parts are counted below
// in units of u = 2^-53.

// ErrorBound bounds how far Pose is off at s.
func (p *Path) ErrorBound(ref, body int, s float64) geom.ErrorBound {
	t := p.moment(s, s)
	t.mu.Lock()
	defer t.mu.Unlock()
	pose, errorBound := geom.Identity(), geom.ErrorBound{}
	for b := body; b != ref; b = p.m.Bodies[b].Parent {
		own, moved := t.own(b)
		d := p.m.Bodies[b].Joint.errorBound(t.q[b].v)
		if !moved { // whatever its coordinate may be instead of zero
			errorBound.Turn, errorBound.Shift = errorBound.Turn+d.Turn, errorBound.Shift+d.Shift+d.Turn*pose.T.Len()
			continue
		}
		pose, errorBound = own.Mul(pose), d.Chained(own, pose, errorBound)
	}
	return errorBound
}

// errorBound of a joint's pose at the middle of q.
func (j Joint) errorBound(q interval) geom.ErrorBound {
	if j.Kind == Fixed || q.zero() {
		return geom.ErrorBound{}
	}
	blur := (q.hi-q.lo)/2 + ulp*q.mag()
	if j.Kind == Prismatic {
		return geom.TranslationErrorBound(j.Axis, q.mag(), blur)
	}
	return geom.RotationErrorBound(j.Pin, blur)
}

// measure is what is large in a roll: the lengths and coordinates that its closed
// form adds up, and the distances it divides by.
type measure struct {
	size  float64 // sum of the lengths, m
	lever float64 // harmonic: 1/lever is the sum of the inverse distances, 1/m
	reach float64 // of the body's point that the pose is hung by, from its origin, m
}

// rollRounding is 256u: more than the roundings of a roll's closed form add up to, in its
// direction per size over lever and in its place per size.
//
// Glide: r1 and r2 are off by 8u size/B and 8u size/W. The least vector doubles
// that and adds 10u, for p and for q; the square root, whose slope is at most 2,
// trebles it: 96u size (1/B + 1/W) + 70u. Its yaw and pitch are off by at most 1.2
// times that.
const rollRounding = 0x1p-45

// errorBound of a pose so measured: its place follows its direction at the point it is
// hung by, and what it is hung from.
func (m measure) errorBound() geom.ErrorBound {
	turn := rollRounding * (1 + m.size/m.lever)
	return geom.ErrorBound{Turn: turn, Shift: turn*2*m.reach + rollRounding*(m.size+m.reach)}
}

// ErrorBound bounds how far Pose is off.
func (d *Glide) ErrorBound(ref, body int, s float64) geom.ErrorBound {
	if body == ref {
		return geom.ErrorBound{}
	}
	return d.errorBound()
}

func (d *Glide) errorBound() geom.ErrorBound {
	c := d.g.carriage
	rear, front := d.g.course[d.on.rear], d.g.course[d.on.front]
	low, high := d.g.lever(d.on.low), d.g.lever(d.on.high)
	base := c.base()
	m := measure{
		size:  math.Abs(d.from) + math.Abs(d.to) + rear.at.Len() + front.at.Len() + math.Abs(low) + math.Abs(high) + d.g.fromLevel.T.Len(),
		lever: 1 / (1/base + 1/(high-low)),
		reach: c.anchor().Len() + math.Abs(low),
	}
	for _, on := range [2]int{d.on.lowOn, d.on.highOn} {
		k := d.g.planes[on]
		m.size += math.Abs(k.height) + k.at.Len()
	}
	return m.errorBound()
}

// ErrorBound bounds how far Pose is off: as far as the glides that it joins, which its
// ends are worked out from.
func (t *Tip) ErrorBound(ref, body int, s float64) geom.ErrorBound {
	if body == ref {
		return geom.ErrorBound{}
	}
	return t.errorBound
}
