package sweep

import (
	"cmp"
	"math"
	"slices"

	"boxwalk/clearance/gap"
	"boxwalk/model/geom"
)

// job is a scene ready for searches: the parts in trees of boxes, and for each
// step which trees can meet.
type job struct {
	steps []step
	kinds []int32    // of each part by number
	apart [][2]int32 // kinds that may touch
	count int        // of parts
	// scratch
	a, b   placing
	list   []Part
	lists  [][]Part
	names  []int
	roots  []root
	open   []open
	best   Bracket
	low    float64
	kept   [4]gap.XYZ // planes that separated a pair lately
	planes []gap.XYZ  // those in use
	reach  float64    // square of the distance from which a pair does not matter
}

// step is one motion, and the pairs of trees that move against each other in
// it. skip lists for each part, by number, what it is not measured against; mates
// the parts in contact.
type step struct {
	name     string
	m        Motion
	meet     []meeting
	table    []meeting // what everyPart looks at: each pair of trees in both orders where both parts count
	skip     [][]int32
	mates    []mate
	starting bool // its start is searched for contacts
}

type meeting struct {
	a, b *boxTree
	ref  int
	view *geom.Pose // refFromView, the axes of the boxes
}

// mate is a part with what it touches when the step begins.
type mate struct {
	at      int // meeting
	part    Part
	against []Part
}

// root is a pair of trees by the distance of their boxes.
type root struct {
	at    int
	apart float64
}

// set places both trees of a meeting.
func (j *job) set(st *step, x *meeting, s0, s1 float64) {
	j.a.place(st.m, x.ref, x.a, x.view, s0, s1)
	j.b.place(st.m, x.ref, x.b, x.view, s0, s1)
}

// near lists the parts below node k of b that come within reach of leaf i of a.
func (j *job) near(st *step, i, k int32) {
	n := &j.b.tree.nodes[k]
	if apart(j.a.box(i), j.b.box(k)) > j.reach || j.mayTouch(j.a.tree.nodes[i].kind, n.kind) {
		return
	}
	if n.left >= 0 {
		j.near(st, i, n.left)
		j.near(st, i, n.right)
		return
	}
	number := j.b.tree.numbers[n.right]
	if slices.Contains(st.skip[j.a.tree.numbers[j.a.tree.nodes[i].right]], int32(number)) {
		return
	}
	j.list = append(j.list, j.b.tree.parts[n.right])
	j.names = append(j.names, number)
}

func (j *job) mayTouch(a, b int32) bool {
	for _, x := range j.apart {
		if x[0] == a && x[1] == b {
			return true
		}
	}
	return false
}

// least brackets the least gap of all pairs of a step that are not in contact.
func (j *job) least(st *step, o Options) Bracket {
	j.best, j.low, j.reach = unknown(), math.Inf(1), math.Inf(1)
	j.roots, j.open = j.roots[:0], j.open[:0]
	for k := range st.meet {
		j.set(st, &st.meet[k], 0, 1)
		j.roots = append(j.roots, root{k, apart(j.a.box(0), j.b.box(0))})
	}
	slices.SortFunc(j.roots, func(a, b root) int {
		if a.apart != b.apart {
			if a.apart < b.apart {
				return -1
			}
			return 1
		}
		return a.at - b.at
	})
	for _, r := range j.roots {
		if r.apart >= j.reach {
			j.low = math.Min(j.low, math.Sqrt(r.apart))
			break
		}
		x := &st.meet[r.at]
		j.set(st, x, 0, 1)
		j.planes = j.kept[:0]
		j.descend(st, r.at, 0, 0, r.apart, o)
	}
	j.close(st, o)
	j.best.Lower = math.Min(j.low, j.best.Upper)
	return j.best
}

// descend goes through the pairs below two nodes, the nearer ones first.
func (j *job) descend(st *step, at int, i, k int32, far float64, o Options) {
	x := &st.meet[at]
	if far >= j.reach {
		j.low = math.Min(j.low, math.Sqrt(far))
		return
	}
	a, b := &x.a.nodes[i], &x.b.nodes[k]
	if j.mayTouch(a.kind, b.kind) {
		return
	}
	if a.left < 0 && b.left < 0 {
		j.meet(st, at, a.right, b.right, o)
		return
	}
	i0, i1, k0, k1 := i, i, k, k
	if b.left < 0 || a.left >= 0 && a.size > b.size {
		i0, i1 = a.left, a.right
	} else {
		k0, k1 = b.left, b.right
	}
	d0, d1 := apart(j.a.box(i0), j.b.box(k0)), apart(j.a.box(i1), j.b.box(k1))
	if d1 < d0 {
		i0, i1, k0, k1, d0, d1 = i1, i0, k1, k0, d1, d0
	}
	j.descend(st, at, i0, k0, d0, o)
	j.descend(st, at, i1, k1, d1, o)
}

// open is a pair that one query of its hull did not settle.
type open struct {
	at   int // meeting
	a, b int32
	low  float64
}

// meet bounds one pair of parts by one query of the hull of both ends: the
// parts leave it by their bows only. Most pairs are settled by that; one that is
// not is measured where the hull is nearest, for an upper bound, and left open.
func (j *job) meet(st *step, at int, a, b int32, o Options) {
	x := &st.meet[at]
	if slices.Contains(st.skip[x.a.numbers[a]], int32(x.b.numbers[b])) {
		return
	}
	target := j.best.Upper - o.Epsilon
	low, s := j.overEnds(x.a.parts[a].Solid, x.b.parts[b].Solid, target)
	if low >= target {
		j.low = math.Min(j.low, low)
		return
	}
	if d := At(st.m, x.ref, x.a.parts[a], x.b.parts[b:b+1], s); d.Upper < j.best.Upper {
		d.Lower = math.Inf(1)
		j.take(d, o.Epsilon)
	}
	j.open = append(j.open, open{at, a, b, low})
}

// close settles what meet left open, the lowest first.
func (j *job) close(st *step, o Options) {
	slices.SortFunc(j.open, func(a, b open) int {
		return cmp.Or(cmp.Compare(a.low, b.low), cmp.Compare(a.at, b.at), cmp.Compare(a.a, b.a), cmp.Compare(a.b, b.b))
	})
	for _, p := range j.open {
		target := j.best.Upper - o.Epsilon
		if p.low >= target {
			j.low = math.Min(j.low, p.low)
			return
		}
		if o.Cap = 0; target > 0 {
			o.Cap = target
		}
		x := &st.meet[p.at]
		j.take(Least(st.m, x.ref, x.a.parts[p.a], x.b.parts[p.b:p.b+1], 0, 1, o), o.Epsilon)
	}
}

// overEnds is a lower bound by one query of the hull of both ends, and where
// along the step the parts may be nearest. The plane of the query before comes
// first: neighbours mostly share it.
func (j *job) overEnds(a, b *gap.Solid, target float64) (low, at float64) {
	if low = j.known(a, b, target); low >= target {
		return low, 0
	}
	p, q := &j.a.poses, &j.b.poses
	lost := j.a.bow(a) + j.b.bow(b) + boxSlack
	h := gap.OverEnds(a, b, &p[0], &q[0], &p[1], &q[1], gap.XYZ{}, target+lost)
	at = math.Min(1, h.At)
	if h.Touch {
		return math.Inf(-1), at
	}
	if low = h.Low - lost; low < target && lost > boxSlack {
		low = math.Max(low, j.along(a, b, h.N))
	}
	if low >= target {
		j.keep(h.N)
	}
	return low, at
}

// known is the best bound by planes that separated other pairs: neighbours and
// what lies along the same face share them. It stops at the first that reaches
// the target, and puts that in front.
func (j *job) known(a, b *gap.Solid, target float64) float64 {
	best := math.Inf(-1)
	for i := range j.planes {
		low := j.along(a, b, j.planes[i])
		if low >= target {
			j.planes[0], j.planes[i] = j.planes[i], j.planes[0]
			return low
		}
		if low > best {
			best = low
		}
	}
	return best
}

// along is the plane bound of the pair for the normal n.
func (j *job) along(a, b *gap.Solid, n gap.XYZ) float64 {
	return j.b.lowest(b, n) + j.a.lowest(a, n.Mul(-1)) - boxSlack
}

// keep puts a plane in front of those kept and drops the last.
func (j *job) keep(n gap.XYZ) {
	if len(j.planes) < cap(j.planes) {
		j.planes = j.planes[:len(j.planes)+1]
	}
	copy(j.planes[1:], j.planes)
	j.planes[0] = n
}

// lowest is the least n.v of any vertex at any time, each with its own
// curvature.
func (p *placing) lowest(s *gap.Solid, n gap.XYZ) float64 {
	l0, c0 := gap.TurnBack(&p.poses[0].R, n), n.Dot(gap.FromVec(p.poses[0].T))
	least := math.Inf(1)
	if p.own == (geom.Bound{}) { // straight
		for _, v := range s.Vertices() {
			if d := l0.Dot(v); d < least {
				least = d
			}
		}
		if c1 := n.Dot(gap.FromVec(p.poses[1].T)); c1 < c0 {
			c0 = c1
		}
		return least + c0
	}
	l1, c1 := gap.TurnBack(&p.poses[1].R, n), n.Dot(gap.FromVec(p.poses[1].T))
	for _, v := range s.Vertices() {
		if d := dip(l0.Dot(v)+c0, l1.Dot(v)+c1, curvature(&p.own, v)*p.dd); d < least {
			least = d
		}
	}
	return least
}

func (p *placing) bow(s *gap.Solid) float64 {
	if p.own.A == 0 && p.own.Omega == 0 && p.own.Alpha == 0 {
		return 0
	}
	c, h := s.Box()
	return bow(&p.own, c, h) * p.dd
}

func (j *job) take(b Bracket, epsilon float64) {
	j.low = math.Min(j.low, b.Lower)
	if b.Upper < j.best.Upper {
		j.best = b
		reach := math.Max(0, b.Upper-epsilon)
		j.reach = reach * reach
	}
}

// leastContact brackets the least signed distance of the pairs in contact.
func (j *job) leastContact(st *step, o Options) Bracket {
	j.best, j.low, j.planes = unknown(), math.Inf(1), j.kept[:0]
	placed := -1
	for i := range st.mates {
		x := &st.mates[i]
		if x.at != placed {
			placed = x.at
			j.set(st, &st.meet[placed], 0, 1)
		}
		for k := range x.against {
			j.touch(st, x, x.against[k:k+1], o)
		}
	}
	j.best.Lower = math.Min(j.low, j.best.Upper)
	return j.best
}

// touch bounds one pair in contact: most share the plane of the one before.
func (j *job) touch(st *step, x *mate, against []Part, o Options) {
	target := j.best.Upper - o.Epsilon
	if low := j.known(x.part.Solid, against[0].Solid, target); low >= target {
		j.low = math.Min(j.low, low)
		return
	}
	b := Least(st.m, st.meet[x.at].ref, x.part, against, 0, 1, o)
	j.take(b, o.Epsilon)
	j.keep(gap.FromVec(b.N))
}

// everyPart brackets each part of a step against everything it may meet, and
// its contacts; what stays above the cap counts as that.
func (j *job) everyPart(st *step, o Options, take func(part int, b Bracket)) {
	meet := st.table
	if meet == nil {
		meet = st.meet
	}
	from := 0
	for from < len(meet) {
		to := from
		for to < len(meet) && meet[to].a == meet[from].a && meet[to].ref == meet[from].ref {
			to++
		}
		j.partsOf(st, meet[from:to], o, take)
		from = to
	}
	for i := range st.mates {
		x := &st.mates[i]
		take(-1, Least(st.m, st.meet[x.at].ref, x.part, x.against, 0, 1, o))
	}
}

// partsOf searches each part of one tree against the trees it meets.
func (j *job) partsOf(st *step, meet []meeting, o Options, take func(part int, b Bracket)) {
	a := meet[0].a
	j.reach = o.Cap * o.Cap
	for len(j.lists) < len(a.parts) {
		j.lists = append(j.lists, nil)
	}
	for i := range a.parts {
		j.lists[i] = j.lists[i][:0]
	}
	for k := range meet {
		j.set(st, &meet[k], 0, 1)
		j.spread(st, 0, 0)
	}
	for i := range a.parts {
		b := unknown()
		b.Lower = o.Cap
		if len(j.lists[i]) > 0 {
			b = Least(st.m, meet[0].ref, a.parts[i], j.lists[i], 0, 1, o)
		}
		take(a.numbers[i], b)
	}
}

// spread lists, for each part below node i, the parts below node k within
// reach.
func (j *job) spread(st *step, i, k int32) {
	a, b := &j.a.tree.nodes[i], &j.b.tree.nodes[k]
	if apart(j.a.box(i), j.b.box(k)) >= j.reach || j.mayTouch(a.kind, b.kind) {
		return
	}
	switch {
	case a.left < 0 && b.left < 0:
		if !slices.Contains(st.skip[j.a.tree.numbers[a.right]], int32(j.b.tree.numbers[b.right])) {
			j.lists[a.right] = append(j.lists[a.right], j.b.tree.parts[b.right])
		}
	case b.left < 0 || a.left >= 0 && a.size > b.size:
		j.spread(st, a.left, k)
		j.spread(st, a.right, k)
	default:
		j.spread(st, i, b.left)
		j.spread(st, i, b.right)
	}
}
