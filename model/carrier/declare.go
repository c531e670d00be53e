package carrier

import "boxwalk/model/geom"

// Contact is why two parts of a carrier may touch.
type Contact string

// The kinds of contact between parts of one carrier. Pinned pairs share a
// joint and are exempt; a seam may touch and must never overlap.
const (
	Pinned Contact = "pinned"
	Seam   Contact = "seam"
)

// Pair is a declared pair of parts, by their places in Carrier.Parts, the
// smaller first.
type Pair struct {
	A, B int
	Kind Contact
}

// seamReach is how near two parts stand as raised to count as touching; the
// gear's own measures are exact to rounding.
const seamReach = 1e-6

// sliding lists the roles whose parts run inside or on each other.
var sliding = map[[2]Role]bool{
	{Arm, Header}: true, {JackScrew, Sill}: true, {JackScrew, Leg}: true, {RoofScrew, Header}: true,
	{Bracket, Track}: true, {LinkBar, LinkBar}: true, {LinkBar, Lug}: true, {Pad, Header}: true,
}

// joined tells whether two parts share a joint: they slide in each other, or
// are halves or lugs of one and the same link at one bent.
func joined(p, q Part) bool {
	// what is cheap to tell first: there are a hundred thousand pairs
	if p.Bent != q.Bent && p.Bent != 0 && q.Bent != 0 || p.Side != q.Side && p.Side != 0 && q.Side != 0 {
		return false
	}
	if !sliding[[2]Role{p.Role, q.Role}] && !sliding[[2]Role{q.Role, p.Role}] {
		return false
	}
	return p.Role != LinkBar && q.Role != LinkBar || p.Name == q.Name && p.Side == q.Side
}

// declare lists, part by part, the pairs that touch or share a joint by
// design.
func (b *builder) declare() {
	parts := b.c.Parts
	boxes := make([]geom.Box, len(parts))
	faced := make([]bool, len(parts))
	for i, p := range parts {
		boxes[i], faced[i] = p.Box(), p.Role.Faced()
	}
	for i, p := range parts {
		for k := i + 1; k < len(parts); k++ {
			q := parts[k]
			switch {
			case p.Body == q.Body:
			case joined(p, q):
				b.c.Declared = append(b.c.Declared, Pair{A: i, B: k, Kind: Pinned})
			case faced[i] && faced[k] && boxes[i].Gap(boxes[k]) <= seamReach:
				b.c.Declared = append(b.c.Declared, Pair{A: i, B: k, Kind: Seam})
			}
		}
	}
}
