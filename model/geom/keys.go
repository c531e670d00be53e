package geom

import "github.com/go-gl/mathgl/mgl64"

// Between is the pose a share of the way from one to another of the same frames, where
// the origin goes straight and the turn is even, the shorter way round.
func Between(from, to Pose, share float64) Pose {
	p, q := quat(from), quat(to)
	if p.Dot(q) < 0 {
		q = q.Scale(-1)
	}
	return Pose{R: mgl64.QuatSlerp(p, q, share).Normalize().Mat4().Mat3(), T: from.T.Mul(1 - share).Add(to.T.Mul(share))}
}

func quat(p Pose) mgl64.Quat { return mgl64.Mat4ToQuat(p.R.Mat4()).Normalize() }

// mostHalved is how often Keys halves an interval at most: a way of a turn cut so strays
// by less than a micrometre at any size of a carrier.
const mostHalved = 14

// Keys are the shares after from, up to and with to, at which a way has to be known so
// that Between goes along it: no corner of the box strays farther than within, m, where
// it is looked at, a quarter, half and three quarters of the way from key to key.
func Keys(at func(share float64) Pose, box Box, within, from, to float64) []float64 {
	return keys(at, box.Corners(), within, from, to, mostHalved)
}

func keys(at func(share float64) Pose, corners [8]Vec, within, from, to float64, deep int) []float64 {
	if deep == 0 || !strays(at, corners, within, from, to) {
		return []float64{to}
	}
	mid := (from + to) / 2
	return append(keys(at, corners, within, from, mid, deep-1), keys(at, corners, within, mid, to, deep-1)...)
}

func strays(at func(share float64) Pose, corners [8]Vec, within, from, to float64) bool {
	a, b := at(from), at(to)
	for _, q := range [3]float64{0.25, 0.5, 0.75} {
		straight, there := Between(a, b, q), at(from+q*(to-from))
		for _, v := range corners {
			if !(straight.Apply(v).Sub(there.Apply(v)).Len() <= within) {
				return true
			}
		}
	}
	return false
}
