package sheet

import "math"

// View is one drawing on the sheet: a plan, a section, a table. Its items are
// in millimetres of the real thing.
type View struct {
	Title string
	// Scale is the denominator n of 1:n. Zero lets Arrange choose.
	Scale float64
	// Shift is where the model's origin lies on the paper: paper = Shift + model/Scale.
	// Arrange sets it.
	Shift Point
	// NoScale leaves the scale out of the caption, for tables and diagrams.
	NoScale bool
	Items   []Item
}

// NewView starts a view whose scale and place Arrange chooses.
func NewView(title string) *View { return &View{Title: title} }

// Add appends items.
func (v *View) Add(items ...Item) { v.Items = append(v.Items, items...) }

// Line draws a straight line.
func (v *View) Line(on Layer, a, b Point) { v.Add(Line{on, a, b}) }

// Polyline draws an open run of lines.
func (v *View) Polyline(on Layer, points ...Point) { v.Add(Polyline{On: on, Points: points}) }

// Polygon draws a closed run of lines.
func (v *View) Polygon(on Layer, points ...Point) {
	v.Add(Polyline{On: on, Points: points, Closed: true})
}

// Rect draws an upright rectangle by two opposite corners.
func (v *View) Rect(on Layer, a, b Point) { v.Polygon(on, RectLoop(a, b)...) }

// RectLoop gives the corners of an upright rectangle, for Hatch and Polygon.
func RectLoop(a, b Point) []Point { return EmptyBox().Grow(a, b).corners() }

// Circle draws a circle.
func (v *View) Circle(on Layer, centre Point, radius float64) { v.Add(Circle{on, centre, radius}) }

// Text letters lines below each other at the sheet's lettering height.
func (v *View) Text(at Point, anchor Anchor, lines ...string) {
	v.Add(Text{On: Notes, At: at, Anchor: anchor, Lines: lines})
}

// Hatch fills the loops by the even-odd rule.
func (v *View) Hatch(on Layer, pattern Pattern, loops ...[]Point) {
	v.Add(Hatch{On: on, Loops: loops, Pattern: pattern})
}

// Note letters lines at knee with an arrow to tip.
func (v *View) Note(tip, knee Point, lines ...string) {
	v.Add(Leader{On: Notes, Tip: tip, Knee: knee, Lines: lines})
}

// Arrow draws an arrow, for movements and loads.
func (v *View) Arrow(on Layer, from, to Point) { v.Add(Leader{On: on, Tip: to, Knee: from}) }

// SideBySide is one view without a scale of several, such as tables, from left to
// right with their tops level, a gap of so many mm between them and the title of each
// above it.
func (s *Sheet) SideBySide(gap float64, views ...*View) *View {
	out := &View{Scale: 1, NoScale: true}
	x := 0.0
	for _, v := range views {
		b := s.boxAt(v, 1)
		d := Point{x - b.Min[0], -b.Max[1]}
		for _, i := range v.Items {
			out.Add(i.placed(1, d))
		}
		out.Add(Text{On: Notes, At: Point{x, s.LetteringHeight()}, Anchor: BaseLeft, Lines: []string{v.Title}})
		x += math.Max(b.Width(), TextWidth(v.Title, s.LetteringHeight())) + gap
	}
	return out
}

// Extents is the box around everything that the view measures in the model,
// mm; lettering and dimension lines are not part of it.
func (v *View) Extents() Box {
	box := EmptyBox()
	for _, i := range v.Items {
		switch i := i.(type) {
		case Circle:
			box = box.Union(around(i.Centre, i.Radius))
		case Arc:
			box = box.Union(around(i.Centre, i.Radius))
		case Text:
			box = box.Grow(i.At)
		case Dimension:
			box = box.Grow(i.From, i.To)
		case DimStack:
			for _, s := range i.Spans {
				box = box.Grow(s.From, s.To)
			}
		default:
			box = box.Grow(i.points()...)
		}
	}
	return box
}

func around(centre Point, radius float64) Box {
	return EmptyBox().Grow(centre.Sub(Point{radius, radius}), centre.Add(Point{radius, radius}))
}
