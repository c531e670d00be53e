package views

import (
	"fmt"
	"math"
	"slices"

	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
	"boxwalk/model"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// trackReach is the length of barrel that one sheet of the wheel track shows at
// most, m: 1:100 of it fits the middle sizes of paper.
const trackReach = 44

// trackScale is the largest first denominator at which the plan is wanted.
const trackScale = 100

// trackRun is a stretch of a cell's barrel on one sheet: the bays of
// neighbouring pours.
type trackRun []trackBay

// trackBay is a bay and where its frame begins on the plan, which is developed:
// along the cell's centreline from pour to pour, whatever it turns and breaks at
// the joints, so that every length on it is the length on the invert.
type trackBay struct {
	*model.Bay
	from float64
}

// at is a point of the plan, from one in the frame of cell and pour.
func (b trackBay) at(x, left float64) sheet.Point { return planPoint(b.from+x, left) }

// end is where an end of the pour lies at some way left of the centreline.
func (b trackBay) end(e geom.End, left float64) sheet.Point { return b.at(e.At(left, 0), left) }

// wheel is a point of the carrier standing for the pour, from the rear end of
// its form.
func (b trackBay) wheel(along, left float64) sheet.Point { return b.at(b.Carrier.Rear+along, left) }

// trackSheets are the sheets of the wheel track: for every cell group the
// barrel from the inlet on, in stretches of as many pours as fit.
func (o *drafter) trackSheets() []plan {
	var out []plan
	for _, g := range o.cells() {
		runs := o.trackRuns(g)
		for i, r := range runs {
			name := "wheel-track" + g.label
			if len(runs) > 1 {
				name += fmt.Sprintf("-%d", i+1)
			}
			out = append(out, o.trackSheet(name, g.label, fmt.Sprintf("%s, %s", g.cellsText(), r.text()), r, i == 0)...)
		}
	}
	return out
}

// trackSheet is the sheet of a stretch; on small paper the section of the first has one
// of its own.
func (o *drafter) trackSheet(name, label, supplement string, r trackRun, first bool) []plan {
	size := r.length(o.study.Culvert) * perMetre
	p := plan{
		name: name, title: "Wheel track plan", supplement: supplement, kind: "Setup drawing",
		least: size / trackScale, size: size, notes: trackNotes,
		build: func(s *sheet.Sheet, n float64) error {
			s.Add(o.trackPlan(s, r, n), o.trackSection(s, r), beside(s, o.trackTable(s, r), o.trackWords(r)))
			return nil
		},
	}
	if !o.small() {
		return []plan{p}
	}
	words := o.trackWords(r)
	p.least /= 2
	p.notes = append(slices.Clone(trackNotes), words...)
	p.build = func(s *sheet.Sheet, n float64) error {
		s.Add(o.trackPlan(s, r, n), o.trackTable(s, r))
		return nil
	}
	if !first {
		return []plan{p}
	}
	section := plan{
		name: "wheel-track-section" + label, title: "Wheel track, section", supplement: supplement, kind: p.kind, notes: words[:1],
		build: func(s *sheet.Sheet, _ float64) error {
			s.Add(o.trackSection(s, r))
			return nil
		},
	}
	return []plan{p, section}
}

var trackNotes = []string{
	"Before every advance sweep the treads and the wander bands; no cable, lifting eye, timber or mortar ridge may lie on them. Mark the edges of the treads on the invert.",
	"Restraint on and wheels chocked before the jack plates leave the invert. Nobody between carrier and concrete, below the carrier, or in the snap-back zone of the pulling line or restraint.",
	"Wheels stand on placed invert of the age and strength in the result only. Plate over a joint that is open wider than the joint gap drawn, or spalled.",
}

// trackRuns divides the barrel of a group's first cell.
func (o *drafter) trackRuns(g cellGroup) []trackRun {
	var all trackRun
	for i := range o.study.Bays {
		b := &o.study.Bays[i]
		if b.Cell.Number != g.bay().Cell.Number {
			continue
		}
		from := 0.0
		if len(all) > 0 {
			_, from = o.study.Stretch(*all[0].Bay, b.Pour)
		}
		all = append(all, trackBay{b, from})
	}
	var out []trackRun
	for len(all) > 0 {
		n := 1
		for n < len(all) && all[:n+1].length(o.study.Culvert) <= o.trackReach() {
			n++
		}
		out = append(out, all[:n])
		if n < len(all) && n > 1 {
			n-- // the last stand is the first of the next sheet
		}
		all = all[n:]
	}
	return out
}

// trackReach is how long a stretch on one sheet may be, m: at 1:100, with what stands
// at its ends.
func (o *drafter) trackReach() float64 {
	if o.small() {
		return 22
	}
	return trackReach
}

// length of the run with its aprons, m.
func (r trackRun) length(c *culvert.Culvert) float64 {
	total := 0.0
	for _, b := range r {
		rear, front := b.Cell.Reach(b.Pour)
		total += front - rear
	}
	if r[0].Pour.Number == 1 {
		total += c.InletSlab
	}
	if r.last().Pour.Number == len(c.Pours) {
		total += c.OutletSlab
	}
	return total
}

func (r trackRun) last() trackBay { return r[len(r)-1] }

func (r trackRun) text() string {
	if len(r) == 1 {
		return fmt.Sprintf("pour %d", r[0].Pour.Number)
	}
	return fmt.Sprintf("pours %d to %d", r[0].Pour.Number, r.last().Pour.Number)
}

// trackEnds are the ends of a pour's invert, with the aprons outside, and those
// of the pour itself, in the frame of cell and pour.
func (o *drafter) trackEnds(b trackBay) (rear, front, rearJoint, frontJoint geom.End) {
	c := o.study.Culvert
	rearJoint, frontJoint = b.Cell.Ends(b.Pour)
	rear, front = rearJoint, frontJoint
	if b.Pour.Number == 1 {
		rear.X -= c.InletSlab
	}
	if b.Pour.Number == len(c.Pours) {
		front.X += c.OutletSlab
	}
	return rear, front, rearJoint, frontJoint
}

// trackPlan is the invert seen from above, with the treads on it and the wheels
// where the carrier stands for each pour.
func (o *drafter) trackPlan(s *sheet.Sheet, r trackRun, n float64) *sheet.View {
	v := sheet.NewView(fmt.Sprintf("Invert of cell %d from above, %s", r[0].Cell.Number, r.text()))
	v.Scale = n
	for _, b := range r {
		o.trackConcrete(v, b)
		o.trackTreads(v, b)
	}
	for _, b := range r {
		o.trackWheels(v, b)
	}
	o.trackCut(v, r)
	o.trackDimensions(v, r)
	o.trackLines(s, v, r, n)
	return v
}

// trackConcrete is the invert of one pour: kickers, haunch toes, channel and
// joints, and its apron.
func (o *drafter) trackConcrete(v *sheet.View, b trackBay) {
	cell := b.Cell
	rear, front, joint, next := o.trackEnds(b)
	line := func(on sheet.Layer, y float64, from, to geom.End) { v.Line(on, b.end(from, y), b.end(to, y)) }
	outer := outerFaces(b)
	for i, side := range [2]float64{1, -1} {
		face := side * cell.HalfSpan
		if cell.Kicker > 0 {
			v.Hatch(sheet.ConcreteHatch, sheet.ConcretePattern, []sheet.Point{b.end(joint, face), b.end(next, face), b.end(next, outer[i]), b.end(joint, outer[i])})
		}
		line(sheet.Concrete, face, joint, next)
		line(sheet.General, outer[i], rear, front)
		if cell.Bottom.Exists() {
			line(sheet.General, side*(cell.HalfSpan-cell.Bottom.Run), joint, next)
		}
	}
	if ch := cell.Channel; ch.Exists() {
		for _, y := range []float64{ch.Offset + ch.Width/2, ch.Offset - ch.Width/2} {
			line(sheet.General, y, rear, front)
		}
	}
	for _, e := range []geom.End{rear, joint, next, front} {
		v.Line(sheet.General, b.end(e, outer[0]), b.end(e, outer[1]))
	}
	line(sheet.Centre, 0, rear, front)
}

// outerFaces of the walls of a cell, left and right of its centreline.
func outerFaces(b trackBay) [2]float64 {
	return [2]float64{b.Cell.HalfSpan + b.Cell.Left, -b.Cell.HalfSpan - b.Cell.Right}
}

// trackTreads are the strips that the wheels run on, each side, as wide as the
// treads.
func (o *drafter) trackTreads(v *sheet.View, b trackBay) {
	rear, front, _, _ := o.trackEnds(b)
	half := float64(b.Carrier.Gear.Wheels.Tread) / 2
	for _, side := range [2]float64{1, -1} {
		y := side * b.Carrier.Gauge / 2
		loop := []sheet.Point{b.end(rear, y+half), b.end(front, y+half), b.end(front, y-half), b.end(rear, y-half)}
		v.Hatch(sheet.ConcreteHatch, sheet.Tone, loop)
		v.Line(sheet.Hardware, loop[0], loop[1])
		v.Line(sheet.Hardware, loop[2], loop[3])
	}
}

// trackWheels are the wheels as the carrier stands for a pour, and the outline
// of its form.
func (o *drafter) trackWheels(v *sheet.View, b trackBay) {
	w := b.Carrier.Gear.Wheels
	r, t := float64(w.Diameter)/2, float64(w.Tread)/2
	for _, at := range w.At {
		x := float64(at)
		for _, side := range [2]float64{1, -1} {
			y := side * b.Carrier.Gauge / 2
			loop := sheet.RectLoop(b.wheel(x-r, y-t), b.wheel(x+r, y+t))
			v.Hatch(sheet.Hardware, sheet.Solid, loop)
			v.Polygon(sheet.Hardware, loop...)
		}
		v.Line(sheet.Centre, b.wheel(x, -b.Carrier.Gauge/2-3*t), b.wheel(x, b.Carrier.Gauge/2+3*t))
	}
	const inside = 0.02 // so that its line does not lie on the kicker's
	y := b.Cell.HalfSpan - inside
	v.Rect(sheet.Collapsed, b.wheel(0, -y), b.wheel(float64(b.Carrier.Gear.Form.Length), y))
}

// trackCut draws break lines where the barrel goes on beyond the sheet.
func (o *drafter) trackCut(v *sheet.View, r trackRun) {
	outer := outerFaces(r[0])
	_, _, joint, _ := o.trackEnds(r[0])
	_, _, _, next := o.trackEnds(r.last())
	if r[0].Pour.Number > 1 {
		breakLine(v, r[0].end(joint, outer[1]), r[0].end(joint, outer[0]))
	}
	if r.last().Pour.Number < len(o.study.Culvert.Pours) {
		breakLine(v, r.last().end(next, outer[1]), r.last().end(next, outer[0]))
	}
}

// trackDimensions are the lengths along the run: pours and aprons above, on the
// left outer face, wheels and advances below.
func (o *drafter) trackDimensions(v *sheet.View, r trackRun) {
	outer := outerFaces(r[0])
	var above, below []sheet.Span
	wheels := r[0].Carrier.Gear.Wheels.At
	first, last := float64(wheels[0]), float64(wheels[len(wheels)-1])
	y := -r[0].Carrier.Gauge / 2
	for i, b := range r {
		rear, front, joint, next := o.trackEnds(b)
		if rear != joint {
			above = append(above, sheet.Span{From: b.end(rear, outer[0]), To: b.end(joint, outer[0]), Suffix: " apron"})
		}
		above = append(above, sheet.Span{From: b.end(joint, outer[0]), To: b.end(next, outer[0])})
		if front != next {
			above = append(above, sheet.Span{From: b.end(next, outer[0]), To: b.end(front, outer[0]), Suffix: " apron"})
		}
		if len(wheels) > 1 && i == 0 { // it is the same at every stand
			below = append(below, sheet.Span{From: b.wheel(first, y), To: b.wheel(last, y), Suffix: " wheelbase"})
		}
		if i+1 < len(r) {
			below = append(below, sheet.Span{From: b.wheel(last, y), To: r[i+1].wheel(last, y), Suffix: suffixFirst(i, " advance")})
		}
	}
	v.Stack(sheet.Above, perMetre*outer[0], above...)
	v.Stack(sheet.Below, perMetre*outer[1], below...)
}

func suffixFirst(i int, text string) string {
	if i == 0 {
		return text
	}
	return ""
}

// trackLines letter the joints, what the carrier stands for, the way of travel
// and the lines at its ends.
func (o *drafter) trackLines(s *sheet.Sheet, v *sheet.View, r trackRun, n float64) {
	end := o.study.Job.Travel.End
	for _, b := range r {
		mid := b.wheel(float64(b.Carrier.Gear.Form.Length)/2, clearOfChannel(b.Cell)*b.Cell.HalfSpan)
		_, _, joint, next := o.trackEnds(b)
		long := b.end(next, 0).Sub(b.end(joint, 0)).Len()
		v.Text(mid, sheet.MiddleCentre, broken(s, long/n, "stand for", fmt.Sprintf("pour %d", b.Pour.Number))...)
	}
	rear, _, _, _ := o.trackEnds(r[0])
	_, front, _, _ := o.trackEnds(r.last())
	a, b := r[0].end(rear, 0), r.last().end(front, 0)
	ahead, back := r.ways()
	atOutlet, atInlet := trackLine(o, ahead, back, "ahead", end), trackLine(o, back, ahead, "back", otherEnd[end])
	if ahead {
		v.Arrow(sheet.Loads, b.Add(sheet.Pt(3*n, 0)), b.Add(sheet.Pt(18*n, 0)))
	}
	if back {
		v.Arrow(sheet.Loads, a.Sub(sheet.Pt(3*n, 0)), a.Sub(sheet.Pt(18*n, 0)))
	}
	v.Text(b.Add(sheet.Pt(20*n, 0)), sheet.MiddleLeft, atOutlet...)
	v.Text(a.Sub(sheet.Pt(20*n, 0)), sheet.MiddleRight, atInlet...)
}

// otherEnd is the end that is pulled on the way back.
var otherEnd = map[string]string{"front": "rear", "rear": "front"}

// ways tells whether the carrier leaves any of the run's stands ahead, and any back.
func (r trackRun) ways() (ahead, back bool) {
	for _, b := range r {
		ahead, back = ahead || b.Rolls >= 0, back || b.Rolls < 0
	}
	return ahead, back
}

// trackLine is what stands at an end of the run: what pulls toward it, where anything
// rolls that way, and what holds back while it rolls the other way.
func trackLine(o *drafter, toward, away bool, way, end string) []string {
	t := o.study.Job.Travel
	var out []string
	if toward {
		can := "can pull " + o.force(float64(t.Capacity))
		if t.Capacity == 0 {
			can = "capacity not stated"
		}
		out = append(out, way, t.PulledBy, can, "at the "+end+" end")
	}
	switch {
	case !away:
	case t.Restraint == nil:
		out = append(out, "no restraint")
	default:
		out = append(out, "restraint", "can hold "+o.force(float64(t.Restraint.Capacity)))
	}
	return out
}

// entryOf is the entry of a check about something, or its governing one, at one
// bay; nil where there is none.
func (o *drafter) entryOf(b *model.Bay, id, what string) *result.Entry {
	for i, e := range o.result.Checks {
		if e.ID == id && e.Where.Frame == b.Name() && (what == "" || e.Subject.What == what) {
			return &o.result.Checks[i]
		}
	}
	return nil
}

// trackTable lists where the carrier stands, pour by pour, measured from the
// pour's rear joint, and what the way to the next pour asks for.
func (o *drafter) trackTable(s *sheet.Sheet, r trackRun) *sheet.View {
	start := float64(o.study.Start().Station)
	lengths := o.study.Job.Culvert.Pours.Lengths()
	value := func(b trackBay, id, end string, show func(float64) string) string {
		e := o.entryOf(b.Bay, id, end)
		if e == nil || e.Value == nil {
			return "-"
		}
		v := e.Value.Lower
		if e.Sense == result.Max {
			v = e.Value.Upper
		}
		mark := ""
		if e.Verdict != result.Pass {
			mark = " " + e.Verdict.String()
		}
		return show(v) + mark
	}
	var rows [][]string
	for _, b := range r {
		joint := start
		for _, l := range lengths[:b.Pour.Number-1] {
			joint += float64(l)
		}
		wheels := b.Carrier.Gear.Wheels.At
		advance := "out"
		switch {
		case b.Advance > 0:
			advance = o.bare(b.Advance)
		case b.Advance < 0:
			advance = o.bare(-b.Advance) + " back"
		}
		rows = append(rows, []string{fmt.Sprint(b.Pour.Number), o.station(joint), o.bare(b.Carrier.Rear + float64(wheels[0])), o.bare(b.Carrier.Rear + float64(wheels[len(wheels)-1])), advance,
			grade(o.study.Culvert.GradeOf(b.Pour)), value(b, "roll.pull", "", o.forceUp), value(b, "roll.hold", "", o.forceUp),
			value(b, "roll.track", "", o.bareDown), value(b, "roll.support", "rear wheels", o.bareDown), value(b, "roll.support", "front wheels", o.bareDown)})
	}
	return s.Table("Stands of the carrier, from each pour's rear joint on the cell's centreline", []sheet.Column{{Title: "Pour", Right: true}, {Title: "Joint at", Right: true}, {Title: "Rear wheels", Right: true}, {Title: "Front wheels", Right: true}, {Title: "Advance", Right: true},
		{Title: "Grade", Right: true}, {Title: "Pull", Right: true}, {Title: "Restraint", Right: true}, {Title: "Least at treads", Right: true}, {Title: "Invert behind", Right: true}, {Title: "Invert ahead", Right: true}}, rows)
}

// trackWords are what the checks of the track say for the run's worst bay.
func (o *drafter) trackWords(r trackRun) []string {
	out := []string{"Red dash-double-dot outlines are the form's faces at each stand, and in the section the bands that the treads may wander over. Joint stations are on the alignment, before skew. All lengths are along the invert on the cell's centreline. Invert behind and ahead is what is left between the outermost wheel and the end of the placed invert over the whole advance."}
	for _, id := range []string{"roll.track", "roll.support", "roll.bearing"} {
		for _, e := range o.result.Checks {
			if e.ID == id && e.Where.Cell == r[0].Cell.Number && e.Where.Pour >= r[0].Pour.Number && e.Where.Pour <= r.last().Pour.Number {
				text := fmt.Sprintf("%s, %s: %s", id, e.Verdict, e.Text)
				if e.Limit != nil && e.Unit == "m" {
					text += fmt.Sprintf("; limit %s", o.bare(*e.Limit))
				}
				out = append(out, text+".")
				break
			}
		}
	}
	for _, b := range r {
		if b.Leaves {
			out = append(out, fmt.Sprintf("From pour %d the carrier rolls out over the %s: what carries it beyond the end of the apron is not worked out here.", b.Pour.Number, map[bool]string{true: "inlet", false: "outlet"}[b.Rolls < 0]))
		}
	}
	turn := 0.0
	for _, b := range r {
		for _, j := range b.JointsOnTheWay() {
			turn = math.Max(turn, math.Abs(j.Turn))
		}
	}
	if turn > 1e-9 {
		out = append(out, fmt.Sprintf("The way turns by %.4g deg at a joint: the outer wheel lines keep to the centrelines, wheels between them run inside the bend. The plan is developed: drawn straight on along the centreline.", turn*180/math.Pi))
	}
	return out
}
