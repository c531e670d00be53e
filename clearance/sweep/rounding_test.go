package sweep

import (
	"math"
	"math/big"
	"testing"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// digits is the precision, in bits, that counts as exact beside float64's 53.
const digits = 240

func exact(x float64) *big.Float { return new(big.Float).SetPrec(digits).SetFloat64(x) }

func plus(a, b *big.Float) *big.Float  { return new(big.Float).SetPrec(digits).Add(a, b) }
func minus(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(digits).Sub(a, b) }
func times(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(digits).Mul(a, b) }

// turnOf is sine and cosine of an angle of a few radians, by their series.
func turnOf(angle float64) (sine, cosine *big.Float) {
	sum := [2]*big.Float{exact(1), exact(0)} // cosine, sine
	term := exact(1)
	for n := 1; n < 80; n++ {
		term = new(big.Float).SetPrec(digits).Quo(times(term, exact(angle)), exact(float64(n)))
		signed := term
		if n%4 >= 2 {
			signed = minus(exact(0), term)
		}
		sum[n%2] = plus(sum[n%2], signed)
	}
	return sum[1], sum[0]
}

type exactPoint [3]*big.Float

func exactOf(v geom.Vec) exactPoint { return exactPoint{exact(v[0]), exact(v[1]), exact(v[2])} }

func (p exactPoint) dot(q exactPoint) *big.Float {
	return plus(plus(times(p[0], q[0]), times(p[1], q[1])), times(p[2], q[2]))
}

// turned about the line through pin along k (Rodrigues).
func (p exactPoint) turned(pin, k exactPoint, sine, cosine *big.Float) exactPoint {
	var r, out exactPoint
	for i := range r {
		r[i] = minus(p[i], pin[i])
	}
	along := times(k.dot(r), minus(exact(1), cosine))
	for i := range out {
		a, b := (i+1)%3, (i+2)%3
		cross := minus(times(k[a], r[b]), times(k[b], r[a]))
		out[i] = plus(plus(times(r[i], cosine), times(cross, sine)), plus(times(k[i], along), pin[i]))
	}
	return out
}

// exactly is where the chain puts a point of a body at s = 1.
func (t tree) exactly(body int, v geom.Vec) exactPoint {
	p := exactOf(v)
	for ; body != Ground; body = t[body].parent {
		j := t[body]
		if j.hinge {
			sine, cosine := turnOf(j.drive.at(1))
			p = p.turned(exactOf(j.pin), exactOf(j.dir), sine, cosine)
			continue
		}
		for i := range p {
			p[i] = plus(p[i], times(exact(j.dir[i]), exact(j.drive.at(1))))
		}
	}
	return p
}

// separation along n at s = 1, exactly.
func (t tree) separation(a, b Part, n gap.XYZ) *big.Float {
	nn := exactOf(n.Vec())
	height := func(p Part, sign float64) *big.Float {
		var least *big.Float
		for _, v := range p.Solid.Vertices() {
			h := times(exact(sign), nn.dot(t.exactly(p.Body, v.Vec())))
			if least == nil || h.Cmp(least) < 0 {
				least = h
			}
		}
		return least
	}
	return plus(height(b, 1), height(a, -1))
}

// chainOf n joints on each of two sides, hinges mostly, with arms of the given
// length. Turns are anyhow; axes and pins have no round numbers.
func (r dice) chainOf(n int, arm float64) tree {
	var t tree
	for i := range 2 * n {
		parent := i - 2
		if i < 2 {
			parent = Ground
		}
		t = append(t, joint{parent: parent, hinge: r.Intn(4) > 0, pin: r.vec(arm / 2), dir: r.unit(), drive: drive{q1: 3 * r.NormFloat64()}})
	}
	return t
}

// A pose a kilometre out, chains of up to five joints, and planes along which
// large lengths cancel: the plane bound's rounding against arithmetic of 240
// bits, as a share of E. E must cover all of it; the worst share says how much
// it is more than needed.
func TestRoundingAllowedForCoversTheWorstFound(t *testing.T) {
	r := newDice(31)
	worst, at := 0.0, ""
	for k := range 300 {
		joints := 1 + k%5
		arm := []float64{1, 30, 1000}[k/5%3]
		m := r.chainOf(joints, arm)
		a, b := Part{2*joints - 2, r.solid()}, Part{2*joints - 1, r.solid()}
		if k%4 == 0 {
			b.Body = Ground
		}
		n := gap.FromVec(r.unit())
		if k%2 == 0 { // across the line between the two: what is left is small
			d := m.Pose(Ground, a.Body, 1).T
			n = gap.FromVec(d.Cross(r.unit()).Normalize())
		}
		var c cache
		c.reset(m, Ground)
		var x stretch
		if !x.load(&c, a, b, 1, 1, joints) {
			t.Fatal("not finite")
		}
		off, _ := minus(exact(x.plane(n)), minus(m.separation(a, b, n), exact(x.e))).Float64()
		share := math.Abs(off) / x.e
		if off > x.e {
			t.Errorf("%d joints, arms of %g m: claims %.3g m more than is there", joints, arm, off-x.e)
		}
		if share > worst {
			worst = share
			at = []string{"near", "30 m", "1 km"}[k/5%3]
		}
	}
	t.Logf("worst share of E: %.3f (%s)", worst, at)
	if worst > 0.5 || worst < 1e-3 {
		t.Errorf("worst share of E is %.3g", worst)
	}
}

func TestNoFinOrWireAnywhereInAnyMotionIsMissed(t *testing.T) {
	r := newDice(32)
	for k := range 3000 {
		m := r.tree()
		part := Part{r.Intn(4), r.solid()}
		// Through a point of the part, where it is at some time.
		s := r.Float64()
		vs := part.Solid.Vertices()
		inside := m.Pose(Ground, part.Body, s).Apply(vs[0].Add(vs[len(vs)-1]).Mul(0.5).Vec())
		thin := geom.Block(geom.Box{Min: geom.Vec{-0.3, -0.2, -0.0015}, Max: geom.Vec{0.3, 0.2, 0.0015}})
		if k%2 == 1 {
			thin = geom.Block(geom.Box{Min: geom.Vec{-1, -0.00025, -0.00025}, Max: geom.Vec{1, 0.00025, 0.00025}})
		}
		thing := ground(solidOf(thin.Moved(geom.Translation(inside).Mul(geom.Rotation(geom.Vec{}, r.unit(), 3*r.Float64())))))
		there := At(m, Ground, part, []Part{thing}, s)
		if there.Upper > 1e-9 {
			t.Fatalf("motion %d: no contact where it was put: %g", k, there.Upper)
		}
		b := Least(m, Ground, part, []Part{thing}, 0, 1, Options{})
		if b.Lower > there.Upper || b.Upper > there.Upper+DefaultEpsilon {
			t.Errorf("motion %d: [%g, %g], but %g at s = %g", k, b.Lower, b.Upper, there.Upper, s)
		}
		lo, _, _ := First(m, Ground, part, thing, 0, 1, -1e-8, 1e-5)
		if lo > s {
			t.Errorf("motion %d: clear is said up to %g, but %g is left at %g", k, lo, there.Upper, s)
		}
	}
}
