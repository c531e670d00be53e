package table

import (
	"math"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/model/units"
)

// A length in a sentence, in millimetres or inches.
var lengthSaid = regexp.MustCompile(`(-?[0-9]+\.[0-9]+) (mm|in)\b`)

// The value that a table prints stands in the sentence as it is, or nothing that reads
// like it does: a number that is a last decimal off is the same number rounded some
// other way. A setting is told once for its least and its most, as it is set: to the
// nearest.
func TestASentenceNeverTellsTheTablesValueRoundedOtherwise(t *testing.T) {
	jobs, err := filepath.Glob("../../testdata/jobs/*/job.yaml")
	if err != nil || len(jobs) < 15 {
		t.Fatal(jobs, err)
	}
	told := 0
	for _, path := range jobs {
		s := study(t, filepath.Base(filepath.Dir(path)))
		system := units.Metric
		if s.Job.Job.Units == "imperial" {
			system = units.Imperial
		}
		for _, e := range check.Run(s, check.Options{Version: "test", Brief: true}).Checks {
			if set := e.ID == "setup.range" && e.Value != nil && e.Value.Lower == e.Value.Upper && !strings.Contains(e.Text, " reads "); set || e.Unit != "m" || e.Value == nil {
				continue
			}
			m := shown("m", system)
			if tells(e, m) {
				told++
			} else if near := almost(e, m); near != "" {
				t.Errorf("%s: %s, %s: the table has %s, the sentence %s: %s", path, e.ID, e.Subject, m.governing(e), near, e.Text)
			}
		}
	}
	if told < 1000 {
		t.Errorf("%d sentences tell their value", told)
	}
}

// printed is an entry's governing value as printed, without its sign: sentences say that
// something digs.
func printed(e result.Entry, m measure) float64 {
	v, _ := strconv.ParseFloat(m.governing(e), 64)
	return math.Abs(v)
}

func tells(e result.Entry, m measure) bool {
	for _, n := range lengthSaid.FindAllStringSubmatch(e.Text, -1) {
		if v, _ := strconv.ParseFloat(n[1], 64); math.Abs(math.Abs(v)-printed(e, m)) < 1e-9 {
			return true
		}
	}
	return false
}

// almost is a length of the sentence that is the value but for its last decimal, and
// not the limit.
func almost(e result.Entry, m measure) string {
	for _, n := range lengthSaid.FindAllStringSubmatch(e.Text, -1) {
		v, _ := strconv.ParseFloat(n[1], 64)
		off := math.Abs(math.Abs(v) - printed(e, m))
		if off < 1.5*math.Pow10(-m.decimals) && n[1] != m.nearest(*e.Limit) {
			return n[1]
		}
	}
	return ""
}
