package views

import (
	"boxwalk/export/scene"
	"boxwalk/export/sheet"
	"boxwalk/model/geom"
)

// cutTones are the seen pieces of the concrete faces that the camera's cuts
// bared, as convex polygons. Only what stands before the cut can hide them: of
// every solid the part on the side that was taken away.
func cutTones(sc scene.Scene, cam scene.Camera) ([][]sheet.Point, error) {
	cut, err := sc.Cut(cam.Cuts)
	if err != nil {
		return nil, err
	}
	var out [][]sheet.Point
	before := make([][][]sheet.Point, len(cam.Cuts)) // of each cut, what stands before it
	for _, f := range cut.Faces {
		q := cam.Cuts[f.Cut].Plane
		if cut.Scene.Objects[f.Object].Style != scene.Concrete || !seenFrom(cam, q) {
			continue
		}
		if before[f.Cut] == nil {
			if before[f.Cut], err = imagesBefore(cut.Scene, cam, q); err != nil {
				return nil, err
			}
		}
		pieces := [][]sheet.Point{hull(projectAll(cam, cut.Loop(f)))}
		for _, image := range before[f.Cut] {
			pieces = without(pieces, image)
		}
		out = append(out, pieces...)
	}
	return out, nil
}

// imagesBefore are the images of what the solids have on the outer side of a plane,
// in the order of the objects.
func imagesBefore(sc scene.Scene, cam scene.Camera, q geom.Plane) ([][]sheet.Point, error) {
	out := [][]sheet.Point{}
	for _, o := range sc.Objects {
		before, err := scene.Clip(o.Solid, geom.Plane{N: q.N.Mul(-1), D: -q.D})
		if err != nil {
			return nil, err
		}
		if before != nil {
			out = append(out, hull(projectAll(cam, before.Vertices)))
		}
	}
	return out, nil
}

// seenFrom tells whether the camera stands on the outer side of a plane.
func seenFrom(cam scene.Camera, q geom.Plane) bool {
	if cam.Distance > 0 {
		return q.Distance(cam.Eye()) > 0
	}
	return q.N.Dot(cam.ToViewer) > 0
}

// projectAll are points on the view plane, mm of full size.
func projectAll(cam scene.Camera, points []geom.Vec) []sheet.Point {
	view := cam.ViewFromScene()
	out := make([]sheet.Point, len(points))
	for i, p := range points {
		q := view.Apply(p)
		k := float64(perMetre)
		if cam.Distance > 0 {
			k *= cam.Distance / (cam.Distance - q[2])
		}
		out[i] = sheet.Pt(k*q[0], k*q[1])
	}
	return out
}

// without takes a convex hole out of convex pieces.
func without(pieces [][]sheet.Point, hole []sheet.Point) [][]sheet.Point {
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
