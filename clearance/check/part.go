package check

import (
	"slices"
	"strings"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/measure"
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
	a := measure.Ask{Raising: of == Raises, Advance: of == Advances}
	if of == Strips {
		a.Steps = measure.Every
	}
	reports := reportsOf(s, Options{Brief: true}, a)
	var out []Judged
	for i, b := range s.Bays {
		if of == Unsearched || b.Twin == i {
			out = append(out, reports[b.Twin].as(&s.Bays[i]).tellPortion(s, of)...)
		}
	}
	return slices.DeleteFunc(entries(out), func(e result.Entry) bool { return PortionOf(e.ID) != of })
}

// as is the report of a bay as it is for a twin.
func (r *Examined) as(b *model.Bay) *Examined {
	twin := *r
	twin.Found = r.Found.As(b)
	own := *r.bay
	own.Bay, twin.bay = twin.Found.Bay, &own
	return &twin
}

// tellPortion puts one portion in words.
func (r *Examined) tellPortion(s *model.Study, of Portion) []Judged {
	switch of {
	case Strips:
		return r.stripChecks(r.Found.Strip)
	case Raises:
		return r.raiseChecks(r.Found.Raising)
	case Advances:
		return r.rollChecks(r.Found.Rolling, r.Found.Rolled)
	}
	var t told
	r.underWay(&t, s, nil)
	return slices.Concat(r.setupChecks(nil), r.standChecks(s), t.under)
}

// ReadingsAlone are the checks of settings, readings and length, before anything
// moves.
func ReadingsAlone(s *model.Study) []result.Entry {
	limits, tol := LimitsOf(s.Job), allow.Of(s.Job)
	var out []Judged
	for _, i := range s.Reported() {
		b := worded(measure.AtRestIn(&s.Bays[i], s.Job, tol), s.Job, limits)
		out = append(out, slices.Concat(b.rangeChecks(), b.restChecks(nil), []Judged{b.lengthCheck()})...)
	}
	return entries(out)
}

// StepsAlone are the checks of the steps of the collapse that are asked for by name
// and can be made.
func StepsAlone(s *model.Study, asked func(name string) bool) []result.Entry {
	reports := reportsOf(s, Options{}, measure.Ask{Steps: asked})
	var out []Judged
	for _, i := range s.Reported() {
		for k, step := range reports[i].Steps {
			if step.Stop == nil && asked(step.Name) {
				out = append(out, reports[i].stepChecks(k)...)
			}
		}
	}
	return entries(out)
}

// stepChecks are the checks of one step by itself.
func (r *Examined) stepChecks(k int) []Judged {
	s, done := r.Steps[k], r.Found.Strip[k]
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
