package culvert

import (
	"fmt"

	"boxwalk/model/geom"

	"github.com/go-gl/mathgl/mgl64"
)

// buried is how far walls and roof of two cast pours run into each other, so
// that the joint between them is no way out. It only has to exceed any dig
// that is measured.
const buried = 0.5

// Around is all concrete that a carrier in the cell can meet at a pour when
// the pour is stripped: the pour itself, its neighbours as far as they are
// cast by then, and invert, kickers and bottom haunches, which run through.
func (c *Culvert) Around(cell Cell, pour Pour) []Solid {
	return append(c.through(cell, pour, pour.Number-1, pour.Number+2), c.standing(cell, pour, pour.Number-1, pour.Number+1, c.After(cell, pour))...)
}

// Before is the concrete that a carrier meets when it is raised for a pour:
// everything that is cast before that pour.
func (c *Culvert) Before(cell Cell, pour Pour) []Solid {
	return append(c.through(cell, pour, pour.Number-1, pour.Number+2), c.standing(cell, pour, pour.Number-1, pour.Number+1, c.Until(cell, pour))...)
}

// Along is the concrete from one pour to another that a carrier meets in the
// cell once it has left a pour, seen from there.
func (c *Culvert) Along(cell Cell, pour Pour, first, last int) []Solid {
	return append(c.through(cell, pour, first, last), c.standing(cell, pour, first, last, c.After(cell, pour))...)
}

// standing are the walls, top haunches and roofs of the pours from first to
// last that stand in a spell. Of a pour that is not cast in this cell an inner
// wall stands where the cell beside it is.
func (c *Culvert) standing(cell Cell, frame Pour, first, last int, when Spell) []Solid {
	var out []Solid
	for _, p := range c.window(cell, first, last) {
		if when.cast(p.Cast) {
			out = append(out, c.imprint(cell, frame, p, when)...)
			continue
		}
		for _, side := range [2]Side{Left, Right} {
			if when.perhaps(c.wallCast(cell, side, p)) {
				out = append(out, c.wall(cell, frame, p, side, when))
			}
		}
	}
	return out
}

// window are the pours from first to last as they are cast in a cell.
func (c *Culvert) window(cell Cell, first, last int) []Pour {
	pours := c.PoursIn(cell)
	return pours[min(max(first-1, 0), len(pours)):max(min(last, len(pours)), 0)]
}

// through is what is cast ahead of walls and roof: invert, kickers and bottom
// haunches of the pours from first to last, all of which are placed before a
// carrier comes to them. A low-flow channel is left out of the invert, and of
// the aprons with it.
func (c *Culvert) through(cell Cell, frame Pour, first, last int) []Solid {
	var out []Solid
	for _, p := range c.window(cell, first, last) {
		rear, front := c.joined(cell, p, true, func(Pour) bool { return true })
		frameFromPour := cell.BayFromBay(frame, p)
		for _, piece := range cell.invert() {
			out = append(out, placed(Solid{Name: fmt.Sprintf("invert of pour %d%s", p.Number, piece.where), Zone: Invert, Side: piece.side, Pour: p.Number,
				Solid: geom.SkewPrism(piece.outline, rear, front)}, frameFromPour))
		}
		for _, side := range [2]Side{Left, Right} {
			if cell.Kicker > 0 {
				out = append(out, placed(cell.solid(Kicker, side, p.Number, rear, front), frameFromPour))
			}
			if cell.Bottom.Exists() {
				out = append(out, placed(cell.solid(HaunchBottom, side, p.Number, rear, front), frameFromPour))
			}
		}
	}
	return out
}

// imprint is the walls, top haunches and roof of one pour, seen from the frame
// of another in the same cell.
func (c *Culvert) imprint(cell Cell, frame, pour Pour, when Spell) []Solid {
	rear, front := c.joined(cell, pour, false, func(next Pour) bool { return when.cast(next.Cast) })
	frameFromPour := cell.BayFromBay(frame, pour)
	out := []Solid{placed(Solid{Name: fmt.Sprintf("roof of pour %d", pour.Number), Zone: Roof, Pour: pour.Number,
		Solid: geom.SkewPrism(cell.slab(Roof), rear, front)}, frameFromPour)}
	for _, side := range [2]Side{Left, Right} {
		out = append(out, c.wall(cell, frame, pour, side, when))
		if cell.Top.Exists() {
			out = append(out, placed(cell.solid(HaunchTop, side, pour.Number, rear, front), frameFromPour))
		}
	}
	return out
}

// wall is one wall of a pour, seen from the frame of another. An inner wall
// runs on where the next one stands, whichever cell that was cast with.
func (c *Culvert) wall(cell Cell, frame, pour Pour, side Side, when Spell) Solid {
	rear, front := c.joined(cell, pour, false, func(next Pour) bool { return when.perhaps(c.wallCast(cell, side, next)) })
	return placed(cell.solid(Wall, side, pour.Number, rear, front), cell.BayFromBay(frame, pour))
}

// joined are the ends of a pour, run into the neighbours that are there and in
// line with it; at the outer ends an invert runs out over the aprons.
func (c *Culvert) joined(cell Cell, p Pour, apron bool, there func(Pour) bool) (rear, front geom.End) {
	rear, front = cell.Ends(p)
	pours := c.PoursIn(cell)
	switch {
	case p.Number > 1:
		if before := pours[p.Number-2]; there(before) && inLine(before, p) {
			rear.X -= buried
		}
	case apron:
		rear.X -= c.InletSlab
	}
	switch {
	case p.Number < len(pours):
		if next := pours[p.Number]; there(next) && inLine(p, next) {
			front.X += buried
		}
	case apron:
		front.X += c.OutletSlab
	}
	return rear, front
}

// inLine tells whether two neighbouring pours have one direction, so that the
// faces of one run on in those of the other. A tenth of a microradian is a
// nanometre over a pour.
func inLine(p, q Pour) bool {
	turn := p.LineFromPour.R.Transpose().Mul3(q.LineFromPour.R)
	return turn.Sub(mgl64.Ident3()).Abs().ApproxEqualThreshold(mgl64.Mat3{}, 1e-10)
}

// placed is a solid seen from another frame.
func placed(s Solid, frameFromSolid geom.Pose) Solid {
	s.Solid = s.Solid.Moved(frameFromSolid)
	return s
}

func (c Cell) solid(z Zone, side Side, pour int, rear, front geom.End) Solid {
	outline := c.outline(z, side)
	if side == Right {
		for i := range outline {
			outline[i][0] = -outline[i][0]
		}
	}
	name := fmt.Sprintf("%s %s", z.Words(), side)
	if pour > 0 {
		name = fmt.Sprintf("%s of pour %d", name, pour)
	}
	return Solid{Name: name, Zone: z, Side: side, Pour: pour, Solid: geom.SkewPrism(outline, rear, front)}
}

// Design is the faces that a form is set to, over a length of cell: walls,
// kickers, top haunches and roof, square at both ends.
func (c Cell) Design(rear, front float64) []Solid {
	r, f := geom.SquareEnd(rear), geom.SquareEnd(front)
	out := []Solid{{Name: "soffit", Zone: Roof, Solid: geom.SkewPrism(c.slab(Roof), r, f)}}
	for _, side := range [2]Side{Left, Right} {
		out = append(out, c.solid(Wall, side, 0, r, f))
		if c.Kicker > 0 {
			out = append(out, c.solid(Kicker, side, 0, r, f))
		}
		if c.Top.Exists() {
			out = append(out, c.solid(HaunchTop, side, 0, r, f))
		}
	}
	return out
}
