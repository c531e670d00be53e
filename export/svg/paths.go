package svg

import (
	"fmt"
	"io"

	"boxwalk/export/sheet"
)

// Path is one run of straight lines on a layer, y up.
type Path struct {
	On     sheet.Layer
	Points []sheet.Point
	Closed bool
	// Grey fills a closed run: 0 leaves it open, 1 is black.
	Grey float64
}

const pathsMargin = 5.0 // mm

// Paths writes plain line drawings in the order given, without a sheet around
// them, scaled to fit the given width and height in mm.
func Paths(w io.Writer, title string, width, height float64, paths []Path) error {
	extents := sheet.EmptyBox()
	for _, p := range paths {
		extents = extents.Grow(p.Points...)
	}
	if extents.Empty() || !(extents.Width()+extents.Height() < 1e9) {
		return fmt.Errorf("svg: %q has no lines, or coordinates that are not finite", sheet.Clean(title))
	}
	k, err := fit(extents, width-2*pathsMargin, height-2*pathsMargin)
	if err != nil {
		return err
	}
	c := newCanvas(sheet.Box{Max: sheet.Pt(width, height)}, func(l sheet.Layer) string { return l.Style().Name })
	shift := c.box.Centre().Sub(extents.Centre().Mul(k))
	c.head(title)
	for _, p := range paths {
		c.drawPath(p, k, shift)
	}
	return c.finish(w)
}

// fit is the factor that brings a box into the room there is.
func fit(box sheet.Box, width, height float64) (float64, error) {
	k := 1e9
	for _, side := range [][2]float64{{box.Width(), width}, {box.Height(), height}} {
		if side[0] > 0 {
			k = min(k, side[1]/side[0])
		}
	}
	if !(k > 0 && k < 1e9) {
		return 0, fmt.Errorf("svg: cannot scale %g x %g to %g x %g mm", box.Width(), box.Height(), width, height)
	}
	return k, nil
}

func (c *canvas) drawPath(p Path, k float64, shift sheet.Point) {
	points := make([]sheet.Point, len(p.Points))
	for i, q := range p.Points {
		points[i] = q.Mul(k).Add(shift)
	}
	c.group(p.On)
	if p.Closed && p.Grey > 0 {
		level := uint8(255 * (1 - min(p.Grey, 1)))
		c.path(fmt.Sprintf(" style=\"fill:%s\"", hex(sheet.RGB{R: level, G: level, B: level})), [][]sheet.Point{points}, true)
		return
	}
	c.polyline(sheet.Polyline{On: p.On, Points: points, Closed: p.Closed})
}
