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
func (o *drafter) plan() plan {
	c := o.study.Culvert
	laid := laidOut(c)
	long := laid[len(laid)-1].at(laid[len(laid)-1].Front, 0, 0).Sub(laid[0].at(laid[0].Rear, 0, 0)).Len()
	return plan{
		name: "plan", title: "Plan and pour layout", supplement: plural(len(c.Cells), "cell") + ", " + plural(len(c.Pours), "pour"), kind: "Layout drawing",
		least: 130, size: long,
		build: func(s *sheet.Sheet, n float64) error {
			v := sheet.NewView("Plan at the top of the invert, looking down")
			v.Scale = n
			o.drawPlan(s, v, n)
			s.Add(v, o.north(s, o.pourTable(s)))
			return nil
		},
	}
}

// lines across the box from left to right: the faces of all walls.
func (o *drafter) wallFaces() []float64 {
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

// laidPour is a pour as the plan shows it: in its direction, at its length along
// its own grade, so that every edge is drawn as long as it is built. Seen from
// straight above, a pour on a grade would be shorter than its formwork.
type laidPour struct {
	culvert.Pour
	begins, ahead sheet.Point // where its chord begins, mm, and the direction in which it runs
}

// laidOut places the pours on the plan, each where the one before ends.
func laidOut(c *culvert.Culvert) []laidPour {
	out := make([]laidPour, len(c.Pours))
	heading := 0.0
	var from sheet.Point
	for i, p := range c.Pours {
		if i > 0 {
			chord := p.LineFromPour.T.Sub(c.Pours[i-1].LineFromPour.T).Len()
			from = from.Add(out[i-1].ahead.Mul(perMetre * chord))
			heading += p.Turn
		}
		sin, cos := math.Sincos(heading)
		out[i] = laidPour{p, from, sheet.Pt(cos, sin)}
	}
	return out
}

// at is a point of a pour's end, y left of the job's line, plus some way ahead.
func (p laidPour) at(e geom.End, y, ahead float64) sheet.Point {
	left := sheet.Pt(-p.ahead[1], p.ahead[0])
	return p.begins.Add(p.ahead.Mul(perMetre * (e.At(y, 0) + ahead))).Add(left.Mul(perMetre * y))
}

// text letters a line along the pour, or from the other side where it would
// stand on its head.
func (p laidPour) text(v *sheet.View, at sheet.Point, anchor sheet.Anchor, lines ...string) {
	v.Add(sheet.Text{On: sheet.Notes, At: at, Anchor: anchor, Lines: lines, Angle: p.reads()})
}

// broken are words on one line where that has room in so many mm of paper, else each
// on its own.
func broken(s *sheet.Sheet, room float64, words ...string) []string {
	line := strings.Join(words, " ")
	if h := s.LetteringHeight(); sheet.TextWidth(line, h)+2*h <= room {
		return []string{line}
	}
	return words
}

// reads is the angle of lettering along the pour, degrees.
func (p laidPour) reads() float64 {
	ahead := p.ahead
	if ahead[0] < 0 {
		ahead = ahead.Mul(-1)
	}
	return math.Atan2(ahead[1], ahead[0]) * 180 / math.Pi
}

func (o *drafter) drawPlan(s *sheet.Sheet, v *sheet.View, n float64) {
	c := o.study.Culvert
	faces := o.wallFaces()
	left, right := faces[0], faces[len(faces)-1]
	laid := laidOut(c)
	for _, p := range laid {
		for i := 0; i+1 < len(faces); i += 2 {
			loop := []sheet.Point{p.at(p.Rear, faces[i], 0), p.at(p.Front, faces[i], 0), p.at(p.Front, faces[i+1], 0), p.at(p.Rear, faces[i+1], 0)}
			v.Hatch(sheet.ConcreteHatch, sheet.ConcretePattern, loop)
			v.Polygon(sheet.Concrete, loop...)
		}
		for _, e := range []geom.End{p.Rear, p.Front} {
			v.Line(sheet.General, p.at(e, left, 0), p.at(e, right, 0))
		}
		for _, cell := range c.Cells {
			y := cell.Centre + clearOfChannel(cell)*cell.HalfSpan
			mid := p.at(p.Rear, y, 0).Add(p.at(p.Front, y, 0)).Mul(0.5)
			long := p.at(p.Front, y, 0).Sub(p.at(p.Rear, y, 0)).Len()
			p.text(v, mid, sheet.MiddleCentre, broken(s, long/n, fmt.Sprintf("Cell %d,", cell.Number), fmt.Sprintf("pour %d", p.Number))...)
		}
	}
	for _, cell := range c.Cells {
		for _, p := range laid {
			before, after := 0.0, 0.0
			if p.Number == 1 {
				before = 0.6
			}
			if p.Number == len(c.Pours) {
				after = 0.6
			}
			v.Line(sheet.Centre, p.at(p.Rear, cell.Centre, -before), p.at(p.Front, cell.Centre, after))
			if ch := cell.Channel; ch.Exists() {
				for _, y := range []float64{cell.Centre + ch.Offset + ch.Width/2, cell.Centre + ch.Offset - ch.Width/2} {
					v.Line(sheet.General, p.at(p.Rear, y, 0), p.at(p.Front, y, 0))
				}
			}
		}
	}
	o.aprons(v, laid, left, right)
	o.planDimensions(v, laid, faces)
	o.stations(v, laid, right, n)
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
func (o *drafter) aprons(v *sheet.View, laid []laidPour, left, right float64) {
	c := o.study.Culvert
	for _, a := range []struct {
		p    laidPour
		e    geom.End
		long float64
	}{{laid[0], laid[0].Rear, -c.InletSlab}, {laid[len(laid)-1], laid[len(laid)-1].Front, c.OutletSlab}} {
		if a.long != 0 {
			v.Polyline(sheet.General, a.p.at(a.e, left, 0), a.p.at(a.e, left, a.long), a.p.at(a.e, right, a.long), a.p.at(a.e, right, 0))
		}
	}
}

// planDimensions are the lengths along both outer faces, each at its edge, and
// the widths at the inlet, square to the line there.
func (o *drafter) planDimensions(v *sheet.View, laid []laidPour, faces []float64) {
	c := o.study.Culvert
	left, right := faces[0], faces[len(faces)-1]
	for from := 0; from < len(laid); {
		to := from + 1
		for to < len(laid) && laid[to].ahead == laid[from].ahead {
			to++
		}
		var above, below []sheet.Span
		for _, p := range laid[from:to] {
			above = append(above, sheet.Span{From: p.at(p.Rear, left, 0), To: p.at(p.Front, left, 0)})
			below = append(below, sheet.Span{From: p.at(p.Rear, right, 0), To: p.at(p.Front, right, 0)})
		}
		v.StackAlong(above[0].From, above[0].To, true, above...)
		v.StackAlong(below[0].From, below[0].To, false, below...)
		from = to
	}
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

// Distances on paper of the job line drawn beside the plan, mm: from the right
// outer face, half its ticks, and its stations from it.
const (
	lineBeside = 30
	lineTick   = 2
	lineLetter = 3
)

// stations draws the job's line once more on the right, beyond the dimensions,
// with a tick and the station at every joint.
func (o *drafter) stations(v *sheet.View, laid []laidPour, right, n float64) {
	along := float64(o.study.Start().Station) // on the line, in plan
	lengths := o.study.Job.Culvert.Pours.Lengths()
	beside := right - lineBeside*n/perMetre
	// across the direction of travel at a joint: half the turn from either pour
	mark := func(p laidPour, at sheet.Point, turn float64) {
		sin, cos := math.Sincos(turn)
		p.ahead = sheet.Pt(cos*p.ahead[0]-sin*p.ahead[1], sin*p.ahead[0]+cos*p.ahead[1])
		out := sheet.Pt(p.ahead[1], -p.ahead[0])
		v.Line(sheet.Centre, at.Sub(out.Mul(lineTick*n)), at.Add(out.Mul(lineTick*n)))
		anchor := sheet.TopCentre
		if p.ahead[0] < 0 {
			anchor = sheet.BaseCentre
		}
		p.text(v, at.Add(out.Mul(lineLetter*n)), anchor, o.station(along))
	}
	// where the line beside the plan passes a joint: square to the line, mitred
	place := func(p laidPour, x, turn float64) sheet.Point {
		return p.at(geom.End{X: x}, beside, beside*math.Tan(turn/2))
	}
	at := place(laid[0], 0, 0)
	line := []sheet.Point{at.Sub(laid[0].ahead.Mul(perMetre))}
	mark(laid[0], at, 0)
	for i, p := range laid {
		end, turn := p.Front.X, 0.0
		if i+1 < len(laid) {
			end, turn = laid[i+1].begins.Sub(p.begins).Len()/perMetre, laid[i+1].Turn
		}
		along += float64(lengths[i]) / o.inPlan()
		at = place(p, end, -turn)
		line = append(line, at)
		mark(p, at, turn/2)
	}
	last := laid[len(laid)-1]
	line[len(line)-1] = at.Add(last.ahead.Mul(perMetre))
	v.Polyline(sheet.Centre, line...)
	anchor := sheet.MiddleLeft
	if last.ahead[0] < 0 {
		anchor = sheet.MiddleRight
	}
	last.text(v, line[len(line)-1].Add(last.ahead.Mul(2*n)), anchor, "alignment, ahead")
}

// inPlan is how much longer a pour on the job's straight grade is than in plan, as
// stations count; lengths on a line of its own are in plan.
func (o *drafter) inPlan() float64 {
	if o.study.Line != nil {
		return 1
	}
	return math.Hypot(1, o.study.Culvert.Grade)
}

func (o *drafter) station(m float64) string {
	return units.Station(m).Text(o.system())
}

func (o *drafter) system() units.System {
	if o.units().Imperial {
		return units.Imperial
	}
	return units.Metric
}

// pourTable lists the pours with their lengths along every wall face.
func (o *drafter) pourTable(s *sheet.Sheet) *sheet.View {
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

func (o *drafter) bayAt(cell culvert.Cell, p culvert.Pour) float64 {
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
func (o *drafter) north(s *sheet.Sheet, v *sheet.View) *sheet.View {
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
	lines := append([]string{fmt.Sprintf("Alignment ahead bears %.4f deg", bearing*180/math.Pi)}, o.grades()...)
	v.Text(sheet.Pt(left, middle[1]-lettered-2*h), sheet.TopLeft, append(lines, "Start at station "+o.station(float64(start.Station)))...)
	return v
}

// grades says how the invert rises ahead: one grade, or that of every pour, and
// that each is then drawn along its own.
func (o *drafter) grades() []string {
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
		return []string{"Grade ahead " + first}
	}
	const developed = "Each pour is drawn as long as it is along its grade."
	const most = 6
	if len(each) > most {
		return []string{fmt.Sprintf("Grade ahead %s at the inlet, %s at the outlet", each[0], each[len(each)-1]), developed}
	}
	return []string{"Grade ahead, pour by pour: " + strings.Join(each, ", "), developed}
}
