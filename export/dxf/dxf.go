// Package dxf writes drawing sheets as DXF (AC1021, UTF-8) with real DIMENSION,
// HATCH, MTEXT and LEADER entities, on top of github.com/yofu/dxf.
//
// Model space holds the whole sheet in millimetres of the real thing: frame and
// title block are enlarged by the scale of the first view, so that its drawing,
// and that of every view of the same scale, is true to size. Views of another
// scale are drawn enlarged or reduced, with a DIMLFAC of their own. One
// paper-space layout shows the sheet at its plotting scale.
//
// The same sheet always gives the same bytes.
package dxf

import (
	"io"

	"boxwalk/export/sheet"
)

// Encode writes a sheet. It refuses what sheet.Check refuses, before it writes
// anything.
func Encode(w io.Writer, s *sheet.Sheet) error {
	if err := s.Check(); err != nil {
		return err
	}
	d := newDocument(s)
	into := d.model()
	for _, i := range sheet.Placed(s.Furniture(), d.scale, sheet.Point{}) {
		into.item(i)
	}
	for _, v := range s.Views {
		d.view(v)
	}
	return d.write(w)
}

// mainScale is the denominator by which the sheet is enlarged: that of the
// first view with a scale to speak of.
func mainScale(s *sheet.Sheet) float64 {
	for _, v := range s.Views {
		if !v.NoScale {
			return v.Scale
		}
	}
	return 1
}

// view draws a view in model space, which is mm of paper times the sheet's scale.
func (d *document) view(v *sheet.View) {
	k, shift := d.scale/v.Scale, v.Shift.Mul(d.scale)
	into := d.model()
	for _, i := range d.sheet.Model(v) {
		if dim, ok := i.(sheet.Dimension); ok {
			d.dimension(dim, v, k)
			continue
		}
		if l, ok := i.(sheet.Leader); ok {
			into.leader(l, d.sheet.DrawLeader(l, v.Scale), k, shift, d.dimStyle(v).name)
			continue
		}
		into.item(sheet.Placed([]sheet.Item{i}, k, shift)[0])
	}
}
