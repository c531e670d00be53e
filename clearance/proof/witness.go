package proof

import (
	"math"
	"strings"
)

// witness reads `near UPPER S ONE WEIGHTS OTHER WEIGHTS`: at s = S two points of
// a pair that the last need is about are at most UPPER apart. So the number
// stated is not only a lower bound of something far away.
func (c *claim) witness(t *text, rides *rides) {
	if !t.want(7, 7, false) {
		return
	}
	if len(c.needs) == 0 {
		t.fail("a witness of nothing")
		return
	}
	n := &c.needs[len(c.needs)-1]
	if n.upper != nil || n.far || (n.touch && n.id != "strip.self.seams") {
		t.fail("no witness belongs here, or it is the second")
		return
	}
	w := t.words
	upper, s := t.number(w[1]), t.number(w[2])
	if !(s >= 0 && s <= 1) {
		t.fail("%g is no moment of the step", s)
	}
	a, b, ok := c.pair(t, n)
	if !ok {
		return
	}
	x := &walker{claim: c, t: t, rides: rides}
	node := node{a: []int{a}, b: []int{b}, s0: s, s1: s}
	one, other := x.movers(node)
	if t.bad != nil {
		return
	}
	p := one[0].p0.apply(t.weighed(w[4], one[0].v))
	q := other[0].p0.apply(t.weighed(w[6], other[0].v))
	most := math.Max(0, upper) + slack + rounding(one[0].inexact, other[0].inexact)
	if d := p.sub(q).length(); !(d <= most) {
		t.fail("the two points are %.9g m apart, and %.9g m are stated", d, upper)
	}
	n.upper = &upper
	c.witnesses++
}

// pair reads the two solids of a witness: one of each set, neither exempt nor,
// but for some checks, declared to touch.
func (c *claim) pair(t *text, n *need) (a, b int, ok bool) {
	w := t.words
	t.charge(len(c.a) + len(c.b))
	if a = t.member(w[3], c.a); t.bad == nil {
		b = t.member(w[5], c.b)
	}
	if t.bad != nil {
		return a, b, false
	}
	digs := n.id == "strip.dig" || n.id == "strip.supports" || n.id == "raise.clear"
	switch meant := c.meant(a, b); {
	case c.self() && a >= b:
		t.fail("a pair has its smaller part first")
	case c.exempt(a, b):
		t.fail("the pair is exempt")
	case meant != n.touch && !digs:
		t.fail("the need is not about this pair")
	}
	return a, b, t.bad == nil
}

// member reads one of a sorted set.
func (t *text) member(s string, set []int) int {
	if list := t.ids(s, set); len(list) == 1 && !strings.Contains(s, "-") {
		return list[0]
	}
	t.fail("%q is not one of the set", s)
	return 0
}

// mostWeights is as many vertices as a point of a solid ever needs.
const mostWeights = 4

// weighed reads a point by shares of vertices, such as 0:0.25,7:0.75.
func (t *text) weighed(s string, vs []vec) (p vec) {
	items := strings.Split(s, ",")
	if len(items) > mostWeights {
		t.fail("a point of more than %d vertices", mostWeights)
		return p
	}
	sum, last := 0.0, -1
	for _, item := range items {
		at, share, _ := strings.Cut(item, ":")
		i, f := t.whole(at, 0, len(vs)-1), t.number(share)
		if t.bad == nil && !(i > last && f > 0) {
			t.fail("%q is not in rising order, or no share", item)
		}
		if t.bad != nil {
			return p
		}
		p, sum, last = p.add(vs[i].mul(f)), sum+f, i
	}
	if !(math.Abs(sum-1) <= 1e-9) {
		t.fail("shares that add up to %g", sum)
	}
	return p
}
