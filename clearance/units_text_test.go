package clearance

import (
	"regexp"
	"testing"
)

// A sentence tells numbers in the units of the job's files.
func TestSentencesTellTheUnitsOfTheJob(t *testing.T) {
	metric := regexp.MustCompile(`[0-9] ?(mm|m|kN|MPa|kPa|kg|t)\b`)
	imperial := regexp.MustCompile(`[0-9] ?(in|ft|lb|lbf|kip|psi|pcf)\b`)
	for _, c := range []struct {
		job     string
		foreign *regexp.Regexp
		own     *regexp.Regexp
	}{{"fourteen-by-fourteen", metric, imperial}, {"quarry-lane", imperial, metric}} {
		told := 0
		r := Check(studyOf(t, c.job), Options{})
		for _, e := range r.Checks {
			if found := c.foreign.FindString(e.Text); found != "" {
				t.Errorf("%s: %s, %s tells %q: %s", c.job, e.ID, e.Subject, found, e.Text)
			}
			if found := c.foreign.FindString(e.Where.Step); found != "" {
				t.Errorf("%s: %s, %s is in the step %q", c.job, e.ID, e.Subject, e.Where.Step)
			}
			if c.own.MatchString(e.Text) {
				told++
			}
		}
		if told < 50 {
			t.Errorf("%s: only %d sentences tell a number", c.job, told)
		}
	}
}
