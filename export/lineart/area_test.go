package lineart

import (
	"math"
	"testing"

	"boxwalk/export/scene"
	"boxwalk/model/geom"

	"pgregory.net/rapid"
)

func areas(t testing.TB, s scene.Scene, c scene.Camera) []Area {
	t.Helper()
	as, err := Areas(s, c)
	if err != nil {
		t.Fatal(err)
	}
	return as
}

func TestCubeFillsThreeFacesFromItsCorner(t *testing.T) {
	as := areas(t, sceneOf(block("a", 0, 0, 0, 100, 100, 100)), corner)
	if len(as) != 3 {
		t.Fatalf("%d areas, want 3", len(as))
	}
	var sum geom.Vec
	for _, a := range as {
		sum = sum.Add(a.Normal)
		wantLength(t, "area", areaOf(points(a.Loop)), 100*100/math.Sqrt(3))
		if a.Cut != -1 {
			t.Error("an uncut face counts as cut")
		}
	}
	if sum.Sub(vec{1, -1, 1}).Len() > 1e-12 {
		t.Errorf("normals sum to %v", sum)
	}
}

func TestCutFaceNamesItsCut(t *testing.T) {
	c := fromAhead.Cutting(
		scene.Cut{Plane: geom.Plane{N: vec{0, 0, 1}, D: 9}},
		scene.Cut{Plane: geom.Plane{N: vec{1, 0, 0}, D: 0.05}},
	)
	as := areas(t, sceneOf(block("gone", 60, 0, 0, 90, 10, 10), block("a", 0, 0, 0, 100, 100, 100)), c)
	if len(as) != 1 || as[0].Cut != 1 || as[0].Object != 1 {
		t.Errorf("areas %+v", as)
	}
}

func TestCutRimIsDrawnAsOne(t *testing.T) {
	c := corner.Cutting(scene.Cut{Plane: geom.Plane{N: vec{1, 0, 0}, D: 0.05}})
	ps := draw(t, sceneOf(block("a", 0, 0, 0, 100, 100, 100)), c)
	wantLength(t, "rim", total(ps, kind(CutRim)), 400*math.Sqrt(2./3))
	wantLength(t, "rest", total(ps, nil), (400+3*50+2*100)*math.Sqrt(2./3))
}

func TestPiecesOfAWholeHaveOneCutRim(t *testing.T) {
	a, b := block("a", 0, 0, 0, 100, 100, 100), block("b", 0, 100, 0, 100, 200, 100)
	a.Whole, b.Whole = "w", "w"
	c := fromAhead.Cutting(scene.Cut{Plane: geom.Plane{N: vec{1, 0, 0}, D: 0.05}})
	ps := draw(t, sceneOf(a, b), c)
	wantLength(t, "rim", total(ps, kind(CutRim)), 600)
	wantLength(t, "all", total(ps, nil), 600)
	if len(ps) != 4 {
		t.Errorf("%d paths, want the 4 sides of the cut", len(ps))
	}
}

func TestGhostHasNoArea(t *testing.T) {
	o := block("a", 0, 0, 0, 100, 100, 100)
	o.Style = scene.Ghost
	if as := areas(t, sceneOf(o), corner); len(as) != 0 {
		t.Errorf("areas %v", as)
	}
}

func points(loop []p2) []point {
	out := make([]point, len(loop))
	for i, p := range loop {
		out[i] = point{p[0], p[1]}
	}
	return out
}

// topmost is the object painted last over a point; false when the point is
// close to a rim.
func topmost(as []Area, at point) (int, bool) {
	top := -1
	for _, a := range as {
		least := math.Inf(1)
		loop := points(a.Loop)
		q := loop[len(loop)-1]
		for _, p := range loop {
			least = math.Min(least, p.sub(q).cross(at.sub(q))/p.sub(q).length())
			q = p
		}
		if math.Abs(least) < 0.5 {
			return 0, false
		}
		if least > 0 {
			top = a.Object
		}
	}
	return top, true
}

// nearest is the object a line of sight meets first.
func nearest(d *drawer, at point) int {
	top, best := -1, math.Inf(-1)
	for i := range d.its {
		it := &d.its[i]
		if _, in := covered(at, point{at.x + 1e-6, at.y}, it.hull); !in {
			continue
		}
		if z := d.view.frontAt(it.Convex, at); z > best {
			top, best = it.object, z
		}
	}
	return top
}

func TestPaintedFarToNearTheNearestShowsOnTop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawFilled(t).rows(0)
		c := cameraOf(t)
		as, err := Areas(s, c)
		if err != nil {
			t.Fatal(err)
		}
		d, err := newDrawer(s, c)
		if err != nil {
			t.Fatal(err)
		}
		f := rapid.Float64Range(0, 1)
		for range 20 {
			a := d.grid.area
			at := point{a.lo.x + f.Draw(t, "u")*(a.hi.x-a.lo.x), a.lo.y + f.Draw(t, "v")*(a.hi.y-a.lo.y)}
			if top, ok := topmost(as, at); ok && top != nearest(d, at) {
				t.Fatalf("at %v object %d is on top, %d is nearest", at, top, nearest(d, at))
			}
		}
	})
}
