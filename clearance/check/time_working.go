package check

import (
	"fmt"
	"strings"

	"boxwalk/clearance/release"
	"boxwalk/clearance/result"
	"boxwalk/model/job"
	"boxwalk/model/load"
)

// mostSpells is how many spells a working adds up line by line; of more the sum stands
// in one.
const mostSpells = 6

// working is how the strength at release comes about.
func (f freed) working() []result.Line {
	var w result.Working
	c := f.concrete
	switch {
	case c.Tested != nil:
		w.Given("f", "strength by cylinders, the least of them", float64(*c.Tested)/1e3, "MPa", f.tested+" of the job")
	case c.Calibration != nil:
		f.calibratedWorking(&w, c.Calibration)
	default:
		f.equivalentAge(&w, "exp(13.65 - 4000 / (273 + %s))", "EN 1992-1-1 B.10 (second-hand)")
		w.Given("f_ck", "characteristic strength at 28 days", float64(*c.Strength)/1e3, "MPa", "concrete.strength of the job")
		w.Given("s", "cement class "+c.Cement, load.CementClassOf(c.Cement).Rate(), "1", "EN 1992-1-1 3.1.2(6)")
		if w.Value("t_e") >= 28 {
			w.Step("f", "characteristic strength, not before 28 days", "f_ck", "MPa", "EN 1992-1-1 3.1.2(5) (from memory)")
			break
		}
		w.Step("f_cm", "mean strength at that age", "exp(s * (1 - sqrt(28 / t_e))) * (f_ck + 8)", "MPa", "EN 1992-1-1 3.1.2(6); the 8 MPa from memory")
		w.Step("f", "characteristic strength at that age", "f_cm - 8", "MPa", "EN 1992-1-1 3.1.2(5) (from memory)")
	}
	return w.Lines()
}

// equivalentAge adds up t_e, days, each spell at a rate that hangs on its temperature.
func (f freed) equivalentAge(w *result.Working, rate, from string) {
	f.summed(w, "t_e", "equivalent age", rate, "d", 86400, from)
}

// summed adds up what the spells are worth, each at its rate by temperature, in a unit of
// time.
func (f freed) summed(w *result.Working, symbol, means, rate, unit string, seconds float64, from string) {
	c := f.concrete
	h := release.History(c.Curing, *c.Age).Until(*c.Age)
	if len(h) > mostSpells {
		g, _ := c.At(*c.Age)
		v := g.Worth.Days()
		if g.Maturity > 0 {
			v = float64(g.Maturity)
		}
		w.Given(symbol, means, v, unit, fmt.Sprintf("%s: sum over the %d spells of %s of %s x hours or days", from, len(h), f.curing, fmt.Sprintf(rate, "T")))
		return
	}
	timeUnit := map[string]string{"d": "d", "degC h": "h"}[unit]
	var sum []string
	for i, spell := range h {
		t, T := fmt.Sprintf("t_%d", i+1), fmt.Sprintf("T_%d", i+1)
		w.Given(t, "time at that temperature", float64(spell.For)/seconds, timeUnit, f.curing+" up to "+f.age)
		w.Given(T, "temperature", float64(spell.At), "degC", f.curing)
		sum = append(sum, t+" * "+fmt.Sprintf(rate, T))
	}
	w.Step(symbol, means, strings.Join(sum, " + "), unit, from)
}

// calibratedWorking is by the curve of the mix.
func (f freed) calibratedWorking(w *result.Working, k *job.Calibration) {
	from := "concrete.calibration of the job: " + k.Source
	if k.Curve == "logarithmic" {
		w.Given("T_0", "datum temperature", float64(*k.Datum), "degC", from)
		f.summed(w, "M", "temperature-time factor", "max(0, %s - T_0)", "degC h", 3600, load.NurseSaulSource().String())
		w.Given("a", "strength at 1 degC h", float64(*k.A)/1e3, "MPa", from)
		w.Given("b", "gain for ten times the maturity", float64(*k.B)/1e3, "MPa", from)
		w.Step("f", "strength by the curve", "a + b * ln(M) / ln(10)", "MPa", "Plowman 1956 (from memory)")
		return
	}
	w.Given("Q", "activation energy over the gas constant", float64(*k.Q), "K", from)
	w.Given("T_r", "reference temperature", float64(*k.Reference), "degC", from)
	f.equivalentAge(w, "exp(-Q * (1 / (%s + 273.15) - 1 / (T_r + 273.15)))", load.ArrheniusSource().String())
	w.Given("S_u", "strength that the curve tends to", float64(*k.Ultimate)/1e3, "MPa", from)
	if k.Curve == "hyperbolic" {
		w.Given("k", "rate constant per day", float64(*k.K), "1/d", from)
		w.Given("t_0", "age at which strength begins", float64(*k.Start)/86400, "d", from)
		w.Step("f", "strength by the curve", "S_u * k * max(0, t_e - t_0) / (1 + k * max(0, t_e - t_0))", "MPa", "ASTM C1074 appendix (from memory)")
		return
	}
	w.Given("tau", "time constant", float64(*k.Tau)/86400, "d", from)
	w.Given("beta", "shape", float64(*k.Beta), "1", from)
	w.Step("f", "strength by the curve", "S_u * exp(-(tau / t_e)^beta)", "MPa", "exponential curve (second-hand)")
}
