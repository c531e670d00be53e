package clearance

import (
	"runtime"
	"slices"
	"sort"
	"strings"
	"sync"

	"boxwalk/clearance/allow"
	"boxwalk/model"
)

// Options of a check.
type Options struct {
	Version  string
	Inputs   []Input
	Only     []string           // ids to keep; none keeps all
	Progress func(done, of int) // called as work goes on; may be nil
	Workers  int                // 0 is one for each core
	Proof    bool               // keep what a proof is written from
}

// Check holds a study against every check. The result depends on the study
// only, not on the number of workers.
func Check(s *model.Study, o Options) *Result { return Examine(s, o).Result }

// Examination is a result and what it was worked out from, from which a proof
// of its clearances can be written.
type Examination struct {
	*Result
	study   *model.Study
	workers int
	reports []*report // by bay; nil for twins
}

// Examine is Check that keeps what was measured.
func Examine(s *model.Study, o Options) *Examination {
	r := &Result{Schema: Schema, Version: o.Version, Inputs: o.Inputs, Scope: o.Only,
		Job: JobName{Name: s.Job.Job.Name, Number: s.Job.Job.Number}, Cautions: Cautions}
	limits, tol := LimitsOf(s.Job), allow.Of(s.Job)
	reports := make([]*report, len(s.Bays))
	w := newWorkers(o)
	kin := map[string]*siblings{}
	for _, i := range s.Reported() {
		reports[i] = &report{bay: inspect(&s.Bays[i], s.Job, limits, tol)}
		reports[i].join(kin, w)
		reports[i].plan(w)
	}
	w.run()
	for i, b := range s.Bays {
		t := reports[b.Twin].told(s, &s.Bays[i])
		if b.Twin == i && o.Proof {
			reports[i].entries = slices.Clone(t.checks)
		}
		r.add(t, o.Only)
	}
	r.order()
	r.Verdict = overall(r.Checks)
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
	entries  []Entry // with what they come from, where a proof is to be written
}

// plan queues the measurements of a bay; each writes to its own place.
func (r *report) plan(w *workers) {
	r.strip = make([]stripped, len(r.Steps))
	r.raising = make([][]measure, len(r.Raising))
	for k, s := range r.Steps {
		if s.Stop == "" {
			r.planStep(w, k)
		}
	}
	for k, s := range r.Raising {
		if s.Stop != "" {
			continue
		}
		parts := r.present(s)
		r.raising[k] = make([]measure, len(parts))
		for n, p := range parts {
			w.add(func() { r.raising[k][n] = r.raise(k, p, r.siblings.raisingBox(r.bay, k, p)) })
		}
	}
	r.rolling = r.rolls()
	if r.rolling != nil {
		parts := r.presentAfterAll()
		r.rolled = make([]measure, len(parts))
		for n, p := range parts {
			w.add(func() { r.rolled[n] = r.roll(r.rolling, p) })
		}
	}
}

func (r *report) planStep(w *workers, k int) {
	parts := r.present(r.Steps[k])
	done := stripped{k: k, measures: make([]measure, len(parts)), kept: map[int][]keptMeasure{}}
	drags, kept := make([][]dragMeasure, len(parts)), make([][]keptMeasure, len(parts))
	for n, p := range parts {
		w.add(func() {
			around := r.siblings.box(r.bay, k, p)
			done.measures[n], drags[n] = r.bay.strip(k, p, around)
			kept[n] = r.keptBy(k, p, around)
		})
	}
	w.after(func() {
		for n, p := range parts {
			done.drags = append(done.drags, drags[n]...)
			done.kept[p] = kept[n]
		}
		done.selves = r.siblings.selvesOf(r.bay, k)
		r.strip[k] = done
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

// told is the report as it reads for a bay of the same geometry.
func (r *report) told(s *model.Study, b *model.Bay) *told {
	own := *r.bay
	own.Bay = b
	t := &told{}
	t.checks = append(t.checks, own.setupChecks(r.strip)...)
	t.checks = append(t.checks, own.standChecks(s)...)
	t.checks = append(t.checks, own.stripChecks(r.strip)...)
	t.checks = append(t.checks, own.liftChecks(s)...)
	t.checks = append(t.checks, own.raiseChecks(r.raising)...)
	t.checks = append(t.checks, own.rollChecks(r.rolling, r.rolled)...)
	t.checks = append(t.checks, own.routeChecks(s)...)
	t.checks = append(t.checks, own.bendChecks(s)...)
	own.sayUnset(t.checks)
	t.settings = own.settings()
	t.steps = own.stepRows(r.strip)
	t.parts = own.partRows(r.strip)
	t.along = own.alongRows(s, r.rolling, r.rolled, t.checks)
	return t
}

type told struct {
	checks   []Entry
	settings []Setting
	steps    []StepRow
	parts    []PartRow
	along    []AlongRow
}

func (r *Result) add(t *told, only []string) {
	for _, c := range t.checks {
		if len(only) == 0 || matches(c.ID, only) {
			c.from = nil
			r.Checks = append(r.Checks, c)
		}
	}
	r.Settings = append(r.Settings, t.settings...)
	r.Steps = append(r.Steps, t.steps...)
	r.Parts = append(r.Parts, t.parts...)
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
// verdict, then margin, the governing one first.
func (r *Result) order() {
	place := map[string]int{}
	for i, e := range explanations {
		place[e.ID] = i
	}
	rank := map[Verdict]int{Fail: 0, Open: 1, Pass: 2}
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
		return *a.Margin < *b.Margin
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

func (w *workers) run() {
	const batch = 16
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
	for _, f := range w.then {
		f()
	}
}
