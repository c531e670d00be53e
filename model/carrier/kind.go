package carrier

import (
	"fmt"
	"slices"

	"boxwalk/model/culvert"
	"boxwalk/model/diag"
	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/motion"
)

// kind is one way to collapse, as data: what the gear file must state for it,
// how its bodies hang on each other, which parts they hold. Nothing outside the
// file of a kind asks which kind a gear is.
type kind struct {
	name     string                             // as the gear file writes it
	mark     mark                               // what tells its gear from that of other kinds
	needs    []need                             // what the gear must state, in the order it is asked for
	takes    []string                           // keys of components that it may state besides
	bodies   []member                           // what it hangs on the frame; before those that hang on it
	share    float64                            // roof panels that a filler's width comes off, toward the centreline
	parts    func(b *builder)                   // everything but frame, wheels, jacks and links
	rests    func(b *builder) ([]Strip, []Hung) // what of the soffit lies on what, of the left side or the middle
	widths   func(s Setting) []Width            // across the roof at the soffit, as drawings state them
	measures func(g *job.Gear) []Measure        // of its own, beside the setting; nil for none
}

// mark is a component by which a gear of a kind is known, in a word; a kind
// need not have one.
type mark struct{ key, word string }

// need is a component that a kind cannot do without, and what is said where it
// is not there.
type need struct {
	key  string
	lack diag.Problem
}

// member is a body that a kind hangs on the frame, or on another of its bodies.
// It is moved by a screw of its own, or else by the one link that drives it.
type member struct {
	name, on string
	middle   bool // one for both sides; left out, one on each
	arms     bool // the sliding arms of the header are part of it
	joint    func(b *builder, side culvert.Side) motion.Joint
	screw    *screw
}

// screw is an adjuster that moves a member along its joint. Its range is nil
// where the gear has none: the member then stays where it hangs.
type screw struct {
	name string
	of   func(g *job.Gear) *job.Adjust
}

// kinds of collapse, by name, in the order in which their files come.
var kinds []*kind

// register makes a kind known, to the reader of gear files too. A kind's file
// calls it where it states the kind.
func register(k kind) *kind {
	job.AddKind(k.name)
	kinds = append(kinds, &k)
	return &k
}

// kindOf is the kind of a gear that was read from a file.
func kindOf(g *job.Gear) *kind {
	for _, k := range kinds {
		if k.name == g.Gear.Kind {
			return k
		}
	}
	panic("carrier: no kind of collapse " + g.Gear.Kind)
}

// member of a name; nil if the kind has none.
func (k *kind) member(name string) *member {
	for i := range k.bodies {
		if k.bodies[i].name == name {
			return &k.bodies[i]
		}
	}
	return nil
}

// has tells whether a component has a place in the kind.
func (k *kind) has(key string) bool {
	return slices.Contains(k.takes, key) || slices.ContainsFunc(k.needs, func(n need) bool { return n.key == key })
}

// along is a joint that slides along an axis.
func along(axis geom.Vec) motion.Joint {
	return motion.Joint{Kind: motion.Prismatic, Axis: axis, Link: motion.None}
}

// straightDown is the joint of what is lowered from the header.
func straightDown(*builder, culvert.Side) motion.Joint { return along(geom.Vec{0, 0, -1}) }

// Lacks lists what keeps the gear from being built at all: what it must state,
// or state otherwise, for its kind of collapse, by the keys of the gear file.
func Lacks(g *job.Gear) diag.Problems {
	k := kindOf(g)
	if other := k.mistaken(g); other != nil {
		return diag.Problems{*other}
	}
	var out diag.Problems
	for _, n := range k.needs {
		if !given(g, n.key) {
			out = append(out, n.lack)
		}
	}
	out = append(out, k.misplaced(g)...)
	for _, m := range k.bodies {
		if m.screw == nil {
			out = append(out, needOneDriver(g, m.name)...)
		}
	}
	out = append(out, lackingLinks(g)...)
	out = append(out, lackingRanges(g)...)
	out = append(out, k.lackingPulls(g)...)
	for i, s := range g.Steps {
		out = append(out, irremovable(fmt.Sprintf("steps[%d]", i), s)...)
	}
	return out
}

// mistaken is the lack of a gear that has just what marks another kind: there
// is one thing to mend, not one for each part.
func (k *kind) mistaken(g *job.Gear) *diag.Problem {
	if k.mark.key == "" || given(g, k.mark.key) {
		return nil
	}
	for _, other := range kinds {
		if other.mark.key != "" && !k.has(other.mark.key) && given(g, other.mark.key) {
			return &diag.Problem{Key: "gear.kind", Summary: fmt.Sprintf("%s does not fit a gear with a %s and no %s", k.name, other.mark.word, k.mark.word), Fix: "write kind: " + other.name}
		}
	}
	return nil
}
