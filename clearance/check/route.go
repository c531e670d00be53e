package check

import (
	"errors"
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// gravity in m/s2, the standard value (ISO 80000-3).
const gravity = 9.80665

// route is the collapsed carrier on its way to the next pour, as statics sees
// it: what it weighs, where, and on which wheels.
type route struct {
	bay     *bay
	job     *job.Job
	up      float64 // steepest rise over run ahead, to the next pour
	steep   float64 // steepest slope either way
	least   float64 // rise over run along the pour, the least and the most on the way, invert off level
	most    float64
	off     float64     // rise over run by which the invert may be off its grade, either way
	weight  units.Force // at most
	guessed float64     // share of it that is neither stated nor derived
	centre  geom.Vec    // of gravity, in the frame of cell and pour; as high as it may be
	unsure  geom.Vec    // how far it may be off that along and across, either way
}

// onTheWay is the carrier on its way, which ends on its wheels.
func (b *bay) onTheWay(s *model.Study) *route {
	r := &route{bay: b, job: s.Job}
	r.weigh()
	r.slope(s)
	return r
}

// slope finds the steepest of the grades on the way, and the steepest up it.
// The invert may be off level by its tolerance from one end of the wheelbase to
// the other, either way: no grade is level.
func (r *route) slope(s *model.Study) {
	r.off = r.bay.Tol.Value("invert") / r.wheelbase()
	r.up, r.least, r.most = math.Inf(-1), math.Inf(1), math.Inf(-1)
	ahead := 1.0
	if r.bay.Rolls < 0 {
		ahead = -1
	}
	for _, p := range s.OnTheWay(*r.bay.Bay.Bay) {
		grade := s.Culvert.GradeOf(p)
		r.up = math.Max(r.up, ahead*grade)
		r.least, r.most = math.Min(r.least, grade), math.Max(r.most, grade)
		if math.Abs(grade) > math.Abs(r.steep) {
			r.steep = grade
		}
	}
	r.least, r.most = r.least-r.off, r.most+r.off
}

// wheelbase is from the first wheel line to the last.
func (r *route) wheelbase() float64 {
	lines := r.wheelLines()
	return float64(lines[len(lines)-1] - lines[0])
}

// worse is a slope with what the invert may be off its grade, away from level.
func (r *route) worse(slope float64) float64 { return slope + math.Copysign(r.off, slope) }

// giveOrTake says by how much the invert may be off its grade.
func (r *route) giveOrTake() string {
	return fmt.Sprintf("give or take %.2f %% (invert %s over %s)", 100*r.off, r.bay.mm(r.bay.Tol.Value("invert")), r.bay.mm(r.wheelbase()))
}

// demands on the lines on a slope, up positive.
func (r *route) demands(slope float64) (load.Pulling, error) {
	t := r.job.Travel
	return load.Rolling{Weight: r.weight, Slope: units.Slope(slope), Least: float64(t.Rolling.Least), Most: float64(t.Rolling.Most), Breakaway: float64(t.Breakaway)}.Demands()
}

// weigh sums the parts that roll, where they stand when collapsed.
func (r *route) weigh() {
	last := r.bay.Steps[len(r.bay.Steps)-1]
	r.weighed(r.bay.Carrier.Weigh(last.PresentAfter, last.Pose))
}

// weighRaised sums all parts, where they stand when raised.
func (r *route) weighRaised() {
	r.weighed(r.bay.Carrier.WeighRaised())
}

// weighed takes the heavy end of the mass, which asks more of every line, jack
// and wheel, and the highest centre of gravity, which tips first; how it may lie
// off its place along and across is kept. Whether a carrier tips does not depend
// on how much it weighs, only on where.
func (r *route) weighed(w carrier.Weighed) {
	r.guessed = w.Guessed
	r.weight = units.Force(w.Mass.High * gravity / 1000)
	r.centre = w.Least.Add(w.Most).Mul(0.5)
	r.centre[2] = w.Most[2]
	r.unsure = w.Most.Sub(w.Least).Mul(0.5)
}

// weighs says what the carrier weighs at most, and how much of it is not known.
func (r *route) weighs() string {
	if r.guessed == 0 {
		return r.bay.force(r.weight)
	}
	return fmt.Sprintf("%s at most (%.0f %% of it guessed)", r.bay.force(r.weight), 100*r.guessed)
}

// wheelLines are the wheels' places along the pour.
func (r *route) wheelLines() []units.Length {
	var out []units.Length
	for _, at := range r.bay.Carrier.Gear.Wheels.At {
		out = append(out, units.Length(r.bay.Carrier.Rear)+at)
	}
	return out
}

func (r *route) wheels() load.Wheels {
	return load.Wheels{Weight: r.weight, Gauge: units.Length(r.bay.Carrier.Gauge), Lines: r.wheelLines(),
		Along: units.Length(r.centre[0]), Left: units.Length(r.centre[1]),
		AlongOff: units.Length(r.unsure[0]), LeftOff: units.Length(r.unsure[1])}
}

// one entry from a single number.
func (r *route) one(id, rest, unit string, value float64, allowance float64, limit Limit, s result.Sense, text string) Judged {
	e := entry(id, r.bay.subject(rest), []candidate{{Value: *result.Exactly(value), Allowance: allowance, worst: allowance, where: r.bay.underway(), text: text}}, limit, s, "")
	e.Unit = unit
	return e
}

// trackChecks keep each tread with its wander off haunch toes, kickers and the
// low-flow channel.
func (r *route) trackChecks(*model.Study) []Judged {
	limit := r.bay.limits.of("roll.track")
	wander := r.bay.Tol.Value("wander")
	outer := r.bay.Carrier.Gauge/2 + float64(r.bay.Carrier.Gear.Wheels.Tread)/2
	edge, what := r.bay.Cell.HalfSpan, "wall"
	if r.bay.Cell.Bottom.Exists() {
		edge, what = r.bay.Cell.HalfSpan-r.bay.Cell.Bottom.Run, "toe of the bottom haunch"
	}
	out := []Judged{r.one("roll.track", "outer edge of the treads", "m", edge-outer, wander, limit, result.Min,
		fmt.Sprintf("the treads' outer edge runs %s from the %s: %s - (gauge %s + tread %s) / 2; allowance %s for wander",
			r.bay.roundedDown(edge-outer), what, r.bay.mm(edge), r.bay.mm(r.bay.Carrier.Gauge), r.bay.mm(float64(r.bay.Carrier.Gear.Wheels.Tread)), r.bay.mm(wander))).with(r.workedTrack())}
	if r.bay.Cell.Channel.Exists() {
		clear := r.besideChannel()
		out = append(out, r.one("roll.track", lowFlowChannel, "m", clear, wander, limit, result.Min,
			fmt.Sprintf("the nearer tread runs %s from the edge of the low-flow channel; allowance %s for wander", r.bay.roundedDown(clear), r.bay.mm(wander))).with(r.workedChannel()))
	}
	return out
}

// besideChannel is how far the nearer tread runs from the edge of the low-flow
// channel.
func (r *route) besideChannel() float64 {
	clear, c := math.Inf(1), r.bay.Cell.Channel
	for _, side := range sides {
		y := float64(side) * r.bay.Carrier.Gauge / 2
		clear = math.Min(clear, math.Abs(y-c.Offset)-c.Width/2-float64(r.bay.Carrier.Gear.Wheels.Tread)/2)
	}
	return clear
}

var sides = [2]culvert.Side{culvert.Left, culvert.Right}

// supportChecks ask that every wheel stands on placed invert over the whole
// advance: from where the carrier stands now to where it stands next, or until
// it is out over the end.
func (r *route) supportChecks(s *model.Study) []Judged {
	lines := r.wheelLines()
	rear := float64(lines[0]) + math.Min(0, r.bay.Rolls)
	front := float64(lines[len(lines)-1]) + math.Max(0, r.bay.Rolls)
	tread := (r.bay.Carrier.Gauge + float64(r.bay.Carrier.Gear.Wheels.Tread)) / 2
	behind, ahead := math.Inf(1), math.Inf(1)
	for _, end := range slabEnds(s, r.bay) {
		for _, side := range sides {
			at := end.along + end.plane.At(float64(side)*tread, 0)
			if end.outlet {
				ahead = math.Min(ahead, at-front)
			} else {
				behind = math.Min(behind, rear-at)
			}
		}
	}
	out := []Judged{r.supportCheck("rear wheels", behind, "inlet").with(r.workedSupport(rear, behind, false)),
		r.supportCheck("front wheels", ahead, "outlet").with(r.workedSupport(front, ahead, true))}
	return append(out, r.jointChecks(s)...)
}

// supportCheck is one outer wheel line against the end of the invert.
func (r *route) supportCheck(wheels string, left float64, end string) Judged {
	limit := r.bay.limits.of("roll.support")
	c := candidate{Value: *result.Exactly(left), where: r.bay.underway(), text: r.supported(wheels, left), remedy: r.supportRemedy(left, limit.Value, end)}
	return entry("roll.support", r.bay.subject(wheels), []candidate{c}, limit, result.Min, "")
}

// supported says where wheels come to on the placed invert.
func (r *route) supported(wheels string, left float64) string {
	way := "over the advance"
	if r.bay.Leaves {
		way = fmt.Sprintf("until the form is out over the %s", map[bool]string{true: "inlet", false: "outlet"}[r.bay.Rolls < 0])
	}
	if left < 0 {
		return fmt.Sprintf("%s the %s would run %s beyond the end of the placed invert, measured along the tread nearer to it", way, wheels, r.bay.deep(left))
	}
	return fmt.Sprintf("%s the %s stay %s from the end of the placed invert, measured along the tread nearer to it", way, wheels, r.bay.roundedDown(left))
}

// pullChecks hold pull and restraint against the lines.
func (r *route) pullChecks(*model.Study) []Judged {
	p, err := r.demands(r.up + r.off)
	h, err2 := r.demands(r.worse(r.steep))
	if err = errors.Join(err, err2); err != nil {
		return []Judged{open("roll.pull", r.bay.subject("advance"), "kN", r.bay.told(err), r.bay.underway()), open("roll.hold", r.bay.subject("advance"), "kN", r.bay.told(err), r.bay.underway())}
	}
	return []Judged{r.pullCheck(p), r.holdCheck(h)}
}

// holdCheck holds what keeps the carrier from running against what the restraint can
// hold. Where there is none, it holds nothing.
func (r *route) holdCheck(h load.Pulling) Judged {
	t := r.job.Travel
	source := coefficients(h.Source.String(), r.job, "travel.rolling.least")
	var have units.Force
	if t.Restraint != nil {
		have = t.Restraint.Capacity
	}
	runs := func(then string) string {
		text := fmt.Sprintf("%s on %+.2f %%, %s, can run: that is above the least rolling coefficient %.3f; %s; set it before plates leave the invert",
			r.weighs(), 100*r.steep, r.giveOrTake(), float64(t.Rolling.Least), then)
		if t.Rolling.Least > 0 {
			text += "; " + r.friction().words(r)
		}
		return text
	}
	switch {
	case !h.NeedsHold:
		return r.one("roll.hold", "restraint", "kN", float64(h.Hold), 0, Limit{Value: float64(have), Source: source}, result.Max, r.holdsItself()).with(r.workedHold())
	case t.Restraint == nil:
		demand, has := r.bay.against("kN", float64(h.Hold), 0)
		return r.one("roll.hold", "restraint", "kN", float64(h.Hold), 0, Limit{Source: source}, result.Max, runs(fmt.Sprintf("the restraint must take %s and has %s", demand, has))).with(r.workedHold())
	}
	return r.bay.held(holding{id: "roll.hold", about: r.bay.subject("restraint"), where: r.bay.underway(), unit: "kN", source: source,
		text:   func(demand string) string { return runs("the restraint must take " + demand) },
		demand: Demand{Live: float64(h.Hold)}, rating: r.job.Rated("travel.restraint.capacity", job.IfStated(have)), bearer: "the restraint", verb: "can hold", working: r.workedHold()})
}

// holdsItself says why nothing has to hold the carrier back.
func (r *route) holdsItself() string {
	least := float64(r.job.Travel.Rolling.Least)
	if least == 0 {
		return fmt.Sprintf("nothing pulls the carrier off on a grade of %+.2f %%, %s", 100*r.steep, r.giveOrTake())
	}
	return fmt.Sprintf("the grade of %+.2f %%, %s, is not above the least rolling coefficient %.3f: it holds itself; ", 100*r.steep, r.giveOrTake(), least) + r.friction().words(r)
}

// pullCheck holds what it takes to start the carrier against what the line can pull.
func (r *route) pullCheck(p load.Pulling) Judged {
	t := r.job.Travel
	source := coefficients(p.Source.String(), r.job, "travel.rolling.most", "travel.breakaway")
	return r.pulled("roll.pull", t.PulledBy, p.Starting, source, r.workedPull(), func(demand string) string {
		return fmt.Sprintf("%s on %+.2f %%, %s: to start it takes %s with rolling coefficient %.3f x breakaway %.1f",
			r.weighs(), 100*r.up, r.giveOrTake(), demand, float64(t.Rolling.Most), float64(t.Breakaway))
	})
}

// pulled holds a pull against what the pulling line can pull.
func (r *route) pulled(id, what string, pull units.Force, source string, working []result.Line, text func(demand string) string) Judged {
	t := r.job.Travel
	e := r.bay.held(holding{id: id, about: r.bay.subject(what), where: r.bay.underway(), unit: "kN", text: text, source: source, working: working,
		demand: Demand{Live: float64(pull)}, rating: r.job.Rated("travel.capacity", job.IfStated(t.Capacity)), bearer: "the " + t.PulledBy, verb: "can pull"})
	if e.Lacks != "" {
		e.Remedy = "state what the whole pulling line can pull, as its maker states it (travel.capacity in the job file)"
	}
	return e
}

// tipChecks ask for a margin against tipping across and along.
func (r *route) tipChecks(*model.Study) []Judged {
	limit := r.bay.limits.of("roll.tip")
	across, along, err := r.wheels().TippingLevers()
	if err != nil {
		return []Judged{open("roll.tip", r.bay.subject("advance"), "1", r.bay.told(err), r.bay.underway())}
	}
	var out []Judged
	for _, way := range []struct {
		what  string
		lever units.Length
		slope float64
	}{{"across", across, r.acrossSlope()}, {"along", along, r.worse(r.steep)}} {
		s, err := load.Tipping{Weight: r.weight, Lever: way.lever, Height: units.Length(r.centre[2]), Slope: units.Slope(way.slope)}.Margin()
		if err != nil {
			out = append(out, open("roll.tip", r.bay.subject(way.what), "1", r.bay.told(err), r.bay.underway()))
			continue
		}
		text := fmt.Sprintf("%s: centre of gravity %s high, %s inside the wheels, slope %.2f %%: restoring over overturning %s", way.what, r.bay.mm(r.centre[2]), r.bay.mm(float64(way.lever)), 100*way.slope, r.bay.shown("1").Down(s.Ratio))
		if !s.Loaded {
			text = fmt.Sprintf("%s: nothing overturns on the level; it tips at %.1f deg", way.what, float64(s.Angle)*180/math.Pi)
			e := entry("roll.tip", r.bay.subject(way.what), nil, limit, result.Min, text)
			e.Unit = "1"
			out = append(out, e)
			continue
		}
		out = append(out, r.one("roll.tip", way.what, "1", s.Ratio, 0, limit, result.Min, text).with(r.workedTipping(way.what)))
	}
	return out
}
