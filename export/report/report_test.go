package report

import (
	"math"
	"slices"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/clearance/statics"
	"boxwalk/clearance/worked"
	"boxwalk/export/plot"
	"boxwalk/model"
)

func found(t *testing.T, name string, swap ...[2]string) (*model.Study, *result.Result) {
	t.Helper()
	s := worked.Job(t, name, swap...)
	return s, check.Run(s, check.Options{Version: "test"})
}

func TestTheDiagramTellsEverySurfaceAsTheCheckDoes(t *testing.T) {
	s, r := found(t, "one-pour")
	w := &writer{study: s, result: r}
	p := w.clearPlot(1, w.alongOf(1))
	surfaces := 0
	for _, e := range r.Checks {
		if e.ID != "roll.clear" || e.Value == nil || e.Where.Station == nil {
			continue
		}
		surfaces++
		left := 1000 * (e.Value.Lower - e.Allowance)
		if !slices.ContainsFunc(p.Marks, func(m plot.Mark) bool { return math.Abs(m.At[1]-left) < 1e-9 }) {
			t.Errorf("%s is not told", e.Subject)
		}
	}
	if surfaces < 6 || len(p.Marks) != surfaces || len(p.Levels) != 1 || p.Levels[0].At != 25 || p.Levels[0].Name != "limit 25.0 mm" {
		t.Errorf("%d surfaces, %d marks, limits %v", surfaces, len(p.Marks), p.Levels)
	}
}

// A limit is lettered as the table has it: 25 mm of an imperial job are 0.98 in to the
// nearest and never 1 in, beside which a clearance of 0.99 in would seem to fail.
func TestALimitIsLetteredAsTheTableHasIt(t *testing.T) {
	s, r := found(t, "heron-creek")
	w := &writer{study: s, result: r, system: imperial}
	for _, p := range w.clearPlot(1, w.alongOf(1)).Levels {
		if p.Name != "limit 0.98 in" {
			t.Error(p.Name)
		}
	}
}

// The way back of a carrier is told as that.
func TestWhatRollsBackIsToldAsThat(t *testing.T) {
	s, r := found(t, "bend-at-joint")
	w := &writer{study: s, result: r}
	for i := range s.Bays {
		b := &s.Bays[i]
		if told := strings.HasSuffix(w.wayFrom(b.Cell.Number, b.Pour.Number), ", back"); told != (b.Rolls < 0) {
			t.Errorf("pour %d rolls %v and is told as %q", b.Pour.Number, b.Rolls, w.wayFrom(b.Cell.Number, b.Pour.Number))
		}
		back := *b
		back.Rolls = -math.Abs(b.Rolls)
		s.Bays[i] = back
		if got := w.wayFrom(b.Cell.Number, b.Pour.Number); !strings.HasSuffix(got, ", back") {
			t.Errorf("pour %d rolls back and is told as %q", b.Pour.Number, got)
		}
	}
}

// Nobody has stated them, so that somebody has to see them.
func TestEveryDefaultThatEnteredIsTold(t *testing.T) {
	s, r := found(t, "one-pour")
	text := words((&writer{study: s, result: r}).defaults())
	for _, key := range []string{"roll.clear", "tolerance.yaw", "travel.breakaway", "live factor", "mass.extra"} {
		if !strings.Contains(text, "|"+key+"|") {
			t.Errorf("%s is not told", key)
		}
	}
	for _, key := range []string{"travel.capacity", "culvert.roof"} {
		if strings.Contains(text, "|"+key+"|") {
			t.Errorf("%s is stated and told as a default", key)
		}
	}
}

func words(blocks []Block) string {
	out := ""
	for _, b := range blocks {
		if t, is := b.(Table); is {
			for _, r := range t.Rows {
				for _, c := range r.Cells {
					out += "|" + c.Text
				}
				out += "|\n"
			}
		}
	}
	return out
}

func TestADutyThatSomebodyCoversNamesThem(t *testing.T) {
	s, r := found(t, "one-pour")
	r.NotChecked = []result.Duty{{What: "ties", Checks: []string{"pour.ties"}, CoveredBy: []result.Cover{{Check: "pour.ties", By: "permit 12, sheet 3"}}}, {What: "cranes"}}
	text := words((&writer{study: s, result: r}).notChecked())
	if !strings.Contains(text, "|ties|pour.ties: permit 12, sheet 3|") || !strings.Contains(text, "|cranes|nobody named") {
		t.Error(text)
	}
}

func TestWhatDoesNotPassStandsFirst(t *testing.T) {
	s, r := found(t, "chalk-hill")
	rows := (&writer{study: s, result: r}).governing().(Table).Rows
	if !strings.HasPrefix(rows[0].Cells[0].Text, "roll.hold: ") || rows[0].Tone != Alarm || rows[1].Tone == Alarm {
		t.Errorf("%v, then %v", rows[0], rows[1])
	}
}

// The most of a plot is the number of the entry that it is of, from another way: moments
// from what the ties take, not from the beam that was solved.
func TestThePlotsOfThePourReachTheNumbersOfTheirEntries(t *testing.T) {
	s, r := found(t, "one-pour")
	w := &writer{study: s, result: r}
	e, b := w.governs("pour.walers")
	p, is := w.walerPlot(e, b)
	if !is {
		t.Fatalf("no plot of %s", e.Subject)
	}
	most := 0.0
	for _, q := range p.Curves[0].Runs[0] {
		most = math.Max(most, math.Abs(q[1]))
	}
	if most > e.Value.Upper*(1+1e-9) || most < 0.97*e.Value.Upper || len(p.Levels) != 1 {
		t.Errorf("moments of %v at most, the entry has %v", most, e.Value.Upper)
	}
	e, b = w.governs("pour.pressure")
	f, err := statics.FreshOf(s.Job, b.Cell.Section, w.system)
	if err != nil {
		t.Fatal(err)
	}
	most = 0
	for _, q := range w.pressurePlot(e, b, f).Curves[0].Runs[0] {
		most = math.Max(most, q[1])
	}
	if most < e.Value.Upper*(1-1e-9) || most > 1.2*e.Value.Upper {
		t.Errorf("pressure of %v at most, the entry has %v", most, e.Value.Upper)
	}
}
