package check

import (
	"fmt"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/job"
)

// anchorChecks hold what pulling line and restraint are made fast to.
func (r *route) anchorChecks(*model.Study) []Judged {
	t := r.job.Travel
	up, err := r.demands(r.up + r.off)
	down, bad := r.demands(r.worse(r.steep))
	if err != nil || bad != nil {
		return []Judged{open("roll.anchor", r.bay.subject("advance"), "kN", "pull and restraint are not known: see roll.pull", r.bay.underway())}
	}
	out := []Judged{r.nothingAnchored("pulling line", "the crew pulls: no line is made fast")}
	if t.PulledBy != "crew" {
		out[0] = r.anchored("pulling line", "anchors.line", "pull that starts it", float64(up.Starting), r.job.Anchors.Line, r.workedPull())
	}
	switch {
	case !down.NeedsHold:
		return append(out, r.nothingAnchored("restraint", "nothing has to be held back"))
	case t.Restraint == nil:
		return append(out, r.nothingAnchored("restraint", "no restraint is stated: roll.hold says what one has to take"))
	}
	return append(out, r.anchored("restraint", "anchors.restraint", "what the restraint has to take", float64(down.Hold), r.job.Anchors.Restraint, r.workedHold()))
}

func (r *route) nothingAnchored(what, text string) Judged {
	e := entry("roll.anchor", r.bay.subject(what), nil, Limit{Source: "nothing to hold"}, result.Max, text)
	e.Unit, e.Limit = "kN", nil
	return e
}

// anchored holds one anchor.
func (r *route) anchored(what, key, means string, pull float64, a *job.Anchorage, lines []result.Line) Judged {
	parts, snatch := 1.0, 2.0 // as the keys' defaults are, where there is no anchor to state others
	var stated *float64
	if a != nil {
		parts, snatch, stated = float64(a.Parts), float64(a.Snatch), job.Pointed(a.Capacity)
	}
	var w result.Working
	for _, l := range lines {
		if l.Formula == "" {
			w.Given(l.Symbol, l.Means, l.Value, l.Unit, l.From)
		} else {
			w.Step(l.Symbol, l.Means, l.Formula, l.Unit, l.From)
		}
	}
	w.Given("n", "pull on the anchor over pull on the carrier", parts, "1", key+".parts")
	w.Given("phi", "what jerks multiply it by", snatch, "1", key+".snatch")
	if len(lines) > 0 {
		w.Step("A", "pull on the anchor", lines[len(lines)-1].Symbol+" * n * phi", "kN", "statics (derived)")
	}
	return r.bay.held(holding{id: "roll.anchor", about: r.bay.subject(what), where: r.bay.underway(), unit: "kN", demand: Demand{Live: pull * parts * snatch},
		rating: r.job.Rated(key+".capacity", stated), bearer: "the anchor", verb: "holds", working: w.Lines(), source: "statics (derived); snatch, default: a load let go suddenly onto a line pulls twice as hard",
		text: func(demand string) string {
			return fmt.Sprintf("%s, %s, x %.3g for parts x %.3g for jerks: %s", means, r.bay.upward("kN", pull), parts, snatch, demand)
		}})
}
