package check

import (
	"fmt"

	"boxwalk/clearance/allow"
	"boxwalk/clearance/result"
	"boxwalk/model/carrier"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// grows are the limits that are looser when they are more: what may be off, slide
// or lean. Of the others more is asked for.
var grows = map[string]bool{"setup.faces": true, "strip.drag": true, "raise.lift": true, "roll.mid_ordinate": true, "pour.sag": true}

// looserThanDefault lists what a job and its gear set looser than the defaults:
// limits, tolerances, then the rest in the order of the keys.
func looserThanDefault(j *job.Job, g *job.Gear) []result.Looser {
	l := loosening{imperial: j.Job.Units == units.Imperial.String()}
	l.limits(LimitsOf(j))
	l.tolerances(allow.Of(j), allow.Of(&job.Job{Travel: job.Travel{Wander: j.Travel.Wander}, Culvert: j.Culvert}))
	for _, c := range append(job.Choices(j), job.Choices(g)...) {
		if c.Looser() {
			l.add(c.Key, c.Kind, c.Value, c.Standard, c.Source)
		}
	}
	l.panels(g)
	l.joints(j)
	return l.list
}

// loosening collects what is looser.
type loosening struct {
	imperial bool
	list     []result.Looser
}

func (l *loosening) limits(of Limits) {
	seen := map[string]bool{}
	for _, d := range defaultLimits() {
		v := of.of(d.ID).Value
		if d.Key != "" && !seen[d.Key] && (v < d.Value) != grows[d.Key] && v != d.Value {
			seen[d.Key] = true
			l.add("limits."+d.Key, units.KindLength, v, d.Value, d.Source)
		}
		if d.ID != "strip.clear" {
			continue
		}
		for _, zone := range zonesWithLimits {
			if v, ok := of.zones[zone]; ok && v < d.Value {
				l.add("limits.strip.clear."+string(zone), units.KindLength, v, d.Value, d.Source)
			}
		}
	}
}

// tolerances are looser when less is taken off.
func (l *loosening) tolerances(of, standard allow.Tolerances) {
	base := standard.All()
	for i, e := range of.All() {
		if e.Value < base[i].Value {
			l.add("tolerance."+e.Key, units.KindLength, e.Value, base[i].Value, base[i].Source)
		}
	}
}

// panels are lighter than panels are: a slip of a digit makes a carrier half as heavy.
func (l *loosening) panels(g *job.Gear) {
	usual := carrier.MassRanges()[0]
	for _, p := range []struct {
		key  string
		mass *units.Number
	}{{"wall.mass", g.Wall.Mass}, {"corner.mass", g.Corner.Mass}, {"roof.mass", g.Roof.Mass}} {
		if p.mass != nil && float64(*p.mass) < usual.Low {
			l.list = append(l.list, result.Looser{Key: p.key, Value: float64(*p.mass), Default: usual.Low, Unit: usual.Unit,
				Text: fmt.Sprintf("%s is %g kg/m2 of face; panels weigh %g to %g (%s)", p.key, float64(*p.mass), usual.Low, usual.High, usual.Source)})
		}
	}
}

func (l *loosening) add(key string, kind units.Kind, v, standard float64, source string) {
	text := fmt.Sprintf("%s is %s; the default is %s (%s)", key, l.said(kind, v), l.said(kind, standard), source)
	if v == 0 {
		text = fmt.Sprintf("%s is zero, which takes it out of the check; the default is %s (%s)", key, l.said(kind, standard), source)
	}
	l.list = append(l.list, result.Looser{Key: key, Value: v, Default: standard, Unit: resultUnit(kind), Text: text})
}

// said is a number in the job's units.
func (l *loosening) said(kind units.Kind, v float64) string {
	if l.imperial {
		return kind.Short(v, units.Imperial)
	}
	return kind.Text(v, units.Metric)
}

// resultUnit is the unit of a kind in a result.
func resultUnit(k units.Kind) string {
	if k == units.KindLength {
		return "m"
	}
	return "1"
}
