package check

import (
	"encoding/csv"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

var update = flag.Bool("update", false, "write the stored numbers anew")

// stored is how near a number comes to that of another day: far below what anybody
// builds, and above what another order of the same sums leaves. A carrier that rolls is
// placed by iteration, to a tenth of a micrometre.
func stored(id string) float64 {
	if id == "roll.clear" {
		return 1e-7
	}
	return 1e-9
}

// governingRows are the governing entries of a job for each check and subject beyond
// cell and pour.
func governingRows(name string, r *result.Result) [][]string {
	var out [][]string
	seen := map[[2]string]bool{}
	number := func(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
	for _, e := range r.Checks {
		key := [2]string{e.ID, e.Subject.Rest()}
		if seen[key] {
			continue
		}
		seen[key] = true
		lower, upper, limit := "", "", ""
		if e.Value != nil {
			lower, upper = number(e.Value.Lower), number(e.Value.Upper)
		}
		if e.Limit != nil {
			limit = number(*e.Limit)
		}
		out = append(out, []string{name, e.ID, key[1], e.Verdict.String(), lower, upper, limit, number(e.Allowance)})
	}
	return out
}

// A change that is to change no number changes none: what governs each check of every
// job is stored, and written anew with -update by whoever means to change it.
func TestNumbersOfEveryJobAreThoseStored(t *testing.T) {
	file := worked.Path("numbers.csv")
	list, err := filepath.Glob(worked.Path("jobs", "*", "job.yaml"))
	if err != nil || len(list) < 20 {
		t.Fatal(err, list)
	}
	var now [][]string
	for i, path := range list {
		if *update || i%worked.Campaign(5, 1) == 0 {
			name := filepath.Base(filepath.Dir(path))
			now = append(now, governingRows(name, Run(worked.Job(t, name), Options{Brief: true}))...)
		}
	}
	if *update {
		storeRows(t, file, now)
		return
	}
	before, jobs := map[[3]string][]string{}, map[string]bool{}
	for _, row := range now {
		jobs[row[0]] = true
	}
	for _, row := range storedRows(t, file) {
		if jobs[row[0]] {
			before[[3]string(row)] = row
		}
	}
	if len(before) != len(now) {
		t.Errorf("%d rows are stored of these jobs, and there are %d", len(before), len(now))
	}
	for _, row := range now {
		was, ok := before[[3]string(row)]
		if !ok {
			t.Errorf("%v is not stored", row[:3])
			continue
		}
		for i := 3; i < len(row); i++ {
			if row[i] != was[i] && !near(row[i], was[i], stored(row[1])) {
				t.Errorf("%v: %s, stored %s", row[:3], row[i], was[i])
			}
		}
	}
}

// near tells whether two texts are numbers that differ by no more than so much.
func near(a, b string, by float64) bool {
	x, err := strconv.ParseFloat(a, 64)
	y, err2 := strconv.ParseFloat(b, 64)
	return err == nil && err2 == nil && math.Abs(x-y) <= by
}

func storeRows(t *testing.T, file string, rows [][]string) {
	t.Helper()
	f, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	w := csv.NewWriter(f)
	if err := w.WriteAll(rows); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}

func storedRows(t *testing.T, file string) [][]string {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(fmt.Errorf("%s: %w", file, err))
	}
	return rows
}
