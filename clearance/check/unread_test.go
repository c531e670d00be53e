package check

import (
	"slices"
	"strings"
	"testing"

	"boxwalk/clearance/worked"
)

// quarry-lane's gear states a facing, which nothing reads yet.
func TestAKeyThatIsStatedAndNotReadIsNamedWhereverTheVerdictIs(t *testing.T) {
	r := Run(worked.Job(t, "quarry-lane"), Options{Only: []string{"setup.rest"}})
	for _, key := range []string{"wall.facing"} {
		if !slices.Contains(r.NotRead, key) {
			t.Errorf("%s is not in %v", key, r.NotRead)
		}
	}
	if slices.Contains(r.NotRead, "roof.facing") {
		t.Errorf("%v: the gear does not state the roof's facing", r.NotRead)
	}
	if all := strings.Join(r.Reservations(), "\n"); !strings.Contains(all, "Stated, but read by no check yet: ") {
		t.Error(all)
	}
}
