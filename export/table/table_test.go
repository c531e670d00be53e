package table

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"pgregory.net/rapid"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

var update = flag.Bool("update", false, "take over what is written as the golden files")

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs:\n%s", name, got)
	}
}

func value(v float64) *float64 { return &v }

// sample is a result with everything a table has to show.
func sample() *result.Result {
	at := func(cell, pour int) result.Where { return result.Where{Cell: cell, Pour: pour} }
	touches := at(1, 1)
	touches.First = &result.First{Adjuster: "jack left", From: 0.33, Clear: 0.3121, Hit: 0.312, Unit: "m"}
	return &result.Result{
		Schema: result.Schema, Version: "1", Inputs: []result.Input{{Name: "job.yaml", SHA256: strings.Repeat("ab", 32)}},
		Job: result.JobName{Name: "Mill crossing", Number: "M-1"}, Verdict: result.Fail,
		Checks: []result.Entry{
			{ID: "setup.length", Subject: result.Subject{Cell: 1, Pour: 2, What: "form length"}, Verdict: result.Pass, Value: &result.Bracket{Lower: 9.3, Upper: 9.3}, Unit: "m", Limit: value(9.13), Margin: value(0.17), Where: at(1, 2)},
			{ID: "strip.dig", Subject: result.Subject{Cell: 1, Pour: 1, Step: "down"}, Verdict: result.Fail, Value: &result.Bracket{Lower: -0.01666, Upper: -0.0166}, Unit: "m", Limit: value(-0.00005), Margin: value(-0.01661), Where: touches, Text: "W2L wall panel digs 16.6 mm into the kicker", Remedy: "draw the wall bottoms in first"},
			{ID: "strip.dig", Subject: result.Subject{Cell: 1, Pour: 2, Step: "down"}, Verdict: result.Fail, Value: &result.Bracket{Lower: -0.01666, Upper: -0.0166}, Unit: "m", Limit: value(-0.00005), Margin: value(-0.01661), Where: at(1, 2), Text: "W2L wall panel digs 16.6 mm into the kicker", Remedy: "draw the wall bottoms in first"},
			{ID: "strip.dig", Subject: result.Subject{Cell: 2, Pour: 1, Step: "down"}, Verdict: result.Fail, Value: &result.Bracket{Lower: -0.01666, Upper: -0.0166}, Unit: "m", Limit: value(-0.00005), Margin: value(-0.01661), Where: at(2, 1), Text: "W2L wall panel digs 16.6 mm into the kicker", Remedy: "draw the wall bottoms in first"},
			{ID: "strip.dig", Subject: result.Subject{Cell: 2, Pour: 2, Step: "down"}, Verdict: result.Fail, Value: &result.Bracket{Lower: -0.01666, Upper: -0.0166}, Unit: "m", Limit: value(-0.00005), Margin: value(-0.01661), Where: at(2, 2), Text: "W2L wall panel digs 16.6 mm into the kicker", Remedy: "draw the wall bottoms in first"},
			{ID: "strip.clear", Subject: result.Subject{Cell: 1, Pour: 1, What: "collapsed, bottom haunch, which has a long name"}, Verdict: result.Pass, Value: &result.Bracket{Lower: 0.08627, Upper: 0.08629}, Unit: "m", Limit: value(0.025), Allowance: 0.023, Margin: value(0.03827), Where: at(1, 1)},
			{ID: "roll.support", Subject: result.Subject{What: "rear wheels"}, Verdict: result.Open, Unit: "m", Text: "the key ends.inlet.apron is missing", Remedy: "lay an apron beyond the inlet"},
			{ID: "roll.hold", Subject: result.Subject{Cell: 1, Pour: 1, What: "restraint"}, Verdict: result.Pass, Value: &result.Bracket{Lower: 1.03, Upper: 1.03}, Unit: "kN", Limit: value(10), Sense: result.Max, Margin: value(8.97), Where: at(1, 1)},
		},
		Settings: []result.Setting{
			{Cell: 1, Pour: 1, Bent: 1, Adjuster: "jack left", Raised: 0.33, Collapsed: 0.15, Unit: "m"}, {Cell: 1, Pour: 1, Bent: 2, Adjuster: "jack left", Raised: 0.33, Collapsed: 0.15 + 1e-12, Unit: "m"},
			{Cell: 1, Pour: 2, Bent: 1, Adjuster: "jack left", Raised: 0.33, Collapsed: 0.15, Unit: "m"}, {Cell: 1, Pour: 2, Bent: 2, Adjuster: "jack left", Raised: 0.33, Collapsed: 0.15, Unit: "m"},
			{Cell: 2, Pour: 1, Bent: 1, Adjuster: "jack left", Raised: 0.33, Collapsed: 0.15, Unit: "m"}, {Cell: 2, Pour: 1, Bent: 2, Adjuster: "jack left", Raised: 0.331, Collapsed: 0.15, Unit: "m"},
		},
		Steps:   []result.StepRow{step(1, 1), lowered(1, 1), step(1, 2), lowered(1, 2), step(2, 1), lowered(2, 1)},
		Raising: []result.RaisingRow{lifted(1, 1), tied(1, 1), lifted(1, 2), tied(1, 2), lifted(2, 1), tied(2, 1)},
		Parts: slices.Values([]result.PartRow{
			{Cell: 1, Pour: 1, Step: "down, \"slowly\"", Part: "W1L", Role: "wall panel", Zone: "wall", Contact: true, Value: result.Bracket{Lower: -0.0000001, Upper: 0.0000001}, At: 0.5},
			{Cell: 1, Pour: 1, Step: "=1+1", Part: "W1L", Role: "wall panel", Zone: "roof", Value: result.Bracket{Lower: 0.1801239, Upper: math.Inf(1)}},
		}),
		Cautions:   check.CautionsOf(&job.Job{}, nil),
		NotChecked: []result.Duty{{What: "strength at release", Checks: []string{}}, {What: "hangers", Checks: []string{}}},
		Looser:     []result.Looser{{Key: "limits.roll.clear", Value: 0.01, Default: 0.025, Unit: "m", Text: "limits.roll.clear is 10 mm; the default is 25 mm (judgement)"}},
	}
}

// uncommented reads a table of ours as other programs do.
func uncommented(r io.Reader) *csv.Reader {
	out := csv.NewReader(r)
	out.Comment = '#'
	return out
}

func step(cell, pour int) result.StepRow {
	return result.StepRow{Cell: cell, Pour: pour, Name: "wall bottoms in", Say: "Shorten all low braces together.", Caution: "Never pull the last brace pin.", Removes: []string{"ties"}, Hold: []string{"Written release by (name): ______"},
		Moves: []result.MoveRow{
			{Adjuster: "low brace left", From: 0.7306, To: 0.59, Unit: "m"}, {Adjuster: "low brace right", From: 0.7306, To: 0.59, Unit: "m"},
			{Adjuster: "upper brace left", From: 1.0979, To: 1.0376, Follows: true, Unit: "m"}, {Adjuster: "upper brace right", From: 1.0979, To: 1.0386, Follows: true, Unit: "m"},
		}, End: []result.EndRow{}, Lag: &result.LagRow{Kept: 0.01, Say: "No adjuster more than 10.0 mm ahead of the others."}}
}

// lowered is a step in which jacks are turned.
func lowered(cell, pour int) result.StepRow {
	return result.StepRow{Cell: cell, Pour: pour, Name: "down", Say: "Lower all jacks by 25 mm.", Hold: []string{}, Removes: []string{},
		Moves: []result.MoveRow{{Adjuster: "jack left", From: 0.33, To: 0.305, Unit: "m"}, {Adjuster: "jack right", From: 0.33, To: 0.305, Unit: "m"}}, End: []result.EndRow{},
		Level: &result.LevelRow{Kept: 0.0025, Safe: 0.0029, Say: "No jack ahead of any other by more than 2.5 mm. Up to 2.9 mm nothing touches."}}
}

// lifted is the step back from one in which jacks are turned; tied that from one in
// which something comes off.
func lifted(cell, pour int) result.RaisingRow {
	return result.RaisingRow{Cell: cell, Pour: pour, Name: "take back: down", Hold: []string{"Jacks seen by (name): ______"}, Say: "Take step \"down\" back.", PutsBack: []string{},
		Moves: []result.MoveRow{{Adjuster: "jack left", From: 0.305, To: 0.33, Unit: "m"}, {Adjuster: "jack right", From: 0.305, To: 0.33, Unit: "m"}},
		Level: &result.RaisingLevel{Kept: 0.003, Say: "Last lift. Lift pad by pad; no pad ahead of any other by more than 3.0 mm."}, Unproved: []string{}}
}

func tied(cell, pour int) result.RaisingRow {
	return result.RaisingRow{Cell: cell, Pour: pour, Name: "take back: wall bottoms in", Hold: []string{}, Say: "Take step \"wall bottoms in\" back.", Caution: "Never pull the last brace pin.", PutsBack: []string{"ties"},
		Moves: []result.MoveRow{{Adjuster: "low brace left", From: 0.59, To: 0.7306, Unit: "m"}, {Adjuster: "low brace right", From: 0.59, To: 0.7306, Unit: "m"}},
		Lag:   &result.LagRow{Kept: 0.01, Say: "No adjuster more than 10.0 mm ahead of the others."}, Unproved: []string{"raise.clear, take back: wall bottoms in"}}
}

func TestTablesReadAsTheGoldenFiles(t *testing.T) {
	r := sample()
	passing := sample()
	passing.Checks, passing.Verdict = []result.Entry{r.Checks[0]}, result.Pass
	scoped := *passing
	scoped.Scope = []string{"setup.length"}
	empty := &result.Result{}
	repaired, unfixed := sample(), sample()
	repaired.Fixes = []result.FixRow{
		{Text: "change the wheel gauge from 1800 mm to 1900 mm (set.gauge in the job file)", Ease: result.OnSite, File: "job", Dimension: "the wheel gauge", Key: "set.gauge", From: 1.8, To: 1.9, Unit: "m", Passes: true},
		{Text: "change the roof panels' width from 1120 mm to 1100 mm (roof.widths, all of them in the gear file)", Ease: result.InYard, File: "gear", Dimension: "the roof panels' width", Key: "roof.widths, all of them", From: 1.12, To: 1.1, Unit: "m", Passes: true},
		{Text: "change the wheel gauge from 1800 mm to 1900 mm (set.gauge in the job file)", Ease: result.OnSite, File: "job", Check: "strip.dig", Passes: true},
		{Text: "change the foot", Ease: result.OnSite, File: "job", Check: "strip.dig"},
		{Text: "change the hinge", Ease: result.InYard, File: "gear", Check: "roll.support", Breaks: []string{"setup.range"}},
		{Text: "change the leg", Ease: result.InYard, File: "gear", Check: "roll.support", Breaks: []string{"setup.rest", "strip.dig", "roll.clear"}},
	}
	unfixed.Fixes = []result.FixRow{}
	for name, write := range map[string]func(io.Writer) error{
		"terminal.txt":          func(w io.Writer) error { return Terminal(w, r, units.Metric, 100, false) },
		"terminal-imperial.txt": func(w io.Writer) error { return Terminal(w, r, units.Imperial, 80, false) },
		"terminal-colour.txt":   func(w io.Writer) error { return Terminal(w, r, units.Metric, 100, true) },
		"terminal-pass.txt":     func(w io.Writer) error { return Terminal(w, passing, units.Metric, 100, false) },
		"terminal-scope.txt":    func(w io.Writer) error { return Terminal(w, &scoped, units.Metric, 100, false) },
		"terminal-empty.txt":    func(w io.Writer) error { return Terminal(w, empty, units.Metric, 100, false) },
		"terminal-fixes.txt":    func(w io.Writer) error { return Terminal(w, repaired, units.Metric, 100, false) },
		"terminal-no-fix.txt":   func(w io.Writer) error { return Terminal(w, unfixed, units.Metric, 80, false) },
		"steps.txt":             func(w io.Writer) error { return Steps(w, r, units.Metric) },
		"steps-imperial.txt":    func(w io.Writer) error { return Steps(w, r, units.Imperial) },
		"steps-scope.txt":       func(w io.Writer) error { return Steps(w, &scoped, units.Metric) },
		"clearance.csv":         func(w io.Writer) error { return Clearance(w, r, units.Metric) },
		"settings.csv":          func(w io.Writer) error { return Settings(w, r, units.Metric) },
		"steps.csv":             func(w io.Writer) error { return StepsCSV(w, r, units.Metric) },
		"steps-imperial.csv":    func(w io.Writer) error { return StepsCSV(w, r, units.Imperial) },
		"settings-imperial.csv": func(w io.Writer) error { return Settings(w, r, units.Imperial) },
		"result.json":           func(w io.Writer) error { return JSON(w, r) },
		"empty.json":            func(w io.Writer) error { return JSON(w, empty) },
	} {
		t.Run(name, func(t *testing.T) {
			var out bytes.Buffer
			if err := write(&out); err != nil {
				t.Fatal(err)
			}
			golden(t, name, out.Bytes())
		})
	}
}

func TestNoLineOfTheTerminalTableIsWiderThanAsked(t *testing.T) {
	for _, width := range []int{60, 72, 80, 100, 300} {
		var out bytes.Buffer
		if err := Terminal(&out, sample(), units.Metric, width, false); err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(out.String(), "\n") {
			// below 80 the numbers alone need more room than there is
			if n := utf8.RuneCountInString(line); n > min(max(width, 80), Widest) {
				t.Errorf("width %d: %d characters in %q", width, n, line)
			}
		}
	}
}

// Whatever is handed on says by itself what nobody checked, what was loosened, that
// the job is not cleared, and every caution whole.
func TestEveryTableSaysWhatTheVerdictDoesNotAnswerFor(t *testing.T) {
	r := sample()
	for name, write := range map[string]func(io.Writer) error{
		"terminal":      func(w io.Writer) error { return Terminal(w, r, units.Metric, 100, false) },
		"steps.txt":     func(w io.Writer) error { return Steps(w, r, units.Metric) },
		"clearance.csv": func(w io.Writer) error { return Clearance(w, r, units.Metric) },
		"settings.csv":  func(w io.Writer) error { return Settings(w, r, units.Metric) },
		"steps.csv":     func(w io.Writer) error { return StepsCSV(w, r, units.Metric) },
		"along.csv":     func(w io.Writer) error { return Along(w, r, units.Metric) },
		"parts.csv":     func(w io.Writer) error { return Parts(w, study(t, "one-pour"), r) },
	} {
		var out bytes.Buffer
		if err := write(&out); err != nil {
			t.Fatal(err)
		}
		said := strings.Join(strings.Fields(out.String()), " ")
		for _, want := range append(slices.Clone(r.Cautions), "NOT CLEARED", "Not checked: strength at release; hangers.", "the default is 25 mm (judgement)") {
			if !strings.Contains(said, want) {
				t.Errorf("%s does not say %q", name, want)
			}
		}
	}
}

func TestAListBeginsWithAWrittenRelease(t *testing.T) {
	var out bytes.Buffer
	if err := Steps(&out, sample(), units.Metric); err != nil {
		t.Fatal(err)
	}
	hold, say := strings.Index(out.String(), "HOLD: Written release"), strings.Index(out.String(), "Shorten all low braces")
	if hold < 0 || say < hold {
		t.Errorf("the hold is at %d, what the crew does at %d", hold, say)
	}
}

func TestNoListIsClearedUnlessEveryCheckPasses(t *testing.T) {
	r := sample()
	for _, c := range []struct {
		verdict result.Verdict
		scope   []string
		want    bool
	}{{result.Pass, nil, true}, {result.Pass, []string{"strip"}, false}, {result.Fail, nil, false}, {result.Open, nil, false}} {
		r.Verdict, r.Scope = c.verdict, c.scope
		if got := !strings.Contains(cleared(r), "NOT CLEARED"); got != c.want {
			t.Errorf("%v %v: cleared %v", c.verdict, c.scope, got)
		}
	}
}

// A printed margin never flatters: rounded down it is at most the value, and
// less than a unit of its last decimal below it.
func TestPrintedNumbersAreRoundedTowardTheWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-20, 20).Draw(t, "metres")
		m := units.Shown("m", rapid.SampledFrom([]units.System{units.Metric, units.Imperial}).Draw(t, "system"))
		unit := math.Pow10(-m.Decimals)
		low, err1 := strconv.ParseFloat(m.Down(v), 64)
		high, err2 := strconv.ParseFloat(m.Up(v), 64)
		slack := 2e-6 * unit
		if err1 != nil || err2 != nil || low > v*m.Times+slack || low < v*m.Times-unit-slack || high < v*m.Times-slack || high > v*m.Times+unit+slack {
			t.Fatalf("%v m: %v to %v", v, low, high)
		}
	})
}

func TestWholeMillimetresArePrintedAsSuch(t *testing.T) {
	m := units.Shown("m", units.Metric)
	for mm := -500; mm <= 500; mm++ {
		v := float64(mm) / 1000
		want := strconv.Itoa(mm) + ".0"
		if down, up := m.Down(v), m.Up(v); down != want || up != want {
			t.Fatalf("%v m is printed %s and %s", v, down, up)
		}
	}
}

func TestUnknownNumbersAreNeverPrintedAsNumbers(t *testing.T) {
	m := units.Shown("m", units.Metric)
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for _, text := range []string{m.Down(v), m.Up(v), m.Nearest(v)} {
			if text != "unknown" {
				t.Errorf("%v is printed %q", v, text)
			}
		}
	}
}

func TestPlacesAreDrawnTogetherOnlyInFullBlocks(t *testing.T) {
	for _, c := range []struct {
		places []place
		want   string
	}{
		{[]place{{1, 1}}, "cell 1, pour 1"},
		{[]place{{2, 1}, {1, 1}}, "cells 1-2, pour 1"},
		{[]place{{1, 1}, {1, 2}, {2, 1}, {2, 2}}, "cells 1-2, pours 1-2"},
		{[]place{{1, 1}, {1, 3}, {1, 4}, {2, 1}}, "cell 1, pours 1, 3-4; cell 2, pour 1"},
		{[]place{{1, 2}, {3, 2}, {1, 2}}, "cells 1, 3, pour 2"},
	} {
		if got := named(c.places); got != c.want {
			t.Errorf("%v: %q, want %q", c.places, got, c.want)
		}
	}
}

func TestPlacesNameEveryPlaceOnceAndNoOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		have := map[place]bool{}
		var list []place
		for range rapid.IntRange(0, 20).Draw(t, "count") {
			p := place{rapid.IntRange(1, 4).Draw(t, "cell"), rapid.IntRange(1, 6).Draw(t, "pour")}
			have[p], list = true, append(list, p)
		}
		count := 0
		for _, b := range blocks(list) {
			for _, c := range b.cells {
				for _, p := range b.pours {
					count++
					if !have[place{c, p}] {
						t.Fatalf("%v is not in %v", place{c, p}, list)
					}
				}
			}
		}
		if count != len(have) {
			t.Fatalf("%d places of %d", count, len(have))
		}
	})
}

func study(t *testing.T, name string) *model.Study {
	t.Helper()
	read := func(path string) []byte {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	path := "../../testdata/jobs/" + name + "/job.yaml"
	text := read(path)
	j, _, problems := job.Decode[job.Job](path, text, job.PeekSystem(text))
	if j == nil {
		t.Fatal(problems)
	}
	gear := filepath.Join(filepath.Dir(path), j.Gear)
	text = read(gear)
	g, _, problems := job.Decode[job.Gear](gear, text, job.PeekSystem(text))
	if g == nil {
		t.Fatal(problems)
	}
	s, troubles := model.Build(j, g)
	if s == nil {
		t.Fatal(troubles)
	}
	return s
}

// Every part of every carrier stands in the parts list exactly once, and the
// masses add up.
func TestThePartsListHasEveryPartOfEveryCarrierOnce(t *testing.T) {
	for _, name := range []string{"one-pour", "quarry-lane"} {
		s := study(t, name)
		var out bytes.Buffer
		if err := Parts(&out, s, &result.Result{}); err != nil {
			t.Fatal(err)
		}
		rows, err := uncommented(&out).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		parts, mass := 0, 0.0
		for _, row := range rows[1:] {
			n, _ := strconv.Atoi(row[6])
			each, _ := strconv.ParseFloat(row[8], 64)
			if len(strings.Fields(row[2])) != 1 {
				t.Errorf("%v: marks %q", row, row[2])
			}
			bays := numbers(row[0]) * numbers(row[1])
			parts, mass = parts+n*bays, mass+each*float64(bays)
		}
		wantParts, wantMass := 0, 0.0
		for _, b := range s.Bays {
			for _, p := range b.Carrier.Parts {
				wantParts, wantMass = wantParts+1, wantMass+p.Mass.High
			}
		}
		// each row is rounded to a tenth of a kilogram
		if slack := 0.05 * float64(len(rows)*len(s.Bays)); parts != wantParts || math.Abs(mass-wantMass) > slack {
			t.Errorf("%s: %d parts of %d, %.1f kg of %.1f", name, parts, wantParts, mass, wantMass)
		}
	}
}

// numbers counts what "1-3, 5" stands for.
func numbers(text string) int {
	n := 0
	for _, run := range strings.Split(text, ", ") {
		from, to, isRun := strings.Cut(run, "-")
		a, _ := strconv.Atoi(from)
		b, _ := strconv.Atoi(to)
		if !isRun {
			b = a
		}
		n += b - a + 1
	}
	return n
}

func TestCSVLinesEndAsRFC4180HasThem(t *testing.T) {
	var out bytes.Buffer
	if err := Clearance(&out, sample(), units.Metric); err != nil {
		t.Fatal(err)
	}
	if strings.Count(out.String(), "\n") != strings.Count(out.String(), "\r\n") || !strings.HasSuffix(out.String(), "\r\n") {
		t.Errorf("%q", out.String())
	}
}

// strict forbids keys that a schema does not list, so that a key added to the
// result without one is found.
func strict(node any) {
	switch n := node.(type) {
	case map[string]any:
		if _, ok := n["properties"]; ok {
			n["additionalProperties"] = false
		}
		for _, v := range n {
			strict(v)
		}
	case []any:
		for _, v := range n {
			strict(v)
		}
	}
}

func TestResultsHoldToTheirSchemaAndItListsEveryKey(t *testing.T) {
	schema, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema))
	if err != nil {
		t.Fatal(err)
	}
	strict(schema)
	c := jsonschema.NewCompiler()
	if err := c.AddResource("result", schema); err != nil {
		t.Fatal(err)
	}
	compiled, err := c.Compile("result")
	if err != nil {
		t.Fatal(err)
	}
	whole := sample()
	whole.Checks[0].Where.A, whole.Checks[0].Where.B = &geom.Vec{1, 2, 3}, &geom.Vec{}
	whole.Fixes = []result.FixRow{{Ease: result.InWorks, File: "job", Breaks: []string{}}, {Ease: result.OnSite, File: "job", Check: "strip.dig", Breaks: []string{"setup.range"}}}
	results := map[string]*result.Result{"sample": whole}
	for _, name := range []string{"one-pour", "arms-first", "narrow-filler", "quarry-lane"} {
		results[name] = check.Run(study(t, name), check.Options{})
	}
	for name, r := range results {
		var out bytes.Buffer
		if err := JSON(&out, r); err != nil {
			t.Fatal(name, err)
		}
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(out.Bytes()))
		if err != nil {
			t.Fatal(name, err)
		}
		if err := compiled.Validate(doc); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		doc.(map[string]any)["verdict"] = json.Number("1")
		if compiled.Validate(doc) == nil {
			t.Errorf("%s: a verdict that is a number holds to the schema", name)
		}
	}
}
