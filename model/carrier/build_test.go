package carrier

import (
	"math"
	"os"
	"testing"

	"boxwalk/model/culvert"
	"boxwalk/model/job"
	"boxwalk/model/motion"
)

// readGear reads a gear file of the demo.
func readGear(t *testing.T, name string) *job.Gear {
	t.Helper()
	path := "../../testdata/gear/" + name + ".yaml"
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	g, _, problems := job.Decode[job.Gear](path, text, job.PeekSystem(text))
	if g == nil {
		t.Fatal(problems.Error())
	}
	if lacks := Lacks(g); len(lacks) > 0 {
		t.Fatal(lacks)
	}
	return g
}

// section of the worked cells: equal haunches, 300 mm kicker.
func section(span, rise, top float64) culvert.Section {
	return culvert.Section{HalfSpan: span / 2, Rise: rise, Roof: 0.3, Invert: 0.3, Left: 0.25, Right: 0.25,
		Top: culvert.Haunch{Run: top, Rise: top}, Bottom: culvert.Haunch{Run: 0.15, Rise: 0.15}, Kicker: 0.3}
}

func TestGearSetsToTheWorkedSections(t *testing.T) {
	for _, c := range []struct {
		gear                                       string
		sec                                        culvert.Section
		jack, wheels, foot, header, filler, leg, n float64
	}{
		{"roof-halves-24", section(3, 2.4, 0.2), 0.330, 0.210, 0.250, 2.140, 0.360, 1.640, 0},
		{"roof-halves-43", section(4.27, 4.27, 0.3), 0.410, 0.260, 0.250, 3.950, 0.400, 3.330, 0},
		{"roof-whole-24", section(3, 2.4, 0.2), 0.330, 0.210, 0.250, 2.140, 0.160, 1.640, 0},
		{"roof-whole-24-jacks", section(3, 2.4, 0.2), 0.330, 0.250, 0.250, 2.090, 0.160, 1.590, 0},
	} {
		s := Settle(c.sec, readGear(t, c.gear), job.Set{})
		for _, v := range []struct {
			what      string
			got, want float64
		}{{"jack", s.Jack, c.jack}, {"wheels", s.Wheels, c.wheels}, {"foot", s.Foot, c.foot}, {"header", s.Header, c.header}, {"filler", s.Filler, c.filler}, {"leg", s.Leg, c.leg}} {
			if math.Abs(v.got-v.want) > 1e-9 {
				t.Errorf("%s: %s %v, want %v", c.gear, v.what, v.got, v.want)
			}
		}
		for _, f := range s.Findings {
			if !f.Reached() {
				t.Errorf("%s: %s not reached: %s", c.gear, f.Subject, f.Text.Say(mm))
			}
		}
	}
}

func TestEveryPartIsASoundConvexSolid(t *testing.T) {
	for _, name := range []string{"roof-halves-24", "roof-halves-43", "roof-whole-24", "roof-whole-24-jacks"} {
		sec := section(3, 2.4, 0.2)
		if name == "roof-halves-43" {
			sec = section(4.27, 4.27, 0.3)
		}
		g := readGear(t, name)
		c := Build(g, sec, Settle(sec, g, job.Set{}), Kept{}, 0)
		if err := c.Mechanism.Check(); err != nil {
			t.Fatal(err)
		}
		marks := map[string]bool{}
		for _, p := range c.Parts {
			if err := p.Check(); err != nil {
				t.Errorf("%s %s: %v", name, p.Label(), err)
			}
			if p.Volume() <= 0 || p.Mass.Low <= 0 || p.Mass.High < p.Mass.Low {
				t.Errorf("%s %s: volume %v, mass %v", name, p.Label(), p.Volume(), p.Mass)
			}
			if marks[p.At()] {
				t.Errorf("%s: mark %s twice", name, p.At())
			}
			marks[p.At()] = true
		}
		t.Logf("%s: %d parts, %d bodies, %d declared pairs", name, len(c.Parts), len(c.Mechanism.Bodies), len(c.Declared))
	}
}

func TestLinksReadTheWorkedLengthsAtEveryStep(t *testing.T) {
	g := readGear(t, "roof-halves-24")
	sec := section(3, 2.4, 0.2)
	c := Build(g, sec, Settle(sec, g, job.Set{}), Kept{}, 0)
	steps, troubles := c.Lay(g.Steps)
	if len(troubles) > 0 {
		t.Fatal(troubles)
	}
	// jack, low brace, upper brace, turnbuckle at the end of each step, mm
	want := [][4]float64{{330, 730.6, 1097.9, 700}, {330, 590, 1037.6, 700}, {305, 590, 1037.6, 700}, {305, 590, 1028.1, 650},
		{255, 590, 1028.1, 650}, {255, 590, 1014.1, 580}, {210, 590, 1014.1, 580}, {150, 590, 1014.1, 580}}
	if len(steps) != len(want) {
		t.Fatalf("%d steps, want %d", len(steps), len(want))
	}
	for i, s := range steps {
		if s.Stop != nil {
			t.Fatal(s.Stop)
		}
		for k, name := range []string{"jack left", "low brace right", "upper brace left", "turnbuckle right"} {
			for _, m := range s.Moves {
				if c.Adjusters[m.Adjuster].Label() == name && math.Abs(m.To*1000-want[i][k]) > 0.05 {
					t.Errorf("step %q: %s %.2f, want %.1f", s.Name, name, m.To*1000, want[i][k])
				}
			}
		}
	}
	if !steps[7].Carried || steps[5].Carried {
		t.Error("wheels carry from the step that lowers onto them")
	}
	// lowered 120, drawn in 120, plates 60 clear
	last := steps[7]
	if p := last.Pose(c.find("frame")).T; math.Abs(p[2]+0.12) > 1e-12 {
		t.Errorf("frame at %v", p)
	}
	if p := last.Path.Pose(motion.Ground, c.find("plate left"), 1).T; math.Abs(p[2]-0.06) > 1e-12 {
		t.Errorf("plate at %v", p)
	}
}

func TestRaisingEndsWhereTheCollapseBegan(t *testing.T) {
	for _, name := range []string{"roof-halves-24", "roof-whole-24", "roof-whole-24-jacks"} {
		g := readGear(t, name)
		sec := section(3, 2.4, 0.2)
		c := Build(g, sec, Settle(sec, g, job.Set{}), Kept{}, 0)
		steps, _ := c.Lay(g.Steps)
		up := c.Raising(steps)
		for _, p := range c.Parts {
			v := p.Vertices[0]
			if p.Role == Filler {
				continue
			}
			if d := up[len(up)-1].Path.Pose(motion.Ground, p.Body, 1).Apply(v).Sub(v).Len(); d > 1e-12 {
				t.Fatalf("%s %s ends %v m off", name, p.Label(), d)
			}
		}
	}
}
