package fix

import (
	"boxwalk/clearance/result"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// longestWait is the age in seconds up to which concrete is waited for: 28 days,
// where strength is specified (EN 1992-1-1 3.1.2).
const longestWait = 28 * 24 * 3600

// means are what the crew brings or waits for, the gear as it is: each has a
// part in one check alone.
func means(j *job.Job) []dimension {
	put := func(set func(j *job.Job, v float64)) func(*job.Job, *job.Gear, float64) {
		return func(j *job.Job, _ *job.Gear, v float64) { set(j, v) }
	}
	line := dimension{name: "what the pulling line can pull", file: "job", key: "travel.capacity", mends: []string{"roll.pull"}, bring: "bring a pulling line that pulls %s", kind: units.KindForce,
		from: float64(j.Travel.Capacity), least: 0, most: mostForce, set: put(func(j *job.Job, v float64) { j.Travel.Capacity = units.Force(v) })}
	hold := dimension{name: "a restraint", file: "job", key: "travel.restraint.capacity", mends: []string{"roll.hold"}, bring: "bring a restraint that holds %s", kind: units.KindForce,
		least: 1e-3, most: mostForce, set: put(func(j *job.Job, v float64) { j.Travel.Restraint = &job.Restraint{Capacity: units.Force(v)} })}
	if have := j.Travel.Restraint; have != nil {
		hold.name, hold.from = "what the restraint can hold", float64(have.Capacity)
	}
	return append(waits(j), line, hold)
}

// waits are what an invert that is too young is waited for: an age where that
// tells its strength, or what cylinders show. Nobody waits longer than an age
// that was not stated.
func waits(j *job.Job) []dimension {
	if tested := j.Concrete.InvertStrength; tested != nil {
		return []dimension{{name: "the strength of the invert by cylinders when wheels run on it", file: "job", key: "concrete.invert_strength", mends: []string{"roll.bearing"}, bring: "wait until cylinders cured with the invert show %s", kind: units.KindPressure,
			from: float64(*tested), least: 0, most: mostStrength, set: func(j *job.Job, _ *job.Gear, v float64) {
				strength := units.Pressure(v)
				j.Concrete.InvertStrength = &strength
			}}}
	}
	if j.Schedule.InvertAge == nil || j.Concrete.Curing == nil {
		return nil
	}
	return []dimension{{name: "the age of the invert when wheels run on it", file: "job", key: "schedule.invert_age", mends: []string{"roll.bearing"}, bring: "let the invert grow %s old before wheels run on it", kind: units.KindDuration,
		from: float64(*j.Schedule.InvertAge), least: 0, most: longestWait, also: warmth(j.Concrete.Curing), set: func(j *job.Job, _ *job.Gear, v float64) {
			age := units.Duration(v)
			j.Schedule.InvertAge = &age
		}}}
}

// mostStrength is what cylinders are waited for, kPa: the most that the bearing
// strength holds for.
const mostStrength = 90e3

// warmth says what a wait relies on: that the concrete stays as warm as stated.
func warmth(c *job.Curing) func(d dimension, v float64) string {
	return func(d dimension, _ float64) string {
		if c.Mean == nil {
			return ", cured as concrete.curing lists"
		}
		return ", kept at " + units.KindTemperature.Text(float64(*c.Mean), d.system) + " until then"
	}
}

// stronger is gear changed for stronger: what it carries is its
// maker's word.
func stronger(g *job.Gear) []dimension {
	force := func(name, bring, key, mends string, from units.Force, set func(g *job.Gear, v units.Force)) dimension {
		return dimension{name: name, ease: result.InYard, file: "gear", key: key, bring: bring, mends: []string{mends}, kind: units.KindForce, from: float64(from), least: 1e-3, most: mostForce,
			set: func(_ *job.Job, g *job.Gear, v float64) { set(g, units.Force(v)) }}
	}
	out := []dimension{
		force("what a wheel carries", "fit wheels that carry %s each", "wheels.capacity", "roll.wheel", g.Wheels.Capacity, func(g *job.Gear, v units.Force) { g.Wheels.Capacity = v }),
	}
	if c := g.Jack.Capacity; c == nil || len(c.Rows) == 0 { // what falls with the reading is no one number
		from := units.Force(0)
		if c != nil {
			from = c.Single
		}
		jack := force("what a screw jack carries", "fit screw jacks that carry %s each", "jack.capacity", "setup.jacks", from, func(g *job.Gear, v units.Force) { g.Jack.Capacity = &job.JackCapacity{Single: v} })
		jack.mends = append(jack.mends, "pour.jacks")
		out = append(out, jack)
	}
	if g.Lifting == nil {
		return out
	}
	load := lifting("what a lifting jack carries", "bring lifting jacks that carry %s each", "lifting.capacity", float64(g.Lifting.Capacity), mostForce, func(l *job.Lifting, v float64) { l.Capacity = units.Force(v) })
	load.kind = units.KindForce
	stroke := lifting("the stroke of a lifting jack", "bring lifting jacks with a stroke of %s", "lifting.stroke", float64(g.Lifting.Stroke), 2, func(l *job.Lifting, v float64) { l.Stroke = units.Length(v) })
	return append(out, load, stroke)
}

// passes are how high one pad is lifted at a time.
func passes(g *job.Gear) []dimension {
	if g.Lifting == nil {
		return nil
	}
	d := lifting("the pass of a lifting jack", "lift in passes of %s", "lifting.pass", float64(g.Lifting.Pass), 0.05, func(l *job.Lifting, v float64) { l.Pass = units.Length(v) })
	d.ease, d.mends = result.OnSite, []string{"raise.lift", "raise.clear"}
	return []dimension{d}
}

// lifting is a dimension of the lifting jacks.
func lifting(name, bring, key string, from, most float64, set func(l *job.Lifting, v float64)) dimension {
	return dimension{name: name, ease: result.InYard, file: "gear", key: key, bring: bring, mends: []string{"raise.lift"}, from: from, least: 1e-3, most: most,
		set: func(_ *job.Job, g *job.Gear, v float64) {
			l := *g.Lifting
			set(&l, v)
			g.Lifting = &l
		}}
}

// mostForce is what a job file takes for a line, in kN.
const mostForce = 1000

// apronStep is what a slab is set out to, in metres; judgement.
const apronStep = 0.05

// aprons are the slabs beyond the ends.
func aprons(j *job.Job) []dimension {
	one := func(end string, of func(j *job.Job) *job.EndWorks) dimension {
		return dimension{name: "the apron beyond the " + end, ease: result.InWorks, file: "job", key: "ends." + end + ".apron", mends: []string{"roll.support", "setup.rest"},
			from: float64(of(j).Apron), step: apronStep, least: 0, most: 100, set: func(j *job.Job, _ *job.Gear, v float64) { of(j).Apron = units.Length(v) }}
	}
	out := []dimension{
		one("inlet", func(j *job.Job) *job.EndWorks { return &j.Ends.Inlet }),
		one("outlet", func(j *job.Job) *job.EndWorks { return &j.Ends.Outlet }),
	}
	for i := range out {
		if out[i].from == 0 {
			out[i].name = "an apron" + out[i].name[len("the apron"):]
		}
	}
	return out
}
