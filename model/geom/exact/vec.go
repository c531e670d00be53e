package exact

import "boxwalk/model/geom"

// Vec is a point or a direction.
type Vec [3]Number

// OfVec is v itself.
func OfVec(v geom.Vec) Vec { return Vec{Of(v[0]), Of(v[1]), Of(v[2])} }

// Add is v + w.
func (v Vec) Add(w Vec) Vec { return Vec{v[0].Add(w[0]), v[1].Add(w[1]), v[2].Add(w[2])} }

// Sub is v - w.
func (v Vec) Sub(w Vec) Vec { return Vec{v[0].Sub(w[0]), v[1].Sub(w[1]), v[2].Sub(w[2])} }

// Times is v k.
func (v Vec) Times(k Number) Vec { return Vec{v[0].Mul(k), v[1].Mul(k), v[2].Mul(k)} }

// Dot is v.w.
func (v Vec) Dot(w Vec) Number { return v[0].Mul(w[0]).Add(v[1].Mul(w[1])).Add(v[2].Mul(w[2])) }

// Cross is v x w.
func (v Vec) Cross(w Vec) Vec {
	var out Vec
	for i := range out {
		a, b := (i+1)%3, (i+2)%3
		out[i] = v[a].Mul(w[b]).Sub(v[b].Mul(w[a]))
	}
	return out
}

// Len is the length of v.
func (v Vec) Len() Number { return v.Dot(v).Sqrt() }

// Unit is v of length one.
func (v Vec) Unit() Vec { return v.Times(Of(1).Quo(v.Len())) }

// Turned is the point v turned about the line through pin along the unit k, right
// hand, by an angle of that sine and cosine (Rodrigues).
func (v Vec) Turned(pin, k Vec, sine, cosine Number) Vec {
	r := v.Sub(pin)
	along := k.Times(k.Dot(r).Mul(Of(1).Sub(cosine)))
	return r.Times(cosine).Add(k.Cross(r).Times(sine)).Add(along).Add(pin)
}

// Float is the nearest point in float64.
func (v Vec) Float() geom.Vec { return geom.Vec{v[0].Float(), v[1].Float(), v[2].Float()} }
