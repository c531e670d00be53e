package sweep

import (
	"cmp"
	"math"
	"slices"

	"boxwalk/clearance/gap"
)

// A Contest asks which parts of a set may come nearest to another set over an interval
// of a motion. Both sets are held in trees of boxes. Pairs of nodes are gone through the
// nearer ones first; what boxes tell to be far is left out at once, and of two parts one
// plane at most is sought: neighbours mostly share it. What that does not settle
// contends, and is for the caller to search (Least, Clears).
//
// A Contest is memory that is used again: set its moving parts for a step, and ask it for
// one set after another. It is for one goroutine.
type Contest struct {
	m      Motion
	ref    int
	s0, s1 float64
	memory []placing
	moving []placing // as many of them as there are trees
	others []placing
	at     *placing // the ones that are gone through, of moving
	other  *placing // and of others
	o      Terms
	best   float64
	low    float64   // least bound of what planes settled
	square float64   // least square of the distance of boxes that were left out
	e      float64   // rounding of those boxes, the most
	most   []float64 // by node of at: the most that is taken off a part below it
	takes  [][]float64
	list   []Contender
	kept   [4]gap.XYZ // planes that held a pair apart lately
	planes []gap.XYZ  // those in use
	roots  []root
}

// Terms of a contest.
type Terms struct {
	// Skip tells of a part and one of the other set that they do not count; nil if all do.
	Skip func(part, other int) bool
	// Takes is, by the number of a part, more than may be taken off its gap; nil for nothing.
	Takes []float64
	// Beyond is how much farther than the least a part may stay and still contend:
	// below zero it need not, by so much.
	Beyond float64
	// Best is what the least is known to be at most, +Inf for anything.
	Best float64
	// Cap, if positive: what stays so far away does not contend.
	Cap float64
	// Given keeps Best as it is: nothing is evaluated.
	Given bool
}

// Contender is a part that may come nearest to one of the other set: no plane was found
// that keeps them farther apart than counts. Low bounds their distance.
type Contender struct {
	Pair
	Low  float64
	Seen float64 // their distance at one moment, at most; +Inf where none was looked at
}

// Outcome of a contest.
type Outcome struct {
	List    []Contender // who may have the least left first; good until the next call
	Best    float64     // what the least distance is known to be at most
	Settled float64     // what all who do not contend stay at least
}

type root struct {
	at, other int
	apart     float64
}

// Set turns to a motion over [s0, s1], seen from ref, and the parts that move in it.
func (c *Contest) Set(m Motion, ref int, parts []*Tree, s0, s1 float64) {
	c.m, c.ref, c.s0, c.s1 = m, ref, s0, s1
	for len(c.memory) < len(parts) {
		c.memory = append(c.memory, placing{})
		c.takes = append(c.takes, nil)
	}
	c.moving = c.memory[:len(parts)]
	for i, t := range parts {
		c.moving[i].place(m, ref, t, s0, s1)
	}
}

// Against holds the parts set against others.
func (c *Contest) Against(others []*Tree, o Terms) Outcome {
	c.begin(o)
	for len(c.others) < len(others) {
		c.others = append(c.others, placing{})
	}
	for k, t := range others {
		c.others[k].place(c.m, c.ref, t, c.s0, c.s1)
	}
	for i := range c.moving {
		c.allow(i)
		for k := range others {
			c.roots = append(c.roots, root{i, k, c.moving[i].box(0).apart(c.others[k].box(0))})
		}
	}
	slices.SortStableFunc(c.roots, func(a, b root) int { return cmp.Compare(a.apart, b.apart) })
	for i := range c.roots {
		r := &c.roots[i]
		c.at, c.other, c.most = &c.moving[r.at], &c.others[r.other], c.takes[r.at]
		c.planes = c.kept[:0]
		c.descend(0, 0, r.apart)
	}
	return c.end()
}

// Pair is a part of the set and one that it is held against.
type Pair struct {
	Part, Other int
	A, B        Part
}

// Among holds single pairs of which it is known that they come near, such as those that
// touch by design, in the order given: what lies along one face stands together. Skip is
// not asked.
func (c *Contest) Among(pairs []Pair, o Terms) Outcome {
	c.begin(o)
	if len(c.others) == 0 {
		c.others = append(c.others, placing{})
	}
	c.other, c.planes = &c.others[0], c.kept[:0]
	for i := range pairs {
		x := &pairs[i]
		if i == 0 || x.A.Body != pairs[i-1].A.Body {
			k := slices.IndexFunc(c.moving, func(p placing) bool { return p.tree.body == x.A.Body })
			c.at = &c.moving[k]
		}
		c.other.carry(c.m, c.ref, x.B.Body, x.B.Solid.Reach(), c.s0, c.s1)
		c.meet(x, c.taken(x.Part))
	}
	return c.end()
}

func (c *Contest) begin(o Terms) {
	c.o, c.best, c.list, c.roots = o, o.Best, c.list[:0], c.roots[:0]
	c.low, c.square, c.e = math.Inf(1), math.Inf(1), 0
}

func (c *Contest) end() Outcome {
	slices.SortFunc(c.list, func(a, b Contender) int {
		return cmp.Or(cmp.Compare(a.Low-c.taken(a.Part), b.Low-c.taken(b.Part)), cmp.Compare(a.Part, b.Part), cmp.Compare(a.Other, b.Other))
	})
	return Outcome{c.list, c.best, math.Min(c.low, down(math.Sqrt(c.square)-c.e))}
}

// allow works out the most that is taken off below each node.
func (c *Contest) allow(i int) {
	t := c.moving[i].tree
	if c.o.Takes == nil {
		return
	}
	most := c.takes[i]
	if len(most) < len(t.nodes) {
		most = make([]float64, len(t.nodes))
		c.takes[i] = most
	}
	for k := len(t.nodes) - 1; k >= 0; k-- { // children come after
		if n := &t.nodes[k]; n.left < 0 {
			most[k] = c.o.Takes[t.numbers[n.right]]
		} else {
			most[k] = math.Max(most[n.left], most[n.right])
		}
	}
}

func (c *Contest) taken(part int) float64 {
	if c.o.Takes == nil {
		return 0
	}
	return c.o.Takes[part]
}

// counts is the distance below which a part contends of which so much may be taken off.
func (c *Contest) counts(take float64) float64 {
	d := c.best + c.o.Beyond + take
	if c.o.Cap > 0 && !(d < c.o.Cap) {
		d = c.o.Cap
	}
	return d
}

// under is that of anything below node i.
func (c *Contest) under(i int32) float64 {
	if c.o.Takes == nil {
		return c.counts(0)
	}
	return c.counts(c.most[i])
}

// descend goes through the pairs below two nodes whose boxes are so far apart, by the
// square.
func (c *Contest) descend(i, k int32, apart float64) {
	if c.far(i, apart) {
		return
	}
	a, b := &c.at.tree.nodes[i], &c.other.tree.nodes[k]
	if a.left < 0 && b.left < 0 {
		x := Pair{c.at.tree.numbers[a.right], c.other.tree.numbers[b.right], c.at.tree.parts[a.right], c.other.tree.parts[b.right]}
		if c.o.Skip == nil || !c.o.Skip(x.Part, x.Other) {
			c.meet(&x, c.taken(x.Part))
		}
		return
	}
	i0, i1, k0, k1 := i, i, k, k
	if b.left < 0 || a.left >= 0 && a.size > b.size {
		i0, i1 = a.left, a.right
	} else {
		k0, k1 = b.left, b.right
	}
	d0, d1 := c.at.box(i0).apart(c.other.box(k0)), c.at.box(i1).apart(c.other.box(k1))
	if d1 < d0 {
		i0, i1, k0, k1, d0, d1 = i1, i0, k1, k0, d1, d0
	}
	c.descend(i0, k0, d0)
	c.descend(i1, k1, d1)
}

// far tells whether boxes so far apart settle what is below node i. Of what is in boxes
// that meet nothing is known.
func (c *Contest) far(i int32, apart float64) bool {
	if apart == 0 || c.at.lost || c.other.lost {
		return false
	}
	e := c.rounding()
	if d := c.under(i) + e; d > 0 && !(apart >= d*d) {
		return false
	}
	c.square, c.e = math.Min(c.square, apart), math.Max(c.e, e)
	return true
}

// rounding covers that of boxes: twice E.
func (c *Contest) rounding() float64 { return 2 * (c.at.off + c.other.off) }

// meet settles a pair by one plane that keeps it apart as far as counts, or lets it
// contend. take is what may be taken off it.
func (c *Contest) meet(p *Pair, take float64) {
	x := Contender{*p, math.Inf(-1), math.Inf(1)}
	if !c.at.lost && !c.other.lost && c.settles(&x, take) {
		c.low = math.Min(c.low, x.Low)
		return
	}
	c.list = append(c.list, x)
}

// settles tries planes: those that are known, the one between the hulls of both ends, and
// the one where the pair is nearest, which bounds the least from above besides.
func (c *Contest) settles(x *Contender, take float64) bool {
	target := c.counts(take)
	var s float64
	if x.Low, s = c.overEnds(x.A.Solid, x.B.Solid, target); x.Low >= target {
		return true
	}
	if c.o.Given || x.Low >= c.best-math.Abs(c.o.Beyond) { // it lowers the least by less than counts
		return false
	}
	n, seen := c.seen(x.A, x.B, c.s0+s*(c.s1-c.s0))
	x.Seen, c.best = seen, math.Min(c.best, seen)
	x.Low = math.Max(x.Low, c.along(x.A.Solid, x.B.Solid, n))
	if x.Low < c.counts(take) {
		return false
	}
	c.keep(n)
	return true
}

// seen is the normal of a pair at s and its distance, at most.
func (c *Contest) seen(x, y Part, s float64) (gap.XYZ, float64) {
	w := pool.Get().(*work)
	defer w.release()
	w.one[0] = y
	w.reset(c.m, c.ref, x, w.one[:])
	r, e := w.distance(0, s)
	if w.lost {
		return gap.XYZ{X: 1}, math.Inf(1)
	}
	return gap.FromVec(r.N), up(r.Distance + r.Slack + e)
}

// overEnds is a lower bound by one query of the hull of both ends, and where in the
// interval the parts may be nearest. A plane that is known already comes first.
func (c *Contest) overEnds(a, b *gap.Solid, target float64) (low, at float64) {
	if low = c.known(a, b, target); low >= target {
		return low, 0
	}
	ca, ha := a.Box()
	cb, hb := b.Box()
	lost := c.at.bow(ca, ha) + c.other.bow(cb, hb) + c.rounding()
	h := gap.OverEnds(a, b, &c.at.p0, &c.other.p0, &c.at.p1, &c.other.p1, gap.XYZ{}, target+lost)
	at = math.Min(1, h.At)
	if h.Touch {
		return low, at
	}
	low = math.Max(low, h.Low-lost)
	if low < target {
		low = math.Max(low, c.along(a, b, h.N))
	}
	if low >= target {
		c.keep(h.N)
	}
	return low, at
}

// known is the best bound by planes that held other pairs apart. It stops at the first
// that reaches the target, and puts that in front.
func (c *Contest) known(a, b *gap.Solid, target float64) float64 {
	best := math.Inf(-1)
	for i, n := range c.planes {
		low := c.along(a, b, n)
		if low >= target {
			c.planes[0], c.planes[i] = n, c.planes[0]
			return low
		}
		best = math.Max(best, low)
	}
	return best
}

// along is the plane bound of a pair.
func (c *Contest) along(a, b *gap.Solid, n gap.XYZ) float64 {
	return down(c.other.lowest(b, n) + c.at.lowest(a, n.Mul(-1)) - c.rounding())
}

// keep puts a plane in front of those kept and drops the last.
func (c *Contest) keep(n gap.XYZ) {
	if len(c.planes) < cap(c.planes) {
		c.planes = c.planes[:len(c.planes)+1]
	}
	copy(c.planes[1:], c.planes)
	c.planes[0] = n
}
