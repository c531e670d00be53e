package views

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
	"boxwalk/model"
)

// onLine is the small job with two pours of 9 m on a line that turns and breaks
// in grade at their joint.
func onLine(t *testing.T, turn string) *model.Study {
	t.Helper()
	text, err := os.ReadFile(onePour)
	if err != nil {
		t.Fatal(err)
	}
	job := strings.ReplaceAll(string(text), "pours: [9 m]", "pours: [9 m, 9 m]\n  joint_gap: 20 mm") + `
alignment:
  start: {elevation: 100 m}
  plan: [{tangent: 9 m}, {turn: ` + turn + `}, {tangent: 9 m}]
  profile: [{station: 0+000, elevation: 100 m}, {station: 0+009, elevation: 100 m}, {station: 0+018, elevation: 100.36 m}]
`
	path := filepath.Join(t.TempDir(), "job.yaml")
	if err := os.WriteFile(path, []byte(job), 0o644); err != nil {
		t.Fatal(err)
	}
	return load(t, path, "../../testdata/gear/roof-halves-24.yaml")
}

// edgesOf are the straight lines of a view, mm.
func edgesOf(v *sheet.View) [][2]sheet.Point {
	var out [][2]sheet.Point
	for _, i := range v.Items {
		switch i := i.(type) {
		case sheet.Line:
			out = append(out, [2]sheet.Point{i.A, i.B})
		case sheet.Polyline:
			for k := 1; k < len(i.Points); k++ {
				out = append(out, [2]sheet.Point{i.Points[k-1], i.Points[k]})
			}
			if i.Closed {
				out = append(out, [2]sheet.Point{i.Points[len(i.Points)-1], i.Points[0]})
			}
		}
	}
	return out
}

// drawnEdge tells whether a view has an edge between two points.
func drawnEdge(edges [][2]sheet.Point, a, b sheet.Point) bool {
	same := func(p, q sheet.Point) bool { return p.Sub(q).Len() < 1e-6 }
	for _, e := range edges {
		if same(e[0], a) && same(e[1], b) || same(e[0], b) && same(e[1], a) {
			return true
		}
	}
	return false
}

// The outer faces lie w = 1.75 m beside the line, and the joint is mitred by half
// the turn. Inside the bend a pour of 9 m is
//
//	9 m - 10 mm of joint gap - 1.75 m x tan(17 deg / 2) = 8.728 461 m
//
// long, outside 9.251 539 m. The second pour rises 0.36 m over 9 m: its chord is
// sqrt(9^2 + 0.36^2) = 9.007 197 m, so 8.735 658 m and 9.258 736 m.
func TestPlanDimensionsFollowTheDrawnEdgeOfABend(t *testing.T) {
	for turn, inside := range map[string]float64{"17 deg left": 1, "17 deg right": -1} {
		s := onLine(t, turn)
		list := justSheets(t, s, &result.Result{})
		plan := named(t, list, "-plan")
		miter := 1.75 * math.Tan(8.5*math.Pi/180)
		second := math.Hypot(9, 0.36)
		for _, want := range []float64{9 - 0.01 - miter, 9 - 0.01 + miter, second - 0.01 - miter, second - 0.01 + miter} {
			found := false
			for _, d := range dimensions(plan) {
				found = found || math.Abs(d.Value()-perMetre*want) < 0.01
			}
			if !found {
				t.Errorf("%s: no dimension of %.3f mm on the plan", turn, perMetre*want)
			}
		}
		// on the track plan, left: both pours
		for _, want := range []float64{9 - 0.01 - inside*miter, second - 0.01 - inside*miter} {
			found := false
			for _, n := range list {
				found = found || strings.Contains(n.Name, "wheel-track") && measures(n.Sheet, 0, perMetre*want)
			}
			if !found {
				t.Errorf("%s: no dimension of %.3f mm on the track plan", turn, perMetre*want)
			}
		}
		// the drawn pour is cut at the top of the roof: 2.7 m up its mitred face
		// leans half the break back
		crown := 9 - 0.01 - 2.7*math.Tan(math.Atan2(0.36, 9)/2)
		if got := suffixed(named(t, list, "longitudinal"), " pour on the centreline"); !near(got, perMetre*crown, 1e-3) {
			t.Errorf("%s: longitudinal section %v, want %.3f", turn, got, perMetre*crown)
		}
	}
}

// What is dimensioned along a wall is an edge of it, drawn between the two
// witness points; what is dimensioned across is square to the line at the inlet.
func TestEveryPlanDimensionMeasuresADrawnEdge(t *testing.T) {
	jobs, err := filepath.Glob("../../testdata/jobs/*/job.yaml")
	if err != nil || len(jobs) < 10 {
		t.Fatal(len(jobs), "jobs", err)
	}
	for _, path := range jobs {
		s := load(t, path)
		o := &drafter{study: s, result: &result.Result{}}
		drawn, err := o.fit(o.plan())
		if err != nil {
			t.Fatal(err)
		}
		along := 0
		for _, v := range drawn.Views {
			edges := edgesOf(v)
			for _, i := range drawn.Model(v) {
				d, ok := i.(sheet.Dimension)
				switch {
				case !ok:
				case d.Angle != 90 && drawnEdge(edges, d.From, d.To):
					along++
					if length := d.To.Sub(d.From).Len(); math.Abs(d.Value()-length) > 1e-6 {
						t.Errorf("%s: %.4f mm stands at an edge of %.4f", path, d.Value(), length)
					}
				case d.Angle != 90 || math.Abs(d.From[0]-d.To[0]) > 1e-9:
					t.Errorf("%s: %.4f mm at no drawn edge", path, d.Value())
				}
			}
		}
		if want := 2 * len(s.Culvert.Pours); along != want {
			t.Errorf("%s: %d dimensions along the walls, want %d", path, along, want)
		}
	}
}
