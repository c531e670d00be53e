package gap

import (
	"math"

	"boxwalk/model/geom"
	"github.com/go-gl/mathgl/mgl64"
)

// XYZ is a point or direction in the kernel. A plain struct keeps the inner
// loops in registers; an array such as geom.Vec costs three times as much
// there.
type XYZ struct{ X, Y, Z float64 }

// FromVec is v as the kernel holds it.
func FromVec(v geom.Vec) XYZ { return XYZ{v[0], v[1], v[2]} }

// Vec is a as the rest of the program holds it.
func (a XYZ) Vec() geom.Vec { return geom.Vec{a.X, a.Y, a.Z} }

// Add is a + b.
func (a XYZ) Add(b XYZ) XYZ { return XYZ{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Sub is a - b.
func (a XYZ) Sub(b XYZ) XYZ { return XYZ{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }

// Mul is k a.
func (a XYZ) Mul(k float64) XYZ { return XYZ{a.X * k, a.Y * k, a.Z * k} }

// Dot is the inner product.
func (a XYZ) Dot(b XYZ) float64 { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }

// Cross is the right-handed vector product.
func (a XYZ) Cross(b XYZ) XYZ {
	return XYZ{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X}
}

// Len is the length.
func (a XYZ) Len() float64 { return math.Sqrt(a.Dot(a)) }

// Turn is R v for a column-major rotation: a direction of the body in the outer
// frame.
func Turn(r *mgl64.Mat3, v XYZ) XYZ {
	return XYZ{
		r[0]*v.X + r[3]*v.Y + r[6]*v.Z,
		r[1]*v.X + r[4]*v.Y + r[7]*v.Z,
		r[2]*v.X + r[5]*v.Y + r[8]*v.Z,
	}
}

// TurnBack is the transpose of R applied to v: a direction of the outer frame
// in body coordinates.
func TurnBack(r *mgl64.Mat3, v XYZ) XYZ {
	return XYZ{
		r[0]*v.X + r[1]*v.Y + r[2]*v.Z,
		r[3]*v.X + r[4]*v.Y + r[5]*v.Z,
		r[6]*v.X + r[7]*v.Y + r[8]*v.Z,
	}
}

// Apply takes a body point to the outer frame.
func Apply(p *geom.Pose, v XYZ) XYZ { return Turn(&p.R, v).Add(FromVec(p.T)) }

// highest is the index and value of the largest n.v.
func highest(vs []XYZ, n XYZ) (int, float64) {
	at, most := 0, math.Inf(-1)
	for i := range vs {
		if d := vs[i].X*n.X + vs[i].Y*n.Y + vs[i].Z*n.Z; d > most {
			at, most = i, d
		}
	}
	return at, most
}

// lowest is the index and value of the least n.v.
func lowest(vs []XYZ, n XYZ) (int, float64) {
	at, least := 0, math.Inf(1)
	for i := range vs {
		if d := vs[i].X*n.X + vs[i].Y*n.Y + vs[i].Z*n.Z; d < least {
			at, least = i, d
		}
	}
	return at, least
}
