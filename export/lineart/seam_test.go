package lineart

import (
	"math"
	"testing"

	"github.com/fogleman/ln/ln"
)

func TestGapsAreWhatArcsLeaveOfTheTurn(t *testing.T) {
	const deg = math.Pi / 180
	for name, k := range map[string]struct{ solid, open []arc }{
		"one":              {[]arc{{0, 90}}, []arc{{90, 270}}},
		"two side by side": {[]arc{{0, 90}, {90, 90}}, []arc{{180, 180}}},
		"round zero":       {[]arc{{20, 30}, {300, 160}}, []arc{{100, 200}}},
		"two gaps":         {[]arc{{10, 80}, {180, 90}}, []arc{{90, 90}, {270, 100}}},
		"negative start":   {[]arc{{-90, 180}}, []arc{{90, 180}}},
		"full":             {[]arc{{0, 200}, {150, 210}}, nil},
		"whole turn":       {[]arc{{10, 360}, {20, 30}}, nil},
	} {
		var solid []arc
		for _, a := range k.solid {
			solid = append(solid, arc{a.start * deg, a.width * deg})
		}
		got := gaps(solid)
		if len(got) != len(k.open) {
			t.Errorf("%s: %v", name, got)
			continue
		}
		for i, g := range got {
			turned := math.Remainder(g.start-k.open[i].start*deg, 2*math.Pi)
			if math.Abs(turned) > 1e-12 || math.Abs(g.width-k.open[i].width*deg) > 1e-12 {
				t.Errorf("%s: gap %v, want %v degrees", name, g, k.open[i])
			}
		}
	}
}

func TestWedgeOfABoxEdgeIsAQuarterTurnTowardsTheSolid(t *testing.T) {
	f := newAxial(ln.Vector{Z: 1})
	w, ok := f.wedge(ln.Vector{X: 1}, ln.Vector{Y: 1})
	if !ok || math.Abs(w.width-math.Pi/2) > 1e-12 {
		t.Fatalf("wedge %v", w)
	}
	mid := f.direction(w.start + w.width/2)
	if mid.Distance(ln.Vector{X: -math.Sqrt2 / 2, Y: -math.Sqrt2 / 2}) > 1e-12 {
		t.Errorf("middle of the solid lies towards %v", mid)
	}
	if _, ok := f.wedge(ln.Vector{X: 1}, ln.Vector{X: -1}); ok {
		t.Error("two faces back to back leave solid")
	}
}
