package proof

import "slices"

// cover holds that each step is claimed against everything around and among the
// parts themselves. Where the proof is of some checks only, that is asked of
// each entry that it makes: one that several claims make is shown by all of
// them or not at all.
func (v *verifier) cover() {
	for _, c := range v.carriers {
		for _, s := range c.steps {
			if s.kind == strip && len(s.present) > 0 && v.report.Whole {
				v.must(nil, &claim{carrier: c, step: s, set: "self"}, "strip.self")
			}
		}
	}
	for _, p := range v.places {
		for _, s := range append(slices.Clone(p.carrier.steps), p.steps...) {
			for _, zone := range v.order {
				v.coverZone(p, s, zone)
			}
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

// must holds that a claim serves a check. p is nil among the parts themselves.
func (v *verifier) must(p *place, about *claim, id string) {
	if c := v.served[about.key()]; c != nil {
		for _, n := range c.needs {
			if n.id == id && !n.touch {
				return
			}
		}
	}
	name := "among the parts"
	if p != nil {
		name = p.names[0]
		_, subject := v.subject(about, id, name)
		if _, made := v.known[[2]string{id, subject}]; !made && !v.report.Whole {
			return
		}
	}
	v.t.fail("%s, step %q against %s: no claim serves %s", name, about.step.name, about.set, id)
}
