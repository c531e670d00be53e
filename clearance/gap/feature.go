package gap

import "math"

// features is the distance from all pairs of edges and all pairs of vertex and
// face: exact for solids that are apart, whatever their shape. best is the
// facet with the largest separation, which serves as lower bound.
func (p *pair) features(best facet) facet {
	near := nearestPair{d: math.Inf(1)}
	p.edgePairs(&near)
	p.vertexFaces(&near)
	if !(near.d < math.Inf(1)) {
		return best
	}
	if best.sep > near.d {
		near.d = best.sep // differ by rounding only
	}
	out := facet{n: best.n, sep: best.sep, value: near.d, pa: near.a, pb: near.b}
	if n := near.b.Sub(near.a); near.d > 0 {
		n = n.Mul(1 / n.Len())
		if sep := p.along(n); sep > best.sep {
			out.n, out.sep = n, sep
		}
	}
	return out
}

// nearestPair is the nearest pair of points so far.
type nearestPair struct {
	a, b XYZ
	d    float64
}

func (near *nearestPair) offer(a, b XYZ, d float64) {
	if d < near.d {
		*near = nearestPair{a, b, d}
	}
}

func (p *pair) edgePairs(near *nearestPair) {
	for j := range p.b.edges {
		f := &p.b.edges[j]
		b0, b1 := p.atB(f.a), p.atB(f.b)
		for i := range p.a.edges {
			e := &p.a.edges[i]
			near.offer(nearestOnEdges(p.a.vertices[e.a], p.a.vertices[e.b], b0, b1))
		}
	}
}

func (p *pair) vertexFaces(near *nearestPair) {
	tolerance := rounding(p.scale)
	for i := range p.b.vertices {
		b := p.atB(i)
		for k := range p.a.faces {
			f := &p.a.faces[k]
			if h, ok := f.below(p.a.vertices, b, tolerance); ok {
				near.offer(b.Sub(f.n.Mul(h)), b, math.Max(0, h))
			}
		}
	}
	for _, a := range p.a.vertices {
		inB := TurnBack(&p.r, a.Sub(p.t))
		for k := range p.b.faces {
			f := &p.b.faces[k]
			if h, ok := f.below(p.b.vertices, inB, tolerance); ok {
				near.offer(a, a.Sub(Turn(&p.r, f.n).Mul(h)), math.Max(0, h))
			}
		}
	}
}

// below tells whether the foot of v on the face's plane lies in the face, with
// v outside by h or inside by no more than the tolerance.
func (f *face) below(vertices []XYZ, v XYZ, tolerance float64) (h float64, ok bool) {
	h = f.n.Dot(v) - f.offset
	if !(h >= -tolerance) {
		return h, false
	}
	for k, i := range f.loop {
		from, to := vertices[i], vertices[f.loop[(k+1)%len(f.loop)]]
		if f.n.Dot(to.Sub(from).Cross(v.Sub(from))) < 0 {
			return h, false
		}
	}
	return h, true
}

// nearestOnEdges is the pair of nearest points of the segments p0p1 and q0q1,
// and their distance. The unconstrained pair and the four pairs of an end with
// the other segment are all candidates, so that parallel and nearly parallel
// segments lose nothing: if the inner solution is ill-conditioned, its points
// still lie on the segments and an end is as near.
func nearestOnEdges(p0, p1, q0, q1 XYZ) (XYZ, XYZ, float64) {
	near := nearestPair{d: math.Inf(1)}
	offerEnd := func(v, from, to XYZ, vOnP bool) {
		foot, t := nearestOnSegment(from.Sub(v), to.Sub(v))
		w := from.Add(to.Sub(from).Mul(t))
		if vOnP {
			near.offer(v, w, foot.Len())
		} else {
			near.offer(w, v, foot.Len())
		}
	}
	offerEnd(p0, q0, q1, true)
	offerEnd(p1, q0, q1, true)
	offerEnd(q0, p0, p1, false)
	offerEnd(q1, p0, p1, false)
	if a, b, ok := crossing(p0, p1, q0, q1); ok {
		near.offer(a, b, b.Sub(a).Len())
	}
	return near.a, near.b, near.d
}

// crossing is the common perpendicular of two lines when its feet lie on both
// segments.
func crossing(p0, p1, q0, q1 XYZ) (a, b XYZ, ok bool) {
	d, e, r := p1.Sub(p0), q1.Sub(q0), q0.Sub(p0)
	n := d.Cross(e)
	nn := n.Dot(n)
	if nn == 0 {
		return a, b, false
	}
	s, t := r.Cross(e).Dot(n)/nn, r.Cross(d).Dot(n)/nn
	if !(s >= 0 && s <= 1 && t >= 0 && t <= 1) {
		return a, b, false
	}
	return p0.Add(d.Mul(s)), q0.Add(e.Mul(t)), true
}
