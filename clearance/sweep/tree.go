package sweep

import (
	"cmp"
	"math"
	"slices"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// Tree holds parts of one body in boxes along the body's axes.
type Tree struct {
	body    int
	parts   []Part
	numbers []int // of each part, as whoever made the tree counts
	reach   float64
	nodes   []treeNode // the root first
}

// treeNode has two children, or is a leaf with one part (left is -1, right its place).
type treeNode struct {
	box         swept
	size        float64
	left, right int32
}

// Member is a part with its number.
type Member struct {
	Part   Part
	Number int
}

// TreesOf puts parts into trees, one for each body, in the order of the bodies.
func TreesOf(list []Member) []*Tree {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b Member) int { return cmp.Compare(a.Part.Body, b.Part.Body) })
	var out []*Tree
	for from, to := 0, 0; from < len(list); from = to {
		for to = from; to < len(list) && list[to].Part.Body == list[from].Part.Body; to++ {
		}
		out = append(out, newTree(list[from:to]))
	}
	return out
}

// member is a part with its box while a tree grows.
type member struct {
	Member
	box    swept
	middle [3]float64
}

func newTree(list []Member) *Tree {
	n := len(list)
	t := &Tree{body: list[0].Part.Body, parts: make([]Part, 0, n), numbers: make([]int, 0, n), nodes: make([]treeNode, 0, 2*n)}
	in := make([]member, n)
	for i, m := range list {
		c, h := m.Part.Solid.Box()
		in[i] = member{m, swept{c.Sub(h), c.Add(h)}, [3]float64{c.X, c.Y, c.Z}}
		t.reach = math.Max(t.reach, m.Part.Solid.Reach())
	}
	t.grow(in, make([]float64, n))
	return t
}

// grow adds the node of all of in and what is below it.
func (t *Tree) grow(in []member, behind []float64) int32 {
	n := treeNode{box: in[0].box, left: -1, right: int32(len(t.parts))}
	for i := range in[1:] {
		n.box.unite(&in[i+1].box)
	}
	s := n.box.sides()
	n.size = s[0] + s[1] + s[2]
	at := int32(len(t.nodes))
	t.nodes = append(t.nodes, n)
	if len(in) == 1 {
		t.parts, t.numbers = append(t.parts, in[0].Part), append(t.numbers, in[0].Number)
		return at
	}
	cut := bestCut(in, behind)
	left := t.grow(in[:cut], behind)
	right := t.grow(in[cut:], behind)
	t.nodes[at].left, t.nodes[at].right = left, right
	return at
}

// bestCut orders parts along the axis on which their middles lie farthest apart, and
// cuts where area times number is least in sum.
func bestCut(in []member, behind []float64) (cut int) {
	low, high := in[0].middle, in[0].middle
	for i := range in {
		for k, x := range in[i].middle {
			low[k], high[k] = math.Min(low[k], x), math.Max(high[k], x)
		}
	}
	axis := 0
	for k := range high {
		if high[k]-low[k] > high[axis]-low[axis] {
			axis = k
		}
	}
	slices.SortStableFunc(in, func(a, b member) int { return cmp.Compare(a.middle[axis], b.middle[axis]) })
	b := in[len(in)-1].box
	for i := len(in) - 1; i > 0; i-- {
		b.unite(&in[i].box)
		behind[i] = b.area() * float64(len(in)-i)
	}
	best := math.Inf(1)
	b = in[0].box
	for i := 1; i < len(in); i++ {
		b.unite(&in[i-1].box)
		if c := b.area()*float64(i) + behind[i]; c < best {
			best, cut = c, i
		}
	}
	return max(cut, 1)
}

func (b *swept) unite(o *swept) { b.add(o.lo); b.add(o.hi) }

func (b *swept) sides() [3]float64 {
	d := b.hi.Sub(b.lo)
	return [3]float64{d.X, d.Y, d.Z}
}

func (b *swept) area() float64 {
	s := b.sides()
	return s[0]*s[1] + s[1]*s[2] + s[2]*s[0]
}

// apart is the square of the distance between two boxes, zero where they meet.
func (b *swept) apart(o *swept) float64 {
	x := outside(b.lo.X-o.hi.X, o.lo.X-b.hi.X)
	y := outside(b.lo.Y-o.hi.Y, o.lo.Y-b.hi.Y)
	z := outside(b.lo.Z-o.hi.Z, o.lo.Z-b.hi.Z)
	return x*x + y*y + z*z
}

// placing is a tree over an interval of a motion: for each node a box in the frame ref
// around everything below it, made when first asked for.
type placing struct {
	tree     *Tree
	p0, p1   geom.Pose // refFromBody at the two ends
	sizes    [2][9]float64
	bound    geom.Bound
	straight bool    // nothing leaves the chord between its ends
	turned   bool    // the ends differ by more than a shift
	home     bool    // the frame ref itself: the boxes are those of the tree
	dd       float64 // square of the length of the interval
	off      float64 // its part of E of the package comment
	lost     bool    // the motion gave numbers that are not finite
	boxes    []swept
	stamps   []uint32
	stamp    uint32
}

// place puts a tree where a motion has it.
func (p *placing) place(m Motion, ref int, t *Tree, s0, s1 float64) {
	p.carry(m, ref, t.body, t.reach, s0, s1)
	if p.tree = t; p.home {
		return
	}
	for i, r := range [2]*geom.Pose{&p.p0, &p.p1} {
		for k, x := range r.R {
			p.sizes[i][k] = math.Abs(x)
		}
	}
	if n := len(t.nodes); n > len(p.boxes) {
		p.boxes, p.stamps = make([]swept, n), make([]uint32, n)
	}
	p.stamp++
}

// carry is where a motion has a body with parts that reach so far.
func (p *placing) carry(m Motion, ref, body int, reach, s0, s1 float64) {
	p.bound, p.dd, p.home = geom.Bound{}, (s1-s0)*(s1-s0), body == ref
	if p.home {
		p.p0, p.p1 = geom.Identity(), geom.Identity()
		p.straight, p.turned, p.lost, p.off = true, false, false, atHome*reach
		return
	}
	p.p0 = m.Pose(ref, body, s0)
	p.p1 = p.p0
	e := m.ErrorBound(ref, body, s0)
	if s1 != s0 {
		p.p1, p.bound = m.Pose(ref, body, s1), m.Bound(ref, body, s0, s1)
		e = larger(e, m.ErrorBound(ref, body, s1))
	}
	b := &p.bound
	p.lost = !(b.A >= 0 && b.Omega >= 0 && b.Alpha >= 0 && finite(&p.p0) && finite(&p.p1) && bounds(e) && s1 >= s0)
	p.straight = b.A == 0 && b.Omega == 0 && b.Alpha == 0
	p.off = underway*(reach+math.Sqrt(math.Max(p.p0.T.Dot(p.p0.T), p.p1.T.Dot(p.p1.T)))) + e.At(reach)
	p.turned = p.p0.R != p.p1.R
}

// box of node i, without what E allows for.
func (p *placing) box(i int32) *swept {
	if p.home {
		return &p.tree.nodes[i].box
	}
	b := &p.boxes[i]
	if p.stamps[i] == p.stamp {
		return b
	}
	p.stamps[i] = p.stamp
	n := &p.tree.nodes[i].box
	c, h := n.lo.Add(n.hi).Mul(0.5), n.hi.Sub(n.lo).Mul(0.5)
	c0, c1, h0 := gap.Apply(&p.p0, c), gap.Apply(&p.p1, c), scaled(&p.sizes[0], h)
	h1 := h0
	if p.turned {
		h1 = scaled(&p.sizes[1], h)
	}
	*b = swept{c0.Sub(h0), c0.Add(h0)}
	b.add(c1.Sub(h1))
	b.add(c1.Add(h1))
	b.grow(p.bow(c, h))
	return b
}

// bow is how far any point of a box in the body leaves the chord between its ends.
func (p *placing) bow(c, h gap.XYZ) float64 {
	if p.straight {
		return 0
	}
	b := &p.bound
	k := b.A
	if turning := b.Omega*b.Omega + b.Alpha; turning > 0 {
		k += turning * (off(c.Sub(gap.FromVec(b.C)), gap.FromVec(b.Axis)) + h.Len())
	}
	return k * p.dd * raise / 8
}

func scaled(m *[9]float64, h gap.XYZ) gap.XYZ {
	return gap.XYZ{
		X: m[0]*h.X + m[3]*h.Y + m[6]*h.Z,
		Y: m[1]*h.X + m[4]*h.Y + m[7]*h.Z,
		Z: m[2]*h.X + m[5]*h.Y + m[8]*h.Z,
	}
}

// lowest is the least n.v of any vertex throughout, each with its own curvature, without
// what E allows for.
func (p *placing) lowest(s *gap.Solid, n gap.XYZ) float64 {
	l0, c0 := gap.TurnBack(&p.p0.R, n), n.Dot(gap.FromVec(p.p0.T))
	c1 := n.Dot(gap.FromVec(p.p1.T))
	least := math.Inf(1)
	if p.straight && !p.turned {
		for _, v := range s.Vertices() {
			if d := l0.Dot(v); d < least {
				least = d
			}
		}
		return least + math.Min(c0, c1)
	}
	l1 := gap.TurnBack(&p.p1.R, n)
	for _, v := range s.Vertices() {
		if d := dip(l0.Dot(v)+c0, l1.Dot(v)+c1, curvature(&p.bound, v)*p.dd); d < least {
			least = d
		}
	}
	return least
}
