package sweep

import (
	"cmp"
	"math"
	"slices"
	"testing"
	"time"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// byCheck is the least gap of each motion of a scene and the least over its contacts,
// asked for in the way of clearance/measure where a verdict is wanted: part by part, the
// nearest by its box first, each only while it is not proved to stay farther than the
// least so far.
func byCheck(tasks [][]task, standing map[*gap.Solid]swept) (free []Bracket, touch float64) {
	touch = math.Inf(1)
	for _, list := range tasks {
		free = append(free, leastByCheck(list, standing))
		for i := range list {
			if t := &list[i]; len(t.mates) > 0 && !Clears(t.piece, Ground, t.part, t.mates, 0, 1, touch) {
				touch = math.Min(touch, Least(t.piece, Ground, t.part, t.mates, 0, 1, Options{}).Lower)
			}
		}
	}
	return free, touch
}

// leastByCheck is the least gap over one motion. Boxes of what stands are made once.
func leastByCheck(list []task, standing map[*gap.Solid]swept) Bracket {
	type candidate struct {
		at     int
		around swept
		low    float64
	}
	order := make([]candidate, len(list))
	var w work
	for i := range list {
		t := &list[i]
		w.reset(t.piece, Ground, t.part, t.free)
		w.t.a.load(&w.cache, t.part, 0, 1)
		order[i] = candidate{i, w.t.a.around(1), math.Inf(1)}
		for _, o := range t.free {
			box := standing[o.Solid]
			order[i].low = math.Min(order[i].low, order[i].around.gap(&box))
		}
	}
	slices.SortStableFunc(order, func(a, b candidate) int { return cmp.Compare(a.low, b.low) })
	best := unknown()
	best.Lower = math.Inf(1)
	var near []Part
	for _, c := range order {
		t, floor := &list[c.at], math.Min(0.3, best.Upper)
		if c.low >= floor {
			break
		}
		near = near[:0]
		for _, o := range t.free {
			if box := standing[o.Solid]; c.around.gap(&box) < floor {
				near = append(near, o)
			}
		}
		if floor < 0.3 && Clears(t.piece, Ground, t.part, near, 0, 1, floor) {
			continue
		}
		b := Least(t.piece, Ground, t.part, near, 0, 1, Options{Cap: 0.3})
		low := math.Min(best.Lower, b.Lower)
		if b.Upper < best.Upper {
			best = b
		}
		best.Lower = low
	}
	return best
}

// standingOf are the boxes of what stands, of all motions.
func standingOf(tasks [][]task) map[*gap.Solid]swept {
	out := map[*gap.Solid]swept{}
	id := geom.Identity()
	for _, list := range tasks {
		for i := range list {
			for _, o := range list[i].free {
				if _, ok := out[o.Solid]; !ok {
					out[o.Solid] = boxAround(o.Solid, &id)
				}
			}
		}
	}
	return out
}

func tasksOf(tb testing.TB, name string) [][]task {
	s := readScene(tb, name)
	out := make([][]task, len(s.pieces))
	for _, t := range s.tasks() {
		out[t.at] = append(out[t.at], t)
	}
	return out
}

func TestPartByPartASceneHasTheMinimaOfAnotherEngine(t *testing.T) {
	for _, name := range []string{"one", "four"} {
		tasks := tasksOf(t, name)
		free, touch := byCheck(tasks, standingOf(tasks))
		for k, mm := range fclMinima(name) {
			holdBracket(t, name, free[k], mm)
		}
		want := slices.Min(contactMinima(name))
		if math.Abs(1e3*touch-want) > 0.11 {
			t.Errorf("%s: contacts %g mm, want %g", name, 1e3*touch, want)
		}
	}
}

// BenchmarkAsCheckAsks: x-trees is its time over that of BenchmarkCertify's search, both
// in turn.
func BenchmarkAsCheckAsks(b *testing.B) {
	for _, name := range []string{"one", "four"} {
		b.Run(name, func(b *testing.B) {
			tasks, j := tasksOf(b, name), sceneJob(b, name)
			holdMinima(quiet{b}, name, j)
			standing := standingOf(tasks)
			var trees, parts time.Duration
			for b.Loop() {
				trees += spent(func() { j.certify(DefaultEpsilon) })
				parts += spent(func() { byCheck(tasks, standing) })
			}
			b.ReportMetric(float64(parts.Nanoseconds())/float64(b.N), "ns/job")
			b.ReportMetric(float64(parts)/float64(trees), "x-trees")
		})
	}
}
