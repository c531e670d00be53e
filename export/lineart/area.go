package lineart

import (
	"cmp"
	"math"
	"slices"

	"github.com/fogleman/ln/ln"

	"boxwalk/export/scene"
	"boxwalk/model/geom"
)

// Area is a face that turns to the viewer, as a filled polygon in millimetres
// of full size on the view plane.
type Area struct {
	Object int // index in the scene as given
	Loop   []geom.Point2
	Normal geom.Vec // outward, in the scene's frame
	Cut    int      // index of the camera's cut that bared it, else -1
}

// Areas lists faces from far to near: filled in this order, each hides what it
// should. Ghosts have no areas. Of solids that overlap each other in a ring,
// each before the next, no order is right; then the one furthest back comes
// first. Lines of Draw do not depend on this order. Errors are those of Draw.
func Areas(s scene.Scene, c scene.Camera) ([]Area, error) {
	d, err := newDrawer(s, c)
	if err != nil {
		return nil, err
	}
	var out []Area
	turn := c.ViewFromScene().Inverse()
	for _, i := range d.farToNear() {
		out = append(out, d.areasOf(i, turn)...)
	}
	return out, nil
}

func (d *drawer) areasOf(i int, sceneFromView geom.Pose) []Area {
	it := &d.its[i]
	var out []Area
	for f, loop := range it.faces {
		if it.ghost || !it.front[f] {
			continue
		}
		n := it.planes[f].n
		a := Area{
			Object: it.object, Cut: it.cutOf(f), Normal: sceneFromView.Turn(geom.Vec{n.X, n.Y, n.Z}),
			Loop: make([]geom.Point2, 0, len(loop)),
		}
		for _, v := range loop {
			p := d.view.project(it.verts[v])
			a.Loop = append(a.Loop, geom.Point2{p.x, p.y})
		}
		out = append(out, a)
	}
	return out
}

// farToNear orders items so that each comes after those it hides.
func (d *drawer) farToNear() []int {
	nearer := make([][]int, len(d.its)) // items that hide part of an item
	waits := make([]int, len(d.its))    // how many it hides are still to come
	for _, p := range d.pairs() {
		far, near, ok := d.order(p[0], p[1])
		if ok {
			nearer[far] = append(nearer[far], near)
			waits[near]++
		}
	}
	left := d.byDepth()
	var out []int
	for len(left) > 0 {
		k := max(0, slices.IndexFunc(left, func(i int) bool { return waits[i] == 0 }))
		i := left[k]
		left = slices.Delete(left, k, k+1)
		out = append(out, i)
		for _, j := range nearer[i] {
			waits[j]--
		}
	}
	return out
}

// byDepth is all items, the one whose front is furthest back first.
func (d *drawer) byDepth() []int {
	all := make([]int, len(d.its))
	for i := range all {
		all[i] = i
	}
	slices.SortFunc(all, func(i, j int) int {
		a, b := &d.its[i], &d.its[j]
		return cmp.Or(cmp.Compare(a.box.Max.Z, b.box.Max.Z), cmp.Compare(a.rank, b.rank))
	})
	return all
}

// pairs lists items whose rectangles meet, by a sweep along x.
func (d *drawer) pairs() [][2]int {
	order := d.byDepth()
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(d.its[i].rect.lo.x, d.its[j].rect.lo.x) })
	var out [][2]int
	for k, i := range order {
		a := d.its[i].rect
		for _, j := range order[k+1:] {
			b := d.its[j].rect
			if b.lo.x > a.hi.x {
				break
			}
			if a.meets(b) {
				out = append(out, [2]int{i, j})
			}
		}
	}
	return out
}

// order tells which of two items is the far one where their images overlap;
// false if they do not. Two convex solids that are apart have one order on all
// lines of sight, so one line in the middle of the overlap tells.
func (d *drawer) order(i, j int) (far, near int, ok bool) {
	a, b := &d.its[i], &d.its[j]
	common := overlap(a.hull, b.hull)
	if len(common) < 3 || areaOf(common) < speck*speck {
		return 0, 0, false
	}
	at := middle(common)
	if d.view.frontAt(a.Convex, at) > d.view.frontAt(b.Convex, at) {
		return j, i, true
	}
	return i, j, true
}

// overlap is the common part of two counter-clockwise convex polygons.
func overlap(a, b []point) []point {
	q := b[len(b)-1]
	for _, p := range b {
		side := p.sub(q)
		// to the left of q-p: side x (r - q) >= 0
		a = cutPolygon(nil, a, linear{k: side.cross(q), x: side.y, y: -side.x})
		if len(a) < 3 {
			return nil
		}
		q = p
	}
	return a
}

// areaOf is the area of a counter-clockwise polygon.
func areaOf(loop []point) float64 {
	var sum float64
	for k := 1; k+1 < len(loop); k++ {
		sum += loop[k].sub(loop[0]).cross(loop[k+1].sub(loop[0]))
	}
	return sum / 2
}

// frontAt is how near to the viewer the line of sight through a point of the
// view plane meets c first; more is nearer.
func (v view) frontAt(c *Convex, at point) float64 {
	from, along := ln.Vector{X: at.x, Y: at.y, Z: c.box.Max.Z + 1}, ln.Vector{Z: -1}
	if !v.parallel() {
		from = ln.Vector{Z: v.eye}
		along = ln.Vector{X: at.x, Y: at.y, Z: -v.eye}
	}
	enter := math.Inf(-1)
	for _, p := range c.planes {
		if den := p.n.Dot(along); den < 0 {
			enter = math.Max(enter, (p.d-p.n.Dot(from))/den)
		}
	}
	return from.Add(along.MulScalar(enter)).Z
}
