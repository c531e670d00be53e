package sheet

// punched leaves room in pattern hatching for lettering that lies wholly inside
// it (ISO 128-50: hatching is interrupted for lettering). The room is a further
// loop, so every writer leaves it. Items are in mm of the model, scale 1:n.
func (s *Sheet) punched(items []Item, n float64) []Item {
	var labels [][]Point
	for _, i := range s.Drawn(items, n) {
		if t, ok := i.(Text); ok && len(t.Lines) > 0 {
			labels = append(labels, t.roomAt(n))
		}
	}
	out := make([]Item, len(items))
	for k, i := range items {
		if h, ok := i.(Hatch); ok && !h.Pattern.Filled() {
			i = h.without(labels)
		}
		out[k] = i
	}
	return out
}

// roomAt is the outline of lettering in mm of the model, with a little air.
func (t Text) roomAt(n float64) []Point {
	at := t.At
	t.At = Point{}
	out := t.Outline()
	middle := out[0].Add(out[2]).Mul(0.5)
	const air = 0.3 // letter heights, toward each corner
	for i, p := range out {
		d := p.Sub(middle)
		out[i] = at.Add(p.Add(d.Mul(air * t.Height / d.Len())).Mul(n))
	}
	return out
}

// without adds the labels that lie wholly inside as holes.
func (h Hatch) without(labels [][]Point) Hatch {
	loops := h.Loops
	for _, label := range labels {
		if h.surrounds(label) {
			loops = append(loops[:len(loops):len(loops)], label)
		}
	}
	h.Loops = loops
	return h
}

// surrounds reports whether a convex outline lies inside, cut by no edge.
func (h Hatch) surrounds(outline []Point) bool {
	for _, p := range outline {
		if !h.inside(p) {
			return false
		}
	}
	for _, loop := range h.Loops {
		for i, p := range loop {
			if segmentMeets(p, loop[(i+1)%len(loop)], outline) {
				return false
			}
		}
	}
	return true
}
