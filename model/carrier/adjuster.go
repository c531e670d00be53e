package carrier

import (
	"boxwalk/model/culvert"
	"boxwalk/model/job"
	"boxwalk/model/motion"
)

// taken tells whether an adjuster that is no link has this name, in gear of
// any kind.
func taken(name string) bool {
	for _, k := range kinds {
		for _, m := range k.bodies {
			if m.screw != nil && m.screw.name == name {
				return true
			}
		}
	}
	return name == "jack"
}

// effect is what turning an adjuster does to the mechanism.
type effect int

const (
	byLink   effect = iota // the reading is the length of the link that sets its body's joint
	byStroke               // the reading is the coordinate of its body's joint
	byJack                 // the reading lowers the frame until the wheels carry, then lifts the plate
	follows                // the reading is worked out
)

// Adjuster is what a crew turns, or a follower whose length is worked out.
// The same reading goes for every bent. Readings are metres: pin to pin for
// links, sill underside to plate underside for jacks, drawn in for the draw
// screw, lowered for the roof jack.
type Adjuster struct {
	Name   string
	Side   culvert.Side
	Body   int
	Link   int
	Range  job.Adjust
	Raised float64
	sets   effect
}

// Label is the adjuster's name with its side.
func (a Adjuster) Label() string { return sided(a.Name, a.Side) }

// Follows tells whether the adjuster only follows.
func (a Adjuster) Follows() bool { return a.sets == follows }

// links adds the gear's links on both sides: their pins, the two halves of
// their bars, and their adjusters.
func (b *builder) links() {
	for _, l := range b.g.Links {
		for _, side := range sides {
			b.link(l, side)
		}
	}
}

func (b *builder) link(l job.Link, side culvert.Side) {
	i := b.linkNumber(l, side)
	link := b.c.Mechanism.Links[i]
	a := Adjuster{Name: l.Name, Side: side, Body: link.B, Link: i, Range: l.Length, Raised: link.Raised(), sets: follows}
	if l.Drives != "" {
		a.sets = byLink
	}
	b.adjuster(a)
	b.bars(l, side, i)
	b.lugs(l, side)
}

// linkNumber is the link's place in the mechanism; links that drive a body are
// there already.
func (b *builder) linkNumber(l job.Link, side culvert.Side) int {
	name := sided(l.Name, side)
	for i, have := range b.c.Mechanism.Links {
		if have.Name == name {
			return i
		}
	}
	b.c.Mechanism.Links = append(b.c.Mechanism.Links, motion.Link{
		Name: name, A: b.pinBody(l.From, side), B: b.pinBody(l.To, side),
		PinA: b.pin(l.From, side), PinB: b.pin(l.To, side),
	})
	return len(b.c.Mechanism.Links) - 1
}

// Jack tells whether the adjuster is a screw jack under a leg.
func (a Adjuster) Jack() bool { return a.sets == byJack }
