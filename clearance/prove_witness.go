package clearance

import (
	"math"
	"slices"

	"boxwalk/clearance/gap"
	"boxwalk/clearance/sweep"
	"boxwalk/clearance/trace"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
)

// witnessed is how far the points of a witness may be off those that were found:
// far below the slack of a proof.
const witnessed = 1e-8

// near is the witness of an entry's upper end in one of the claims that serve
// it: the claim of the zone and the moment that govern. nil in any other, and
// where nothing was near.
func (q *placed) near(e *Entry, in scene, zone culvert.Zone) *trace.Witness {
	if q.shown[e] || e.governs < 0 {
		return nil
	}
	c := e.from[e.governs]
	s, ok := in.moment(e.Where.At)
	if !ok || c.zone != zone || c.against < 0 {
		return nil
	}
	other := in.at[c.against]
	w := witness(e, s, end{in.step.Motion, in.step.Parts[c.part]}, end{in.step.Motion, q.place.Solids[other].Part})
	if w != nil {
		w.One, w.Other = c.part, other
		q.shown[e] = true
	}
	return w
}

// nearSelf is the same among the parts themselves.
func (p *prover) nearSelf(e *Entry, step *trace.Step) *trace.Witness {
	if e.governs < 0 {
		return nil
	}
	c := e.from[e.governs]
	if c.against < 0 {
		return nil
	}
	w := witness(e, e.Where.At, end{step.Motion, step.Parts[c.part]}, end{step.Motion, step.Parts[c.against]})
	if w == nil {
		return nil
	}
	if w.One, w.Other = c.part, c.against; w.One > w.Other {
		w.One, w.Other, w.A, w.B = w.Other, w.One, w.B, w.A
	}
	return w
}

// moment is where a place of the whole advance lies in the stretch.
func (s stretch) moment(at float64) (float64, bool) {
	if s.from == s.to {
		return 0, at == s.from
	}
	m := (at - s.from) / (s.to - s.from)
	return math.Max(0, math.Min(1, m)), m > -1e-9 && m < 1+1e-9
}

// end is one side of a witness: a solid in a motion.
type end struct {
	motion sweep.Motion
	part   sweep.Part
}

func (x end) pose(s float64) geom.Pose { return x.motion.Pose(sweep.Ground, x.part.Body, s) }

// witness states two points that are as near as an entry's upper end; nil where
// they are not.
func witness(e *Entry, s float64, a, b end) *trace.Witness {
	if e.Value == nil || math.IsInf(e.Value.Upper, 0) {
		return nil
	}
	pa, pb := a.pose(s), b.pose(s)
	near := gap.Nearest(a.part.Solid, b.part.Solid, &pa, &pb)
	w := &trace.Witness{Upper: e.Value.Upper, S: s, A: shares(near.A[:near.N], near), B: shares(near.B[:near.N], near)}
	d := pa.Apply(pointOf(a.part.Solid, w.A)).Sub(pb.Apply(pointOf(b.part.Solid, w.B))).Len()
	if !(d <= math.Max(0, e.Value.Upper)+witnessed) {
		return nil
	}
	return w
}

// shares adds up what each vertex has, in rising order.
func shares(vertices []int, near gap.Shares) []trace.Weight {
	of := map[int]float64{}
	for i, v := range vertices {
		if near.Portion[i] > 0 {
			of[v] += near.Portion[i]
		}
	}
	var out []trace.Weight
	for v, share := range of {
		out = append(out, trace.Weight{Vertex: v, Share: share})
	}
	slices.SortFunc(out, func(a, b trace.Weight) int { return a.Vertex - b.Vertex })
	return out
}

func pointOf(s *gap.Solid, list []trace.Weight) (p geom.Vec) {
	for _, w := range list {
		p = p.Add(s.Vertices()[w.Vertex].Vec().Mul(w.Share))
	}
	return p
}
