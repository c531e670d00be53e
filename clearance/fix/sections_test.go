package fix

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"text/tabwriter"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/job"
	"boxwalk/model/units"
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
}

// sections reads testdata/sections.csv.
func sections(t *testing.T) []row {
	t.Helper()
	f, err := os.Open(worked.Path("sections.csv"))
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
		out = append(out, row{id: l[0], span: int(n(1)), rise: int(n(2)), roof: n(3), wall: n(4), invert: n(5), haunch: n(6), flag: l[7], source: l[8]})
	}
	return out
}

// job of a row: one pour of 8 ft, the kicker 6 in or as high as the haunch. A
// box without haunches is let go by turns, and may drag by one of them. The tallest
// stand on bents 1.22 m apart: they are lowered before the wind is above 0.18 kPa, 17 m/s
// by half of 1.25 kg/m3 x v^2, in which 14 ft of them stand with 1.5 to spare.
func (r row) job(turn float64) string {
	haunch, limits := "", ""
	if r.haunch > 0 {
		haunch = fmt.Sprintf("  haunch: {top: %g x %g in, bottom: %g x %g in}\n", r.haunch, r.haunch, r.haunch, r.haunch)
	}
	if turn > 0 {
		limits = fmt.Sprintf("limits: {strip.drag: %g mm}\n", 1e3*turn)
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
ends: {outlet: {apron: 40 ft}}
schedule: {invert_age: 7 d, walls_age: 4 d, roof_age: 4 d}
concrete: {strength: 4000 psi, cement: N, curing: 62 degF, walls_strength: 12 MPa, roof_strength: 21 MPa}
stand: {wind: 0.18 kPa, friction: 0.3, friction_source: pull test on the slab (invented), anchor: 20 kN, chocks: 12 kN}
anchors: {line: {capacity: 30 kN}, restraint: {capacity: 30 kN}}
release: {walls: {strength: 5 MPa}, roof: {strength: 15 MPa}}
travel: {capacity: 20 kN, restraint: {capacity: 10 kN}}
capacities: {basis: permissible, source: plates of winch and restraint}
%sgear: gear.yaml
`, r.id, r.span, r.rise, r.roof, r.invert, r.wall, haunch, max(6, r.haunch), limits)
}

// owned is one gear file of the yard.
type owned struct {
	name string
	*job.Gear
}

// turnOf is the first turn of a release by turns, with what a search leaves
// open; nothing for gear that is let go otherwise.
func turnOf(g *job.Gear) float64 {
	const open = 0.1e-3
	for _, s := range g.Steps {
		if t, ok := s.Drivers["turnbuckle"]; ok && strings.HasSuffix(s.Step, "first turn") {
			return math.Abs(float64(t.By)) + open
		}
	}
	return 0
}

// yard is the gear files of a kind, in the order of their names.
func yard(t *testing.T, kind string) []owned {
	t.Helper()
	files, err := filepath.Glob(worked.Path("gear", kind+"-*.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	var out []owned
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
		ample(g)
		out = append(out, owned{strings.TrimSuffix(filepath.Base(f), ".yaml"), g})
	}
	return out
}

// ample gives gear whatever the pour asks of it, and steel that hardly sags: what is
// asked here is whether its geometry serves a box, and a big one overloads small gear.
// What the geometry decides of the pour stays asked: that all that bears stands on its
// header, and that no jack lifts.
func ample(g *job.Gear) {
	pressure, force, moment, inertia := units.Pressure(1e4), units.Force(1e4), units.Moment(1e4), units.Inertia(1)
	g.Wall.Pressure, g.Corner.Pressure, g.Roof.Pressure, g.Roof.FillerPressure = &pressure, &pressure, &pressure, &pressure
	g.Ties.Capacity, g.Wall.Walers.Moment, g.Wall.Walers.Shear, g.Frame.Side = &force, &moment, &force, &force
	g.Roof.Stringers.Moment, g.Roof.Stringers.Shear, g.Roof.Stringers.Inertia = &moment, &force, &inertia
	h := &g.Frame.Header
	h.Moment, h.Shear, h.Inertia = &moment, &force, &inertia
	if h.Arm != nil {
		h.Arm.Moment, h.Arm.Shear, h.Arm.Inertia = &moment, &force, &inertia
	}
	g.Frame.Leg.Axial = &force
	for i := range g.Links {
		g.Links[i].Axial = &force
	}
}

// nearest puts the gear first that falls short of a row in the fewest settings,
// and among those by the least: each setting wants a change of its own. It only
// settles the gear; nothing is built or checked.
func (r row) nearest(t *testing.T, gears []owned) []ranked {
	t.Helper()
	j := r.parsed(t, 0)
	sec := culvert.New(j, nil).Cells[0].Section
	var out []ranked
	for _, g := range gears {
		n, by := carrier.Settle(sec, g.Gear, j.Set).Short()
		out = append(out, ranked{g, n, by})
	}
	slices.SortStableFunc(out, func(a, b ranked) int {
		return cmp.Or(cmp.Compare(a.short, b.short), cmp.Compare(a.by, b.by))
	})
	return out
}

// ranked is a gear and how far its settings fall short of a row.
type ranked struct {
	owned
	short int
	by    float64 // m
}

func (r row) parsed(t *testing.T, turn float64) *job.Job {
	t.Helper()
	text := []byte(r.job(turn))
	j, _, problems := job.Decode[job.Job]("job.yaml", text, job.PeekSystem(text))
	if j == nil {
		t.Fatal(problems.Error())
	}
	return j
}

func (r row) study(t *testing.T, g *job.Gear) *model.Study {
	t.Helper()
	s, troubles := model.Build(r.parsed(t, turnOf(g)), g)
	if len(troubles) > 0 {
		t.Fatal(troubles)
	}
	return s
}

// outcome is a row on one kind of collapse.
type outcome struct {
	row, kind, gear string
	verdict         result.Verdict
	fix             string // in words; empty where it passes
}

// kinds of collapse, by the first word of their gear files.
var kinds = [2]string{"halves", "whole"}

// on runs a row on the nearest gear of a kind. Where that does not pass although
// it can be set to the row, the next that can be set gets a chance; where there
// is no fix on the nearest, one is asked for on the next ones.
func (r row) on(t *testing.T, kind string, gears []owned) outcome {
	t.Helper()
	const near = 3
	list := r.nearest(t, gears)[:near]
	var tried [near]attempt
	for i, g := range list {
		if i > 0 && g.short > 0 {
			break
		}
		if tried[i] = r.attempt(t, g.owned); tried[i].result.Verdict == result.Pass {
			return outcome{row: r.id, kind: kind, gear: g.name, verdict: result.Pass}
		}
	}
	for i, g := range list {
		a := tried[i]
		if a.result == nil {
			a = r.attempt(t, g.owned)
		}
		if fixes := FindFixes(a.study, a.result, 1, nil); len(fixes) > 0 {
			holdFix(t, a.study, fixes[0])
			return outcome{row: r.id, kind: kind, gear: g.name, verdict: a.result.Verdict, fix: fixes[0].Text()}
		}
	}
	a := tried[0]
	t.Errorf("%s of kind %s: no gear and no fix; on %s %s", r.id, kind, list[0].name, reason(a.result))
	return outcome{row: r.id, kind: kind, gear: list[0].name, verdict: a.result.Verdict}
}

func (r row) attempt(t *testing.T, g owned) attempt {
	t.Helper()
	s := r.study(t, g.Gear)
	return attempt{s, check.Run(s, check.Options{})}
}

// attempt is a row on one gear.
type attempt struct {
	study  *model.Study
	result *result.Result
}

// reason is what a result says first about why it does not pass.
func reason(r *result.Result) string {
	for _, c := range r.Checks {
		if c.Verdict != result.Pass {
			return fmt.Sprintf("%s is %v: %s", c.ID, c.Verdict, c.Text)
		}
	}
	return "nothing fails"
}

func TestLegsOfTheYardReachFromFourToTwelveFeet(t *testing.T) {
	const foot = 0.3048
	for _, k := range kinds {
		var legs []job.Adjust
		for _, g := range yard(t, k) {
			legs = append(legs, g.Frame.Leg.Length)
		}
		slices.SortFunc(legs, func(a, b job.Adjust) int { return cmp.Compare(a.Min, b.Min) })
		reached := 4 * foot
		for _, l := range legs {
			if float64(l.Min) <= reached {
				reached = max(reached, float64(l.Max))
			}
		}
		if reached < 12*foot {
			t.Errorf("%s: legs from 4 ft reach %.2f ft without a gap, want 12", k, reached/foot)
		}
	}
}

func TestPublishedBoxesOnBothKindsPassOrAreToldAFixThatWorks(t *testing.T) {
	rows := sections(t)
	if len(rows) < 30 {
		t.Fatalf("%d rows, want 30 at least", len(rows))
	}
	gears := map[string][]owned{}
	for _, k := range kinds {
		gears[k] = yard(t, k)
	}
	outcomes := make([][2]outcome, len(rows))
	t.Run("rows", func(t *testing.T) {
		for i, r := range rows {
			if i%worked.Campaign(8, 1) != 0 {
				continue
			}
			t.Run(r.id, func(t *testing.T) {
				t.Parallel()
				for n, k := range kinds {
					outcomes[i][n] = r.on(t, k, gears[k])
				}
			})
		}
	})
	tally(t, outcomes)
}

// tally prints what came of every row and kind, and holds the counts.
func tally(t *testing.T, outcomes [][2]outcome) {
	t.Helper()
	var table strings.Builder
	w := tabwriter.NewWriter(&table, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "row\tkind\tgear\tverdict\tfix")
	rows, pass, mended := 0, 0, 0
	for _, both := range outcomes {
		if both[0].verdict == result.Pass || both[1].verdict == result.Pass {
			rows++
		}
		for _, o := range both {
			switch {
			case o.row == "":
				continue
			case o.verdict == result.Pass:
				pass++
			case o.fix != "":
				mended++
			}
			fmt.Fprintf(w, "%s\t%s\t%s\t%v\t%s\n", o.row, o.kind, o.gear, o.verdict, o.fix)
		}
	}
	w.Flush()
	t.Logf("%d rows pass on some gear; of the runs %d pass and %d are mended\n%s", rows, pass, mended, table.String())
	if want := worked.Campaign(2, 20); rows < want {
		t.Errorf("%d rows pass on some gear, want %d at least", rows, want)
	}
}

// holdFix applies a fix, and one step less of it where it is stepless.
func holdFix(t *testing.T, s *model.Study, c Fix) {
	t.Helper()
	verdict := func(v float64) result.Verdict {
		mended, troubles := model.Build(c.dimension.at(s.Job, s.Gear, v))
		if len(troubles) > 0 {
			return result.Open
		}
		return check.Run(mended, check.Options{}).Verdict
	}
	if v := verdict(c.To); v != result.Pass {
		t.Errorf("%s does not help: %v", c.Text(), v)
	}
	less := c.To - math.Copysign(c.Step, c.To-c.From)
	if v := verdict(less); c.Stepless && v == result.Pass {
		t.Errorf("%s, but %.4f passes too", c.Text(), less)
	}
}
