package clearance

import (
	"iter"
	"math"
	"runtime"
	"slices"
	"sort"
	"strings"
	"sync"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/geom"
)

// Options of a check.
type Options struct {
	Version  string
	Inputs   []result.Input
	Only     []string           // ids to keep; none keeps all
	Progress func(done, of int) // called as work goes on; may be nil
	Workers  int                // 0 is one for each core
	Proof    bool               // keep what a proof is written from
	Brief    bool               // leave out the samples along the way, which no verdict needs
}

// Check holds a study against every check. The result depends on the study
// only, not on the number of workers.
func Check(s *model.Study, o Options) *result.Result { return Examine(s, o).Result }

// Examination is a result and what it was worked out from, from which a proof
// of its clearances can be written.
type Examination struct {
	*result.Result
	study   *model.Study
	workers int
	reports []*report // by bay; nil for twins
}

// Examine is Check that keeps what was measured.
func Examine(s *model.Study, o Options) *Examination {
	r := &result.Result{Schema: result.Schema, Version: o.Version, Inputs: o.Inputs, Scope: o.Only,
		Job: result.JobName{Name: s.Job.Job.Name, Number: s.Job.Job.Number}, Cautions: CautionsOf(s.Job, s.Gear),
		NotChecked: notChecked(o.Only), Looser: looserThanDefault(s.Job, s.Gear)}
	limits, tol := LimitsOf(s.Job), allow.Of(s.Job)
	reports := make([]*report, len(s.Bays))
	w := newWorkers(o)
	for _, i := range s.Reported() {
		w.add(func() {
			b := inspect(&s.Bays[i], s.Job, limits, tol)
			reports[i] = &report{bay: b, rolling: b.rolls(), brief: o.Brief}
		})
	}
	w.now()
	seen := newMemo()
	founders := join(s, reports)
	for _, f := range founders {
		f.box(w, seen)
	}
	w.now()
	for _, f := range founders {
		f.plan(w)
	}
	for _, i := range s.Reported() {
		reports[i].plan(w, seen)
	}
	w.run()
	for _, t := range tell(s, reports, o) {
		add(r, t, o.Only)
	}
	tellFriction(r.Looser, frictionNote(s, reports))
	r.Parts = partRowsOf(s, reports)
	r.Masses = massRows(s)
	order(r)
	r.Verdict = result.OfJob(result.Overall(r.Checks), o.Only)
	return &Examination{Result: r, study: s, workers: w.count, reports: reports}
}

// report is everything measured for one bay.
type report struct {
	*bay
	siblings *siblings
	strip    []stripped
	raising  [][]measure
	rolling  *rolling
	rolled   []measure
	brief    bool
	entries  []judged // with what they come from, where a proof is to be written
}

// plan queues the measurements of a bay; each writes to its own place. What
// another bay or bent measures alike is taken over.
func (r *report) plan(w *workers, seen *memo) {
	r.planStrip(w, seen)
	r.planRaise(w, seen)
	r.planRoll(w)
}

func (r *report) planStrip(w *workers, seen *memo) {
	r.strip = make([]stripped, len(r.Steps))
	shapes, around := seen.shapesOf(r.Carrier), seen.profiles(r.stripped.solids)
	for k, s := range r.Steps {
		if s.Stop == nil {
			r.planStep(w, k, seen, shapes, around)
		}
	}
}

func (r *report) planRaise(w *workers, seen *memo) {
	r.raising = make([][]measure, len(r.Raising))
	shapes, before := seen.shapesOf(r.Carrier), seen.profiles(r.raised.solids)
	for k, s := range r.Raising {
		if s.Stop == nil {
			r.planRaising(w, k, seen, shapes, before)
		}
	}
}

func (r *report) planRoll(w *workers) {
	if r.rolling != nil {
		parts := r.presentAfterAll()
		r.rolled = make([]measure, len(parts))
		for n, p := range parts {
			w.add(func() { r.rolled[n] = r.roll(r.rolling, p) })
		}
	}
}

func (r *report) planStep(w *workers, k int, seen *memo, shapes []int, around []profile) {
	s := r.Steps[k]
	cohorts, fresh := seen.cohorts(r.bay, shapes, r.present(s), meeting{path: s.Path, kind: 's', obstacles: &r.stripped, profiles: around,
		box:  func(part int) geom.Box { return r.siblings.boxAt(r.bay, k, part) },
		held: func(part, solid int) bool { return r.held(&r.stripped, part, solid, k) }})
	for _, f := range fresh {
		w.add(func() {
			box := r.siblings.boxAt(r.bay, k, f.part)
			f.measure, f.drags = r.bay.strip(k, f.part, box)
			f.kept = r.keptBy(k, f.part, box)
		})
	}
	w.after(func() {
		done := stripped{k: k, measures: make([]measure, 0, len(cohorts)), kept: map[int][]keptMeasure{}, selves: r.siblings.selvesOf(r.bay, k)}
		for _, c := range cohorts {
			m, drags, kept := c.as(r.bay, &r.stripped)
			done.measures, done.drags, done.kept[c.part] = append(done.measures, m), append(done.drags, drags...), kept
		}
		r.strip[k] = done
	})
}

func (r *report) planRaising(w *workers, k int, seen *memo, shapes []int, before []profile) {
	s := r.Raising[k]
	cohorts, fresh := seen.cohorts(r.bay, shapes, r.present(s), meeting{path: s.Path, kind: 'r', obstacles: &r.raised, profiles: before,
		box:  func(part int) geom.Box { return r.siblings.raisingBox(r.bay, k, part) },
		held: func(part, solid int) bool { return r.lands(part, solid, k) }})
	for _, f := range fresh {
		w.add(func() { f.measure = r.raise(k, f.part, r.siblings.raisingBox(r.bay, k, f.part)) })
	}
	w.after(func() {
		r.raising[k] = make([]measure, 0, len(cohorts))
		for _, c := range cohorts {
			m, _, _ := c.as(r.bay, &r.raised)
			r.raising[k] = append(r.raising[k], m)
		}
	})
}

// presentAfterAll lists the parts that roll.
func (r *report) presentAfterAll() []int {
	var out []int
	last := r.Steps[len(r.Steps)-1]
	for i, p := range r.Carrier.Parts {
		if last.PresentAfter(p) {
			out = append(out, i)
		}
	}
	return out
}

// tell puts every bay's report in words, twins in those of the bay they are
// like, and keeps what a proof is written from.
func tell(s *model.Study, reports []*report, o Options) []*told {
	out := make([]*told, len(s.Bays))
	w := newWorkers(Options{Workers: o.Workers})
	for _, i := range s.Reported() {
		w.add(func() {
			out[i] = reports[i].told(s)
			if o.Proof {
				reports[i].entries = slices.Concat(out[i].still, out[i].under)
			}
		})
	}
	w.each()
	for i, b := range s.Bays {
		if b.Twin != i {
			out[i] = reports[b.Twin].toldOf(out[b.Twin], s, &s.Bays[i])
		}
	}
	return out
}

// told is a report in words: the checks of the carrier where it stands, those
// of it under way, and the tables.
type told struct {
	still, under []judged
	settings     []result.Setting
	steps        []result.StepRow
	raising      []result.RaisingRow
	along        []result.AlongRow
}

func (r *report) told(s *model.Study) *told {
	t := &told{}
	t.still = append(t.still, r.setupChecks(r.strip)...)
	t.still = append(t.still, r.standChecks(s)...)
	t.still = append(t.still, r.stripChecks(r.strip)...)
	up := r.raiseChecks(r.raising)
	t.still = append(t.still, up...)
	r.sayUnset(t.still)
	r.sayRemedies(t.still)
	t.settings = r.settings()
	t.steps, t.raising = r.stepRows(r.strip), r.raisingRows(up)
	holdSteps(t.steps, r.Bay, s)
	r.levels(t)
	r.underWay(t, s, nil)
	return t
}

// underWay adds what depends on where along the line the bay lies. The gaps on
// the way are those of a twin's rows, where there is one.
func (r *report) underWay(t *told, s *model.Study, twin []result.AlongRow) {
	t.under = append(t.under, r.jackChecks(s)...)
	t.under = append(t.under, r.liftChecks(s)...)
	t.under = append(t.under, r.rollChecks(r.rolling, r.rolled)...)
	t.under = append(t.under, r.routeChecks(s)...)
	t.under = append(t.under, r.bendChecks(s)...)
	r.sayUnset(t.under)
	r.sayRemedies(t.under)
	r.unproved(t.raising, slices.Concat(t.still, t.under))
	if !r.brief {
		t.along = r.alongRows(s, r.rolling, r.rolled, t.under, twin)
	}
}

// toldOf is what was told of a bay as it reads for another of the same geometry.
func (r *report) toldOf(first *told, s *model.Study, b *model.Bay) *told {
	t := &told{}
	for _, c := range first.still {
		c.Subject = c.Subject.From(b.Cell.Number, b.Pour.Number)
		c.Where.Cell, c.Where.Pour, c.Where.Frame, c.from = b.Cell.Number, b.Pour.Number, b.Name(), nil
		t.still = append(t.still, c)
	}
	for _, v := range first.settings {
		v.Cell, v.Pour = b.Cell.Number, b.Pour.Number
		t.settings = append(t.settings, v)
	}
	for _, v := range first.steps {
		v.Cell, v.Pour = b.Cell.Number, b.Pour.Number
		// hundreds of gaps at hundreds of pours that are all alike: they stand once
		v.End, v.EndOf = []result.EndRow{}, &result.PourRef{Cell: r.Cell.Number, Pour: r.Pour.Number}
		t.steps = append(t.steps, v)
	}
	holdSteps(t.steps, b, s)
	t.raising = raisingOf(first.raising, b)
	r.as(b).underWay(t, s, first.along)
	return t
}

// partRowsOf works the rows of all bays out as they are asked for.
func partRowsOf(s *model.Study, reports []*report) iter.Seq[result.PartRow] {
	return func(yield func(result.PartRow) bool) {
		for _, b := range s.Bays {
			r := reports[b.Twin]
			for _, row := range r.partRows(r.strip) {
				if row.Cell, row.Pour = b.Cell.Number, b.Pour.Number; !yield(row) {
					return
				}
			}
		}
	}
}

// add puts in a result what was told of a bay, as far as it was asked for.
func add(r *result.Result, t *told, only []string) {
	for _, c := range slices.Concat(t.still, t.under) {
		if len(only) == 0 || matches(c.ID, only) {
			r.Checks = append(r.Checks, c.Entry)
		}
	}
	r.Settings = append(r.Settings, t.settings...)
	r.Steps, r.Raising = append(r.Steps, t.steps...), append(r.Raising, t.raising...)
	if len(only) == 0 || matches("roll.clear", only) {
		r.Along = append(r.Along, t.along...)
	}
}

// matches tells whether an id is asked for, by itself or by its group.
func matches(id string, only []string) bool {
	for _, o := range only {
		if id == o || strings.HasPrefix(id, o+".") {
			return true
		}
	}
	return false
}

// order sorts the checks by id as in the table of checks, and within an id by
// verdict, then margin, the governing one first; of those whose margins are alike
// the first in the order of the work.
func order(r *result.Result) {
	place := map[string]int{}
	for i, e := range explanations {
		place[e.ID] = i
	}
	rank := map[result.Verdict]int{result.Fail: 0, result.Open: 1, result.Pass: 2}
	sort.SliceStable(r.Checks, func(i, j int) bool {
		a, b := r.Checks[i], r.Checks[j]
		switch {
		case place[a.ID] != place[b.ID]:
			return place[a.ID] < place[b.ID]
		case a.Verdict != b.Verdict:
			return rank[a.Verdict] < rank[b.Verdict]
		case a.Margin == nil || b.Margin == nil:
			return a.Margin != nil && b.Margin == nil
		}
		return math.Round(*a.Margin/alike) < math.Round(*b.Margin/alike)
	})
}

// workers run tasks that write to places of their own.
type workers struct {
	tasks    []func()
	then     []func()
	progress func(done, of int)
	count    int
}

func newWorkers(o Options) *workers {
	n := o.Workers
	if n <= 0 {
		n = runtime.GOMAXPROCS(0)
	}
	return &workers{progress: o.Progress, count: n}
}

func (w *workers) add(f func()) { w.tasks = append(w.tasks, f) }

// after is done in order when all tasks are.
func (w *workers) after(f func()) { w.then = append(w.then, f) }

// now does what is queued before anything else is, and tells nobody.
func (w *workers) now() {
	quiet := workers{tasks: w.tasks, count: w.count}
	quiet.each()
	w.tasks = nil
}

// run does all tasks, and then what is to be done after them.
func (w *workers) run() {
	w.each()
	for _, f := range w.then {
		f()
	}
}

// each does all tasks.
func (w *workers) each() {
	batch := max(1, min(16, len(w.tasks)/(8*w.count))) // few big tasks one by one
	var wg sync.WaitGroup
	var mu sync.Mutex
	next := 0
	take := func() []func() {
		mu.Lock()
		defer mu.Unlock()
		from := next
		next = min(len(w.tasks), next+batch)
		if w.progress != nil {
			w.progress(from, len(w.tasks))
		}
		return w.tasks[from:next]
	}
	var broken any // what a task panicked with; told again where it can be caught
	for range w.count {
		wg.Go(func() {
			defer func() {
				if r := recover(); r != nil {
					mu.Lock()
					defer mu.Unlock()
					broken, next = r, len(w.tasks)
				}
			}()
			for list := take(); len(list) > 0; list = take() {
				for _, f := range list {
					f()
				}
			}
		})
	}
	wg.Wait()
	if broken != nil {
		panic(broken)
	}
}
