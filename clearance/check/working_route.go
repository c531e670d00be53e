package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
)

// standsWeight begins a working with what the carrier weighs.
func (r *route) standsWeight(w *result.Working) {
	w.Given("m", "mass of the carrier, at most", 1000*float64(r.weight)/gravity, "kg", r.massFrom())
	w.Given("g", "gravity", gravity, "m/s2", "ISO 80000-3")
	w.Step("W", "weight of the carrier", "m * g / 1000", "kN", "")
}

// massFrom is where the mass comes from, and how much of it is not known.
func (r *route) massFrom() string {
	if r.guessed == 0 {
		return "parts list (gear)"
	}
	return fmt.Sprintf("parts list (gear), heavy end; %.0f %% of it guessed", 100*r.guessed)
}

// standsOff is by how much the invert may be off its grade from one outer wheel line
// to the other.
func (r *route) standsOff(w *result.Working) {
	w.Given("d_i", "tolerance of the invert, level", r.bay.Tol.Value("invert"), "m", "tolerance.invert: "+r.bay.Tol.Source("invert"))
	w.Given("B", "wheelbase, first wheel line to last", r.wheelbase(), "m", "wheels.at (gear)")
	w.Step("e_i", "slope by which the invert may be off", "d_i / B", "1", "")
}

// workedPull is the pull that starts the carrier.
func (r *route) workedPull() []result.Line {
	var w result.Working
	r.standsPull(&w)
	return w.Lines()
}

func (r *route) standsPull(w *result.Working) {
	t := r.job.Travel
	r.standsWeight(w)
	r.standsOff(w)
	w.Given("i_g", "steepest grade of the way, up positive", r.up, "1", "alignment.profile (job)")
	w.Step("i", "slope with what the invert may be off", "i_g + e_i", "1", "")
	w.Given("f", "rolling coefficient, the most", float64(t.Rolling.Most), "1", whose(r.job, "travel.rolling.most"))
	w.Given("b", "breakaway over rolling", float64(t.Breakaway), "1", whose(r.job, "travel.breakaway"))
	w.Step("F", "pull that starts it", "max(0, W * (i + f * b) / sqrt(1 + i^2))", "kN", "statics: W (sin a + f b cos a), tan a = i")
}

// workedHold is what the restraint has to take.
func (r *route) workedHold() []result.Line {
	var w result.Working
	r.standsWeight(&w)
	r.standsOff(&w)
	r.standsSteepest(&w)
	w.Given("f", "rolling coefficient, the least", float64(r.job.Travel.Rolling.Least), "1", whose(r.job, "travel.rolling.least"))
	w.Step("H", "what the restraint has to take", "max(0, W * (i - f) / sqrt(1 + i^2))", "kN", "statics: W (sin a - f cos a), tan a = i")
	return w.Lines()
}

// standsSteepest is the steepest slope either way, with what the invert may be off it.
func (r *route) standsSteepest(w *result.Working) {
	w.Given("i_g", "steepest grade of the way, up or down", math.Abs(r.steep), "1", "alignment.profile (job)")
	w.Step("i", "slope with what the invert may be off", "i_g + e_i", "1", "")
}

// with is an entry with its working, where the entry has a value.
func (e Judged) with(lines []result.Line) Judged {
	if e.Value != nil {
		e.Working = lines
	}
	return e
}
