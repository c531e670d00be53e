package views

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"boxwalk/export/sheet"
	"boxwalk/model/units"
)

// curve is one line of a diagram: runs of points, and its name at the end.
type curve struct {
	name string
	on   sheet.Layer
	runs [][]sheet.Point // in the diagram's own units
	told bool            // a mark names it, where it ends before the field does
}

// mark is one point that a diagram tells the value of.
type mark struct {
	at   sheet.Point
	text string
}

// level is a horizontal line across a diagram, such as a limit.
type level struct {
	name string
	at   float64
}

// diagram is a plot of curves over the way.
type diagram struct {
	title  string
	across string        // what runs along the bottom
	up     string        // what runs up the side, with its unit
	joints []sheet.Point // {place, 0} of the ends of advances
	named  []string      // what stands between two of them
	curves []curve
	marks  []mark
	levels []level
	most   float64 // highest value shown; what is above is cut off
	high   float64 // of the field on paper, mm
}

// Sizes on paper, mm: the width of a diagram's field, its height where many curves
// and marks are told apart and where a few run far apart, and the room to its
// right up to a name.
const (
	plotWide = 360.0
	plotHigh = 82.0
	plotLow  = 37.0
	plotName = 10.0
)

// field turns a diagram's units into mm of paper.
type field struct{ x0, x1, y0, y1, high float64 }

func (f field) at(p sheet.Point) sheet.Point {
	return sheet.Pt((p[0]-f.x0)/(f.x1-f.x0)*plotWide, (p[1]-f.y0)/(f.y1-f.y0)*f.high)
}

// field that shows all curves, levels and marks, from zero or below.
func (d diagram) field() field {
	f := field{math.Inf(1), math.Inf(-1), 0, 0, d.high}
	for _, c := range d.curves {
		for _, run := range c.runs {
			for _, p := range run {
				f.x0, f.x1 = min(f.x0, p[0]), max(f.x1, p[0])
				f.y0, f.y1 = min(f.y0, p[1]), max(f.y1, min(p[1], d.most))
			}
		}
	}
	for _, l := range d.levels {
		f.y1 = max(f.y1, l.at)
	}
	for _, j := range d.joints {
		f.x0, f.x1 = min(f.x0, j[0]), max(f.x1, j[0])
	}
	step := niceStep(f.y1-f.y0, 5)
	f.y0, f.y1 = step*math.Floor(f.y0/step), step*math.Ceil(f.y1/step+0.2)
	if !(f.y1 > f.y0) {
		f.y1 = f.y0 + 1
	}
	if !(f.x1 > f.x0) {
		f.x0, f.x1 = 0, 1
	}
	return f
}

// niceStep is 1, 2 or 5 times a power of ten, so that a range has at most so
// many steps.
func niceStep(span float64, most int) float64 {
	if !(span > 0) {
		return 1
	}
	step := math.Pow(10, math.Floor(math.Log10(span/float64(most))))
	for _, k := range []float64{1, 2, 5, 10} {
		if span/(k*step) <= float64(most) {
			return k * step
		}
	}
	return 10 * step
}

// draw makes the view of a diagram at full size on paper.
func (d diagram) draw(s *sheet.Sheet) *sheet.View {
	v := &sheet.View{Title: d.title, Scale: 1, NoScale: true}
	f := d.field()
	d.frame(s, v, f)
	d.stretches(s, v, f)
	for _, c := range d.curves {
		for _, run := range c.runs {
			var points []sheet.Point
			for _, p := range run {
				points = append(points, f.at(p))
			}
			v.Polyline(c.on, clipAbove(points, d.high)...)
		}
	}
	d.names(s, v, f)
	d.letterMarks(s, v, f)
	return v
}

// clipAbove cuts a run off at a height: it follows the edge of the field there.
func clipAbove(points []sheet.Point, high float64) []sheet.Point {
	out := slices.Clone(points)
	for i := range out {
		out[i][1] = min(out[i][1], high)
	}
	return out
}

// frame draws the field with its divisions.
func (d diagram) frame(s *sheet.Sheet, v *sheet.View, f field) {
	h := s.LetteringHeight()
	v.Rect(sheet.General, sheet.Pt(0, 0), sheet.Pt(plotWide, d.high))
	for _, y := range divisions(f.y0, f.y1, 5) {
		p := f.at(sheet.Pt(f.x0, y))
		if y > f.y0 && y < f.y1 {
			v.Line(sheet.ConcreteHatch, p, p.Add(sheet.Pt(plotWide, 0)))
		}
		v.Text(p.Sub(sheet.Pt(h, 0)), sheet.MiddleRight, plainNumber(y))
	}
	for _, x := range divisions(f.x0, f.x1, 12) {
		p := f.at(sheet.Pt(x, f.y0))
		v.Line(sheet.General, p, p.Sub(sheet.Pt(0, h/2)))
		v.Text(p.Sub(sheet.Pt(0, h)), sheet.TopCentre, plainNumber(x))
	}
	v.Text(sheet.Pt(plotWide/2, -3*h), sheet.TopCentre, d.across)
	v.Text(sheet.Pt(0, d.high+h), sheet.BaseLeft, d.up)
}

// divisions are the round numbers within a range.
func divisions(lo, hi float64, most int) []float64 {
	step := niceStep(hi-lo, most)
	var out []float64
	for k := math.Ceil(lo/step - 1e-9); k*step <= hi+1e-9*step; k++ {
		out = append(out, k*step+0)
	}
	return out
}

func plainNumber(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e6)/1e6, 'f', -1, 64)
}

// stretches draws where one advance ends and the next begins.
func (d diagram) stretches(s *sheet.Sheet, v *sheet.View, f field) {
	h := s.LetteringHeight()
	for i, j := range d.joints {
		x := f.at(sheet.Pt(j[0], 0))[0]
		if x > 1e-6 && x < plotWide-1e-6 {
			v.Line(sheet.Centre, sheet.Pt(x, 0), sheet.Pt(x, d.high))
		}
		if i+1 < len(d.joints) && i < len(d.named) {
			next := f.at(sheet.Pt(d.joints[i+1][0], 0))[0]
			if next-x > sheet.TextWidth(d.named[i], h)+2*h {
				v.Text(sheet.Pt((x+next)/2, d.high-0.7*h), sheet.TopCentre, d.named[i])
			}
		}
	}
}

// names letters the curves and levels to the right of the field, in the order of
// where they end, each with a line to its end.
func (d diagram) names(s *sheet.Sheet, v *sheet.View, f field) {
	type tag struct {
		end  sheet.Point
		name string
		on   sheet.Layer
	}
	var list []tag
	for _, l := range d.levels {
		a, b := f.at(sheet.Pt(f.x0, l.at)), f.at(sheet.Pt(f.x1, l.at))
		v.Line(sheet.Clearance, a, b)
		list = append(list, tag{b, l.name, sheet.Clearance})
	}
	for _, c := range d.curves {
		if len(c.runs) == 0 {
			continue
		}
		run := c.runs[len(c.runs)-1]
		end := f.at(run[len(run)-1])
		if c.told && end[0] < 0.9*plotWide {
			continue
		}
		list = append(list, tag{clipAbove([]sheet.Point{end}, d.high)[0], c.name, c.on})
	}
	slices.SortStableFunc(list, func(a, b tag) int { return cmp.Compare(b.end[1], a.end[1]) })
	h := s.LetteringHeight()
	pitch := 2 * h
	y := make([]float64, len(list))
	for i, t := range list {
		y[i] = t.end[1]
		if i > 0 {
			y[i] = min(y[i], y[i-1]-pitch)
		}
	}
	if n := len(y); n > 0 && y[n-1] < h/2 { // push up from the bottom
		y[n-1] = h / 2
		for i := n - 2; i >= 0; i-- {
			y[i] = max(y[i], y[i+1]+pitch)
		}
	}
	for i, t := range list {
		knee := sheet.Pt(plotWide+plotName, y[i])
		v.Line(sheet.Dimensioning, t.end, knee)
		v.Text(knee.Add(sheet.Pt(h/2, 0)), sheet.MiddleLeft, t.name)
	}
}

// letterMarks circles the points told and letters them where there is room:
// above or below, to the left or the right.
func (d diagram) letterMarks(s *sheet.Sheet, v *sheet.View, f field) {
	const radius = 1.1
	h := s.LetteringHeight()
	p := newPlacer(s, v, 1)
	var drawn outlines
	marks := slices.Clone(d.marks)
	slices.SortStableFunc(marks, func(a, b mark) int { return cmp.Compare(b.at[1], a.at[1]) })
	for _, m := range marks {
		at := clipAbove([]sheet.Point{f.at(m.at)}, d.high)[0]
		v.Circle(sheet.Clearance, at, radius)
		wide := sheet.TextWidth(m.text, h)
		var places []sheet.Leader
		for _, up := range []float64{1, -1} {
			for _, rise := range []float64{2.5, 4.5, 6.5, 9, 11.5, 14} {
				for _, side := range []float64{1, -1} {
					for _, run := range []float64{2, 6, 12, 18, 25} {
						knee := at.Add(sheet.Pt(side*run*h, up*rise*h))
						if knee[1] < h || knee[1] > d.high-2.8*h || knee[0]+side*(wide+h) < h || knee[0]+side*(wide+h) > plotWide-h {
							continue
						}
						places = append(places, sheet.Leader{On: sheet.Clearance, Tip: at, Knee: knee, Lines: []string{m.text}})
					}
				}
			}
		}
		best, ok := p.best(len(places), func(i int) []sheet.Item { return s.DrawLeader(places[i], 1).Items() },
			func(i int) float64 {
				crossed := drawn.met([]sheet.Point{places[i].Knee, at}, math.Inf(1))
				return 0.12*places[i].Knee.Sub(at).Len()/h + 4*float64(crossed)
			})
		if ok {
			v.Add(places[best])
			drawn.add(places[best].Knee, at)
		}
	}
}

// unit of a value of the result on this job's drawings: mm or in, kN or kip.
func (o *drafter) lengthUnit() (name string, times float64) {
	if o.units().Imperial {
		return "in", 1 / 0.0254
	}
	return "mm", perMetre
}

func (o *drafter) forceUnit() (name string, times float64) {
	m := units.Shown("kN", o.system())
	return m.Name, m.Times
}

func (o *drafter) force(v float64) string {
	m := units.Shown("kN", o.system())
	return m.With(m.Nearest(v))
}

// forceUp letters a demand, rounded to the larger.
func (o *drafter) forceUp(v float64) string {
	m := units.Shown("kN", o.system())
	return m.With(m.Up(v))
}

// wayUnit is a place on the way on drawings: metres, or feet.
func (o *drafter) wayUnit() (name string, times float64) {
	if o.units().Imperial {
		return "ft", 1 / 0.3048
	}
	return "m", 1
}
