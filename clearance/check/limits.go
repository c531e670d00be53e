package check

import (
	"boxwalk/clearance/measure"
	"boxwalk/model/culvert"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// Limit is one limit with where it comes from. Metres.
type Limit struct {
	ID     string
	Key    string // key in the job's limits group; empty where it is fixed
	Value  float64
	Source string
	Words  string
}

// The default limits, in metres. All are judgement unless their source says
// otherwise; a job may replace those that have a key.
var defaults = []Limit{
	{"setup.faces", "setup.faces", 0.003, "judgement", "distance of a raised panel face from its design face, and open gap between faces"},
	{"setup.rest", "", 0.010, "judgement", "wheels off the invert when raised"},
	{"setup.rest.plates", "", 0.025, "judgement", "jack plates off the invert when the wheels carry, for joints and crests"},
	{"setup.rest.wheels", "", 0.001, "judgement", "wheels on the invert when they carry"},
	{"strip.dig", "", -measure.ContactTolerance, "rounding", "no part enters concrete; a face that touches by design may show rounding"},
	{"strip.drag", "strip.drag", 0, "judgement", "sliding of a face or an edge while in contact"},
	{"strip.self", "", 0, "geometry", "no two bodies or links of the carrier overlap"},
	{"strip.self.seams", "", -measure.ContactTolerance, "rounding", "seams may touch and never overlap"},
	{"strip.release", "strip.release", 0.003, "judgement", "release gap while collapsing"},
	{"strip.clear", "strip.clear", 0.025, "judgement", "travel clearance when collapsed"},
	{"strip.supports", "strip.release", 0.003, "judgement", "hangers, plates and nuts stay clear"},
	{"raise.lift", "raise.lift", 0.015, "judgement; BS 5975 has it for falsework uprights, from memory", "out of level over 1 m while pads are lifted one after the other"},
	{"raise.clear", "strip.release", 0.003, "judgement", "nothing touches on the way up"},
	{"roll.clear", "roll.clear", 0.025, "judgement", "clearance while rolling ahead"},
	{"roll.track", "", 0.025, "judgement", "treads off haunch toes, kickers and channel"},
	{"roll.support", "", 0.100, "judgement", "wheels inside the end of the placed invert"},
	{"roll.bend.mid", "roll.mid_ordinate", 0.010, "judgement", "distance of a straight pour from the design line"},
	{"roll.bend.lap", "setup.faces", 0.003, "judgement", "dig of a form that reaches across an angle point"},
	{"roll.tip", "", 1.5, "judgement", "restoring over overturning moment"},
}

// Limits of a job.
type Limits struct {
	values map[string]Limit
	zones  map[culvert.Zone]float64
}

// LimitsOf takes the defaults and what the job puts in their place.
func LimitsOf(j *job.Job) Limits {
	l := Limits{values: map[string]Limit{}, zones: map[culvert.Zone]float64{}}
	given := map[string]*units.Length{
		"setup.faces": j.Limits.SetupFaces, "strip.drag": j.Limits.StripDrag,
		"strip.release": j.Limits.StripRelease, "roll.clear": j.Limits.RollClear,
		"roll.mid_ordinate": j.Limits.MidOrdinate, "raise.lift": j.Limits.RaiseLift,
	}
	for _, d := range defaults {
		if v := given[d.Key]; v != nil {
			d.Value, d.Source = float64(*v), "the job"
		}
		l.values[d.ID] = d
	}
	if z := j.Limits.StripClear; z != nil {
		for zone, v := range map[culvert.Zone]*units.Length{culvert.Roof: z.Roof, culvert.HaunchTop: z.HaunchTop, culvert.Wall: z.Wall,
			culvert.Kicker: z.Kicker, culvert.HaunchBottom: z.HaunchBottom, culvert.Hanger: z.Hanger} {
			if v != nil {
				l.zones[zone] = float64(*v)
			}
		}
	}
	return l
}

// zonesWithLimits are those to which a job may set the travel clearance.
var zonesWithLimits = []culvert.Zone{culvert.Roof, culvert.HaunchTop, culvert.Wall, culvert.Kicker, culvert.HaunchBottom, culvert.Hanger}

// of a check, by its id.
func (l Limits) of(id string) Limit { return l.values[id] }

// travel clearance of a zone when collapsed.
func (l Limits) travel(z culvert.Zone) Limit {
	out := l.values["strip.clear"]
	if v, ok := l.zones[z]; ok {
		out.Value, out.Source = v, "the job"
	}
	return out
}

// All limits in the order of the table.
func (l Limits) All() []Limit {
	var out []Limit
	for _, d := range defaults {
		out = append(out, l.values[d.ID])
	}
	return out
}
