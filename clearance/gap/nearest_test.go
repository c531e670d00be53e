package gap

import (
	"math"
	"math/rand"
	"testing"

	"boxwalk/model/geom"
)

// told are the two points of Nearest, the second in the frame of the first.
func told(t *testing.T, a, b *Solid, at geom.Pose) (pa, pb geom.Vec) {
	t.Helper()
	id := geom.Identity()
	s := Nearest(a, b, &id, &at)
	var sum float64
	for i := range s.N {
		if !(s.Portion[i] >= 0) {
			t.Fatalf("a share of %g", s.Portion[i])
		}
		sum += s.Portion[i]
		pa = pa.Add(a.vertices[s.A[i]].Vec().Mul(s.Portion[i]))
		pb = pb.Add(at.Apply(b.vertices[s.B[i]].Vec()).Mul(s.Portion[i]))
	}
	if math.Abs(sum-1) > 1e-12 {
		t.Fatalf("shares that add up to %g", sum)
	}
	return pa, pb
}

func TestNearestTellsPointsAsFarApartAsTheSolidsOrOneInBoth(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	overlaps := 0
	for range 4000 {
		a, b := New(anySolid(r)), New(anySolid(r))
		at := geom.Translation(geom.Vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.Mul(0.5))
		d := gapOf(a, b, geom.Identity(), at)
		pa, pb := told(t, a, b, at)
		if off := pb.Sub(pa).Len() - math.Max(0, d.Distance); math.Abs(off) > 1e-10 {
			t.Errorf("the solids are %.12g apart and the points %.12g", d.Distance, pb.Sub(pa).Len())
		}
		if d.Distance < 0 {
			overlaps++
		}
	}
	if overlaps < 300 {
		t.Errorf("only %d overlaps", overlaps)
	}
}

// A small solid on a large one: where they touch is on the small one too.
func TestTouchingSolidsTellAPointOfBoth(t *testing.T) {
	floor := New(blockOf(-3, 30, -2, 2, -0.3, 0))
	for _, c := range []struct {
		small *geom.Solid
		x     float64
	}{{blockOf(0, 0.2, 0, 0.2, 0, 0.02), 7}, {blockOf(0, 0.2, 0, 0.2, 0, 0.02), -2.9}, {geom.Drum(0, 0, 0.125, 0, 0.1, 128), 4}} {
		small := New(c.small)
		_, low := lowest(small.vertices, XYZ{0, 0, 1})
		at := geom.Translation(geom.Vec{c.x, 1, -low})
		box := c.small.Moved(at).Box().Grow(1e-9)
		for _, got := range []Result{gapOf(small, floor, at, geom.Identity()), gapOf(floor, small, geom.Identity(), at)} {
			for _, p := range []geom.Vec{got.A, got.B} {
				if box.Gap(geom.Box{Min: p, Max: p}) > 0 || math.Abs(p[2]) > 1e-12 {
					t.Errorf("at x %g they touch at %v, which is not on the small one", c.x, p)
				}
			}
			if along := got.B.Sub(got.A).Dot(got.N); math.Abs(along-got.Distance) > 1e-14 {
				t.Errorf("the points are %g apart along the normal, the solids %g", along, got.Distance)
			}
		}
	}
}
