package proof

import (
	"fmt"
	"io"
	"regexp"
	"strings"
)

// Header is the first line of a proof.
const Header = "boxwalk-proof 1"

// Verify reads a proof and checks all of it. The error is a *Problem that names
// the line, the record, the claim and what is wrong; with one nothing counts as
// proved. Memory and time are bounded, whatever the file.
func Verify(r io.Reader) (*Report, error) { return verify(r, usual) }

func verify(r io.Reader, most limits) (*Report, error) {
	v := &verifier{t: newText(r, most), report: &Report{asks: map[[2]string]asked{}}, known: map[[2]string]int{}, served: map[string]*claim{},
		model: model{zones: map[string]string{}}}
	v.head()
	v.body()
	if v.t.bad == nil {
		v.cover()
	}
	if v.t.bad != nil {
		return nil, v.t.bad
	}
	v.report.Assumed = v.trust(v.report.Assumed)
	return v.report, nil
}

// verifier is one run.
type verifier struct {
	t *text
	model
	report *Report
	known  map[[2]string]int
	served map[string]*claim // by what it is about
	rides  rides
}

var hash = regexp.MustCompile(`^[0-9a-f]{64}$`)

// head reads the lines that say what the proof is of.
func (v *verifier) head() {
	t := v.t
	if !t.next() || strings.Join(t.words, " ") != Header || t.named {
		t.fail("a proof begins with %q", Header)
	}
	scoped, notes := false, 0
	for t.next() {
		w := t.words
		switch {
		case w[0] == "note" && t.want(1, 1, true):
			if notes++; notes > mostNotes || len(v.report.Inputs) > 0 || v.report.Result != "" {
				t.fail("a note behind the inputs, or more than %d", mostNotes)
			}
		case w[0] == "input" && t.want(2, 2, true):
			v.hash(w[1])
			if v.report.Result != "" {
				t.fail("an input behind the result")
			}
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

// joined holds what is asked of the model as a whole, once it is complete.
func (v *verifier) joined() {
	for i, c := range v.carriers {
		c.pinnedTo, c.seamsOf = c.partners(c.pinned), c.partners(c.seams)
		if from, to, ok := c.follow(v.t); !ok {
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
	c.asked(t, &v.rides)
	if t.bad != nil {
		return
	}
	v.report.Witnesses += c.witnesses
	v.report.Assumed.Differences += c.differences
	v.report.Assumed.MostLess = max(v.report.Assumed.MostLess, c.mostLess)
	(&walker{claim: c, t: t, rides: &v.rides, report: v.report}).walk()
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
		v.t.charge(len(v.places))
		for _, p := range v.places {
			if p != c.place && (!c.self() || p.carrier != c.carrier) {
				continue
			}
			for _, name := range p.names {
				v.t.charge(64)
				v.t.keep(32 + (len(name)+len(c.step.name))/8)
				if v.t.bad != nil {
					return
				}
				v.ask(c, n, name)
				if n.touch && n.id != "strip.self.seams" {
					continue
				}
				id, subject := v.subject(c, n.id, name)
				if !v.report.add(v.known, Entry{id, subject, n.lower, n.far, n.upper}) {
					v.t.fail("%s, %s: another claim states another number, or has a witness too", id, subject)
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

// trust counts what was not shown.
func (v *verifier) trust(t Assumed) Assumed {
	t.Carriers, t.Places = len(v.carriers), len(v.places)
	steps := func(list []*step) {
		t.Steps += len(list)
		for _, s := range list {
			t.Absent += len(s.absent)
		}
	}
	for _, c := range v.carriers {
		t.Parts, t.Bodies, t.Links = t.Parts+len(c.parts), t.Bodies+len(c.bodies), t.Links+len(c.links)
		t.Runs, t.Pinned, t.Seams = t.Runs+len(c.running), t.Pinned+len(c.pinned), t.Seams+len(c.seams)
		steps(c.steps)
	}
	for _, p := range v.places {
		t.Twins, t.Solids = t.Twins+len(p.names)-1, t.Solids+len(p.solids)
		t.Faces, t.Lands, t.Stands, t.Rolls = t.Faces+len(p.face), t.Lands+len(p.lands), t.Stands+len(p.stands), t.Rolls+len(p.rolls)
		steps(p.steps)
	}
	return t
}
