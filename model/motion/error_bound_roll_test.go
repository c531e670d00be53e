package motion

import (
	"math"
	"math/rand"
	"testing"

	"boxwalk/model/geom"
	"boxwalk/model/geom/exact"
)

func number(x float64) exact.Number { return exact.Of(x) }

// offBy is how far a pose takes v from where it belongs.
func offBy(pose geom.Pose, v geom.Vec, belongs exact.Vec) float64 {
	there := exact.OfVec(pose.T)
	for i := range v {
		there = there.Add(exact.OfVec(pose.R.Col(i)).Times(number(v[i])))
	}
	return there.Sub(belongs).Len().Float()
}

// exactSpan is one plane and straight of the ground.
type exactSpan struct {
	at, along, left exact.Vec
	slope           exact.Vec
	height          exact.Number // over the origin
}

func spanOf(k span) exactSpan {
	sin, cos := exact.Turn(number(k.heading))
	zero := number(0)
	x := exactSpan{at: exact.Vec{number(k.at[0]), number(k.at[1]), zero}, along: exact.Vec{cos, sin, zero}, left: exact.Vec{zero.Sub(sin), cos, zero}}
	x.slope = x.along.Times(number(k.grade))
	x.height = number(k.height).Sub(x.slope.Dot(x.at))
	return x
}

// belongs is where a point of the body goes at s: e on two planes and of length
// one, in the level frame, by Cramer's rule.
func (d *Glide) belongs(s float64, v geom.Vec) exact.Vec {
	zero, one := number(0), number(1)
	rear, front := spanOf(d.g.course[d.on.rear]), spanOf(d.g.course[d.on.front])
	low, high := spanOf(d.g.planes[d.on.lowOn]), spanOf(d.g.planes[d.on.highOn])
	high.height = high.height.Add(number(d.on.hang))
	c := d.g.carriage
	lever := func(wheel int) exact.Number { return number(c.Wheels[wheel]).Sub(number(c.Rear)) }
	al, ah := lever(d.on.low), lever(d.on.high)
	t := number(d.from).Add(number(d.to).Sub(number(d.from)).Mul(number(s)))
	p := rear.at.Add(rear.along.Times(t))
	base, wide := number(c.Front).Sub(number(c.Rear)), ah.Sub(al)
	a := front.left
	b := high.slope.Times(ah.Quo(wide)).Sub(low.slope.Times(al.Quo(wide))).Sub(exact.Vec{zero, zero, one})
	ra := a.Dot(front.at.Sub(p)).Quo(base)
	rb := low.height.Sub(high.height).Add(low.slope.Sub(high.slope).Dot(p)).Quo(wide)
	k := a.Cross(b)
	m := b.Times(ra).Sub(a.Times(rb)).Cross(k).Times(one.Quo(k.Dot(k)))
	root := one.Sub(m.Dot(m)).Sqrt()
	if k.Dot(front.along).Less(zero) {
		root = zero.Sub(root)
	}
	e := m.Add(k.Unit().Times(root))
	left := exact.Vec{zero.Sub(e[1]), e[0], zero}.Unit()
	up := e.Cross(left)
	from := exact.OfVec(v).Sub(exact.OfVec(c.anchor()))
	ground := p.Add(e.Times(al))
	ground[2] = zero
	p[2] = low.height.Add(low.slope.Dot(ground)).Sub(al.Mul(e[2]))
	at := p.Add(e.Times(from[0])).Add(left.Times(from[1])).Add(up.Times(from[2]))
	out := exact.OfVec(d.g.fromLevel.T)
	for i := range at {
		out = out.Add(exact.OfVec(d.g.fromLevel.R.Col(i)).Times(at[i]))
	}
	return out
}

// overBreaks is a carriage on three or four wheel lines on a way with two joints
// that bend, break and step, far out.
func overBreaks(t *testing.T, r dice, far float64) *Ride {
	t.Helper()
	bend := func(at float64) TrackJoint {
		return TrackJoint{At: far + at, Turn: 0.02 * r.NormFloat64(), Grade: 0.02 * r.NormFloat64(), Step: 0.005 * r.NormFloat64()}
	}
	track, err := NewTrack(0.01*r.NormFloat64(), []TrackJoint{bend(2 * r.Float64()), bend(5 + r.Float64())})
	if err != nil {
		t.Fatal(err)
	}
	c := Carriage{Rear: 1, Front: 6, Wheels: []float64{1, 3.5, 6}, Radius: 0.125, Centre: 3.2 + 0.6*r.Float64(), Uncertain: 0.4}
	out, err := NewRide(track, c, far-8, far+8, geom.Rotation(geom.Vec{}, geom.Vec{0, 1, 0}, 0.01).Mul(geom.Translation(r.vec(1))))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestNoPoseOfARideIsFartherOffThanItsErrorBound(t *testing.T) {
	r := dice{rand.New(rand.NewSource(10))}
	worst, tips := 0.0, 0
	hold := func(m Stretch, s float64, v geom.Vec, belongs exact.Vec) {
		off := offBy(m.Pose(Ground, 0, s), v, belongs)
		share := off / m.ErrorBound(Ground, 0, s).At(v.Len())
		if worst = math.Max(worst, share); share > 1 {
			t.Errorf("off by %g m, %.2g of the error bound", off, share)
		}
	}
	for k := range 30 {
		for _, w := range overBreaks(t, r, []float64{10, 300, 2000}[k%3]).Ways {
			for i, x := range w.Stretches {
				v := r.vec(3)
				if d, ok := x.(*Glide); ok {
					s := r.Float64()
					hold(d, s, v, d.belongs(s, v))
					continue
				}
				tips++
				hold(x, 0, v, w.Stretches[i-1].(*Glide).belongs(1, v))
				hold(x, 1, v, w.Stretches[i+1].(*Glide).belongs(0, v))
			}
		}
	}
	t.Logf("%.3f of the error bound, %d tips", worst, tips)
	if worst < 1e-3 || tips == 0 {
		t.Errorf("%.2g of the error bound is all that is seen, %d tips", worst, tips)
	}
}
