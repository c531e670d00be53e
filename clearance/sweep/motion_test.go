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

// chain is the bodies from below ref out to body, and false if ref is not above
// body.
func (t tree) chain(ref, body int) ([]int, bool) {
	var up []int
	for body != ref {
		if body == Ground {
			return nil, false
		}
		up = append([]int{body}, up...)
		body = t[body].parent
	}
	return up, true
}

func (t tree) Pose(ref, body int, s float64) geom.Pose {
	chain, ok := t.chain(ref, body)
	if !ok {
		return t.Pose(Ground, ref, s).Inverse().Mul(t.Pose(Ground, body, s))
	}
	p := geom.Identity()
	for _, i := range chain {
		p = p.Mul(t.parentFromBody(i, s))
	}
	return p
}

func (t tree) Depth(ref, body int) int {
	chain, _ := t.chain(ref, body)
	return len(chain)
}

// Bound follows the chain outwards: a hinge carries its pin's acceleration and
// adds its own turning; a slide adds its stroke's share and its own.
func (t tree) Bound(ref, body int, s0, s1 float64) geom.Bound {
	chain, ok := t.chain(ref, body)
	if !ok {
		panic("no bound from a frame that is not an ancestor")
	}
	var b geom.Bound
	turned, parallel := false, true
	for _, i := range chain {
		j := t[i]
		r, q2 := most(j.drive.rate, s0, s1), math.Abs(j.drive.q2)
		if !j.hinge {
			stroke := math.Max(most(j.drive.at, s0, s1), math.Abs(j.drive.at((s0+s1)/2))+q2*(s1-s0)*(s1-s0)/8)
			b.A += (b.Omega*b.Omega+b.Alpha)*stroke + 2*b.Omega*r + q2
			continue
		}
		b.A += (b.Omega*b.Omega + b.Alpha) * j.pin.Sub(b.C).Len()
		b.Alpha += q2 + b.Omega*r
		b.Omega += r
		parallel = parallel && (!turned || b.Axis == j.dir)
		b.C, b.Axis, turned = j.pin, j.dir, true
	}
	if !parallel {
		b.Axis = geom.Vec{}
	}
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
