package clearance

import (
	"slices"
	"strings"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/result"
	"boxwalk/model"
)

// portion is the part of a check's work from which one check's numbers come: where
// a single check is to be mended, the rest need not be worked out.
type portion int

// The portions.
const (
	unsearched portion = iota // setup, and the hand formulas of the way: no search
	strips                    // the steps of the collapse
	raises                    // the steps of raising
	advances                  // the advance
)

// portionOf a check.
func portionOf(id string) portion {
	switch {
	case strings.HasPrefix(id, "strip."):
		return strips
	case id == "raise.clear":
		return raises
	case id == "roll.clear":
		return advances
	}
	return unsearched
}

// partly are the entries of one portion as a whole check has them.
func partly(s *model.Study, of portion) []result.Entry {
	limits, tol := LimitsOf(s.Job), allow.Of(s.Job)
	w, seen := newWorkers(Options{}), newMemo()
	reports := make([]*report, len(s.Bays))
	for _, i := range s.Reported() {
		reports[i] = &report{bay: inspect(&s.Bays[i], s.Job, limits, tol), brief: true}
	}
	if of == strips || of == raises {
		for _, f := range join(s, reports) {
			f.box(w, seen)
			w.now()
			if of == strips {
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
		if of == unsearched || b.Twin == i {
			out = append(out, reports[b.Twin].as(&s.Bays[i]).tellPortion(s, of)...)
		}
	}
	return slices.DeleteFunc(entries(out), func(e result.Entry) bool { return portionOf(e.ID) != of })
}

// as is the report of a bay as it is for a twin.
func (r *report) as(b *model.Bay) *report {
	twin, own := *r, *r.bay
	own.Bay, twin.bay = b, &own
	return &twin
}

// planPortion queues the measurements of one portion.
func (r *report) planPortion(w *workers, seen *memo, of portion) {
	switch of {
	case strips:
		r.planStrip(w, seen)
	case raises:
		r.planRaise(w, seen)
	case advances:
		r.rolling = r.rolls()
		r.planRoll(w)
	}
}

// tellPortion puts one portion in words.
func (r *report) tellPortion(s *model.Study, of portion) []judged {
	switch of {
	case strips:
		return r.stripChecks(r.strip)
	case raises:
		return r.raiseChecks(r.raising)
	case advances:
		return r.rollChecks(r.rolling, r.rolled)
	}
	var t told
	r.underWay(&t, s, nil)
	return slices.Concat(r.setupChecks(nil), r.standChecks(s), t.under)
}
