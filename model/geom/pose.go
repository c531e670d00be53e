package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Vec is a point or a direction in metres.
type Vec = mgl64.Vec3

// Pose is a rigid motion x -> R x + T. R is orthonormal to rounding.
// The zero value is not a pose; start from Identity.
type Pose struct {
	R mgl64.Mat3
	T Vec
}

// Identity is the pose that moves nothing.
func Identity() Pose { return Pose{R: mgl64.Ident3()} }

// Translation is the pose that moves every point by t.
func Translation(t Vec) Pose { return Pose{R: mgl64.Ident3(), T: t} }

// Rotation is the right-handed turn by angle about the line through pin with
// unit direction axis.
func Rotation(pin, axis Vec, angle float64) Pose {
	r := turn(axis, math.Cos(angle), math.Sin(angle))
	return Pose{R: r, T: pin.Sub(r.Mul3x1(pin))}
}

// turn is Rodrigues' rotation matrix for a unit axis.
func turn(k Vec, c, s float64) mgl64.Mat3 {
	x, y, z, v := k[0], k[1], k[2], 1-c
	return mgl64.Mat3FromRows(
		Vec{c + x*x*v, x*y*v - z*s, x*z*v + y*s},
		Vec{y*x*v + z*s, c + y*y*v, y*z*v - x*s},
		Vec{z*x*v - y*s, z*y*v + x*s, c + z*z*v},
	)
}

// Apply takes a point from frame b to frame a.
func (aFromB Pose) Apply(p Vec) Vec { return aFromB.R.Mul3x1(p).Add(aFromB.T) }

// Turn takes a direction from frame b to frame a.
func (aFromB Pose) Turn(d Vec) Vec { return aFromB.R.Mul3x1(d) }

// Mul chains two poses: aFromB.Mul(bFromC) is aFromC.
func (aFromB Pose) Mul(bFromC Pose) Pose {
	return Pose{R: aFromB.R.Mul3(bFromC.R), T: aFromB.Apply(bFromC.T)}
}

// Inverse is bFromA.
func (aFromB Pose) Inverse() Pose {
	rt := aFromB.R.Transpose()
	return Pose{R: rt, T: rt.Mul3x1(aFromB.T).Mul(-1)}
}
