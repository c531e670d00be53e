package carrier

import (
	"fmt"

	"boxwalk/model/job"
)

// kind is one way to collapse, as data: how its bodies hang on each other,
// which parts they hold, and what the gear file must state for it.
type kind struct {
	middle bool // fillers close the roof in the middle rather than at its edges
	needs  func(g *job.Gear) []Lack
	bodies func(b *builder)
	parts  func(b *builder)
}

// kinds of collapse, by the name the gear file uses.
var kinds = map[string]kind{
	"roof_halves": roofHalves,
	"roof_whole":  roofWhole,
}

// closuresMiddle tells whether the gear's fillers lie in the middle.
func closuresMiddle(g *job.Gear) bool { return kinds[g.Gear.Kind].middle }

// Lack is something a gear file must state, or state otherwise, for its kind
// of collapse.
type Lack struct {
	Path    string // key in the gear file
	Summary string
	Cure    string
}

// Lacks lists what keeps the gear from being built at all.
func Lacks(g *job.Gear) []Lack {
	if other := mistaken(g); len(other) > 0 {
		return other
	}
	out := kinds[g.Gear.Kind].needs(g)
	out = append(out, lackingLinks(g)...)
	return append(out, lackingRanges(g)...)
}

// mistaken is the lack of a gear that has just what the other kind needs: there
// is one thing to mend, not one for each part.
func mistaken(g *job.Gear) []Lack {
	say := func(other, has, not string) []Lack {
		return []Lack{{Path: "gear.kind", Summary: fmt.Sprintf("%s does not fit a gear with %s and no %s", g.Gear.Kind, has, not), Cure: "write kind: " + other}}
	}
	switch halves := closuresMiddle(g); {
	case halves && g.Hinge == nil && g.Slide != nil:
		return say("roof_whole", "a roller track", "hinge")
	case !halves && g.Hinge != nil && g.Slide == nil:
		return say("roof_halves", "a hinge", "roller track")
	}
	return nil
}
