package sheet

import "strings"

// Clash is a kind of overlap.
type Clash uint8

const (
	TextOnText Clash = iota
	TextOnDimension
	TextOutside // beyond the drawing space, or a view's beyond the area for views
	ViewOutside // a view reaches beyond the area for views, over title block, notes or stamp
	ViewOnView
)

// Overlap is two things printed over each other.
type Overlap struct {
	Kind Clash
	A, B string // what is lettered; B is the dimension's value, or empty
	At   Point  // mm of paper
}

// label is lettering on paper with the dimension it belongs to, or -1.
type label struct {
	text    string
	outline []Point
	box     Box
	owner   int
	inView  bool
}

// stroke is a line or arrowhead of a dimension or leader on paper.
type stroke struct {
	outline []Point
	box     Box
	owner   int
	name    string
}

// overlapDepth is how deep cautious text boxes may reach into one another, mm.
const overlapDepth = 0.05

// Overlaps lays out all lettering on the sheet by its cautious width and
// reports what is printed over what. It is empty on a clean sheet.
func Overlaps(s *Sheet) []Overlap {
	labels, strokes := s.gather()
	var out []Overlap
	for i, a := range labels {
		for _, b := range labels[i+1:] {
			if meet(a.outline, a.box, b.outline, b.box) {
				out = append(out, Overlap{TextOnText, a.text, b.text, a.box.Centre()})
			}
		}
		for _, d := range strokes {
			if d.owner != a.owner && meet(a.outline, a.box, d.outline, d.box) {
				out = append(out, Overlap{TextOnDimension, a.text, d.name, a.box.Centre()})
				break
			}
		}
	}
	out = append(out, s.outside(labels)...)
	return append(out, s.misplaced()...)
}

// misplaced are the views that reach out of the area for views or into one another.
func (s *Sheet) misplaced() []Overlap {
	l, err := s.Layout()
	if err != nil {
		return nil
	}
	var out []Overlap
	boxes := make([]Box, len(s.Views))
	for i, v := range s.Views {
		boxes[i] = paperBox(append(s.OnPaper(v), s.captionItems(v)...))
		if boxes[i].Empty() {
			continue
		}
		if !l.Views.Holds(boxes[i]) {
			out = append(out, Overlap{ViewOutside, v.Title, "", boxes[i].Centre()})
		}
		for j, other := range boxes[:i] {
			if !other.Empty() && apart(boxes[i].corners(), other.corners()) < -overlapDepth {
				out = append(out, Overlap{ViewOnView, s.Views[j].Title, v.Title, boxes[i].Centre()})
			}
		}
	}
	return out
}

func meet(a []Point, aBox Box, b []Point, bBox Box) bool {
	for i := range aBox.Min {
		if aBox.Min[i] > bBox.Max[i] || bBox.Min[i] > aBox.Max[i] {
			return false
		}
	}
	return apart(a, b) < -overlapDepth
}

func (s *Sheet) outside(labels []label) []Overlap {
	l, err := s.Layout()
	if err != nil {
		return nil
	}
	// The grid letters of the frame stand in the border outside the drawing space.
	whole := l.Frame.Inset(-marginOther)
	var out []Overlap
	for _, a := range labels {
		area := whole
		if a.inView {
			area = l.Views
		}
		if !area.Holds(a.box) {
			out = append(out, Overlap{TextOutside, a.text, "", a.box.Centre()})
		}
	}
	return out
}

func (s *Sheet) gather() (labels []label, strokes []stroke) {
	owner := 0
	add := func(items []Item, inView bool, name string) {
		owner++
		for _, i := range items {
			switch i := i.(type) {
			case Text:
				labels = append(labels, newLabel(i, owner, inView))
			case Line:
				strokes = append(strokes, newStroke([]Point{i.A, i.B}, owner, name))
			case Hatch:
				strokes = append(strokes, newStroke(i.Loops[0], owner, name))
			}
		}
	}
	for _, i := range s.Furniture() {
		if t, ok := i.(Text); ok {
			add([]Item{t}, false, "")
		}
	}
	for _, v := range s.Views {
		for _, i := range s.Model(v) {
			drawn := Placed(s.Drawn([]Item{i}, v.Scale), 1/v.Scale, v.Shift)
			switch i := i.(type) {
			case Dimension:
				add(drawn, true, s.Label(i))
			case Leader:
				add(drawn, true, strings.Join(i.Lines, " "))
			case Text:
				add(drawn, true, "")
			}
		}
	}
	return labels, strokes
}

func newLabel(t Text, owner int, inView bool) label {
	outline := t.Outline()
	return label{strings.Join(t.Lines, " "), outline, EmptyBox().Grow(outline...), owner, inView}
}

func newStroke(outline []Point, owner int, name string) stroke {
	return stroke{outline, EmptyBox().Grow(outline...), owner, name}
}
