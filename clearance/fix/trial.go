package fix

import (
	"fmt"
	"math"
	"strings"
	"sync"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/carrier"
)

// trials re-check a study with one dimension changed.
type trials struct {
	study *model.Study
	goal  string          // the one check to pass; empty for the whole job
	known *measured       // what was measured for other goals
	steps map[string]bool // that do not pass as the study is
	until []string        // steps up to the first of them
}

func newTrials(s *model.Study, r *result.Result) *trials {
	t := &trials{study: s, steps: map[string]bool{}, known: &measured{}}
	for _, c := range r.Checks {
		if c.Verdict != result.Pass && strings.HasPrefix(c.ID, "strip.") {
			t.steps[c.Where.Step] = true
		}
	}
	for _, step := range s.Bays[0].Steps {
		t.until = append(t.until, step.Name)
		if t.steps[step.Name] {
			break
		}
	}
	return t
}

// tooLate tells whether a dimension is a reading of a step after one that does
// not pass, which it cannot mend. A step in which the wheels take over is laid
// out as two, named by its own name and what is done.
func (t *trials) tooLate(d dimension) bool {
	for _, name := range t.until {
		if strings.HasPrefix(name, d.turned) {
			return false
		}
	}
	return true
}

// stage is how far a job was looked at: while something falls short at one
// stage, what comes after is not worked out. The later the stage that a job
// reaches, the nearer it is to passing.
type stage int

// The stages.
const (
	cannotBeBuilt stage = iota
	settingsFall        // the gear cannot be set to the section
	readingsFall        // an adjuster's reading, rest or length falls short
	stepsFall           // a step that did not pass before still does not
	wholeFalls          // everything else
)

// shortfall is how far a job is from passing.
type shortfall struct {
	stage stage
	sum   float64 // of all that is missing at that stage, in metres
}

// undecided is what a check counts that says no number, in metres: more than
// any other shortfall within reach.
const undecided = 10.0

// passes tells whether nothing is missing.
func (f shortfall) passes() bool { return f.stage == wholeFalls && f.sum == 0 }

// better tells whether f is nearer to passing than g, by more than a search
// resolves.
func (f shortfall) better(g shortfall) bool {
	if f.stage != g.stage {
		return f.stage > g.stage
	}
	return f.sum < g.sum-1e-5
}

// missing is the sum over the checks that do not pass.
func missing(checks []result.Entry) float64 {
	var sum float64
	for _, c := range checks {
		switch {
		case c.Verdict == result.Pass:
		case c.Margin == nil || math.IsNaN(*c.Margin):
			sum += undecided
		default:
			// what fails by nothing at all still fails
			sum += math.Min(undecided, math.Max(1e-4, -*c.Margin))
		}
	}
	return sum
}

// at is the shortfall with a dimension at a value; one that cannot be built
// falls short of everything.
func (t *trials) at(d dimension, v float64) shortfall {
	none := shortfall{sum: math.Inf(1)}
	if v < d.least || v > d.most {
		return none
	}
	j, g := d.at(t.study.Job, t.study.Gear, v)
	if len(carrier.Lacks(g)) > 0 {
		return none
	}
	var sum float64
	for _, cell := range t.study.Culvert.Cells {
		// no dimension is one of the culvert's: the sections stay as they are
		_, by := carrier.Settle(cell.Section, g, j.Set).Short()
		sum += by
	}
	if sum > 0 && t.asksSetting() {
		return shortfall{settingsFall, sum}
	}
	if t.goal != "" {
		return t.goalShortfall(fmt.Sprintf("%s %s %v", d.key, d.name, v), func() (*model.Study, bool) { return t.built(d, v) })
	}
	s, ok := t.built(d, v)
	if !ok {
		return none
	}
	return t.shortfallOf(s)
}

// built is the study with a dimension at a value; false where there is none.
func (t *trials) built(d dimension, v float64) (*model.Study, bool) {
	j, g := d.at(t.study.Job, t.study.Gear, v)
	if len(carrier.Lacks(g)) > 0 {
		return nil, false
	}
	s, troubles := model.BuildOn(j, g, t.study.Line)
	return s, len(troubles) == 0
}

// asksSetting tells whether what is looked for hangs on how the gear is set.
func (t *trials) asksSetting() bool {
	return t.goal == "" || t.goal == "setup.range" || follows(t.goal)
}

// measured keeps what one portion of the checks came to with a change made, which
// several checks may be looked for in.
type measured struct {
	mu   sync.Mutex
	said map[string]sum
}

// sum is what falls short, check by check; nil where nothing can be built.
type sum map[string]float64

// of is what is kept under a name, or worked out and kept.
func (m *measured) of(name string, build func() (*model.Study, bool), work func(s *model.Study) []result.Entry) sum {
	m.mu.Lock()
	have, ok := m.said[name]
	m.mu.Unlock()
	if ok {
		return have
	}
	if s, ok := build(); ok {
		have = sum{}
		for _, c := range work(s) {
			have[c.ID] += missing([]result.Entry{c})
		}
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.said == nil {
		m.said = map[string]sum{}
	}
	m.said[name] = have
	return have
}

// goalShortfall is the shortfall of the one check looked at; the change made has
// a name, under which other checks may find what they look for.
func (t *trials) goalShortfall(name string, build func() (*model.Study, bool)) shortfall {
	of := check.PartOf(t.goal)
	if of == check.Strips {
		switch fell := t.known.of("steps "+name, build, t.stepsFallen); {
		case fell == nil:
			return shortfall{sum: math.Inf(1)}
		case fell[t.goal] > 0:
			return shortfall{stepsFall, fell[t.goal]}
		}
	}
	fell := t.known.of(fmt.Sprint(of, " ", name), build, func(s *model.Study) []result.Entry { return check.PartAlone(s, of) })
	if fell == nil {
		return shortfall{sum: math.Inf(1)}
	}
	return shortfall{wholeFalls, fell[t.goal]}
}

// shortfallOf a study.
func (t *trials) shortfallOf(s *model.Study) shortfall {
	var sum float64
	for _, i := range s.Reported() {
		_, by := s.Bays[i].Carrier.Short()
		sum += by
	}
	if sum > 0 {
		return shortfall{settingsFall, sum}
	}
	if sum = missing(check.ReadingsAlone(s)); sum > 0 {
		return shortfall{readingsFall, sum}
	}
	if sum = t.stepsMissing(s); sum > 0 {
		return shortfall{stepsFall, sum}
	}
	r := check.Run(s, check.Options{Brief: true})
	f := shortfall{wholeFalls, missing(r.Checks)}
	if r.Verdict != result.Pass && f.sum == 0 {
		f.sum = undecided
	}
	return f
}

// stepsMissing is what is missing in the steps that did not pass before: these
// alone are measured, which is a part of a whole check.
func (t *trials) stepsMissing(s *model.Study) float64 { return missing(t.stepsFallen(s)) }

// stepsFallen are the checks of those steps.
func (t *trials) stepsFallen(s *model.Study) []result.Entry {
	if len(t.steps) == 0 {
		return nil
	}
	return check.StepsAlone(s, func(name string) bool { return t.steps[name] })
}

// follows tells whether the numbers of a check come from how the gear is set.
func follows(id string) bool {
	c, ok := check.ByID(id)
	return ok && c.Follows
}
