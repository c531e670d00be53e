package certify

import (
	"bytes"
	"fmt"
	"math/rand"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/proof"
	"boxwalk/clearance/worked"
)

// randomRoute is a line with a bend and a grade break at each joint, steered in
// one of the three ways, with pours cast ahead or back.
func randomRoute(r *rand.Rand) worked.Chain {
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
	return worked.OnRoute(line, worked.Travels(travel),
		[2]string{"  pours:", "  order: " + []string{"ahead", "[3, 2, 1]", "[1, 3, 2]"}[r.Intn(3)] + "\n  pours:"})
}

func TestProofsOfRandomRoutesHold(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	carried := 0
	for range worked.Campaign(2, 12) {
		c := randomRoute(r)
		s := c.Study(t)
		text, result := proved(t, s, check.Options{}, false)
		carried += strings.Count(string(text), "\ncarry ")
		if report := holds(t, text, result); report == nil || !report.Whole || len(report.Unseen) > 0 {
			t.Errorf("%v\n%+v", c.Jobs, report)
		}
	}
	if carried < worked.Campaign(8, 50) {
		t.Errorf("only %d stretches were carried", carried)
	}
}

func TestProofOfAnAdvanceThatPitchesIsOfTheWhole(t *testing.T) {
	s := worked.Chain{Gear: "roof-halves-24", Whole: true, Job: worked.Breaking(worked.Tangent, 0, -2.5)}.Study(t)
	var out bytes.Buffer
	if err := Write(&out, check.Examine(s, check.Options{Proof: true}), Options{Result: strings.Repeat("0", 64)}); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(out.String(), "\nscope all\n") || !strings.Contains(out.String(), "\ncarry ") {
		t.Error("the proof leaves the advance out")
	}
	if _, err := proof.Verify(&out); err != nil {
		t.Error(err)
	}
}

func TestProofOfARollBackPastTwoBendsHolds(t *testing.T) {
	// as in TestRollBackPastTwoBendsIsMeasured of package check
	text := strings.Replace(worked.Bent("1 deg"), "pours: [9 m, 9 m]", "pours: [9 m, 9 m, 9 m]\n  order: [1, 3, 2]", 1)
	text = strings.Replace(text, "{tangent: 9 m}]", "{tangent: 9 m}, {turn: 0.5 deg right}, {tangent: 9 m}]", 1)
	written, found := proved(t, worked.Chain{Gear: "roof-halves-24", Whole: true, Job: text}.Study(t), check.Options{}, false)
	holds(t, written, found)
}
