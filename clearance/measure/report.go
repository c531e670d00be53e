package measure

import (
	"math"

	"boxwalk/clearance/allow"
	"boxwalk/model"
	"boxwalk/model/geom"
)

// Report is everything measured for one bay. What was not asked for, or belongs to a
// step that cannot be made, is empty.
type Report struct {
	Bay      *Bay
	carriers *carriers // set alike
	down, up passage
	Strip    []StepGaps // by step of the collapse
	Raising  [][]Gaps   // by step of raising
	Rolling  *Advance   // nil where the collapse does not end on the wheels
	Rolled   []Gaps
}

// Ask says what is to be measured.
type Ask struct {
	Steps            func(name string) bool // which of the collapse; nil for none
	Raising, Advance bool
	EveryPart        bool               // every part's own gaps; else those alone that may govern a check
	Workers          int                // 0 is one for each core
	Progress         func(done, of int) // called as work goes on; may be nil
}

// Every step of the collapse.
func Every(string) bool { return true }

// Measure is what was asked for, by bay; nil for bays that are like another. What
// it finds does not depend on the number of workers.
func Of(s *model.Study, tol allow.Tolerances, a Ask) []*Report {
	reports := make([]*Report, len(s.Bays))
	w := NewWorkers(a.Workers, a.Progress)
	for _, i := range s.Reported() {
		w.Add(func() {
			r := &Report{Bay: Inspect(&s.Bays[i], s.Job, tol)}
			if r.Strip, r.Raising = make([]StepGaps, len(r.Bay.Steps)), make([][]Gaps, len(r.Bay.Raising)); a.Advance {
				r.Rolling = r.Bay.Advance()
			}
			reports[i] = r
		})
	}
	w.now()
	n := newNumbers()
	leads := setAlike(s, reports)
	for _, i := range s.Reported() {
		reports[i].number(n)
	}
	for _, f := range leads {
		f.box(w, n.shapesOf(f.lead.Carrier), a)
	}
	w.now()
	for _, i := range s.Reported() {
		w.Add(reports[i].group)
	}
	w.now()
	for _, f := range leads {
		f.plan(w, a)
	}
	if a.EveryPart {
		known := map[string]*representative{}
		for _, i := range s.Reported() {
			reports[i].plan(w, known, n, a)
		}
	} else {
		planGoverning(w, s, reports, a)
	}
	w.Run()
	return reports
}

// number prepares what a bay goes through.
func (r *Report) number(n *numbers) {
	b := r.Bay
	shapes := n.shapesOf(b.Carrier)
	r.down = passage{encounter: encounter{Obstacles: &b.Stripped, profiles: n.profiles(b.Stripped.Solids), mark: b.Stripped.markOf(b)}, shapes: shapes}
	r.up = passage{encounter: encounter{Obstacles: &b.Before, profiles: n.profiles(b.Before.Solids), mark: b.Before.markOf(b)}, shapes: shapes}
}

// group finds the parts that are alike all the way.
func (r *Report) group() {
	by := r.carriers.shift(r.Bay)
	r.down.boxes, r.down.by, r.up.boxes, r.up.by = r.carriers.boxes, by, r.carriers.raising, by
	r.down.group(r.Bay)
	r.up.group(r.Bay)
}

// markOf tells how a part may touch a solid, over all steps: until or from which one.
func (o *Obstacles) markOf(b *Bay) func(part, solid int) byte {
	return func(part, solid int) byte {
		pair := [2]int{part, solid}
		switch {
		case stands(b.Carrier.Parts[part], o.Solids[solid]):
			return math.MaxUint8
		case len(o.touches[part]) == 0 || !o.Touch[pair]:
			return 0
		}
		return byte(min(1+o.Last[pair], math.MaxUint8-1))
	}
}

// marked is 1 where a part may touch a solid.
func marked(may func(part, solid int) bool) func(part, solid int) byte {
	return func(part, solid int) byte {
		if may(part, solid) {
			return 1
		}
		return 0
	}
}

// strips tells whether a step of the collapse is to be measured.
func (a Ask) strips(b *Bay, k int) bool {
	return a.Steps != nil && b.Steps[k].Stop == nil && a.Steps(b.Steps[k].Name)
}

// plan queues the measurements of a bay; each writes to its own place. What
// another bay or bent measures alike is taken over.
func (r *Report) plan(w *workers, known map[string]*representative, n *numbers, a Ask) {
	for k := range r.Bay.Steps {
		if a.strips(r.Bay, k) {
			r.planStep(w, k, known, n)
		}
	}
	for k, s := range r.Bay.Raising {
		if a.Raising && s.Stop == nil {
			r.planRaising(w, k, known, n)
		}
	}
	if r.Rolling != nil {
		r.planAdvance(w)
	}
}

// stepping is what parts meet in step k of the collapse, where they may touch it.
func (r *Report) stepping(k int) encounter {
	in := r.down.encounter
	in.path, in.kind = r.Bay.Steps[k].Path, 's'
	in.box = func(part int) geom.Box { return r.down.boxIn(k, part) }
	in.mark = marked(func(part, solid int) bool { return r.Bay.MayTouch(&r.Bay.Stripped, part, solid, k) })
	return in
}

// rising is that in step k of raising.
func (r *Report) rising(k int) encounter {
	in := r.up.encounter
	in.path, in.kind = r.Bay.Raising[k].Path, 'r'
	in.box = func(part int) geom.Box { return r.up.boxIn(k, part) }
	in.mark = marked(func(part, solid int) bool { return r.Bay.lands(part, solid, k) })
	return in
}

func (r *Report) planStep(w *workers, k int, known map[string]*representative, n *numbers) {
	b, in := r.Bay, r.stepping(k)
	in.no = numbered(n.paths, in.path)
	groups, fresh := r.down.duplicates(b, known, b.Present(b.Steps[k]), in)
	for _, f := range fresh {
		w.Add(func() {
			box := in.box(f.part)
			f.measure, f.drags = b.strip(k, f.part, box)
			f.Left = b.keptBy(k, f.part, box)
		})
	}
	w.after(func() {
		done := StepGaps{K: k, Parts: make([]Gaps, 0, len(groups)), Left: map[int][]LeftGap{}, Selves: r.carriers.selvesOf(b, k)}
		for _, c := range groups {
			m, drags, kept := c.as(b, &b.Stripped)
			done.Parts, done.Drags, done.Left[c.part] = append(done.Parts, m), append(done.Drags, drags...), kept
		}
		r.Strip[k] = done
	})
}

func (r *Report) planRaising(w *workers, k int, known map[string]*representative, n *numbers) {
	b, in := r.Bay, r.rising(k)
	in.no = numbered(n.paths, in.path)
	groups, fresh := r.up.duplicates(b, known, b.Present(b.Raising[k]), in)
	for _, f := range fresh {
		w.Add(func() { f.measure = b.raise(k, f.part, in.box(f.part)) })
	}
	w.after(func() {
		r.Raising[k] = make([]Gaps, 0, len(groups))
		for _, c := range groups {
			m, _, _ := c.as(b, &b.Before)
			r.Raising[k] = append(r.Raising[k], m)
		}
	})
}

// planAdvance queues the parts that roll.
func (r *Report) planAdvance(w *workers) {
	parts := r.Bay.presentAfterAll()
	r.Rolled = make([]Gaps, len(parts))
	for n, p := range parts {
		w.Add(func() { r.Rolled[n] = r.Bay.Rolled(r.Rolling, p) })
	}
}

// presentAfterAll lists the parts that roll.
func (b *Bay) presentAfterAll() []int {
	var out []int
	last := b.Steps[len(b.Steps)-1]
	for i, p := range b.Carrier.Parts {
		if last.PresentAfter(p) {
			out = append(out, i)
		}
	}
	return out
}

// Lead is the bay that measured what a carrier does among itself, for all that are
// set alike, and how far ahead of it this one stands along x, in metres.
func (r *Report) Lead() (lead *Bay, ahead float64) {
	return r.carriers.lead, r.carriers.shift(r.Bay)[0]
}

// Selves are the gaps of the carrier's parts to each other in a step, where the lead
// stands.
func (r *Report) Selves(k int) []SelfGaps { return r.carriers.Selves[k] }

// As is the report of a bay as it is for a twin.
func (r *Report) As(b *model.Bay) *Report {
	twin, own := *r, *r.Bay
	own.Bay, twin.Bay = b, &own
	return &twin
}
