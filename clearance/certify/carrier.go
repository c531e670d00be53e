package certify

import (
	"slices"

	"boxwalk/clearance/check"
	"boxwalk/clearance/measure"
	"boxwalk/clearance/trace"
	"boxwalk/model/carrier"
	"boxwalk/model/motion"
)

// carrier is the place in the proof of what a bay has in common with others,
// written with the first of them.
func (p *prover) carrier(r *check.Examined) int {
	b, _ := r.Found.Lead()
	if i, ok := p.carriers[b]; ok {
		return i
	}
	i := len(p.proof.Carriers)
	p.carriers[b] = i
	c := &trace.Carrier{Bodies: bodiesOf(b.Carrier.Mechanism), Links: linksOf(b.Carrier.Mechanism)}
	for n, part := range b.Carrier.Parts {
		c.Parts = append(c.Parts, trace.Part{Mark: part.At(), Vertices: part.Vertices, Part: b.Parts[n]})
	}
	c.Runs = runs(b)
	c.Pinned, c.Seam = pairs(b, carrier.Pinned), pairs(b, carrier.Seam)
	p.proof.Carriers = append(p.proof.Carriers, c)
	c.Steps = p.steps(b)
	for k := range b.Steps {
		if b.Steps[k].Stop == nil {
			p.selfClaim(i, c.Steps[k], r, k)
		}
	}
	return i
}

func bodiesOf(m *motion.Mechanism) []trace.Body {
	kinds := map[motion.JointKind]string{motion.Fixed: "fixed", motion.Prismatic: "slide", motion.Revolute: "turn", motion.Aim: "aim"}
	var out []trace.Body
	for _, b := range m.Bodies {
		j := b.Joint
		out = append(out, trace.Body{Name: b.Name, Parent: b.Parent, Kind: kinds[j.Kind], Axis: j.Axis, Pin: j.Pin, Link: j.Link})
	}
	return out
}

func linksOf(m *motion.Mechanism) []trace.Link {
	var out []trace.Link
	for _, l := range m.Links {
		out = append(out, trace.Link{A: l.A, B: l.B, PinA: l.PinA, PinB: l.PinB})
	}
	return out
}

// runs are the bodies of which parts slide in each other though neither hangs
// on the other: a jack's screw and the frame it carries.
func runs(b *measure.Bay) [][2]int {
	var out [][2]int
	bodies := b.Carrier.Mechanism.Bodies
	for _, pair := range pairs(b, carrier.Pinned) {
		p, q := b.Carrier.Parts[pair[0]].Body, b.Carrier.Parts[pair[1]].Body
		both := [2]int{min(p, q), max(p, q)}
		if bodies[both[1]].Parent != both[0] && !linked(b, both) && !slices.Contains(out, both) {
			out = append(out, both)
		}
	}
	return out
}

// linked tells whether two bodies are ends or bars of one link.
func linked(b *measure.Bay, both [2]int) bool {
	m := b.Carrier.Mechanism
	on := func(body, link int) bool {
		l, j := m.Links[link], m.Bodies[body].Joint
		return l.A == body || l.B == body || j.Kind == motion.Aim && j.Link == link
	}
	for i := range m.Links {
		if on(both[0], i) && on(both[1], i) {
			return true
		}
	}
	return false
}

// pairs of parts declared to meet in one way, in order; those of one body are
// never looked at.
func pairs(b *measure.Bay, kind carrier.Contact) [][2]int {
	var out [][2]int
	for pair, k := range b.Declared {
		if k == kind && b.Carrier.Parts[pair[0]].Body != b.Carrier.Parts[pair[1]].Body {
			out = append(out, pair)
		}
	}
	slices.SortFunc(out, func(p, q [2]int) int {
		if p[0] != q[0] {
			return p[0] - q[0]
		}
		return p[1] - q[1]
	})
	return out
}

// steps of a carrier: the collapse, how it stands at its end, and raising. A
// step that cannot be made ends each, and leaves the proof without the rest.
func (p *prover) steps(b *measure.Bay) []*trace.Step {
	var out []*trace.Step
	add := func(kind string, s carrier.Step, parts []int) *trace.Step {
		t := traced(b, s, len(out)+1, kind, parts)
		out = append(out, t)
		return t
	}
	whole := true
	for _, s := range b.Steps {
		if whole = whole && s.Stop == nil; whole {
			add(trace.Strip, s, b.Present(s))
		}
	}
	if whole && len(b.Steps) > 0 {
		last := b.Steps[len(b.Steps)-1]
		t := add(trace.End, last, b.PresentAfter(last))
		t.Motion, t.Name = standingAt{last.Path}, "collapsed"
		t.Rests = func(int, int) bool { return true }
		for i := range t.Drives {
			t.Drives[i].From = t.Drives[i].To
		}
	}
	for _, s := range b.Raising {
		if s.Stop == nil {
			add(trace.Raise, s, b.Present(s))
			continue
		}
		whole = false
	}
	p.proof.Whole = p.proof.Whole && whole
	return out
}

// traced is a step as a proof has it.
func traced(b *measure.Bay, s carrier.Step, id int, kind string, parts []int) *trace.Step {
	return &trace.Step{ID: id, Kind: kind, Name: s.Name, Drives: drives(b, s.Path), Absent: absent(b, parts), Motion: s.Path, Parts: b.Parts,
		Rests: func(frame, body int) bool { return !s.Path.Moves(frame, body) }}
}

// drives of a path that are not those of the raised carrier.
func drives(b *measure.Bay, path *motion.Path) []trace.Drive {
	var out []trace.Drive
	m := b.Carrier.Mechanism
	for i, body := range m.Bodies {
		d, raised := path.Drive(i), 0.0
		switch j := body.Joint; {
		case j.Kind == motion.Fixed || j.Kind == motion.Aim:
			continue
		case j.Link != motion.None:
			raised = m.Links[j.Link].Raised()
		}
		if d.From != raised || d.To != raised {
			out = append(out, trace.Drive{Body: i, From: d.From, To: d.To})
		}
	}
	return out
}

// absent are the parts that are not among those listed in order.
func absent(b *measure.Bay, present []int) []int {
	var out []int
	for i := range b.Carrier.Parts {
		if len(present) > 0 && present[0] == i {
			present = present[1:]
			continue
		}
		out = append(out, i)
	}
	return out
}

// selfClaim is what the parts keep from each other over step k.
func (p *prover) selfClaim(carrier int, step *trace.Step, r *check.Examined, k int) {
	if !p.asked("strip.self") {
		return
	}
	var needs []trace.Need
	freeEntry := r.Entry("strip.self", r.About().In(r.Found.Bay.Steps[k].Name).As(check.FreePairs))
	seamEntry := r.Entry("strip.self", r.About().In(r.Found.Bay.Steps[k].Name).As(check.SeamPairs))
	free, okFree := p.need(freeEntry, "strip.self", "", false, measure.Near)
	seam, okSeam := p.need(seamEntry, "strip.self.seams", "", false, measure.Near)
	if okFree && okSeam {
		free.Near = p.nearSelf(freeEntry, step)
		needs = append(needs, free)
		if !seam.Far { // else every seam rests, or is farther apart than anybody asks
			seam.Touch, seam.Near = true, p.nearSelf(seamEntry, step)
			needs = append(needs, seam)
		}
	}
	c := trace.Claim{Place: -1, Carrier: carrier, Step: step}
	if p.parts {
		for _, m := range r.Found.Selves(k) {
			for _, part := range append([]int{m.Part}, m.Alike...) {
				c.Each = append(c.Each, trace.Each{Part: part, Free: min(measure.Near, m.MustClear.Lower), Touch: min(measure.Near, m.Seam.Lower)})
			}
		}
	}
	p.addClaim(c, needs)
}
