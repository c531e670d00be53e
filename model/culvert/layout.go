package culvert

import (
	"math"
	"slices"

	"boxwalk/model/geom"
	"boxwalk/model/job"
)

// Cell is one barrel opening of the box.
type Cell struct {
	Number int     // from 1, from the left looking ahead
	Centre float64 // centreline left of the job's line
	Section
}

// Pour is one length of walls and roof. It is straight, as the carrier that
// casts it is: its frame has its origin where its rear end crosses the job's
// line, x along its chord, z square to its grade.
type Pour struct {
	Number       int
	LineFromPour geom.Pose // place in the frame of the job's line at the inlet
	Turn         float64   // angle from the pour before, in plan, positive left
	Break        float64   // angle from the pour before, in profile, positive up
	MidOrdinate  float64   // between its chord and the line
	Rear, Front  geom.End  // in its own frame
	Lap          float64   // of the form over the pour before
	Cast         int       // place in the order of casting, from 1; of the last cell where cells are cast apart, see PoursIn
}

// Culvert is the whole box on one tangent and one straight grade.
type Culvert struct {
	Cells      []Cell
	Pours      []Pour
	Grade      float64 // rise over run ahead, of the first pour
	JointGap   float64
	InletSlab  float64 // apron before the inlet
	OutletSlab float64
	apart      [][]Pour // of each cell, where cells are cast apart
}

// New lays a job's culvert out along a line; without one it runs on one tangent
// and the job's straight grade.
func New(j *job.Job, line Line) *Culvert {
	c := &Culvert{
		Grade:      float64(j.Alignment.Grade),
		JointGap:   float64(j.Culvert.JointGap),
		InletSlab:  float64(j.Ends.Inlet.Apron),
		OutletSlab: float64(j.Ends.Outlet.Apron),
	}
	c.Cells = cells(&j.Culvert)
	if line == nil {
		c.Pours = pours(&j.Culvert, c.Grade)
	} else {
		chords := chordsOf(&j.Culvert, line)
		c.Grade = math.Tan(chords[0].pitch)
		c.Pours = chordPours(&j.Culvert, chords)
	}
	c.ordered(j.Culvert.Order)
	return c
}

// ordered gives pours their place in the order of casting, cell by cell where
// cells are cast apart.
func (c *Culvert) ordered(o job.Order) {
	ranks := o.Ranks(len(c.Cells), len(c.Pours))
	for i := range c.Pours {
		for _, r := range ranks {
			c.Pours[i].Cast = max(c.Pours[i].Cast, r[i])
		}
	}
	if !o.Apart() {
		return
	}
	for _, r := range ranks {
		own := slices.Clone(c.Pours)
		for i := range own {
			own[i].Cast = r[i]
		}
		c.apart = append(c.apart, own)
	}
}

func cells(j *job.Culvert) []Cell {
	openings := j.Openings()
	width := 2*float64(j.OuterWall) + float64(len(openings)-1)*float64(j.InnerWall)
	for _, o := range openings {
		width += float64(o.Span)
	}
	left := width / 2
	var out []Cell
	for i, o := range openings {
		c := Cell{Number: i + 1, Section: section(j, o)}
		if i > 0 {
			c.Left = float64(j.InnerWall)
		}
		if i < len(openings)-1 {
			c.Right = float64(j.InnerWall)
		}
		c.Centre = left - c.Left - c.HalfSpan
		left -= c.Left + 2*c.HalfSpan
		out = append(out, c)
	}
	return out
}

func section(j *job.Culvert, o job.Cell) Section {
	s := Section{
		HalfSpan: float64(o.Span) / 2,
		Rise:     float64(o.Rise + j.Camber),
		Roof:     float64(j.Roof),
		Invert:   float64(j.Invert),
		Left:     float64(j.OuterWall),
		Right:    float64(j.OuterWall),
		Kicker:   float64(j.Kicker),
	}
	if h := j.Haunch.Top; h != nil {
		s.Top = Haunch{Run: float64(h.X), Rise: float64(h.Y)}
	}
	if h := j.Haunch.Bottom; h != nil {
		s.Bottom = Haunch{Run: float64(h.X), Rise: float64(h.Y)}
	}
	if c := j.Channel; c != nil {
		s.Channel = Channel{Offset: float64(c.Offset), Width: float64(c.Width), Depth: float64(c.Depth)}
	}
	return s
}

func pours(j *job.Culvert, grade float64) []Pour {
	lengths := j.Pours.Lengths()
	lean := 0.0
	if j.Face == "plumb" {
		// a plumb plane seen from a frame tilted up by the grade leans ahead
		lean = grade
	}
	n := len(lengths)
	ends := make([]geom.End, n+1)
	x := 0.0
	for i := range ends {
		ends[i] = geom.End{X: x, Slope: math.Tan(j.SkewAt(i, n)), Lean: lean}
		if i < n {
			x += float64(lengths[i])
		}
	}
	var out []Pour
	for i := range n {
		p := Pour{Rear: ends[i], Front: ends[i+1], LineFromPour: geom.Translation(geom.Vec{ends[i].X})}
		p.Rear.X, p.Front.X = 0, ends[i+1].X-ends[i].X
		out = append(out, p)
	}
	return numbered(j, out)
}

// numbered gives pours their numbers, laps and joint gaps.
func numbered(j *job.Culvert, pours []Pour) []Pour {
	half := float64(j.JointGap) / 2
	for i := range pours {
		p := &pours[i]
		p.Number = i + 1
		if i > 0 {
			p.Rear.X += half
			p.Lap = j.Lap.At(i - 1)
		}
		if i < len(pours)-1 {
			p.Front.X -= half
		}
	}
	return pours
}

// LineFromBay is the frame of this cell and a pour, on the job's line: its
// origin is where the pour's rear end crosses the cell's centreline.
func (c Cell) LineFromBay(p Pour) geom.Pose {
	return p.LineFromPour.Mul(geom.Translation(geom.Vec{p.Rear.At(c.Centre, 0), c.Centre, 0}))
}

// BayFromBay takes the frame of one pour in this cell to that of another.
func (c Cell) BayFromBay(to, from Pour) geom.Pose {
	return c.LineFromBay(to).Inverse().Mul(c.LineFromBay(from))
}

// Ends of a pour, in the frame of this cell and the pour.
func (c Cell) Ends(p Pour) (rear, front geom.End) {
	o := p.Rear.At(c.Centre, 0)
	rear, front = p.Rear, p.Front
	rear.X += rear.Slope*c.Centre - o
	front.X += front.Slope*c.Centre - o
	return rear, front
}

// Reach is how far a pour runs in a cell, from the rearmost to the foremost
// corner of the clear opening, in the frame of that cell and pour.
func (c Cell) Reach(p Pour) (rear, front float64) {
	a, b := c.Ends(p)
	rear, front = math.Inf(1), math.Inf(-1)
	for _, y := range [2]float64{-c.HalfSpan, c.HalfSpan} {
		for _, z := range [2]float64{0, c.Rise} {
			rear = math.Min(rear, a.At(y, z))
			front = math.Max(front, b.At(y, z))
		}
	}
	return rear, front
}

// Sides are the lengths of a pour along the left and the right wall face.
func (c Cell) Sides(p Pour) (left, right float64) {
	a, b := c.Ends(p)
	at := func(y float64) float64 { return b.At(y, 0) - a.At(y, 0) }
	return at(c.HalfSpan), at(-c.HalfSpan)
}
