package views

import (
	"math"
	"path/filepath"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/export/sheet"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

// raisedSheet is the first cross-section of a job as set for the pour.
func raisedSheet(t *testing.T, s *model.Study) *sheet.Sheet {
	t.Helper()
	o := &drafter{study: s, result: &result.Result{}}
	out, err := o.fit(o.raised(o.cells()[0]))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// measures tells whether a sheet has a dimension of a length, mm, along an angle.
func measures(s *sheet.Sheet, angle, length float64) bool {
	for _, d := range dimensions(s) {
		if d.Angle == angle && math.Abs(d.Value()-length) < 1e-6 {
			return true
		}
	}
	return false
}

func TestTheHingeIsDimensionedInEveryJobWhoseWallsHinge(t *testing.T) {
	jobs, err := filepath.Glob("../../testdata/jobs/*/job.yaml")
	if err != nil || len(jobs) == 0 {
		t.Fatal("no jobs", err)
	}
	found := 0
	for _, path := range jobs {
		s := load(t, path)
		h := s.Bays[0].Carrier.Gear.Hinge
		if h == nil {
			continue
		}
		found++
		drawn := raisedSheet(t, s)
		for _, want := range []struct {
			name   string
			angle  float64
			length float64
		}{{"behind the wall face", 0, float64(h.Behind)}, {"above its plane part", 90, float64(h.Above)}} {
			if !measures(drawn, want.angle, perMetre*math.Abs(want.length)) {
				t.Errorf("%s: no dimension of the hinge %s", path, want.name)
			}
		}
	}
	if found == 0 {
		t.Error("no job has hinged walls")
	}
}

func TestTheFallOfTheRollerTrackIsDimensionedAndNamed(t *testing.T) {
	gears, err := filepath.Glob("../../testdata/gear/roof-whole*.yaml")
	if err != nil || len(gears) == 0 {
		t.Fatal("no gear", err)
	}
	for _, gear := range gears {
		s := load(t, onePour, gear)
		c := s.Bays[0].Carrier
		drawn := raisedSheet(t, s)
		for _, p := range c.Parts {
			if p.Role != carrier.Track || p.Side != culvert.Left {
				continue
			}
			lo, hi := running(p)
			if got, want := (hi[2]-lo[2])/(hi[1]-lo[1]), float64(c.Gear.Slide.Fall); math.Abs(got-want) > 1e-9 {
				t.Errorf("%s: the running face falls %.4f, the gear says %.4f", gear, got, want)
			}
			if !measures(drawn, 90, perMetre*(hi[2]-lo[2])) || !measures(drawn, 0, perMetre*(hi[1]-lo[1])) {
				t.Errorf("%s: fall or length of the track is not dimensioned", gear)
			}
			break
		}
		named := false
		for _, v := range drawn.Views {
			for _, i := range v.Items {
				l, ok := i.(sheet.Leader)
				named = named || ok && strings.Contains(strings.Join(l.Lines, " "), "roller track, falls 5 %")
			}
		}
		if !named {
			t.Errorf("%s: no label tells the fall", gear)
		}
	}
}

func TestAChannelIsDrawnInEveryView(t *testing.T) {
	s := load(t, onePour)
	channel := culvert.Channel{Offset: 0.1, Width: 0.6, Depth: 0.1}
	for i := range s.Culvert.Cells {
		s.Culvert.Cells[i].Channel = channel
	}
	for i := range s.Bays {
		s.Bays[i].Cell.Channel = channel
	}
	list := justSheets(t, s, &result.Result{})
	if !measures(named(t, list, "section-raised"), 0, 600) {
		t.Error("the channel's width is not dimensioned")
	}
	for name, want := range map[string]struct {
		on   sheet.Layer
		a, b sheet.Point // a point and a direction of an edge
	}{
		"section-raised":       {sheet.Concrete, across(0.4, -0.1), sheet.Pt(1, 0)},
		"section-collapsed":    {sheet.Concrete, across(0.4, -0.1), sheet.Pt(1, 0)},
		"sequence":             {sheet.Concrete, across(0.4, -0.1), sheet.Pt(1, 0)},
		"longitudinal-section": {sheet.Concrete, along(1, -0.1), sheet.Pt(1, 0)},
		"plan":                 {sheet.General, planPoint(1, 0.4), sheet.Pt(1, 0)},
	} {
		if !hasEdge(named(t, list, name), want.on, want.a, want.b) {
			t.Errorf("%s: no edge of the channel", name)
		}
	}
}

// hasEdge tells whether a line of a layer runs through a point in a direction.
func hasEdge(s *sheet.Sheet, on sheet.Layer, at, along sheet.Point) bool {
	through := func(a, b sheet.Point) bool {
		u := b.Sub(a)
		t := at.Sub(a)
		return u.Len() > 0 && math.Abs(cross(u.Normalize(), along)) < 1e-9 && math.Abs(cross(u.Normalize(), t)) < 1e-6 &&
			t.Dot(u) >= -1e-6 && t.Dot(u) <= u.Dot(u)+1e-6
	}
	for _, v := range s.Views {
		for _, i := range v.Items {
			switch i := i.(type) {
			case sheet.Line:
				if i.On == on && through(i.A, i.B) {
					return true
				}
			case sheet.Polyline:
				for k := 1; k < len(i.Points); k++ {
					if i.On == on && through(i.Points[k-1], i.Points[k]) {
						return true
					}
				}
			}
		}
	}
	return false
}
