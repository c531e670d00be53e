package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// friction is what a job counts on for holding the carrier, and what would have to
// be held without it.
type friction struct {
	least   float64 // coefficient
	source  string
	unaided units.Force // the most that a restraint takes with no friction at all
}

// friction that is counted on on this way.
func (r *route) friction() friction {
	t := r.job.Travel.Rolling
	out := friction{least: float64(t.Least), source: t.Source, unaided: units.Force(math.NaN())}
	p, err := load.Rolling{Weight: r.weight, Slope: units.Slope(r.worse(r.steep)), Most: float64(t.Most), Breakaway: float64(r.job.Travel.Breakaway)}.Demands()
	if err == nil {
		out.unaided = p.Hold
	}
	return out
}

// words say what is relied on, for whoever sets the restraint.
func (f friction) words(r *route) string {
	return fmt.Sprintf("rolling friction of %.4g is relied on for holding (travel.rolling.least, source: %s); without it the restraint must take %s", f.least, f.source, r.bay.demand(f.unaided))
}

// frictionNote is the sentence that stands wherever the verdict does, with the most
// over all ways; empty where no friction is counted on.
func frictionNote(s *model.Study, reports []*Examined) string {
	if s.Job.Travel.Rolling.Least == 0 {
		return ""
	}
	note, most := "", units.Force(-1)
	for _, b := range s.Bays {
		r := reports[b.Twin].as(&b)
		if !r.bay.RollsAway() {
			continue
		}
		way := r.bay.onTheWay(s)
		if f := way.friction(); f.unaided > most {
			note, most = f.words(way), f.unaided
		}
	}
	return note
}

// tellFriction puts the sentence where what is set looser than its default stands.
func tellFriction(list []result.Looser, note string) {
	for i := range list {
		if list[i].Key == "travel.rolling.least" && note != "" {
			list[i].Text += "; " + note
		}
	}
}
