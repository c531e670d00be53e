package carrier

import (
	"fmt"

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
	// Mark is the piece mark: one size and shape in the whole job (MarkTogether).
	Mark string
	// Place is which piece of its mark in its carrier it is, from 1 in the order
	// they are built: row by row, from the rear. 0 where there is only one.
	Place int
	at    string // see At
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

// At names the part within its carrier: its mark, which piece of that mark it is
// where there are several, and which solid where the piece is several: W1L/3, C1L/2.2.
func (p Part) At() string { return p.at }

// placed is At of a part whose mark and place are known.
func (p Part) placed() string {
	out := p.Mark
	if p.Place > 0 {
		out += fmt.Sprintf("/%d", p.Place)
	}
	if p.Piece > 0 {
		out += fmt.Sprintf(".%d", p.Piece)
	}
	return out
}

// Label is what a message calls the part: its place and what it is.
func (p Part) Label() string {
	if p.Name != "" {
		return p.At() + " " + p.Name
	}
	return p.At() + " " + string(p.Role)
}
