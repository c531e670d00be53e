package sweep

import (
	"math"
	"math/rand"
	"reflect"
	"sync"
	"testing"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// dice makes random solids and motions from a fixed seed.
type dice struct{ *rand.Rand }

func newDice(seed int64) dice { return dice{rand.New(rand.NewSource(seed))} }

func (r dice) vec(scale float64) geom.Vec {
	return geom.Vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.Mul(scale)
}

func (r dice) unit() geom.Vec { return r.vec(1).Normalize() }

// solid is a box, a thin plate, a wire, a drum or a skew prism, anyhow turned.
func (r dice) solid() *gap.Solid {
	h := func(scale float64) float64 { return scale * (0.1 + r.Float64()) }
	var s *geom.Solid
	box := func(x, y, z float64) *geom.Solid {
		return geom.Block(geom.Box{Min: geom.Vec{-x, -y, -z}, Max: geom.Vec{x, y, z}})
	}
	switch r.Intn(5) {
	case 0:
		s = box(h(1), h(1), h(1))
	case 1:
		s = box(h(1), h(2), 0.0015)
	case 2:
		s = box(h(3), 0.00025, 0.00025)
	case 3:
		s = geom.Drum(0, 0, h(0.5), -h(0.2), h(0.2), 3+r.Intn(30))
	default:
		s = geom.SkewPrism([]geom.Point2{{0, 0}, {h(1), 0}, {0, h(1)}},
			geom.End{X: 0, Slope: r.NormFloat64()}, geom.End{X: 3 + h(1), Slope: r.NormFloat64() / 2})
	}
	return gap.New(s.Moved(geom.Rotation(geom.Vec{}, r.unit(), 3*r.Float64())).Moved(geom.Translation(r.vec(1.5))))
}

// tree of bodies: 0 and 1 hang on the ground or in a chain of one or two
// joints of any kind.
func (r dice) tree() tree {
	t := make(tree, 4)
	parallel := r.unit()
	for i := range t {
		t[i] = joint{parent: Ground, hinge: r.Intn(3) > 0, pin: r.vec(1), dir: r.unit(),
			drive: drive{r.NormFloat64() / 3, r.turn(), r.turn() / 2}}
		if i >= 2 {
			t[i].parent = i - 2
		}
		if r.Intn(2) == 0 && t[i].hinge {
			t[i].dir = parallel
		}
	}
	return t
}

func (r dice) turn() float64 {
	return []float64{0, 0.026, 0.3, 1.5}[r.Intn(4)] * r.NormFloat64()
}

func TestNoSampledGapIsBelowTheCertifiedOne(t *testing.T) {
	r := newDice(11)
	wide, overlaps := 0, 0
	for k := range 2000 {
		m := r.tree()
		part := Part{r.Intn(4), r.solid()}
		against := []Part{{Ground, r.solid()}, {r.Intn(4), r.solid()}, {r.Intn(4), r.solid()}}
		s0 := r.Float64() / 2
		s1 := s0 + (1-s0)*r.Float64()
		epsilon := []float64{1e-3, 1e-4}[k%2]
		b := Least(m, Ground, part, against, s0, s1, Options{Epsilon: epsilon})
		if b.Upper-b.Lower > epsilon {
			wide++
			t.Logf("motion %d: [%g, %g] wider than %g", k, b.Lower, b.Upper, epsilon)
		}
		if b.Upper < 0 {
			overlaps++
		}
		sampled := math.Inf(1)
		for i := range 41 {
			s := s0 + (s1-s0)*float64(i)/40
			sampled = math.Min(sampled, At(m, Ground, part, against, s).Upper)
		}
		if sampled < b.Lower {
			t.Errorf("motion %d: sampled %.12g below the proved %.12g", k, sampled, b.Lower)
		}
		named := against[b.Against : b.Against+1]
		if at := At(m, Ground, part, named, b.At); math.Abs(at.Upper-b.Upper) > 1e-9 {
			t.Errorf("motion %d: %.12g at s = %g, bracket says %.12g", k, at.Upper, b.At, b.Upper)
		}
	}
	t.Logf("%d overlaps, %d wide", overlaps, wide)
	if overlaps < 200 || wide > 0 {
		t.Errorf("%d overlaps, %d brackets too wide", overlaps, wide)
	}
}

func TestManyGoroutinesGiveTheSameBitsAsOne(t *testing.T) {
	type task struct {
		m       tree
		part    Part
		against []Part
	}
	r := newDice(5)
	var tasks []task
	for range 60 {
		tasks = append(tasks, task{r.tree(), Part{0, r.solid()}, []Part{{1, r.solid()}, {Ground, r.solid()}, {2, r.solid()}}})
	}
	run := func(i int) Bracket {
		x := tasks[i]
		return Least(x.m, Ground, x.part, x.against, 0, 1, Options{})
	}
	var want []Bracket
	for i := range tasks {
		want = append(want, run(i))
	}
	got := make([]Bracket, len(tasks))
	var group sync.WaitGroup
	for g := range 8 {
		group.Go(func() {
			for i := len(tasks) - 1 - g; i >= 0; i -= 8 {
				got[i] = run(i)
			}
		})
	}
	group.Wait()
	if !reflect.DeepEqual(got, want) {
		t.Error("brackets differ")
	}
}
