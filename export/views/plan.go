package views

import (
	"fmt"
	"math"
	"strings"

	"boxwalk/export/sheet"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/units"
)

// plan is the sheet of the layout in plan: cells, walls, pours and joints, on
// the job's line.
func (o *office) plan() plan {
	c := o.study.Culvert
	n := len(c.Pours) - 1
	long := at(c.Pours[n], c.Pours[n].Front, 0, 0).Sub(at(c.Pours[0], c.Pours[0].Rear, 0, 0)).Len()
	return plan{
		name: "plan", title: "Plan and pour layout", supplement: plural(len(c.Cells), "cell") + ", " + plural(len(c.Pours), "pour"), kind: "Layout drawing",
		least: 130, size: long,
		build: func(s *sheet.Sheet, n float64) error {
			v := sheet.NewView("Plan at mid height, looking down")
			v.Scale = n
			o.drawPlan(s, v, n)
			s.Add(v, o.north(s, o.pourTable(s)))
			return nil
		},
	}
}

// lines across the box from left to right: the faces of all walls.
func (o *office) wallFaces() []float64 {
	cells := o.study.Culvert.Cells
	first := cells[0]
	out := []float64{first.Centre + first.HalfSpan + first.Left}
	for _, c := range cells {
		out = append(out, c.Centre+c.HalfSpan, c.Centre-c.HalfSpan)
	}
	end := cells[len(cells)-1]
	return append(out, end.Centre-end.HalfSpan-end.Right)
}

func planPoint(x, y float64) sheet.Point { return sheet.Pt(perMetre*x, perMetre*y) }

// at is a point of a pour's end, y left of the job's line, plus some way ahead.
func at(p culvert.Pour, e geom.End, y, ahead float64) sheet.Point {
	q := p.LineFromPour.Apply(geom.Vec{e.At(y, 0) + ahead, y, 0})
	return planPoint(q[0], q[1])
}

func (o *office) drawPlan(s *sheet.Sheet, v *sheet.View, n float64) {
	c := o.study.Culvert
	faces := o.wallFaces()
	left, right := faces[0], faces[len(faces)-1]
	for _, p := range c.Pours {
		for i := 0; i+1 < len(faces); i += 2 {
			loop := []sheet.Point{at(p, p.Rear, faces[i], 0), at(p, p.Front, faces[i], 0), at(p, p.Front, faces[i+1], 0), at(p, p.Rear, faces[i+1], 0)}
			v.Hatch(sheet.ConcreteHatch, sheet.ConcretePattern, loop)
			v.Polygon(sheet.Concrete, loop...)
		}
		for _, e := range []geom.End{p.Rear, p.Front} {
			v.Line(sheet.General, at(p, e, left, 0), at(p, e, right, 0))
		}
		for _, cell := range c.Cells {
			y := cell.Centre + clearOfChannel(cell)*cell.HalfSpan
			mid := at(p, p.Rear, y, 0).Add(at(p, p.Front, y, 0)).Mul(0.5)
			v.Text(mid, sheet.MiddleCentre, fmt.Sprintf("Cell %d, pour %d", cell.Number, p.Number))
		}
	}
	for _, cell := range c.Cells {
		for _, p := range c.Pours {
			before, after := 0.0, 0.0
			if p.Number == 1 {
				before = 0.6
			}
			if p.Number == len(c.Pours) {
				after = 0.6
			}
			v.Line(sheet.Centre, at(p, p.Rear, cell.Centre, -before), at(p, p.Front, cell.Centre, after))
			if ch := cell.Channel; ch.Exists() {
				for _, y := range []float64{cell.Centre + ch.Offset + ch.Width/2, cell.Centre + ch.Offset - ch.Width/2} {
					v.Line(sheet.General, at(p, p.Rear, y, 0), at(p, p.Front, y, 0))
				}
			}
		}
	}
	o.aprons(v, left, right)
	o.planDimensions(v, faces)
	o.stations(v, right, n)
}

// clearOfChannel is where a pour's name stands, left of the centreline as a
// share of half the span: the place farthest from the edges of the channel.
func clearOfChannel(c culvert.Cell) float64 {
	best, most := 0.35, 0.0
	if !c.Channel.Exists() {
		return best
	}
	for _, share := range []float64{0.35, -0.35, 0.65, -0.65} {
		y := share * c.HalfSpan
		d := min(abs(y-c.Channel.Offset-c.Channel.Width/2), abs(y-c.Channel.Offset+c.Channel.Width/2))
		if d > most+1e-9 {
			best, most = share, d
		}
	}
	return best
}

// aprons are the slabs beyond the ends.
func (o *office) aprons(v *sheet.View, left, right float64) {
	c := o.study.Culvert
	n := len(c.Pours) - 1
	for _, a := range []struct {
		p    culvert.Pour
		e    geom.End
		long float64
	}{{c.Pours[0], c.Pours[0].Rear, -c.InletSlab}, {c.Pours[n], c.Pours[n].Front, c.OutletSlab}} {
		if a.long != 0 {
			v.Polyline(sheet.General, at(a.p, a.e, left, 0), at(a.p, a.e, left, a.long), at(a.p, a.e, right, a.long), at(a.p, a.e, right, 0))
		}
	}
}

// planDimensions are the lengths along both outer faces and the widths.
func (o *office) planDimensions(v *sheet.View, faces []float64) {
	c := o.study.Culvert
	left, right := faces[0], faces[len(faces)-1]
	var above, below []sheet.Span
	for _, p := range c.Pours {
		above = append(above, sheet.Span{From: at(p, p.Rear, left, 0), To: at(p, p.Front, left, 0)})
		below = append(below, sheet.Span{From: at(p, p.Rear, right, 0), To: at(p, p.Front, right, 0)})
	}
	v.Stack(sheet.Above, perMetre*left, above...)
	v.Stack(sheet.Below, perMetre*right, below...)
	x := math.Inf(1)
	for _, y := range []float64{left, right} {
		x = math.Min(x, c.Pours[0].Rear.At(y, 0)-c.InletSlab)
	}
	var points []sheet.Point
	for _, y := range faces {
		points = append(points, planPoint(x, y))
	}
	v.Stack(sheet.Left, perMetre*x, append(sheet.Chain(points...), sheet.Span{From: points[0], To: points[len(points)-1]})...)
}

// stations marks every joint on the job's line, below the dimensions.
func (o *office) stations(v *sheet.View, right, n float64) {
	c := o.study.Culvert
	along := float64(o.study.Start().Station) // on the line, in plan
	lengths := o.study.Job.Culvert.Pours.Lengths()
	y := perMetre*right - 30*n
	mark := func(x float64) {
		v.Line(sheet.Centre, sheet.Pt(perMetre*x, y+2*n), sheet.Pt(perMetre*x, y-2*n))
		v.Text(sheet.Pt(perMetre*x, y-3*n), sheet.TopCentre, o.station(along))
	}
	front := func(p culvert.Pour) float64 { return at(p, p.Front, 0, 0)[0] / perMetre }
	first, end := at(c.Pours[0], c.Pours[0].Rear, 0, 0)[0]/perMetre, front(c.Pours[len(c.Pours)-1])
	mark(first)
	for i, p := range c.Pours {
		x := front(p)
		if i+1 < len(c.Pours) {
			x = (x + at(c.Pours[i+1], c.Pours[i+1].Rear, 0, 0)[0]/perMetre) / 2
		}
		along += float64(lengths[i])
		mark(x)
	}
	v.Line(sheet.Centre, sheet.Pt(perMetre*(first-1), y), sheet.Pt(perMetre*(end+1), y))
	v.Text(sheet.Pt(perMetre*(end+1)+2*n, y), sheet.MiddleLeft, "job line, ahead")
}

func (o *office) station(m float64) string {
	return units.Station(m).Text(o.system())
}

func (o *office) system() units.System {
	if o.units().Imperial {
		return units.Imperial
	}
	return units.Metric
}

// pourTable lists the pours with their lengths along every wall face.
func (o *office) pourTable(s *sheet.Sheet) *sheet.View {
	c := o.study.Culvert
	f := func(m float64) string { return s.Units.Format(perMetre * m) }
	var rows [][]string
	for _, cell := range c.Cells {
		for _, p := range c.PoursIn(cell) {
			l, r := cell.Sides(p)
			b := o.bayAt(cell, p)
			rows = append(rows, []string{fmt.Sprint(cell.Number), fmt.Sprint(p.Number), fmt.Sprint(p.Cast), f(math.Max(l, r)), f(math.Min(l, r)), f(p.Lap), f(b), skew(p.Rear), skew(p.Front)})
		}
	}
	return s.Table("Pours, cell by cell, at the wall faces", []sheet.Column{{Title: "Cell", Right: true}, {Title: "Pour", Right: true}, {Title: "Cast", Right: true}, {Title: "Long side", Right: true}, {Title: "Short side", Right: true}, {Title: "Lap", Right: true}, {Title: "Form needed", Right: true}, {Title: "Skew rear", Right: true}, {Title: "Skew front", Right: true}}, rows)
}

func (o *office) bayAt(cell culvert.Cell, p culvert.Pour) float64 {
	for _, b := range o.study.Bays {
		if b.Cell.Number == cell.Number && b.Pour.Number == p.Number {
			return b.Needed
		}
	}
	return math.NaN()
}

func skew(e geom.End) string {
	a := math.Atan(e.Slope) * 180 / math.Pi
	if abs(a) < 1e-9 {
		return "square"
	}
	side := "left ahead"
	if a < 0 {
		side = "right ahead"
	}
	return fmt.Sprintf("%.4g deg %s", abs(a), side)
}

// north adds to a table, on its right, the north arrow as the plan is turned,
// with the bearing of the job's line and the grade.
func (o *office) north(s *sheet.Sheet, v *sheet.View) *sheet.View {
	start := o.study.Start()
	bearing := float64(start.Bearing)
	const radius, reach, lettered = 8, 11, 15 // mm
	h := s.LetteringHeight()
	left := v.Extents().Max[0] + 12
	middle := sheet.Pt(left+lettered, -lettered)
	// the line ahead points right; north lies the bearing to its left
	sin, cos := math.Sincos(bearing)
	d := sheet.Pt(cos, sin)
	v.Circle(sheet.General, middle, radius)
	v.Add(sheet.Leader{On: sheet.General, Knee: middle.Sub(d.Mul(reach)), Tip: middle.Add(d.Mul(reach))})
	v.Text(middle.Add(d.Mul(lettered)), sheet.MiddleCentre, "N")
	v.Text(sheet.Pt(left, middle[1]-lettered-2*h), sheet.TopLeft,
		fmt.Sprintf("Line ahead bears %.4f deg", bearing*180/math.Pi),
		o.grades(),
		"Start at station "+o.station(float64(start.Station)))
	return v
}

// grades says how the invert rises ahead: one grade, or that of every pour.
func (o *office) grades() string {
	c := o.study.Culvert
	first := grade(c.GradeOf(c.Pours[0]))
	same := true
	var each []string
	for _, p := range c.Pours {
		g := grade(c.GradeOf(p))
		same = same && g == first
		each = append(each, g)
	}
	if same {
		return "Grade ahead " + first
	}
	const most = 6
	if len(each) > most {
		return fmt.Sprintf("Grade ahead %s at the inlet, %s at the outlet", each[0], each[len(each)-1])
	}
	return "Grade ahead, pour by pour: " + strings.Join(each, ", ")
}
