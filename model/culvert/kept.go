package culvert

import (
	"fmt"

	"boxwalk/model/geom"
	"boxwalk/model/job"
)

// Hangers are the plates and nuts that stay under the roof of a pour at the
// given places along it, seen from the frame of another in the same cell. Rods
// run up into the concrete and are in nobody's way.
func (c Cell) Hangers(h *job.Hangers, frame, pour Pour, at []float64) []Solid {
	if h == nil {
		return nil
	}
	var out []Solid
	frameFromPour := c.BayFromBay(frame, pour)
	for i, x := range at {
		for k, y := range h.Lines {
			name := fmt.Sprintf("pour %d hanger %d.%d", pour.Number, i+1, k+1)
			for _, s := range hanger(h, name, x, float64(y), c.Rise, pour.Number) {
				out = append(out, placed(s, frameFromPour))
			}
		}
	}
	return out
}

func hanger(h *job.Hangers, name string, x, y, soffit float64, pour int) []Solid {
	block := func(part string, length, width, top, bottom float64) Solid {
		return Solid{Name: name + " " + part, Zone: Hanger, Pour: pour, Solid: geom.Block(geom.Box{
			Min: geom.Vec{x - length/2, y - width/2, bottom},
			Max: geom.Vec{x + length/2, y + width/2, top},
		})}
	}
	under := soffit - float64(h.Plate.Z)
	out := []Solid{block("plate", float64(h.Plate.X), float64(h.Plate.Y), soffit, under)}
	if h.Tail > 0 {
		out = append(out, block("nut", float64(h.Nut), float64(h.Nut), under, under-float64(h.Tail)))
	}
	return out
}

// Steel is the curtain of wall bars that stands on the kickers of a pour whose
// walls are not sure to be cast in a spell, leaning toward the cell by its
// allowance, one solid each side, in the frame of cell and another pour.
func (c *Culvert) Steel(cell Cell, frame, pour Pour, s *job.SteelAhead, when Spell) []Solid {
	if s == nil {
		return nil
	}
	rear, front := cell.Ends(pour)
	var out []Solid
	for _, side := range [2]Side{Left, Right} {
		if when.cast(c.wallCast(cell, side, pour)) {
			continue
		}
		face := cell.HalfSpan + float64(s.Cover) - float64(s.Lean)
		outline := rectangle(face, cell.Kicker, face+float64(s.Lean)+barDepth, cell.Rise+cell.Roof)
		if side == Right {
			for i := range outline {
				outline[i][0] = -outline[i][0]
			}
		}
		out = append(out, placed(Solid{Name: fmt.Sprintf("bars %s of pour %d", side, pour.Number), Zone: SteelAhead, Side: side, Pour: pour.Number,
			Solid: geom.SkewPrism(outline, rear, front)}, cell.BayFromBay(frame, pour)))
	}
	return out
}

// SteelAlong is the steel of the pours from first to last that a carrier meets
// in the cell once it has left a pour.
func (c *Culvert) SteelAlong(cell Cell, pour Pour, first, last int, s *job.SteelAhead) []Solid {
	var out []Solid
	for _, p := range c.window(cell, first, last) {
		out = append(out, c.Steel(cell, pour, p, s, c.After(cell, pour))...)
	}
	return out
}

// barDepth is how deep the curtain of bars is drawn; only its face counts.
const barDepth = 0.02
