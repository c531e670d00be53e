package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/export/plot"
	"boxwalk/model/culvert"
	"boxwalk/model/units"
)

// Sizes of figures in points: as wide as the text of A4 or letter, the higher one where
// many curves are told apart.
const (
	figureWide = 500
	figureHigh = 250
	figureLow  = 185
)

// plots are the diagrams along the way, for each set of cells that do not differ in
// them.
func (w *writer) plots() []Block {
	out := []Block{Paragraph{"Curves join samples at evenly spaced places and at those that govern. They show where it gets tight and prove nothing between two samples: the ringed values are the proved ones, and those of the tables.", Plain}}
	drawn := 0
	for _, cells := range w.alike() {
		rows := w.alongOf(cells[0])
		name := cellsNamed(cells)
		out = append(out, Heading{ID: fmt.Sprintf("way-of-cell-%d", cells[0]), Text: name})
		clear, bears := w.clearPlot(cells[0], rows), w.wheelPlot(rows)
		for _, d := range []plot.Drawing{clear.Draw(figureWide, figureHigh), w.pullPlot(cells[0], rows).Draw(figureWide, figureLow), w.holdPlot(cells[0], rows).Draw(figureWide, figureLow), bears.Draw(figureWide, figureLow)} {
			d.Title = name + ": " + d.Title
			out = append(out, Figure{d})
			drawn++
		}
	}
	if drawn == 0 {
		return []Block{Paragraph{"Nothing was sampled: the carrier does not roll, or clearance on the way was not asked for.", Plain}}
	}
	return out
}

// alongOf are the rows of a cell, pour by pour.
func (w *writer) alongOf(cell int) []result.AlongRow {
	return slices.DeleteFunc(slices.Clone(w.result.Along), func(a result.AlongRow) bool { return a.Cell != cell })
}

// alike are the numbers of the cells with rows, those together whose rows tell the same
// to a hundredth of a millimetre and a newton.
func (w *writer) alike() [][]int {
	var out [][]int
	place := map[string]int{}
	for _, c := range w.study.Culvert.Cells {
		rows := w.alongOf(c.Number)
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
			for _, l := range a.Wheels {
				fmt.Fprintf(&key, " %.3f %.3f %.3f %.3f", l.RigidLeft, l.RigidRight, l.SoftLeft, l.SoftRight)
			}
		}
		n, known := place[key.String()]
		if !known {
			n = len(out)
			place[key.String()] = n
			out = append(out, nil)
		}
		out[n] = append(out[n], c.Number)
	}
	return out
}

// way is how places along the way are shown.
func (w *writer) way() (unit string, times float64) {
	if w.system == units.Imperial {
		return "ft", 1 / 0.3048
	}
	return "m", 1
}

// over is a plot over the way, with the advances marked.
func (w *writer) over(title, says, up string, rows []result.AlongRow) plot.Plot {
	unit, times := w.way()
	p := plot.Plot{Title: title, Says: says, Across: "Rear end of the form along the alignment, " + unit, Up: up}
	for i := 0; i < len(rows); {
		k := i
		for k+1 < len(rows) && rows[k+1].Pour == rows[i].Pour {
			k++
		}
		p.Stretches = append(p.Stretches, plot.Stretch{From: times * rows[i].Station, To: times * rows[k].Station, Name: w.wayFrom(rows[i].Cell, rows[i].Pour)})
		i = k + 1
	}
	return p
}

// wayFrom says where the carrier goes from a pour, and that it goes back where it does.
func (w *writer) wayFrom(cell, pour int) string {
	for i := range w.study.Bays {
		b := &w.study.Bays[i]
		if b.Cell.Number != cell || b.Pour.Number != pour {
			continue
		}
		back := ""
		if b.Rolls < 0 {
			back = ", back"
		}
		if b.Leaves {
			return fmt.Sprintf("pour %d out%s", pour, back)
		}
		return fmt.Sprintf("pour %d to %d%s", pour, b.Next, back)
	}
	return fmt.Sprintf("pour %d", pour)
}

// runs splits one value of the rows into unbroken runs, a new one for each pour; ok
// tells where there is one.
func (w *writer) runs(rows []result.AlongRow, value func(a result.AlongRow) (v float64, ok bool)) [][]plot.Point {
	_, times := w.way()
	var out [][]plot.Point
	unbroken := false
	for i, a := range rows {
		v, ok := value(a)
		if i > 0 && a.Pour != rows[i-1].Pour {
			unbroken = false
		}
		if !ok {
			unbroken = false
			continue
		}
		if !unbroken {
			out = append(out, nil)
		}
		unbroken = true
		out[len(out)-1] = append(out[len(out)-1], plot.Point{times * a.Station, v})
	}
	return out
}

// clearPlot is what is left of the clearance to every surface.
func (w *writer) clearPlot(cell int, rows []result.AlongRow) plot.Plot {
	m, far := units.Shown("m", w.system), "0.3 m"
	if w.system == units.Imperial {
		far = "1 ft"
	}
	p := w.over("clearance while rolling", "What is left of the clearance to each surface after its allowance, along the way, beside its limit. Surfaces that stay "+far+" away are left out.", "Clearance less allowance, "+m.Name, rows)
	for _, z := range culvert.Zones {
		runs := w.runs(rows, func(a result.AlongRow) (float64, bool) {
			for _, g := range a.Gaps {
				if g.Zone == string(z) {
					return m.Times * (g.Gap - g.Allowance), true
				}
			}
			return 0, false
		})
		if len(runs) > 0 {
			p.Curves = append(p.Curves, plot.Curve{Name: z.Words(), Runs: runs})
		}
	}
	told := map[string]bool{}
	for _, e := range w.result.Checks {
		if e.ID != "roll.clear" || e.Subject.Cell != cell || e.Value == nil || e.Limit == nil || e.Margin == nil || told[e.Where.Zone] {
			continue
		}
		told[e.Where.Zone] = true
		p = w.markClear(p, e, m)
	}
	// what is far away would press what is near together
	p.Most = w.near(p)
	return p
}

// markClear rings where an entry governs, with the limit it is held against.
func (w *writer) markClear(p plot.Plot, e result.Entry, m units.Measure) plot.Plot {
	n := e.Printed(w.system)
	name := "limit " + n.Measure.With(n.Limit)
	if !slices.ContainsFunc(p.Levels, func(l plot.Level) bool { return l.Name == name }) {
		p.Levels = append(p.Levels, plot.Level{Name: name, At: m.Times * *e.Limit})
	}
	if e.Where.Station == nil {
		return p
	}
	_, times := w.way()
	left := e.Value.Lower - e.Allowance
	p.Marks = append(p.Marks, plot.Mark{At: plot.Point{times * *e.Where.Station, m.Times * left},
		Text: fmt.Sprintf("%s, %s: %s less allowance %s leaves %s; margin %s", e.Subject.Zone.Words(), e.Where.Part, n.Measure.With(n.Value), n.Measure.With(n.Off), m.With(m.Down(left)), n.Measure.With(n.Margin))})
	return p
}

// near is the highest value shown of a plot of clearances: three times the highest
// ringed one, or all.
func (w *writer) near(p plot.Plot) float64 {
	most := 0.0
	for _, m := range p.Marks {
		most = math.Max(most, m.At[1])
	}
	return 1.3 * most
}

// force is one force along the way.
func (w *writer) force(rows []result.AlongRow, of func(p *result.AlongPull) float64) [][]plot.Point {
	m := units.Shown("kN", w.system)
	return w.runs(rows, func(a result.AlongRow) (float64, bool) {
		if a.Pulling == nil {
			return 0, false
		}
		return m.Times * of(a.Pulling), true
	})
}

// pullPlot is what starting takes, beside what there is.
func (w *writer) pullPlot(cell int, rows []result.AlongRow) plot.Plot {
	m := units.Shown("kN", w.system)
	p := w.over("pull", "The pull that starts the carrier at each place along the way, beside what there is for it.", "Force, "+m.Name, rows)
	p.Curves = []plot.Curve{{Name: "pull to start", Runs: w.force(rows, func(p *result.AlongPull) float64 { return p.Start })}}
	return w.limited(p, cell, "roll.pull", w.study.Job.Travel.PulledBy)
}

// holdPlot is what the restraint takes, beside what there is.
func (w *writer) holdPlot(cell int, rows []result.AlongRow) plot.Plot {
	m := units.Shown("kN", w.system)
	p := w.over("restraint", "What the restraint has to take at each place along the way, beside what it has.", "Force, "+m.Name, rows)
	p.Curves = []plot.Curve{{Name: "restraint", Runs: w.force(rows, func(p *result.AlongPull) float64 { return p.Hold })}}
	return w.limited(p, cell, "roll.hold", "restraint has")
}

// limited adds the limit of a check, as it is printed, and its worst number in a cell.
func (w *writer) limited(p plot.Plot, cell int, id, name string) plot.Plot {
	for _, e := range w.result.Checks {
		if e.ID != id || e.Subject.Cell != cell || e.Value == nil || e.Limit == nil {
			continue
		}
		n := e.Printed(w.system)
		p.Levels = append(p.Levels, plot.Level{Name: name + " " + n.Measure.With(n.Limit), At: n.Measure.Times * *e.Limit})
		p.Says += fmt.Sprintf(" The most of %s is %s, at pour %d.", id, n.Measure.With(n.Value), e.Subject.Pour)
		return p
	}
	return p
}

// wheelPlot is the greatest and the least load of any wheel, for a rigid frame and for
// one soft in torsion.
func (w *writer) wheelPlot(rows []result.AlongRow) plot.Plot {
	m := units.Shown("kN", w.system)
	p := w.over("wheel loads, standing", "The greatest and the least load of any wheel at each place along the way, standing still on an even invert. Rocking on fewer wheels gives more: that is what roll.wheel and roll.bearing take.", "Load of one wheel, "+m.Name, rows)
	for _, c := range []struct {
		name        string
		rigid, most bool
	}{{"greatest, rigid frame", true, true}, {"greatest, soft frame", false, true}, {"least, rigid frame", true, false}, {"least, soft frame", false, false}} {
		runs := w.runs(rows, func(a result.AlongRow) (float64, bool) {
			v, ok := wheelLoad(a.Wheels, c.rigid, c.most)
			return m.Times * v, ok
		})
		p.Curves = append(p.Curves, plot.Curve{Name: c.name, Runs: runs})
	}
	if sameRuns(p.Curves[0], p.Curves[1]) && sameRuns(p.Curves[2], p.Curves[3]) {
		p.Curves = []plot.Curve{{Name: "greatest, rigid and soft", Runs: p.Curves[0].Runs}, {Name: "least, rigid and soft", Runs: p.Curves[2].Runs}}
	}
	return p
}

// sameRuns tells curves that cannot be told apart on paper.
func sameRuns(a, b plot.Curve) bool {
	return slices.EqualFunc(a.Runs, b.Runs, func(p, q []plot.Point) bool {
		return slices.EqualFunc(p, q, func(x, y plot.Point) bool { return math.Abs(x[1]-y[1]) <= 0.005*math.Abs(x[1]) })
	})
}

// wheelLoad is the most or the least on any wheel; ok tells whether there are any.
func wheelLoad(lines []result.AlongLine, rigid, most bool) (v float64, ok bool) {
	for _, l := range lines {
		for _, load := range [2]float64{pick(rigid, l.RigidLeft, l.SoftLeft), pick(rigid, l.RigidRight, l.SoftRight)} {
			if !ok || most == (load > v) {
				v, ok = load, true
			}
		}
	}
	return v, ok
}

func pick(first bool, a, b float64) float64 {
	if first {
		return a
	}
	return b
}
