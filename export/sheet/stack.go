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
// next to the view, long ones outside, chains on one line. A stack that is turned
// measures along what is drawn at that angle: its u is x turned by it, its v y.
type DimStack struct {
	On    Layer
	Side  Side
	Turn  float64 // degrees anticlockwise, in (-90, 90] so that lettering reads from below or from the right
	Edge  float64 // v (Above, Below) or u (Left, Right) in the model beside which the stack begins
	Spans []Span
}

// Stack adds a stack of dimensions on a side of the view, beginning at edge.
func (v *View) Stack(side Side, edge float64, spans ...Span) {
	v.Add(DimStack{On: Dimensioning, Side: side, Edge: edge, Spans: spans})
}

// StackAlong adds a stack of dimensions that measure in the direction from a to
// b, beginning at the line through both, on its left side or its right.
func (v *View) StackAlong(a, b Point, left bool, spans ...Span) {
	angle := direction(a, b)
	i := DimStack{On: Dimensioning, Side: Below, Turn: readable(angle), Spans: spans}
	if left == (math.Abs(angle-i.Turn) < 90) {
		i.Side = Above
	}
	_, up := axes(i.Turn)
	i.Edge = a.Dot(up)
	v.Add(i)
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
	all := []Point{{i.Edge, i.Turn}}
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
	i.Edge, i.Spans = i.Edge*k+d.Dot(i.outward()), spans
	return i
}

// lengthwise tells whether the stack measures along u.
func (i DimStack) lengthwise() bool { return i.Side == Above || i.Side == Below }

// along is the direction in which the stack measures, outward that in which its
// dimension lines are stacked and Edge counts.
func (i DimStack) along() Point {
	u, v := axes(i.Turn)
	if i.lengthwise() {
		return u
	}
	return v
}

func (i DimStack) outward() Point {
	u, v := axes(i.Turn)
	if i.lengthwise() {
		return v
	}
	return u
}

// dimension is one span with its line offset mm of paper from the edge.
func (i DimStack) dimension(s Span, offset float64, before bool) Dimension {
	d := Dimension{On: i.On, From: s.From, To: s.To, Suffix: s.Suffix, Angle: i.Turn, Base: i.outward().Mul(i.Edge), Offset: offset, Before: before}
	if !i.lengthwise() {
		d.Angle += 90
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

// mostRaised is by how many lines a dimension may stand further out than its own
// stack needs, to keep clear of another stack at the corner of the view.
const mostRaised = 3

// dimensions spreads the stack over lines at scale 1:n, shortest first; equal
// lengths keep their order. It keeps clear of busy, what other stacks have drawn.
func (s *Sheet) dimensions(i DimStack, n float64, busy []stroke) []Dimension {
	spans := slices.Clone(i.Spans)
	length := func(p Span) float64 { return i.dimension(p, 0, false).Value() }
	slices.SortStableFunc(spans, func(a, b Span) int { return compareLengths(length(a), length(b)) })
	var taken []levelled
	var out []Dimension
	for _, p := range spans {
		d, t := s.fitSpan(i, p, n, taken, busy)
		taken, out = append(taken, t), append(out, d)
	}
	return out
}

// fitSpan finds the lowest line and the better end for the text of a span; if
// nothing keeps clear of busy, the best place in its own stack.
func (s *Sheet) fitSpan(i DimStack, p Span, n float64, taken []levelled, busy []stroke) (Dimension, levelled) {
	try := func(before bool, raised int) (Dimension, levelled) {
		t := s.stretch(i, p, n, before)
		t.level = lowestFree(taken, t) + raised
		return i.dimension(p, s.LetteringHeight()*(stackFirst+stackStep*float64(t.level)), before), t
	}
	preferred := s.freerEnd(i, p, n)
	for raised := range mostRaised + 1 {
		for _, before := range []bool{preferred, !preferred} {
			if d, t := try(before, raised); s.clearOf(d, n, busy) {
				return d, t
			}
		}
	}
	return try(preferred, 0)
}

// strokesOf are the outlines on paper of a drawn dimension, its text among them.
func (s *Sheet) strokesOf(d Dimension, n float64) []stroke {
	var out []stroke
	for _, i := range Placed(s.Draw(d, n).Items(), 1/n, Point{}) {
		if t, ok := i.(Text); ok {
			out = append(out, newStroke(t.Outline(), 0, "text"))
			continue
		}
		out = append(out, newStroke(i.points(), 0, ""))
	}
	return out
}

// clearOf reports whether neither the text of d runs into what is busy nor the
// lines of d into a busy text.
func (s *Sheet) clearOf(d Dimension, n float64, busy []stroke) bool {
	for _, a := range s.strokesOf(d, n) {
		for _, b := range busy {
			if (a.name != "" || b.name != "") && meet(a.outline, a.box, b.outline, b.box) {
				return false
			}
		}
	}
	return true
}

const sameLength = 1e-6 // mm

func compareLengths(a, b float64) int {
	switch {
	case a < b-sameLength:
		return -1
	case a > b+sameLength:
		return 1
	}
	return 0
}

// freerEnd chooses the end at which a text stands that is too long for its
// place, true for the lower or left one: where it comes in the way of fewer
// neighbours, else the upper or right one.
func (s *Sheet) freerEnd(i DimStack, p Span, n float64) (before bool) {
	return i.neighbours(p, s.stretch(i, p, n, true)) < i.neighbours(p, s.stretch(i, p, n, false))
}

// neighbours counts the spans that the stretch t of span p reaches into; those
// that p lies within stand further out anyway.
func (i DimStack) neighbours(p Span, t levelled) int {
	own, count := i.measured(p), 0
	for _, o := range i.Spans {
		other := i.measured(o)
		holds := other.lo <= own.lo+sameLength && own.hi <= other.hi+sameLength
		if !holds && other.meets(t) {
			count++
		}
	}
	return count
}

// measured is the bare stretch between a span's points.
func (i DimStack) measured(p Span) levelled {
	from, to := p.From.Dot(i.along()), p.To.Dot(i.along())
	return levelled{lo: math.Min(from, to), hi: math.Max(from, to)}
}

// stretch is what the dimension with its text takes along its line. The tail of
// an arrow that points in from outside is not counted: it falls on the arrow of
// the neighbour in the chain.
func (s *Sheet) stretch(i DimStack, p Span, n float64, before bool) levelled {
	t := i.measured(p)
	d := s.Draw(i.dimension(p, 0, before), n)
	if !d.Outside {
		return t
	}
	a, b := d.Lines[0].A.Dot(i.along()), d.Lines[0].B.Dot(i.along())
	if before {
		t.lo = math.Min(a, b)
	} else {
		t.hi = math.Max(a, b)
	}
	return t
}

// meets reports whether two stretches share more than an end.
func (t levelled) meets(o levelled) bool {
	return t.lo < o.hi-sameLength && o.lo < t.hi-sameLength
}

// lowestFree is the lowest line outside all stretches that t meets.
func lowestFree(taken []levelled, t levelled) int {
	level := 0
	for _, o := range taken {
		if o.meets(t) {
			level = max(level, o.level+1)
		}
	}
	return level
}
