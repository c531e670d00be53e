package dxf

import (
	"fmt"

	"github.com/yofu/dxf/format"
	"github.com/yofu/dxf/table"

	"boxwalk/export/sheet"
)

// space is a place that takes entities: model space or a block.
type space struct {
	*document
	block *block
}

func (d *document) model() space { return space{d, d.modelSpace} }

func (s space) add(kind string, layer *table.Layer, own override, body func(format.Formatter)) {
	e := &drawn{kind: kind, owner: s.block.record, layer: layer, override: own, body: body}
	if s.block == s.modelSpace {
		s.AddEntity(e)
		return
	}
	s.block.entities = append(s.block.entities, e)
}

// item draws what has been placed in model space already.
func (s space) item(i sheet.Item) {
	layer, own := s.layer(i.Layer())
	switch i := i.(type) {
	case sheet.Line:
		s.add("LINE", layer, own, line(i))
	case sheet.Polyline:
		if len(i.Points) > 1 {
			s.add("LWPOLYLINE", layer, own, polyline(i))
		}
	case sheet.Circle:
		s.add("CIRCLE", layer, own, circle(i.Centre, i.Radius))
	case sheet.Arc:
		s.add("ARC", layer, own, arc(i))
	case sheet.Text:
		s.text(i, layer, own)
	case sheet.Hatch:
		s.hatch(i, layer, own)
	default:
		panic(fmt.Sprintf("dxf: item %T has not been resolved", i))
	}
}

// toneColour is the light grey of DXF colour numbers.
const toneColour = 254

func (s space) hatch(h sheet.Hatch, layer *table.Layer, own override) {
	var loops [][]sheet.Point
	for _, l := range h.Loops {
		if len(l) > 2 {
			loops = append(loops, l)
		}
	}
	if h.Loops = loops; len(loops) == 0 {
		return
	}
	if h.Pattern == sheet.Tone {
		own.color = toneColour
	}
	s.add("HATCH", layer, own, hatch(h, s.scale))
}

// text letters in model space, where a millimetre of paper is as long as the scale says.
func (s space) text(t sheet.Text, layer *table.Layer, own override) {
	t.Height *= s.scale
	switch {
	case len(t.Lines) == 0 || len(t.Lines) == 1 && t.Lines[0] == "":
	case len(t.Lines) == 1 && len(escapeText(t.Lines[0])) <= longestText:
		s.add("TEXT", layer, own, text(t))
	default:
		s.add("MTEXT", layer, own, mtext(t))
	}
}

// dimensionPart draws what readers expect in a dimension's block: triangles
// for arrowheads and MTEXT for the value.
func (s space) dimensionPart(i sheet.Item) {
	layer, own := s.layer(i.Layer())
	switch i := i.(type) {
	case sheet.Hatch:
		s.add("SOLID", layer, own, solid(i.Loops[0]))
	case sheet.Text:
		i.Height *= s.scale
		s.add("MTEXT", layer, own, middleText(i))
	default:
		s.item(i)
	}
}

// leader draws the arrow as LEADER and its lettering by itself.
func (s space) leader(l sheet.Leader, shown sheet.DrawnLeader, k float64, shift sheet.Point, style string) {
	placed := sheet.Placed([]sheet.Item{l, shown.Text}, k, shift)
	layer, own := s.layer(l.On)
	s.add("LEADER", layer, own, leader(placed[0].(sheet.Leader), style))
	s.item(placed[1])
}

// dimStyle finds or adds the style for a view's scale.
func (d *document) dimStyle(v *sheet.View) *dimStyle {
	if v.Scale == d.scale {
		return d.dimStyles[0]
	}
	name := fmt.Sprintf("SCALE_1_%g", v.Scale)
	for _, s := range d.dimStyles {
		if s.name == name {
			return s
		}
	}
	s := d.newDimStyle(name, v.Scale/d.scale)
	d.dimStyles = append(d.dimStyles, s)
	return s
}

const inch = 25.4 // mm

// newDimStyle adds a style; factor turns model space into mm of the real thing.
func (d *document) newDimStyle(name string, factor float64) *dimStyle {
	if d.sheet.Units.Imperial {
		factor /= inch
	}
	s := &dimStyle{name: name, style: d.style, scale: d.scale, size: d.sheet.LetteringHeight(), factor: factor, units: d.sheet.Units}
	d.table(table.DIMSTYLE).Add(s)
	return s
}
