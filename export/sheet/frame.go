package sheet

import (
	"math"
	"strconv"
)

const (
	fieldLength = 50.0 // of a grid reference field, from the middle outward (ISO 5457)
	fieldDepth  = 5.0  // of the grid border outside the frame, mm
	fieldHeight = 3.5  // of grid letters, mm
	// fieldLetters leaves out I and O, which look like numerals.
	fieldLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ"
)

// frameItems are the frame, the grid border with its letters and numerals and
// the centring marks of ISO 5457. The marks end at the frame, so that they never
// cut a stamp or a caution that stands against it.
func (p Paper) frameItems() []Item {
	w, h := p.Size()
	space := p.DrawingSpace()
	border := space.Inset(-fieldDepth)
	out := []Item{
		Polyline{Frame, space.corners(), true},
		Polyline{FrameFields, border.corners(), true},
	}
	for _, mark := range [][2]Point{
		{{w / 2, 0}, {w / 2, space.Min[1]}}, {{w / 2, h}, {w / 2, space.Max[1]}},
		{{0, h / 2}, {space.Min[0], h / 2}}, {{w, h / 2}, {space.Max[0], h / 2}},
	} {
		out = append(out, Line{Frame, mark[0], mark[1]})
	}
	out = append(out, fields(0, w/2, space, func(i int) string { return strconv.Itoa(i + 1) })...)
	return append(out, fields(1, h/2, space, func(i int) string { return string(fieldLetters[i%len(fieldLetters)]) })...)
}

// fields letters the grid along one axis on both sides of the frame. Numerals
// run from the left, letters from the top.
func fields(axis int, centre float64, space Box, name func(int) string) []Item {
	lo, hi := space.Min[axis], space.Max[axis]
	half := int(math.Max(1, math.Round((hi-centre)/fieldLength)))
	edge := func(i int) float64 {
		switch i {
		case -half:
			return lo
		case half:
			return hi
		}
		return centre + float64(i)*fieldLength
	}
	var out []Item
	for i := -half; i < half; i++ {
		n := i + half
		if axis == 1 {
			n = half - 1 - i
		}
		for _, across := range [2]float64{space.Min[1-axis] - fieldDepth/2, space.Max[1-axis] + fieldDepth/2} {
			at := onAxis(axis, (edge(i)+edge(i+1))/2, across)
			out = append(out, Text{On: FrameText, At: at, Anchor: MiddleCentre, Height: fieldHeight, Lines: []string{name(n)}})
			if i > -half && i != 0 {
				out = append(out, Line{FrameFields, onAxis(axis, edge(i), across-fieldDepth/2), onAxis(axis, edge(i), across+fieldDepth/2)})
			}
		}
	}
	return out
}

func onAxis(axis int, along, across float64) Point {
	if axis == 0 {
		return Point{along, across}
	}
	return Point{across, along}
}
