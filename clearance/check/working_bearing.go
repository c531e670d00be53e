package check

import (
	"fmt"
	"strings"

	"boxwalk/clearance/release"
	"boxwalk/clearance/result"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// workedBearing is the demand on the invert, after what it bears.
func (r *route) workedBearing(wheel units.Force, edge float64) []result.Line {
	var w result.Working
	r.standsInvert(&w)
	gear, basis := r.bay.Carrier.Gear.Wheels, load.ACIBasis()
	w.Given("l", "contact of a wheel along", float64(gear.Patch), "m", "wheels.patch (gear)")
	w.Given("t", "contact across: width of a tread", float64(gear.Tread), "m", "wheels.tread (gear)")
	w.Given("e_a", "from the contact to the slab's end along", r.bay.limits.of("roll.support").Value, "m", "kept by roll.support")
	w.Given("e_c", "from the contact to the nearest free edge across", edge, "m", "culvert.span, walls, culvert.channel (job), set: gauge")
	w.Given("d", "thickness of the invert", r.bay.Cell.Invert, "m", "culvert.invert (job)")
	w.Step("k", "root of supporting over loaded area", "min(1 + 2 * e_a / l, 1 + 2 * e_c / t, 1 + 4 * d / max(l, t), 2)", "1", "ACI 318-19 22.8.3.2, from memory")
	w.Given("phi", "strength reduction in bearing", basis.Phi, "1", "ACI 318-19 21.2.1, from memory")
	w.Step("C", "what it bears, the limit", "phi * 0.85 * f * l * t * k", "kN", "ACI 318-19 22.8.3.2, from memory")
	w.Given("R", "the most that one wheel carries, on three alone", float64(wheel), "kN", "roll.wheel, rocking, without its factor")
	w.Given("gamma", "load factor", basis.Factor, "1", "live load of ACI 318, from memory")
	w.Step("F", "load with its factor", "gamma * R", "kN", "")
	return w.Lines()
}

// standsInvert is the strength of the invert when the wheels run on it.
func (r *route) standsInvert(w *result.Working) {
	c := r.job.Concrete
	if c.InvertStrength != nil {
		w.Given("f", "strength of the invert, by cylinders", float64(*c.InvertStrength), "kPa", "concrete.invert_strength (job)")
		return
	}
	r.standsAge(w)
	class := load.CementClassOf(c.Cement)
	w.Given("f_c", "strength at 28 days", float64(*c.Strength), "kPa", "concrete.strength (job)")
	w.Given("s", "of cement "+c.Cement, class.Rate(), "1", "EN 1992-1-1 3.1.2(6)")
	if w.Value("t_e") >= 28 {
		w.Step("f", "its strength by then, not counted above that", "f_c", "kPa", "EN 1992-1-1 3.1.2(5), from memory")
		return
	}
	w.Step("f", "its strength by then", "exp(s * (1 - sqrt(28 / t_e))) * (f_c + 8000) - 8000", "kPa", "EN 1992-1-1 3.1.2(5), (6), the 8 MPa from memory")
}

// standsAge is the equivalent age of the invert, spell by spell of its curing.
func (r *route) standsAge(w *result.Working) {
	age := *r.job.Schedule.InvertAge
	const most = 12 // spells a formula shows
	spells := release.History(r.job.Concrete.Curing, age).Until(age)
	if len(spells) > most {
		w.Given("t_e", fmt.Sprintf("age at 20 degC that it is worth, %d spells", len(spells)), r.worth(age).Days(), "d", "sum of t exp(13.65 - 4000 / (273 + T)) over concrete.curing (job); EN 1992-1-1 B.10, second-hand")
		return
	}
	var sum []string
	for i, s := range spells {
		n := i + 1
		w.Given(fmt.Sprintf("t_%d", n), fmt.Sprintf("days of spell %d since casting", n), float64(s.For)/86400, "d", "schedule.invert_age, concrete.curing (job)")
		w.Given(fmt.Sprintf("T_%d", n), "mean temperature of the concrete in it", float64(s.At), "degC", "concrete.curing (job)")
		sum = append(sum, fmt.Sprintf("t_%[1]d * exp(13.65 - 4000 / (273 + T_%[1]d))", n))
	}
	w.Step("t_e", "age at 20 degC that it is worth", strings.Join(sum, " + "), "d", "EN 1992-1-1 B.10, second-hand")
}

// worth is the equivalent age of the invert; 0 where there is none.
func (r *route) worth(age units.Duration) load.EquivalentAge {
	v, _ := load.Invert{Age: age, Curing: release.History(r.job.Concrete.Curing, age)}.Equivalent()
	return v
}
