package frame

import (
	"os"
	"strconv"
	"strings"
	"testing"

	"boxwalk/model/units"
)

// seconds are the beams of .ci/beams.py, which solves them in exact fractions
// from continuity alone.
var seconds = map[string]struct {
	beam Beam
	load Loading
}{
	"stringer": {
		Beam{Stretches: []Stretch{{10, 900}}, Supports: []Support{Pin(1), Pin(3.5), Bed(6.25, 4000), Pin(9)}},
		Loading{[]PointLoad{{At: 4.75, Down: 7.5}}, []Distributed{{0.5, 6, 9.25, 9.25}, {8, 10, 3, 12}}},
	},
	"stepped": {
		Beam{Stretches: []Stretch{{2, 500}, {1.5, 2000}, {6.5, 750.5}}, Supports: []Support{Bed(0, 1500), Bed(2.75, 800), Bed(7.5, 12000)}},
		Loading{[]PointLoad{{3.5, -4, 2.5}, {10, 6, -1.25}}, []Distributed{{0, 10, 2, 5}, {1, 4.5, 6, 0}, {4.5, 5, -3, 8}}},
	},
}

// beams.csv is the output of .ci/beams.py, which CI makes anew.
func TestBeamsAgreeWithExactFractions(t *testing.T) {
	text, err := os.ReadFile("testdata/beams.csv")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	if len(lines) != 7+2*4*12 {
		t.Fatalf("%d answers", len(lines))
	}
	for _, line := range lines {
		f := strings.Split(line, ",")
		at, want := must(strconv.ParseFloat(f[2], 64)), must(strconv.ParseFloat(f[3], 64))
		s := seconds[f[0]]
		got := second(only(s.beam.Solve(s.load)), s.beam, f[1], units.Length(at))
		nearBy(t, line, got, want, 1e-12*(1+max(want, -want)))
	}
}

func second(r Response, b Beam, what string, at units.Length) float64 {
	if what == "reaction" {
		for i, s := range b.Supports {
			if s.At == at {
				return float64(r.Supports[i].Up)
			}
		}
	}
	s := must(r.At(at))
	return map[string]float64{"moment": float64(s.Moment), "shear": float64(s.Shear), "deflection": float64(s.Deflection), "slope": float64(s.Slope)}[what]
}
