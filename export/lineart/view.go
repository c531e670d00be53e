package lineart

import (
	"math"

	"github.com/fogleman/ln/ln"

	"boxwalk/export/scene"
)

// facing is the least cosine between a face's normal and the direction to the
// viewer at which the face is seen: 10 m of a face seen flatter than that show
// as a micrometre.
const facing = 1e-7

// view is the projection of the view frame, in millimetres. The eye stands at
// (0, 0, eye); eye 0 means parallel rays along z.
type view struct {
	eye  float64
	near float64 // z of the plane before the eye where a perspective starts
}

func newView(c scene.Camera) view {
	return view{eye: 1e3 * c.Distance, near: 1e3 * (c.Distance - c.Near)}
}

func (v view) parallel() bool { return v.eye == 0 }

// point is a point of the view plane in millimetres.
type point struct{ x, y float64 }

func (p point) sub(q point) point     { return point{p.x - q.x, p.y - q.y} }
func (p point) dot(q point) float64   { return p.x*q.x + p.y*q.y }
func (p point) cross(q point) float64 { return p.x*q.y - p.y*q.x }
func (p point) length() float64       { return math.Hypot(p.x, p.y) }
func (p point) toward(q point, t float64) point {
	return point{p.x + t*(q.x-p.x), p.y + t*(q.y-p.y)}
}

// project shows a point on the view plane.
func (v view) project(p ln.Vector) point {
	if v.parallel() {
		return point{p.X, p.Y}
	}
	k := v.eye / (v.eye - p.Z)
	return point{p.X * k, p.Y * k}
}

// shown takes the share t of the way from a to b in space to the share of the
// way between their images.
func (v view) shown(a, b ln.Vector, t float64) float64 {
	if v.parallel() {
		return t
	}
	wa, wb := v.eye-a.Z, v.eye-b.Z
	return t * wb / ((1-t)*wa + t*wb)
}

// faces tells whether the viewer sees the outside of plane p, for a face
// around point at.
func (v view) faces(p plane, at ln.Vector) bool {
	if v.parallel() {
		return p.n.Z > facing
	}
	toEye := ln.Vector{X: -at.X, Y: -at.Y, Z: v.eye - at.Z}
	return p.n.Dot(toEye) > facing*toEye.Length()
}
