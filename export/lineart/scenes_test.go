package lineart

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"boxwalk/export/scene"
	"boxwalk/model/geom"
)

type (
	vec = geom.Vec
	p2  = geom.Point2
)

// block is a concrete box in millimetres, of no group.
func block(id string, x0, y0, z0, x1, y1, z1 float64) scene.Object {
	b := geom.Box{Min: vec{x0, y0, z0}.Mul(1e-3), Max: vec{x1, y1, z1}.Mul(1e-3)}
	return scene.Object{ID: id, Solid: geom.Block(b)}
}

func sceneOf(objects ...scene.Object) scene.Scene { return scene.Scene{Objects: objects} }

// Views along the axes; the picture's right and up in brackets.
var (
	fromAhead = scene.Orthographic(vec{1, 0, 0}, vec{0, 0, 1})  // (y, z)
	fromAbove = scene.Orthographic(vec{0, 0, 1}, vec{1, 0, 0})  // (-y, x)
	fromRight = scene.Orthographic(vec{0, -1, 0}, vec{0, 0, 1}) // (x, z)
	fromBelow = scene.Orthographic(vec{0, 0, -1}, vec{1, 0, 0}) // (y, x)
	corner    = scene.Isometric(vec{1, -1, 1})
)

func draw(t testing.TB, s scene.Scene, c scene.Camera) []Path {
	t.Helper()
	ps, err := Draw(s, c)
	if err != nil {
		t.Fatal(err)
	}
	return ps
}

func total(ps []Path, keep func(Path) bool) float64 {
	var l float64
	for _, p := range ps {
		if keep == nil || keep(p) {
			l += p.To.Sub(p.From).Len()
		}
	}
	return l
}

func of(object int) func(Path) bool { return func(p Path) bool { return p.Object == object } }
func kind(k Kind) func(Path) bool   { return func(p Path) bool { return p.Kind == k } }

// yard is n boxes in cells of a square, every third turned, none touching.
func yard(n int, seed int64) scene.Scene {
	r := rand.New(rand.NewSource(seed))
	side := int(math.Ceil(math.Sqrt(float64(n))))
	var s scene.Scene
	for i := range n {
		size := vec{0.2 + 0.5*r.Float64(), 0.2 + 0.5*r.Float64(), 0.3 + 1.5*r.Float64()}
		solid := geom.Block(geom.Box{Max: size})
		if i%3 == 0 {
			solid = solid.Moved(geom.Rotation(size.Mul(0.5), vec{0, 0, 1}, r.Float64()))
		}
		at := vec{1.1 * float64(i%side), 1.1 * float64(i/side), 0.1 * r.Float64()}
		s.Objects = append(s.Objects, scene.Object{
			ID: fmt.Sprintf("b%05d", i), Group: fmt.Sprint("g", i%7), Style: scene.Steel,
			Solid: solid.Moved(geom.Translation(at)),
		})
	}
	return s
}

// culvert is two pours of a one-cell box culvert (span 3.0, rise 2.4 m), each a
// whole of convex pieces, and inside the second a frame on wheels with panels.
func culvert() scene.Scene {
	var s scene.Scene
	add := func(o scene.Object) {
		o.ID = fmt.Sprintf("%03d %s", len(s.Objects), o.Name)
		s.Objects = append(s.Objects, o)
	}
	for k, x := range []float64{-4, 0} {
		pour(add, fmt.Sprint("pour ", k+1), x, x+4)
	}
	for _, x := range []float64{0.6, 2.0, 3.4} {
		bent(add, x)
	}
	for _, side := range []float64{-1, 1} {
		add(scene.Object{Name: "sill", Group: "frame", Style: scene.Steel,
			Solid: geom.Prism(rectangle(side*1.1, 0.35, 0.1, 0.1), 0.2, 3.8)})
		add(scene.Object{Name: "stringer", Group: "frame", Style: scene.Steel,
			Solid: geom.Prism(rectangle(side*0.7, 2.15, 0.08, 0.1), 0.1, 3.9)})
		for _, x := range []float64{0.6, 3.4} {
			y := side*1.1 - 0.03
			add(scene.Object{Name: "wheel", Group: "frame", Style: scene.Wheel, Round: true,
				Solid: geom.Drum(x+0.25, 0.125, 0.125, y, y+0.06, 64)})
		}
		for i := range 4 {
			x := 1 * float64(i)
			add(scene.Object{Name: "wall panel", Group: fmt.Sprint("wall ", side), Style: scene.WallPanel,
				Solid: geom.Prism(rectangle(side*1.38, 1.2, 0.06, 1.6), x, x+1)})
		}
	}
	for i := range 4 {
		x := 1 * float64(i)
		add(scene.Object{Name: "roof panel", Group: "roof", Style: scene.RoofPanel,
			Solid: geom.Prism(rectangle(0, 2.23, 2.2, 0.06), x, x+1)})
	}
	return s
}

// pour adds invert, walls, roof and haunches between two stations.
func pour(add func(scene.Object), name string, from, to float64) {
	piece := func(part string, section ...p2) {
		add(scene.Object{Name: part, Group: name, Whole: name, Solid: geom.Prism(section, from, to)})
	}
	piece("invert", p2{-1.75, -0.3}, p2{1.75, -0.3}, p2{1.75, 0}, p2{-1.75, 0})
	piece("roof", p2{-1.75, 2.4}, p2{1.75, 2.4}, p2{1.75, 2.7}, p2{-1.75, 2.7})
	for _, y := range []float64{-1, 1} {
		piece("wall", p2{y * 1.75, 0}, p2{y * 1.5, 0}, p2{y * 1.5, 2.4}, p2{y * 1.75, 2.4})
		piece("haunch", p2{y * 1.5, 2.4}, p2{y * 1.3, 2.4}, p2{y * 1.5, 2.2})
		piece("haunch", p2{y * 1.5, 0}, p2{y * 1.35, 0}, p2{y * 1.5, 0.15})
	}
}

// bent adds two legs, a header and two braces at a station.
func bent(add func(scene.Object), x float64) {
	bar := func(name string, style scene.Style, from, to p2, thickness float64) {
		add(scene.Object{Name: name, Group: "frame", Style: style, Solid: geom.Bar(x, from, to, thickness)})
	}
	for _, y := range []float64{-1, 1} {
		bar("leg", scene.Steel, p2{y * 1.1, 0.4}, p2{y * 1.1, 2.0}, 0.1)
		bar("brace", scene.Link, p2{y * 1.1, 0.6}, p2{y * 0.2, 2.0}, 0.05)
		bar("turnbuckle", scene.Link, p2{y * 1.15, 1.2}, p2{y * 1.35, 1.2}, 0.04)
	}
	bar("header", scene.Steel, p2{-1.2, 2.05}, p2{1.2, 2.05}, 0.1)
}

func rectangle(y, z, width, height float64) []p2 {
	w, h := width/2, height/2
	return []p2{{y - w, z - h}, {y + w, z - h}, {y + w, z + h}, {y - w, z + h}}
}
