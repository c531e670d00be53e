package gap

import "math"

// corner is one vertex of B - A: vertex ib of B less vertex ia of A, at one
// of the ends of the query.
type corner struct {
	w       XYZ
	ia, ib  int32
	end     int32
	portion float64 // weight in the point nearest the origin
}

// simplex holds at most four corners; after nearest, those that carry the
// point nearest the origin, with their portions.
type simplex struct {
	c [4]corner
	n int
}

// flatTriangle is the sine below which a triangle's own plane is not trusted
// (16 times the rounding of a cross product, rounded up): its edges decide.
// The comparison is squared.
const flatTriangle = 1e-12

// flatTetrahedron is the volume, relative to the product of the edges at one
// corner, below which a tetrahedron is not trusted to hold the origin. What is
// lost is progress, never correctness: the caller checks its bounds.
const flatTetrahedron = 1e-11

// nearest finds the point of the simplex nearest the origin and drops the
// corners that do not carry it. inside tells that a tetrahedron holds the
// origin.
func (s *simplex) nearest() (p XYZ, inside bool) {
	switch s.n {
	case 1:
		s.c[0].portion = 1
		return s.c[0].w, false
	case 2:
		p, t := nearestOnSegment(s.c[0].w, s.c[1].w)
		s.keep(1-t, t, 0, 0)
		return p, false
	case 3:
		p, l, m, n := nearestOnTriangle(&s.c[0].w, &s.c[1].w, &s.c[2].w)
		s.keep(l, m, n, 0)
		return p, false
	}
	seen := s.facesSeen()
	if seen == 0 {
		return XYZ{}, true
	}
	return s.nearestOnFaces(seen), false
}

// keep drops the corners without a portion. Portions come one by one, here and
// below: an array would be passed through memory.
func (s *simplex) keep(p0, p1, p2, p3 float64) {
	s.c[0].portion, s.c[1].portion, s.c[2].portion, s.c[3].portion = p0, p1, p2, p3
	k := 0
	for i := range s.n {
		if s.c[i].portion > 0 {
			if k != i {
				s.c[k] = s.c[i]
			}
			k++
		}
	}
	s.n = k
}

// newest lists the faces of the tetrahedron that hold the newest corner. The
// fourth carried the previous point, so the new one cannot lie on it alone.
var newest = [3][3]int{{0, 1, 3}, {0, 2, 3}, {1, 2, 3}}

// facesSeen tells which of the newest faces the origin lies outside of: the
// nearest point is on one of them. None means the origin is inside. Of a flat
// tetrahedron all are seen, and when rounding leaves only the fourth.
// Each has its bit. When the origin is inside, the volumes that it makes with the
// faces across from the corners are their portions.
func (s *simplex) facesSeen() (seen uint8) {
	const all = 7
	a := s.c[0].w
	ab, ac, ad := s.c[1].w.Sub(a), s.c[2].w.Sub(a), s.c[3].w.Sub(a)
	abc := ab.Cross(ac)
	volume := abc.Dot(ad)
	scale := ab.Dot(ab) * ac.Dot(ac) * ad.Dot(ad)
	if volume*volume <= flatTetrahedron*flatTetrahedron*scale {
		return all
	}
	sign := math.Copysign(1, volume)
	vd := -sign * abc.Dot(a)
	vb := -sign * ac.Cross(ad).Dot(a)
	vc := -sign * ad.Cross(ab).Dot(a)
	va := sign*volume - vb - vc - vd
	if vc <= 0 {
		seen |= 1
	}
	if vb <= 0 {
		seen |= 2
	}
	if va <= 0 {
		seen |= 4
	}
	if seen != 0 {
		return seen
	}
	if vd <= 0 {
		return all
	}
	k := 1 / (va + vb + vc + vd)
	s.c[0].portion, s.c[1].portion, s.c[2].portion, s.c[3].portion = va*k, vb*k, vc*k, vd*k
	return 0
}

// nearestOnFaces looks at the faces seen.
func (s *simplex) nearestOnFaces(seen uint8) XYZ {
	var best XYZ
	var face int
	var l, m, n float64
	least := math.Inf(1)
	for i := range newest {
		f := &newest[i]
		if seen&(1<<i) == 0 {
			continue
		}
		p, pl, pm, pn := nearestOnTriangle(&s.c[f[0]].w, &s.c[f[1]].w, &s.c[f[2]].w)
		if d := p.Dot(p); d < least {
			least, best, face, l, m, n = d, p, i, pl, pm, pn
		}
	}
	switch face {
	case 0:
		s.keep(l, m, 0, n)
	case 1:
		s.keep(l, 0, m, n)
	default:
		s.keep(0, l, m, n)
	}
	return best
}

// nearestOnSegment is the point of ab nearest the origin and its weight of b.
func nearestOnSegment(a, b XYZ) (XYZ, float64) {
	ab := b.Sub(a)
	d := ab.Dot(ab)
	if d <= 0 {
		return a, 0
	}
	t := -a.Dot(ab) / d
	if t <= 0 {
		return a, 0
	}
	if t >= 1 {
		return b, 1
	}
	return XYZ{a.X + t*ab.X, a.Y + t*ab.Y, a.Z + t*ab.Z}, t
}

// nearestOnTriangle is the point of abc nearest the origin and its weights.
// Inside, the point is built along the normal, which keeps |p| accurate when
// the triangle is long and the origin is near its plane.
func nearestOnTriangle(a, b, c *XYZ) (p XYZ, l, m, n float64) {
	ab, ac := b.Sub(*a), c.Sub(*a)
	normal := ab.Cross(ac)
	nn := normal.Dot(normal)
	if nn > flatTriangle*flatTriangle*ab.Dot(ab)*ac.Dot(ac) {
		l, m, n = normal.Dot(b.Cross(*c)), normal.Dot(c.Cross(*a)), normal.Dot(a.Cross(*b))
		if l > 0 && m > 0 && n > 0 {
			k := 1 / (l + m + n)
			h := (normal.Dot(*a) + normal.Dot(*b) + normal.Dot(*c)) / (3 * nn)
			return normal.Mul(h), l * k, m * k, n * k
		}
	}
	return nearestOnRim(a, b, c)
}

// nearestOnRim is nearestOnTriangle for the three sides only.
func nearestOnRim(a, b, c *XYZ) (p XYZ, l, m, n float64) {
	p, t := nearestOnSegment(*a, *b)
	l, m = 1-t, t
	least := p.Dot(p)
	if q, t := nearestOnSegment(*a, *c); q.Dot(q) < least {
		p, least = q, q.Dot(q)
		l, m, n = 1-t, 0, t
	}
	if q, t := nearestOnSegment(*b, *c); q.Dot(q) < least {
		p = q
		l, m, n = 0, 1-t, t
	}
	return p, l, m, n
}
