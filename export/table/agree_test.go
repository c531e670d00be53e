package table

import (
	"math"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/units"
)

// Numbers in a sentence, by the unit of a result.
var numbersSaid = map[string]*regexp.Regexp{
	"m":   regexp.MustCompile(`(-?[0-9]+\.[0-9]+) (?:mm|in)\b`),
	"kN":  regexp.MustCompile(`(-?[0-9]+\.[0-9]+) (?:kN|kip)\b`),
	"kPa": regexp.MustCompile(`(-?[0-9]+\.[0-9]+) (?:kPa|psi)\b`),
	"kNm": regexp.MustCompile(`(-?[0-9]+\.[0-9]+) (?:kNm|kip-ft)\b`),
	"MPa": regexp.MustCompile(`(-?[0-9]+(?:\.[0-9]+)?) (?:MPa|psi)\b`),
	"h":   regexp.MustCompile(`([0-9]+\.[0-9]+) h\b`),
	"1":   regexp.MustCompile(`overturning (-?[0-9]+\.[0-9]+)`),
}

// judged is a job with what was found of it.
type judged struct {
	path   string
	study  *model.Study
	result *result.Result
}

// everyJob is all jobs of testdata, checked once for the tests that read all entries.
func everyJob(t *testing.T) []judged {
	t.Helper()
	allJudged.Do(func() {
		jobs, err := filepath.Glob("../../testdata/jobs/*/job.yaml")
		if err != nil {
			t.Fatal(err)
		}
		for _, path := range jobs {
			s := study(t, filepath.Base(filepath.Dir(path)))
			allOfThem = append(allOfThem, judged{path, s, check.Run(s, check.Options{Version: "test", Brief: true})})
		}
	})
	if len(allOfThem) < 15 {
		t.Fatal(len(allOfThem), "jobs")
	}
	return allOfThem
}

var (
	allJudged sync.Once
	allOfThem []judged
)

// No number of any job reads otherwise than its verdict: what fails is beyond its
// limit as printed, what passes is not, in either system of units.
func TestNoEntryOfAnyJobReadsOtherwiseThanItsVerdict(t *testing.T) {
	read := 0
	for _, j := range everyJob(t) {
		for _, e := range j.result.Checks {
			for _, system := range []units.System{units.Metric, units.Imperial} {
				if e.Value == nil || e.Limit == nil || e.Margin == nil {
					continue
				}
				read++
				p := e.Printed(system)
				left := signed(p.Value) - signed(p.Off) - signed(p.Limit)
				if e.Sense == result.Max {
					left = signed(p.Limit) - signed(p.Off) - signed(p.Value)
				}
				if holds := e.Verdict == result.Pass; holds != (left > -1e-9) || holds != (signed(p.Margin) >= 0) {
					t.Errorf("%s, %s, %s: %v prints %s - %s against %s, margin %s", j.path, e.ID, e.Subject, e.Verdict, p.Value, p.Off, p.Limit, p.Margin)
				}
			}
		}
	}
	if read < 5000 {
		t.Errorf("only %d entries", read)
	}
}

func signed(text string) float64 {
	v, _ := strconv.ParseFloat(text, 64)
	return v
}

// The value that a table prints stands in the sentence as it is, or nothing that reads
// like it does: a number that is a last decimal off is the same number rounded some
// other way. A setting is told once for its least and its most, as it is set: to the
// nearest.
func TestASentenceNeverTellsTheTablesValueRoundedOtherwise(t *testing.T) {
	told := map[string]int{}
	for _, j := range everyJob(t) {
		for _, e := range j.result.Checks {
			if set := e.ID == "setup.range" && e.Value != nil && e.Value.Lower == e.Value.Upper && !strings.Contains(e.Text, " reads "); set || e.Value == nil {
				continue
			}
			said, known := numbersSaid[e.Unit]
			if !known {
				t.Fatalf("%s: no sentences of %q are read", e.ID, e.Unit)
			}
			p := e.Printed(jobSystem(j.study))
			if tells(e, p, said) {
				told[e.Unit]++
			} else if near := almost(e, p, said); near != "" || e.Unit != "m" {
				t.Errorf("%s: %s, %s: the table has %s, the sentence %s: %s", j.path, e.ID, e.Subject, p.Value, near, e.Text)
			}
		}
	}
	if told["m"] < 1000 || told["kN"] < 400 || told["1"] < 100 {
		t.Errorf("so many sentences tell their value: %v", told)
	}
}

// size is a printed number without its sign: sentences say that something digs.
func size(text string) float64 { return math.Abs(signed(text)) }

func tells(e result.Entry, p result.Printed, said *regexp.Regexp) bool {
	for _, n := range said.FindAllStringSubmatch(e.Text, -1) {
		if math.Abs(size(n[1])-size(p.Value)) < 1e-9 {
			return true
		}
	}
	return false
}

// almost is a number of the sentence that is the value but for its last decimal, and
// not the limit.
func almost(e result.Entry, p result.Printed, said *regexp.Regexp) string {
	for _, n := range said.FindAllStringSubmatch(e.Text, -1) {
		if off := math.Abs(size(n[1]) - size(p.Value)); off < 1.5*math.Pow10(-p.Measure.Decimals) && n[1] != p.Limit {
			return n[1]
		}
	}
	return ""
}
