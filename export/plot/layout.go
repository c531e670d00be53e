package plot

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
)

// Sizes in points.
const (
	small   = 7.5 // letters
	leftGap = 42  // up to the field, for numbers
	topGap  = 20
	lowGap  = 34
	ring    = 5
	pitch   = 9.5 // of names beside each other
)

// pens tell curves apart in black and white: solid, dashed, dotted, and in grey.
var pens = []Pen{
	{Width: 1.3}, {Width: 1.3, Dash: []float64{6, 2.5}}, {Width: 1.3, Dash: []float64{1.5, 2}}, {Width: 1.3, Dash: []float64{8, 2, 1.5, 2}},
	{Width: 1.6, Grey: 0.55}, {Width: 1.6, Grey: 0.55, Dash: []float64{6, 2.5}}, {Width: 1.6, Grey: 0.55, Dash: []float64{1.5, 2}}, {Width: 1.6, Grey: 0.55, Dash: []float64{8, 2, 1.5, 2}},
}

var (
	fine  = Pen{Width: 0.5, Grey: 0.8}
	edge  = Pen{Width: 0.7, Grey: 0.3}
	joint = Pen{Width: 0.6, Grey: 0.5, Dash: []float64{2, 2}}
	limit = Pen{Width: 1.1, Alarm: true, Dash: []float64{4, 2}}
)

// field turns a plot's units into points.
type field struct {
	x0, x1, y0, y1           float64 // of the plot
	left, top, right, bottom float64 // on paper
}

func (f field) at(p Point) Point {
	y := math.Max(math.Min(p[1], f.y1), f.y0)
	return Point{f.left + (p[0]-f.x0)/(f.x1-f.x0)*(f.right-f.left), f.bottom - (y-f.y0)/(f.y1-f.y0)*(f.bottom-f.top)}
}

// Draw lays a plot out in a width and a height.
func (p Plot) Draw(width, height float64) Drawing {
	d := Drawing{Title: p.Title, Says: p.Says, Width: width, Height: height}
	f := p.field(width, height)
	d.axes(f, p.Across, p.Up)
	d.stretches(f, p.Stretches)
	for i, c := range p.Curves {
		d.curve(f, c, pens[i%len(pens)])
	}
	d.names(f, p)
	d.marks(f, p.Marks)
	return d
}

// field that shows all curves and levels, from zero or below.
func (p Plot) field(width, height float64) field {
	f := field{x0: math.Inf(1), x1: math.Inf(-1), left: leftGap, top: topGap, right: width - p.nameRoom(), bottom: height - lowGap}
	most := p.Most
	if most == 0 {
		most = math.Inf(1)
	}
	for _, c := range p.Curves {
		for _, run := range c.Runs {
			for _, q := range run {
				f.x0, f.x1 = min(f.x0, q[0]), max(f.x1, q[0])
				f.y0, f.y1 = min(f.y0, q[1]), max(f.y1, min(q[1], most))
			}
		}
	}
	for _, l := range p.Levels {
		f.y0, f.y1 = min(f.y0, l.At), max(f.y1, l.At)
	}
	for _, s := range p.Stretches {
		f.x0, f.x1 = min(f.x0, s.From, s.To), max(f.x1, s.From, s.To)
	}
	step := niceStep(f.y1-f.y0, 5)
	f.y0, f.y1 = step*math.Floor(f.y0/step), step*math.Ceil(f.y1/step+0.2)
	if !(f.y1 > f.y0) {
		f.y1 = f.y0 + 1
	}
	switch {
	case f.x0 > f.x1: // nothing is drawn
		f.x0, f.x1 = 0, 1
	case f.x0 == f.x1:
		f.x0, f.x1 = f.x0-0.5, f.x1+0.5
	}
	return f
}

// nameRoom is what the names beside the field take.
func (p Plot) nameRoom() float64 {
	wide := 0.0
	for _, c := range p.Curves {
		wide = max(wide, Wide(c.Name, small))
	}
	for _, l := range p.Levels {
		wide = max(wide, Wide(l.Name, small))
	}
	return wide + 18
}

// niceStep is 1, 2 or 5 times a power of ten, so that a range has at most so many.
func niceStep(span float64, most int) float64 {
	if !(span > 0) || math.IsInf(span, 0) {
		return 1
	}
	step := math.Pow(10, math.Floor(math.Log10(span/float64(most))))
	for _, k := range []float64{1, 2, 5} {
		if span/(k*step) <= float64(most) {
			return k * step
		}
	}
	return 10 * step
}

// divisions are the round numbers within a range.
func divisions(lo, hi float64, most int) []float64 {
	step := niceStep(hi-lo, most)
	var out []float64
	for k := math.Ceil(lo/step - 1e-9); k*step <= hi+1e-9*step && len(out) < 100; k++ {
		out = append(out, k*step+0)
	}
	return out
}

// plain is a number as short as it is to a millionth; next to nothing has no sign.
func plain(v float64) string { return strconv.FormatFloat(math.Round(v*1e6)/1e6+0, 'f', -1, 64) }

func (d *Drawing) add(list ...Item) { d.Items = append(d.Items, list...) }

// axes draw the field with its divisions.
func (d *Drawing) axes(f field, across, up string) {
	for _, y := range divisions(f.y0, f.y1, 5) {
		at := f.at(Point{f.x0, y})
		d.add(Stroke{[]Point{at, {f.right, at[1]}}, fine}, Letters{At: Point{f.left - 4, at[1] + small*0.35}, Text: plain(y), Size: small, Anchor: End})
	}
	d.bottom(f, across)
	d.add(Letters{At: Point{f.left, f.top - 8}, Text: up, Size: small})
	if f.y0 < 0 {
		zero := f.at(Point{f.x0, 0})
		d.add(Stroke{[]Point{zero, {f.right, zero[1]}}, edge})
	}
	d.add(Stroke{[]Point{{f.left, f.top}, {f.right, f.top}, {f.right, f.bottom}, {f.left, f.bottom}, {f.left, f.top}}, edge})
}

// bottom letters what runs across.
func (d *Drawing) bottom(f field, across string) {
	for _, x := range divisions(f.x0, f.x1, 12) {
		at := f.at(Point{x, f.y0})
		d.add(Stroke{[]Point{at, {at[0], at[1] + 3}}, edge}, Letters{At: Point{at[0], at[1] + 3 + small}, Text: plain(x), Size: small, Anchor: Middle})
	}
	d.add(Letters{At: Point{(f.left + f.right) / 2, f.bottom + 8 + 2.3*small}, Text: across, Size: small, Anchor: Middle})
}

// stretches draw where one ends and the next begins, and name those with room.
func (d *Drawing) stretches(f field, list []Stretch) {
	for _, s := range list {
		a, b := f.at(Point{s.From, 0})[0], f.at(Point{s.To, 0})[0]
		for _, x := range []float64{a, b} {
			if x > f.left+1e-6 && x < f.right-1e-6 {
				d.add(Stroke{[]Point{{x, f.top}, {x, f.bottom}}, joint})
			}
		}
		if math.Abs(b-a) > Wide(s.Name, small)+4 {
			d.add(Letters{At: Point{(a + b) / 2, f.top + small + 2}, Text: s.Name, Size: small, Anchor: Middle})
		}
	}
}

func (d *Drawing) curve(f field, c Curve, pen Pen) {
	for _, run := range c.Runs {
		var points []Point
		for _, q := range run {
			points = append(points, f.at(q))
		}
		if c.Fill && len(run) > 1 {
			last, first := f.at(Point{run[len(run)-1][0], 0}), f.at(Point{run[0][0], 0})
			d.add(Area{append(slices.Clone(points), last, first), 0.9})
		}
		d.add(Stroke{points, pen})
	}
}

// names letters curves and levels to the right of the field, in the order of where
// they end, each with a line to its end.
func (d *Drawing) names(f field, p Plot) {
	type tag struct {
		end  Point
		name string
		pen  Pen
	}
	var list []tag
	for _, l := range p.Levels {
		a, b := f.at(Point{f.x0, l.At}), f.at(Point{f.x1, l.At})
		d.add(Stroke{[]Point{a, b}, limit})
		list = append(list, tag{b, l.Name, limit})
	}
	for i, c := range p.Curves {
		if n := len(c.Runs); n > 0 && len(c.Runs[n-1]) > 0 {
			run := c.Runs[n-1]
			list = append(list, tag{f.at(run[len(run)-1]), c.Name, pens[i%len(pens)]})
		}
	}
	slices.SortStableFunc(list, func(a, b tag) int { return cmp.Compare(a.end[1], b.end[1]) })
	y := make([]float64, len(list))
	for i, t := range list {
		y[i] = max(t.end[1], f.top)
		if i > 0 {
			y[i] = max(y[i], y[i-1]+pitch)
		}
	}
	for i := len(y) - 1; i >= 0; i-- { // push up from the bottom
		low := f.bottom
		if i+1 < len(y) {
			low = y[i+1] - pitch
		}
		y[i] = min(y[i], low)
	}
	for i, t := range list {
		d.add(Stroke{[]Point{t.end, {f.right + 3, y[i]}, {f.right + 12, y[i]}}, t.pen},
			Letters{At: Point{f.right + 14, y[i] + small*0.35}, Text: t.name, Size: small, Alarm: t.pen.Alarm})
	}
}

// marks ring the points told and number them; what they say stands below.
func (d *Drawing) marks(f field, list []Mark) {
	var taken []Point
	for i, m := range list {
		at := f.at(m.At)
		d.add(Ring{at, 2, Pen{Width: 0.9, Alarm: true}})
		to := roomFor(f, at, taken)
		taken = append(taken, to)
		d.add(Stroke{[]Point{at, to}, Pen{Width: 0.5, Alarm: true}}, Area{circle(to, ring), 1}, Ring{to, ring, Pen{Width: 0.8, Alarm: true}},
			Letters{At: Point{to[0], to[1] + small*0.33}, Text: strconv.Itoa(i + 1), Size: small, Anchor: Middle, Alarm: true})
		d.Told = append(d.Told, fmt.Sprintf("%d: %s", i+1, m.Text))
	}
}

// roomFor is a place for a number near a point, clear of the numbers before and of the
// field's edge.
func roomFor(f field, at Point, taken []Point) Point {
	for _, off := range []float64{14, 22, 32, 44, 58} {
		for _, way := range []Point{{0, -1}, {0.7, -0.7}, {-0.7, -0.7}, {0, 1}, {0.7, 0.7}, {-0.7, 0.7}, {1, 0}, {-1, 0}} {
			to := Point{at[0] + off*way[0], at[1] + off*way[1]}
			in := to[0] > f.left+ring && to[0] < f.right-ring && to[1] > f.top+ring+small && to[1] < f.bottom-ring
			if in && !slices.ContainsFunc(taken, func(q Point) bool { return math.Hypot(q[0]-to[0], q[1]-to[1]) < 2.3*ring }) {
				return to
			}
		}
	}
	return at
}

// circle is a ring's outline for filling.
func circle(at Point, radius float64) []Point {
	out := make([]Point, 24)
	for i := range out {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(len(out)))
		out[i] = Point{at[0] + radius*c, at[1] + radius*s}
	}
	return out
}
