package motion

import (
	"math"

	"boxwalk/model/geom"
)

// Tip takes a carriage from one rest to another while it does not roll: yaw,
// pitch and the place of one point change evenly. It joins two stretches where
// a wheel steps up or down at a joint.
type Tip struct {
	carriage   Carriage
	fromLevel  geom.Pose
	rear       float64
	pivot      geom.Vec // in the body
	p0, p1     geom.Vec // of the pivot, level frame
	yaw, pitch [2]float64
	errorBound geom.ErrorBound
}

// tipBetween leads from one glide at s0 to another at s1, about the wheel line
// that carries in both, at axle height; about the rear guide if there is none.
func tipBetween(a *Glide, s0 float64, b *Glide, s1 float64) *Tip {
	c := a.g.carriage
	pivot := c.anchor()
	for _, i := range [2]int{a.on.low, a.on.high} {
		if i == b.on.low || i == b.on.high {
			pivot[0] = c.Wheels[i]
		}
	}
	e0, e1 := a.ahead(s0), b.ahead(s1)
	t := &Tip{carriage: c, fromLevel: a.g.fromLevel, rear: a.Rear(s0), pivot: pivot}
	x, y := a.errorBound(), b.errorBound()
	t.errorBound = geom.ErrorBound{Turn: 2 * math.Max(x.Turn, y.Turn), Shift: 2 * math.Max(x.At(pivot.Len()), y.At(pivot.Len()))}
	t.p0 = c.along(e0, a.axle(s0, e0)).Apply(pivot)
	t.p1 = c.along(e1, b.axle(s1, e1)).Apply(pivot)
	t.yaw = [2]float64{math.Atan2(e0[1], e0[0]), math.Atan2(e1[1], e1[0])}
	t.pitch = [2]float64{math.Asin(e0[2]), math.Asin(e1[2])}
	return t
}

// moves tells whether any point of a body of ten metres gets further than a
// nanometre.
func (t *Tip) moves() bool {
	return t.p1.Sub(t.p0).Len()+10*(math.Abs(t.yaw[1]-t.yaw[0])+math.Abs(t.pitch[1]-t.pitch[0])) > 1e-9
}

// Pose is groundFromBody at s.
func (t *Tip) Pose(ref, body int, s float64) geom.Pose {
	if body == ref {
		return geom.Identity()
	}
	sy, cy := math.Sincos(lerp(t.yaw[0], t.yaw[1], s))
	sp, cp := math.Sincos(lerp(t.pitch[0], t.pitch[1], s))
	pose := t.carriage.along(geom.Vec{cy * cp, sy * cp, sp}, geom.Vec{})
	at := t.p0.Add(t.p1.Sub(t.p0).Mul(s))
	pose.T = at.Sub(pose.R.Mul3x1(t.pivot))
	return t.fromLevel.Mul(pose)
}

// Bound of a tip: yaw and pitch at constant rates about two axes square to each
// other, of which the second turns with the first.
func (t *Tip) Bound(ref, body int, s0, s1 float64) geom.Bound {
	if body == ref {
		return geom.Bound{}
	}
	yaw, pitch := t.yaw[1]-t.yaw[0], t.pitch[1]-t.pitch[0]
	b := geom.Bound{C: t.pivot, Omega: math.Hypot(yaw, pitch), Alpha: math.Abs(yaw * pitch)}
	if yaw == 0 {
		b.Axis = geom.Vec{0, 1, 0}
	}
	return grown(b)
}

// Rear is where the rear guide stands along the course.
func (t *Tip) Rear(float64) float64 { return t.rear }
