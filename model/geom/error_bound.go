package geom

import "math"

// ErrorBound bounds the error of a computed pose: it takes a point p of the body no
// farther than Turn |p| + Shift, in metres, from where the motion itself has it.
// The zero value is a pose that is exact.
//
// The bounds below are in u = 2^-53, the largest relative error of one operation.
// A 3x3 matrix times a vector costs 3u of |R| |p|, and the matrix of sizes |R| of
// a rotation is no longer than sqrt 3; products of two error bounds are covered by
// rounding up.
type ErrorBound struct{ Turn, Shift float64 }

const unitRoundoff = 0x1p-53

// At is how far a point at the given distance from the body's origin may be off.
func (d ErrorBound) At(reach float64) float64 { return d.Turn*reach + d.Shift }

// Chained is the error bound of aFromB.Mul(bFromC), where d is that of aFromB: a point p
// is at most |p| + |bFromC.T| from the origin of b. Two products cost
//
//	R: 3u |Ra| |Rb|, at most 9u,    T: 3 sqrt 3 u |Tb| + u (|Ta| + |Tb|).
func (d ErrorBound) Chained(aFromB Pose, bFromC Pose, of ErrorBound) ErrorBound {
	ta, tb := aFromB.T.Len(), bFromC.T.Len()
	return ErrorBound{
		Turn:  d.Turn + of.Turn + 10*unitRoundoff,
		Shift: d.Shift + of.Shift + (d.Turn+8*unitRoundoff)*tb + 2*unitRoundoff*ta,
	}
}

// TranslationErrorBound is that of Translation by a product axis q, where q is known
// to within blur: a component of t is rounded once, and blur is along the axis.
func TranslationErrorBound(axis Vec, q, blur float64) ErrorBound {
	return ErrorBound{Shift: axis.Len() * (blur + 2*unitRoundoff*math.Abs(q))}
}

// RotationErrorBound is that of Rotation about an axis that is unit to 3u, by an angle
// that is known to within blur, sine and cosine being good to 2u. With v = 1 - c,
// which is off by 4u, an entry c + x²v is off by 2u + (4u + 4u) + u, one xyv ± zs
// by 4u + 3u + u: sqrt(3 11² + 6 8²) u = 27.3u in all, and an axis longer by 3u
// adds 2 (2 3u) + 3u. Pin less R pin then costs what R costs, 3 sqrt 3 u and 2u of
// the pin.
func RotationErrorBound(pin Vec, blur float64) ErrorBound {
	turn := blur + 48*unitRoundoff
	return ErrorBound{Turn: turn, Shift: (turn + 8*unitRoundoff) * pin.Len()}
}
