package views

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
	"boxwalk/model"
	"boxwalk/model/culvert"
)

// alongSheets are the diagrams along the route: clearance, pull and wheel loads
// over the way of the carrier through a cell, a sheet for each set of cells that
// do not differ in them. None where nothing was sampled.
func (o *drafter) alongSheets() []plan {
	var out []plan
	for _, cells := range o.alike() {
		rows := o.alongOf(cells[0])
		name, text := "along-the-route", cellsText(cells)
		if len(cells) < len(o.study.Culvert.Cells) {
			name += fmt.Sprintf("-cell-%d", cells[0])
		}
		out = append(out, plan{
			name: name, title: "Along the route", supplement: text + ", rolling ahead", kind: "Calculation diagram",
			notes: o.alongNotes(),
			build: func(s *sheet.Sheet, _ float64) error {
				for _, d := range []diagram{o.clearDiagram(cells[0], rows), o.pullDiagram(cells[0], rows), o.wheelDiagram(cells[0], rows)} {
					s.Add(d.draw(s))
				}
				s.Add(o.alongTable(s, cells[0]))
				return nil
			},
		})
	}
	return out
}

// alongFar is how far away a zone is left out of the samples, m; see AlongGap of
// package clearance.
const alongFar = 0.3

func (o *drafter) alongNotes() []string {
	notes := []string{
		"The curves join samples at evenly spaced places and at those that govern. They show where it gets tight and prove nothing between two samples: the ringed values and the table are the proved ones.",
		"Clearances are what is left after the allowance for tolerances, crossfall (cross slope) and grade breaks. Surfaces that stay " + o.length(alongFar) + " away or more are not drawn.",
		"Wheel loads stand still on an even invert, on the slope at that place. Rocking on two wheels, as in roll.bearing, gives more.",
	}
	if slices.ContainsFunc(o.study.Bays, func(b model.Bay) bool { return b.Cell.Kicker > 0 }) {
		notes = append(notes, kickerNote)
	}
	return notes
}

// alongOf are the rows of a cell, pour by pour.
func (o *drafter) alongOf(cell int) []result.AlongRow {
	var out []result.AlongRow
	for _, a := range o.result.Along {
		if a.Cell == cell {
			out = append(out, a)
		}
	}
	return out
}

// alike are the numbers of the cells with rows, those together whose rows tell
// the same to a hundredth of a millimetre and a newton.
func (o *drafter) alike() [][]int {
	var out [][]int
	place := map[string]int{}
	for _, c := range o.study.Culvert.Cells {
		rows := o.alongOf(c.Number)
		if len(rows) == 0 {
			continue
		}
		var key strings.Builder
		for _, a := range rows {
			fmt.Fprintf(&key, "%d %.4f %v", a.Pour, a.Station, a.Governs)
			for _, g := range a.Gaps {
				fmt.Fprintf(&key, " %s %.5f %.5f", g.Zone, g.Gap, g.Allowance)
			}
			if a.Pulling != nil {
				fmt.Fprintf(&key, " %.3f %.3f", a.Pulling.Start, a.Pulling.Hold)
			}
			for _, w := range a.Wheels {
				fmt.Fprintf(&key, " %.3f %.3f %.3f %.3f", w.RigidLeft, w.RigidRight, w.SoftLeft, w.SoftRight)
			}
		}
		n, ok := place[key.String()]
		if !ok {
			n = len(out)
			place[key.String()] = n
			out = append(out, nil)
		}
		out[n] = append(out[n], c.Number)
	}
	return out
}

// cellsText names cells by their numbers.
func cellsText(cells []int) string {
	var g cellGroup
	for _, c := range cells {
		g.bays = append(g.bays, &model.Bay{Cell: culvert.Cell{Number: c}})
	}
	return g.cellsText()
}

// base is a diagram over the way with the advances marked.
func (o *drafter) base(title, up string, rows []result.AlongRow) diagram {
	name, times := o.wayUnit()
	d := diagram{title: title, up: up, across: "Rear end of the form along the alignment, " + name, most: math.Inf(1), high: plotLow}
	for i, a := range rows {
		if i == 0 || a.Pour != rows[i-1].Pour {
			d.joints = append(d.joints, sheet.Pt(times*a.Station, 0))
			d.named = append(d.named, o.wayFrom(a.Cell, a.Pour))
		}
	}
	if len(rows) > 0 {
		d.joints = append(d.joints, sheet.Pt(times*rows[len(rows)-1].Station, 0))
	}
	return d
}

// runs splits one value of the rows into unbroken runs, a new one for each
// pour; ok tells where there is one.
func (o *drafter) runs(rows []result.AlongRow, value func(a result.AlongRow) (v float64, ok bool)) [][]sheet.Point {
	_, times := o.wayUnit()
	var out [][]sheet.Point
	open := false
	for i, a := range rows {
		v, ok := value(a)
		if i > 0 && a.Pour != rows[i-1].Pour {
			open = false
		}
		if !ok {
			open = false
			continue
		}
		if !open {
			out = append(out, nil)
		}
		open = true
		out[len(out)-1] = append(out[len(out)-1], sheet.Pt(times*a.Station, v))
	}
	return out
}

// lineOf gives each zone a line of its own.
var lineOf = map[culvert.Zone]sheet.Layer{culvert.Roof: sheet.Concrete, culvert.HaunchTop: sheet.Panel, culvert.Wall: sheet.Steel,
	culvert.Kicker: sheet.Hidden, culvert.HaunchBottom: sheet.Earth, culvert.Invert: sheet.Collapsed, culvert.Hanger: sheet.Hardware, culvert.SteelAhead: sheet.Centre}

// clearDiagram is what is left of the clearance in every zone.
func (o *drafter) clearDiagram(cell int, rows []result.AlongRow) diagram {
	unit, times := o.lengthUnit()
	d := o.base("Clearance while rolling", "Clearance less allowance, "+unit, rows)
	d.high = plotHigh
	for _, z := range culvert.Zones {
		runs := o.runs(rows, func(a result.AlongRow) (float64, bool) {
			for _, g := range a.Gaps {
				if g.Zone == string(z) {
					return times * (g.Gap - g.Allowance), true
				}
			}
			return 0, false
		})
		if len(runs) > 0 {
			d.curves = append(d.curves, curve{name: z.Words(), on: lineOf[z], runs: runs})
		}
	}
	for i, e := range o.rolling("roll.clear", cell) {
		if e.Value == nil || e.Where.Station == nil {
			continue
		}
		if i == 0 && e.Limit != nil {
			d.levels = append(d.levels, level{"limit " + o.bare(*e.Limit), times * *e.Limit})
		}
		_, way := o.wayUnit()
		left := e.Value.Lower - e.Allowance
		for k := range d.curves {
			d.curves[k].told = d.curves[k].told || d.curves[k].name == culvert.Zone(e.Where.Zone).Words()
		}
		d.marks = append(d.marks, mark{sheet.Pt(way**e.Where.Station, times*left), fmt.Sprintf("%s %s", culvert.Zone(e.Where.Zone).Words(), o.bareDown(left))})
	}
	return d
}

// bareDown letters a length rounded to the smaller, so that no clearance reads
// larger than is proved.
func (o *drafter) bareDown(m float64) string {
	step := o.units().Step() / perMetre
	return o.bare(step * math.Floor(m/step+1e-9))
}

// rolling are the entries of a check in a cell, of each zone or subject the one
// with the least margin over all pours.
func (o *drafter) rolling(id string, cell int) []result.Entry {
	var out []result.Entry
	seen := map[string]bool{}
	for _, e := range o.result.Checks {
		key := e.Where.Zone
		if key == "" {
			key = e.Subject.Rest()
		}
		if e.ID == id && e.Where.Cell == cell && !seen[key] {
			seen[key] = true
			out = append(out, e)
		}
	}
	return out
}

// pullDiagram is what starting and holding take.
func (o *drafter) pullDiagram(cell int, rows []result.AlongRow) diagram {
	unit, times := o.forceUnit()
	d := o.base("Pull and restraint", "Force, "+unit, rows)
	pull := func(of func(p *result.AlongPull) float64) func(a result.AlongRow) (float64, bool) {
		return func(a result.AlongRow) (float64, bool) {
			if a.Pulling == nil {
				return 0, false
			}
			return times * of(a.Pulling), true
		}
	}
	start := func(p *result.AlongPull) float64 { return p.Start }
	hold := func(p *result.AlongPull) float64 { return p.Hold }
	d.curves = []curve{{name: "pull to start", on: sheet.Concrete, runs: o.runs(rows, pull(start))}, {name: "restraint", on: sheet.Steel, runs: o.runs(rows, pull(hold))}}
	t := o.study.Job.Travel
	if t.Capacity > 0 {
		d.levels = append(d.levels, level{t.PulledBy + " " + o.force(float64(t.Capacity)), times * float64(t.Capacity)})
	}
	if t.Restraint != nil {
		d.levels = append(d.levels, level{"restraint has " + o.force(float64(t.Restraint.Capacity)), times * float64(t.Restraint.Capacity)})
	}
	d.greatest(o, rows, start, times, "pull")
	d.greatest(o, rows, hold, times, "restraint")
	return d
}

// greatest marks the largest of a force, where there is any.
func (d *diagram) greatest(o *drafter, rows []result.AlongRow, of func(p *result.AlongPull) float64, times float64, name string) {
	_, way := o.wayUnit()
	most, at := 0.0, 0.0
	for _, a := range rows {
		if a.Pulling != nil && of(a.Pulling) > most+1e-9 {
			most, at = of(a.Pulling), a.Station
		}
	}
	if most > 0 {
		d.marks = append(d.marks, mark{sheet.Pt(way*at, times*most), name + " " + o.forceUp(most)})
	}
}

// wheelDiagram is the greatest and the least load of any wheel, for a rigid
// frame and for one soft in torsion.
func (o *drafter) wheelDiagram(cell int, rows []result.AlongRow) diagram {
	unit, times := o.forceUnit()
	d := o.base("Wheel loads, standing", "Load of one wheel, "+unit, rows)
	rigid := func(w result.AlongLine) (l, r float64) { return w.RigidLeft, w.RigidRight }
	soft := func(w result.AlongLine) (l, r float64) { return w.SoftLeft, w.SoftRight }
	most := func(a, b float64) float64 { return max(a, b) }
	least := func(a, b float64) float64 { return min(a, b) }
	of := func(loads func(result.AlongLine) (l, r float64), pick func(a, b float64) float64) func(a result.AlongRow) (float64, bool) {
		return func(a result.AlongRow) (float64, bool) {
			if len(a.Wheels) == 0 {
				return 0, false
			}
			l, r := loads(a.Wheels[0])
			out := pick(l, r)
			for _, w := range a.Wheels[1:] {
				l, r = loads(w)
				out = pick(out, pick(l, r))
			}
			return times * out, true
		}
	}
	greatest, other := o.runs(rows, of(rigid, most)), o.runs(rows, of(soft, most))
	if same(greatest, other) && same(o.runs(rows, of(rigid, least)), o.runs(rows, of(soft, least))) {
		d.curves = []curve{{name: "greatest, rigid and soft", on: sheet.Concrete, runs: greatest}, {name: "least, rigid and soft", on: sheet.General, runs: o.runs(rows, of(rigid, least))}}
	} else {
		d.curves = []curve{{name: "greatest, rigid frame", on: sheet.Concrete, runs: greatest}, {name: "greatest, soft frame", on: sheet.Hidden, runs: other},
			{name: "least, rigid frame", on: sheet.General, runs: o.runs(rows, of(rigid, least))}, {name: "least, soft frame", on: sheet.Centre, runs: o.runs(rows, of(soft, least))}}
	}
	if c := float64(o.study.Gear.Wheels.Capacity); c > 0 {
		d.levels = append(d.levels, level{"wheel carries " + o.force(c), times * c})
	}
	top := sheet.Pt(0, 0)
	for _, run := range append(slices.Clone(greatest), other...) {
		for _, p := range run {
			if p[1] > top[1]+1e-9 {
				top = p
			}
		}
	}
	if top[1] > 0 {
		d.marks = append(d.marks, mark{top, "greatest " + o.forceUp(top[1]/times)})
	}
	return d
}

// same tells curves that cannot be told apart on paper.
func same(a, b [][]sheet.Point) bool {
	return slices.EqualFunc(a, b, func(p, q []sheet.Point) bool {
		return slices.EqualFunc(p, q, func(x, y sheet.Point) bool { return x.Sub(y).Len() < 0.005 })
	})
}

// alongTable is what is proved, zone by zone, and the loads held against their
// limits.
func (o *drafter) alongTable(s *sheet.Sheet, cell int) *sheet.View {
	var rows [][]string
	var emphasis []sheet.Emphasis
	for _, id := range []string{"roll.clear", "roll.pull", "roll.hold", "roll.bearing"} {
		for _, e := range o.rolling(id, cell) {
			f, off, left, at := figuresOf(e, o.units()), "", "", ""
			if f.value == "" {
				f.value = "none near"
			}
			if e.Allowance > 0 {
				off = f.off
				if e.Sense == result.Min {
					left = f.left
				}
			}
			if e.Where.Station != nil {
				at = o.station(float64(o.study.Start().Station) + *e.Where.Station)
			}
			rows = append(rows, []string{e.ID, e.Subject.String(), at, e.Where.Part, f.value, off, left, f.limit, e.Verdict.String()})
			tone := sheet.Plain
			if e.Verdict != result.Pass {
				tone = sheet.Alarm
			}
			emphasis = append(emphasis, tone)
		}
	}
	return s.Table("Proved and worked out, the worst pour of each", []sheet.Column{{Title: "Check"}, {Title: "Where"}, {Title: "Rear end at", Right: true}, {Title: "Part"}, {Title: "Value", Right: true}, {Title: "Allowance", Right: true}, {Title: "Left", Right: true}, {Title: "Limit", Right: true}, {Title: "Verdict"}}, rows, emphasis...)
}

// wayFrom says where the carrier goes from a pour.
func (o *drafter) wayFrom(cell, pour int) string {
	for i := range o.study.Bays {
		if b := &o.study.Bays[i]; b.Cell.Number == cell && b.Pour.Number == pour && !b.Leaves {
			return fmt.Sprintf("pour %d to %d", pour, b.Next)
		}
	}
	return fmt.Sprintf("pour %d out", pour)
}
