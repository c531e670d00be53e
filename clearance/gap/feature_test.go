package gap

import (
	"math"
	"math/rand"
	"testing"

	"boxwalk/model/geom"
)

// placedPair is two random solids apart, and their query.
func placedPair(r *rand.Rand) (q query) {
	pa := geom.Rotation(geom.Vec{}, geom.Vec{0, 0, 1}, r.Float64())
	pb := geom.Translation(geom.Vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.Mul(3))
	q.at[0].ra, q.at[0].rb = &pa.R, &pb.R
	q.between(New(anySolid(r)).sided(), New(anySolid(r)).sided(), &pa.T, &pb.T)
	return q
}

func TestAllPairsOfFeaturesAgreeWithTheIteration(t *testing.T) {
	r := rand.New(rand.NewSource(21))
	apart := 0
	for range 1500 {
		q := placedPair(r)
		var f found
		q.run(&f, q.start(), math.Inf(1))
		if f.touch || f.d < 1e-6 {
			continue
		}
		apart++
		p := relative(&q)
		best := p.faces()
		p.edges(&best)
		got := p.features(best)
		if math.Abs(got.value-f.d) > 1e-12 || got.value-got.sep > 1e-12 {
			t.Errorf("features %.17g (separation %.17g), iteration %.17g", got.value, got.sep, f.d)
		}
		if d := got.pb.Sub(got.pa).Len(); math.Abs(d-got.value) > 1e-12 {
			t.Errorf("witness %v apart, want %v", d, got.value)
		}
	}
	if apart < 500 {
		t.Errorf("only %d pairs apart", apart)
	}
}

func TestAQueryThatRanOutOfTurnsFallsBackToTheExactAnswer(t *testing.T) {
	r := rand.New(rand.NewSource(22))
	for range 500 {
		q := placedPair(r)
		id := geom.Identity()
		var f found
		q.run(&f, q.start(), math.Inf(1))
		want := q.careful(&f, &id)
		stuck := found{d: f.d + 1, low: math.Inf(-1)}
		if got := q.careful(&stuck, &id); math.Abs(got.Distance-want.Distance) > 1e-12 || got.Slack > 2e-12 {
			t.Errorf("%.17g (slack %g), want %.17g", got.Distance, got.Slack, want.Distance)
		}
	}
}
