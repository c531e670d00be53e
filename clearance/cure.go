package clearance

import (
	"fmt"
	"math"

	"boxwalk/clearance/allow"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/job"
)

// Cure is one change to one dimension that makes a job pass.
type Cure struct {
	Dimension string  // in words: "leg tubes", "low brace in step \"wall feet in\""
	File      string  // job or gear
	Key       string  // key in that file
	From, To  float64 // metres
	Step      float64 // what it was searched to: its increment, or a millimetre
	Stepless  bool    // one Step less no longer passes, and nothing lies between
	dimension dimension
}

// Text is the cure as one sentence.
func (c Cure) Text() string {
	if c.From == 0 {
		return fmt.Sprintf("add %s of %s (%s in the %s file)", c.Dimension, mm(c.To), c.Key, c.File)
	}
	return fmt.Sprintf("change %s from %s to %s (%s in the %s file)", c.Dimension, c.dimension.say(c.From), c.dimension.say(c.To), c.Key, c.File)
}

// At is the job and the gear with the cure's dimension at another value; both
// are copies.
func (c Cure) At(j *job.Job, g *job.Gear, v float64) (*job.Job, *job.Gear) {
	return c.dimension.at(j, g, v)
}

// Applied is the job and the gear with the cure in them; both are copies.
func (c Cure) Applied(j *job.Job, g *job.Gear) (*job.Job, *job.Gear) { return c.At(j, g, c.To) }

// Cures lists single changes that make a job pass which does not, easiest for
// the crew first: readings of a step, then settings, then panels, then steel.
// It stops after most of them. Each was found by checking the whole job again
// with the change made; a job that passes, or that no single change within
// reach cures, has none.
func Cures(s *model.Study, r *Result, most int) []Cure {
	if r.Verdict == Pass {
		return nil
	}
	var out []Cure
	t := &trials{study: s}
	now := t.shortfallOf(s)
	for _, d := range dimensions(s) {
		if len(out) >= most {
			break
		}
		if d.reach && !now.unset {
			continue
		}
		if c, ok := t.cure(d, now); ok {
			out = append(out, c)
		}
	}
	return out
}

// trials re-checks a study with one dimension changed.
type trials struct{ study *model.Study }

// shortfall is how far a job is from passing. Settings come first: while one
// of them cannot be reached, what moves is not looked at.
type shortfall struct {
	unset bool    // a setting or reading cannot be reached
	sum   float64 // of all that is missing, in metres
}

// undecided is what a check counts that says no number, in metres: more than
// any other shortfall within reach.
const undecided = 10.0

// passes tells whether nothing is missing.
func (f shortfall) passes() bool { return !f.unset && f.sum == 0 }

// better tells whether f is nearer to passing than g, by more than a search
// resolves.
func (f shortfall) better(g shortfall) bool {
	if f.unset != g.unset {
		return !f.unset
	}
	return f.sum < g.sum-1e-5
}

// missing is the sum over the checks that do not pass.
func missing(checks []Entry) float64 {
	var sum float64
	for _, c := range checks {
		switch {
		case c.Verdict == Pass:
		case c.Margin == nil || math.IsNaN(*c.Margin):
			sum += undecided
		default:
			// what fails by nothing at all still fails
			sum += math.Min(undecided, math.Max(1e-4, -*c.Margin))
		}
	}
	return sum
}

// shortfallOf a study: of its settings alone while those fall short.
func (t *trials) shortfallOf(s *model.Study) shortfall {
	limits, tol := LimitsOf(s.Job), allow.Of(s.Job)
	var sum float64
	for _, i := range s.Reported() {
		b := &bay{Bay: &s.Bays[i], limits: limits, tol: tol}
		sum += missing(b.rangeChecks()) + missing(b.restChecks(nil)) + missing([]Entry{b.lengthCheck()})
	}
	if sum > 0 {
		return shortfall{unset: true, sum: sum}
	}
	r := Check(s, Options{})
	f := shortfall{sum: missing(r.Checks)}
	if r.Verdict != Pass && f.sum == 0 {
		f.sum = undecided
	}
	return f
}

// at is the shortfall with a dimension at a value; one that cannot be built
// falls short of everything.
func (t *trials) at(d dimension, v float64) shortfall {
	none := shortfall{unset: true, sum: math.Inf(1)}
	if v < d.least || v > d.most {
		return none
	}
	j, g := d.at(t.study.Job, t.study.Gear, v)
	if len(carrier.Lacks(g)) > 0 {
		return none
	}
	s, troubles := model.Build(j, g)
	if len(troubles) > 0 {
		return none
	}
	return t.shortfallOf(s)
}

// cure searches one dimension both ways and takes the lesser change.
func (t *trials) cure(d dimension, now shortfall) (Cure, bool) {
	n, found := 0, false
	for _, way := range [2]int{1, -1} {
		if k, ok := t.least(d, way, now); ok && (!found || k < abs(n)) {
			n, found = way*k, true
		}
	}
	return Cure{Dimension: d.name, File: d.file, Key: d.key, From: d.from, To: d.value(n), Step: d.step, Stepless: !d.stepped, dimension: d}, found
}

// least is the least number of steps one way that passes, such that one step
// less does not. Strides double as long as they bring the job nearer to
// passing; when one goes too far, the best place before it is closed in on.
func (t *trials) least(d dimension, way int, now shortfall) (int, bool) {
	const reach, patience = 1 << 12, 1 << 6
	first := 4
	if d.stepped {
		first = 1
	}
	fails, at := 0, now
	for stride := first; ; stride *= 2 {
		next := t.at(d, d.value(way*stride))
		switch {
		case next.passes():
			return t.close(d, way, fails, stride), true
		case !next.better(at) && !at.better(next) && stride < patience:
			continue // nothing changes yet
		case fails == 0 && !next.better(at):
			return 0, false
		case !next.better(at):
			return t.between(d, way, fails/2, stride)
		case stride >= reach:
			return 0, false
		}
		fails, at = stride, next
	}
}

// between looks for a pass among strides where nearness to passing rises and
// falls again (ternary search), then closes in on its beginning.
func (t *trials) between(d dimension, way, lo, hi int) (int, bool) {
	for hi-lo > 2 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		fa := t.at(d, d.value(way*a))
		if fa.passes() {
			return t.close(d, way, lo, a), true
		}
		fb := t.at(d, d.value(way*b))
		if fb.passes() {
			return t.close(d, way, a, b), true
		}
		switch {
		case fa.better(fb):
			hi = b
		case fb.better(fa):
			lo = a
		default:
			return 0, false // nothing changes here
		}
	}
	if k := lo + 1; k < hi && t.at(d, d.value(way*k)).passes() {
		return t.close(d, way, lo, k), true
	}
	return 0, false
}

// close bisects between a number of steps that fails and one that passes.
func (t *trials) close(d dimension, way, fails, passes int) int {
	for passes-fails > 1 {
		if mid := (fails + passes) / 2; t.at(d, d.value(way*mid)).passes() {
			passes = mid
		} else {
			fails = mid
		}
	}
	return passes
}

func abs(n int) int { return max(n, -n) }
