package views

import (
	"math"

	"boxwalk/export/sheet"
)

// outlines are convex outlines and lines on a sheet, each with the box around it:
// most are told apart by their boxes.
type outlines struct {
	of    [][]sheet.Point
	boxes []sheet.Box
}

func (l *outlines) add(points ...sheet.Point) {
	l.of, l.boxes = append(l.of, points), append(l.boxes, sheet.EmptyBox().Grow(points...))
}

// met counts those that an outline shares a point with, and stops at most.
func (l *outlines) met(a []sheet.Point, most float64) int {
	count, box := 0, sheet.EmptyBox().Grow(a...)
	for i, b := range l.boxes {
		if !box.Meets(b) || !overlap(a, l.of[i]) {
			continue
		}
		if count++; float64(count) >= most {
			break
		}
	}
	return count
}

// overlap tells whether two convex outlines, or lines, share a point (separating
// axis).
func overlap(a, b []sheet.Point) bool { return !parted(a, b) && !parted(b, a) }

func parted(a, b []sheet.Point) bool {
	for i, p := range a {
		e := a[(i+1)%len(a)].Sub(p)
		if e[0] == 0 && e[1] == 0 {
			continue
		}
		for _, axis := range []sheet.Point{{-e[1], e[0]}, e} {
			aLo, aHi := reach(a, axis)
			bLo, bHi := reach(b, axis)
			if aHi < bLo || bHi < aLo {
				return true
			}
		}
	}
	return false
}

func reach(points []sheet.Point, axis sheet.Point) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range points {
		d := p.Dot(axis)
		lo, hi = min(lo, d), max(hi, d)
	}
	return lo, hi
}
