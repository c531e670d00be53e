package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/clearance/statics"
	"boxwalk/model"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// lifted is one thing that is flown, with what is known of it.
type lifted struct {
	b     *bay
	s     *model.Study
	f     job.Flown
	key   string // in the job file
	mass  float64
	from  string
	along float64
	side  float64
	legs  statics.Legs
}

func slingChecks(s *model.Study, b *bay) []Judged {
	return eachFlown(s, b, "lift.slings", func(l lifted) Judged {
		return l.held("lift.slings", "sling", job.Pointed(l.f.Sling), l.legs.Leg(), "one leg", "holds", l.legWorking(), l.legWords)
	})
}

func pointChecks(s *model.Study, b *bay) []Judged {
	return eachFlown(s, b, "lift.points", func(l lifted) Judged {
		return l.held("lift.points", "point", job.Pointed(l.f.Point), l.legs.Leg(), "one lifting point", "holds", l.legWorking(), l.legWords)
	})
}

func hookChecks(s *model.Study, b *bay) []Judged {
	return eachFlown(s, b, "lift.hook", func(l lifted) Judged {
		return l.held("lift.hook", "hook", job.Pointed(l.f.Hook), l.legs.Weight, "the crane", "lifts", l.weightWorking().Lines(), func(demand string) string {
			return fmt.Sprintf("%s x %.3g for jerks: %s", l.weighs(), float64(l.f.Jerks), demand)
		})
	})
}

// eachFlown judges everything that is flown; there is one entry where nothing is.
func eachFlown(s *model.Study, b *bay, id string, judge func(l lifted) Judged) []Judged {
	if len(s.Job.Flown) == 0 {
		e := entry(id, result.Subject{What: "nothing flown"}, nil, Limit{Source: "the job"}, result.Max, "the job names nothing that a crane lifts (flown)")
		e.Unit, e.Limit = "kN", nil
		return []Judged{e}
	}
	var out []Judged
	for i, f := range s.Job.Flown {
		out = append(out, judge(b.lifted(s, f, fmt.Sprintf("flown[%d]", i))))
	}
	return out
}

// lifted weighs what is flown: as it was weighed, or from the parts.
func (b *bay) lifted(s *model.Study, f job.Flown, key string) lifted {
	l := lifted{b: b, s: s, f: f, key: key, mass: math.NaN(), from: "there is no such part"}
	if w, ok := statics.FlownOf(s, f.Of); ok {
		l.mass, l.along, l.side, l.from = w.Mass.High, w.Along, w.Across, fmt.Sprintf("parts list (gear), heavy end, %.0f %% of it guessed", 100*w.Guessed)
	}
	if f.Mass != nil {
		l.mass, l.from = float64(*f.Mass), key+".mass (job)"
	}
	l.legs = statics.LegsOf(f, l.mass, l.along, l.side)
	return l
}

func (l lifted) weighs() string {
	m := l.b.shown("kg")
	return fmt.Sprintf("%s weighs %s at most (%s)", l.f.What, m.With(m.Up(l.mass)), l.from)
}

// legWords say how a leg's force comes about.
func (l lifted) legWords(demand string) string {
	if l.f.Legs == 1 {
		return fmt.Sprintf("%s x %.3g for jerks on one leg: %s", l.weighs(), float64(l.f.Jerks), demand)
	}
	return fmt.Sprintf("%s x %.3g for jerks on %d legs, of which two are taken to carry, %s apart and %s from the vertical, the centre of gravity up to %s off their middle: one takes %s",
		l.weighs(), float64(l.f.Jerks), l.f.Legs, l.b.Distance(l.legs.Apart), inUnit(l.legs.Angle, l.b.shown("rad")), l.b.mm(l.legs.Off), demand)
}

// held is an entry against a capacity of what is flown; open where there is no force to
// hold.
func (l lifted) held(id, key string, stated *float64, force float64, bearer, verb string, working []result.Line, text func(string) string) Judged {
	about := result.Subject{What: l.f.What}
	switch {
	case math.IsNaN(force):
		return open(id, about, "kN", fmt.Sprintf("what %s weighs is not known: %s; write %s.mass", l.f.What, l.from, l.key), result.Where{})
	case math.IsInf(force, 0):
		return open(id, about, "kN", fmt.Sprintf("the centre of gravity of %s may be %s off the middle of its lifting points, which are %s apart: it may lie beyond them; set them farther apart (%s.apart, across) or nearer over it", l.f.What, l.b.mm(l.legs.Off), l.b.Distance(l.legs.Apart), l.key), result.Where{})
	}
	return l.b.held(holding{id: id, about: about, unit: "kN", demand: Demand{Live: force}, rating: l.s.Job.Rated(l.key+"."+key, stated), bearer: bearer, verb: verb,
		text: text, working: working, source: "statics (derived); jerks: " + whose(l.s.Job, "flown[].jerks")})
}

// weightWorking begins with what hangs on the hook.
func (l lifted) weightWorking() *result.Working {
	var w result.Working
	w.Given("m", "mass, at most", l.mass, "kg", l.from)
	w.Given("g", "gravity", gravity, "m/s2", "ISO 80000-3")
	w.Given("psi", "for lifting, swinging and setting down", float64(l.f.Jerks), "1", l.key+".jerks")
	w.Step("G", "what hangs on the hook", "m * g / 1000 * psi", "kN", "")
	return &w
}

func (l lifted) legWorking() []result.Line {
	w := l.weightWorking()
	if l.f.Legs == 1 {
		w.Step("F", "one leg", "G", "kN", "")
		return w.Lines()
	}
	w.Given("a", "lifting points apart, along", float64(l.f.Apart), "m", l.key+".apart")
	w.Given("c", "and across", float64(l.f.Across), "m", l.key+".across")
	w.Given("e_x", "centre of gravity off their middle, along, at most", l.along+float64(l.f.Off), "m", "parts list (gear); "+l.key+".off")
	w.Given("e_y", "and across", l.side, "m", "parts list (gear)")
	w.Given("b", "of a leg from the vertical", float64(units.Angle(l.legs.Angle)), "rad", l.key+".angle")
	w.Step("F", "one of the two legs that carry", "G * (1 / 2 + sqrt(e_x^2 + e_y^2) / sqrt(a^2 + c^2)) / cos(b)", "kN", "statics (derived)")
	return w.Lines()
}
