package clearance

import (
	"strings"
	"testing"

	"boxwalk/model/job"
	"boxwalk/model/units"
)

// What the crew is told to keep is what the checks are made with, rounded to
// the safe side: 2.5 mm by default, and 3 mm are 0.118 in, printed as 0.11.
func TestTheCautionsStateTheJackLevelThatIsProved(t *testing.T) {
	three := units.Length(0.003)
	for _, c := range []struct {
		job  job.Job
		want string
	}{
		{job.Job{}, "by more than 2.5 mm."},
		{job.Job{Tolerance: job.Tolerance{JackLevel: &three}}, "by more than 3.0 mm."},
		{job.Job{Job: job.Title{Units: "imperial"}, Tolerance: job.Tolerance{JackLevel: &three}}, "by more than 0.11 in."},
	} {
		all := strings.Join(CautionsOf(&c.job), "\n")
		if !strings.Contains(all, c.want) || strings.Contains(all, "10 mm") {
			t.Errorf("no %q in\n%s", c.want, all)
		}
	}
}
