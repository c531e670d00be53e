package check

import (
	"maps"
	"math"
	"math/rand"
	"path/filepath"
	"slices"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
	"boxwalk/model"
)

// sameEntries fails unless a check of what may govern alone has every entry as the
// check of every part has it, down to the last digit, place and word.
func sameEntries(t *testing.T, name string, s *model.Study) {
	t.Helper()
	every, brief := Run(s, Options{}).Checks, Run(s, Options{Brief: true}).Checks
	if len(every) != len(brief) {
		t.Fatalf("%s: %d entries, %d where every part is measured", name, len(brief), len(every))
	}
	for i, e := range every {
		if b := brief[i]; !alikeEntries(e, b) {
			t.Errorf("%s: %s %s\nevery part: %v %v %s\nbrief:      %v %v %s", name, e.ID, e.Subject, e.Verdict, shown(e), e.Text, b.Verdict, shown(b), b.Text)
		}
	}
}

// alikeEntries tells whether two entries are the same but for rounding: which of parts
// that measure the same is searched makes a difference in the last digits.
func alikeEntries(e, b result.Entry) bool {
	near := func(x, y float64) bool { return x == y || math.Abs(x-y) < 1e-9 }
	if e.ID != b.ID || e.Subject != b.Subject || e.Verdict != b.Verdict || e.Text != b.Text || e.Where.Part != b.Where.Part || (e.Value == nil) != (b.Value == nil) {
		return false
	}
	return e.Value == nil || near(e.Value.Lower, b.Value.Lower) && near(e.Value.Upper, b.Value.Upper) && near(e.Allowance, b.Allowance) && near(e.WorstCase, b.WorstCase) && (e.Limit == nil || near(*e.Limit, *b.Limit))
}

func shown(e result.Entry) any {
	if e.Value == nil {
		return nil
	}
	return [4]float64{e.Value.Lower, e.Value.Upper, e.Allowance, e.Where.At}
}

func TestWhatMayGovernHasTheEntriesOfEveryPart(t *testing.T) {
	list, err := filepath.Glob("../../testdata/jobs/*/job.yaml")
	if err != nil || len(list) < 8 {
		t.Fatal(len(list), err)
	}
	for i, path := range list {
		if i%worked.Campaign(3, 1) == 0 {
			name := filepath.Base(filepath.Dir(path))
			sameEntries(t, name, jobFile(t, name))
		}
	}
}

func TestWhatMayGovernHasTheEntriesOfEveryPartOfScrambledJobs(t *testing.T) {
	all := newTrial(t)
	gears, built := slices.Sorted(maps.Keys(few)), 0
	for seed := range int64(worked.Campaign(150, 1000)) {
		r := rand.New(rand.NewSource(seed))
		name := gears[int(seed)%len(gears)]
		if s, _, _ := all.study(r, name); s != nil {
			built++
			sameEntries(t, name, s)
		}
	}
	if built < 20 {
		t.Errorf("only %d could be built", built)
	}
}
