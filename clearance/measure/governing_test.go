package measure

import (
	"math"
	"math/rand"
	"testing"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/worked"
	"boxwalk/model/carrier"
	"boxwalk/model/geom"
	"boxwalk/model/motion"

	"pgregory.net/rapid"
)

// direction drawn by lot.
func direction(r *rand.Rand) geom.Vec {
	return geom.Vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.Normalize()
}

// What a box around a body bounds is never less than what is worked out for a part of
// it, whatever the direction of its gap, nor than where its vertices are sampled.
func TestWhatIsTakenOffAPartIsNotMoreThanItsBoxTells(t *testing.T) {
	both := worked.Sequence(worked.FillersOut, "  - {step: both, drivers: {turnbuckle: 620 mm, low brace: 640 mm}}\n", "  - {step: down, drivers: {jack: raised - 40 mm}}\n", worked.ToWheels)
	for gear, jobs := range map[string][][2]string{"roof-halves-24": {both}, "roof-whole-24-jacks": nil} {
		s := worked.Chain{Gear: gear, Jobs: jobs}.Study(t)
		b := Inspect(&s.Bays[0], s.Job, allow.Of(s.Job))
		lagged, leaned := 0, 0
		draw := func(r *rand.Rand) {
			steps, up := b.Steps, r.Intn(2) == 0
			if up {
				steps = b.Raising
			}
			k := r.Intn(len(steps))
			step := steps[k]
			if step.Stop != nil {
				return
			}
			parts := b.Present(step)
			part := parts[r.Intn(len(parts))]
			sc := &scope{Bay: b, passage: &passage{span: make([][2]float64, len(b.Parts))}, path: step.Path, parts: parts, takes: make([]float64, len(b.Parts))}
			sc.lags(step)
			if lag := b.Lag(step, part); lag > sc.takes[part] {
				t.Fatalf("%s: %s is taken to lag by %g at most, and lags by %g", step.Name, b.Carrier.Parts[part].At(), sc.takes[part], lag)
			} else if lag > 0 {
				lagged++
			}
			other := parts[r.Intn(len(parts))]
			if got, most := b.LagBetween(step, part, other), b.lagsBetween(step)(part, other); got > most {
				t.Fatalf("%s: parts are taken to lag by %g at most against each other, and lag by %g", step.Name, most, got)
			}
			l, leans := b.LeanUp(k)
			if !up {
				l, leans = b.LeanDown(k)
			}
			if !leans {
				return
			}
			leaned++
			times := 2 * r.Float64()
			reach, n := sc.reaches(l)(part, times), direction(r)
			o := b.leant(l.scaled(l.Differ*times).Toward(n), step.Path, part, n)
			if o.any+o.Unsure > reach || o.Toward+o.Unsure > reach {
				t.Fatalf("%s: a lean is taken to move %s by %g at most, and moves it by %g", step.Name, b.Carrier.Parts[part].At(), reach, o.any+o.Unsure)
			}
			holdTurned(t, r, b, step, part, l.scaled(l.Differ*times), reach)
		}
		for seed := range int64(300) {
			draw(rand.New(rand.NewSource(seed)))
		}
		if lagged < 5 && jobs != nil || leaned < 5 {
			t.Errorf("%s: %d lagged, %d leaned", gear, lagged, leaned)
		}
	}
}

// holdTurned holds that no vertex goes farther than told when the frame turns by any
// slopes of the lean about the middle, anywhere in the step.
func holdTurned(t *testing.T, r *rand.Rand, b *Bay, step carrier.Step, part int, l Lean, most float64) {
	p := b.Carrier.Parts[part]
	pose := step.Path.Pose(motion.Ground, p.Body, r.Float64())
	a, x := l.Across*(2*r.Float64()-1), l.Along*(2*r.Float64()-1)
	w := geom.Vec{math.Atan(a), math.Atan(x), 0}
	if w.Len() == 0 {
		return
	}
	turned := geom.Rotation(geom.Vec{l.Middle, 0, 0}, w.Normalize(), w.Len())
	for _, v := range p.Vertices {
		at := pose.Apply(v)
		if d := turned.Apply(at).Sub(at).Len(); d > most {
			t.Fatalf("%s: a lean is taken to move %s by %g at most, and moves a vertex by %g", step.Name, p.At(), most, d)
		}
	}
}

func TestWhatTheWayTakesOffIsNotMoreThanBoxesTell(t *testing.T) {
	for _, job := range []string{"bend-at-joint", "quarry-lane"} {
		s := worked.Job(t, job)
		b := Inspect(&s.Bays[0], s.Job, allow.Of(s.Job))
		adv := b.Advance()
		if adv == nil || adv.Stop != nil {
			t.Fatal(job, "does not roll")
		}
		parts := b.presentAfterAll()
		takes := b.rollTakes(adv, parts)
		took := 0
		rapid.Check(t, func(t *rapid.T) {
			r := rand.New(rand.NewSource(rapid.Int64().Draw(t, "seed")))
			p := parts[r.Intn(len(parts))]
			v := Nothing()
			v.Against, v.N = 0, direction(r)
			got := b.RollLoss(adv, p, "wall", v).All()
			if got > takes[p] {
				t.Fatalf("%s: %g at most is taken off, and %g is", b.Carrier.Parts[p].At(), takes[p], got)
			}
			if got > 0 {
				took++
			}
		})
		if took == 0 && (b.Crossfall != 0 || adv.cross != 0) {
			t.Errorf("%s: nothing was taken off", job)
		}
	}
}

// Boxes that meet tell nothing: what is in them may overlap by any depth.
func TestBoxesThatMeetBoundNothing(t *testing.T) {
	one := geom.Box{Max: geom.Vec{1, 1, 1}}
	at, off := one.Moved(geom.Vec{1}), one.Moved(geom.Vec{1.5})
	if g := apart(&one, &at); !math.IsInf(g, -1) {
		t.Errorf("boxes that touch are told to be %g apart", g)
	}
	if g := apart(&one, &off); g != 0.5 || !beyond(&one, &off, 0.5) || beyond(&one, &off, 0.6) {
		t.Errorf("%g apart, want 0.5", g)
	}
}
