package lineart

import (
	"cmp"
	"slices"
)

// hullOf is the convex hull, counter-clockwise, without points on its sides
// (monotone chain, A. M. Andrew 1979). It reorders ps.
func hullOf(ps []point) []point {
	slices.SortFunc(ps, func(a, b point) int {
		return cmp.Or(cmp.Compare(a.x, b.x), cmp.Compare(a.y, b.y))
	})
	hull := make([]point, 0, 16)
	hull = chain(hull, ps)
	lower := len(hull) - 1
	slices.Reverse(ps)
	hull = append(hull[:lower], chain(nil, ps)...)
	return hull[:len(hull)-1]
}

// chain appends the left-turning chain over sorted points.
func chain(dst, ps []point) []point {
	for _, p := range ps {
		for n := len(dst); n >= 2 && dst[n-1].sub(dst[n-2]).cross(p.sub(dst[n-1])) <= 0; n = len(dst) {
			dst = dst[:n-1]
		}
		dst = append(dst, p)
	}
	return dst
}

// middle is a point inside a hull.
func middle(hull []point) point {
	var m point
	for _, p := range hull {
		m.x += p.x
		m.y += p.y
	}
	n := float64(len(hull))
	return point{m.x / n, m.y / n}
}

// covered is the stretch of a-b over a counter-clockwise convex polygon.
func covered(a, b point, hull []point) (span, bool) {
	s := span{0, 1}
	d := b.sub(a)
	q := hull[len(hull)-1]
	for _, p := range hull {
		side := p.sub(q)
		at, rate := side.cross(a.sub(q)), side.cross(d)
		switch {
		case rate == 0:
			if at < 0 {
				return span{}, false
			}
		case rate > 0:
			s.from = max(s.from, -at/rate)
		default:
			s.to = min(s.to, -at/rate)
		}
		if s.from >= s.to {
			return span{}, false
		}
		q = p
	}
	return s, true
}
