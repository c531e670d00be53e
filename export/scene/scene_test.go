package scene

import (
	"math"
	"reflect"
	"testing"

	"boxwalk/model/geom"
)

func twoCubes() Scene {
	return Scene{Objects: []Object{
		{ID: "a", Group: "left", Style: Concrete, Solid: cube(), Mass: 2},
		{ID: "b", Group: "right", Style: Steel, Solid: cube().Moved(geom.Translation(geom.Vec{2, 0, 0})), Mass: 3},
	}}
}

func TestCutBaresOneFacePerObjectItGoesThrough(t *testing.T) {
	q := geom.Plane{N: geom.Vec{0, 0, 1}, D: 0.25}
	got, err := twoCubes().Cut([]Cut{{Plane: q}})
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Faces) != 2 || got.Faces[1].Object != 1 || got.Faces[1].Cut != 0 || len(got.Loop(got.Faces[1])) != 4 {
		t.Fatalf("faces %+v", got.Faces)
	}
	a := got.Loop(got.Faces[0])
	if n := a[1].Sub(a[0]).Cross(a[2].Sub(a[1])); n[2] <= 0 {
		t.Errorf("bared face turns away from the side taken away: %v", n)
	}
}

func TestALaterCutTrimsAnEarlierBaredFace(t *testing.T) {
	got, err := twoCubes().Cut([]Cut{
		{Plane: geom.Plane{N: geom.Vec{0, 0, 1}, D: 0.5}},
		{Plane: geom.Plane{N: geom.Vec{0, 1, 0}, D: 0.5}},
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range got.Faces {
		if b := geom.BoxOf(got.Loop(f)); b.Max[1] > 0.5 || b.Max[2] > 0.5 {
			t.Errorf("face reaches %v", b.Max)
		}
	}
	if len(got.Faces) != 4 {
		t.Errorf("%d faces, want 4", len(got.Faces))
	}
}

func TestCutTouchesOnlyTheGroupsAndStylesNamed(t *testing.T) {
	q := geom.Plane{N: geom.Vec{0, 0, 1}, D: 0.25}
	for _, k := range []Cut{{Plane: q, Groups: []string{"right"}}, {Plane: q, Styles: []Style{Steel}}} {
		got, err := twoCubes().Cut([]Cut{k})
		if err != nil {
			t.Fatal(err)
		}
		if v := got.Scene.Objects[0].Solid.Volume(); v != 1 {
			t.Errorf("the other object was cut to %v", v)
		}
		if v := got.Scene.Objects[1].Solid.Volume(); math.Abs(v-0.25) > 1e-15 {
			t.Errorf("volume %v, want 0.25", v)
		}
	}
}

func TestDropLeavesOutWhatReachesOutside(t *testing.T) {
	got, err := twoCubes().Cut([]Cut{{Plane: geom.Plane{N: geom.Vec{-1, 0, 0}, D: -0.5}, Drop: true}})
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(got.Source, []int{1}) || len(got.Faces) != 0 {
		t.Errorf("source %v, faces %v", got.Source, got.Faces)
	}
}

func TestViewFrameIsRightHandedAndTargetIsItsOrigin(t *testing.T) {
	c := Isometric(geom.Vec{-1, 1, 1})
	c.Target = geom.Vec{3, 4, 5}
	p := c.ViewFromScene()
	if d := p.R.Det(); math.Abs(d-1) > 1e-14 {
		t.Errorf("determinant %v", d)
	}
	if o := p.Apply(c.Target); o.Len() > 1e-14 {
		t.Errorf("target lands at %v", o)
	}
	if up := p.Turn(geom.Vec{0, 0, 1}); math.Abs(up[0]) > 1e-15 || math.Abs(up[1]-math.Sqrt(2./3)) > 1e-15 {
		t.Errorf("up shows as %v", up)
	}
}

func TestFrontViewFromAheadShowsLeftOnTheRight(t *testing.T) {
	p := Orthographic(geom.Vec{1, 0, 0}, geom.Vec{0, 0, 1}).ViewFromScene()
	if y := p.Turn(geom.Vec{0, 1, 0}); y.Sub(geom.Vec{1, 0, 0}).Len() > 1e-15 {
		t.Errorf("left shows as %v", y)
	}
}

func TestPerspectiveEyeIsWhereItWasPut(t *testing.T) {
	eye := geom.Vec{1, -2, 3}
	if e := Perspective(eye, geom.Vec{5, 5, 1}, geom.Vec{0, 0, 1}).Eye(); e.Sub(eye).Len() > 1e-14 {
		t.Errorf("eye at %v", e)
	}
}

func TestCameraCheckRefusesWhatSpansNoPicture(t *testing.T) {
	up := geom.Vec{0, 0, 1}
	good := Perspective(geom.Vec{1, 2, 3}, geom.Vec{}, up)
	if err := good.Check(); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]Camera{
		"up along view": Orthographic(up, up),
		"no direction":  {Up: up},
		"not finite":    Orthographic(geom.Vec{math.NaN(), 1, 0}, up),
		"no near":       {ToViewer: geom.Vec{1, 0, 0}, Up: up, Distance: 3},
		"long normal":   good.Cutting(Cut{Plane: geom.Plane{N: geom.Vec{2, 0, 0}}}),
	} {
		if c.Check() == nil {
			t.Errorf("%s passed", name)
		}
	}
}
