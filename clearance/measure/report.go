package measure

import (
	"boxwalk/clearance/allow"
	"boxwalk/model"
	"boxwalk/model/geom"
)

// Report is everything measured for one bay. What was not asked for, or belongs to a
// step that cannot be made, is empty.
type Report struct {
	Bay     *Bay
	kin     *siblings
	Strip   []StepGaps // by step of the collapse
	Raising [][]Gaps   // by step of raising
	Rolling *Advance   // nil where the collapse does not end on the wheels
	Rolled  []Gaps
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
	seen := newMemo()
	founders := join(s, reports)
	for _, f := range founders {
		f.box(w, seen, a)
	}
	w.now()
	for _, f := range founders {
		f.plan(w, a)
	}
	if a.EveryPart {
		for _, i := range s.Reported() {
			reports[i].plan(w, seen, a)
		}
	} else {
		planGoverning(w, seen, s, reports, a)
	}
	w.Run()
	return reports
}

// strips tells whether a step of the collapse is to be measured.
func (a Ask) strips(b *Bay, k int) bool {
	return a.Steps != nil && b.Steps[k].Stop == nil && a.Steps(b.Steps[k].Name)
}

// plan queues the measurements of a bay; each writes to its own place. What
// another bay or bent measures alike is taken over.
func (r *Report) plan(w *workers, seen *memo, a Ask) {
	shapes := seen.shapesOf(r.Bay.Carrier)
	if a.Steps != nil {
		around := seen.profiles(r.Bay.Stripped.Solids)
		for k := range r.Bay.Steps {
			if a.strips(r.Bay, k) {
				r.planStep(w, k, seen, shapes, around)
			}
		}
	}
	if a.Raising {
		before := seen.profiles(r.Bay.Before.Solids)
		for k, s := range r.Bay.Raising {
			if s.Stop == nil {
				r.planRaising(w, k, seen, shapes, before)
			}
		}
	}
	if r.Rolling != nil {
		r.planAdvance(w)
	}
}

func (r *Report) planStep(w *workers, k int, seen *memo, shapes []int, around []profile) {
	b := r.Bay
	s := b.Steps[k]
	cohorts, fresh := seen.cohorts(b, shapes, b.Present(s), meeting{path: s.Path, no: numbered(seen.paths, s.Path), kind: 's', Obstacles: &b.Stripped, profiles: around,
		box:      func(part int) geom.Box { return r.kin.boxAt(b, k, part) },
		MayTouch: func(part, solid int) bool { return b.MayTouch(&b.Stripped, part, solid, k) }})
	for _, f := range fresh {
		w.Add(func() {
			box := r.kin.boxAt(b, k, f.part)
			f.measure, f.drags = b.strip(k, f.part, box)
			f.Left = b.keptBy(k, f.part, box)
		})
	}
	w.after(func() {
		done := StepGaps{K: k, Parts: make([]Gaps, 0, len(cohorts)), Left: map[int][]LeftGap{}, Selves: r.kin.selvesOf(b, k)}
		for _, c := range cohorts {
			m, drags, kept := c.as(b, &b.Stripped)
			done.Parts, done.Drags, done.Left[c.part] = append(done.Parts, m), append(done.Drags, drags...), kept
		}
		r.Strip[k] = done
	})
}

func (r *Report) planRaising(w *workers, k int, seen *memo, shapes []int, before []profile) {
	b := r.Bay
	s := b.Raising[k]
	cohorts, fresh := seen.cohorts(b, shapes, b.Present(s), meeting{path: s.Path, no: numbered(seen.paths, s.Path), kind: 'r', Obstacles: &b.Before, profiles: before,
		box:      func(part int) geom.Box { return r.kin.raisingBox(b, k, part) },
		MayTouch: func(part, solid int) bool { return b.lands(part, solid, k) }})
	for _, f := range fresh {
		w.Add(func() { f.measure = b.raise(k, f.part, r.kin.raisingBox(b, k, f.part)) })
	}
	w.after(func() {
		r.Raising[k] = make([]Gaps, 0, len(cohorts))
		for _, c := range cohorts {
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
func (r *Report) Lead() (lead *Bay, ahead float64) { return r.kin.lead, r.kin.shift(r.Bay)[0] }

// Selves are the gaps of the carrier's parts to each other in a step, where the lead
// stands.
func (r *Report) Selves(k int) []SelfGaps { return r.kin.Selves[k] }

// As is the report of a bay as it is for a twin.
func (r *Report) As(b *model.Bay) *Report {
	twin, own := *r, *r.Bay
	own.Bay, twin.Bay = b, &own
	return &twin
}
