package sheet

// Item is one thing drawn. Writers switch over Line, Polyline, Circle, Arc,
// Text and Hatch; Dimension, DimStack and Leader are resolved into those by
// Flat, and only a writer that has entities of its own for them looks at them.
type Item interface {
	// Layer is what the item stands for.
	Layer() Layer
	// placed gives the item enlarged by k and then moved by d; lettering keeps its height.
	placed(k float64, d Point) Item
	// points are all that must be finite for the item to be drawn.
	points() []Point
}

// Line is a straight line.
type Line struct {
	On   Layer
	A, B Point
}

// Polyline is a run of straight lines.
type Polyline struct {
	On     Layer
	Points []Point
	Closed bool
}

// Circle is a full circle.
type Circle struct {
	On     Layer
	Centre Point
	Radius float64
}

// Arc runs anticlockwise between two directions in degrees from the x axis.
type Arc struct {
	On       Layer
	Centre   Point
	Radius   float64
	From, To float64
}

// Text is one line of lettering or several below each other.
type Text struct {
	On     Layer
	At     Point
	Anchor Anchor
	Height float64 // of capitals, mm of paper; zero takes the sheet's lettering
	Angle  float64 // degrees, anticlockwise
	Lines  []string
}

// Hatch fills loops by the even-odd rule: a loop within a loop is a hole.
type Hatch struct {
	On      Layer
	Loops   [][]Point
	Pattern Pattern
}

// Dimension is a linear dimension. What it says is measured between From and
// To along Angle and cannot be typed. The dimension line is parallel to Angle
// and runs through Base moved Offset mm of paper to the left of that direction
// (upward for 0 degrees, to the left for 90).
type Dimension struct {
	On       Layer // Dimensioning or Clearance
	From, To Point
	Angle    float64 // direction of measuring, degrees: 0 horizontal, 90 vertical
	Base     Point
	Offset   float64 // mm of paper
	Suffix   string  // printed behind the value: " TYP"
	// Before puts a text that is too long for its place at the lower or left end
	// instead of the upper or right one.
	Before bool
}

// Leader is an arrow from Knee to Tip with lettering at Knee; without lines it
// is a plain arrow, for movements and loads.
type Leader struct {
	On        Layer
	Tip, Knee Point
	Lines     []string
}

func (i Line) Layer() Layer      { return i.On }
func (i Polyline) Layer() Layer  { return i.On }
func (i Circle) Layer() Layer    { return i.On }
func (i Arc) Layer() Layer       { return i.On }
func (i Text) Layer() Layer      { return i.On }
func (i Hatch) Layer() Layer     { return i.On }
func (i Dimension) Layer() Layer { return i.On }
func (i Leader) Layer() Layer    { return i.On }

func (i Line) points() []Point      { return []Point{i.A, i.B} }
func (i Polyline) points() []Point  { return i.Points }
func (i Circle) points() []Point    { return []Point{i.Centre, {i.Radius, 0}} }
func (i Arc) points() []Point       { return []Point{i.Centre, {i.Radius, 0}, {i.From, i.To}} }
func (i Text) points() []Point      { return []Point{i.At, {i.Height, i.Angle}} }
func (i Dimension) points() []Point { return []Point{i.From, i.To, i.Base, {i.Angle, i.Offset}} }
func (i Leader) points() []Point    { return []Point{i.Tip, i.Knee} }
func (i Hatch) points() []Point {
	var all []Point
	for _, loop := range i.Loops {
		all = append(all, loop...)
	}
	return all
}

func place(p Point, k float64, d Point) Point { return p.Mul(k).Add(d) }

func placeAll(points []Point, k float64, d Point) []Point {
	out := make([]Point, len(points))
	for i, p := range points {
		out[i] = place(p, k, d)
	}
	return out
}

func (i Line) placed(k float64, d Point) Item {
	i.A, i.B = place(i.A, k, d), place(i.B, k, d)
	return i
}

func (i Polyline) placed(k float64, d Point) Item {
	i.Points = placeAll(i.Points, k, d)
	return i
}

func (i Circle) placed(k float64, d Point) Item {
	i.Centre, i.Radius = place(i.Centre, k, d), i.Radius*k
	return i
}

func (i Arc) placed(k float64, d Point) Item {
	i.Centre, i.Radius = place(i.Centre, k, d), i.Radius*k
	return i
}

func (i Text) placed(k float64, d Point) Item {
	i.At = place(i.At, k, d)
	return i
}

func (i Hatch) placed(k float64, d Point) Item {
	loops := make([][]Point, len(i.Loops))
	for n, loop := range i.Loops {
		loops[n] = placeAll(loop, k, d)
	}
	i.Loops = loops
	return i
}

func (i Dimension) placed(k float64, d Point) Item {
	i.From, i.To, i.Base = place(i.From, k, d), place(i.To, k, d), place(i.Base, k, d)
	return i
}

func (i Leader) placed(k float64, d Point) Item {
	i.Tip, i.Knee = place(i.Tip, k, d), place(i.Knee, k, d)
	return i
}

// Placed gives items enlarged by k and then moved by d.
func Placed(items []Item, k float64, d Point) []Item {
	out := make([]Item, len(items))
	for n, i := range items {
		out[n] = i.placed(k, d)
	}
	return out
}
