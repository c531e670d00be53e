package proof

import (
	"fmt"
	"math"
)

// contactLimit is how deep a contact may be that a check passes with: 50
// micrometres, which is rounding. play is what differences in whole micrometres
// and the choice of the governing one among equals leave.
const (
	contactLimit = 50e-6
	play         = 3e-6
)

// asked is the least that claims ask of any part of what a check is about: of
// pairs that may not touch, and of those that may.
type asked struct{ free, touch float64 }

// ask notes what a need asks, for the check that it stands for at a place.
func (v *verifier) ask(c *claim, n need, place string) {
	id, subject := v.subject(c, n.id, place)
	if n.touch && c.step.kind == end { // what carries at the end was judged in the step before
		id, subject = "strip.dig", place+", "+c.carrier.lastStrip()
	}
	v.t.charge(len(c.carrier.steps))
	a, ok := v.report.asks[[2]string{id, subject}]
	if !ok {
		a = asked{math.Inf(1), math.Inf(1)}
	}
	if n.touch {
		a.touch = math.Min(a.touch, n.least)
	} else {
		a.free = math.Min(a.free, n.least)
	}
	v.report.asks[[2]string{id, subject}] = a
}

// lastStrip is the name of the last step of stripping.
func (c *carrier) lastStrip() string {
	name := ""
	for _, s := range c.steps {
		if s.kind == strip {
			name = s.name
		}
	}
	return name
}

// rests tells what is wrong where a check passes: parts held to less than its
// limit, or contacts deeper than one may be. A wheel that rolls may go deeper by
// what is taken off for an invert that is not the plane it is laid in.
func (c stated) rests(a asked) string {
	if c.Verdict != "pass" {
		return ""
	}
	deep := contactLimit
	if c.ID == "roll.clear" {
		deep += math.Max(0, c.Allowance)
	}
	switch {
	case c.Limit != nil && !(a.free+play >= *c.Limit):
		return fmt.Sprintf("passes, and some parts are held to %.6g m only where its limit is %.6g m", a.free, *c.Limit)
	case !(a.touch+play >= -deep):
		return fmt.Sprintf("passes, and some contacts are held to %.6g m only where %.6g m is the limit", a.touch, -deep)
	}
	return ""
}
