package sweep

import (
	"math"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// drive is a joint's value q0 + q1 s + q2 s²/2.
type drive struct{ q0, q1, q2 float64 }

func (d drive) at(s float64) float64   { return d.q0 + d.q1*s + d.q2*s*s/2 }
func (d drive) rate(s float64) float64 { return d.q1 + d.q2*s }

// most is the largest |f| at the two ends, where a linear f takes it.
func most(f func(float64) float64, s0, s1 float64) float64 {
	return math.Max(math.Abs(f(s0)), math.Abs(f(s1)))
}

// joint hangs a body on its parent. A hinge turns about the line through pin
// along dir, a slide moves along dir. With the joint at zero both frames
// coincide.
type joint struct {
	parent int
	hinge  bool
	pin    geom.Vec
	dir    geom.Vec
	drive  drive
}

// tree is a Motion: body i hangs on joints[i].
type tree []joint

func (t tree) parentFromBody(i int, s float64) geom.Pose {
	j := t[i]
	if j.hinge {
		return geom.Rotation(j.pin, j.dir, j.drive.at(s))
	}
	return geom.Translation(j.dir.Mul(j.drive.at(s)))
}

// above tells whether ref is on the way from body to the ground.
func (t tree) above(ref, body int) bool {
	for body != ref && body != Ground {
		body = t[body].parent
	}
	return body == ref
}

func (t tree) Pose(ref, body int, s float64) geom.Pose {
	switch {
	case body == ref:
		return geom.Identity()
	case !t.above(ref, body):
		return t.Pose(Ground, ref, s).Inverse().Mul(t.Pose(Ground, body, s))
	}
	return t.Pose(ref, t[body].parent, s).Mul(t.parentFromBody(body, s))
}

func (t tree) ErrorBound(ref, body int, s float64) geom.ErrorBound {
	switch {
	case body == ref:
		return geom.ErrorBound{}
	case !t.above(ref, body):
		pose, of := t.Pose(Ground, ref, s), t.ErrorBound(Ground, ref, s)
		of.Shift += (of.Turn + 8*0x1p-53) * pose.T.Len() // of the inverse
		return of.Chained(pose.Inverse(), t.Pose(Ground, body, s), t.ErrorBound(Ground, body, s))
	}
	return t.ErrorBound(ref, t[body].parent, s).Chained(t.Pose(ref, t[body].parent, s), t.parentFromBody(body, s), t.own(body, s))
}

// own is the error bound of a joint, whose value costs three roundings of its terms.
func (t tree) own(body int, s float64) geom.ErrorBound {
	j := t[body]
	d := j.drive
	blur := 4 * 0x1p-53 * (math.Abs(d.q0) + math.Abs(d.q1*s) + math.Abs(d.q2*s*s))
	if j.hinge {
		return geom.RotationErrorBound(j.pin, blur)
	}
	return geom.TranslationErrorBound(j.dir, d.at(s), blur)
}

// Bound follows the chain outwards: a hinge carries its pin's acceleration and
// adds its own turning; a slide adds its stroke's share and its own. An axis
// stays when all hinges are parallel.
func (t tree) Bound(ref, body int, s0, s1 float64) geom.Bound {
	if body == ref {
		return geom.Bound{}
	}
	if body == Ground {
		panic("no bound from a frame that is not an ancestor")
	}
	j := t[body]
	b := t.Bound(ref, j.parent, s0, s1)
	r, q2 := most(j.drive.rate, s0, s1), math.Abs(j.drive.q2)
	if !j.hinge {
		stroke := most(j.drive.at, s0, s1) + q2*(s1-s0)*(s1-s0)/8
		b.A += (b.Omega*b.Omega+b.Alpha)*stroke + 2*b.Omega*r + q2
		return b
	}
	b.A += (b.Omega*b.Omega + b.Alpha) * j.pin.Sub(b.C).Len()
	if turned := b.Omega != 0 || b.Alpha != 0; !turned {
		b.Axis = j.dir
	} else if b.Axis != j.dir {
		b.Axis = geom.Vec{}
	}
	b.Alpha += q2 + b.Omega*r
	b.Omega += r
	b.C = j.pin
	return b
}

// block is the box with the given corners.
func block(x0, x1, y0, y1, z0, z1 float64) *gap.Solid {
	return gap.New(geom.Block(geom.Box{Min: geom.Vec{x0, y0, z0}, Max: geom.Vec{x1, y1, z1}}))
}

func ground(s *gap.Solid) Part { return Part{Ground, s} }

// slide moves body 0 along d over [0, 1].
func slide(d geom.Vec) tree {
	return tree{{parent: Ground, dir: d, drive: drive{q1: 1}}}
}

// hinge turns body 0 by angle about a line over [0, 1].
func hinge(pin, axis geom.Vec, angle float64) tree {
	return tree{{parent: Ground, hinge: true, pin: pin, dir: axis, drive: drive{q1: angle}}}
}

var (
	alongY = geom.Vec{0, 1, 0}
	alongX = geom.Vec{1, 0, 0}
)

// bent replaces a motion's bound.
type bent struct {
	Motion
	change func(geom.Bound) geom.Bound
}

func (b bent) Bound(ref, body int, s0, s1 float64) geom.Bound {
	return b.change(b.Motion.Bound(ref, body, s0, s1))
}

func xyz(x, y, z float64) gap.XYZ { return gap.XYZ{X: x, Y: y, Z: z} }

func solidOf(s *geom.Solid) *gap.Solid { return gap.New(s) }
