// Package worked has the carriers and jobs of testdata as studies, for tests of the
// packages above and below: text goes through reading and building as the command
// line does it.
package worked

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/job"
)

// A Chain is job and gear text, with some of it replaced, read and built.
type Chain struct {
	Gear  string                   // file under testdata/gear
	Job   string                   // text of the job; empty is Cell24
	Whole bool                     // the form as long as in its file
	Swap  [][2]string              // replaced in the gear text; each must occur
	Jobs  [][2]string              // replaced in the job text; each must occur
	Vary  func(gear string) string // what is done to the gear text last; may be nil
}

// Hangers are those of the worked cells.
const Hangers = "left_in_place:\n  hangers: {lines: [0 m], plate: 200 x 200 x 20 mm, rod: 25 mm, tail: 50 mm, rod_capacity: 120 kN, plate_stress: 160 MPa, beam: {moment: 120 kNm, shear: 90 kN, bears: 200 x 200 mm}}\n"

// Cell24 is the worked 3.0 m by 2.4 m cell with hangers over the bents.
const Cell24 = `
job: {name: worked cell, number: W-24}
culvert:
  cells: 1
  span: 3.0 m
  rise: 2.4 m
  roof: 300 mm
  invert: 300 mm
  outer_wall: 250 mm
  haunch: {top: 200 x 200 mm, bottom: 150 x 150 mm}
  kicker: 300 mm
  pours: [2.3 m]
` + Hangers + `ends: {outlet: {apron: 12 m}}
schedule: {invert_age: 7 d, walls_age: 4 d, roof_age: 4 d}
concrete: {strength: 30 MPa, cement: N, curing: 16 degC, walls_strength: 12 MPa, roof_strength: 21 MPa}
stand: {wind: 0.3 kPa, friction: 0.3, friction_source: pull test on the slab (invented), anchor: 20 kN, chocks: 12 kN}
anchors: {line: {capacity: 30 kN}, restraint: {capacity: 30 kN}}
release: {walls: {strength: 5 MPa}, roof: {strength: 15 MPa}}
travel: {capacity: 20 kN, restraint: {capacity: 10 kN}}
pour: {anchor: 80 kN}
capacities: {basis: permissible, source: plates of winch and restraint}
gear: gear.yaml
`

// Cell43 is the worked 4.27 m square cell.
const Cell43 = `
job: {name: worked cell, number: W-43}
culvert:
  cells: 1
  span: 4.27 m
  rise: 4.27 m
  roof: 350 mm
  invert: 350 mm
  outer_wall: 350 mm
  haunch: {top: 300 x 300 mm, bottom: 150 x 150 mm}
  kicker: 300 mm
  pours: [2.3 m]
` + Hangers + `ends: {outlet: {apron: 12 m}}
schedule: {invert_age: 7 d, walls_age: 4 d, roof_age: 4 d}
concrete: {strength: 30 MPa, cement: N, curing: 16 degC, walls_strength: 12 MPa, roof_strength: 21 MPa}
stand: {wind: 0.1 kPa, friction: 0.3, friction_source: pull test on the slab (invented), anchor: 20 kN, chocks: 12 kN}
anchors: {line: {capacity: 30 kN}, restraint: {capacity: 30 kN}}
release: {walls: {strength: 5 MPa}, roof: {strength: 15 MPa}}
travel: {capacity: 20 kN, restraint: {capacity: 10 kN}}
pour: {anchor: 80 kN}
capacities: {basis: permissible, source: plates of winch and restraint}
gear: gear.yaml
`

// Short makes a form of two bents of a gear file: what happens in the section
// is the same, and it is worked out sooner.
var Short = map[string][][2]string{
	"roof-halves-24":      {{"length: 9.30 m, bents: 8, spacing: 1200 mm, first: 450 mm", "length: 2.40 m, bents: 2, spacing: 1200 mm, first: 600 mm"}, {"[1.35 m, 7.95 m]", "[0.3 m, 2.1 m]"}, {"[1.05 m, 3.45 m, 5.85 m, 8.25 m]", "[0.45 m, 1.95 m]"}},
	"roof-halves-43":      {{"length: 11.88 m, bents: 10, spacing: 1200 mm, first: 540 mm", "length: 2.40 m, bents: 2, spacing: 1200 mm, first: 600 mm"}, {"[1.44 m, 10.44 m]", "[0.3 m, 2.1 m]"}, {"[1.14 m, 3.54 m, 5.94 m, 8.34 m, 10.74 m]", "[0.45 m, 1.95 m]"}},
	"roof-whole-24":       {{"length: 9.30 m, bents: 8, spacing: 1200 mm, first: 450 mm", "length: 2.40 m, bents: 2, spacing: 1200 mm, first: 600 mm"}, {"[1.35 m, 7.95 m]", "[0.3 m, 2.1 m]"}, {"[1.05 m, 3.45 m, 5.85 m, 8.25 m]", "[0.45 m, 1.95 m]"}},
	"roof-whole-24-jacks": {{"length: 9.30 m, bents: 8, spacing: 1200 mm, first: 450 mm", "length: 2.40 m, bents: 2, spacing: 1200 mm, first: 600 mm"}, {"[1.35 m, 7.95 m]", "[0.3 m, 2.1 m]"}, {"[1.05 m, 3.45 m, 5.85 m, 8.25 m]", "[0.45 m, 1.95 m]"}},
}

// Replaced is a text with some of it replaced; each must occur.
func Replaced(t *testing.T, what, text string, swap [][2]string) []byte {
	t.Helper()
	for _, s := range swap {
		if !strings.Contains(text, s[0]) {
			t.Fatalf("the %s has no %q to replace", what, s[0])
		}
		text = strings.ReplaceAll(text, s[0], s[1])
	}
	return []byte(text)
}

// Study decodes and builds.
func (c Chain) Study(t *testing.T) *model.Study {
	t.Helper()
	s, why := c.Built(t)
	if s == nil {
		t.Fatal(why)
	}
	return s
}

// Built decodes and builds, or tells why it cannot.
func (c Chain) Built(t *testing.T) (*model.Study, string) {
	t.Helper()
	file, err := os.ReadFile(Path("gear", c.Gear+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	if c.Job == "" {
		c.Job = Cell24
	}
	cut := Short[c.Gear]
	if c.Whole {
		cut = nil
	}
	gearText := Replaced(t, "gear", string(Replaced(t, "gear", string(file), cut)), c.Swap)
	if c.Vary != nil {
		gearText = []byte(c.Vary(string(gearText)))
	}
	return Read(gearText, Replaced(t, "job", c.Job, c.Jobs))
}

// Read is the study of two texts, or why there is none.
func Read(gearText, jobText []byte) (*model.Study, string) {
	g, _, problems := job.Decode[job.Gear]("gear.yaml", gearText, job.PeekSystem(gearText))
	if g == nil {
		return nil, problems.Error()
	}
	j, _, problems := job.Decode[job.Job]("job.yaml", jobText, job.PeekSystem(jobText))
	if j == nil {
		return nil, problems.Error()
	}
	if lacks := carrier.Lacks(g); len(lacks) > 0 {
		return nil, fmt.Sprint(lacks)
	}
	s, troubles := model.Build(j, g)
	if len(troubles) > 0 {
		return nil, fmt.Sprint(troubles)
	}
	return s, ""
}

// With is the same job with another gear.
func (c Chain) With(gear string) Chain {
	c.Gear = gear
	return c
}

// Path is a file of testdata, from wherever a test runs in the module.
func Path(elements ...string) string {
	folder := "testdata"
	for range 4 {
		if _, err := os.Stat(filepath.Join(folder, "jobs")); err == nil {
			break
		}
		folder = filepath.Join("..", folder)
	}
	return filepath.Join(append([]string{folder}, elements...)...)
}

// Job is a job of the test data, some of its text replaced, as the command
// line reads and builds it.
func Job(t *testing.T, name string, swap ...[2]string) *model.Study {
	t.Helper()
	path := Path("jobs", name, "job.yaml")
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	text := Replaced(t, "job", string(file), swap)
	j, _, problems := job.Decode[job.Job](path, text, job.PeekSystem(text))
	if j == nil {
		t.Fatal(problems.Error())
	}
	temperatures(t, j, filepath.Dir(path))
	if text, err = os.ReadFile(filepath.Join(filepath.Dir(path), j.Gear)); err != nil {
		t.Fatal(err)
	}
	g, _, problems := job.Decode[job.Gear](j.Gear, text, job.PeekSystem(text))
	if g == nil {
		t.Fatal(problems.Error())
	}
	if lacks := carrier.Lacks(g); len(lacks) > 0 {
		t.Fatal(lacks)
	}
	s, troubles := model.Build(j, g)
	if len(troubles) > 0 {
		t.Fatal(troubles)
	}
	return s
}

// temperatures reads the files of temperatures that a job names.
func temperatures(t *testing.T, j *job.Job, folder string) {
	t.Helper()
	for _, key := range job.CuringKeys() {
		c := j.CuringAt(key)
		if c == nil || c.File == "" {
			continue
		}
		text, err := os.ReadFile(filepath.Join(folder, c.File))
		if err != nil {
			t.Fatal(err)
		}
		spells, problems := job.ReadTemperatures(c.File, text)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		c.Spells = spells
	}
}
