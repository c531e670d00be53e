package clearance

import (
	"fmt"
	"math"
	"slices"

	"boxwalk/model"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// dimension is one thing that a job or a gear can have otherwise.
type dimension struct {
	name, file, key string
	from            float64 // as it is, m
	step            float64 // between values it can take, m
	stepped         bool    // it takes no value between steps
	least, most     float64
	reach           bool   // it only counts where a setting cannot be reached
	turned          string // the step it is a reading of; empty for what is set before all of them
	words           string // before the number, where it is counted from something: "raised "
	set             func(j *job.Job, g *job.Gear, v units.Length)
}

// millimetre is the step of what is stepless: nobody sets finer.
const millimetre = 1e-3

// value after n steps.
func (d dimension) value(n int) float64 { return d.from + float64(n)*d.step }

// size of a change relative to the dimension as it is.
func (d dimension) size(v float64) float64 {
	if d.from == 0 {
		return 1
	}
	return math.Abs(v-d.from) / math.Abs(d.from)
}

// reaches is how many steps from where it is a change of that size takes, and
// not more than anybody looks at.
func (d dimension) reaches(size float64) int {
	const most = 1 << 12
	switch n := size * math.Abs(d.from) / d.step; {
	case d.from == 0 && size < 1:
		return 0
	case d.from == 0 || n > most:
		return most
	default:
		return int(n)
	}
}

// say prints a value as the file has it.
func (d dimension) say(v float64) string {
	switch {
	case d.words == "":
		return mm(v)
	case v < 0:
		return fmt.Sprintf("%s - %s", d.words, mm(-v))
	}
	return fmt.Sprintf("%s + %s", d.words, mm(v))
}

// at sets the dimension in copies of job and gear.
func (d dimension) at(j *job.Job, g *job.Gear, v float64) (*job.Job, *job.Gear) {
	jc, gc := *j, *g
	d.set(&jc, &gc, units.Length(v))
	return &jc, &gc
}

// stepless is a dimension of the gear that can be made to any size above
// nothing.
func stepless(name, key string, from units.Length, set func(g *job.Gear, v units.Length)) dimension {
	return dimension{name: name, file: "gear", key: key, from: float64(from), step: millimetre, least: millimetre, most: math.Inf(1),
		set: func(_ *job.Job, g *job.Gear, v units.Length) { set(g, v) }}
}

// dimensions that may cure a study, easiest for the crew first.
func dimensions(s *model.Study) []dimension {
	out := readings(s)
	out = append(out, settings(s)...)
	out = append(out, panels(s)...)
	return append(out, steel(s.Gear)...)
}

// readings are the targets of every driver in every step.
func readings(s *model.Study) []dimension {
	var out []dimension
	file, key, list := "gear", "steps", s.Gear.Steps
	if len(s.Job.Sequence) > 0 {
		file, key, list = "job", "sequence", s.Job.Sequence
	}
	for i, step := range list {
		for _, name := range job.SortedKeys(step.Drivers) {
			t := step.Drivers[name]
			d := dimension{name: fmt.Sprintf("%s in step %q", name, step.Step), file: file, key: fmt.Sprintf("%s[%d].drivers.%s", key, i, name),
				from: float64(t.By), step: millimetre, least: math.Inf(-1), most: math.Inf(1), words: t.From, turned: step.Step}
			d.set = func(j *job.Job, g *job.Gear, v units.Length) {
				steps := slices.Clone(list)
				drivers := map[string]job.Target{}
				for k, have := range step.Drivers {
					drivers[k] = have
				}
				drivers[name] = job.Target{From: t.From, By: v}
				steps[i].Drivers = drivers
				if file == "job" {
					j.Sequence = steps
				} else {
					g.Steps = steps
				}
			}
			out = append(out, d)
		}
	}
	return out
}

// settings are what a job sets on the gear as it is: the leg's hole, the gauge.
// They are counted from the first cell's.
func settings(s *model.Study) []dimension {
	set := s.Bays[0].Carrier.Setting
	one := func(name, key string, a job.Adjust, from float64, put func(j *job.Job, v units.Length)) dimension {
		d := dimension{name: name, file: "job", key: key, from: from, step: float64(a.Increment), stepped: true, least: float64(a.Min) - 1e-9, most: float64(a.Max) + 1e-9,
			set: func(j *job.Job, _ *job.Gear, v units.Length) { put(j, v) }}
		if a.Increment == 0 {
			d.step, d.stepped = millimetre, false
		}
		return d
	}
	return []dimension{
		one("the legs' pin holes", "set.leg", s.Gear.Frame.Leg.Length, set.Leg, func(j *job.Job, v units.Length) { j.Set.Leg = &v }),
		one("the gauge", "set.gauge", s.Gear.Frame.Gauge, set.Gauge, func(j *job.Job, v units.Length) { j.Set.Gauge = &v }),
	}
}

// panels are what a panel shop makes: a roof panel or filler panel of another
// size, a packing between header and stringers.
func panels(s *model.Study) []dimension {
	set := s.Bays[0].Carrier.Setting
	packing := stepless("the packing between header and stringers", "roof.seat", s.Gear.Roof.Seat, func(g *job.Gear, v units.Length) { g.Roof.Seat = v })
	packing.most = packing.from + mostPacking
	out := []dimension{
		packing,
		stepless("the roof panels' width", "roof.widths", units.Length(set.Panel), func(g *job.Gear, v units.Length) { g.Roof.Widths = []units.Length{v} }),
	}
	filler := stepless("a wall panel", "wall.heights", 0, func(g *job.Gear, v units.Length) { g.Wall.Heights = append(slices.Clone(g.Wall.Heights), v) })
	return append(out, filler)
}

// mostPacking is what one packs up before a member of another length is
// wanted; judgement.
const mostPacking = 0.05

// steel are members that are cut or drilled otherwise.
func steel(g *job.Gear) []dimension {
	out := []dimension{
		stepless("the leg tubes", "frame.leg.outer, frame.leg.inner and frame.leg.length", g.Frame.Leg.Outer, func(g *job.Gear, v units.Length) {
			leg := &g.Frame.Leg
			leg.Outer, leg.Inner, leg.Length.Min, leg.Length.Max = v, v, v, 2*v-leg.Overlap
		}),
		formLength(g.Form.Length),
		stepless("the header tubes", "frame.header.length", g.Frame.Header.Length, func(g *job.Gear, v units.Length) { g.Frame.Header.Length = v }),
	}
	if a := g.Frame.Header.Arm; a != nil {
		out = append(out, stepless("the header arms", "frame.header.arm.length", a.Length, func(g *job.Gear, v units.Length) {
			longer := *g.Frame.Header.Arm
			longer.Length = v
			g.Frame.Header.Arm = &longer
		}))
	}
	if g.Hinge != nil {
		out = append(out, stepless("the hinge above the top of the plane wall face", "hinge.above", g.Hinge.Above, func(g *job.Gear, v units.Length) {
			moved := *g.Hinge
			moved.Above = v
			g.Hinge = &moved
		}))
		out[len(out)-1].least = math.Inf(-1)
	}
	for i, l := range g.Links {
		out = append(out, linkEnd(i, l.Name, "longest", l.Length.Max, func(a *job.Adjust, v units.Length) { a.Max = v }))
		out = append(out, linkEnd(i, l.Name, "shortest", l.Length.Min, func(a *job.Adjust, v units.Length) { a.Min = v }))
	}
	return out
}

// formLength counts where a pour is longer than the form.
func formLength(from units.Length) dimension {
	d := stepless("the form's length", "form.length", from, func(g *job.Gear, v units.Length) { g.Form.Length = v })
	d.reach = true
	return d
}

// linkEnd is one end of a link's range.
func linkEnd(i int, name, end string, from units.Length, put func(a *job.Adjust, v units.Length)) dimension {
	key := map[string]string{"longest": "max", "shortest": "min"}[end]
	d := stepless(fmt.Sprintf("the %s length of the %s", end, name), fmt.Sprintf("links[%d].length.%s", i, key), from, func(g *job.Gear, v units.Length) {
		g.Links = slices.Clone(g.Links)
		put(&g.Links[i].Length, v)
	})
	d.reach = true
	return d
}
