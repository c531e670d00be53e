package check

import (
	"fmt"
	"math"
	"testing"

	"boxwalk/clearance/result"
	"boxwalk/model"
)

// onGrade are pull, restraint and tipping of the worked cell on a grade.
func onGrade(t *testing.T, grade string, swap ...[2]string) map[string]result.Entry {
	t.Helper()
	c := chain{Gear: "roof-halves-24", Jobs: append([][2]string{{"gear: gear.yaml", "alignment: {grade: " + grade + "}\ngear: gear.yaml"}}, swap...)}
	return byHand(t, c, 0, func(b *bay, s *model.Study) []Judged {
		r := b.onTheWay(s)
		return append(r.pullChecks(nil), r.tipChecks(nil)...)
	})
}

// withoutRestraint takes it out of the worked job.
var withoutRestraint = [2]string{"travel: {capacity: 20 kN, restraint: {capacity: 10 kN}}\n", ""}

func TestALevelGradeNeedsARestraintAsAnyOtherDoes(t *testing.T) {
	w := rollingWeight(t, chain{Gear: "roof-halves-24"})
	// an invert 6 off level over a wheelbase of 1800 falls by 1 in 300, either way
	tol := 6.0 / 1800
	hold := func(slope float64) float64 { return w * math.Sin(math.Atan(slope)) }
	for grade, slope := range map[string]float64{"0 %": tol, "-0.01 %": 0.0001 + tol, "0.01 %": 0.0001 + tol} {
		e := reads(t, onGrade(t, grade, withoutRestraint), "restraint", result.Fail, 1e3*hold(slope), 1)
		says(t, e, "0.33 %", "6.0 mm over 1800.0 mm")
		reads(t, onGrade(t, grade), "restraint", result.Pass, 1e3*hold(slope), 1)
	}
	// what rolls hard enough holds itself: 0.02 is above 0.33 %
	hard := [2]string{"travel: {capacity: 20 kN, restraint: {capacity: 10 kN}}", "travel: {rolling: {least: 0.02, most: 0.02, source: pull test}}"}
	reads(t, onGrade(t, "0 %", hard), "restraint", result.Pass, 0, 0)
	// and 0.0033 is not; an invert that is held closer is
	soft := [2]string{"travel: {capacity: 20 kN, restraint: {capacity: 10 kN}}", "travel: {rolling: {least: 0.0033, most: 0.02, source: pull test}}"}
	reads(t, onGrade(t, "0 %", soft), "restraint", result.Fail, 1e3*w*(math.Sin(tol)-0.0033), 1)
	reads(t, onGrade(t, "0 %", soft, [2]string{"gear: gear.yaml", "tolerance: {invert: 5 mm}\ngear: gear.yaml"}), "restraint", result.Pass, 0, 0)
}

func TestTheInvertsToleranceIsPulledUpToo(t *testing.T) {
	w := rollingWeight(t, chain{Gear: "roof-halves-24"})
	for grade, slope := range map[string]float64{"0 %": 0, "-1 %": -0.01, "2 %": 0.02} {
		a := math.Atan(slope + 6.0/1800)
		want := w * (math.Sin(a) + 2*0.02*math.Cos(a))
		says(t, reads(t, onGrade(t, grade), "winch", result.Pass, 1e3*want, 2), fmt.Sprintf("on %+.2f %%", 100*slope), "0.33 %")
	}
}

func TestALevelCarrierTipsByTheInvertsTolerance(t *testing.T) {
	for grade, slope := range map[string]float64{"0 %": 0, "-1 %": 0.01, "1 %": 0.01} {
		e := onGrade(t, grade)["along"]
		// 900 from either wheel line, the centre of gravity about 1.45 up
		want := 0.9 / 1.45 / (slope + 6.0/1800)
		if e.Verdict != result.Pass || e.Value == nil || math.Abs(e.Value.Lower-want) > 0.02*want {
			t.Errorf("%s: %v, want %.1f: %s", grade, e.Value, want, e.Text)
		}
	}
}
