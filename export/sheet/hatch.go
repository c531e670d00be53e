package sheet

import (
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
)

// Bounds on one family of lines in one hatch, so that no input can fill the
// memory: a larger area is hatched wider, and with full lines instead of dashes.
// An A0 sheet hatched all over stays below both.
const (
	mostHatchLines  = 4000
	mostHatchDashes = 200000
)

// Strokes gives the lines of a hatch that is placed on paper, clipped to its
// loops; none for an even fill. A writer needs nothing else to draw a pattern.
func (h Hatch) Strokes() []Line {
	var out []Line
	for _, f := range h.Pattern.Families() {
		out = append(out, f.strokes(h)...)
	}
	return out
}

// strokes works in the family's own frame: u along the lines, v across.
func (f Family) strokes(h Hatch) []Line {
	turn := mgl64.Rotate2D(mgl64.DegToRad(f.Angle))
	back := turn.Transpose()
	loops, box := make([][]Point, 0, len(h.Loops)), EmptyBox()
	for _, loop := range h.Loops {
		own := make([]Point, len(loop))
		for i, p := range loop {
			own[i] = back.Mul2x1(p.Sub(f.Base))
		}
		loops, box = append(loops, own), box.Grow(own...)
	}
	if box.Empty() {
		return nil
	}
	skip := 1 + math.Floor(box.Height()/f.Spacing/mostHatchLines)
	if f.dashCount(box, skip) > mostHatchDashes {
		f.Dashes = nil
	}
	var out []Line
	for k := math.Ceil(box.Min[1]/f.Spacing/skip) * skip; k*f.Spacing <= box.Max[1]; k += skip {
		for _, s := range f.dashed(spans(loops, k*f.Spacing), k*f.Shift) {
			a, b := Point{s[0], k * f.Spacing}, Point{s[1], k * f.Spacing}
			out = append(out, Line{h.On, turn.Mul2x1(a).Add(f.Base), turn.Mul2x1(b).Add(f.Base)})
		}
	}
	return out
}

// dashCount estimates the dashes in a box in the family's frame.
func (f Family) dashCount(box Box, skip float64) float64 {
	if len(f.Dashes) < 2 {
		return 0
	}
	return box.Height() / f.Spacing / skip * box.Width() / (f.Dashes[0] + f.Dashes[1])
}

// spans are the stretches of the line v that lie inside by the even-odd rule.
func spans(loops [][]Point, v float64) [][2]float64 {
	var cuts []float64
	for _, loop := range loops {
		for i, p := range loop {
			q := loop[(i+1)%len(loop)]
			if (p[1] <= v) != (q[1] <= v) {
				cuts = append(cuts, p[0]+(q[0]-p[0])*(v-p[1])/(q[1]-p[1]))
			}
		}
	}
	slices.Sort(cuts)
	var out [][2]float64
	for i := 0; i+1 < len(cuts); i += 2 {
		out = append(out, [2]float64{cuts[i], cuts[i+1]})
	}
	return out
}

// dashed breaks stretches by the dash pattern, of which a dash starts at phase.
func (f Family) dashed(spans [][2]float64, phase float64) [][2]float64 {
	if len(f.Dashes) < 2 {
		return spans
	}
	dash, period := f.Dashes[0], f.Dashes[0]+f.Dashes[1]
	var out [][2]float64
	for _, s := range spans {
		for k := math.Floor((s[0] - phase) / period); phase+k*period < s[1]; k++ {
			a, b := math.Max(s[0], phase+k*period), math.Min(s[1], phase+k*period+dash)
			if b > a {
				out = append(out, [2]float64{a, b})
			}
		}
	}
	return out
}

// inside reports whether p lies in the hatched area.
func (h Hatch) inside(p Point) bool {
	in := false
	for _, s := range spans(h.Loops, p[1]) {
		in = in || s[0] <= p[0] && p[0] <= s[1]
	}
	return in
}
