package carrier

import (
	"strings"
	"testing"

	"boxwalk/model/job"
	"boxwalk/model/units"
)

// link of a gear, by name.
func link(t *testing.T, g *job.Gear, name string) *job.Link {
	t.Helper()
	for i := range g.Links {
		if g.Links[i].Name == name {
			return &g.Links[i]
		}
	}
	t.Fatalf("no link %q", name)
	return nil
}

func TestWhatAKindHasNoPlaceForIsLacking(t *testing.T) {
	for _, c := range []struct {
		gear string
		make func(g *job.Gear)
		path string
	}{
		{"roof-halves-24", func(g *job.Gear) { g.RoofJack = &job.RoofJack{Adjust: job.Adjust{Max: 0.1}} }, "roof_jack"},
		{"roof-halves-24", func(g *job.Gear) { g.Roof.Pocket = &units.Size3{X: 0.2, Y: 0.2, Z: 0.03} }, "roof.pocket"},
		{"roof-halves-24", func(g *job.Gear) { g.Roof.Stringers.Middle = true }, "roof.stringers.middle"},
		{"roof-halves-24", func(g *job.Gear) { link(t, g, "turnbuckle").From.Body = "wall" }, "links[0].from.body"},
		{"roof-halves-24", func(g *job.Gear) { link(t, g, "upper brace").Name = "brace right" }, "links[2].name"},
		{"roof-whole-24", func(g *job.Gear) { g.Hinge = &job.Hinge{Behind: 0.16} }, "hinge"},
		{"roof-whole-24", func(g *job.Gear) { g.Corner.Return = 0.02 }, "corner.return"},
		{"roof-halves-24", func(g *job.Gear) { g.Steps[2].Removes = []string{"ties", "walls"} }, "steps[2].removes[1]"},
		{"roof-whole-24", func(g *job.Gear) { g.Corner.Leg = 0.18 }, "corner.leg"},
		{"roof-whole-24", func(g *job.Gear) { link(t, g, "low brace").Drives = "wall" }, "links[0].drives"},
		{"roof-whole-24", func(g *job.Gear) { link(t, g, "low brace").To.Body = "half" }, "links[0].to.body"},
		{"roof-whole-24", func(g *job.Gear) { g.Hinge, g.Slide = &job.Hinge{Behind: 0.16}, nil }, "gear.kind"},
	} {
		g := readGear(t, c.gear)
		c.make(g)
		lacks := Lacks(g)
		if len(lacks) != 1 || lacks[0].Key != c.path || lacks[0].Fix == "" {
			t.Errorf("%s, %s: %+v", c.gear, c.path, lacks)
		}
	}
}

func TestALinkWhosePinsFallTogetherIsTold(t *testing.T) {
	g := readGear(t, "roof-halves-24")
	sec := section(3, 2.4, 0.2)
	if troubles := Build(g, sec, Settle(sec, g, job.Set{}), Kept{}, 0).Collapsed(); len(troubles) > 0 {
		t.Errorf("a sound gear: %+v", troubles)
	}
	l := link(t, g, "turnbuckle")
	l.From.Out, l.From.Behind = nil, l.To.Behind
	troubles := Build(g, sec, Settle(sec, g, job.Set{}), Kept{}, 0).Collapsed()
	if len(troubles) != 1 || troubles[0].Key != "links[0].to" || !strings.Contains(troubles[0].Fix, "570 mm") {
		t.Errorf("%+v", troubles)
	}
}

// A step to a reading that no carrier can have stops there; what comes before
// stands, and nothing is worked out from it.
func TestAStepToAReadingNoLinkCanHaveStops(t *testing.T) {
	g := readGear(t, "roof-halves-24")
	sec := section(3, 2.4, 0.2)
	c := Build(g, sec, Settle(sec, g, job.Set{}), Kept{}, 0)
	for _, step := range []job.Step{
		{Step: "too far", Drivers: map[string]job.Target{"turnbuckle": {From: "raised", By: -1.2}}},
		{Step: "to nothing", Drivers: map[string]job.Target{"low brace": {}}},
		{Step: "over on one side", Drivers: map[string]job.Target{"jack left": {By: 20}}},
	} {
		steps, troubles := c.Lay([]job.Step{{Step: "down", Drivers: map[string]job.Target{"jack": {From: "raised", By: -0.025}}}, step, {Step: "on"}})
		if len(troubles) > 0 || len(steps) != 3 || steps[0].Stop != nil || steps[1].Stop == nil || steps[2].Stop == nil {
			t.Errorf("%s: %v, %+v", step.Step, troubles, steps)
			continue
		}
		for _, s := range steps[1:] {
			if s.Path != nil {
				t.Errorf("%s: %s has a path", step.Step, s.Name)
			}
		}
		if raising := c.Raising(steps); raising[0].Path != nil || raising[2].Path == nil {
			t.Errorf("%s: raised along a way that is not there", step.Step)
		}
	}
}

// 1.4 m / 0.3048 m = 4.593 175 85 ft, 1.3 m = 4.265 091 86 ft.
func TestWhatAGearLacksIsToldInTheUnitsOfItsFile(t *testing.T) {
	for units, want := range map[string]string{"metric": "max 1300 mm is less than min 1400 mm", "imperial": "max 4.26509186 ft is less than min 4.59317585 ft"} {
		g := readGear(t, "roof-halves-24")
		g.Gear.Units = units
		g.Frame.Gauge.Max = 1.3
		if lacks := Lacks(g); len(lacks) != 1 || lacks[0].Summary != want {
			t.Errorf("%s: %v", units, lacks)
		}
	}
}
