package check

import (
	"slices"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/model"
)

// Part is what of the measuring a check's numbers come from: where a single check is
// to be mended, the rest need not be worked out.
type Part int

// The parts.
const (
	Unsearched Part = iota // setup, and the hand formulas of the way: no search
	Strips                 // the steps of the collapse
	Raises                 // the steps of raising
	Advances               // the advance
	Poured                 // the pour: statics, no search
)

// PartOf a check.
func PartOf(id string) Part {
	if c := lookUp(id); c != nil {
		return c.Part
	}
	return Unsearched
}

// PartAlone are the entries of one part as a whole check has them.
func PartAlone(s *model.Study, of Part) []result.Entry {
	a := measure.Ask{Raising: of == Raises, Advance: of == Advances}
	if of == Strips {
		a.Steps = measure.Every
	}
	wanted := func(c *Check) bool { return c.Part == of }
	reports := reportsOf(s, Options{Brief: true}, a)
	out, _ := ofJob(s, reports, wanted)
	for i, b := range s.Bays {
		if of == Unsearched || of == Poured || b.Twin == i {
			r := reports[b.Twin].as(&s.Bays[i])
			out = slices.Concat(out, r.judgeAll(s, false, wanted), r.judgeAll(s, true, wanted))
		}
	}
	return entries(out)
}

// as is the report of a bay as it is for a twin.
func (r *Examined) as(b *model.Bay) *Examined {
	twin := *r
	twin.Found, twin.onWay, twin.pouring, twin.leftOut = r.Found.As(b), nil, nil, nil
	own := *r.bay
	own.Bay, twin.bay = twin.Found.Bay, &own
	return &twin
}

// ReadingsAlone are the checks of settings, readings and length, before anything
// moves.
func ReadingsAlone(s *model.Study) []result.Entry {
	limits, tol := LimitsOf(s.Job), allow.Of(s.Job)
	var out []Judged
	for _, i := range s.Reported() {
		b := worded(measure.AtRestIn(&s.Bays[i], s.Job, tol), s.Job, limits)
		out = append(out, slices.Concat(b.rangeChecks(), b.restChecks(), []Judged{b.lengthCheck()})...)
	}
	return entries(out)
}

// StepsAlone are the checks of the steps of the collapse that are asked for by name
// and can be made.
func StepsAlone(s *model.Study, asked func(name string) bool) []result.Entry {
	reports := reportsOf(s, Options{}, measure.Ask{Steps: asked})
	var out []Judged
	for _, i := range s.Reported() {
		for k, step := range reports[i].bay.Steps {
			if step.Stop == nil && asked(step.Name) {
				out = append(out, reports[i].stepChecks(k)...)
			}
		}
	}
	return entries(out)
}

// stepChecks are the checks of one step by itself.
func (r *Examined) stepChecks(k int) []Judged {
	var out []Judged
	for _, c := range table {
		if c.step != nil {
			out = append(out, c.step(r.bay, r.bay.Steps[k], r.Found.Strip[k])...)
		}
	}
	return out
}
