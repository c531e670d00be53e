package sheet

import "math"

// apart is the signed distance of two convex outlines along the best of their
// edge normals: above zero they are apart by at least so much, below zero they
// overlap by as much. Lines count as outlines of two points.
func apart(a, b []Point) float64 {
	best := math.Inf(-1)
	for _, outline := range [][]Point{a, b} {
		for i, p := range outline {
			e := outline[(i+1)%len(outline)].Sub(p)
			if e.Len() == 0 {
				continue
			}
			for _, n := range []Point{{e[1], -e[0]}, e} {
				best = math.Max(best, gapAlong(a, b, n.Normalize()))
			}
		}
	}
	return best
}

func gapAlong(a, b []Point, n Point) float64 {
	aLo, aHi := extentAlong(a, n)
	bLo, bHi := extentAlong(b, n)
	return math.Max(bLo-aHi, aLo-bHi)
}

func extentAlong(points []Point, n Point) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range points {
		lo, hi = math.Min(lo, p.Dot(n)), math.Max(hi, p.Dot(n))
	}
	return lo, hi
}

// segmentMeets reports whether a line meets a convex outline.
func segmentMeets(a, b Point, outline []Point) bool {
	return apart([]Point{a, b}, outline) <= 0
}
