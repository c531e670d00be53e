package step

import (
	"boxwalk/export/assembly"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// colour is red, green and blue from 0 to 1.
type colour [3]float64

// Colours tell apart what pictures tell apart by tone.
var (
	steel    = colour{0.45, 0.50, 0.56}
	stays    = colour{0.65, 0.25, 0.20}
	concrete = colour{0.78, 0.77, 0.74}

	byRole = map[carrier.Role]colour{
		carrier.WallPanel: {0.85, 0.70, 0.40}, carrier.CornerPanel: {0.75, 0.55, 0.30}, carrier.RoofPanel: {0.90, 0.80, 0.55},
		carrier.Filler: {0.60, 0.75, 0.60}, carrier.LinkBar: {0.35, 0.55, 0.75}, carrier.Tie: {0.35, 0.55, 0.75}, carrier.Wheel: {0.20, 0.20, 0.22},
	}
)

func colourOf(p assembly.Piece) colour {
	switch {
	case p.Zone == culvert.Hanger || p.Zone == culvert.SteelAhead:
		return stays
	case p.Zone != "":
		return concrete
	}
	if c, ok := byRole[p.Role]; ok {
		return c
	}
	return steel
}

// paint gives a solid its colour.
func (f *file) paint(solid id, c colour) {
	style, ok := f.colours[c]
	if !ok {
		rgb := f.add("COLOUR_RGB('',%s,%s,%s)", number(c[0]), number(c[1]), number(c[2]))
		fill := f.add("FILL_AREA_STYLE('',(%v))", f.add("FILL_AREA_STYLE_COLOUR('',%v)", rgb))
		side := f.add("SURFACE_SIDE_STYLE('',(%v))", f.add("SURFACE_STYLE_FILL_AREA(%v)", fill))
		style = f.add("PRESENTATION_STYLE_ASSIGNMENT((%v))", f.add("SURFACE_STYLE_USAGE(.BOTH.,%v)", side))
		f.colours[c] = style
	}
	f.styled = append(f.styled, f.add("STYLED_ITEM('colour',(%v),%v)", style, solid))
}
