package sheet

import "slices"

// Model resolves the items of a view in mm of the model: lettering gets its
// height and is cleaned, stacks become dimensions, hatching leaves room for
// lettering. Dimensions and leaders stay what they are.
func (s *Sheet) Model(v *View) []Item {
	return s.resolve(v.Items, v.Scale)
}

func (s *Sheet) resolve(items []Item, n float64) []Item {
	var out []Item
	var busy []stroke
	for _, i := range items {
		switch i := i.(type) {
		case Text:
			out = append(out, s.settled(i))
		case Leader:
			i.Lines = cleanLines(i.Lines)
			out = append(out, i)
		case DimStack:
			for _, d := range s.dimensions(i, n, busy) {
				out = append(out, d)
				busy = append(busy, s.strokesOf(d, n)...)
			}
		default:
			out = append(out, i)
		}
	}
	return s.punched(out, n)
}

// settled fills in the height of lettering and cleans it.
func (s *Sheet) settled(t Text) Text {
	if t.Height <= 0 {
		t.Height = s.LetteringHeight()
	}
	t.Lines = cleanLines(t.Lines)
	return t
}

// Drawn turns dimensions and leaders at scale 1:n into lines, arrowheads and
// lettering; the rest passes unchanged.
func (s *Sheet) Drawn(items []Item, n float64) []Item {
	var out []Item
	for _, i := range items {
		switch i := i.(type) {
		case Dimension:
			out = append(out, s.Draw(i, n).Items()...)
		case Leader:
			out = append(out, s.DrawLeader(i, n).Items()...)
		default:
			out = append(out, i)
		}
	}
	return out
}

// OnPaper gives a view's items on paper, drawn.
func (s *Sheet) OnPaper(v *View) []Item {
	return Placed(s.Drawn(s.Model(v), v.Scale), 1/v.Scale, v.Shift)
}

// Flat is the whole sheet in mm of paper: only Line, Polyline, Circle, Arc,
// Text and Hatch, in the order in which they are to be drawn.
func (s *Sheet) Flat() []Item {
	out := s.Furniture()
	for _, v := range s.Views {
		out = append(out, s.OnPaper(v)...)
	}
	slices.SortStableFunc(out, func(a, b Item) int { return depth(a) - depth(b) })
	return out
}

// depth orders items from the back: tones, hatching, lines, solids, lettering.
func depth(i Item) int {
	switch i := i.(type) {
	case Hatch:
		return [...]int{1, 1, 1, 0, 3, 3}[min(i.Pattern, patternCount)]
	case Text:
		return 4
	}
	return 2
}

// paperBox is the box on paper around items drawn at scale 1:n with the
// model's origin at the paper's.
func paperBox(drawn []Item) Box {
	box := EmptyBox()
	for _, i := range drawn {
		switch i := i.(type) {
		case Circle:
			box = box.Union(around(i.Centre, i.Radius))
		case Arc:
			box = box.Union(around(i.Centre, i.Radius))
		case Text:
			box = box.Grow(i.Outline()...)
		default:
			box = box.Grow(i.points()...)
		}
	}
	return box
}

// boxAt is a view's box on paper at scale 1:n, model origin at (0, 0).
func (s *Sheet) boxAt(v *View, n float64) Box {
	return paperBox(Placed(s.Drawn(s.resolve(v.Items, n), n), 1/n, Point{}))
}
