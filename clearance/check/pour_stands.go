package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/clearance/statics"
	"boxwalk/model"
	"boxwalk/model/job"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// floatCheck holds the carrier's least weight against what lifts its form.
func (b *bay) floatCheck(s *model.Study) []Judged {
	const what = "uplift"
	p := b.pouring(s)
	if p.failed != nil {
		return []Judged{b.notKnown("lift.float", what, "1", p.failed)}
	}
	lift, err := statics.LiftOf(b.Cell.Section, p.fresh)
	if err != nil {
		return []Judged{b.notKnown("lift.float", what, "1", err)}
	}
	limit := b.limits.of("lift.float")
	if !lift.Sloped {
		e := entry("lift.float", b.subject(what), nil, limit, result.Min, "no face of the form looks down on fresh concrete: wall faces are upright, haunches and soffit lie under it")
		e.Unit = "1"
		return []Judged{e}
	}
	weight := b.Carrier.WeighRaised().Mass.Low * gravity / 1000
	up := float64(lift.Lift) * float64(b.Carrier.Gear.Form.Length)
	m, err := load.Floating{Lift: units.Force(up), Weight: units.Force(weight)}.Margin()
	if err != nil {
		return []Judged{b.notKnown("lift.float", what, "1", err)}
	}
	c := candidate{Value: *result.Exactly(m.Ratio), where: b.at(whilePoured), text: fmt.Sprintf("faces that slope over fresh concrete lift the form by %s at most; it weighs %s at least", b.force(m.Driving), b.force(m.Holding))}
	e := entry("lift.float", b.subject(what), []candidate{c}, limit, result.Min, "")
	e.Unit = "1"
	var w result.Working
	w.Given("G", "weight of the carrier, at least", weight, "kN", "parts list (gear), light end")
	w.Given("U", "lift of the faces that slope over the concrete", up, "kN", "pressure over their width, integrated")
	w.Step("s", "weight over lift", "G / U", "1", "")
	return []Judged{e.with(w.Lines())}
}

// frictionSafety is what stated friction is divided by before it holds a carrier under
// the thrust of a pour: judgement.
const frictionSafety = 1.5

// slideCheck holds what drives the carrier along or across against what holds it.
func (b *bay) slideCheck(s *model.Study) []Judged {
	const what = "sliding"
	p := b.pouring(s)
	if p.failed != nil {
		return []Judged{b.notKnown("pour.slide", what, "kN", p.failed)}
	}
	d, err := statics.SlideOf(b.Bay.Bay, s, p.fresh)
	if err != nil {
		return []Judged{b.notKnown("pour.slide", what, "kN", err)}
	}
	if d.Driving == 0 {
		return []Judged{b.nothing("pour.slide", what, "kN", "on the level, "+endsOf(d)+": nothing drives the carrier")}
	}
	friction, said := 0.0, "no friction is counted"
	if f := s.Job.Pour.Friction; f != nil {
		friction = d.Holds(float64(*f)) / frictionSafety
		said = fmt.Sprintf("friction of %.2f (%s) holds %s of its least weight %s, over %.1f", float64(*f), s.Job.Pour.FrictionSource, b.force(units.Force(friction)), b.force(units.Force(d.Light)), frictionSafety)
	}
	demand := math.Max(0, d.Driving-friction)
	text := func(load string) string {
		return fmt.Sprintf("%s, on %+.2f %%, %s along and %s across drive the carrier; %s; left to anchors: %s",
			endsOf(d), 100*d.Grade, b.force(units.Force(d.Ahead)), b.force(units.Force(d.Lateral)), said, load)
	}
	working := p.workedSlide(s, d)
	if demand == 0 {
		return []Judged{b.heldByFriction(text(b.demand(0)), working)}
	}
	return []Judged{b.held(holding{id: "pour.slide", about: b.subject(what), where: b.at(whilePoured), unit: "kN", text: text, source: "hydrostatics and statics (derived); pressure: " + p.fresh.Source,
		demand: Demand{Pressure: demand}, rating: s.Job.Rated("pour.anchor", job.Pointed(s.Job.Pour.Anchor)), bearer: "the anchor", verb: "holds", working: working})}
}

// heldByFriction is a carrier that friction holds by itself.
func (b *bay) heldByFriction(text string, working []result.Line) Judged {
	c := candidate{Value: *result.Exactly(0), where: b.at(whilePoured), text: text}
	e := entry("pour.slide", b.subject("sliding"), []candidate{c}, Limit{Source: "statics (derived); pour.friction: the job; 1.5 on it: judgement"}, result.Max, "")
	e.Unit = "kN"
	return e.with(working)
}

// endsOf says what stands at the ends of a pour.
func endsOf(d statics.Slide) string {
	switch {
	case d.Both:
		return "bulkheads at both ends, which push against each other through the form"
	case d.Bulkhead > 0:
		return "one bulkhead, at the front"
	case d.Bulkhead < 0:
		return "one bulkhead, at the rear"
	}
	return "no bulkhead that pushes on the carrier"
}
