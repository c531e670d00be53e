package check

import (
	"fmt"

	"boxwalk/clearance/result"
	"boxwalk/clearance/statics"
	"boxwalk/model"
	"boxwalk/model/culvert"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// bondChecks hold what it may take to break the bond against what the adjusters pull
// that draw the walls off, and against the weight that draws the roof down. An estimate.
func (b *bay) bondChecks(s *model.Study) []Judged {
	bond := statics.BondOf(b.Bay.Bay)
	var out []Judged
	for _, p := range bond.Walls {
		if p.Adjuster.Side == culvert.Left || p.Adjuster.Name == "" {
			out = append(out, b.bondPull(s, p))
		}
	}
	if len(out) == 0 {
		out = append(out, b.nothingDrawn("wall panels", "no adjuster draws the walls off by itself: they come off with what carries them"))
	}
	if bond.Roof == nil {
		return append(out, b.nothingDrawn("roof", "no step lowers the roof"))
	}
	return append(out, b.bondRoof(s, bond.Roof))
}

func (b *bay) nothingDrawn(what, text string) Judged {
	e := entry("break.bond", b.subject(what), nil, Limit{Source: "the order of steps"}, result.Max, text)
	e.Unit, e.Limit = "kN", nil
	return e
}

// bondPull holds the pull of one adjuster that draws a wall off; both sides are alike.
func (b *bay) bondPull(s *model.Study, p statics.BondPull) Judged {
	q := s.Job.Release.Bond
	most := float64(q.Most) * p.Per
	where := b.at(p.Step)
	var w result.Working
	w.Given("q", "bond, the most", float64(q.Most), "kPa", "release.bond.most: "+whose(s.Job, "release.bond.most"))
	w.Given("V", "volume that the faces of one side sweep for each metre by which the adjuster moves, as the step begins", p.Ride, "m2", "virtual work, from the joints (derived)")
	w.Given("L", "length of the form", float64(b.Carrier.Gear.Form.Length), "m", "form.length (gear)")
	w.Given("l", "longest piece of form that one bent draws", p.Bent, "m", "form.spacing, form.first (gear)")
	w.Step("F", "pull of one adjuster", "q * V / L * l", "kN", "virtual work (derived)")
	pull := b.Carrier.Gear.Pulls
	var stated *float64
	if v, ok := pull[p.Adjuster.Name]; ok {
		f := float64(v)
		stated = &f
	}
	return b.held(holding{id: "break.bond", about: b.subject(p.Adjuster.Name).In(p.Step), where: where, unit: "kN", demand: Demand{Live: most}, working: w.Lines(),
		rating: b.Carrier.Gear.Rated("pulls."+p.Adjuster.Name, stated), bearer: "one " + p.Adjuster.Name, verb: "pulls", source: "virtual work (derived); " + bondSource(s.Job),
		remedy: "loosen the panels from one end with wooden wedges, so that they peel; bring more or stronger adjusters (pulls, as their maker states it)",
		text: func(demand string) string {
			return fmt.Sprintf("a bond of %s to %s on %.1f m2 a side takes %s to %s at each bent if it breaks everywhere at once, less where panels peel from an edge (an estimate)",
				b.pressure(float64(q.Least)), b.pressure(float64(q.Most)), p.Face, b.upward("kN", float64(q.Least)*p.Per), demand)
		}})
}

// pressure prints kilopascals.
func (b *bay) pressure(v float64) string { return inUnit(v, b.shown("kPa")) }

// bondRoof holds the bond of the roof against the least weight that comes down: jacks
// push, they do not pull.
func (b *bay) bondRoof(s *model.Study, r *statics.BondRoof) Judged {
	q := s.Job.Release.Bond
	weighs, pulls, why := r.Weight.Low*gravity/1000, 0.0, "jacks push and do not pull, so that what comes down in this step must draw it off by its weight"
	if v, ok := b.Carrier.Gear.Pulls[r.Puller]; ok {
		var h holder
		f := float64(v)
		h.rated(b, b.Carrier.Gear.Rated("pulls."+r.Puller, &f), s.Job.LoadFactors.Live)
		pulls = h.force * float64(r.Pullers)
		why = fmt.Sprintf("%d pieces of %s pull it down with %s together beside the weight that comes down in this step", r.Pullers, r.Puller, b.force(units.Force(pulls)))
	}
	value := result.Between(float64(q.Least)*r.Face, float64(q.Most)*r.Face)
	c := candidate{Value: value, where: b.at(r.Step)}
	demand, has := b.against("kN", value.Upper, weighs+pulls)
	c.text = fmt.Sprintf("a bond of %s to %s on %.1f m2 holds with %s to %s if it breaks everywhere at once (an estimate); %s, %s at least: lower little by little and watch that the roof follows the jacks, for what hangs by its bond falls",
		b.pressure(float64(q.Least)), b.pressure(float64(q.Most)), r.Face, b.upward("kN", value.Lower), demand, why, has)
	e := entry("break.bond", b.subject("roof").In(r.Step), []candidate{c}, Limit{Value: weighs + pulls, Source: "parts list (gear), light end; " + bondSource(s.Job)}, result.Max, "")
	e.Unit = "kN"
	if e.Verdict != result.Pass {
		e.Remedy = "draw the roof form off by jacks or wedges that bear on the concrete, from one end, while the screw jacks follow; oil the faces better before the pour (release.bond)"
	}
	var w result.Working
	w.Given("q", "bond, the most", float64(q.Most), "kPa", "release.bond.most: "+whose(s.Job, "release.bond.most"))
	w.Given("A", "faces that come down, as they lie in plan", r.Face, "m2", "parts list (gear)")
	w.Step("F", "what the bond holds", "q * A", "kN", "")
	return e.with(w.Lines())
}

// bondSource is whose numbers the bond is.
func bondSource(j *job.Job) string {
	return coefficients("bond", j, "release.bond.least", "release.bond.most")
}
