package culvert

import (
	"fmt"

	"boxwalk/model/geom"
)

// buried is how far walls and roof of two cast pours run into each other, so
// that the joint between them is no way out. It only has to exceed any dig
// that is measured.
const buried = 0.5

// Around is all concrete that a carrier in the cell can meet at a pour when
// the pour is stripped: the pour itself, its neighbours as far as they are
// cast by then, and invert, kickers and bottom haunches, which run through.
func (c *Culvert) Around(cell Cell, pour Pour) []Solid {
	out := c.through(cell, pour)
	for i := pour.Number - 1; i <= pour.Number+1; i++ {
		if i >= 1 && i <= len(c.Pours) && c.Pours[i-1].Cast <= pour.Cast {
			out = append(out, c.imprint(cell, pour, c.Pours[i-1])...)
		}
	}
	return out
}

// Before is the concrete that a carrier meets when it is raised for a pour:
// everything that is cast before that pour.
func (c *Culvert) Before(cell Cell, pour Pour) []Solid {
	out := c.through(cell, pour)
	for i := pour.Number - 1; i <= pour.Number+1; i++ {
		if i >= 1 && i <= len(c.Pours) && c.Pours[i-1].Cast < pour.Cast {
			out = append(out, c.imprint(cell, pour, c.Pours[i-1])...)
		}
	}
	return out
}

// through is what runs through all pours: from the pour before to two pours
// ahead, so that a carrier rolling to the next pour never leaves it.
func (c *Culvert) through(cell Cell, pour Pour) []Solid {
	o := cell.Origin(pour)
	rear := shifted(cell.InCell(c.Pours[max(0, pour.Number-2)].Rear), -o)
	front := shifted(cell.InCell(c.Pours[min(len(c.Pours)-1, pour.Number+1)].Front), -o)
	if pour.Number <= 2 {
		rear.X -= c.InletSlab
	}
	if pour.Number >= len(c.Pours)-1 {
		front.X += c.OutletSlab
	}
	out := []Solid{{Name: "invert", Zone: Invert, Solid: geom.SkewPrism(cell.slab(Invert), rear, front)}}
	for _, side := range [2]Side{Left, Right} {
		if cell.Kicker > 0 {
			out = append(out, cell.solid(Kicker, side, 0, rear, front))
		}
		if cell.Bottom.Exists() {
			out = append(out, cell.solid(HaunchBottom, side, 0, rear, front))
		}
	}
	return out
}

// imprint is the walls, top haunches and roof of one pour.
func (c *Culvert) imprint(cell Cell, frame, pour Pour) []Solid {
	o := cell.Origin(frame)
	rear, front := shifted(cell.InCell(pour.Rear), -o), shifted(cell.InCell(pour.Front), -o)
	if i := pour.Number - 1; i >= 1 && c.Pours[i-1].Cast <= frame.Cast {
		rear.X -= buried
	}
	if i := pour.Number + 1; i <= len(c.Pours) && c.Pours[i-1].Cast <= frame.Cast {
		front.X += buried
	}
	out := []Solid{{Name: fmt.Sprintf("roof of pour %d", pour.Number), Zone: Roof, Pour: pour.Number,
		Solid: geom.SkewPrism(cell.slab(Roof), rear, front)}}
	for _, side := range [2]Side{Left, Right} {
		out = append(out, cell.solid(Wall, side, pour.Number, rear, front))
		if cell.Top.Exists() {
			out = append(out, cell.solid(HaunchTop, side, pour.Number, rear, front))
		}
	}
	return out
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

func shifted(e geom.End, by float64) geom.End {
	e.X += by
	return e
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
