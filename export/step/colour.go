package step

import "boxwalk/export/assembly"

// paint gives a solid its colour.
func (f *file) paint(solid id, c assembly.Colour) {
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
