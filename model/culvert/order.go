package culvert

import "math"

// Spell is the time between the casting of one pour of a cell and that of the
// carrier's next one: what is cast up to From stands, and what is cast by other
// carriers before To may.
type Spell struct{ From, To int }

func (s Spell) cast(place int) bool    { return place <= s.From }
func (s Spell) perhaps(place int) bool { return place <= s.From || place < s.To }

// PoursIn are the pours with their place in the order of casting in one cell.
func (c *Culvert) PoursIn(cell Cell) []Pour {
	if len(c.apart) == 0 {
		return c.Pours
	}
	return c.apart[cell.Number-1]
}

// After is the time from the casting of a pour in a cell until its carrier casts
// the next one: it strips and rolls in it.
func (c *Culvert) After(cell Cell, pour Pour) Spell {
	if next, ok := c.Next(cell, pour); ok {
		return Spell{pour.Cast, next.Cast}
	}
	return Spell{pour.Cast, math.MaxInt}
}

// Until is the time from the casting of the pour before, by the same carrier, to
// that of a pour: it is raised in it.
func (c *Culvert) Until(cell Cell, pour Pour) Spell {
	s := Spell{0, pour.Cast}
	for _, p := range c.PoursIn(cell) {
		if p.Cast < pour.Cast {
			s.From = max(s.From, p.Cast)
		}
	}
	return s
}

// Next is the pour that is cast after another in the same cell; false after the
// last.
func (c *Culvert) Next(cell Cell, pour Pour) (next Pour, ok bool) {
	for _, p := range c.PoursIn(cell) {
		if p.Cast > pour.Cast && (!ok || p.Cast < next.Cast) {
			next, ok = p, true
		}
	}
	return next, ok
}

// wallCast is the place in the order at which the wall on a side of a cell is
// cast: an inner wall with the first of the two cells beside it.
func (c *Culvert) wallCast(cell Cell, side Side, pour Pour) int {
	beside := cell.Number - int(side) // cells count from the left
	if beside < 1 || beside > len(c.Cells) {
		return pour.Cast
	}
	return min(pour.Cast, c.PoursIn(c.Cells[beside-1])[pour.Number-1].Cast)
}

// WallStands tells whether the wall on a side of a cell stands when a pour is
// cast there: an inner wall that was cast with the cell beside it.
func (c *Culvert) WallStands(cell Cell, side Side, pour Pour) bool {
	return c.wallCast(cell, side, pour) < pour.Cast
}
