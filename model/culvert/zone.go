package culvert

import "boxwalk/model/geom"

// Zone is a part of the concrete, or what stays in place in it, that has a
// clearance limit of its own.
type Zone string

// The zones. Invert, kicker and bottom haunch are cast ahead by others; wall,
// top haunch and roof are the carrier's own imprint.
const (
	Invert       Zone = "invert"
	Kicker       Zone = "kicker"
	HaunchBottom Zone = "haunch_bottom"
	Wall         Zone = "wall"
	HaunchTop    Zone = "haunch_top"
	Roof         Zone = "roof"
	Hanger       Zone = "hanger"
	SteelAhead   Zone = "steel_ahead"
)

// Zones in the order that tables list them.
var Zones = []Zone{Roof, HaunchTop, Wall, Kicker, HaunchBottom, Invert, Hanger, SteelAhead}

// Words is the zone as a drawing or a message calls it.
func (z Zone) Words() string {
	return map[Zone]string{Invert: "invert", Kicker: "kicker", HaunchBottom: "bottom haunch", Wall: "wall",
		HaunchTop: "top haunch", Roof: "soffit", Hanger: "hanger", SteelAhead: "steel ahead"}[z]
}

// Own tells whether the concrete is the carrier's own imprint; the rest was
// formed by others and carries their tolerances as well.
func (z Zone) Own() bool { return z == Wall || z == HaunchTop || z == Roof }

// Solid is one convex piece of concrete, or of what stays in place.
type Solid struct {
	Name string
	Zone Zone
	Side Side
	Pour int // number of the pour, from 1; 0 for what runs through
	*geom.Solid
}
