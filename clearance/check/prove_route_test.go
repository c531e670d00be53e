package check

import (
	"fmt"
	"math/rand"
	"strings"
	"testing"

	"boxwalk/clearance/worked"
)

// randomRoute is a line with a bend and a grade break at each joint, steered in
// one of the three ways, with pours cast ahead or back.
func randomRoute(r *rand.Rand) chain {
	between := func(lo, hi float64) float64 { return lo + r.Float64()*(hi-lo) }
	side := func() string { return []string{"left", "right"}[r.Intn(2)] }
	at, z := 0.0, 10.0
	profile := []string{"{station: 0+000, elevation: 10 m}"}
	for range 3 {
		at += 2.3
		z += 2.3 * between(-0.02, 0.02)
		profile = append(profile, fmt.Sprintf("{station: 0+%07.3f, elevation: %.4f m}", at, z))
	}
	line := fmt.Sprintf("  start: {elevation: 10 m}\n  plan: [{tangent: 2.3 m}, {turn: %.3f deg %s}, {tangent: 2.3 m}, {turn: %.3f deg %s}, {tangent: 2.3 m}]\n  profile: [%s]",
		between(0.05, 1.2), side(), between(0.05, 1.2), side(), strings.Join(profile, ", "))
	travel := []string{"steering: centreline", "steering: offset, offset: 8 mm", "steering: guide rollers, rollers: {side: left, rear: 0.3 m, front: 2 m}"}[r.Intn(3)]
	return onRoute(line, travels(travel),
		[2]string{"  pours:", "  order: " + []string{"ahead", "[3, 2, 1]", "[1, 3, 2]"}[r.Intn(3)] + "\n  pours:"})
}

func TestProofsOfRandomRoutesHold(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	carried := 0
	for range worked.Campaign(2, 12) {
		c := randomRoute(r)
		s := c.read(t)
		text, result := proved(t, s, Options{}, false)
		carried += strings.Count(string(text), "\ncarry ")
		if report := holds(t, text, result); report == nil || !report.Whole || len(report.Unseen) > 0 {
			t.Errorf("%v\n%+v", c.jobs, report)
		}
	}
	if carried < worked.Campaign(8, 50) {
		t.Errorf("only %d stretches were carried", carried)
	}
}
