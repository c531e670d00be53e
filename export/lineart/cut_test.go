package lineart

import (
	"math"
	"testing"

	"boxwalk/export/scene"
	"boxwalk/model/geom"
)

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
