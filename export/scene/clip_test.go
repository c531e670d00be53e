package scene

import (
	"math"
	"testing"

	"boxwalk/model/geom"

	"pgregory.net/rapid"
)

func cube() *geom.Solid { return geom.Block(geom.Box{Max: geom.Vec{1, 1, 1}}) }

func clipped(t *testing.T, s *geom.Solid, q geom.Plane) *geom.Solid {
	t.Helper()
	out, err := Clip(s, q)
	if err != nil {
		t.Fatal(err)
	}
	if out != nil {
		if err := out.Check(); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

func TestClipHalvesACube(t *testing.T) {
	half := clipped(t, cube(), geom.Plane{N: geom.Vec{1, 0, 0}, D: 0.5})
	if v := half.Volume(); math.Abs(v-0.5) > 1e-15 {
		t.Errorf("volume %v, want 0.5", v)
	}
	if len(half.Faces) != 6 || len(half.Vertices) != 8 {
		t.Errorf("%d faces, %d vertices; want 6, 8", len(half.Faces), len(half.Vertices))
	}
}

func TestClipThroughACornerLeavesTheTetrahedronOut(t *testing.T) {
	n := geom.Vec{1, 1, 1}.Normalize()
	rest := clipped(t, cube(), geom.Plane{N: n, D: 2.5 / math.Sqrt(3)})
	if v := rest.Volume(); math.Abs(v-(1-0.125/6)) > 1e-14 {
		t.Errorf("volume %v", v)
	}
}

func TestClipThroughVerticesAddsNone(t *testing.T) {
	n := geom.Vec{1, 1, 0}.Normalize()
	half := clipped(t, cube(), geom.Plane{N: n, D: 1 / math.Sqrt2})
	if len(half.Vertices) != 6 || len(half.Faces) != 5 || math.Abs(half.Volume()-0.5) > 1e-15 {
		t.Errorf("%d vertices, %d faces, volume %v", len(half.Vertices), len(half.Faces), half.Volume())
	}
}

func TestClipAtAFaceKeepsAllOrNothing(t *testing.T) {
	s := cube()
	if out := clipped(t, s, geom.Plane{N: geom.Vec{1, 0, 0}, D: 1}); out != s {
		t.Error("a plane on the outer face changed the solid")
	}
	if out := clipped(t, s, geom.Plane{N: geom.Vec{1, 0, 0}, D: 0}); out != nil {
		t.Error("only a face is inside, yet a solid stayed")
	}
}

func TestClipRefusesWhatIsNotANumber(t *testing.T) {
	if _, err := Clip(cube(), geom.Plane{N: geom.Vec{1, 0, 0}, D: math.NaN()}); err == nil {
		t.Error("NaN passed")
	}
}

func TestTheTwoPartsOfACutAddUpToTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-1, 1)
		n := geom.Vec{f.Draw(t, "x"), f.Draw(t, "y"), f.Draw(t, "z")}
		if n.Len() < 1e-2 {
			n = geom.Vec{1, 0, 0}
		}
		n = n.Normalize()
		drum := geom.Drum(0, 0, 0.4, -0.3, 0.5, rapid.IntRange(3, 40).Draw(t, "sides"))
		d := f.Draw(t, "d")
		var sum float64
		for _, q := range []geom.Plane{{N: n, D: d}, {N: n.Mul(-1), D: -d}} {
			part, err := Clip(drum, q)
			if err != nil {
				t.Fatal(err)
			}
			if part == nil {
				continue
			}
			sum += part.Volume()
			for _, v := range part.Vertices {
				if q.Distance(v) > 2*onPlane {
					t.Fatalf("vertex %v stands %v outside", v, q.Distance(v))
				}
			}
		}
		if math.Abs(sum-drum.Volume()) > 1e-9 {
			t.Fatalf("parts sum to %v, whole %v", sum, drum.Volume())
		}
	})
}

func FuzzClipOfADrumIsSoundOrRefused(f *testing.F) {
	f.Add(0.0, 0.0, 1.0, 0.1, 12)
	f.Add(1.0, 1.0, 0.0, 0.4, 4)
	f.Add(0.0, 1.0, 0.0, 0.5-1e-10, 7)
	f.Fuzz(func(t *testing.T, x, y, z, d float64, sides int) {
		n := geom.Vec{x, y, z}.Normalize()
		drum := geom.Drum(0, 0, 0.4, -0.3, 0.5, 3+(sides%30+30)%30)
		part, err := Clip(drum, geom.Plane{N: n, D: d})
		if err != nil {
			if !math.IsNaN(n.Len()) && !math.IsNaN(d) {
				t.Fatalf("a plane with numbers was refused: %v", err)
			}
			return
		}
		if part == nil {
			return
		}
		if v := part.Volume(); !(v >= -1e-12 && v <= drum.Volume()+1e-12) {
			t.Fatalf("volume %v of %v", v, drum.Volume())
		}
	})
}
