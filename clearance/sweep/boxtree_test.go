package sweep

import (
	"cmp"
	"math"
	"slices"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// boxTree holds parts of one body in boxes that all stand along the axes of one
// frame, that of the largest part.
type boxTree struct {
	body    int
	frame   geom.Pose // bodyFromTree
	parts   []Part
	numbers []int // of each part in its job
	nodes   []boxNode
}

// boxNode has two children, or is a leaf with a part (left is -1, right the
// part). kind is the kind of all parts below, or -1.
type boxNode struct {
	box         swept
	size        float64
	left, right int32
	kind        int32
}

// boxedPart is what a tree is made of.
type boxedPart struct {
	part   Part
	shape  *geom.Solid
	number int
	kind   int32
	box    swept
}

func newBoxTree(body int, in []boxedPart) *boxTree {
	t := &boxTree{body: body, frame: frameOf(in), nodes: make([]boxNode, 0, 2*len(in))}
	for i := range in {
		in[i].box = nothing()
		for _, v := range in[i].shape.Vertices {
			in[i].box.add(gap.TurnBack(&t.frame.R, gap.FromVec(v)))
		}
	}
	t.grow(in)
	return t
}

// frameOf has the longest edge of the part with the widest box for its first
// axis, and a face beside that edge for its third.
func frameOf(in []boxedPart) geom.Pose {
	best, most := in[0].shape, 0.0
	for i := range in {
		if d := in[i].shape.Box(); d.Max.Sub(d.Min).Len() > most {
			best, most = in[i].shape, d.Max.Sub(d.Min).Len()
		}
	}
	var along, up geom.Vec
	for i, loop := range best.Faces {
		for k, from := range loop {
			e := best.Vertices[loop[(k+1)%len(loop)]].Sub(best.Vertices[from])
			if e.Len() > along.Len()*(1+1e-9) {
				along, up = e, best.Plane(i).N
			}
		}
	}
	along = along.Normalize()
	across := up.Cross(along).Normalize()
	p := geom.Identity()
	for i, axis := range []geom.Vec{along, across, along.Cross(across)} {
		copy(p.R[3*i:], axis[:])
	}
	return p
}

func nothing() swept {
	inf := math.Inf(1)
	return swept{gap.XYZ{X: inf, Y: inf, Z: inf}, gap.XYZ{X: -inf, Y: -inf, Z: -inf}}
}

func (b *swept) unite(o *swept) { b.add(o.lo); b.add(o.hi) }

func (b *swept) sides() [3]float64 {
	d := b.hi.Sub(b.lo)
	return [3]float64{d.X, d.Y, d.Z}
}

func (b *swept) middle(axis int) float64 {
	c := b.lo.Add(b.hi)
	return [3]float64{c.X, c.Y, c.Z}[axis]
}

// grow adds the node of all of in and what is below it.
func (t *boxTree) grow(in []boxedPart) int32 {
	n := boxNode{box: nothing(), kind: in[0].kind, left: -1, right: int32(len(t.parts))}
	for i := range in {
		n.box.unite(&in[i].box)
		if in[i].kind != n.kind {
			n.kind = -1
		}
	}
	s := n.box.sides()
	n.size = s[0] + s[1] + s[2]
	at := int32(len(t.nodes))
	t.nodes = append(t.nodes, n)
	if len(in) == 1 {
		t.parts = append(t.parts, in[0].part)
		t.numbers = append(t.numbers, in[0].number)
		return at
	}
	cut := bestCut(in)
	left := t.grow(in[:cut])
	right := t.grow(in[cut:])
	t.nodes[at].left, t.nodes[at].right = left, right
	return at
}

// bestCut orders in along one axis and returns where to cut it, by the least
// sum of area times number.
func bestCut(in []boxedPart) (cut int) {
	best, axis := math.Inf(1), 0
	behind := make([]float64, len(in))
	order := func(k int) {
		slices.SortStableFunc(in, func(a, b boxedPart) int { return cmp.Compare(a.box.middle(k), b.box.middle(k)) })
	}
	for k := range 3 {
		order(k)
		b := nothing()
		for i := len(in) - 1; i > 0; i-- {
			b.unite(&in[i].box)
			behind[i] = area(&b) * float64(len(in)-i)
		}
		b = nothing()
		for i := 1; i < len(in); i++ {
			b.unite(&in[i-1].box)
			if c := area(&b)*float64(i) + behind[i]; c < best {
				best, axis, cut = c, k, i
			}
		}
	}
	order(axis)
	return cut
}

func area(b *swept) float64 {
	s := b.sides()
	return s[0]*s[1] + s[1]*s[2] + s[2]*s[0]
}

// boxSlack covers the rounding of boxes: far more than 100u of a kilometre.
const boxSlack = 1e-10

// placing is a tree seen from a view over [s0, s1] of a step: for each node a
// box along the axes of the view around everything below it, made when first
// asked for.
type placing struct {
	tree       *boxTree
	poses      [2]geom.Pose // refFromBody
	ends       [2]geom.Pose // viewFromTree
	sizes      [2][9]float64
	own, bound geom.Bound // in the axes of the body and of the tree
	dd         float64
	still      bool // the boxes are those of the tree
	turned     bool
	boxes      []swept
	stamps     []uint32
	stamp      uint32
}

// place sets up the tree; view is refFromView.
func (p *placing) place(m Motion, ref int, t *boxTree, view *geom.Pose, s0, s1 float64) {
	p.tree, p.own, p.dd = t, geom.Bound{}, (s1-s0)*(s1-s0)
	p.still = t.body == ref && view == &t.frame
	if p.still {
		p.poses = [2]geom.Pose{geom.Identity(), geom.Identity()}
		return
	}
	if n := len(t.nodes); n > len(p.boxes) {
		p.boxes, p.stamps = make([]swept, n), make([]uint32, n)
	}
	p.stamp++
	if t.body != ref && s1 > s0 {
		p.own = m.Bound(ref, t.body, s0, s1)
	}
	p.bound = p.own
	p.bound.C = backTurned(&t.frame, p.bound.C)
	p.bound.Axis = backTurned(&t.frame, p.bound.Axis)
	back := view.Inverse()
	for i, s := range [2]float64{s0, s1} {
		p.poses[i] = m.Pose(ref, t.body, s)
		p.ends[i] = back.Mul(p.poses[i]).Mul(t.frame)
		for k, x := range p.ends[i].R {
			p.sizes[i][k] = math.Abs(x)
		}
	}
	p.turned = p.ends[0].R != p.ends[1].R
}

func backTurned(p *geom.Pose, v geom.Vec) geom.Vec { return p.R.Transpose().Mul3x1(v) }

// box of node i.
func (p *placing) box(i int32) *swept {
	if p.still {
		return &p.tree.nodes[i].box
	}
	b := &p.boxes[i]
	if p.stamps[i] == p.stamp {
		return b
	}
	p.stamps[i] = p.stamp
	n := &p.tree.nodes[i].box
	c, h := n.lo.Add(n.hi).Mul(0.5), n.hi.Sub(n.lo).Mul(0.5)
	c0, c1 := gap.Apply(&p.ends[0], c), gap.Apply(&p.ends[1], c)
	h0 := scaled(&p.sizes[0], h)
	h1 := h0
	if p.turned {
		h1 = scaled(&p.sizes[1], h)
	}
	*b = swept{c0.Sub(h0), c0.Add(h0)}
	b.add(c1.Sub(h1))
	b.add(c1.Add(h1))
	b.grow(bow(&p.bound, c, h)*p.dd + boxSlack)
	return b
}

// bow is how far any point of the box leaves the chord between its ends over an
// interval of length 1.
func bow(b *geom.Bound, c, h gap.XYZ) float64 {
	k := b.A
	if turning := b.Omega*b.Omega + b.Alpha; turning > 0 {
		k += turning * (off(c.Sub(gap.FromVec(b.C)), gap.FromVec(b.Axis)) + h.Len())
	}
	return k * raise / 8
}

func scaled(m *[9]float64, h gap.XYZ) gap.XYZ {
	return gap.XYZ{
		X: m[0]*h.X + m[3]*h.Y + m[6]*h.Z,
		Y: m[1]*h.X + m[4]*h.Y + m[7]*h.Z,
		Z: m[2]*h.X + m[5]*h.Y + m[8]*h.Z,
	}
}

// apart is the square of the distance between two boxes, zero when they meet.
func apart(a, b *swept) float64 {
	x := outside(a.lo.X-b.hi.X, b.lo.X-a.hi.X)
	y := outside(a.lo.Y-b.hi.Y, b.lo.Y-a.hi.Y)
	z := outside(a.lo.Z-b.hi.Z, b.lo.Z-a.hi.Z)
	return x*x + y*y + z*z
}
