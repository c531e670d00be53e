// Package svg writes drawing sheets as SVG: real lettering, lines in classes
// by layer, a viewBox in millimetres of paper. The same sheet always gives the
// same bytes.
package svg

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"strconv"

	"boxwalk/export/sheet"
)

// Encode writes a sheet. It refuses what sheet.Check refuses, before it writes
// anything.
func Encode(w io.Writer, s *sheet.Sheet) error {
	if err := s.Check(); err != nil {
		return err
	}
	width, height := s.Paper.Size()
	c := newCanvas(sheet.Box{Max: sheet.Pt(width, height)}, s.LayerName)
	c.head(s.Title.Title + " " + s.Title.Number)
	c.items(s.Flat())
	return c.finish(w)
}

// canvas collects the document. y is turned over: paper has it up, SVG down.
type canvas struct {
	bytes.Buffer
	box  sheet.Box
	name func(sheet.Layer) string
	open string // class of the group that is open
}

func newCanvas(box sheet.Box, name func(sheet.Layer) string) *canvas {
	return &canvas{box: box, name: name}
}

// head opens the document: size, title for readers, styles of all layers.
func (c *canvas) head(title string) {
	fmt.Fprintf(c, "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\" role=\"img\">\n",
		num(c.box.Width()), num(c.box.Height()), num(c.box.Width()), num(c.box.Height()))
	fmt.Fprintf(c, "<title>%s</title>\n<style>\n", Escape(title))
	c.WriteString("line,polyline,polygon,circle,path{fill:none;stroke-linecap:butt;stroke-linejoin:round}\n")
	c.WriteString("text{stroke:none;white-space:pre;font-family:Arial,'Liberation Sans',Helvetica,sans-serif}\n")
	for _, l := range sheet.Layers() {
		c.style(l)
	}
	c.WriteString("</style>\n<rect class=\"paper\" width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n")
}

func (c *canvas) style(l sheet.Layer) {
	st := l.Style()
	dash := ""
	for i, d := range st.Type.Dashes() {
		if dash += num(d); i < len(st.Type.Dashes())-1 {
			dash += " "
		}
	}
	if dash != "" {
		dash = ";stroke-dasharray:" + dash
	}
	fmt.Fprintf(c, ".%s{stroke:%s;stroke-width:%s%s}.%s text,.%s .s{fill:%s;stroke:none}\n",
		class(l), hex(st.RGB), num(st.Width), dash, class(l), class(l), hex(st.RGB))
}

// class is a layer's CSS class; our own, so that no office's name can break the style.
func class(l sheet.Layer) string { return "l" + strconv.Itoa(int(l)) }

func hex(c sheet.RGB) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// group opens the group of a layer, closing that of another.
func (c *canvas) group(l sheet.Layer) {
	if c.open == class(l) {
		return
	}
	c.close()
	c.open = class(l)
	fmt.Fprintf(c, "<g class=\"%s\" data-layer=\"%s\">\n", c.open, Escape(c.name(l)))
}

func (c *canvas) close() {
	if c.open != "" {
		c.WriteString("</g>\n")
	}
	c.open = ""
}

func (c *canvas) finish(w io.Writer) error {
	c.close()
	c.WriteString("</svg>\n")
	out := bufio.NewWriter(w)
	if _, err := out.Write(c.Bytes()); err != nil {
		return err
	}
	return out.Flush()
}

// at gives a place in SVG coordinates.
func (c *canvas) at(p sheet.Point) (x, y string) {
	return num(p[0] - c.box.Min[0]), num(c.box.Max[1] - p[1])
}

// num writes a number to a ten-thousandth of a millimetre, without a negative zero.
func num(v float64) string {
	s := strconv.FormatFloat(v, 'f', 4, 64)
	for s[len(s)-1] == '0' {
		s = s[:len(s)-1]
	}
	if s[len(s)-1] == '.' {
		s = s[:len(s)-1]
	}
	if s == "-0" {
		return "0"
	}
	return s
}
