package assembly

import (
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// Colour is red, green and blue from 0 to 1, as screens show them (sRGB).
type Colour [3]float64

var (
	steel    = Colour{0.45, 0.50, 0.56}
	stays    = Colour{0.65, 0.25, 0.20}
	concrete = Colour{0.78, 0.77, 0.74}

	byRole = map[carrier.Role]Colour{
		carrier.WallPanel: {0.85, 0.70, 0.40}, carrier.CornerPanel: {0.75, 0.55, 0.30}, carrier.RoofPanel: {0.90, 0.80, 0.55},
		carrier.Filler: {0.60, 0.75, 0.60}, carrier.LinkBar: {0.35, 0.55, 0.75}, carrier.Tie: {0.35, 0.55, 0.75}, carrier.Wheel: {0.20, 0.20, 0.22},
	}
)

// Colour tells pieces apart as pictures do by tone.
func (p Piece) Colour() Colour {
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
