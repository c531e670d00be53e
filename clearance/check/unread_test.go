package check

import (
	"slices"
	"strings"
	"testing"

	"boxwalk/clearance/worked"
)

// april-creek states the ages of walls and roof and its gear a facing, which nothing
// reads yet; it does not state how fast the concrete rises, which nothing reads either.
func TestAKeyThatIsStatedAndNotReadIsNamedWhereverTheVerdictIs(t *testing.T) {
	r := Run(worked.Job(t, "april-creek"), Options{Only: []string{"setup.rest"}})
	for _, key := range []string{"schedule.walls_age", "schedule.roof_age", "wall.facing"} {
		if !slices.Contains(r.NotRead, key) {
			t.Errorf("%s is not in %v", key, r.NotRead)
		}
	}
	if slices.Contains(r.NotRead, "concrete.rise_rate") {
		t.Errorf("%v: the job does not state rise_rate", r.NotRead)
	}
	if all := strings.Join(r.Reservations(), "\n"); !strings.Contains(all, "Stated, but read by no check yet: schedule.walls_age, schedule.roof_age") {
		t.Error(all)
	}
}
