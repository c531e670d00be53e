package clearance

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/job"
)

// row is one published box of testdata/sections.csv.
type row struct {
	id         string
	span, rise int // ft
	roof, wall float64
	invert     float64
	haunch     float64 // in, all four corners; 0 for none
	flag       string
	source     string
	kinds      []string
}

// sections reads testdata/sections.csv.
func sections(t *testing.T) []row {
	t.Helper()
	f, err := os.Open("../testdata/sections.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []row
	for _, l := range lines[1:] {
		n := func(i int) float64 {
			v, err := strconv.ParseFloat(l[i], 64)
			if err != nil {
				t.Fatalf("%s: %v", l[0], err)
			}
			return v
		}
		out = append(out, row{id: l[0], span: int(n(1)), rise: int(n(2)), roof: n(3), wall: n(4), invert: n(5), haunch: n(6), flag: l[7], source: l[8], kinds: strings.Fields(l[9])})
	}
	return out
}

// oneTurn is what the first turn of a release by turns may drag: the boxes
// without haunches are let go by turns of 6 mm, on the small gear of 8.
const oneTurn = "limits: {strip.drag: 8.1 mm}\n"

// job of a row: one pour of 8 ft, the kicker 6 in or as high as the haunch.
func (r row) job() string {
	haunch, limits := "", oneTurn
	if r.haunch > 0 {
		haunch, limits = fmt.Sprintf("  haunch: {top: %g x %g in, bottom: %g x %g in}\n", r.haunch, r.haunch, r.haunch, r.haunch), ""
	}
	return fmt.Sprintf(`job: {name: %s, units: imperial}
culvert:
  cells: 1
  span: %d ft
  rise: %d ft
  roof: %g in
  invert: %g in
  outer_wall: %g in
%s  kicker: %g in
  pours: [8 ft]
%sgear: gear.yaml
`, r.id, r.span, r.rise, r.roof, r.invert, r.wall, haunch, max(6, r.haunch), limits)
}

// yard is the gear files of a kind that serve boxes with or without haunches.
func yard(t *testing.T, kind string, haunch bool) map[string]*job.Gear {
	t.Helper()
	files, err := filepath.Glob("../testdata/gear/" + kind + "-*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]*job.Gear{}
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		g, _, problems := job.Decode[job.Gear](filepath.Base(f), text, job.PeekSystem(text))
		if g == nil {
			t.Fatal(problems.Error())
		}
		if lacks := carrier.Lacks(g); len(lacks) > 0 {
			t.Fatal(f, lacks)
		}
		if (g.Corner.Haunch.X > 0) == haunch {
			out[strings.TrimSuffix(filepath.Base(f), ".yaml")] = g
		}
	}
	return out
}

func (r row) study(t *testing.T, g *job.Gear) *model.Study {
	t.Helper()
	text := []byte(r.job())
	j, _, problems := job.Decode[job.Job]("job.yaml", text, job.PeekSystem(text))
	if j == nil {
		t.Fatal(problems.Error())
	}
	s, troubles := model.Build(j, g)
	if len(troubles) > 0 {
		t.Fatal(troubles)
	}
	return s
}

// attempt is a row on one gear.
type attempt struct {
	gear   string
	study  *model.Study
	result *Result
	short  int // checks that do not pass
}

// attempts of a row on all gear of its kinds, the fewest checks short first; it
// stops at the first that passes.
func (r row) attempts(t *testing.T) []attempt {
	t.Helper()
	var out []attempt
	for _, kind := range r.kinds {
		gears := yard(t, kind, r.haunch > 0)
		for _, n := range job.SortedKeys(gears) {
			s := r.study(t, gears[n])
			a := attempt{gear: n, study: s, result: Check(s, Options{})}
			if a.result.Verdict == Pass {
				return []attempt{a}
			}
			for _, c := range a.result.Checks {
				if c.Verdict != Pass {
					a.short++
				}
			}
			out = append(out, a)
		}
	}
	slices.SortStableFunc(out, func(a, b attempt) int { return a.short - b.short })
	return out
}

func TestPublishedBoxesPassOnSomeGearOrAreToldACureThatWorks(t *testing.T) {
	rows := sections(t)
	if len(rows) < 30 {
		t.Fatalf("%d rows, want 30 at least", len(rows))
	}
	passing := 0
	for i, r := range rows {
		if testing.Short() && i%8 != 0 {
			continue
		}
		list := r.attempts(t)
		if list[0].result.Verdict == Pass {
			passing++
			t.Logf("%s passes on %s", r.id, list[0].gear)
			continue
		}
		r.cured(t, list)
	}
	if !testing.Short() && passing < 20 {
		t.Errorf("%d rows pass on some gear, want 20 at least", passing)
	}
}

// cured asks for a cure on one of the gears, the nearest to passing first.
func (r row) cured(t *testing.T, list []attempt) {
	t.Helper()
	for _, a := range list {
		if cures := Cures(a.study, a.result, 1); len(cures) > 0 {
			holdCure(t, r.id+" on "+a.gear, a.study, cures[0])
			return
		}
	}
	t.Errorf("%s: no gear and no cure", r.id)
}

// holdCure applies a cure, and one step less of it where it is stepless.
func holdCure(t *testing.T, what string, s *model.Study, c Cure) {
	t.Helper()
	verdict := func(v float64) Verdict {
		cured, troubles := model.Build(c.At(s.Job, s.Gear, v))
		if len(troubles) > 0 {
			return Open
		}
		return Check(cured, Options{}).Verdict
	}
	if v := verdict(c.To); v != Pass {
		t.Errorf("%s: %s does not help: %v", what, c.Text(), v)
	}
	less := c.To - math.Copysign(c.Step, c.To-c.From)
	if v := verdict(less); c.Stepless && v == Pass {
		t.Errorf("%s: %s, but %.4f passes too", what, c.Text(), less)
	}
	t.Logf("%s: %s", what, c.Text())
}
