package svg

import (
	"fmt"
	"math"

	"boxwalk/export/sheet"
)

// capHeight is the height of capitals in em of the sans-serif faces in the font
// list (0.716: published metrics, from memory), which turns a letter height into a font size.
const capHeight = 0.716

func (c *canvas) items(items []sheet.Item) {
	for _, i := range items {
		c.group(i.Layer())
		c.item(i)
	}
}

func (c *canvas) item(i sheet.Item) {
	switch i := i.(type) {
	case sheet.Line:
		c.line(i)
	case sheet.Polyline:
		c.polyline(i)
	case sheet.Circle:
		x, y := c.at(i.Centre)
		fmt.Fprintf(c, "<circle cx=\"%s\" cy=\"%s\" r=\"%s\"/>\n", x, y, num(i.Radius))
	case sheet.Arc:
		c.arc(i)
	case sheet.Text:
		c.text(i)
	case sheet.Hatch:
		c.hatch(i)
	default:
		panic(fmt.Sprintf("svg: item %T has not been resolved", i))
	}
}

func (c *canvas) line(l sheet.Line) {
	ax, ay := c.at(l.A)
	bx, by := c.at(l.B)
	fmt.Fprintf(c, "<line x1=\"%s\" y1=\"%s\" x2=\"%s\" y2=\"%s\"/>\n", ax, ay, bx, by)
}

func (c *canvas) polyline(p sheet.Polyline) {
	tag := "polyline"
	if p.Closed {
		tag = "polygon"
	}
	fmt.Fprintf(c, "<%s points=\"", tag)
	for i, q := range p.Points {
		if i > 0 {
			c.WriteByte(' ')
		}
		x, y := c.at(q)
		c.WriteString(x + "," + y)
	}
	c.WriteString("\"/>\n")
}

func (c *canvas) arc(a sheet.Arc) {
	sweep := math.Mod(math.Mod(a.To-a.From, 360)+360, 360)
	end := func(deg float64) (x, y string) {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		return c.at(a.Centre.Add(sheet.Pt(cos, sin).Mul(a.Radius)))
	}
	x1, y1 := end(a.From)
	x2, y2 := end(a.To)
	large := 0
	if sweep > 180 {
		large = 1
	}
	// Anticlockwise on paper is sweep flag 0 here, since y is turned over.
	fmt.Fprintf(c, "<path d=\"M%s %sA%s %s 0 %d 0 %s %s\"/>\n", x1, y1, num(a.Radius), num(a.Radius), large, x2, y2)
}

func (c *canvas) text(t sheet.Text) {
	anchor := [...]string{"start", "middle", "end"}[t.Anchor.Horizontal()]
	for i, base := range t.Baselines() {
		if t.Lines[i] == "" {
			continue
		}
		x, y := c.at(base)
		turn := ""
		if t.Angle != 0 {
			turn = fmt.Sprintf(" transform=\"rotate(%s %s %s)\"", num(-t.Angle), x, y)
		}
		fmt.Fprintf(c, "<text x=\"%s\" y=\"%s\" font-size=\"%s\" text-anchor=\"%s\"%s>%s</text>\n",
			x, y, num(t.Height/capHeight), anchor, turn, Escape(t.Lines[i]))
	}
}

func (c *canvas) hatch(h sheet.Hatch) {
	switch h.Pattern {
	case sheet.Solid:
		c.path(" class=\"s\"", h.Loops, true)
	case sheet.Tone:
		c.path(fmt.Sprintf(" style=\"fill:%s;stroke:none\"", hex(sheet.ToneColour)), h.Loops, true)
	default:
		var runs [][]sheet.Point
		for _, s := range h.Strokes() {
			runs = append(runs, []sheet.Point{s.A, s.B})
		}
		c.path("", runs, false)
	}
}

// path writes many runs as one path, which keeps hatching short.
func (c *canvas) path(attributes string, runs [][]sheet.Point, closed bool) {
	if len(runs) == 0 {
		return
	}
	fmt.Fprintf(c, "<path%s fill-rule=\"evenodd\" d=\"", attributes)
	for _, run := range runs {
		if len(run) < 2 {
			continue
		}
		for i, p := range run {
			x, y := c.at(p)
			c.WriteString([...]string{"M", "L"}[min(i, 1)] + x + " " + y)
		}
		if closed {
			c.WriteByte('Z')
		}
	}
	c.WriteString("\"/>\n")
}
