package views

import (
	"boxwalk/export/lineart"
	"boxwalk/export/scene"
	"boxwalk/export/sheet"
)

// cutTones are the seen pieces of the concrete faces that the camera's cuts
// bared, as convex polygons.
func cutTones(sc scene.Scene, cam scene.Camera) ([][]sheet.Point, error) {
	areas, err := lineart.Areas(sc, cam)
	if err != nil {
		return nil, err
	}
	var out [][]sheet.Point
	for i, a := range areas {
		if a.Cut < 0 || sc.Objects[a.Object].Style != scene.Concrete {
			continue
		}
		pieces := [][]sheet.Point{a.Loop}
		for _, nearer := range areas[i+1:] {
			pieces = without(pieces, nearer.Loop)
		}
		out = append(out, pieces...)
	}
	return out, nil
}

// without takes a convex polygon away from convex pieces.
func without(pieces [][]sheet.Point, hole []sheet.Point) [][]sheet.Point {
	hole = hull(hole)
	if len(hole) < 3 {
		return pieces
	}
	var out [][]sheet.Point
	for _, p := range pieces {
		if !overlap(p, hole) {
			out = append(out, p)
			continue
		}
		rest := p
		for i, a := range hole {
			b := hole[(i+1)%len(hole)]
			out = keep(out, side(rest, a, b, false))
			if rest = side(rest, a, b, true); len(rest) < 3 {
				break
			}
		}
	}
	return out
}

// leastTone is the least area of a toned piece, mm2 of the real thing.
const leastTone = 1.0

func keep(list [][]sheet.Point, p []sheet.Point) [][]sheet.Point {
	if len(p) < 3 {
		return list
	}
	area := 0.0
	for i := 1; i+1 < len(p); i++ {
		area += cross(p[i].Sub(p[0]), p[i+1].Sub(p[0]))
	}
	if abs(area)/2 < leastTone {
		return list
	}
	return append(list, p)
}

// side is the part of a convex polygon left (or right) of the line from a to b.
func side(p []sheet.Point, a, b sheet.Point, left bool) []sheet.Point {
	u := b.Sub(a)
	d := func(q sheet.Point) float64 {
		c := cross(u, q.Sub(a))
		if !left {
			return -c
		}
		return c
	}
	var out []sheet.Point
	for i, q := range p {
		r := p[(i+1)%len(p)]
		dq, dr := d(q), d(r)
		if dq >= 0 {
			out = append(out, q)
		}
		if dq > 0 && dr < 0 || dq < 0 && dr > 0 {
			out = append(out, q.Add(r.Sub(q).Mul(dq/(dq-dr))))
		}
	}
	return out
}
