package proof

import (
	"math"
	"slices"
	"strings"
)

// part is a convex solid of a carrier, as raised.
type part struct {
	mark string
	body int
	v    []vec
	size float64 // the farthest vertex from the origin
}

// carrier is bodies, parts and the steps that they go through.
type carrier struct {
	gear
	parts   []part
	all     []int           // every part
	running map[[2]int]bool // bodies that run in each other
	pinned  map[[2]int]bool
	seams   map[[2]int]bool
	steps   []*step

	pinnedTo, seamsOf [][]int // the same by part
}

// The kinds of step. At the end nothing moves: it is the last step's end.
const (
	strip = "strip"
	raise = "raise"
	roll  = "roll"
	end   = "end"
)

// scenes tells which solids stand around in a kind of step.
var scenes = map[string]string{strip: "s", end: "s", raise: "r", roll: "a"}

type step struct {
	id      int
	kind    string
	name    string
	drives  []drive
	driven  map[int]bool // bodies that a drive is given for
	absent  map[int]bool
	present []int
	frame   frame // nil: the carrier stands in its own coordinates
	first   bool  // the carrier's first strip step
	rests   []resting
	group   []int // by body: the outermost that it rests on
}

// place is a carrier at one pour of one cell, and what stands around it there.
type place struct {
	id      int
	names   []string // its own and those of pours that are the same
	carrier *carrier
	shift   float64
	solids  []solid
	steps   []*step // the roll
	face    map[[2]int]int
	lands   map[[2]int]int
	stands  map[[2]int]bool
	rolls   map[[2]int]bool
}

// solid is a convex piece of what stands around, in the carrier's coordinates.
type solid struct {
	zone, kind string
	scenes     string
	v          []vec
	size       float64
}

// model is all that the claims are about.
type model struct {
	zones    map[string]string // words by zone
	order    []string
	carriers []*carrier
	places   []*place
	step     *step // the one being read
	closed   bool  // of a carrier: its parts and joints are complete
	stage    int   // where in the order of records the last one stands
}

// stages is the order of the records of a carrier, and of a place; each carrier,
// each place and, at the end of these, each step begins anew.
var stages = map[string]int{
	"zone": 0, "carrier": 1, "body": 2, "link": 3, "runs": 4, "part": 5, "pinned": 6, "seam": 7,
	"place": 1, "twin": 2, "solid": 3, "face": 4, "lands": 5, "stands": 6, "rolls": 7,
	"step": 8, "drive": 9, "absent": 10, "carry": 11, "tip": 11,
}

// record reads one line of the model; false when it is none.
func (m *model) record(t *text) bool {
	f, ok := map[string]func(*text){
		"zone": m.zone, "carrier": m.newCarrier, "body": m.body, "link": m.link, "runs": m.runs, "part": m.part,
		"pinned": m.pinned, "seam": m.seam, "step": m.newStep, "drive": m.drive, "absent": m.absent,
		"carry": m.frame, "tip": m.frame, "place": m.place, "twin": m.twin, "solid": m.solid,
		"face": m.face, "lands": m.face, "stands": m.stands, "rolls": m.stands,
	}[t.words[0]]
	if !ok {
		return false
	}
	if stage := stages[t.words[0]]; stage < m.stage && stage != 1 && !t.is("step") {
		t.fail("a record %s stands too late", t.words[0])
	} else {
		m.stage = stage
	}
	f(t)
	return true
}

func (m *model) zone(t *text) {
	if !t.want(2, 2, true) {
		return
	}
	z := t.words[1]
	if _, twice := m.zones[z]; twice || strings.Contains(z, ":") || z == "self" {
		t.fail("zone %q is there twice, or no name of a zone", z)
	}
	m.zones[z] = t.name
	m.order = append(m.order, z)
}

// newCarrier opens a carrier; ids are given in order, so that none is doubled.
func (m *model) newCarrier(t *text) {
	if !t.want(2, 2, false) {
		return
	}
	m.close(t)
	if len(m.places) > 0 {
		t.fail("a carrier behind the first place")
	}
	m.id(t, t.words[1], len(m.carriers))
	m.carriers = append(m.carriers, &carrier{pinned: map[[2]int]bool{}, seams: map[[2]int]bool{}})
	m.closed = false
}

// id holds an id against the one that is due.
func (m *model) id(t *text, s string, due int) {
	if due > mostThings {
		t.fail("more than %d of one kind", mostThings)
	}
	if v := t.whole(s, 0, mostThings); t.bad == nil && v != due {
		t.fail("id %d where %d is due: each id once, in order", v, due)
	}
}

func (m *model) carrier(t *text) *carrier {
	if len(m.carriers) == 0 {
		t.fail("no carrier is open")
		return &carrier{pinned: map[[2]int]bool{}, seams: map[[2]int]bool{}}
	}
	return m.carriers[len(m.carriers)-1]
}

// open is the carrier while its bodies and parts may still be added.
func (m *model) open(t *text) *carrier {
	if m.closed {
		t.fail("a %s behind the carrier's first step", t.words[0])
	}
	return m.carrier(t)
}

func (m *model) body(t *text) {
	if !t.want(4, 8, true) {
		return
	}
	c, w := m.open(t), t.words
	if m.id(t, w[1], len(c.bodies)); len(c.bodies) >= mostBodies {
		t.fail("more than %d bodies", mostBodies)
	}
	b := body{parent: t.whole(w[2], ground, len(c.bodies)-1), kind: kind(w[3]), link: -1}
	if t.bad != nil {
		return
	}
	if b.parent != ground {
		b.depth = 1 + c.bodies[b.parent].depth
	}
	switch {
	case b.kind == isFixed && len(w) == 4:
	case (b.kind == isSlide || b.kind == isTurn || b.kind == isAim) && len(w) == 7:
		b.axis, b.pin = t.vector(w[4]), t.vector(w[5])
		if w[6] != "-" {
			b.link = t.whole(w[6], 0, mostThings)
		}
		l := b.axis.length()
		if !(l > 0) || (b.kind != isSlide && math.Abs(l-1) > 1e-12) || (b.kind == isAim && b.link < 0) {
			t.fail("a joint without an axis, with a turning axis not of length 1, or an aim without a link")
			return
		}
		b.e1, b.e2 = square(b.axis.mul(1 / l))
	default:
		t.fail("%q is no kind of joint, or its words are too many or too few", w[3])
	}
	c.bodies = append(c.bodies, b)
}

func (m *model) link(t *text) {
	if !t.want(6, 6, false) {
		return
	}
	c, w := m.open(t), t.words
	m.id(t, w[1], len(c.links))
	n := len(c.bodies) - 1
	l := link{a: t.whole(w[2], ground, n), b: t.whole(w[3], 0, n), pinA: t.vector(w[4]), pinB: t.vector(w[5])}
	if !(l.raised() > 0) || l.a == l.b {
		t.fail("a link whose pins fall together, or of one body with itself")
	}
	c.links = append(c.links, l)
}

// runs reads two bodies that run in each other though neither hangs on the
// other, such as a jack's screw in a frame: their parts may be pinned.
func (m *model) runs(t *text) {
	if !t.want(3, 3, false) {
		return
	}
	c := m.open(t)
	n := len(c.bodies) - 1
	p := [2]int{t.whole(t.words[1], 0, n), t.whole(t.words[2], 0, n)}
	switch {
	case t.bad != nil:
	case p[0] >= p[1]:
		t.fail("bodies that run in each other, the first one first")
	case c.running[p]:
		t.fail("the two bodies are declared twice")
	default:
		if c.running == nil {
			c.running = map[[2]int]bool{}
		}
		c.running[p] = true
	}
}

func (m *model) part(t *text) {
	if !t.want(7, -1, true) {
		return
	}
	c, w := m.open(t), t.words
	m.id(t, w[1], len(c.parts))
	p := part{mark: t.name, body: t.whole(w[2], 0, len(c.bodies)-1), v: t.vertices(w[3:])}
	p.size = size(p.v)
	c.all = append(c.all, len(c.parts))
	c.parts = append(c.parts, p)
}

func size(vs []vec) (most float64) {
	for _, v := range vs {
		most = math.Max(most, v.length())
	}
	return most
}

// pair reads two parts, the smaller first, on different bodies.
func (m *model) pair(t *text) (c *carrier, p [2]int) {
	c = m.open(t)
	n := len(c.parts) - 1
	p = [2]int{t.whole(t.words[1], 0, n), t.whole(t.words[2], 0, n)}
	switch {
	case t.bad != nil:
	case p[0] >= p[1]:
		t.fail("a pair has its smaller part first")
	case c.pinned[p] || c.seams[p]:
		t.fail("the pair is declared twice")
	}
	return c, p
}

func (m *model) pinned(t *text) {
	if !t.want(3, 3, false) {
		return
	}
	if c, p := m.pair(t); t.bad == nil {
		t.charge(4 * len(c.links))
		if !c.joined(c.parts[p[0]].body, c.parts[p[1]].body) {
			t.fail("%s and %s share no joint", c.parts[p[0]].mark, c.parts[p[1]].mark)
		}
		c.pinned[p] = true
	}
}

// joined tells whether one of two bodies hangs on the other, or both are ends
// or bars of one link.
func (c *carrier) joined(p, q int) bool {
	if p == q || c.bodies[p].parent == q || c.bodies[q].parent == p || c.running[[2]int{min(p, q), max(p, q)}] {
		return true
	}
	on := func(b, l int) bool {
		return c.links[l].a == b || c.links[l].b == b || (c.bodies[b].kind == isAim && c.bodies[b].link == l)
	}
	for l := range c.links {
		if on(p, l) && on(q, l) {
			return true
		}
	}
	return false
}

// partners lists for each part those that it makes a pair with, in order.
func (c *carrier) partners(pairs map[[2]int]bool) [][]int {
	out := make([][]int, len(c.parts))
	for p := range pairs {
		out[p[0]], out[p[1]] = append(out[p[0]], p[1]), append(out[p[1]], p[0])
	}
	for _, list := range out {
		slices.Sort(list)
	}
	return out
}

// touching is how near the boxes around two solids are that touch as raised:
// a necessary sign, not a sufficient one.
const touching = 1e-4

func (m *model) seam(t *text) {
	if !t.want(3, 3, false) {
		return
	}
	if c, p := m.pair(t); t.bad == nil {
		t.charge(len(c.parts[p[0]].v) + len(c.parts[p[1]].v))
		if !near(c.parts[p[0]].v, c.parts[p[1]].v) {
			t.fail("%s and %s do not meet as raised", c.parts[p[0]].mark, c.parts[p[1]].mark)
		}
		c.seams[p] = true
	}
}

func near(a, b []vec) bool {
	apart := 0.0
	for i := range 3 {
		lo, hi := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
		for n, vs := range [2][]vec{a, b} {
			for _, v := range vs {
				lo[n], hi[n] = math.Min(lo[n], v[i]), math.Max(hi[n], v[i])
			}
		}
		side := math.Max(0, math.Max(lo[1]-hi[0], lo[0]-hi[1]))
		apart += side * side
	}
	return math.Sqrt(apart) <= touching
}
