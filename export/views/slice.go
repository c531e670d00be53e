package views

import (
	"math"
	"sort"

	"boxwalk/model/geom"
)

// atJoint is how near a cutting plane a piece may begin or end and count as
// beginning or ending in it, m: above what rounding leaves between a joint and a
// bent at the same place, and far below any gap between pieces.
const atJoint = 1e-6

// cuts tells whether a section at x = c, seen looking ahead, goes through what
// reaches from one station to another. At a joint it shows the piece ahead: one
// that ends there is behind the plane.
func cuts(from, to, c float64) bool { return from <= c+atJoint && to > c+atJoint }

// section is the polygon in which a plane x = c cuts a convex solid, as {y, z}
// counter-clockwise; nil where it does not. Where a solid begins at the plane
// that is its rear face.
func section(s *geom.Solid, c float64) []geom.Point2 {
	behind := func(v geom.Vec) bool { return v[0] <= c+atJoint }
	var points []geom.Point2
	for _, e := range s.Edges() {
		a, b := s.Vertices[e[0]], s.Vertices[e[1]]
		if behind(a) == behind(b) {
			continue
		}
		t := min(1, max(0, (c-a[0])/(b[0]-a[0])))
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
