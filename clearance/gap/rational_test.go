package gap

import (
	"math"
	"math/big"
	"math/rand"
	"testing"

	"boxwalk/model/geom"
)

// ratVec is a point or direction in exact arithmetic.
type ratVec [3]*big.Rat

func exactVec(v geom.Vec) (r ratVec) {
	for k := range r {
		r[k] = new(big.Rat).SetFloat64(v[k])
	}
	return r
}

func (a ratVec) sub(b ratVec) (r ratVec) {
	for k := range r {
		r[k] = new(big.Rat).Sub(a[k], b[k])
	}
	return r
}

func (a ratVec) along(d ratVec, t *big.Rat) (r ratVec) {
	for k := range r {
		r[k] = new(big.Rat).Mul(d[k], t)
		r[k].Add(r[k], a[k])
	}
	return r
}

func (a ratVec) dot(b ratVec) *big.Rat {
	sum, p := new(big.Rat), new(big.Rat)
	for k := range a {
		sum.Add(sum, p.Mul(a[k], b[k]))
	}
	return sum
}

func (a ratVec) cross(b ratVec) (r ratVec) {
	for k := range r {
		i, j := (k+1)%3, (k+2)%3
		r[k] = new(big.Rat).Mul(a[i], b[j])
		r[k].Sub(r[k], new(big.Rat).Mul(a[j], b[i]))
	}
	return r
}

// exactSolid is a tetrahedron; face i lies opposite vertex i.
type exactSolid [4]ratVec

func (s exactSolid) face(i int) (on [3]ratVec) {
	n := 0
	for k, v := range s {
		if k != i {
			on[n] = v
			n++
		}
	}
	return on
}

// normal of face i, outward, of any length.
func (s exactSolid) normal(i int) ratVec {
	f := s.face(i)
	n := f[1].sub(f[0]).cross(f[2].sub(f[0]))
	if n.dot(s[i].sub(f[0])).Sign() > 0 {
		return ratVec{}.minus(n)
	}
	return n
}

func (ratVec) minus(a ratVec) (r ratVec) {
	for k := range r {
		r[k] = new(big.Rat).Neg(a[k])
	}
	return r
}

func (s exactSolid) edges() (out [][2]ratVec) {
	for i := range 4 {
		for k := range i {
			out = append(out, [2]ratVec{s[i], s[k]})
		}
	}
	return out
}

// separation of b from a along n: min n.b - max n.a.
func separation(a, b exactSolid, n ratVec) *big.Rat {
	var low, high *big.Rat
	for i := range 4 {
		if d := n.dot(b[i]); low == nil || d.Cmp(low) < 0 {
			low = d
		}
		if d := n.dot(a[i]); high == nil || d.Cmp(high) > 0 {
			high = d
		}
	}
	return new(big.Rat).Sub(low, high)
}

// exactGap is the signed distance of two tetrahedra, rounded once at the end:
// in overlap the greatest separation over all facets of their difference; apart
// the least distance over all pairs of features.
func exactGap(a, b exactSolid) float64 {
	var normals []ratVec
	for i := range 4 {
		normals = append(normals, a.normal(i), ratVec{}.minus(b.normal(i)))
	}
	for _, e := range a.edges() {
		for _, f := range b.edges() {
			n := e[1].sub(e[0]).cross(f[1].sub(f[0]))
			if n.dot(n).Sign() > 0 {
				normals = append(normals, n, ratVec{}.minus(n))
			}
		}
	}
	var least *big.Rat // square of the depth
	for _, n := range normals {
		s := separation(a, b, n)
		if s.Sign() > 0 {
			return root(exactApart(a, b))
		}
		s.Mul(s, s).Quo(s, n.dot(n))
		if least == nil || s.Cmp(least) < 0 {
			least = s
		}
	}
	return -root(least)
}

func root(x *big.Rat) float64 {
	f := new(big.Float).SetPrec(200).SetRat(x)
	out, _ := f.Sqrt(f).Float64()
	return out
}

// exactApart is the square of the distance of two tetrahedra that are apart.
func exactApart(a, b exactSolid) *big.Rat {
	var best *big.Rat
	offer := func(v ratVec) {
		if d := v.dot(v); best == nil || d.Cmp(best) < 0 {
			best = d
		}
	}
	for _, e := range a.edges() {
		for _, f := range b.edges() {
			offerEdges(e, f, offer)
		}
	}
	for _, v := range a {
		offerFaces(v, b, offer)
	}
	for _, v := range b {
		offerFaces(v, a, offer)
	}
	return best
}

func offerEdges(e, f [2]ratVec, offer func(ratVec)) {
	for i := range 2 {
		offer(e[i].sub(onSegment(e[i], f)))
		offer(f[i].sub(onSegment(f[i], e)))
	}
	d, g, r := e[1].sub(e[0]), f[1].sub(f[0]), f[0].sub(e[0])
	n := d.cross(g)
	nn := n.dot(n)
	if nn.Sign() == 0 {
		return
	}
	s, t := r.cross(g).dot(n), r.cross(d).dot(n)
	s.Quo(s, nn)
	t.Quo(t, nn)
	one := big.NewRat(1, 1)
	if s.Sign() >= 0 && t.Sign() >= 0 && s.Cmp(one) <= 0 && t.Cmp(one) <= 0 {
		offer(e[0].along(d, s).sub(f[0].along(g, t)))
	}
}

func onSegment(v ratVec, f [2]ratVec) ratVec {
	d := f[1].sub(f[0])
	t := v.sub(f[0]).dot(d)
	t.Quo(t, d.dot(d))
	if t.Sign() < 0 {
		return f[0]
	}
	if t.Cmp(big.NewRat(1, 1)) > 0 {
		return f[1]
	}
	return f[0].along(d, t)
}

// offerFaces offers the distance to each face that v stands over.
func offerFaces(v ratVec, s exactSolid, offer func(ratVec)) {
	for i := range 4 {
		f, n := s.face(i), s.normal(i)
		h := n.dot(v.sub(f[0]))
		side := 0
		for k := range 3 {
			from, to := f[k], f[(k+1)%3]
			side += n.dot(to.sub(from).cross(v.sub(from))).Sign()
		}
		if side == 3 || side == -3 {
			offer(ratVec{zero(), zero(), zero()}.along(n, h.Quo(h, n.dot(n))))
		}
	}
}

func zero() *big.Rat { return new(big.Rat) }

// tetrahedron of four random points; squashed, it is a sliver.
func tetrahedron(r *rand.Rand, at geom.Vec, squash float64) *geom.Solid {
	s := &geom.Solid{}
	for range 4 {
		s.Vertices = append(s.Vertices, at.Add(geom.Vec{r.Float64(), r.Float64(), squash * r.Float64()}))
	}
	p := func(i int) geom.Vec { return s.Vertices[i] }
	s.Faces = [][]int{{1, 2, 3}, {0, 3, 2}, {0, 1, 3}, {0, 2, 1}}
	if p(1).Sub(p(0)).Cross(p(2).Sub(p(0))).Dot(p(3).Sub(p(0))) < 0 {
		for _, f := range s.Faces {
			f[1], f[2] = f[2], f[1]
		}
	}
	return s
}

func exactly(s *geom.Solid) (out exactSolid) {
	for i := range out {
		out[i] = exactVec(s.Vertices[i])
	}
	return out
}

func TestGapOfRandomTetrahedraIsThatOfRationalArithmetic(t *testing.T) {
	r := rand.New(rand.NewSource(103))
	id := geom.Identity()
	apart, overlap, worst := 0, 0, 0.0
	for i := range 120 {
		squash := []float64{1, 1e-2, 1e-5}[i%3]
		away := []float64{0.3, 1, 3}[i/3%3]
		a := tetrahedron(r, geom.Vec{}, squash)
		b := tetrahedron(r, geom.Vec{r.NormFloat64(), r.NormFloat64(), squash * r.NormFloat64()}.Mul(away*0.5), squash)
		want := exactGap(exactly(a), exactly(b))
		if want > 0 {
			apart++
		} else {
			overlap++
		}
		x, y := New(a), New(b)
		allowed := 1e-12 + 32*epsilon*(x.Reach()+y.Reach())
		for _, q := range []Result{gapOf(x, y, id, id), gapOf(y, x, id, id)} {
			off := math.Abs(q.Distance - want)
			worst = math.Max(worst, off)
			if !(off <= allowed) || !(off <= q.Slack) {
				t.Errorf("pair %d, squashed %g: %.17g (slack %.2g), exact %.17g", i, squash, q.Distance, q.Slack, want)
			}
		}
	}
	t.Logf("%d apart, %d overlapping, worst error %.2g m", apart, overlap, worst)
	if apart < 30 || overlap < 20 {
		t.Errorf("%d apart, %d overlapping", apart, overlap)
	}
}
