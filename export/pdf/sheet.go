package pdf

import (
	"fmt"
	"io"
	"math"
	"strings"

	"boxwalk/export/sheet"
)

// mm is a millimetre of paper in points.
const mm = 72 / 25.4

// capHeight is the height of capitals in em of the Go fonts (1480 of 2048 units, read
// from the font), which turns a letter height into a font size.
const capHeight = 1480.0 / 2048

// Sheets writes a set of drawings as one file, a page each of the size of its paper and
// true to its scale, with a bookmark each. It refuses what sheet.Check refuses, before
// it writes anything.
func Sheets(w io.Writer, list []*sheet.Sheet) error {
	if len(list) == 0 {
		return fmt.Errorf("pdf: no sheet to write")
	}
	for _, s := range list {
		if err := s.Check(); err != nil {
			return err
		}
	}
	first := list[0]
	d := newDocument(strings.TrimSpace(first.Title.Number+" "+first.Title.Owner), strings.SplitN(first.Footer, ",", 2)[0])
	d.sheets(list)
	return d.write(w)
}

func (d document) sheets(list []*sheet.Sheet) {
	for n, s := range list {
		wide, high := s.Paper.Size()
		d.AddPageFormat("P", sizeOf(wide*mm, high*mm))
		d.Bookmark(printable(fmt.Sprintf("%d %s", n+1, strings.TrimSuffix(s.Title.Title+", "+s.Title.Supplement, ", "))), 0, 0)
		c := &canvas{document: d, high: high}
		for _, i := range s.Flat() {
			c.item(i)
		}
	}
}

// canvas is a page being drawn on. Sheets have y up from the lower edge in millimetres,
// pages y down in points.
type canvas struct {
	document
	high  float64 // mm
	drawn sheet.Layer
	begun bool
}

func (c *canvas) at(p sheet.Point) (x, y float64) { return p[0] * mm, (c.high - p[1]) * mm }

// on sets lines and letters to those of a layer, where they are of another.
func (c *canvas) on(l sheet.Layer) {
	if c.begun && c.drawn == l {
		return
	}
	c.begun, c.drawn = true, l
	st := l.Style()
	c.ink(rgb(st.RGB))
	c.SetFillColor(int(st.RGB.R), int(st.RGB.G), int(st.RGB.B))
	c.SetLineWidth(st.Width * mm)
	c.SetLineCapStyle("butt")
	c.SetLineJoinStyle("round")
	var dashes []float64
	for _, v := range st.Type.Dashes() {
		dashes = append(dashes, v*mm)
	}
	c.SetDashPattern(dashes, 0)
}

func rgb(v sheet.RGB) [3]int { return [3]int{int(v.R), int(v.G), int(v.B)} }

func (c *canvas) item(i sheet.Item) {
	c.on(i.Layer())
	switch i := i.(type) {
	case sheet.Line:
		c.run([]sheet.Point{i.A, i.B}, false)
		c.DrawPath("D")
	case sheet.Polyline:
		if len(i.Points) > 1 {
			c.run(i.Points, i.Closed)
			c.DrawPath("D")
		}
	case sheet.Circle:
		x, y := c.at(i.Centre)
		c.Circle(x, y, i.Radius*mm, "D")
	case sheet.Arc:
		c.run(arc(i), false)
		c.DrawPath("D")
	case sheet.Text:
		c.text(i)
	case sheet.Hatch:
		c.hatch(i)
	default:
		panic(fmt.Sprintf("pdf: item %T has not been resolved", i))
	}
}

// run adds a run of lines to the path.
func (c *canvas) run(points []sheet.Point, closed bool) {
	for n, p := range points {
		x, y := c.at(p)
		if n == 0 {
			c.MoveTo(x, y)
			continue
		}
		c.LineTo(x, y)
	}
	if closed {
		c.ClosePath()
	}
}

// arc is an arc as chords of three degrees at most: at 50 mm they lie 0.02 mm inside it.
func arc(a sheet.Arc) []sheet.Point {
	sweep := math.Mod(math.Mod(a.To-a.From, 360)+360, 360)
	n := max(2, int(math.Ceil(sweep/3)))
	out := make([]sheet.Point, n+1)
	for i := range out {
		sin, cos := math.Sincos((a.From + sweep*float64(i)/float64(n)) * math.Pi / 180)
		out[i] = a.Centre.Add(sheet.Pt(cos, sin).Mul(a.Radius))
	}
	return out
}

// text letters lines, each no wider than the room that the sheet has kept for it.
func (c *canvas) text(t sheet.Text) {
	size := t.Height / capHeight * mm
	for i, base := range t.Baselines() {
		line := t.Lines[i]
		if line == "" {
			continue
		}
		x, y := c.at(base)
		wide, kept := c.wide(line, regular, size), sheet.TextWidth(line, t.Height)*mm
		c.TransformBegin()
		if t.Angle != 0 {
			c.TransformRotate(t.Angle, x, y)
		}
		if wide > kept {
			c.TransformScaleX(100*kept/wide, x, y)
		}
		c.letters(x-wide/2*float64(t.Anchor.Horizontal()), y, line, regular, size)
		c.TransformEnd()
	}
}

func (c *canvas) hatch(h sheet.Hatch) {
	switch h.Pattern {
	case sheet.Solid, sheet.Tone:
		if h.Pattern == sheet.Tone {
			c.SetFillColor(int(sheet.ToneColour.R), int(sheet.ToneColour.G), int(sheet.ToneColour.B))
		}
		for _, loop := range h.Loops {
			c.run(loop, true)
		}
		c.DrawPath("f*")
		c.begun = false
	default:
		for _, s := range h.Strokes() {
			c.run([]sheet.Point{s.A, s.B}, false)
		}
		c.DrawPath("D")
	}
}
