package carrier

import (
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// Role is what a part is for.
type Role string

// The roles, in the trade's words.
const (
	WallPanel   Role = "wall panel"
	CornerPanel Role = "corner panel"
	RoofPanel   Role = "roof panel"
	Filler      Role = "filler"
	Waler       Role = "waler"
	Stringer    Role = "stringer"
	Pad         Role = "pad"
	Arm         Role = "header arm"
	Header      Role = "header"
	Leg         Role = "leg"
	Sill        Role = "sill"
	Strut       Role = "strut"
	Fork        Role = "wheel fork"
	Wheel       Role = "wheel"
	JackScrew   Role = "jack screw"
	JackPlate   Role = "jack plate"
	LinkBar     Role = "link"
	Lug         Role = "lug"
	Bracket     Role = "roller bracket"
	Track       Role = "roller track"
	RoofScrew   Role = "roof jack"
	Tie         Role = "tie"
)

// marks is the letter that a role's piece marks begin with.
var marks = map[Role]string{
	WallPanel: "W", CornerPanel: "C", RoofPanel: "R", Filler: "F", Waler: "WL", Stringer: "ST", Pad: "PD",
	Arm: "AR", Header: "H", Leg: "L", Sill: "SL", Strut: "SR", Fork: "FK", Wheel: "WH", JackScrew: "JS",
	JackPlate: "JP", LinkBar: "B", Lug: "LG", Bracket: "RB", Track: "RT", RoofScrew: "RJ", Tie: "T",
}

// Faced tells whether parts of this role form concrete: they touch it when
// raised.
func (r Role) Faced() bool {
	return r == WallPanel || r == CornerPanel || r == RoofPanel || r == Filler
}

// PocketFloor names the roof panel under a pocket: it forms no concrete, but a
// hanger plate lies on it.
const PocketFloor = "pocket floor"

// Part is one convex piece of the carrier, in the frame of cell and pour as
// raised.
type Part struct {
	Mark string
	// Piece is 0 for a part that is one solid or the first of several, and counts
	// from 2 for the others: a panel that is not convex is several convex parts.
	Piece int
	Role  Role
	Name  string // of a link, or PocketFloor
	Side  culvert.Side
	Body  int
	Bent  int // number of the bent it belongs to, from 1; 0 where it belongs to none
	Mass  Mass
	Face  float64 // m2 that forms concrete, or lies under a pocket
	*geom.Solid
}

// Label is what a message calls the part: its mark and what it is.
func (p Part) Label() string {
	if p.Name != "" {
		return p.Mark + " " + p.Name
	}
	return p.Mark + " " + string(p.Role)
}
