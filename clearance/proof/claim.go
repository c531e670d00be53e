package proof

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// slack is how far below a stated number a proof may stay: 2 micrometres, far
// below what a result is read to and above what rounding and the choice of the
// governing one among equals leave.
const slack = 2e-6

// mostLess is how many micrometres a part may be asked more or less than stated.
const mostLess = 1e6

// checks are the ids that a claim may serve, by kind of step and set.
var checks = map[string][]string{
	strip: {"strip.dig", "strip.clear", "strip.supports"}, end: {"strip.clear"},
	raise: {"raise.clear"}, roll: {"roll.clear"}, "self": {"strip.self", "strip.self.seams"},
}

// claim is what a set of parts keeps from a set of solids, or from each other,
// over one step.
type claim struct {
	words   string
	line    int
	carrier *carrier
	place   *place // nil among the parts themselves
	step    *step
	set     string // zone, zone:kind, or self
	a, b    []int
	free    []float64 // by part: what is asked of a pair
	touch   []float64 // by part: of a pair that may touch
	needs   []need

	witnesses   int
	differences int
	mostLess    float64 // the most that a part is asked less than stated, m
}

// need is a number of the result that a claim serves.
type need struct {
	id    string
	lower float64
	far   bool     // the result has no value: nothing comes nearer than lower
	touch bool     // it is about the pairs that may touch
	upper *float64 // what a pair of points shows; nil without a witness
	least float64  // the least that is asked of any part: lower, or less of some
}

func (c *claim) self() bool { return c.place == nil }

// serves tells whether the claim states a number of a check.
func (c *claim) serves(id string) bool {
	for _, n := range c.needs {
		if n.id == id {
			return true
		}
	}
	return false
}

// opened reads the head of a claim.
func (m *model) opened(t *text) *claim {
	c := &claim{line: t.line}
	w := t.words
	steps := []*step(nil)
	switch {
	case t.is("claim") && t.want(4, 4, false):
		if i := t.whole(w[1], 0, len(m.places)-1); t.bad == nil {
			c.place, c.set = m.places[i], w[3]
			c.carrier = c.place.carrier
			steps = append(append(steps, c.carrier.steps...), c.place.steps...)
		}
	case t.is("self") && t.want(3, 3, false):
		if i := t.whole(w[1], 0, len(m.carriers)-1); t.bad == nil {
			c.carrier, c.set = m.carriers[i], "self"
			steps = c.carrier.steps
		}
	}
	if t.bad != nil {
		return nil
	}
	t.charge(len(steps))
	id := t.whole(w[2], 0, mostThings)
	for _, s := range steps {
		if s.id == id {
			c.step = s
		}
	}
	if c.step == nil || (c.self() && c.step.kind != strip) {
		t.fail("step %s is not there, or no step that is asked about", w[2])
		return nil
	}
	if c.a = c.step.present; c.self() {
		c.b = c.a
		bodies := len(c.carrier.bodies)
		t.charge(bodies + bodies*bodies/16) // which of them rest
	} else {
		t.charge(2 * len(c.place.solids))
		c.b = c.place.around(c.step, c.set)
	}
	if c.words = c.name(); len(c.a) == 0 || len(c.b) == 0 {
		t.fail("a claim about nothing")
	}
	n := len(c.carrier.parts)
	t.charge(2 * n)
	c.free, c.touch = make([]float64, n), make([]float64, n)
	for i := range n {
		c.free[i], c.touch[i] = math.Inf(-1), math.Inf(-1)
	}
	return c
}

func (c *claim) name() string {
	if c.self() {
		return fmt.Sprintf("%q, step %q, among its parts", cutShort(c.carrier.steps[0].name), cutShort(c.step.name))
	}
	return fmt.Sprintf("%q, step %q, against %s", cutShort(c.place.names[0]), cutShort(c.step.name), Said(c.set))
}

// around lists the solids of a set in a step.
func (p *place) around(s *step, set string) []int {
	zone, kind, only := strings.Cut(set, ":")
	var out []int
	for i, x := range p.solids {
		if x.zone == zone && (!only || x.kind == kind) && strings.Contains(x.scenes, scenes[s.kind]) {
			out = append(out, i)
		}
	}
	return out
}

// asked reads the needs of a claim, up to the first record of its tree.
//
//	need ID LOWER [far]   every pair that may not touch keeps LOWER
//	touch ID LOWER        a pair that may touch keeps LOWER, see walker.contact
//	less UM PARTS         of these parts UM micrometres more are asked than LOWER
//	near UPPER ...        a pair of points that are no farther apart than UPPER
//	each PART FREE TOUCH  a number for one part; - for none
func (c *claim) asked(t *text, rides *rides) {
	var f floors // of the need being read
	own := false
	for t.next() {
		if own = own || t.is("each"); own && (t.is("need") || t.is("touch") || t.is("near")) {
			t.fail("a number for all parts behind those of single parts")
		}
		switch {
		case t.is("less"):
			c.less(t, f)
		case t.is("need") || t.is("touch"):
			c.take(f)
			f = floors{by: c.need(t), touch: t.is("touch"), changed: map[int]bool{}}
		case t.is("near"):
			c.take(f)
			f = floors{}
			c.witness(t, rides)
		case t.is("each"):
			c.take(f)
			f = floors{}
			c.each(t)
		default:
			c.take(f)
			c.complete(t)
			return
		}
	}
	t.fail("the file ends before the claim's tree")
}

// floors are what a need asks of each part.
type floors struct {
	by      []float64
	touch   bool
	changed map[int]bool // parts that have a difference
}

// take adds what a need asks to what the claim does.
func (c *claim) take(f floors) {
	of := c.free
	if f.touch {
		of = c.touch
	}
	for i, v := range f.by {
		of[i] = math.Max(of[i], v-slack)
	}
}

// less reads by how much more or less is asked of some parts.
func (c *claim) less(t *text, f floors) {
	if !t.want(3, 3, false) {
		return
	}
	um := t.whole(t.words[1], -mostLess, mostLess)
	list := t.ids(t.words[2], c.carrier.all)
	if f.by == nil {
		t.fail("a difference that belongs to no number")
	}
	for _, i := range list {
		if t.bad != nil {
			return
		}
		if f.changed[i] {
			t.fail("part %d has two differences", i)
			return
		}
		f.changed[i] = true
		f.by[i] += float64(um) * 1e-6
		c.differences++
	}
	if f.by != nil {
		n := &c.needs[len(c.needs)-1]
		n.least = math.Min(n.least, n.lower+float64(um)*1e-6)
	}
	c.mostLess = math.Max(c.mostLess, -float64(um)*1e-6)
}

// need reads one number; the result is what it asks of each part.
func (c *claim) need(t *text) []float64 {
	if !t.want(3, 4, false) {
		return nil
	}
	w := t.words
	n := need{id: w[1], lower: t.number(w[2]), touch: w[0] == "touch", far: len(w) == 4}
	if n.far && (n.touch || w[3] != "far") {
		t.fail("%q is no word here", w[3])
	}
	kind := c.step.kind
	if c.self() {
		kind = "self"
	}
	known := false
	for _, id := range checks[kind] {
		known = known || id == n.id
	}
	supports := n.id == "strip.supports"
	if !known || (n.id == "strip.self.seams") != (c.self() && n.touch) || (n.id == "strip.clear" && n.touch && kind != end) ||
		supports != strings.Contains(c.set, ":") || (supports && !strings.HasPrefix(c.set, "hanger:")) || (n.id == "strip.dig" && kept(c.set)) {
		t.fail("this claim serves no check %q", n.id)
	}
	for _, o := range c.needs {
		if o.id == n.id && o.touch == n.touch {
			t.fail("check %q stands in this claim twice", n.id)
		}
	}
	n.least = n.lower
	c.needs = append(c.needs, n)
	t.charge(4 * len(c.carrier.parts))
	by := make([]float64, len(c.carrier.parts))
	for i := range by {
		by[i] = n.lower
	}
	return by
}

// kept tells whether a set is what stays in the concrete rather than concrete.
func kept(set string) bool {
	zone, _, _ := strings.Cut(set, ":")
	return zone == "hanger" || zone == "steel_ahead"
}

func (c *claim) each(t *text) {
	if !t.want(4, 4, false) {
		return
	}
	w := t.words
	i := t.whole(w[1], 0, len(c.carrier.parts)-1)
	for k, floors := range [2][]float64{c.free, c.touch} {
		if w[2+k] != "-" {
			if f := t.number(w[2+k]); t.bad == nil {
				floors[i] = math.Max(floors[i], f-slack)
			}
		}
	}
}

// complete holds that every pair of the claim has a number to keep.
func (c *claim) complete(t *text) {
	free := false
	for _, n := range c.needs {
		free = free || !n.touch
	}
	if !free {
		t.fail("the claim serves no check")
	}
}

// floor is what is asked of a pair; by its first part among parts themselves.
func (c *claim) floor(a, b int, touch bool) float64 {
	if c.self() {
		a = min(a, b)
	}
	if touch {
		return c.touch[a]
	}
	return c.free[a]
}

// meant tells whether a pair is declared to touch in the claim's step.
func (c *claim) meant(a, b int) bool {
	if c.self() {
		return contains(c.carrier.seamsOf[a], b)
	}
	return c.place.touches(c.step, a, b)
}

// contains tells whether a number is in a sorted list, however long a stranger made it.
func contains(list []int, x int) bool {
	_, there := slices.BinarySearch(list, x)
	return there
}

// exempt pairs need no proof: parts of one body or pinned together, and, but in
// the first step, those that rest against each other.
func (c *claim) exempt(a, b int) bool {
	if !c.self() {
		return false
	}
	p, q := c.carrier.parts[a].body, c.carrier.parts[b].body
	return p == q || !c.step.first && c.carrier.restTogether(c.step, p, q) || contains(c.carrier.pinnedTo[a], b)
}
