package lineart

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"boxwalk/export/scene"
	"boxwalk/model/geom"

	"pgregory.net/rapid"
)

// exactly is how far in millimetres a known length may be missed: rounding and
// the growth of solids, well under what is drawn.
const exactly = 1e-4

func wantLength(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= exactly) {
		t.Errorf("%s: %v mm, want %v", what, got, want)
	}
}

func TestCubeShowsNineEdgesFromItsCorner(t *testing.T) {
	ps := draw(t, sceneOf(block("a", 0, 0, 0, 100, 100, 100)), corner)
	edge := 100 * math.Sqrt(2./3)
	wantLength(t, "outline", total(ps, kind(Outline)), 6*edge)
	wantLength(t, "inner", total(ps, kind(Inner)), 3*edge)
	if len(ps) != 9 {
		t.Errorf("%d paths, want 9", len(ps))
	}
}

func TestCubeShowsASquareAlongEveryAxis(t *testing.T) {
	for _, c := range []scene.Camera{fromAhead, fromAbove, fromRight, fromBelow} {
		ps := draw(t, sceneOf(block("a", 0, 0, 0, 100, 100, 100)), c)
		wantLength(t, "square", total(ps, nil), 400)
		if len(ps) != 4 {
			t.Errorf("%d paths, want 4", len(ps))
		}
	}
}

func TestCubeBehindACubeShowsWhatStandsOutBesideIt(t *testing.T) {
	// Seen from ahead the first covers y 0..100, z 0..100; the second, behind,
	// spans y 40..140, z 30..130.
	s := sceneOf(block("front", 500, 0, 0, 600, 100, 100), block("back", 0, 40, 30, 100, 140, 130))
	ps := draw(t, s, fromAhead)
	wantLength(t, "front", total(ps, of(0)), 400)
	wantLength(t, "back", total(ps, of(1)), 400-60-70)
	for _, p := range ps {
		if p.Object == 1 && p.From[1] == 30 && p.To[1] == 30 {
			if math.Abs(min(p.From[0], p.To[0])-100) > exactly {
				t.Errorf("lower edge begins at %v, want 100", p.From)
			}
			return
		}
	}
	t.Error("the lower edge of the back cube is missing")
}

func TestPerspectiveHidesWhatTheShadowOfTheCubeCovers(t *testing.T) {
	// Eye 2 m before the origin. A plate at x = 0 spans y -100..100; at x = -2 m
	// its shadow spans y -200..200 and the picture is half as large.
	s := sceneOf(block("plate", -1, -100, -100, 0, 100, 100), block("bar", -2010, -500, -10, -2000, 500, 10))
	c := scene.Perspective(vec{2, 0, 0}, vec{}, vec{0, 0, 1})
	ps := draw(t, s, c)
	wantLength(t, "bar", total(ps, of(1)), 2*(500-200)+2*10)
	wantLength(t, "plate", total(ps, of(0)), 800)
}

func TestPerspectiveStartsAtTheNearDistance(t *testing.T) {
	// A bar along the view reaches past the eye; from 0.5 m on it is seen. Its
	// lower edges are at y -10 and 10, z -100; the picture is at 2 m.
	s := sceneOf(block("bar", -2000, -10, -120, 4000, 10, -100))
	ps := draw(t, s, scene.Perspective(vec{2, 0, 0}, vec{}, vec{0, 0, 1}))
	b := geom.EmptyBox()
	for _, p := range ps {
		b = b.Add(vec{p.From[0], p.From[1], 0}).Add(vec{p.To[0], p.To[1], 0})
	}
	wantLength(t, "top edge at the near plane", b.Max[0], 10*2000/500.)
	wantLength(t, "highest", b.Max[1], -100*2000/4000.)
	for _, p := range ps {
		if math.Abs(p.From[1]-p.To[1]) < 1 && p.From[1] < -350 {
			t.Errorf("the cut before the eye is drawn: %v", p)
		}
	}
}

func TestPanelsSideBySideShowTheirJointOnce(t *testing.T) {
	s := sceneOf(block("a", 0, 0, 0, 10, 100, 100), block("b", 0, 100, 0, 10, 200, 100))
	wantLength(t, "from ahead", total(draw(t, s, fromAhead), nil), 2*200+3*100)
	wantLength(t, "from above", total(draw(t, s, fromAbove), nil), 2*200+3*10)
	k := math.Sqrt(2. / 3)
	// From the corner: 3 front uprights and 2 front lengths, 3 top depths and 1
	// more top length, 1 upright and 1 depth at the right end.
	wantLength(t, "from the corner", total(draw(t, s, corner), nil), k*(3*100+3*200+3*10+100+10))
}

func TestPiecesOfAWholeShowNoJoint(t *testing.T) {
	a, b := block("a", 0, 0, 0, 10, 100, 100), block("b", 0, 100, 0, 10, 200, 100)
	a.Whole, b.Whole = "slab", "slab"
	for _, c := range []scene.Camera{fromAhead, fromAbove, fromRight, corner} {
		whole := draw(t, sceneOf(block("ab", 0, 0, 0, 10, 200, 100)), c)
		wantLength(t, "whole", total(draw(t, sceneOf(a, b), c), nil), total(whole, nil))
	}
}

func TestStepOfAWholeShowsOnlyItsRealEdges(t *testing.T) {
	// An L in section (x, z): 200 x 100 below, 100 x 100 on its rear half.
	a, b := block("a", 0, 0, 0, 200, 50, 100), block("b", 0, 0, 100, 100, 50, 200)
	a.Whole, b.Whole = "step", "step"
	ps := draw(t, sceneOf(a, b), fromRight)
	wantLength(t, "L from the side", total(ps, nil), 800)
	// From the corner: the near L (800), the depth (50) at all six of its corners
	// but the lower rear one, and of the far L the two risers and two treads.
	ps = draw(t, sceneOf(a, b), corner)
	k := math.Sqrt(2. / 3)
	wantLength(t, "inner edges and contour", total(ps, nil), k*(800+5*50+4*100))
}

func TestLineInTheFaceOfAnotherSolidIsSeenFromItsSideOnly(t *testing.T) {
	// A post on a slab: its foot is a line in the slab's top.
	s := sceneOf(block("slab", 0, 0, 0, 400, 400, 50), block("post", 100, 100, 50, 200, 200, 60))
	k := math.Sqrt(2. / 3)
	above := draw(t, s, corner)
	wantLength(t, "post from above", total(above, of(1)), k*(6*100+3*10))
	below := scene.Isometric(vec{1, -1, -1})
	wantLength(t, "post from below", total(draw(t, s, below), of(1)), 0)
	wantLength(t, "slab from below", total(draw(t, s, below), of(0)), k*(3*50+6*400))
}

func TestPartsThatOverlapByTheContactToleranceKeepTheirLines(t *testing.T) {
	s := sceneOf(block("slab", 0, 0, 0, 400, 400, 50), block("post", 100, 100, 49.95, 200, 200, 60))
	k := math.Sqrt(2. / 3)
	wantLength(t, "post", total(draw(t, s, corner), of(1)), k*(6*100+3*10.05))
}

func TestLineBehindAJointDoesNotShineThrough(t *testing.T) {
	s := sceneOf(
		block("a", 100, 0, 0, 110, 100, 100), block("b", 100, 100, 0, 110, 200, 100),
		block("edge on the joint", 0, 100, 20, 50, 150, 80), block("edge across", 0, 20, 40, 50, 180, 60),
	)
	ps := draw(t, s, fromAhead)
	wantLength(t, "behind", total(ps, of(2))+total(ps, of(3)), 0)
}

func TestDrumShowsItsRimsAndTwoSides(t *testing.T) {
	drum := scene.Object{ID: "drum", Round: true, Solid: geom.Drum(0, 0.1, 0.1, 0, 0.05, 64)}
	perimeter := 2 * 64 * 100 * math.Tan(math.Pi/64)
	wantLength(t, "along its axis", total(draw(t, sceneOf(drum), fromRight), nil), perimeter)
	wantLength(t, "from above", total(draw(t, sceneOf(drum), fromAbove), nil), 2*200+2*50)
	drum.Round = false
	if l := total(draw(t, sceneOf(drum), corner), kind(Inner)); l < 25*50*0.8 {
		t.Errorf("a prism that is no drum shows %v mm of inner edges", l)
	}
}

func TestGhostHidesNothing(t *testing.T) {
	front, back := block("front", 500, 0, 0, 600, 100, 100), block("back", 0, 40, 30, 100, 140, 130)
	front.Style = scene.Ghost
	wantLength(t, "back", total(draw(t, sceneOf(front, back), fromAhead), of(1)), 400)
	front.Style, back.Style = scene.Steel, scene.Ghost
	wantLength(t, "ghost", total(draw(t, sceneOf(front, back), fromAhead), of(1)), 270)
}

func TestOutlineIsTheRimOfTheGroup(t *testing.T) {
	a, b := block("a", 100, 0, 0, 200, 100, 100), block("b", 0, 50, 0, 100, 150, 100)
	a.Group, b.Group = "g", "g"
	ps := draw(t, sceneOf(a, b), fromAhead)
	wantLength(t, "outline", total(ps, kind(Outline)), 2*150+2*100)
	wantLength(t, "silhouette", total(ps, kind(Silhouette)), 100)
	b.Group = "h"
	ps = draw(t, sceneOf(a, b), fromAhead)
	wantLength(t, "outline", total(ps, kind(Outline)), 2*150+3*100)
}

func TestDrawRefusesWhatIsNotSound(t *testing.T) {
	open := block("open", 0, 0, 0, 1, 1, 1)
	open.Solid.Faces = open.Solid.Faces[1:]
	wild := block("wild", 0, 0, 0, 1, 1, 1)
	wild.Solid.Vertices[3][1] = math.NaN()
	for _, o := range []scene.Object{open, wild, {ID: "none"}} {
		if _, err := Draw(sceneOf(o), corner); err == nil || !strings.Contains(err.Error(), o.ID) {
			t.Errorf("%s: error %v", o.ID, err)
		}
	}
	if _, err := Draw(sceneOf(), scene.Camera{}); err == nil {
		t.Error("a camera without direction passed")
	}
	if ps, err := Draw(sceneOf(), corner); err != nil || len(ps) != 0 {
		t.Errorf("empty scene: %v, %v", ps, err)
	}
}

func TestDrawTwiceGivesTheSame(t *testing.T) {
	for name, c := range views() {
		if !reflect.DeepEqual(draw(t, culvert(), c), draw(t, culvert(), c)) {
			t.Errorf("%s differs", name)
		}
	}
}

// heap is a few boxes on a coarse lattice, so that faces and edges often lie
// on each other, some turned.
func heap(t *rapid.T) scene.Scene {
	var s scene.Scene
	place := rapid.IntRange(0, 4)
	size := rapid.IntRange(1, 3)
	for i := range rapid.IntRange(1, 8).Draw(t, "n") {
		x, y, z := place.Draw(t, "x"), place.Draw(t, "y"), place.Draw(t, "z")
		o := block(fmt.Sprint("o", i), 100*float64(x), 100*float64(y), 100*float64(z),
			100*float64(x+size.Draw(t, "a")), 100*float64(y+size.Draw(t, "b")), 100*float64(z+size.Draw(t, "c")))
		o.Group = rapid.SampledFrom([]string{"", "g", "h"}).Draw(t, "group")
		o.Whole = rapid.SampledFrom([]string{"", "", "w"}).Draw(t, "whole")
		if rapid.IntRange(0, 3).Draw(t, "turned") == 0 {
			angle := 0.05 * float64(rapid.IntRange(1, 30).Draw(t, "angle"))
			o.Solid = o.Solid.Moved(geom.Rotation(o.Solid.Box().Center(), vec{0, 0, 1}, angle))
		}
		s.Objects = append(s.Objects, o)
	}
	return s
}

func cameraOf(t *rapid.T) scene.Camera {
	switch rapid.IntRange(0, 3).Draw(t, "view") {
	case 0:
		return rapid.SampledFrom([]scene.Camera{fromAhead, fromAbove, fromRight, fromBelow}).Draw(t, "axis")
	case 1:
		return corner
	case 2:
		return scene.Perspective(vec{3, -2, 1.5}, vec{0.3, 0.3, 0.3}, vec{0, 0, 1})
	}
	// Steps of a twentieth: a face is seen edge-on or by more than rounding.
	f := rapid.IntRange(-20, 20)
	d := vec{float64(f.Draw(t, "dx")), float64(f.Draw(t, "dy")), float64(f.Draw(t, "dz"))}
	if d[0] == 0 && d[1] == 0 {
		d[0] = 1
	}
	return scene.Orthographic(d, vec{0, 0, 1})
}

func TestVisibleLengthNeverExceedsAllEdges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, c := heap(t), cameraOf(t)
		d, err := newDrawer(s, c)
		if err != nil {
			t.Fatal(err)
		}
		var all float64
		for _, it := range d.its {
			for _, e := range it.edges {
				all += d.view.project(it.verts[e.from]).sub(d.view.project(it.verts[e.to])).length()
			}
		}
		ps, err := Draw(s, c)
		if err != nil {
			t.Fatal(err)
		}
		if l := total(ps, nil); l > all+1e-6 || math.IsNaN(l) {
			t.Fatalf("%v mm seen of %v", l, all)
		}
	})
}

func TestOrderOfObjectsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, c := heap(t), cameraOf(t)
		back := scene.Scene{Objects: slices.Clone(s.Objects)}
		slices.Reverse(back.Objects)
		one, err := Draw(s, c)
		if err != nil {
			t.Fatal(err)
		}
		two, err := Draw(back, c)
		if err != nil {
			t.Fatal(err)
		}
		for i := range s.Objects {
			for k := Inner; k <= Outline; k++ {
				a := total(one, func(p Path) bool { return p.Object == i && p.Kind == k })
				b := total(two, func(p Path) bool { return p.Object == len(s.Objects)-1-i && p.Kind == k })
				if math.Abs(a-b) > 0.2 {
					t.Fatalf("object %d, %v: %v mm or %v", i, k, a, b)
				}
			}
		}
	})
}

// rimOf is the length of the rim of the union of rectangles of a unit lattice.
func rimOf(rects [][4]int) float64 {
	filled := map[[2]int]bool{}
	for _, r := range rects {
		for x := r[0]; x < r[2]; x++ {
			for y := r[1]; y < r[3]; y++ {
				filled[[2]int{x, y}] = true
			}
		}
	}
	var l float64
	for c := range filled {
		for _, n := range [][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			if !filled[[2]int{c[0] + n[0], c[1] + n[1]}] {
				l++
			}
		}
	}
	return l
}

func TestAlongAnAxisTheRimOfTheHeapIsWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		place, size := rapid.IntRange(0, 5), rapid.IntRange(1, 3)
		var s scene.Scene
		var rects [][4]int
		for i := range rapid.IntRange(1, 9).Draw(t, "n") {
			x, y, z := place.Draw(t, "x"), place.Draw(t, "y"), place.Draw(t, "z")
			u, v, w := x+size.Draw(t, "a"), y+size.Draw(t, "b"), z+size.Draw(t, "c")
			o := block(fmt.Sprint(i), 100*float64(x), 100*float64(y), 100*float64(z), 100*float64(u), 100*float64(v), 100*float64(w))
			o.Group = "g"
			s.Objects = append(s.Objects, o)
			rects = append(rects, [4]int{y, z, v, w})
		}
		ps, err := Draw(s, fromAhead)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := total(ps, kind(Outline)), 100*rimOf(rects); math.Abs(got-want) > 1 {
			t.Fatalf("outline %v mm, rim %v", got, want)
		}
	})
}
