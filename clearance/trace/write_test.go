package trace

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"boxwalk/clearance/proof"
	"boxwalk/clearance/sweep"
	"boxwalk/model/geom"

	"pgregory.net/rapid"
)

// sliding moves body 0 by a vector over the step; body -1 is the ground.
type sliding struct{ by geom.Vec }

func (m sliding) Pose(ref, body int, s float64) geom.Pose {
	if body == ref {
		return geom.Identity()
	}
	return geom.Translation(m.by.Mul(s))
}
func (sliding) Bound(ref, body int, s0, s1 float64) geom.Bound { return geom.Bound{} }
func (m sliding) ErrorBound(ref, body int, s float64) geom.ErrorBound {
	if body == ref {
		return geom.ErrorBound{}
	}
	return geom.TranslationErrorBound(m.by, s, 0)
}

func box(lo, hi geom.Vec) *geom.Solid {
	return geom.Prism([]geom.Point2{{lo[1], lo[2]}, {hi[1], lo[2]}, {hi[1], hi[2]}, {lo[1], hi[2]}}, lo[0], hi[0])
}

// row is a carrier of n boxes 100 mm wide, 200 mm apart along x, that slides up
// by rise under a roof in pieces as long as the boxes, 300 mm above them.
func row(n int, rise, lower float64) *Proof {
	c := &Carrier{Bodies: []Body{{Name: "frame", Parent: Ground, Kind: "slide", Axis: geom.Vec{0, 0, 1}, Link: -1}}}
	place := &Place{Name: "cell 1, pour 1"}
	step := &Step{ID: 1, Kind: Strip, Name: "up", Drives: []Drive{{Body: 0, From: 0, To: rise}}, Motion: sliding{geom.Vec{0, 0, rise}},
		Rests: func(frame, body int) bool { return body == frame }}
	for i := range n {
		x := 0.3 * float64(i)
		p := box(geom.Vec{x, 0, 0}, geom.Vec{x + 0.1, 0.1, 0.1})
		c.Parts = append(c.Parts, Part{Mark: fmt.Sprintf("B%d", i+1), Vertices: p.Vertices, Part: sweep.NewPart(0, p)})
		step.Parts = append(step.Parts, c.Parts[i].Part)
		r := box(geom.Vec{x, -1, 0.4}, geom.Vec{x + 0.3, 1, 0.6})
		place.Solids = append(place.Solids, Solid{Zone: "roof", Scenes: "s", Vertices: r.Vertices, Part: sweep.NewPart(sweep.Ground, r)})
	}
	c.Steps = []*Step{step}
	claim := &Claim{Step: step, Set: "roof", Needs: []Need{{ID: "strip.clear", Lower: lower}}}
	return &Proof{Result: strings.Repeat("0", 64), Zones: []Zone{{"roof", "soffit"}}, Carriers: []*Carrier{c}, Places: []*Place{place}, Claims: []*Claim{claim}}
}

func TestRowOfBoxesUnderARoofIsProvedToItsGapAndNoFarther(t *testing.T) {
	const rise = 0.25
	for _, c := range []struct {
		lower float64
		holds bool
	}{{0.05, true}, {0.04, true}, {0.0501, false}} {
		var out bytes.Buffer
		err := row(7, rise, c.lower).Write(&out, 2)
		if !c.holds {
			if err == nil || out.Len() > 0 {
				t.Errorf("%g m: %v, %d bytes", c.lower, err, out.Len())
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		report, err := proof.Verify(&out)
		if err != nil {
			t.Fatal(err)
		}
		if len(report.Entries) != 1 || report.Entries[0].Lower != c.lower || report.Planes != 1 {
			t.Errorf("%g m: %+v with %d planes", c.lower, report.Entries, report.Planes)
		}
	}
}

// One box of 64 touches its piece of the roof: all others are split off with one
// plane, and of the roof the pieces behind and ahead, however many there are.
func TestAPartThatTouchesIsFoundByThreePlanes(t *testing.T) {
	for _, n := range []int{16, 64} {
		p := row(n, -0.25, 0.05)
		const k = 5
		x := 0.3 * k
		high := box(geom.Vec{x + 0.1, 0, 0}, geom.Vec{x + 0.2, 0.1, 0.4})
		c, place := p.Carriers[0], p.Places[0]
		c.Parts[k].Vertices, c.Parts[k].Part = high.Vertices, sweep.NewPart(0, high)
		c.Steps[0].Parts[k] = c.Parts[k].Part
		place.Faces = []Contact{{Solid: k, Step: 1, Parts: []int{k}}}
		p.Claims[0].Needs = append(p.Claims[0].Needs, Need{ID: "strip.dig", Lower: 0, Touch: true})
		var out bytes.Buffer
		if err := p.Write(&out, 1); err != nil {
			t.Fatal(err)
		}
		report, err := proof.Verify(&out)
		if err != nil {
			t.Fatal(err)
		}
		if report.Planes != 4 || report.Contacts != 1 || report.Records != 8 {
			t.Errorf("%d boxes: %d planes, %d contacts, %d records", n, report.Planes, report.Contacts, report.Records)
		}
	}
}

func TestEachDirectionHasItsOppositeBesideIt(t *testing.T) {
	for i := range directions {
		if s := normals[i].Add(normals[i^1]); s.Len() > 1e-15 || math.Abs(normals[i].Len()-1) > 1e-15 {
			t.Errorf("direction %d: %v", i, normals[i])
		}
	}
	for k, d := range axes {
		if n := normals[d]; math.Abs(n[k]-1) > 1e-15 {
			t.Errorf("axis %d is %v", k, n)
		}
	}
}

// A list names by runs of the set exactly what it was given.
func TestListsReadAsWhatTheyWereMadeFrom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var set, in []int
		at := 0
		for range rapid.IntRange(1, 40).Draw(t, "members") {
			at += rapid.IntRange(1, 4).Draw(t, "step")
			set = append(set, at)
			if rapid.Bool().Draw(t, "in") {
				in = append(in, at)
			}
		}
		if got := read(list(in, set), set); fmt.Sprint(got) != fmt.Sprint(in) {
			t.Fatalf("%v of %v is written %q and reads as %v", in, set, list(in, set), got)
		}
	})
}

// read is a list by FORMAT.md: each item names every member from lo to hi.
func read(text string, set []int) []int {
	var out []int
	for _, item := range strings.Split(text, ",") {
		var lo, hi int
		switch n, _ := fmt.Sscanf(item, "%d-%d", &lo, &hi); n {
		case 0:
			continue
		case 1:
			hi = lo
		}
		for _, x := range set {
			if lo <= x && x <= hi {
				out = append(out, x)
			}
		}
	}
	return out
}
