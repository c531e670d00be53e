package clearance

import (
	"slices"
	"strings"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/result"
	"boxwalk/model"
)

// Portion is the part of a check's work from which one check's numbers come: where
// a single check is to be mended, the rest need not be worked out.
type Portion int

// The portions.
const (
	Unsearched Portion = iota // setup, and the hand formulas of the way: no search
	Strips                    // the steps of the collapse
	Raises                    // the steps of raising
	Advances                  // the advance
)

// PortionOf a check.
func PortionOf(id string) Portion {
	switch {
	case strings.HasPrefix(id, "strip."):
		return Strips
	case id == "raise.clear":
		return Raises
	case id == "roll.clear":
		return Advances
	}
	return Unsearched
}

// PortionAlone are the entries of one portion as a whole check has them.
func PortionAlone(s *model.Study, of Portion) []result.Entry {
	limits, tol := LimitsOf(s.Job), allow.Of(s.Job)
	w, seen := newWorkers(Options{}), newMemo()
	reports := make([]*report, len(s.Bays))
	for _, i := range s.Reported() {
		reports[i] = &report{bay: inspect(&s.Bays[i], s.Job, limits, tol), brief: true}
	}
	if of == Strips || of == Raises {
		for _, f := range join(s, reports) {
			f.box(w, seen)
			w.now()
			if of == Strips {
				f.plan(w)
			}
		}
	}
	for _, i := range s.Reported() {
		reports[i].planPortion(w, seen, of)
	}
	w.run()
	var out []judged
	for i, b := range s.Bays {
		if of == Unsearched || b.Twin == i {
			out = append(out, reports[b.Twin].as(&s.Bays[i]).tellPortion(s, of)...)
		}
	}
	return slices.DeleteFunc(entries(out), func(e result.Entry) bool { return PortionOf(e.ID) != of })
}

// as is the report of a bay as it is for a twin.
func (r *report) as(b *model.Bay) *report {
	twin, own := *r, *r.bay
	own.Bay, twin.bay = b, &own
	return &twin
}

// planPortion queues the measurements of one portion.
func (r *report) planPortion(w *workers, seen *memo, of Portion) {
	switch of {
	case Strips:
		r.planStrip(w, seen)
	case Raises:
		r.planRaise(w, seen)
	case Advances:
		r.rolling = r.rolls()
		r.planRoll(w)
	}
}

// tellPortion puts one portion in words.
func (r *report) tellPortion(s *model.Study, of Portion) []judged {
	switch of {
	case Strips:
		return r.stripChecks(r.strip)
	case Raises:
		return r.raiseChecks(r.raising)
	case Advances:
		return r.rollChecks(r.rolling, r.rolled)
	}
	var t told
	r.underWay(&t, s, nil)
	return slices.Concat(r.setupChecks(nil), r.standChecks(s), t.under)
}

// ReadingsAlone are the checks of settings, readings and length, before anything
// moves.
func ReadingsAlone(s *model.Study) []result.Entry {
	limits, tol := LimitsOf(s.Job), allow.Of(s.Job)
	var out []judged
	for _, i := range s.Reported() {
		b := &bay{Bay: &s.Bays[i], limits: limits, tol: tol.In(s.Bays[i].Cell.Section, s.Bays[i].Carrier.Gauge)}
		out = append(out, slices.Concat(b.rangeChecks(), b.restChecks(nil), []judged{b.lengthCheck()})...)
	}
	return entries(out)
}

// StepsAlone are the checks of the steps of the collapse that are asked for by name
// and can be made.
func StepsAlone(s *model.Study, asked func(name string) bool) []result.Entry {
	limits, tol := LimitsOf(s.Job), allow.Of(s.Job)
	reports := make([]*report, len(s.Bays))
	for _, i := range s.Reported() {
		b := inspect(&s.Bays[i], s.Job, limits, tol)
		reports[i] = &report{bay: b, strip: make([]stripped, len(b.Steps))}
	}
	some := func(b *bay, k int) bool { return asked(b.Steps[k].Name) && b.Steps[k].Stop == nil }
	measureSteps(s, reports, some)
	var out []judged
	for _, i := range s.Reported() {
		for k := range reports[i].Steps {
			if some(reports[i].bay, k) {
				out = append(out, reports[i].stepChecks(k)...)
			}
		}
	}
	return entries(out)
}

// measureSteps measures some steps as a whole check does.
func measureSteps(s *model.Study, reports []*report, some func(b *bay, k int) bool) {
	w, seen := newWorkers(Options{}), newMemo()
	founders := join(s, reports)
	for _, f := range founders {
		f.box(w, seen)
	}
	w.now()
	for _, f := range founders {
		for k := range f.alike {
			if !some(f.lead, k) {
				f.alike[k] = nil
			}
		}
		f.plan(w)
	}
	for _, i := range s.Reported() {
		r := reports[i]
		shapes, around := seen.shapesOf(r.Carrier), seen.profiles(r.stripped.solids)
		for k := range r.Steps {
			if some(r.bay, k) {
				r.planStep(w, k, seen, shapes, around)
			}
		}
	}
	w.run()
}

// stepChecks are the checks of one step by itself.
func (r *report) stepChecks(k int) []judged {
	s, done := r.Steps[k], r.strip[k]
	out := append(r.selfChecks(s, done), r.digCheck(s, done), r.dragCheck(s, done))
	out = append(out, r.releaseChecks(s, done)...)
	out = append(out, r.supportsChecks(s, done)...)
	if c, ok := r.levelCheck(s, done); ok {
		out = append(out, c)
	}
	if k == len(r.Steps)-1 {
		out = append(out, r.travelChecks(s, done)...)
	}
	return out
}
