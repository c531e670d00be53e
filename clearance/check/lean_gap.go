package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
)

// unseen is a check that a lean leaves open.
func (b *bay) unseen(id string, about result.Subject, l measure.Lean, step string) Judged {
	return open(id, about, "m", fmt.Sprintf("%s that differ by %s lean the frame farther than gaps are looked at, %s; jack_level, lifting.pass, or bents that do not stand on both sides of the form's middle", l.What, b.mm(l.Differ), b.mm(measure.Far)), b.at(step))
}

// leaning takes off a release gap what a lean uses up beyond the limit of the
// gap: a gap keeps its limit while the frame is level, and is not closed by the
// lean. Both at once would count one judgement twice.
func (b *bay) leaning(c candidate, l measure.Lean, o measure.Leant, limit float64) candidate {
	beyond := math.Max(0, o.Toward-limit)
	room := c.Value.Lower - c.Allowance
	c.Allowance, c.worst = c.Allowance+beyond, c.worst+beyond
	tell := c.tell
	c.tell = func() (result.Where, string) {
		w, text := tell()
		text += "; " + b.leanWords(l.Toward(o.N), o)
		switch {
		case beyond == 0:
			return w, text + ", less than the gap asked for"
		case o.Toward > room && room > 0:
			text += fmt.Sprintf(", which closes it; %s of difference would not", b.small(l.Differ*room/o.Toward))
		}
		if limit > 0 {
			text += fmt.Sprintf("; %s of it are beyond the gap asked for", b.mm(beyond))
		}
		return w, text
	}
	return c
}

// small prints a length for a crew to keep within, rounded down.
func (b *bay) small(v float64) string { return atMost(v, b.imperial) }

// leanWords say what a lean takes off, with its arithmetic.
func (b *bay) leanWords(l measure.Lean, o measure.Leant) string {
	text := fmt.Sprintf("the frame leans by %s with %s %s apart: %s / %s x %s across, %s / %s x %s along", b.mm(o.Toward), l.What, b.mm(l.Differ),
		b.mm(l.Differ), b.mm(l.Gauge), b.mm(o.Across), b.mm(l.Differ), b.mm(l.Lever), b.mm(o.Along))
	if o.Toward > l.Across*o.Across+l.Along*o.Along+o.Unsure+likely {
		text += ", and more elsewhere in the step"
	}
	if l.BearsAhead > 0 || l.BearsBeside > 0 {
		text += ", counted from where the roof bears"
	}
	return text
}

// likely is a difference that a search may leave: what it is searched to at
// either end, and a tenth of a millimetre to which gaps are.
const likely = 0.15e-3

// pocketPlay is what a plate needs on every side of its pocket: the gap asked for,
// or what the roof goes to the side while jacks out of level lean the frame. Two
// per cent more cover what the way down and the second order add.
func (b *bay) pocketPlay() float64 {
	l := b.LeanOfJacks(b.Tol.Value("jack_level"))
	return math.Max(b.limits.of("strip.supports").Value, 1.02*math.Max(l.Across, l.Along)*b.Cell.Rise)
}
