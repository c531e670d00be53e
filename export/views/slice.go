package views

import (
	"math"
	"sort"

	"boxwalk/model/geom"
)

// section is the polygon in which a plane x = c cuts a convex solid, as {y, z}
// counter-clockwise; nil where it does not. A solid that only begins at the
// plane is not cut, one that ends there is.
func section(s *geom.Solid, c float64) []geom.Point2 {
	var points []geom.Point2
	for _, e := range s.Edges() {
		a, b := s.Vertices[e[0]], s.Vertices[e[1]]
		if (a[0] < c) == (b[0] < c) {
			continue
		}
		t := (c - a[0]) / (b[0] - a[0])
		p := a.Add(b.Sub(a).Mul(t))
		points = append(points, geom.Point2{p[1], p[2]})
	}
	return hull(points)
}

// hull is the least convex polygon around points, counter-clockwise, without
// points that lie on its sides to a nanometre (monotone chain).
func hull(points []geom.Point2) []geom.Point2 {
	if len(points) < 3 {
		return nil
	}
	p := append([]geom.Point2(nil), points...)
	sort.Slice(p, func(i, j int) bool {
		if p[i][0] != p[j][0] {
			return p[i][0] < p[j][0]
		}
		return p[i][1] < p[j][1]
	})
	half := func(p []geom.Point2) []geom.Point2 {
		var out []geom.Point2
		for _, q := range p {
			for len(out) >= 2 && cross(out[len(out)-1].Sub(out[len(out)-2]), q.Sub(out[len(out)-1])) <= 1e-9*q.Sub(out[len(out)-2]).Len() {
				out = out[:len(out)-1]
			}
			out = append(out, q)
		}
		return out
	}
	lower := half(p)
	for i, j := 0, len(p)-1; i < j; i, j = i+1, j-1 {
		p[i], p[j] = p[j], p[i]
	}
	upper := half(p)
	return append(lower[:len(lower)-1], upper[:len(upper)-1]...)
}

func cross(a, b geom.Point2) float64 { return a[0]*b[1] - a[1]*b[0] }

func abs(v float64) float64 { return math.Abs(v) }
