package sweep

import "boxwalk/clearance/gap"

// node is a pair over an interval that is not settled yet. lower bounds it.
// n is the best plane of the interval it was split from; n0 and n1 are the
// normals of the exact queries at its ends, zero where none was made.
type node struct {
	lower     float64
	s0, s1    float64
	against   int
	n, n0, n1 gap.XYZ
}

// before orders nodes by lower bound, then by index, then by time, so that the
// order does not depend on how the queue was filled.
func (a *node) before(b *node) bool {
	if a.lower != b.lower {
		return a.lower < b.lower
	}
	if a.against != b.against {
		return a.against < b.against
	}
	return a.s0 < b.s0
}

// queue is a binary heap, the least node first.
type queue []node

func (q *queue) push(n *node) {
	*q = append(*q, *n)
	h := *q
	i := len(h) - 1
	for i > 0 {
		up := (i - 1) / 2
		if !n.before(&h[up]) {
			break
		}
		h[i] = h[up]
		i = up
	}
	h[i] = *n
}

func (q *queue) pop(out *node) {
	h := *q
	*out = h[0]
	last := h[len(h)-1]
	h = h[:len(h)-1]
	*q = h
	i := 0
	for c := 1; c < len(h); c = 2*i + 1 {
		if c+1 < len(h) && h[c+1].before(&h[c]) {
			c++
		}
		if !h[c].before(&last) {
			break
		}
		h[i] = h[c]
		i = c
	}
	if len(h) > 0 {
		h[i] = last
	}
}
