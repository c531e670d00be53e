package sweep

import (
	"math"
	"math/rand"
	"testing"

	"boxwalk/model/geom"
)

// scattered are parts drawn by lot for bodies 0 and 1 of a motion, and for the ground.
func scattered(r *rand.Rand) (moving, standing []Member) {
	box := func(body, n int, y float64) Member {
		x, z := 6*r.Float64(), 3*r.Float64()
		w := [3]float64{0.1 + r.Float64(), 0.1 + 0.3*r.Float64(), 0.1 + r.Float64()}
		return Member{Part{body, block(x, x+w[0], y, y+w[1], z, z+w[2])}, n}
	}
	for n := range 20 {
		moving = append(moving, box(n%2, n, 0.5*r.Float64()))
	}
	for n := range 12 {
		standing = append(standing, box(Ground, n, 1+0.5*r.Float64()))
	}
	return moving, standing
}

// Whoever is left out stays farther away than counts, and than is told; the least that is
// told is that of a pair.
func TestWhoDoesNotContendStaysFartherAwayThanCounts(t *testing.T) {
	left, kept := 0, 0
	var c Contest
	for seed := range int64(60) {
		r := rand.New(rand.NewSource(seed))
		moving, standing := scattered(r)
		var m Motion = tree{
			{parent: Ground, dir: alongX, drive: drive{q1: 0.5 * r.Float64()}},
			{parent: 0, hinge: true, dir: alongX, drive: drive{q0: 0.1 * r.Float64(), q1: 0.4 * r.Float64()}},
		}
		takes := make([]float64, len(moving))
		for i := range takes {
			takes[i] = 0.1 * r.Float64()
		}
		o := Terms{Takes: takes, Beyond: [2]float64{1e-4, -1e-4}[seed%2], Best: math.Inf(1), Cap: [2]float64{0, 0.3}[seed/2%2],
			Skip: func(a, b int) bool { return (a+b)%7 == 0 }}
		c.Set(m, Ground, TreesOf(moving), 0, 1)
		found := c.Against(TreesOf(standing), o)
		contends := map[[2]int]bool{}
		for _, x := range found.List {
			contends[[2]int{x.Part, x.Other}] = true
		}
		least := math.Inf(1)
		for _, a := range moving {
			for _, b := range standing {
				if o.Skip(a.Number, b.Number) {
					continue
				}
				v := Least(m, Ground, a.Part, []Part{b.Part}, 0, 1, Options{Epsilon: 1e-7})
				least = math.Min(least, v.Upper)
				floor := found.Best + takes[a.Number] + o.Beyond
				if o.Cap > 0 {
					floor = math.Min(floor, o.Cap)
				}
				switch contends[[2]int{a.Number, b.Number}] {
				case true:
					kept++
				default:
					left++
					if v.Upper < floor || v.Upper < found.Settled {
						t.Fatalf("seed %d: %d and %d stay %g apart and do not contend; %g counts, %g is told", seed, a.Number, b.Number, v.Upper, floor, found.Settled)
					}
				}
			}
		}
		if found.Best < least-1e-7 {
			t.Fatalf("seed %d: the least is told to be at most %g, it is %g", seed, found.Best, least)
		}
	}
	if left < 1000 || kept < 100 {
		t.Errorf("%d left out, %d contend", left, kept)
	}
}

// A best that is given stays, and whatever comes nearer contends.
func TestABestThatIsGivenIsKept(t *testing.T) {
	var c Contest
	c.Set(slide(geom.Vec{0, 0.2, 0}), Ground, TreesOf([]Member{{Part{0, block(0, 1, 0, 0.5, 0, 1)}, 3}}), 0, 1)
	wall := TreesOf([]Member{{ground(block(0, 1, 1, 2, 0, 1)), 8}})
	for _, x := range []struct {
		best float64
		want int
	}{{0.299, 0}, {0.301, 1}} {
		found := c.Against(wall, Terms{Best: x.best, Given: true})
		if len(found.List) != x.want || found.Best != x.best {
			t.Errorf("within %g of a wall at 0.3: %d contend, the best is told to be %g", x.best, len(found.List), found.Best)
		}
	}
}

// nowhere is a motion that gives no numbers.
type nowhere struct{ Motion }

func (nowhere) Pose(ref, body int, s float64) geom.Pose {
	return geom.Translation(geom.Vec{math.NaN()})
}

func TestWhatMovesByNoNumbersContends(t *testing.T) {
	var c Contest
	for _, away := range []float64{0, 1000} {
		c.Set(nowhere{slide(geom.Vec{0, 0.2, 0})}, Ground, TreesOf([]Member{{Part{0, block(0, 1, 0, 0.5, 0, 1)}, 0}}), 0, 1)
		found := c.Against(TreesOf([]Member{{ground(block(away, away+1, 1, 2, 0, 1)), 0}}), Terms{Best: 0.1})
		if len(found.List) != 1 || !math.IsInf(found.List[0].Low, -1) {
			t.Errorf("%g away: %v", away, found.List)
		}
	}
}
