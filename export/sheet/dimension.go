package sheet

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Sizes of a dimension in letter heights, after ISO 129-1 (from memory): the
// extension line starts clear of the point and ends beyond the dimension line.
const (
	extensionGap    = 0.4
	extensionBeyond = 0.8
	arrowLength     = 1.0
	arrowHalfWidth  = arrowLength / 6
	textGap         = 0.4
	textSide        = 0.3 // least room beside the text between the extension lines
	noteLanding     = 1.0 // a note's text stands this far beside its leader
)

// Value is the measured length, mm of the real thing.
func (d Dimension) Value() float64 {
	u, _ := axes(d.Angle)
	return math.Abs(d.To.Sub(d.From).Dot(u))
}

// longestSuffix keeps a dimension's text within what a DXF string may hold.
const longestSuffix = 40

// Label is what the dimension says on this sheet. A clearance in feet and inches
// is the next sixteenth below, so that none is promised that is not there.
func (s *Sheet) Label(d Dimension) string {
	value := d.Value()
	if d.On == Clearance && s.Units.Imperial {
		value = s.Units.Floor(value)
	}
	return s.Units.Format(value) + d.PrintedSuffix()
}

// PrintedSuffix is the suffix as it is lettered: cleaned and cut to 40 characters.
func (d Dimension) PrintedSuffix() string {
	runes := []rune(Clean(d.Suffix))
	if len(runes) > longestSuffix {
		return string(runes[:longestSuffix-1]) + "…"
	}
	return string(runes)
}

// axes are the unit vectors along a direction in degrees and to its left. They
// are exact for whole right angles, so that upright lines stay upright.
func axes(angle float64) (u, v Point) {
	turns := math.Mod(math.Mod(angle, 360)+360, 360)
	switch turns {
	case 0:
		u = Point{1, 0}
	case 90:
		u = Point{0, 1}
	case 180:
		u = Point{-1, 0}
	case 270:
		u = Point{0, -1}
	default:
		sin, cos := math.Sincos(mgl64.DegToRad(angle))
		u = Point{cos, sin}
	}
	return u, Point{-u[1], u[0]}
}

func direction(a, b Point) float64 {
	d := b.Sub(a)
	return mgl64.RadToDeg(math.Atan2(d[1], d[0]))
}

// readable turns an angle so that lettering reads from below or from the right.
func readable(angle float64) float64 {
	a := math.Mod(angle, 180)
	switch {
	case a > 90:
		return a - 180
	case a <= -90:
		return a + 180
	}
	return a
}

// DrawnDimension is a dimension worked out at a scale, in mm of the model.
type DrawnDimension struct {
	Start, End Point // ends of the dimension line, at From and at To
	Text       Text  // the value, anchored at its middle
	Outside    bool  // the text stands beside the measured length, not over it
	Lines      []Line
	Arrows     []Hatch
}

// Draw works out a dimension at scale 1:n.
func (s *Sheet) Draw(d Dimension, n float64) DrawnDimension {
	h := s.LetteringHeight() * n
	u, v := axes(readable(d.Angle))
	_, left := axes(d.Angle)
	level := d.Base.Add(left.Mul(d.Offset * n)).Dot(v)
	at := func(along float64) Point { return u.Mul(along).Add(v.Mul(level)) }
	from, to := d.From.Dot(u), d.To.Dot(u)
	lo, hi := math.Min(from, to), math.Max(from, to)
	label := s.Label(d)
	width := TextWidth(label, h)

	out := DrawnDimension{Start: at(from), End: at(to)}
	arrowsIn := hi-lo >= 3*arrowLength*h
	out.Outside = !arrowsIn || width+2*textSide*h > hi-lo
	middle, line := (lo+hi)/2, [2]float64{lo, hi}
	if !arrowsIn {
		line = [2]float64{lo - 2*arrowLength*h, hi + 2*arrowLength*h}
	}
	clear := (textSide + extensionBeyond/2) * h
	switch {
	case out.Outside && d.Before:
		end := math.Min(line[0], lo-clear)
		middle, line[0] = end-width/2, end-width
	case out.Outside:
		start := math.Max(line[1], hi+clear)
		middle, line[1] = start+width/2, start+width
	}
	out.Text = Text{On: d.On, At: at(middle).Add(v.Mul((textGap + 0.5) * h)), Anchor: MiddleCentre,
		Height: s.LetteringHeight(), Angle: readable(d.Angle), Lines: []string{label}}
	out.Lines = append(out.Lines, Line{d.On, at(line[0]), at(line[1])})
	out.extend(d, h, v)
	out.arrows(d.On, u, v, lo == from == arrowsIn, h)
	return out
}

// extend adds the extension lines, from each point to just beyond the dimension line.
func (o *DrawnDimension) extend(d Dimension, h float64, v Point) {
	for _, e := range [][2]Point{{d.From, o.Start}, {d.To, o.End}} {
		reach := e[1].Sub(e[0]).Dot(v)
		if math.Abs(reach) <= extensionGap*h {
			continue
		}
		out := v.Mul(math.Copysign(h, reach))
		o.Lines = append(o.Lines, Line{d.On, e[0].Add(out.Mul(extensionGap)), e[1].Add(out.Mul(extensionBeyond))})
	}
}

// arrows adds both heads; startRight says that the head at Start lies on the
// side of u, pointing against it.
func (o *DrawnDimension) arrows(on Layer, u, v Point, startRight bool, h float64) {
	if !startRight {
		u = u.Mul(-1)
	}
	o.Arrows = append(o.Arrows, arrowHead(on, o.Start, u, v, h), arrowHead(on, o.End, u.Mul(-1), v, h))
}

// arrowHead has its point at tip and its body toward u.
func arrowHead(on Layer, tip, u, v Point, h float64) Hatch {
	foot := tip.Add(u.Mul(arrowLength * h))
	side := v.Mul(arrowHalfWidth * h)
	return Hatch{On: on, Loops: [][]Point{{tip, foot.Add(side), foot.Sub(side)}}, Pattern: Solid}
}

// Items are the lines, arrowheads and text.
func (o DrawnDimension) Items() []Item {
	var out []Item
	for _, l := range o.Lines {
		out = append(out, l)
	}
	for _, a := range o.Arrows {
		out = append(out, a)
	}
	return append(out, o.Text)
}

// DrawnLeader is a leader worked out at a scale, in mm of the model.
type DrawnLeader struct {
	Line  Line
	Arrow Hatch
	Text  Text // no lines for a plain arrow
}

// DrawLeader works out a leader at scale 1:n.
func (s *Sheet) DrawLeader(l Leader, n float64) DrawnLeader {
	h := s.LetteringHeight() * n
	out := DrawnLeader{Line: Line{l.On, l.Knee, l.Tip}}
	u := Point{1, 0}
	if d := l.Knee.Sub(l.Tip); d.Len() > 0 {
		u = d.Normalize()
	}
	out.Arrow = arrowHead(l.On, l.Tip, u, Point{-u[1], u[0]}, h)
	side, anchor := noteLanding*h, MiddleLeft
	if l.Knee[0] < l.Tip[0] {
		side, anchor = -side, MiddleRight
	}
	at := l.Knee.Add(Point{side / 2, 0})
	out.Text = Text{On: l.On, At: at, Anchor: anchor, Height: s.LetteringHeight(), Lines: l.Lines}
	return out
}

// Items are the line, the arrowhead and the text.
func (o DrawnLeader) Items() []Item {
	out := []Item{o.Line, o.Arrow}
	if len(o.Text.Lines) > 0 {
		out = append(out, o.Text)
	}
	return out
}
