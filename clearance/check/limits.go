package check

import (
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

// defaultLimits are those of all checks, in the order of the table. All are judgement
// unless their source says otherwise; a job may replace those that have a key.
func defaultLimits() []Limit {
	var out []Limit
	for _, c := range table {
		out = append(out, c.Limits...)
	}
	return out
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
		"roll.mid_ordinate": j.Limits.MidOrdinate, "raise.lift": j.Limits.RaiseLift, "pour.sag": j.Limits.PourSag,
	}
	for _, d := range defaultLimits() {
		if v := given[d.Key]; v != nil {
			d.Value, d.Source = float64(*v), statedBy(float64(*v), d.Value)
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

// statedBy is the source of a number that the job states beside its default.
func statedBy(v, standard float64) string {
	if v == standard {
		return job.EqualToDefault
	}
	return "the job"
}

// zonesWithLimits are those to which a job may set the travel clearance.
var zonesWithLimits = []culvert.Zone{culvert.Roof, culvert.HaunchTop, culvert.Wall, culvert.Kicker, culvert.HaunchBottom, culvert.Hanger}

// of a check, by its id.
func (l Limits) of(id string) Limit { return l.values[id] }

// Travel clearance of a zone when collapsed.
func (l Limits) Travel(z culvert.Zone) Limit {
	out := l.values["strip.clear"]
	if v, ok := l.zones[z]; ok {
		out.Value, out.Source = v, statedBy(v, out.Value)
	}
	return out
}

// All limits in the order of the table.
func (l Limits) All() []Limit {
	var out []Limit
	for _, d := range defaultLimits() {
		out = append(out, l.values[d.ID])
	}
	return out
}
