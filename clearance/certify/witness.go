package certify

import (
	"math"

	"boxwalk/clearance/check"
	"boxwalk/clearance/sweep"
	"boxwalk/clearance/trace"
	"boxwalk/model/culvert"
)

// witnessed is how far the points of a witness may be off those that were found:
// far below the slack of a proof.
const witnessed = 1e-8

// near is the witness of an entry's upper end in one of the claims that serve
// it: the claim of the zone and the moment that govern. nil in any other, and
// where nothing was near.
func (q *placed) near(e *check.Judged, in scene, zone culvert.Zone) *trace.Witness {
	if q.shown[e] || e.Governs < 0 {
		return nil
	}
	c := e.From[e.Governs]
	s, ok := in.moment(e.Where.At)
	if !ok || c.Zone != zone || c.Against < 0 {
		return nil
	}
	other := in.at[c.Against]
	w := witness(e, in.step.Motion, in.step.Parts[c.Part], q.place.Solids[other].Part, s)
	if w != nil {
		w.One, w.Other = c.Part, other
		q.shown[e] = true
	}
	return w
}

// nearSelf is the same among the parts themselves.
func (p *prover) nearSelf(e *check.Judged, step *trace.Step) *trace.Witness {
	if e.Governs < 0 {
		return nil
	}
	c := e.From[e.Governs]
	if c.Against < 0 {
		return nil
	}
	w := witness(e, step.Motion, step.Parts[c.Part], step.Parts[c.Against], e.Where.At)
	if w == nil {
		return nil
	}
	if w.One, w.Other = c.Part, c.Against; w.One > w.Other {
		w.One, w.Other, w.A, w.B = w.Other, w.One, w.B, w.A
	}
	return w
}

// witness states two points that are as near as an entry's upper end; nil where
// they are not.
func witness(e *check.Judged, m sweep.Motion, a, b sweep.Part, s float64) *trace.Witness {
	if e.Value == nil || math.IsInf(e.Value.Upper, 0) {
		return nil
	}
	w := &trace.Witness{Upper: e.Value.Upper, S: s}
	var apart float64
	if w.A, w.B, apart = sweep.Nearest(m, sweep.Ground, a, b, s); !(apart <= math.Max(0, e.Value.Upper)+witnessed) {
		return nil
	}
	return w
}
