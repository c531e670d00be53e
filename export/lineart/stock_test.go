package lineart

import (
	"math"
	"testing"

	"github.com/fogleman/ln/ln"

	"boxwalk/export/scene"

	"pgregory.net/rapid"
)

// A Convex is a shape of ln, whose paths are its edges, for its own search.
var _ ln.Shape = (*Convex)(nil)

// Compile does nothing; a Convex is ready once made.
func (c *Convex) Compile() {}

// BoundingBox is the least axis-parallel box.
func (c *Convex) BoundingBox() ln.Box { return c.box }

// Contains tells whether v lies inside or at most f outside.
func (c *Convex) Contains(v ln.Vector, f float64) bool {
	for _, p := range c.planes {
		if p.n.Dot(v) > p.d+f {
			return false
		}
	}
	return true
}

// Intersect is where the ray, begun Tie from its origin, is first in the
// solid. It holds for rays in the plane of a face.
func (c *Convex) Intersect(r ln.Ray) ln.Hit {
	enter, leave := Tie, ln.INF
	for _, p := range c.planes {
		den := p.n.Dot(r.Direction)
		num := p.d + grown - p.n.Dot(r.Origin)
		switch {
		case math.Abs(den) < 1e-12:
			if num < 0 {
				return ln.NoHit
			}
		case den > 0:
			leave = math.Min(leave, num/den)
		default:
			enter = math.Max(enter, num/den)
		}
		if enter >= leave {
			return ln.NoHit
		}
	}
	return ln.Hit{Shape: c, T: enter}
}

// Paths are the edges, each once.
func (c *Convex) Paths() ln.Paths {
	var ps ln.Paths
	for _, e := range c.edges {
		ps = append(ps, ln.Path{c.verts[e.from], c.verts[e.to]})
	}
	return ps
}

// stockScene holds the same solids for ln's own search.
func stockScene(d *drawer) *ln.Scene {
	sc := &ln.Scene{}
	for _, it := range d.its {
		sc.Add(it.Convex)
	}
	sc.Compile()
	return sc
}

// rendered is what ln's own renderer sees from the eye: it samples every edge
// in steps and casts a ray from each sample. Length in millimetres on the view
// plane.
func rendered(d *drawer, step float64) float64 {
	const half = 3e4 // of the picture, mm
	eye := ln.Vector{Z: d.view.eye}
	fovy := 2 * math.Atan(half/d.view.eye) * 180 / math.Pi
	m := ln.LookAt(eye, ln.Vector{}, ln.Vector{Y: 1}).Perspective(fovy, 1, 1, 1e9)
	var l float64
	for _, p := range stockScene(d).RenderWithMatrix(m, eye, 2*half, 2*half, step) {
		l += shownLength(p)
	}
	return l
}

func shownLength(p ln.Path) float64 {
	var l float64
	for k := 1; k < len(p); k++ {
		l += math.Hypot(p[k].X-p[k-1].X, p[k].Y-p[k-1].Y)
	}
	return l
}

// parallel is an ln.Filter that keeps points that the viewer sees along z; ln's
// own needs an eye.
type parallel struct{ scene *ln.Scene }

func (f parallel) Filter(v ln.Vector) (ln.Vector, bool) {
	return v, !f.scene.Intersect(ln.Ray{Origin: v, Direction: ln.Vector{Z: 1}}).Ok()
}

// sampled is what ln sees: by its renderer in a perspective, else by its search
// with parallel rays.
func sampled(d *drawer, step float64) float64 {
	if !d.view.parallel() {
		return rendered(d, step)
	}
	sc := stockScene(d)
	var l float64
	for _, p := range sc.Paths().Chop(step).Filter(parallel{sc}) {
		l += shownLength(p)
	}
	return l
}

// plain is a scene without what ln does not know: wholes, drums, ghosts.
func plain(s scene.Scene) scene.Scene {
	for i := range s.Objects {
		s.Objects[i].Whole, s.Objects[i].Round, s.Objects[i].Style = "", false, scene.Steel
	}
	return s
}

func TestSamplingConvergesToTheExactLength(t *testing.T) {
	eye := scene.Perspective(vec{14, -9, 7}, vec{4, 4, 0.5}, vec{0, 0, 1})
	slanted := scene.Orthographic(vec{0.9, -0.5, 0.4}, vec{0, 0, 1})
	for name, s := range map[string]scene.Scene{"yard": yard(60, 1), "culvert": plain(culvert())} {
		for view, c := range map[string]scene.Camera{"perspective": eye, "isometric": corner, "slanted": slanted, "ahead": fromAhead, "above": fromAbove} {
			d, err := newDrawer(s, c)
			if err != nil {
				t.Fatal(err)
			}
			for i := range d.its {
				d.item(i)
			}
			var exact float64 // of all edges, those that coincide counted each
			for _, l := range d.out {
				exact += l.to - l.from
			}
			coarse, fine := exact-sampled(d, 32), exact-sampled(d, 2)
			t.Logf("%s, %s: exact %.1f mm, sampled %.1f short at 32 mm, %.1f at 2 mm", name, view, exact, coarse, fine)
			if !(math.Abs(fine) < 0.002*exact && math.Abs(fine) <= math.Abs(coarse)/8+1e-6) {
				t.Errorf("%s, %s: exact %v mm; sampling misses it by %v at 32 mm and %v at 2 mm", name, view, exact, coarse, fine)
			}
		}
	}
}

func TestSamplingAgreesOnHeapsOfTouchingBoxes(t *testing.T) {
	const step = 1.0
	rapid.Check(t, func(t *rapid.T) {
		d, err := newDrawer(plain(heap(t)), cameraOf(t))
		if err != nil {
			t.Fatal(err)
		}
		for i := range d.its {
			d.item(i)
		}
		var exact float64
		for _, l := range d.out {
			exact += l.to - l.from
		}
		// Sampling misses a step at either end of a stretch and may see one more
		// point of a hidden edge.
		slack := 2 * step * float64(len(d.out)+12*len(d.its))
		if got := sampled(d, step); math.Abs(got-exact) > slack {
			t.Fatalf("exact %v mm, sampled %v, slack %v", exact, got, slack)
		}
	})
}
