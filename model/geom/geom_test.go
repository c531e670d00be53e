package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestPrismIsASoundSolidWhateverTheTurningSense(t *testing.T) {
	section := []Point2{{0, 0}, {2, 0}, {2, 1}, {0, 1}}
	back := []Point2{{0, 1}, {2, 1}, {2, 0}, {0, 0}}
	for _, poly := range [][]Point2{section, back} {
		s := Prism(poly, 1, 4)
		if err := s.Check(); err != nil {
			t.Fatal(err)
		}
		if v := s.Volume(); math.Abs(v-6) > 1e-12 {
			t.Errorf("volume %v, want 6", v)
		}
		if c := s.Centroid(); c.Sub(Vec{2.5, 1, 0.5}).Len() > 1e-12 {
			t.Errorf("centroid %v", c)
		}
	}
}

func TestSkewPrismLeansByTheTangentOfItsSkew(t *testing.T) {
	s := SkewPrism([]Point2{{-1, 0}, {1, 0}, {1, 1}, {-1, 1}}, End{X: 0, Slope: 0.5}, SquareEnd(4))
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	if b := s.Box(); b.Min[0] != -0.5 || b.Max[0] != 4 {
		t.Errorf("box %v", b)
	}
	if v := s.Volume(); math.Abs(v-8) > 1e-12 {
		t.Errorf("volume %v, want 8", v)
	}
}

func TestDrumStandsAtItsRadiusAndSticksOutByTheOverhang(t *testing.T) {
	s := Drum(0, 0.125, 0.125, 0, 0.1, 128)
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	if low := s.Box().Min[2]; math.Abs(low) > 1e-12 {
		t.Errorf("lowest point %v, want 0", low)
	}
	far := 0.0
	for _, v := range s.Vertices {
		far = max(far, math.Hypot(v[0], v[2]-0.125)-0.125)
	}
	if want := 0.125 * (1/math.Cos(math.Pi/128) - 1); math.Abs(far-want) > 1e-12 || math.Abs(want-38e-6) > 1e-6 {
		t.Errorf("sticks out by %v, want %v, 0.04 mm", far, want)
	}
}

func TestBarRunsFromPointToPoint(t *testing.T) {
	s := Bar(0, Point2{0, 0}, Point2{3, 4}, 0.1)
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	if v := s.Volume(); math.Abs(v-5*0.01) > 1e-12 {
		t.Errorf("volume %v", v)
	}
}

func TestCheckNamesADent(t *testing.T) {
	s := Block(Box{Max: Vec{1, 1, 1}})
	s.Vertices[0] = Vec{0.2, 0.2, 0.2}
	if s.Check() == nil {
		t.Error("a dented block passed")
	}
	s.Vertices[0] = Vec{math.NaN(), 0, 0}
	if s.Check() == nil {
		t.Error("NaN passed")
	}
}

func TestMirroredSolidIsSoundAndHasTheSameVolume(t *testing.T) {
	s := Bar(1, Point2{0.2, 0.3}, Point2{3, 4}, 0.1)
	m := s.Mirrored()
	if err := m.Check(); err != nil {
		t.Fatal(err)
	}
	if math.Abs(m.Volume()-s.Volume()) > 1e-12 {
		t.Error("volume changed")
	}
}

func TestPoseInverseUndoesThePose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-10, 10)
		axis := Vec{f.Draw(t, "x"), f.Draw(t, "y"), f.Draw(t, "z")}
		if axis.Len() < 1e-3 {
			axis = Vec{0, 0, 1}
		}
		aFromB := Rotation(Vec{f.Draw(t, "p"), 1, 2}, axis.Normalize(), f.Draw(t, "a"))
		p := Vec{f.Draw(t, "u"), f.Draw(t, "v"), f.Draw(t, "w")}
		if d := aFromB.Inverse().Apply(aFromB.Apply(p)).Sub(p).Len(); d > 1e-12 {
			t.Fatalf("off by %v", d)
		}
	})
}

func TestBoxGapIsTheDistanceBetweenBoxes(t *testing.T) {
	a := Box{Max: Vec{1, 1, 1}}
	b := Box{Min: Vec{4, 5, 0}, Max: Vec{5, 6, 1}}
	if g := a.Gap(b); g != 5 {
		t.Errorf("gap %v, want 5", g)
	}
	if g := a.Gap(a); g != 0 {
		t.Errorf("gap with itself %v", g)
	}
}

func TestCurvatureOfASteadyTurnIsOmegaSquaredTimesRadius(t *testing.T) {
	b := Bound{Axis: Vec{1, 0, 0}, Omega: 2}
	if k := b.Curvature(Vec{7, 3, 4}); k != 20 {
		t.Errorf("curvature %v, want 20", k)
	}
}

func TestRadiusKeepsPointsNearTheAxisAndFarAlongIt(t *testing.T) {
	b := Bound{Axis: Vec{1, 0, 0}, Omega: 1}
	if r := b.Radius(Vec{1e6, 1e-3, 0}); math.Abs(r-1e-3) > 1e-12 {
		t.Errorf("radius %v, want 1 mm", r)
	}
}
