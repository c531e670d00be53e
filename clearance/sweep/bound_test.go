package sweep

import (
	"math"
	"testing"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
	"pgregory.net/rapid"
)

// The plane bound must hold for any plane, good or bad, standing or carried,
// and any interval.
func TestNoPlaneClaimsMoreThanASampledGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := newDice(rapid.Int64().Draw(t, "scene"))
		m := r.tree()
		a := Part{r.Intn(4), r.solid()}
		b := Part{rapid.IntRange(Ground, 3).Draw(t, "other body"), r.solid()}
		s0 := rapid.Float64Range(0, 1).Draw(t, "s0")
		s1 := rapid.Float64Range(s0, 1).Draw(t, "s1")
		var c cache
		c.reset(m, Ground)
		var x stretch
		if !x.load(&c, a, b, s0, s1) {
			t.Fatal("not finite")
		}
		n := gap.FromVec(r.unit())
		normal := func(s float64) gap.XYZ {
			pa, pb := m.Pose(Ground, a.Body, s), m.Pose(Ground, b.Body, s)
			return gap.FromVec(gap.Between(a.Solid, b.Solid, &pa, &pb).N)
		}
		claim := math.Max(x.plane(n), x.plane(normal((s0+s1)/2)))
		claim = math.Max(claim, x.swing(normal(s0), normal(s1)))
		claim = math.Max(claim, x.swing(n, gap.FromVec(n.Vec().Add(r.vec(0.2)).Normalize())))
		for i := range 33 {
			s := s0 + (s1-s0)*float64(i)/32
			if got := At(m, Ground, a, []Part{b}, s); got.Upper < claim {
				t.Fatalf("claimed %.15g, at s = %g it is %.15g", claim, s, got.Upper)
			}
		}
	})
}

func TestASwingingPlaneHoldsAFaceThatTurnsPastAnEdge(t *testing.T) {
	// An 11 m wall panel yaws 1.5 degrees while it rolls 8.6 m past a fin.
	m := tree{
		{parent: Ground, dir: alongX, drive: drive{q1: 8.6}},
		{parent: 0, hinge: true, dir: geom.Vec{0, 0, 1}, drive: drive{q1: 1.5 * math.Pi / 180}},
	}
	a := Part{1, block(-11, 0, -1, 0, 0, 2)}
	b := ground(block(1, 1.003, 0.3, 1, 0, 2))
	const s0, s1 = 0.45, 0.55
	var c cache
	c.reset(m, Ground)
	var x stretch
	x.load(&c, a, b, s0, s1)
	normal := func(s float64) gap.XYZ { return gap.FromVec(At(m, Ground, a, []Part{b}, s).N) }
	least := math.Inf(1)
	for i := range 101 {
		least = math.Min(least, At(m, Ground, a, []Part{b}, s0+(s1-s0)*float64(i)/100).Lower)
	}
	standing, swinging := least-x.plane(normal(0.5)), least-x.swing(normal(s0), normal(s1))
	if standing < 5e-3 || swinging > 1e-3 || swinging < 0 {
		t.Errorf("a standing plane loses %g m, a swinging one %g m", standing, swinging)
	}
}

func TestSeparateFindsThePlaneOfAContactThatSwingsOpen(t *testing.T) {
	m := hinge(geom.Vec{0, 0, 3}, alongY, 0.1)
	n, lower, _ := Separate(m, Ground, Part{0, block(-0.1, 0, 0, 1, 0, 3)}, ground(block(0, 0.3, -1, 5, 0, 3)), 0, 1, -1e-9)
	if math.Abs(n[0]-1) > 1e-12 || lower < -1e-12 || lower > 0 {
		t.Errorf("plane %v bounds by %g", n, lower)
	}
}

func TestCurvatureOfAPointNearTheAxisIsNotLostFarAlongIt(t *testing.T) {
	b := geom.Bound{Axis: geom.Vec{3, 4, 12}.Mul(1.0 / 13), Omega: 1}
	across := geom.Vec{4, -3, 0}.Mul(1.0 / 5)
	for _, rho := range []float64{0, 1e-9, 1e-6, 1e-3, 1} {
		p := b.Axis.Mul(1000).Add(across.Mul(rho))
		if got := curvature(&b, gap.FromVec(p)); got < rho || got > rho*(1+1e-11)+1e-11 {
			t.Errorf("rho %g: curvature %g", rho, got)
		}
	}
}

func FuzzLeast(f *testing.F) {
	f.Add(int64(1), 0.0, 1.0, 1e-4)
	f.Add(int64(2), 0.25, 0.26, 1e-5)
	f.Add(int64(-20), 0.0125, 0.78, 1e-5)
	f.Fuzz(func(t *testing.T, seed int64, s0, s1, epsilon float64) {
		// Two bodies that turn together keep their gap for the whole way; seen
		// from the ground that takes 1/sqrt(epsilon) intervals, more than the
		// search allows below this.
		if !(s0 >= 0 && s0 <= s1 && s1 <= 1 && epsilon >= 1e-5) {
			t.Skip()
		}
		r := newDice(seed)
		m, part := r.tree(), Part{r.Intn(4), r.solid()}
		against := []Part{{Ground, r.solid()}, {r.Intn(4), r.solid()}}
		b := Least(m, Ground, part, against, s0, s1, Options{Epsilon: epsilon})
		if !(b.Upper-b.Lower <= epsilon) {
			t.Errorf("[%g, %g] wider than %g", b.Lower, b.Upper, epsilon)
		}
		for i := range 17 {
			if x := At(m, Ground, part, against, s0+(s1-s0)*float64(i)/16); x.Upper < b.Lower {
				t.Errorf("sampled %.15g below the proved %.15g", x.Upper, b.Lower)
			}
		}
	})
}
