package fix

import (
	"fmt"
	"math"
	"slices"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// dimension is one thing that a job or a gear can have otherwise.
type dimension struct {
	name, file, key string
	ease            result.Ease
	from            float64 // as it is, SI
	step            float64 // between values it can take, or nobody sets finer
	stepped         bool    // it takes no value between steps
	least, most     float64
	kind            units.Kind // a length unless told otherwise
	system          units.System
	reach           bool     // it only counts where a setting cannot be reached
	mends           []string // the only checks that it has a part in; none for many
	means           check.Means
	bring           string                              // of what is brought or waited for: the change, with its value to be filled in
	turned          string                              // the step it is a reading of; empty for what is set before all of them
	words           string                              // before the number, where it is counted from something: "raised"
	also            func(d dimension, v float64) string // what changes with it
	set             func(j *job.Job, g *job.Gear, v float64)
}

// finest is what nobody sets finer, by system: a millimetre or a sixteenth of an
// inch, as rules are divided; and for forces, strengths and ages what nobody asks for finer;
// judgement.
func finest(k units.Kind, s units.System) float64 {
	switch k {
	case units.KindForce:
		return [2]float64{0.5, 0.1 * 4.4482216152605}[s] // half a kilonewton, a tenth of a kip
	case units.KindPressure:
		return [2]float64{500, 50 * 6.894757293168361}[s] // half a megapascal, 50 psi
	case units.KindDuration:
		return 12 * 3600
	}
	return [2]float64{1e-3, 0.0254 / 16}[s]
}

// value after n steps. What is stepless goes by round values, so that what is
// written is what was tried.
func (d dimension) value(n int) float64 {
	v := d.from + float64(n)*d.step
	if d.stepped || n == 0 {
		return v
	}
	return math.Round(v/d.step) * d.step
}

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
	const most = 1 << 10
	switch n := size * math.Abs(d.from) / d.step; {
	case d.from == 0 && size < 1:
		return 0
	case d.from == 0 || n > most:
		return most
	default:
		return int(n)
	}
}

// unit is the SI unit of its values in a result.
func (d dimension) unit() string {
	switch d.kind {
	case units.KindForce:
		return "kN"
	case units.KindPressure:
		return "kPa"
	case units.KindDuration:
		return "s"
	}
	return "m"
}

// exact is a value in the job's units, as it was tried.
func (d dimension) exact(v float64) string {
	if d.kind != units.KindLength || d.system == units.Metric || whole(v, finest(d.kind, d.system)) {
		return d.kind.Text(v, d.system)
	}
	return units.Decimal(v/0.0254, 5) + " in"
}

// near is a value in the job's units, a length to a tenth of a millimetre or a
// hundredth of an inch: nobody has to write it.
func (d dimension) near(v float64) string {
	switch {
	case d.kind != units.KindLength:
		return d.exact(v)
	case d.system == units.Metric:
		return d.exact(math.Round(v*1e4) / 1e4)
	case whole(v, finest(d.kind, d.system)):
		return d.exact(v)
	}
	return units.Decimal(v/0.0254, 2) + " in"
}

// whole tells whether a value is a whole number of steps, to a millionth of one.
func whole(v, step float64) bool {
	return math.Abs(v/step-math.Round(v/step)) < 1e-6
}

// say is a value as the file has it.
func (d dimension) say(v float64) string { return d.counted(v, d.exact) }

func (d dimension) counted(v float64, text func(v float64) string) string {
	switch {
	case d.words == "":
		return text(v)
	case v == 0:
		return d.words
	case v < 0:
		return d.words + " - " + text(-v)
	}
	return d.words + " + " + text(v)
}

// at sets the dimension in copies of job and gear.
func (d dimension) at(j *job.Job, g *job.Gear, v float64) (*job.Job, *job.Gear) {
	jc, gc := *j, *g
	d.set(&jc, &gc, v)
	return &jc, &gc
}

// dimensions that may fix a study, in the order of their ease, and of two
// alike the one that costs less first.
func dimensions(s *model.Study) []dimension {
	out := slices.Concat(of(check.Reading, readings(s)), of(check.Setting, settings(s)), of(check.Stated, means(s.Job)), of(check.Stated, passes(s.Gear)),
		of(check.Panels, panels(s)), of(check.Steel, steel(s.Gear)), of(check.Stated, stronger(s.Gear)), of(check.Apron, aprons(s.Job)))
	for i := range out {
		d := &out[i]
		if d.kind == units.KindNumber {
			d.kind = units.KindLength
		}
		if s.Job.Job.Units == units.Imperial.String() {
			d.system = units.Imperial
		}
		if d.step == 0 {
			d.step = finest(d.kind, d.system)
		}
	}
	return out
}

func of(m check.Means, list []dimension) []dimension {
	for i := range list {
		list[i].means = m
	}
	return list
}

// stated says that what a thing carries is not for the file to choose.
func (d dimension) stated() string {
	if d.kind == units.KindForce {
		return ", as its maker states it"
	}
	return ""
}

// stepless is a dimension of the gear that can be made to any size above
// nothing.
func stepless(name, key string, from units.Length, set func(g *job.Gear, v units.Length)) dimension {
	return dimension{name: name, ease: result.InYard, file: "gear", key: key, from: float64(from), least: 1e-3, most: math.Inf(1),
		set: func(_ *job.Job, g *job.Gear, v float64) { set(g, units.Length(v)) }}
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
				from: float64(t.By), least: math.Inf(-1), most: math.Inf(1), words: t.From, turned: step.Step}
			d.set = func(j *job.Job, g *job.Gear, v float64) {
				steps := slices.Clone(list)
				drivers := map[string]job.Target{}
				for k, have := range step.Drivers {
					drivers[k] = have
				}
				drivers[name] = job.Target{From: t.From, By: units.Length(v)}
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
		return dimension{name: name, file: "job", key: key, from: from, step: float64(a.Increment), stepped: a.Increment > 0, least: float64(a.Min) - 1e-9, most: float64(a.Max) + 1e-9,
			set: func(j *job.Job, _ *job.Gear, v float64) { put(j, units.Length(v)) }}
	}
	return []dimension{
		one("the length at which the legs are pinned", "set.leg", s.Gear.Frame.Leg.Length, set.Leg, func(j *job.Job, v units.Length) { j.Set.Leg = &v }),
		one("the wheel gauge", "set.gauge", s.Gear.Frame.Gauge, set.Gauge, func(j *job.Job, v units.Length) { j.Set.Gauge = &v }),
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
		stepless("the roof panels' width", "roof.widths, all of them", units.Length(set.Panel), func(g *job.Gear, v units.Length) { g.Roof.Widths = []units.Length{v} }),
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
		legTubes(g.Frame.Leg),
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

// legTubes are cut to one length, outer and inner, and drilled for all that
// this gives.
func legTubes(leg job.Leg) dimension {
	longest := func(v float64) float64 { return 2*v - float64(leg.Overlap) }
	d := stepless("the leg tubes, outer and inner,", "frame.leg.outer, .inner and .length", leg.Outer, func(g *job.Gear, v units.Length) {
		leg := &g.Frame.Leg
		leg.Outer, leg.Inner, leg.Length.Min, leg.Length.Max = v, v, v, units.Length(longest(float64(v)))
	})
	d.also = func(d dimension, v float64) string {
		return fmt.Sprintf(", which gives legs of %s to %s", d.exact(v), d.exact(longest(v)))
	}
	return d
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
