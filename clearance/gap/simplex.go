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
		s.keep([4]float64{1 - t, t})
		return p, false
	case 3:
		p, l := nearestOnTriangle(&s.c[0].w, &s.c[1].w, &s.c[2].w)
		s.keep([4]float64{l[0], l[1], l[2]})
		return p, false
	}
	seen, volumes := s.facesSeen()
	if seen == [3]bool{} {
		for i, v := range volumes {
			s.c[i].portion = v / (volumes[0] + volumes[1] + volumes[2] + volumes[3])
		}
		return XYZ{}, true
	}
	return s.nearestOnFaces(seen), false
}

// keep drops the corners without a portion.
func (s *simplex) keep(portions [4]float64) {
	k := 0
	for i := range s.n {
		if portions[i] > 0 {
			s.c[k] = s.c[i]
			s.c[k].portion = portions[i]
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
// The volumes that the origin makes with the face across from each corner are
// the portions of the corners when it is inside.
func (s *simplex) facesSeen() (seen [3]bool, volumes [4]float64) {
	a := s.c[0].w
	ab, ac, ad := s.c[1].w.Sub(a), s.c[2].w.Sub(a), s.c[3].w.Sub(a)
	abc := ab.Cross(ac)
	volume := abc.Dot(ad)
	scale := ab.Dot(ab) * ac.Dot(ac) * ad.Dot(ad)
	all := [3]bool{true, true, true}
	if volume*volume <= flatTetrahedron*flatTetrahedron*scale {
		return all, volumes
	}
	sign := math.Copysign(1, volume)
	vd := -sign * abc.Dot(a)
	vb := -sign * ac.Cross(ad).Dot(a)
	vc := -sign * ad.Cross(ab).Dot(a)
	va := sign*volume - vb - vc - vd
	seen = [3]bool{vc <= 0, vb <= 0, va <= 0}
	if vd <= 0 && seen == [3]bool{} {
		return all, volumes
	}
	return seen, [4]float64{va, vb, vc, vd}
}

// nearestOnFaces looks at the faces seen.
func (s *simplex) nearestOnFaces(seen [3]bool) XYZ {
	var best XYZ
	var portions [4]float64
	least := math.Inf(1)
	for i := range newest {
		f := &newest[i]
		if !seen[i] {
			continue
		}
		p, l := nearestOnTriangle(&s.c[f[0]].w, &s.c[f[1]].w, &s.c[f[2]].w)
		if d := p.Dot(p); d < least {
			least, best = d, p
			portions = [4]float64{}
			portions[f[0]], portions[f[1]], portions[f[2]] = l[0], l[1], l[2]
		}
	}
	s.keep(portions)
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
func nearestOnTriangle(a, b, c *XYZ) (XYZ, [3]float64) {
	ab, ac := b.Sub(*a), c.Sub(*a)
	n := ab.Cross(ac)
	nn := n.Dot(n)
	if nn > flatTriangle*flatTriangle*ab.Dot(ab)*ac.Dot(ac) {
		la, lb, lc := n.Dot(b.Cross(*c)), n.Dot(c.Cross(*a)), n.Dot(a.Cross(*b))
		if la > 0 && lb > 0 && lc > 0 {
			k := 1 / (la + lb + lc)
			h := (n.Dot(*a) + n.Dot(*b) + n.Dot(*c)) / (3 * nn)
			return n.Mul(h), [3]float64{la * k, lb * k, lc * k}
		}
	}
	return nearestOnRim(a, b, c)
}

// nearestOnRim is nearestOnTriangle for the three sides only.
func nearestOnRim(a, b, c *XYZ) (XYZ, [3]float64) {
	p, t := nearestOnSegment(*a, *b)
	l, least := [3]float64{1 - t, t, 0}, p.Dot(p)
	if q, t := nearestOnSegment(*a, *c); q.Dot(q) < least {
		p, l, least = q, [3]float64{1 - t, 0, t}, q.Dot(q)
	}
	if q, t := nearestOnSegment(*b, *c); q.Dot(q) < least {
		p, l = q, [3]float64{0, 1 - t, t}
	}
	return p, l
}
