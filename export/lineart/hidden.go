package lineart

import (
	"math"

	"github.com/fogleman/ln/ln"
)

// strip finds what a convex solid hides of a line. It keeps its two work
// polygons between calls.
type strip struct {
	view view
	a, d ln.Vector // the line is a + t d, 0 <= t <= 1
	low  float64   // least z of the line
	poly [2][]point
}

func (s *strip) set(a, b ln.Vector) {
	s.a, s.d, s.low = a, b.Sub(a), math.Min(a.Z, b.Z)
}

// hiddenBy is the stretch of the line that lies behind c by more than Tie.
//
// With parallel rays a point of the strip is a + x d + y z, where x is the
// place on the line and y the way to the viewer. In a perspective it is
// eye + y (a - eye) + x d with 0 <= x <= y <= 1, so that the place on the line
// is x/y; y ends Tie short of the line. A half-space cuts either by a straight
// line, and the polygon that is left spans the hidden stretch.
func (s *strip) hiddenBy(c *Convex) (span, bool) {
	reach := c.box.Max.Z + grown - s.low
	if reach <= Tie {
		return span{}, false
	}
	poly, other := s.start(reach), s.poly[1]
	for _, p := range c.planes {
		f := s.half(p)
		if f.within(poly) {
			continue // most planes cut nothing off
		}
		other = cutPolygon(other[:0], poly, f)
		poly, other = other, poly
		if len(poly) < 3 {
			break
		}
	}
	s.poly = [2][]point{poly, other}
	if len(poly) < 3 {
		return span{}, false
	}
	return s.extent(poly)
}

// start is the whole strip, up to the solid's front.
func (s *strip) start(reach float64) []point {
	poly := s.poly[0][:0]
	if s.view.parallel() {
		return append(poly, point{0, Tie}, point{1, Tie}, point{1, reach}, point{0, reach})
	}
	mid := s.a.Add(s.d.MulScalar(0.5))
	away := ln.Vector{X: mid.X, Y: mid.Y, Z: s.view.eye - mid.Z}.Length()
	y := 1 - Tie/away
	return append(poly, point{0, 0}, point{y, y}, point{0, y})
}

// linear is k + x X + y Y.
type linear struct{ k, x, y float64 }

func (f linear) at(p point) float64 { return f.k + f.x*p.x + f.y*p.y }

// within tells whether f <= 0 on all of a polygon.
func (f linear) within(poly []point) bool {
	for _, p := range poly {
		if !(f.at(p) <= 0) {
			return false
		}
	}
	return true
}

// half is the distance outside the grown plane as a function on the strip.
func (s *strip) half(p plane) linear {
	f := linear{k: -p.d - grown, x: p.n.Dot(s.d)}
	if s.view.parallel() {
		f.k += p.n.Dot(s.a)
		f.y = p.n.Z
		return f
	}
	f.k += p.n.Z * s.view.eye
	f.y = p.n.Dot(s.a) - p.n.Z*s.view.eye
	return f
}

// cutPolygon appends to dst the part of a convex polygon where f <= 0.
func cutPolygon(dst, poly []point, f linear) []point {
	q := poly[len(poly)-1]
	before := f.at(q)
	for _, p := range poly {
		here := f.at(p)
		if (here <= 0) != (before <= 0) {
			dst = append(dst, q.toward(p, before/(before-here)))
		}
		if here <= 0 {
			dst = append(dst, p)
		}
		q, before = p, here
	}
	return dst
}

// extent is the stretch of the line under the polygon.
func (s *strip) extent(poly []point) (span, bool) {
	h := span{math.Inf(1), math.Inf(-1)}
	for _, p := range poly {
		t := p.x
		if !s.view.parallel() {
			if p.y <= 0 {
				continue // the eye itself is nowhere on the line
			}
			t = p.x / p.y
		}
		h.from, h.to = math.Min(h.from, t), math.Max(h.to, t)
	}
	return h, h.to > h.from
}
