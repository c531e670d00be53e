package clearance

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/job"
)

// A chain runs job and gear text, with some of it replaced, through reading,
// building and checking, as the command line does.
type chain struct {
	gear  string                   // file under testdata/gear
	job   string                   // text of the job; empty is cell24
	whole bool                     // the form as long as in its file
	swap  [][2]string              // replaced in the gear text; each must occur
	jobs  [][2]string              // replaced in the job text; each must occur
	vary  func(gear string) string // what is done to the gear text last; may be nil
}

// cell24 is the worked 3.0 m by 2.4 m cell with hangers over the bents.
const cell24 = `
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
left_in_place:
  hangers: {lines: [0 m], plate: 200 x 200 x 20 mm, rod: 25 mm, tail: 50 mm}
ends: {outlet: {apron: 12 m}}
schedule: {invert_age: 7 d}
concrete: {strength: 30 MPa, cement: N, curing: 16 degC}
travel: {capacity: 20 kN, hold_back: {capacity: 10 kN}}
gear: gear.yaml
`

// travels adds to the travel group of a worked job.
func travels(text string) [2]string {
	return [2]string{"travel: {capacity: 20 kN, hold_back: {capacity: 10 kN}", "travel: {capacity: 20 kN, hold_back: {capacity: 10 kN}, " + text}
}

// cell43 is the worked 4.27 m square cell.
const cell43 = `
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
left_in_place:
  hangers: {lines: [0 m], plate: 200 x 200 x 20 mm, rod: 25 mm, tail: 50 mm}
ends: {outlet: {apron: 12 m}}
schedule: {invert_age: 7 d}
concrete: {strength: 30 MPa, cement: N, curing: 16 degC}
travel: {capacity: 20 kN, hold_back: {capacity: 10 kN}}
gear: gear.yaml
`

// short makes a form of two bents of a gear file: what happens in the section
// is the same, and it is worked out sooner.
var short = map[string][][2]string{
	"roof-halves-24":      {{"length: 9.30 m, bents: 8, spacing: 1200 mm, first: 450 mm", "length: 2.40 m, bents: 2, spacing: 1200 mm, first: 600 mm"}, {"[1.35 m, 7.95 m]", "[0.3 m, 2.1 m]"}, {"[1.05 m, 3.45 m, 5.85 m, 8.25 m]", "[0.45 m, 1.95 m]"}},
	"roof-halves-43":      {{"length: 11.88 m, bents: 10, spacing: 1200 mm, first: 540 mm", "length: 2.40 m, bents: 2, spacing: 1200 mm, first: 600 mm"}, {"[1.44 m, 10.44 m]", "[0.3 m, 2.1 m]"}, {"[1.14 m, 3.54 m, 5.94 m, 8.34 m, 10.74 m]", "[0.45 m, 1.95 m]"}},
	"roof-whole-24":       {{"length: 9.30 m, bents: 8, spacing: 1200 mm, first: 450 mm", "length: 2.40 m, bents: 2, spacing: 1200 mm, first: 600 mm"}, {"[1.35 m, 7.95 m]", "[0.3 m, 2.1 m]"}, {"[1.05 m, 3.45 m, 5.85 m, 8.25 m]", "[0.45 m, 1.95 m]"}},
	"roof-whole-24-jacks": {{"length: 9.30 m, bents: 8, spacing: 1200 mm, first: 450 mm", "length: 2.40 m, bents: 2, spacing: 1200 mm, first: 600 mm"}, {"[1.35 m, 7.95 m]", "[0.3 m, 2.1 m]"}, {"[1.05 m, 3.45 m, 5.85 m, 8.25 m]", "[0.45 m, 1.95 m]"}},
}

func replaced(t *testing.T, what, text string, swap [][2]string) []byte {
	t.Helper()
	for _, s := range swap {
		if !strings.Contains(text, s[0]) {
			t.Fatalf("the %s has no %q to replace", what, s[0])
		}
		text = strings.ReplaceAll(text, s[0], s[1])
	}
	return []byte(text)
}

// read decodes and builds.
func (c chain) read(t *testing.T) *model.Study {
	t.Helper()
	s, why := c.built(t)
	if s == nil {
		t.Fatal(why)
	}
	return s
}

// built decodes and builds, or tells why it cannot.
func (c chain) built(t *testing.T) (*model.Study, string) {
	t.Helper()
	file, err := os.ReadFile("../testdata/gear/" + c.gear + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	if c.job == "" {
		c.job = cell24
	}
	cut := short[c.gear]
	if c.whole {
		cut = nil
	}
	gearText := replaced(t, "gear", string(replaced(t, "gear", string(file), cut)), c.swap)
	if c.vary != nil {
		gearText = []byte(c.vary(string(gearText)))
	}
	return built(gearText, replaced(t, "job", c.job, c.jobs))
}

// built is the study of two texts, or why there is none.
func built(gearText, jobText []byte) (*model.Study, string) {
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

func (c chain) check(t *testing.T) *result.Result {
	t.Helper()
	return Check(c.read(t), Options{Version: "test"})
}

// with another gear.
func (c chain) with(gear string) chain {
	c.gear = gear
	return c
}
