package gap

import (
	"math"
	"math/rand"
	"testing"

	"boxwalk/model/geom"
	"pgregory.net/rapid"
)

func blockOf(x0, x1, y0, y1, z0, z1 float64) *geom.Solid {
	return geom.Block(geom.Box{Min: geom.Vec{x0, y0, z0}, Max: geom.Vec{x1, y1, z1}})
}

// near checks both argument orders, the slack, and that the witness points
// and the normal agree with the distance.
func near(t *testing.T, name string, a, b *geom.Solid, pa, pb geom.Pose, want, within float64) {
	t.Helper()
	x, y := New(a), New(b)
	for _, r := range []Result{gapOf(x, y, pa, pb), gapOf(y, x, pb, pa)} {
		if !(math.Abs(r.Distance-want) <= within) || !(math.Abs(r.Distance-want) <= r.Slack+within/8) {
			t.Errorf("%s: %.17g (slack %.2g), want %.17g", name, r.Distance, r.Slack, want)
		}
		if l := r.N.Len(); !(math.Abs(l-1) < 1e-12) {
			t.Errorf("%s: normal of length %v", name, l)
		}
		if d := r.B.Sub(r.A).Dot(r.N); !(math.Abs(d-want) <= within+1e-12) {
			t.Errorf("%s: witness %v apart", name, d)
		}
	}
}

// gapOf is Between at poses that nobody else needs.
func gapOf(a, b *Solid, aPose, bPose geom.Pose) Result { return Between(a, b, &aPose, &bPose) }

func TestGapOfTwoParallelFacesIsTheirSpacing(t *testing.T) {
	for _, gap := range []float64{1e-15, 1e-13, 1e-12, 1e-9, 1e-6, 1e-3, 1, 1e3} {
		near(t, "parallel", blockOf(0, 1, 0, 1, 0, 1), blockOf(1, 2, -3, 0.5, 0.25, 8),
			geom.Identity(), geom.Translation(geom.Vec{gap, 0, 0}), gap, 1e-12*math.Max(1, gap/8))
	}
}

func TestGapOfCrossedEdgesIsTheirCommonPerpendicular(t *testing.T) {
	bar := blockOf(-0.1, 0.1, -1, 1, -0.1, 0.1).Moved(geom.Rotation(geom.Vec{}, geom.Vec{0, 1, 0}, math.Pi/4))
	for _, gap := range []float64{-1e-3, -1e-9, -1e-13, 0, 1e-13, 1e-11, 1e-9, 1e-3, 1} {
		for _, turn := range []float64{math.Pi / 2, 0.3, 1e-3, 1e-6, 1e-9, 1e-12, 0} {
			if gap < -1e-12 && turn < 0.1 {
				continue // the way out is then sideways, along a face's normal
			}
			over := geom.Translation(geom.Vec{0, 0, 0.2*math.Sqrt2 + gap}).Mul(geom.Rotation(geom.Vec{}, geom.Vec{0, 0, 1}, turn))
			near(t, "crossed", bar, bar, geom.Identity(), over, gap, 2e-12)
		}
	}
}

func TestDepthOfNearlyParallelEdgesIsSidewaysAlongTheFace(t *testing.T) {
	bar := blockOf(-0.1, 0.1, -1, 1, -0.1, 0.1).Moved(geom.Rotation(geom.Vec{}, geom.Vec{0, 1, 0}, math.Pi/4))
	for _, depth := range []float64{1e-3, 1e-6} {
		// Turned by a small angle, the end of the edge 1 m out adds its share.
		for _, turn := range []float64{1e-7, 1e-9, 1e-11, 1e-13, 1e-15, 0} {
			over := geom.Translation(geom.Vec{0, 0, 0.2*math.Sqrt2 - depth}).Mul(geom.Rotation(geom.Vec{}, geom.Vec{0, 0, 1}, turn))
			near(t, "sideways", bar, bar, geom.Identity(), over, -(depth+math.Sin(turn))*math.Sqrt2/2, 1e-12)
		}
	}
}

func TestDepthOfABlockInABlockIsTheShortestWayOut(t *testing.T) {
	big := blockOf(-1, 1, -2, 2, -3, 3)
	near(t, "at the centre", big, blockOf(-0.1, 0.1, -0.1, 0.1, -0.1, 0.1), geom.Identity(), geom.Identity(), -1.1, 1e-12)
	near(t, "near a face", big, blockOf(-0.1, 0.1, -0.1, 0.1, 2.5, 2.7), geom.Identity(), geom.Identity(), -0.5, 1e-12)
	near(t, "itself", big, big, geom.Identity(), geom.Identity(), -2, 1e-12)
}

func TestVertexTouchingAVertexEdgeOrFaceIsZeroGiveOrTakeRounding(t *testing.T) {
	cube := blockOf(0, 1, 0, 1, 0, 1)
	tip := geom.Prism([]geom.Point2{{0, 0}, {1, 2}, {2, 1}}, 0, 1).Moved(
		geom.Rotation(geom.Vec{}, geom.Vec{1, 1, 0}.Normalize(), -0.4))
	for name, at := range map[string]geom.Vec{"vertex": {1, 1, 1}, "edge": {1, 0.4, 1}, "face": {0.3, 0.7, 1}} {
		low := tip.Vertices[0]
		for _, v := range tip.Vertices {
			if v[2] < low[2] {
				low = v
			}
		}
		near(t, name, cube, tip, geom.Identity(), geom.Translation(at.Sub(low)), 0, 1e-12)
	}
}

func TestSliversAndDrumsKeepTheirGap(t *testing.T) {
	drum := geom.Drum(0, 0.125, 0.125, -0.05, 0.05, 128)
	floor := blockOf(-40, 40, -3, 3, -0.3, 0)
	feather := geom.Prism([]geom.Point2{{0, 0}, {1, 0}, {1, 1e-5}}, -12, 12)
	id := geom.Identity()
	for _, h := range []float64{-1e-4, 0, 1e-12, 1e-6, 0.02} {
		up := geom.Translation(geom.Vec{1.3, 0, h})
		near(t, "drum on floor", drum, floor, up, id, h, 1e-12)
	}
	near(t, "drum beside drum", drum, drum, id, geom.Translation(geom.Vec{0.25 + 0.003, 0, 0}), 0.003, 1e-12)
	near(t, "drum within drum", drum, drum, id, id, -0.1, 1e-12)
	near(t, "feather over feather", feather, feather, id, geom.Translation(geom.Vec{5, 0, 2e-5}), 2e-5-1e-5, 1e-12)
}

func TestGapAKilometreFromTheOriginIsAsGoodAsNear(t *testing.T) {
	a, b := blockOf(0, 1, 0, 1, 0, 1), blockOf(0, 1, 0, 1, 0, 1)
	far := geom.Vec{1024, -512, 256}
	turn := geom.Rotation(geom.Vec{}, geom.Vec{3, 4, 12}.Mul(1.0/13), 0.7)
	pa := geom.Translation(far).Mul(turn)
	pb := geom.Translation(far).Mul(turn.Mul(geom.Translation(geom.Vec{0.5, 0.25, 1.0625})))
	near(t, "far away", a, b, pa, pb, 0.0625, 32*0x1p-53*1200)
}

func TestTinyAndHugeSolidsKeepTheirGap(t *testing.T) {
	for _, size := range []float64{1e-6, 1e-3, 1, 1e3, 1e6} {
		a, b := blockOf(0, size, 0, size, 0, size), blockOf(1.5*size, 2*size, 0, size, 0, size)
		near(t, "scaled", a, b, geom.Identity(), geom.Identity(), size/2, 1e-12+4*0x1p-53*size)
		near(t, "scaled overlap", a, a, geom.Identity(), geom.Identity(), -size, 1e-12+4*0x1p-53*size)
	}
}

func TestAPoseThatIsNoNumberGivesMinusInfinityNeverNaN(t *testing.T) {
	a := New(blockOf(0, 1, 0, 1, 0, 1))
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		shifted := geom.Translation(geom.Vec{0, bad, 0})
		turned := geom.Identity()
		turned.R[4] = bad
		for _, p := range []geom.Pose{shifted, turned} {
			for _, r := range []Result{gapOf(a, a, p, geom.Identity()), gapOf(a, a, geom.Identity(), p)} {
				if !math.IsInf(r.Distance, -1) || !math.IsInf(r.Slack, 1) {
					t.Errorf("%v: %+v", bad, r)
				}
			}
		}
	}
}

func TestBetweenDoesNotAllocate(t *testing.T) {
	a, b := New(blockOf(0, 1, 0, 1, 0, 1)), New(geom.Drum(0, 0, 1, 0, 1, 64))
	for _, x := range []float64{0, 1, 2, 5} {
		p := geom.Translation(geom.Vec{x, 0, 0})
		if n := testing.AllocsPerRun(10, func() { gapOf(a, b, geom.Identity(), p) }); n != 0 {
			t.Errorf("%v allocations at %v", n, x)
		}
	}
}

// anySolid is a box, plate, wire, wedge or drum, anyhow turned and placed.
func anySolid(r *rand.Rand) *geom.Solid {
	h := func(scale float64) float64 { return scale * (0.05 + r.Float64()) }
	var s *geom.Solid
	switch r.Intn(5) {
	case 0:
		s = blockOf(0, h(1), 0, h(1), 0, h(1))
	case 1:
		s = blockOf(0, h(3), 0, h(3), 0, 0.003)
	case 2:
		s = blockOf(0, h(3), 0, 0.0005, 0, 0.0005)
	case 3:
		s = geom.Prism([]geom.Point2{{0, 0}, {h(1), 0}, {h(1), h(0.01)}}, 0, h(5))
	default:
		s = geom.Drum(0, 0, h(1), 0, h(1), 3+r.Intn(40))
	}
	axis := geom.Vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.Normalize()
	return s.Moved(geom.Rotation(geom.Vec{}, axis, 3*r.Float64()))
}

// bySupport places b so that n separates it from a by gap: sd >= gap follows
// from sep(n), sd <= gap from the two vertices put opposite each other.
func bySupport(a, b *Solid, n geom.Vec, gap float64) geom.Pose {
	k := FromVec(n)
	ia, _ := highest(a.vertices, k)
	ib, _ := lowest(b.vertices, k)
	return geom.Translation(a.vertices[ia].Vec().Sub(b.vertices[ib].Vec()).Add(n.Mul(gap)))
}

func TestVertexFacingVertexAlongAnyNormalIsKnownByConstruction(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for range 4000 {
		a, b := New(anySolid(r)), New(anySolid(r))
		n := geom.Vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.Normalize()
		gap := math.Pow(10, -9+10*r.Float64())
		got := gapOf(a, b, geom.Identity(), bySupport(a, b, n, gap))
		if !(math.Abs(got.Distance-gap) <= 1e-12+32*0x1p-53*(a.Reach()+b.Reach()+gap)) {
			t.Errorf("%.17g, want %.17g (slack %g)", got.Distance, gap, got.Slack)
		}
	}
}

func TestDepthIsTheLargestSeparationOfManyDirectionsAndSeparates(t *testing.T) {
	r := rand.New(rand.NewSource(8))
	overlaps := 0
	for range 1500 {
		a, b := New(anySolid(r)), New(anySolid(r))
		at := geom.Translation(geom.Vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.Mul(0.3))
		got := gapOf(a, b, geom.Identity(), at)
		for range 60 {
			n := geom.Vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.Normalize()
			k := FromVec(n)
			_, top := highest(a.vertices, k)
			_, low := lowest(b.vertices, k)
			if sep := low + n.Dot(at.T) - top; sep > got.Distance+1e-12 {
				t.Fatalf("separation %.15g above the distance %.15g", sep, got.Distance)
			}
		}
		if got.Distance >= 0 {
			continue
		}
		overlaps++
		out := geom.Translation(got.N.Mul(-got.Distance)).Mul(at)
		if d := gapOf(a, b, geom.Identity(), out).Distance; math.Abs(d) > 1e-11 {
			t.Errorf("depth %.15g, but moved out by it %.3g is left", got.Distance, d)
		}
	}
	if overlaps < 150 {
		t.Errorf("only %d overlaps", overlaps)
	}
}

func TestGapDoesNotDependOnOrderOrFrame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewSource(rapid.Int64().Draw(t, "solids")))
		a, b := New(anySolid(r)), New(anySolid(r))
		f := rapid.Float64Range(-2, 2)
		at := geom.Translation(geom.Vec{f.Draw(t, "x"), f.Draw(t, "y"), f.Draw(t, "z")})
		frame := geom.Rotation(geom.Vec{1, 2, 3}, geom.Vec{2, 3, 6}.Mul(1.0/7), f.Draw(t, "turn"))
		one := gapOf(a, b, geom.Identity(), at)
		two := gapOf(b, a, at, geom.Identity())
		three := gapOf(a, b, frame, frame.Mul(at))
		if math.Abs(one.Distance-two.Distance) > 1e-12 || math.Abs(one.Distance-three.Distance) > 3e-12 {
			t.Fatalf("%.17g %.17g %.17g", one.Distance, two.Distance, three.Distance)
		}
	})
}

func TestHullOverEndsIsTheGapOfTheWholeTranslation(t *testing.T) {
	a, b := New(blockOf(0, 1, 0, 1, 0, 1)), New(blockOf(1.03, 2, 5, 6, 1.04, 2))
	id, end := geom.Identity(), geom.Translation(geom.Vec{0, 12, 0})
	h := OverEnds(a, b, &id, &id, &end, &id, XYZ{}, math.Inf(1))
	if h.Touch || math.Abs(h.Low-0.05) > 1e-12 {
		t.Errorf("%+v", h)
	}
	if y := 12 * h.At; y < 4-1e-9 || y > 6+1e-9 {
		t.Errorf("nearest at %v m, want between 4 and 6", y)
	}
	both := OverEnds(a, b, &id, &id, &end, &end, XYZ{}, math.Inf(1))
	if want := gapOf(a, b, id, id).Distance; math.Abs(both.Low-want) > 1e-12 {
		t.Errorf("common motion: %v, want %v", both.Low, want)
	}
}

// FuzzBetween holds the reported bounds against what can be checked without
// trusting the query: sep(N) from below and the witness points from above.
func FuzzBetween(f *testing.F) {
	f.Add(int64(1), 0.0, 0.0, 0.0, 0.0)
	f.Add(int64(2), 1.0, -0.5, 0.1, 1e-9)
	f.Add(int64(3), 1e3, 1e-12, -7.0, 3.0)
	f.Fuzz(func(t *testing.T, seed int64, x, y, z, turn float64) {
		for _, v := range []float64{x, y, z, turn} {
			if !(math.Abs(v) < 1e4) {
				t.Skip()
			}
		}
		r := rand.New(rand.NewSource(seed))
		a, b := New(anySolid(r)), New(anySolid(r))
		at := geom.Translation(geom.Vec{x, y, z}).Mul(geom.Rotation(geom.Vec{}, geom.Vec{0, 0, 1}, turn))
		got := gapOf(a, b, geom.Identity(), at)
		k := FromVec(got.N)
		_, top := highest(a.vertices, k)
		_, low := lowest(b.vertices, TurnBack(&at.R, k))
		sep := low + got.N.Dot(at.T) - top
		tolerance := 1e-12 + 128*epsilon*(a.Reach()+b.Reach()+at.T.Len())
		if !(math.Abs(sep-got.Distance) <= tolerance) || !(got.Slack <= tolerance) {
			t.Errorf("distance %.17g, separation %.17g, slack %g", got.Distance, sep, got.Slack)
		}
	})
}
