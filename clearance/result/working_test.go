package result

import (
	"math"
	"strings"
	"testing"
)

func TestAWorkingIsWorkedOutLineByLine(t *testing.T) {
	var w Working
	w.Given("W", "weight", 84, "kN", "weighed")
	w.Given("n", "wheels", 4, "1", "gear")
	w.Step("R", "load of a wheel", "W / n", "kN", "even share")
	w.Step("F", "with its factor", "1.6 * R", "kN", "ACI 318")
	if got := w.Value("F"); math.Abs(got-33.6) > 1e-12 || len(w.Lines()) != 4 {
		t.Errorf("%v in %d lines", got, len(w.Lines()))
	}
}

func TestAWorkingWithALineThatHasNoValueIsNone(t *testing.T) {
	for name, make := range map[string]func(w *Working){
		"given NaN":       func(w *Working) { w.Given("W", "weight", math.NaN(), "kN", "") },
		"given infinite":  func(w *Working) { w.Given("W", "weight", math.Inf(1), "kN", "") },
		"divided by zero": func(w *Working) { w.Given("W", "weight", 0, "kN", ""); w.Step("R", "", "1 / W", "1", "") },
		"asked beyond": func(w *Working) {
			w.Given("W", "weight", math.NaN(), "kN", "")
			w.Step("R", "", "2 * W", "kN", "")
			w.Given("n", "", 1, "1", "")
		},
	} {
		var w Working
		w.Given("a", "one", 1, "1", "")
		make(&w)
		if w.Lines() != nil || !math.IsNaN(w.Value("a")) {
			t.Errorf("%s: %v", name, w.Lines())
		}
	}
}

func TestAWorkingThatCannotBeReadIsAMistakeOfOurs(t *testing.T) {
	for want, make := range map[string]func(w *Working){
		"no line before has b": func(w *Working) { w.Step("R", "", "a + b", "1", "") },
		"at 4":                 func(w *Working) { w.Step("R", "", "a +", "1", "") },
		"two lines have a":     func(w *Working) { w.Given("a", "", 2, "1", "") },
	} {
		func() {
			defer func() {
				if got, _ := recover().(string); !strings.Contains(got, want) {
					t.Errorf("%q, want %q", got, want)
				}
			}()
			var w Working
			w.Given("a", "one", 1, "1", "")
			make(&w)
		}()
	}
}
