package proof

import "slices"

// cover holds that each step is claimed against everything around and among the
// parts themselves. Where the proof is of some checks only, that is asked of
// each entry that it makes: one that several claims make is shown by all of
// them or not at all.
func (v *verifier) cover() {
	for _, c := range v.carriers {
		v.coverSelf(c)
	}
	for _, p := range v.places {
		for _, s := range append(slices.Clone(p.carrier.steps), p.steps...) {
			for _, zone := range v.order {
				v.coverZone(p, s, zone)
			}
		}
	}
}

// coverSelf wants every strip step among the parts themselves, or where the proof
// is of some checks only, all up to the last that it claims: what rests in one is
// shown in those before.
func (v *verifier) coverSelf(c *carrier) {
	claimed := false
	for i := len(c.steps) - 1; i >= 0; i-- {
		s := c.steps[i]
		if s.kind != strip || len(s.present) == 0 {
			continue
		}
		about := &claim{carrier: c, step: s, set: "self"}
		if claimed = claimed || v.report.Whole || v.served[about.key()] != nil; claimed {
			v.mustServe(about, "strip.self", "among the parts")
		}
	}
}

func (v *verifier) coverZone(p *place, s *step, zone string) {
	v.t.charge(16 + 2*len(p.solids))
	if v.t.bad != nil || len(s.present) == 0 || len(p.around(s, zone)) == 0 {
		return
	}
	one := &claim{carrier: p.carrier, place: p, step: s, set: zone}
	switch {
	case s.kind == end:
		v.must(p, one, "strip.clear")
	case s.kind == raise:
		v.must(p, one, "raise.clear")
	case s.kind == roll:
		v.must(p, one, "roll.clear")
	case !kept(zone):
		v.must(p, one, "strip.dig")
		v.must(p, one, "strip.clear")
	case zone == "hanger":
		for _, k := range p.around(s, zone) {
			v.t.charge(64)
			one.set = zone + ":" + p.solids[k].kind
			v.must(p, one, "strip.supports")
		}
	}
}

// must holds that a claim serves a check against a place, or that the proof makes
// no such entry.
func (v *verifier) must(p *place, about *claim, id string) {
	_, subject := v.subject(about, id, p.names[0])
	if _, made := v.known[[2]string{id, subject}]; made || v.report.Whole {
		v.mustServe(about, id, p.names[0])
	}
}

func (v *verifier) mustServe(about *claim, id, name string) {
	c := v.served[about.key()]
	if c == nil || !slices.ContainsFunc(c.needs, func(n need) bool { return n.id == id && !n.touch }) {
		v.t.fail("%s, step %q against %s: no claim serves %s", name, about.step.name, about.set, id)
	}
}
