package certify

import (
	"math/rand"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

// BOXWALK_PROOFS=DIR writes the proofs and results there, for another verifier;
// BOXWALK_JOBS is how many jobs there are.
func TestAnyValidJobCanBeProvedWhateverItsVerdicts(t *testing.T) {
	jobs, dir := worked.Campaign(9, 15), os.Getenv("BOXWALK_PROOFS")
	if n, err := strconv.Atoi(os.Getenv("BOXWALK_JOBS")); err == nil {
		jobs = n
	}
	r := rand.New(rand.NewSource(15))
	jammed, seams, proved := 0, 0, 0
	for n := 0; proved < jobs; n++ {
		c := worked.RandomBox(r)
		s, why := c.Built(t)
		if s == nil {
			if n > 20*jobs {
				t.Fatalf("hardly any job can be built, the last since %s", why)
			}
			continue
		}
		proved++
		e := check.Examine(s, check.Options{Proof: true})
		text, result, err := written(e, false)
		if err != nil {
			t.Errorf("%v\n%s %v %v", err, c.Gear, c.Swap, c.Jobs)
			continue
		}
		if report := holds(t, text, result); report == nil || len(report.Unseen) > 0 {
			t.Errorf("%s %v %v\n%+v", c.Gear, c.Swap, c.Jobs, report)
		}
		if dir != "" {
			name := filepath.Join(dir, strconv.Itoa(n))
			write(t, name+".proof", text)
			write(t, name+".json", result)
		}
		jams := jamsOf(e.Result)
		jammed, seams = jammed+min(1, jams[0]), seams+min(1, jams[1])
	}
	t.Logf("%d jobs, strip.self fails in %d, at seams in %d", proved, jammed, seams)
	if jammed < jobs/5 || seams < 1 {
		t.Errorf("strip.self fails in %d of %d, at seams in %d", jammed, proved, seams)
	}
}

func write(t *testing.T, name string, text []byte) {
	t.Helper()
	if err := os.WriteFile(name, text, 0o644); err != nil {
		t.Fatal(err)
	}
}

// jamsOf counts what fails in strip.self: all, and seams.
func jamsOf(r *result.Result) (out [2]int) {
	for _, c := range r.Checks {
		if c.ID == "strip.self" && c.Verdict == result.Fail {
			out[0]++
			if strings.HasSuffix(c.Subject.String(), ", seams") {
				out[1]++
			}
		}
	}
	return out
}
