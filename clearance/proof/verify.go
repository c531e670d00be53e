package proof

import (
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
)

// Header is the first line of a proof.
const Header = "boxwalk-proof 1"

// Verify reads a proof and checks all of it. The error is a *Problem that names
// the line, the record, the claim and what is wrong; with one nothing counts as
// proved. Memory and time are bounded, whatever the file.
func Verify(r io.Reader) (*Report, error) {
	v := &verifier{t: newText(r), report: &Report{}, known: map[[2]string]Entry{}, served: map[string]*claim{},
		model: model{zones: map[string]string{}}}
	v.head()
	v.body()
	if v.t.bad == nil {
		v.cover()
	}
	if v.t.bad != nil {
		return nil, v.t.bad
	}
	v.report.Trust = v.trust(v.report.Trust)
	return v.report, nil
}

// verifier is one run.
type verifier struct {
	t *text
	model
	report *Report
	known  map[[2]string]Entry
	served map[string]*claim // by what it is about
	rides  rides
	work   float64
}

var hash = regexp.MustCompile(`^[0-9a-f]{64}$`)

// head reads the lines that say what the proof is of.
func (v *verifier) head() {
	t := v.t
	if !t.next() || strings.Join(t.words, " ") != Header {
		t.fail("a proof begins with %q", Header)
	}
	scoped := false
	for t.next() {
		w := t.words
		switch {
		case w[0] == "input" && t.want(2, 2, true):
			v.hash(w[1])
			v.report.Inputs = append(v.report.Inputs, Input{t.name, w[1]})
			if len(v.report.Inputs) > 100 {
				t.fail("more than 100 inputs")
			}
		case w[0] == "result" && t.want(2, 2, false):
			if v.report.Result != "" {
				t.fail("two results")
			}
			v.hash(w[1])
			v.report.Result = w[1]
		case w[0] == "scope" && t.want(2, 2, false):
			if scoped = true; w[1] != "all" && w[1] != "some" {
				t.fail("the scope is all or some")
			}
			v.report.Whole = w[1] == "all"
			return
		default:
			t.fail("no record of a head")
		}
	}
	if !scoped {
		t.fail("the file ends before its scope")
	}
}

func (v *verifier) hash(s string) {
	if !hash.MatchString(s) {
		v.t.fail("%q is no sha256", s)
	}
}

// body reads the model and then the claims.
func (v *verifier) body() {
	t := v.t
	for t.next() {
		switch {
		case t.is("claim") || t.is("self"):
			v.close(t)
			if v.report.Claims == 0 {
				v.joined()
			}
			v.claim()
		case t.is("end") && t.want(2, 2, false):
			if n := t.whole(t.words[1], 0, 1<<30); t.bad == nil && n != v.report.Claims {
				t.fail("%d claims are announced and %d were read", n, v.report.Claims)
			}
			if t.bad == nil && t.next() {
				t.fail("more lines behind the end")
			}
			return
		case v.report.Claims > 0:
			t.fail("no claim, and the model is closed")
		case !v.record(t):
			t.fail("no record is called so")
		}
	}
	t.fail("the file ends without its last line")
}

// joined holds that the steps of each carrier follow each other, once the
// model is complete.
func (v *verifier) joined() {
	for i, c := range v.carriers {
		if from, to, ok := c.follow(); !ok {
			v.t.fail("carrier %d: step %q does not begin where step %q ends", i, to.name, from.name)
		}
	}
	names := map[string]bool{}
	for _, p := range v.places {
		for _, n := range p.names {
			if names[n] {
				v.t.fail("place %q is there twice", n)
			}
			names[n] = true
		}
	}
}

// claim reads and checks one claim.
func (v *verifier) claim() {
	t := v.t
	c := v.opened(t)
	if c == nil || t.bad != nil {
		return
	}
	t.claim = c.words
	key := c.key()
	if v.served[key] != nil {
		t.fail("the claim is there twice")
		return
	}
	v.served[key] = c
	v.report.Claims++
	c.asked(t)
	if t.bad != nil {
		return
	}
	w := &walker{claim: c, t: t, rides: &v.rides, report: v.report, work: v.work}
	w.walk()
	v.work = w.work
	v.enter(c)
	c.free, c.touch = nil, nil
	t.claim = ""
}

// key is what a claim is about.
func (c *claim) key() string {
	if c.self() {
		return fmt.Sprintf("%p %d self", c.carrier, c.step.id)
	}
	return fmt.Sprintf("%p %d %s", c.place, c.step.id, c.set)
}

// enter adds the entries that a claim shows.
func (v *verifier) enter(c *claim) {
	for _, n := range c.needs {
		if n.touch && n.id != "strip.self.seams" {
			continue
		}
		for _, p := range v.places {
			if p != c.place && (!c.self() || p.carrier != c.carrier) {
				continue
			}
			for _, name := range p.names {
				id, subject := v.subject(c, n.id, name)
				if !v.report.add(v.known, Entry{id, subject, n.lower, n.far}) {
					v.t.fail("%s, %s: another claim states another number", id, subject)
				}
			}
		}
	}
}

// subject is an entry's id and subject in the words of the result.
func (v *verifier) subject(c *claim, id, place string) (string, string) {
	zone, kind, _ := strings.Cut(c.set, ":")
	step := place + ", " + c.step.name
	switch {
	case id == "strip.self":
		return id, step + ", bodies and links"
	case id == "strip.self.seams":
		return "strip.self", step + ", seams"
	case id == "strip.supports":
		return id, step + ", " + v.zones[zone] + " " + kind
	case id == "roll.clear":
		return id, place + ", " + v.zones[zone]
	case id == "strip.clear" && c.step.kind == end:
		return id, place + ", " + v.zones[zone] + ", collapsed"
	case id == "strip.clear":
		return id, step + ", " + v.zones[zone]
	}
	return id, step
}

// cover holds, where the proof is of a whole result, that each step is claimed
// against everything around and among the parts themselves.
func (v *verifier) cover() {
	if !v.report.Whole {
		return
	}
	for i, c := range v.carriers {
		for _, s := range c.steps {
			if s.kind == strip && len(s.present) > 0 {
				v.must(fmt.Sprintf("carrier %d", i), &claim{carrier: c, step: s, set: "self"}, "strip.self")
			}
		}
	}
	for _, p := range v.places {
		for _, s := range append(slices.Clone(p.carrier.steps), p.steps...) {
			for _, zone := range v.order {
				v.coverZone(p, s, zone)
			}
		}
	}
}

func (v *verifier) coverZone(p *place, s *step, zone string) {
	if len(s.present) == 0 || len(p.around(s, zone)) == 0 {
		return
	}
	one := &claim{carrier: p.carrier, place: p, step: s, set: zone}
	switch {
	case s.kind == end:
		v.must(p.names[0], one, "strip.clear")
	case s.kind == raise:
		v.must(p.names[0], one, "raise.clear")
	case s.kind == roll:
		v.must(p.names[0], one, "roll.clear")
	case !kept(zone):
		v.must(p.names[0], one, "strip.dig")
		v.must(p.names[0], one, "strip.clear")
	case zone == "hanger":
		for _, k := range p.around(s, zone) {
			one.set = zone + ":" + p.solids[k].kind
			v.must(p.names[0], one, "strip.supports")
		}
	}
}

// must holds that a claim serves a check.
func (v *verifier) must(place string, about *claim, id string) {
	if c := v.served[about.key()]; c != nil {
		for _, n := range c.needs {
			if n.id == id && !n.touch {
				return
			}
		}
	}
	v.t.fail("%s, step %q against %s: no claim serves %s", place, about.step.name, about.set, id)
}

// trust counts what was not shown.
func (v *verifier) trust(t Trust) Trust {
	t.Carriers, t.Places = len(v.carriers), len(v.places)
	steps := func(list []*step) {
		t.Steps += len(list)
		for _, s := range list {
			t.Absent += len(s.absent)
		}
	}
	for _, c := range v.carriers {
		t.Parts, t.Bodies, t.Links = t.Parts+len(c.parts), t.Bodies+len(c.bodies), t.Links+len(c.links)
		t.Pinned, t.Seams = t.Pinned+len(c.pinned), t.Seams+len(c.seams)
		steps(c.steps)
	}
	for _, p := range v.places {
		t.Twins, t.Solids = t.Twins+len(p.names)-1, t.Solids+len(p.solids)
		t.Faces, t.Lands, t.Stands, t.Rolls = t.Faces+len(p.face), t.Lands+len(p.lands), t.Stands+len(p.stands), t.Rolls+len(p.rolls)
		steps(p.steps)
	}
	return t
}
