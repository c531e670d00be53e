package gap

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"boxwalk/model/geom"
)

// stand is how a pair made at the origin in metres is put before the query: its
// size, and where both solids go.
type stand struct {
	scale float64
	pose  geom.Pose
	name  string
}

// stands go through sizes from a tenth of a millimetre to ten kilometres, near
// the origin and a kilometre from it, anyhow turned.
func stands(r *rand.Rand, i int) stand {
	scale := []float64{1, 1e-4, 1e4}[i%3]
	axis := geom.Vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.Normalize()
	s := stand{scale, geom.Rotation(geom.Vec{}, axis, 3*r.Float64()), fmt.Sprintf("size %g", scale)}
	if i/3%2 == 1 {
		s.pose = geom.Translation(geom.Vec{600, -700, 388}).Mul(s.pose)
		s.name += ", 1 km out"
	}
	return s
}

// scaled is the solid with all lengths multiplied by a power of ten.
func scaled(s *geom.Solid, by float64) *geom.Solid {
	out := &geom.Solid{Faces: s.Faces}
	for _, v := range s.Vertices {
		out.Vertices = append(out.Vertices, v.Mul(by))
	}
	return out
}

// known is a pair whose signed distance follows from how it was made.
type known struct {
	kind string
	a, b *geom.Solid
	want float64
}

// worstOf is the largest error of a kind, as a share of what is allowed.
type worstOf map[string]float64

// hold measures the pair in both orders. Allowed: the goal for distances, 1e-12
// m and 32u of the largest coordinate; depth 1e-9 m and the same. Two thirds of
// it at the most are left to the query: placing the solids costs the rest.
func (w worstOf) hold(t *testing.T, k known, at stand) {
	t.Helper()
	a, b := New(scaled(k.a, at.scale)), New(scaled(k.b, at.scale))
	want := k.want * at.scale
	coordinate := a.Reach() + b.Reach() + at.pose.T.Len()
	allowed := 1e-12 + 32*epsilon*coordinate
	for order, q := range []Result{gapOf(a, b, at.pose, at.pose), gapOf(b, a, at.pose, at.pose)} {
		off := math.Abs(q.Distance - want)
		if !(off <= allowed) || !(off <= q.Slack+8*epsilon*coordinate) {
			t.Errorf("%s, %s, order %d: %.17g (slack %.2g), want %.17g", k.kind, at.name, order, q.Distance, q.Slack, want)
		}
		w[k.kind] = math.Max(w[k.kind], off/allowed)
	}
}

// aligned is a box, corner to corner.
type aligned struct{ lo, hi [3]float64 }

func (x aligned) solid() *geom.Solid {
	return blockOf(x.lo[0], x.hi[0], x.lo[1], x.hi[1], x.lo[2], x.hi[2])
}

// between is the signed distance of two boxes along the same axes: their
// difference is a box too.
func (x aligned) between(y aligned) float64 {
	sum, most := 0.0, math.Inf(-1)
	for k := range 3 {
		g := math.Max(x.lo[k]-y.hi[k], y.lo[k]-x.hi[k])
		most = math.Max(most, g)
		sum += math.Max(0, g) * math.Max(0, g)
	}
	if most > 0 {
		return math.Sqrt(sum)
	}
	return most
}

func randomBox(r *rand.Rand, at, side func() float64) aligned {
	var x aligned
	for k := range 3 {
		x.lo[k] = at()
		x.hi[k] = x.lo[k] + side()
	}
	return x
}

func TestFiveThousandRandomPairsHaveTheGapTheyWereMadeWith(t *testing.T) {
	r := rand.New(rand.NewSource(101))
	w := worstOf{}
	for i := range 3000 {
		side := func() float64 { return 0.02 + r.Float64() }
		at := func() float64 { return 1.2 * r.NormFloat64() }
		a, b := randomBox(r, at, side), randomBox(r, at, side)
		kind := "boxes apart"
		if a.between(b) < 0 {
			kind = "boxes overlapping"
		}
		w.hold(t, known{kind, a.solid(), b.solid(), a.between(b)}, stands(r, i))
	}
	for i := range 3000 {
		a, b := anySolid(r), anySolid(r)
		n := geom.Vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.Normalize()
		gap := math.Pow(10, -9+10*r.Float64())
		w.hold(t, known{"vertex to vertex", a, b.Moved(bySupport(New(a), New(b), n, gap)), gap}, stands(r, i))
	}
	t.Logf("worst share of what is allowed: %v", w)
}

// degenerate makes one of the pairs that break distance queries.
func degenerate(r *rand.Rand, i int) known {
	u := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	unit := aligned{[3]float64{0, 0, 0}, [3]float64{1, 1, 1}}
	tenth := math.Pow(10, -u(1, 12))
	switch i % 9 {
	case 0: // the second stands on the first, over all or part of its face
		b := aligned{[3]float64{u(-0.9, 0.9), u(-0.9, 0.9), 1}, [3]float64{1 + r.Float64(), 1 + r.Float64(), 2}}
		return known{"touching faces", unit.solid(), b.solid(), 0}
	case 1: // edges run along each other
		turned := func(z float64) *geom.Solid {
			return blockOf(-0.1, 0.1, u(-2, 0), u(0, 2), -0.1, 0.1).Moved(geom.Translation(geom.Vec{0, 0, z}).Mul(geom.Rotation(geom.Vec{}, geom.Vec{0, 1, 0}, math.Pi/4)))
		}
		return known{"parallel edges", turned(0), turned(0.2*math.Sqrt2 + tenth), tenth}
	case 2: // a feather edge of nanometres to millimetres, flat over a face
		thin := math.Pow(10, -u(3, 9))
		wedge := geom.Prism([]geom.Point2{{0, 0}, {1, 0}, {1, thin}}, -6, 6)
		floor := blockOf(-7, 7, -1, 2, -1, -tenth)
		return known{"sliver", wedge, floor, tenth}
	case 3: // one inside the other
		b := randomBox(r, func() float64 { return u(0.1, 0.5) }, func() float64 { return u(0.01, 0.4) })
		return known{"nested", unit.solid(), b.solid(), unit.between(b)}
	case 4: // five metres of a hair against a box
		b := aligned{[3]float64{-2.5, u(-1, 2), u(-1, 2)}, [3]float64{2.5, 0, 0}}
		b.hi[1], b.hi[2] = b.lo[1]+1e-5, b.lo[2]+1e-5
		return known{"needle", unit.solid(), b.solid(), unit.between(b)}
	case 5: // the same solid twice
		x := randomBox(r, r.NormFloat64, func() float64 { return u(0.01, 1) })
		return known{"coincident", x.solid(), x.solid(), x.between(x)}
	case 6: // a corner, an edge or a face beside another, at nothing at all
		b := unit
		for k := range 1 + r.Intn(3) {
			b.lo[k], b.hi[k] = 1, 1+u(0.1, 1)
		}
		return known{"corner on corner", unit.solid(), b.solid(), 0}
	case 7: // faces a little apart or a little into each other
		b := aligned{[3]float64{1 + tenth*float64(1-2*r.Intn(2)), u(-0.9, 0.9), u(-0.9, 0.9)}, [3]float64{3, 1.5, 1.5}}
		return known{"near faces", unit.solid(), b.solid(), unit.between(b)}
	default: // hairs side by side
		a := aligned{[3]float64{-3, 0, 0}, [3]float64{3, 1e-5, 1e-5}}
		b := aligned{[3]float64{u(-3, 0), u(-1e-5, 1e-5), 1e-5 + tenth}, [3]float64{3, 3e-5, 2e-5 + tenth}}
		return known{"needle on needle", a.solid(), b.solid(), a.between(b)}
	}
}

func TestThousandsOfDegeneratePairsHaveTheGapTheyWereMadeWith(t *testing.T) {
	r := rand.New(rand.NewSource(102))
	w := worstOf{}
	for i := range 2700 {
		k := degenerate(r, i)
		at := stands(r, i/9)
		w.hold(t, k, at)
	}
	t.Logf("worst share of what is allowed: %v", w)
}

// The nearest points of crossed hairs lie in the middle of both: the simplex
// that finds them is thousands of times longer than wide.
func TestGapOfCrossedHairsIsWithinItsSlack(t *testing.T) {
	r := rand.New(rand.NewSource(104))
	for _, thick := range []float64{1e-5, 5e-4} {
		beyond, worst := 0, 0.0
		for range 2000 {
			gap := math.Pow(10, -1-2*r.Float64())
			a := aligned{[3]float64{-3, 0, 0}, [3]float64{3, thick, thick}}
			b := aligned{[3]float64{0, -3, thick + gap}, [3]float64{thick, 3, 2*thick + gap}}
			axis := geom.Vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.Normalize()
			p := geom.Rotation(geom.Vec{}, axis, 3*r.Float64())
			q := gapOf(New(a.solid()), New(b.solid()), p, p)
			off := math.Abs(q.Distance - a.between(b))
			worst = math.Max(worst, off)
			if off > q.Slack+8*epsilon*8 {
				beyond++
			}
		}
		if beyond > 0 || worst > 1e-12 {
			t.Errorf("%g m thick: %d of 2000 off by more than their slack, worst %.2g m", thick, beyond, worst)
		}
	}
}
