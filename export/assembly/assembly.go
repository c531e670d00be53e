package assembly

import (
	"fmt"
	"slices"

	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// Assembly is all that stands at one pour of one cell in one state.
type Assembly struct {
	Name   string
	Groups []Group // the bodies of the carrier, then concrete, then what stays
}

// Group is one rigid body of the carrier, or what does not move.
type Group struct {
	Name   string
	Still  bool      // no part of the carrier
	Pose   geom.Pose // takes its pieces, as they lie raised, to where they are
	Pieces []Piece
	body   int
}

// Piece is one part as the parts list counts it: a convex solid, or several of one mark
// where the part is not convex.
type Piece struct {
	Mark   string // as the parts list has it: one mark, one shape
	At     string // which of its mark it is
	Half   int    // of a link, whose halves are of different bodies: 2 for the second; else 0
	Name   string // what it is, in words
	Role   carrier.Role
	Zone   culvert.Zone // of concrete and what stays
	Solids []*geom.Solid
	part   int    // by place in the carrier; of several the first
	Round  *Round // where the part is a cylinder and its one solid a prism about it
}

// Round is a cylinder square to the cell: its axis runs along y through X and Z, between
// two places across.
type Round struct{ X, Z, Radius, From, To float64 }

// Of is a bay in a state.
func Of(b *model.Bay, s State) Assembly {
	a := Assembly{Name: fmt.Sprintf("cell %d, pour %d, %s", b.Cell.Number, b.Pour.Number, s.Name)}
	for body := range b.Carrier.Mechanism.Bodies {
		g := Group{Name: b.Carrier.Mechanism.Bodies[body].Name, Pose: s.pose(b, body), body: body}
		for i, p := range b.Carrier.Parts {
			if p.Body == body && s.present(b, p) {
				g.Pieces = withPart(g.Pieces, b, i)
			}
		}
		if len(g.Pieces) > 0 {
			a.Groups = append(a.Groups, g)
		}
	}
	return a.with("concrete", b, func(z culvert.Zone) bool { return z != culvert.Hanger && z != culvert.SteelAhead }).
		with("left in place", b, func(z culvert.Zone) bool { return z == culvert.Hanger || z == culvert.SteelAhead })
}

// withPart adds a part, to the piece that it belongs to where it is one of several
// convex parts of that.
func withPart(list []Piece, b *model.Bay, part int) []Piece {
	p := b.Carrier.Parts[part]
	if n := len(list) - 1; p.Piece > 1 && n >= 0 && list[n].Mark == p.Mark && b.Carrier.Parts[list[n].part].Place == p.Place {
		list[n].Solids = append(list[n].Solids, p.Solid)
		return list
	}
	one := Piece{Mark: p.Mark, At: p.At(), part: part, Name: string(p.Role), Role: p.Role, Solids: []*geom.Solid{p.Solid}}
	switch {
	case p.Role == carrier.LinkBar:
		one.Name = p.Name
	case p.Name != "":
		one.Name = p.Name + " " + string(p.Role)
	}
	if p.Piece > 1 { // the half of a link that runs with another body
		one.Half = p.Piece
	}
	if p.Role == carrier.Wheel {
		box := p.Box()
		c := box.Center()
		one.Round = &Round{X: c[0], Z: c[2], Radius: float64(b.Carrier.Gear.Wheels.Diameter) / 2, From: box.Min[1], To: box.Max[1]}
	}
	return append(list, one)
}

// with adds what does not move.
func (a Assembly) with(name string, b *model.Bay, of func(z culvert.Zone) bool) Assembly {
	g := Group{Name: name, Still: true, Pose: geom.Identity()}
	for _, c := range b.Concrete {
		if of(c.Zone) {
			g.Pieces = append(g.Pieces, Piece{Mark: c.Name, At: c.Name, Name: c.Zone.Words(), Zone: c.Zone, Solids: []*geom.Solid{c.Solid}})
		}
	}
	if len(g.Pieces) > 0 {
		a.Groups = append(slices.Clone(a.Groups), g)
	}
	return a
}
