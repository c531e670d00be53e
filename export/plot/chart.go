package plot

import "math"

// Sizes of charts in points.
const (
	laneHigh = 16.0
	barHigh  = 10.0
)

// greys of the tones of bars; letters on them are black.
var greys = [Tones]float64{0.78, 0.9, 0.6, 1}

// Draw lays a chart out in a width; it is as high as its lanes take.
func (c Chart) Draw(width float64) Drawing {
	room := 0.0
	f := field{x0: math.Inf(1), x1: math.Inf(-1), y0: 0, y1: 1}
	for _, l := range c.Lanes {
		room = max(room, Wide(l.Name, small))
		for _, b := range l.Bars {
			f.x0, f.x1 = min(f.x0, b.From), max(f.x1, b.To)
		}
	}
	if !(f.x1 > f.x0) {
		f.x0, f.x1 = 0, 1
	}
	f.left, f.right, f.top = room+10, width-8, 6
	f.bottom = f.top + laneHigh*float64(max(1, len(c.Lanes)))
	d := Drawing{Title: c.Title, Says: c.Says, Width: width, Height: f.bottom + lowGap}
	for _, x := range divisions(f.x0, f.x1, 12) {
		at := f.at(Point{x, 0})
		d.add(Stroke{[]Point{{at[0], f.top}, at}, fine})
	}
	d.bottom(f, c.Across)
	for i, l := range c.Lanes {
		d.lane(f, f.top+laneHigh*float64(i), l)
	}
	d.add(Stroke{[]Point{{f.left, f.top}, {f.right, f.top}, {f.right, f.bottom}, {f.left, f.bottom}, {f.left, f.top}}, edge})
	d.key(f, c.Tones)
	return d
}

func (d *Drawing) lane(f field, top float64, l Lane) {
	d.add(Letters{At: Point{f.left - 5, top + laneHigh*0.68}, Text: l.Name, Size: small, Anchor: End})
	for _, b := range l.Bars {
		x0, x1 := f.at(Point{b.From, 0})[0], f.at(Point{b.To, 0})[0]
		y0 := top + (laneHigh-barHigh)/2
		box := []Point{{x0, y0}, {x1, y0}, {x1, y0 + barHigh}, {x0, y0 + barHigh}, {x0, y0}}
		d.add(Area{box, greys[max(0, b.Tone)%Tones]}, Stroke{box, edge})
		if Wide(b.Name, small) < x1-x0-2 {
			d.add(Letters{At: Point{(x0 + x1) / 2, top + laneHigh*0.68}, Text: b.Name, Size: small, Anchor: Middle})
		}
	}
}

// key says what the tones are, below the chart.
func (d *Drawing) key(f field, tones []string) {
	if len(tones) == 0 {
		return
	}
	x, y := f.left, d.Height+6
	for i, name := range tones {
		box := []Point{{x, y}, {x + 12, y}, {x + 12, y + 8}, {x, y + 8}, {x, y}}
		d.add(Area{box, greys[i%Tones]}, Stroke{box, edge}, Letters{At: Point{x + 16, y + 7}, Text: name, Size: small})
		x += 16 + Wide(name, small) + 14
	}
	d.Height = y + 14
}
