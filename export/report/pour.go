package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/clearance/statics"
	"boxwalk/export/plot"
	"boxwalk/model"
	"boxwalk/model/culvert"
	"boxwalk/model/units"
)

// pour are the diagrams of the pour where it governs: pressure over the height, and
// moments of the waler along the form.
func (w *writer) pour() []Block {
	var out []Block
	if e, b := w.governs("pour.pressure"); b != nil {
		if f, err := statics.FreshOf(w.study.Job, b.Cell.Section, w.system); err == nil {
			out = append(out, Figure{w.pressurePlot(e, b, f).Draw(figureWide, figureLow)})
		}
	}
	if e, b := w.governs("pour.walers"); b != nil {
		if p, is := w.walerPlot(e, b); is {
			out = append(out, Figure{p.Draw(figureWide, figureLow)})
		}
	}
	if out == nil {
		return []Block{Paragraph{"Nothing to draw: the pour was not asked for, or what it presses with is not known.", Plain}}
	}
	return out
}

// governs is what governs a check, and its bay; nil where it has no number.
func (w *writer) governs(id string) (result.Entry, *model.Bay) {
	n := slices.IndexFunc(w.result.Checks, func(e result.Entry) bool { return e.ID == id })
	if n < 0 || w.result.Checks[n].Value == nil {
		return result.Entry{}, nil
	}
	e := w.result.Checks[n]
	for i := range w.study.Bays {
		if b := &w.study.Bays[i]; b.Cell.Number == e.Subject.Cell && b.Pour.Number == e.Subject.Pour {
			return e, b
		}
	}
	return e, nil
}

// bound is the limit of an entry across a plot, as it is printed; none where there is
// none.
func (w *writer) bound(e result.Entry, name string) []plot.Level {
	if e.Limit == nil {
		return nil
	}
	p := e.Printed(w.system)
	return []plot.Level{{Name: name + " " + p.Measure.With(p.Limit), At: p.Measure.Times * *e.Limit}}
}

// pressurePlot is what fresh concrete presses with on an upright face, from the kicker
// to the top of the roof, beside its full head.
func (w *writer) pressurePlot(e result.Entry, b *model.Bay, f statics.Fresh) plot.Plot {
	m, n := units.Shown("kPa", w.system), e.Printed(w.system)
	unit, times := w.way()
	p := plot.Plot{Title: fmt.Sprintf("pressure of the fresh concrete, cell %d", b.Cell.Number), Across: "Height above the invert, " + unit, Up: "Pressure, " + m.Name,
		Says:   fmt.Sprintf("What fresh concrete presses with on an upright face over the height, beside its full head. The most on a %s is %s, by %s.", e.Subject.What, n.Measure.With(n.Value), f.Source),
		Levels: w.bound(e, e.Subject.What+" takes")}
	const steps = 240
	by, full := plot.Curve{Name: "pressure", Fill: true, Runs: make([][]plot.Point, 1)}, plot.Curve{Name: "full head", Runs: make([][]plot.Point, 1)}
	for i := range steps + 1 {
		z := f.Base + (f.Top-f.Base)*float64(i)/steps
		by.Runs[0] = append(by.Runs[0], plot.Point{times * z, m.Times * f.Upright(z)})
		full.Runs[0] = append(full.Runs[0], plot.Point{times * z, m.Times * f.Head(z)})
	}
	p.Curves = []plot.Curve{by, full}
	return p
}

// walerPlot is the moment of the waler that governs, along the form; not where what its
// ties take does not make up what presses, as a waler that lifts off one does.
func (w *writer) walerPlot(e result.Entry, b *model.Bay) (plot.Plot, bool) {
	n := slices.IndexFunc(e.Working, func(l result.Line) bool { return l.Symbol == "q" })
	if n < 0 || e.Unit != "kNm" {
		return plot.Plot{}, false
	}
	q, run := e.Working[n].Value, w.ties(b, e)
	if run == nil {
		return plot.Plot{}, false
	}
	m, shown := units.Shown("kNm", w.system), e.Printed(w.system)
	unit, times := w.way()
	p := plot.Plot{Title: fmt.Sprintf("moments, cell %d, pour %d, %s", b.Cell.Number, b.Pour.Number, e.Subject.What), Across: "Along the form from its rear end, " + unit, Up: "Moment, sagging positive, " + m.Name,
		Says:   fmt.Sprintf("Moments of the waler that governs, along the form, as a continuous beam over its ties where concrete presses. The most either way is %s.", shown.Measure.With(shown.Value)),
		Levels: w.bound(e, "waler takes")}
	const steps = 400
	c := plot.Curve{Name: "moment", Fill: true, Runs: make([][]plot.Point, 1)}
	for i := range steps + 1 {
		x := run.From + (run.To-run.From)*float64(i)/steps
		c.Runs[0] = append(c.Runs[0], plot.Point{times * (x - b.Carrier.Rear), m.Times * q * momentAt(run, x)})
	}
	p.Curves = []plot.Curve{c}
	return p, true
}

// ties is how the ties of an entry's wall take what presses; nil where they do not make
// it up.
func (w *writer) ties(b *model.Bay, e result.Entry) *statics.Run {
	f, err := statics.FreshOf(w.study.Job, b.Cell.Section, w.system)
	if err != nil {
		return nil
	}
	for _, side := range []culvert.Side{culvert.Left, culvert.Right} {
		s, err := statics.SideOf(b, f, side, 0, &statics.Kept{})
		if err != nil || s == nil || s.Ties == nil || !strings.Contains(e.Subject.What, side.String()+" wall") {
			continue
		}
		sum := 0.0
		for _, t := range s.Ties.Takes {
			sum += t
		}
		if math.Abs(sum-(s.Ties.To-s.Ties.From)) < 1e-6 {
			return s.Ties
		}
	}
	return nil
}

// momentAt is the moment of a unit load over props, m2, from what each takes.
func momentAt(r *statics.Run, x float64) float64 {
	behind := func(from float64) float64 { return math.Max(0, x-from) }
	out := (behind(r.To)*behind(r.To) - behind(r.From)*behind(r.From)) / 2
	for i, at := range r.At {
		out += r.Takes[i] * behind(at)
	}
	return out
}
