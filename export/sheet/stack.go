package sheet

import (
	"math"
	"slices"
)

// Side is a side of a view.
type Side uint8

const (
	Above Side = iota
	Below
	Left
	Right
)

// Span is one dimension of a stack.
type Span struct {
	From, To Point
	Suffix   string
}

// DimStack is a set of parallel dimensions beside a view. They are spread over
// as many dimension lines as it takes for none to run into another: short ones
// next to the view, long ones outside, chains on one line.
type DimStack struct {
	On    Layer
	Side  Side
	Edge  float64 // y (Above, Below) or x (Left, Right) in the model beside which the stack begins
	Spans []Span
}

// Stack adds a stack of dimensions on a side of the view, beginning at edge.
func (v *View) Stack(side Side, edge float64, spans ...Span) {
	v.Add(DimStack{On: Dimensioning, Side: side, Edge: edge, Spans: spans})
}

// Chain makes the spans between neighbours of a row of points.
func Chain(points ...Point) []Span {
	var out []Span
	for i := 1; i < len(points); i++ {
		out = append(out, Span{From: points[i-1], To: points[i]})
	}
	return out
}

// Distances in letter heights from the edge to the first line and from line to line.
const (
	stackFirst = 4.0
	stackStep  = 3.0
)

func (i DimStack) Layer() Layer { return i.On }

func (i DimStack) points() []Point {
	all := []Point{{i.Edge, 0}}
	for _, s := range i.Spans {
		all = append(all, s.From, s.To)
	}
	return all
}

func (i DimStack) placed(k float64, d Point) Item {
	spans := make([]Span, len(i.Spans))
	for n, s := range i.Spans {
		spans[n] = Span{place(s.From, k, d), place(s.To, k, d), s.Suffix}
	}
	i.Edge, i.Spans = i.Edge*k+d[i.across()], spans
	return i
}

// across is the axis in which the dimension lines are stacked.
func (i DimStack) across() int {
	if i.Side == Above || i.Side == Below {
		return 1
	}
	return 0
}

// dimension is one span with its line offset mm of paper from the edge.
func (i DimStack) dimension(s Span, offset float64) Dimension {
	d := Dimension{On: i.On, From: s.From, To: s.To, Suffix: s.Suffix, Base: Point{0, i.Edge}, Offset: offset}
	if i.across() == 0 {
		d.Angle, d.Base = 90, Point{i.Edge, 0}
	}
	if i.Side == Below || i.Side == Right {
		d.Offset = -d.Offset
	}
	return d
}

// levelled is a span with the stretch that it takes of its line.
type levelled struct {
	lo, hi float64
	level  int
}

// dimensions spreads the stack over lines at scale 1:n, shortest first; equal
// lengths keep their order.
func (s *Sheet) dimensions(i DimStack, n float64) []Dimension {
	spans := slices.Clone(i.Spans)
	length := func(p Span) float64 { return i.dimension(p, 0).Value() }
	slices.SortStableFunc(spans, func(a, b Span) int { return cmpFloat(length(a), length(b)) })
	h := s.LetteringHeight()
	var taken []levelled
	var out []Dimension
	for _, p := range spans {
		t := s.stretch(i, p, n)
		t.level = lowestFree(taken, t)
		taken = append(taken, t)
		out = append(out, i.dimension(p, h*(stackFirst+stackStep*float64(t.level))))
	}
	return out
}

func cmpFloat(a, b float64) int {
	const same = 1e-6 // mm
	switch {
	case a < b-same:
		return -1
	case a > b+same:
		return 1
	}
	return 0
}

// stretch is what the dimension with its text takes along its line.
func (s *Sheet) stretch(i DimStack, p Span, n float64) levelled {
	along := 1 - i.across()
	d := s.Draw(i.dimension(p, 0), n)
	t := levelled{lo: math.Min(d.Start[along], d.End[along]), hi: math.Max(d.Start[along], d.End[along])}
	if d.Outside {
		ends := d.Lines[0]
		t.lo = math.Min(t.lo, math.Min(ends.A[along], ends.B[along]))
		t.hi = math.Max(t.hi, math.Max(ends.A[along], ends.B[along]))
	}
	return t
}

// lowestFree is the lowest line on which t meets nothing taken; ends may touch.
// It also stays outside everything that t's extension lines would otherwise pass.
func lowestFree(taken []levelled, t levelled) int {
	const touch = 1e-6 // mm
	level := 0
	for _, o := range taken {
		if o.lo < t.hi-touch && t.lo < o.hi-touch {
			level = max(level, o.level+1)
		}
	}
	return level
}
