package carrier

import (
	"math"

	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// wallPanels stack from top down; shape gives the outline of the top row
// between two heights, the others are plain.
func (b *builder) wallPanels(top func(z0, z1 float64) []geom.Point2) {
	w := b.g.Wall
	z1 := b.s.PlaneTop - float64(b.g.Corner.Leg)
	for row, h := range b.s.Stack {
		z0 := z1 - h
		outline := rectangle(b.s.Half-float64(w.Depth), z0, b.s.Half, z1)
		if row == 0 {
			outline = top(z0, z1)
		}
		for _, side := range sides {
			for _, x := range b.pieces() {
				b.panel(faced(Part{Role: WallPanel, Side: side}, w.Mass, h*(x[1]-x[0])), sided(bodyWall, side), outline, x[0], x[1])
			}
		}
		z1 = z0
	}
}

// walerHeights are the centres of the walers; those that fall outside the
// panels or onto another are left out.
func (b *builder) walerHeights() []float64 {
	w := b.g.Wall.Walers
	s := spaced{half: float64(w.Section.Y) / 2, lo: b.s.Foot, hi: b.s.PlaneTop}
	for _, v := range w.AboveFoot {
		s.keep(b.s.Foot + float64(v))
	}
	for _, v := range w.BelowTop {
		s.keep(b.s.PlaneTop - float64(v))
	}
	return s.at
}

func (b *builder) walers() {
	sec := b.g.Wall.Walers.Section
	back := b.s.Half - float64(b.g.Wall.Depth)
	x0, x1 := b.whole()
	for _, side := range sides {
		for _, z := range b.walerHeights() {
			b.add(Part{Role: Waler, Side: side, Mass: perMetre(b.g.Wall.Walers.Mass, x1-x0)}, sided(bodyWall, side), geom.Prism(rectangle(back-float64(sec.X), z-float64(sec.Y)/2, back, z+float64(sec.Y)/2), x0, x1))
		}
	}
}

// ties run through the wall at every waler, except through one that stands
// already: as many as it takes that the form ends within half a spacing of the last.
func (b *builder) ties() {
	if b.g.Ties == nil {
		return
	}
	r := float64(b.g.Ties.Diameter) / 2
	l, spacing := float64(b.g.Form.Length), float64(b.g.Ties.Spacing)
	n := max(1, int(math.Ceil(l/spacing-1e-9)))
	first := b.c.Rear + (l-float64(n-1)*spacing)/2
	for i, side := range sides {
		if b.kept.Untied[i] {
			continue
		}
		for _, z := range b.walerHeights() {
			for k := range n {
				x := first + float64(k)*spacing
				inner := b.s.Half - float64(b.g.Wall.Depth) - float64(b.g.Wall.Walers.Section.X)
				b.add(Part{Role: Tie, Side: side}, sided(bodyWall, side), geom.Prism(rectangle(inner, z-r, b.s.Half+b.wall[i], z+r), x-r, x+r))
			}
		}
	}
}

// fillers close the roof: one outline between the bents, and over the
// bents the same, or what the hanger plates leave of it where they stay.
func (b *builder) fillers(side culvert.Side, outline []geom.Point2, over [][]geom.Point2) {
	x0, x1 := b.whole()
	gap := (float64(b.g.Form.Spacing) - float64(b.g.Roof.FillerLength)) / 2
	for n, x := range b.c.Bents {
		if x-gap > x0 {
			b.filler(side, bodyFillers, outline, x0, x-gap)
		}
		cut := over
		if n >= len(b.kept.Over) || !b.kept.Over[n] {
			cut = [][]geom.Point2{outline}
		}
		for _, o := range cut {
			b.filler(side, bodyOverBents, o, max(x0, x-gap), min(x1, x+gap))
		}
		x0 = x + gap
	}
	if x0 < x1 {
		b.filler(side, bodyFillers, outline, x0, x1)
	}
}

func (b *builder) filler(side culvert.Side, body string, outline []geom.Point2, x0, x1 float64) {
	if x1-x0 < 1e-3 {
		return
	}
	area := (x1 - x0) * (outline[1][0] - outline[0][0])
	b.panel(faced(Part{Role: Filler, Side: side}, b.g.Roof.Mass, area), body, outline, x0, x1)
}
