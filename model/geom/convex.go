package geom

import "slices"

// plane is how far a corner may lie outside the line of an edge of what counts as
// convex: the nanometre that Solid.Check takes.
const plane = 1e-9

// ConvexPieces cuts a polygon, in either turning sense, into convex ones that
// cover it and do not overlap; a convex one is left as it is. nil if its sides
// cross or touch each other, so that it has no inside to cut.
func ConvexPieces(section []Point2) [][]Point2 {
	loop := counterClockwise(section)
	switch {
	case convex(loop):
		return [][]Point2{loop}
	case len(loop) < 4 || crossed(loop):
		return nil
	}
	for i := range loop {
		if corner(loop[(i+len(loop)-1)%len(loop)], loop[i], loop[(i+1)%len(loop)]) >= 0 {
			continue
		}
		if k := across(loop, i); k >= 0 {
			lo, hi := min(i, k), max(i, k)
			one := ConvexPieces(slices.Clone(loop[lo : hi+1]))
			two := ConvexPieces(slices.Concat(loop[hi:], loop[:lo+1]))
			if one == nil || two == nil {
				return nil
			}
			return append(one, two...)
		}
	}
	return nil
}

// corner is twice the area of a triangle, positive counter-clockwise.
func corner(a, b, c Point2) float64 {
	p, q := b.Sub(a), c.Sub(a)
	return p[0]*q[1] - p[1]*q[0]
}

// convex tells whether no corner of a counter-clockwise polygon lies outside the
// line of an edge.
func convex(loop []Point2) bool {
	for i, a := range loop {
		b := loop[(i+1)%len(loop)]
		for _, p := range loop {
			if !(corner(a, b, p) >= -plane*b.Sub(a).Len()) {
				return false
			}
		}
	}
	return true
}

// crossed tells whether two sides that are not neighbours meet.
func crossed(loop []Point2) bool {
	n := len(loop)
	for i := range n {
		for k := i + 2; k < n; k++ {
			if (k+1)%n != i && meet(loop[i], loop[i+1], loop[k], loop[(k+1)%n]) {
				return true
			}
		}
	}
	return false
}

// meet tells whether two stretches have a point in common.
func meet(a, b, c, d Point2) bool {
	return corner(a, b, c)*corner(a, b, d) <= 0 && corner(c, d, a)*corner(c, d, b) <= 0
}

// across is a corner that a cut from a corner which turns in may go to: the one
// nearest of those that leave no inward turn there, else of all; -1 if none is.
func across(loop []Point2, i int) int {
	n := len(loop)
	before, at, after := loop[(i+n-1)%n], loop[i], loop[(i+1)%n]
	best, ends, length := -1, false, 0.0
	for k, p := range loop {
		if k == i || (k+1)%n == i || (i+1)%n == k || !inside(loop, i, k) {
			continue
		}
		whole, far := corner(before, at, p) >= 0 && corner(p, at, after) >= 0, p.Sub(at).Len()
		if best < 0 || whole && !ends || whole == ends && far < length {
			best, ends, length = k, whole, far
		}
	}
	return best
}

// inside tells whether the stretch between two corners runs inside the polygon.
func inside(loop []Point2, i, k int) bool {
	n := len(loop)
	a, b := loop[i], loop[k]
	// at a corner that turns in, what lies outside is the wedge between its sides
	if corner(loop[(i+n-1)%n], a, b) < 0 && corner(a, loop[(i+1)%n], b) < 0 {
		return false
	}
	for j := range n {
		q := (j + 1) % n
		if j != i && j != k && q != i && q != k && meet(a, b, loop[j], loop[q]) {
			return false
		}
	}
	return true
}
