package check

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/sweep"
	"boxwalk/model/culvert"
)

var inMillimetres = regexp.MustCompile(`(\d+\.\d) mm`)

// numbersIn are the lengths that a sentence gives, mm.
func numbersIn(text string) []float64 {
	var out []float64
	for _, m := range inMillimetres.FindAllStringSubmatch(text, -1) {
		v, _ := strconv.ParseFloat(m[1], 64)
		out = append(out, v)
	}
	return out
}

// What is printed is rounded to 0.1 mm, the difference down: 4.57 x 1800 / 2187.2 =
// 3.76 reads 4.6 x 1800 / 2187.2 = 3.7, 0.1 off.
func TestTheNumbersInTheSentenceOfALevelGiveItOrASearchIsNamed(t *testing.T) {
	arithmetic, searched := 0, 0
	for gear, job := range map[string]string{"roof-halves-24": cell24, "roof-halves-43": cell43, "roof-whole-24": cell24} {
		for _, e := range checked(t, chain{Gear: gear, Job: job}).Checks {
			if e.ID != "strip.level" || e.Value == nil {
				continue
			}
			n, value := numbersIn(e.Text), 1e3*e.Value.Lower
			switch {
			case strings.Contains(e.Text, "search"):
				searched++
				if strings.ContainsAny(e.Text, "/+") {
					t.Errorf("%s: arithmetic that does not give %.2f: %s", gear, value, e.Text)
				}
			case strings.Contains(e.Text, "x gauge"):
				arithmetic++
				if math.Abs(n[2]*n[3]/n[4]-value) > 0.1 || n[5] > value {
					t.Errorf("%s: %.2f: %s", gear, value, e.Text)
				}
			default:
				arithmetic++
				if got := n[2] / (n[3]/n[4] + n[5]/n[6]); math.Abs(got-value) > 0.1 {
					t.Errorf("%s: %.2f is not %.2f: %s", gear, got, value, e.Text)
				}
			}
		}
	}
	if arithmetic == 0 || searched == 0 {
		t.Errorf("%d by arithmetic, %d by search", arithmetic, searched)
	}
}

// 25 / (1250 / 1800 + 1200 / 1200) = 14.75.
func TestOnlyArithmeticThatGivesTheDifferenceIsPrinted(t *testing.T) {
	b := Examine(chain{Gear: "roof-halves-24"}.Study(t), Options{}).Bays[0].bay
	g := measure.GapNearby{Zone: culvert.Roof, Left: -1, V: sweep.Bracket{Lower: 0.025, Upper: 0.025}, Leant: measure.Leant{Across: 1.25, Along: 1.2}}
	unit := measure.Lean{Gauge: 1.8, Lever: 1.2}
	if text := b.safeWords(g, unit, 0.01475); !strings.Contains(text, "25.0 mm / (1250.0 mm / gauge 1800.0 mm across + 1200.0 mm / 1200.0 mm along)") {
		t.Error(text)
	}
	for _, safe := range []float64{0.0142, 0.0149} {
		if text := b.safeWords(g, unit, safe); !strings.Contains(text, "search") || strings.Contains(text, "/") {
			t.Errorf("%v: %s", safe, text)
		}
	}
}
