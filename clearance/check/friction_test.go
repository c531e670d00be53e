package check

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/clearance/worked"
)

// A carrier that friction of 0.02 holds on a level grade needs W sin(6 mm / 1800 mm)
// of restraint where there is none: the check says so, and so does what stands on every
// sheet, list and table. Without the key nobody reads of friction.
func TestFrictionThatHoldsIsNamedWithWhatIsNeededWithoutIt(t *testing.T) {
	want := fmt.Sprintf("rolling friction of 0.02 is relied on for holding (travel.rolling.least, source: pull test of 3 June); without it the restraint must take %.2f kN",
		math.Ceil(100*rollingWeight(t, chain{Gear: "roof-halves-24"})*math.Sin(math.Atan(6.0/1800)))/100)
	rough := worked.Travels(`rolling: {least: 0.02, most: 0.02, source: pull test of 3 June}`)
	r := checked(t, chain{Gear: "roof-halves-24", Jobs: [][2]string{rough}})
	if e, _ := find(r, "roll.hold", "restraint", ""); e.Verdict != result.Pass || !strings.Contains(e.Text, want) {
		t.Errorf("%v: %q, not %q", e.Verdict, e.Text, want)
	}
	if all := strings.Join(r.Reservations(), "\n"); !strings.Contains(all, want) {
		t.Errorf("%q is not in %q", want, all)
	}
	r = checked(t, chain{Gear: "roof-halves-24"})
	if e, _ := find(r, "roll.hold", "restraint", ""); strings.Contains(e.Text+strings.Join(r.Reservations(), ""), "friction") {
		t.Error(e.Text)
	}
}

// Friction that nobody answers for holds nothing: the job is refused.
func TestFrictionThatHoldsNeedsASource(t *testing.T) {
	for _, text := range []string{"rolling: {least: 0.001}", `rolling: {least: 0.001, source: " "}`} {
		s, why := chain{Gear: "roof-halves-24", Jobs: [][2]string{worked.Travels(text)}}.Built(t)
		if s != nil || !strings.Contains(why, "nobody says where it is from") {
			t.Errorf("%s: %s", text, why)
		}
	}
	if _, err := os.Stat("../../testdata/bad/job/rolling-least-of-nobody.yaml"); err != nil {
		t.Error(err)
	}
}
