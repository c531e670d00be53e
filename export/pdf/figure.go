package pdf

import (
	"github.com/go-pdf/fpdf"

	"boxwalk/export/plot"
)

// figure draws a diagram with its upper left corner at a place, so many times its size.
func (d document) figure(g plot.Drawing, x, y, times float64) {
	at := func(p plot.Point) (float64, float64) { return x + times*p[0], y + times*p[1] }
	for _, item := range g.Items {
		switch i := item.(type) {
		case plot.Stroke:
			d.pen(i.Pen, times)
			for n := 1; n < len(i.Points); n++ {
				x0, y0 := at(i.Points[n-1])
				x1, y1 := at(i.Points[n])
				if n == 1 {
					d.MoveTo(x0, y0)
				}
				d.LineTo(x1, y1)
			}
			if len(i.Points) > 1 {
				d.DrawPath("D")
			}
		case plot.Area:
			d.area(i, at)
		case plot.Ring:
			d.pen(i.Pen, times)
			cx, cy := at(i.At)
			d.Circle(cx, cy, times*i.Radius, "D")
		case plot.Letters:
			d.plotLetters(i, at, times)
		}
	}
	d.ink(black)
	d.SetDashPattern(nil, 0)
}

// pen sets how lines are drawn.
func (d document) pen(p plot.Pen, times float64) {
	d.ink(grey(p.Grey))
	if p.Alarm {
		d.ink(alarm)
	}
	d.SetLineWidth(times * p.Width)
	dash := make([]float64, len(p.Dash))
	for i, v := range p.Dash {
		dash[i] = times * v
	}
	d.SetDashPattern(dash, 0)
}

func (d document) area(a plot.Area, at func(plot.Point) (float64, float64)) {
	tone := grey(a.Grey)
	d.SetFillColor(tone[0], tone[1], tone[2])
	points := make([]fpdf.PointType, len(a.Points))
	for i, p := range a.Points {
		points[i].X, points[i].Y = at(p)
	}
	d.Polygon(points, "F")
}

func (d document) plotLetters(l plot.Letters, at func(plot.Point) (float64, float64), times float64) {
	d.ink(black)
	if l.Alarm {
		d.ink(alarm)
	}
	x, y := at(l.At)
	size := times * l.Size
	wide := d.wide(l.Text, regular, size)
	shift := map[plot.Anchor]float64{plot.Start: 0, plot.Middle: wide / 2, plot.End: wide}[l.Anchor]
	if l.Up {
		d.TransformBegin()
		d.TransformRotate(90, x, y)
	}
	d.letters(x-shift, y, l.Text, regular, size)
	if l.Up {
		d.TransformEnd()
	}
}
