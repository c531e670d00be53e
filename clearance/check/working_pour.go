package check

import (
	"math"

	"boxwalk/clearance/result"
	"boxwalk/clearance/statics"
	"boxwalk/model"
	"boxwalk/model/load"
)

// workedPressure is the pressure on a face at a height.
func (p *poured) workedPressure(b *bay, z float64, upright bool) []result.Line {
	var w result.Working
	f := p.fresh
	w.Given("z_t", "top of the roof above the invert", f.Top, "m", "culvert.rise + culvert.camber + culvert.roof (job)")
	w.Given("z", "place on the form above the invert", z, "m", "kicker, or where the panel ends (job, gear)")
	w.Given("w", "unit weight of the fresh concrete", f.Weight, "kN/m3", whose(p.job, "concrete.unit_weight"))
	w.Given("k", "for a pump at the base", f.Pumped, "1", f.Source)
	w.Step("p_h", "full head there", "k * w * (z_t - z)", "kPa", "hydrostatics")
	if !upright {
		w.Step("p", "pressure on a level or sloping face", "p_h", "kPa", "")
		return w.Lines()
	}
	switch {
	case f.ACI != nil && f.ACI.Equation != load.EquationA:
		p.workedACI(&w, b.imperial)
	case f.DIN != nil:
		p.workedDIN(&w)
	case f.CIRIA != nil:
		p.workedCIRIA(&w)
	default:
		w.Step("p", "pressure", "p_h", "kPa", "")
		return w.Lines()
	}
	w.Step("p", "pressure, never above the head", "min(p_h, p_m)", "kPa", "")
	return w.Lines()
}

// workedACI is the greatest pressure by the equations of ACI 347, in the units of the
// system that they are worked in.
func (p *poured) workedACI(w *result.Working, imperial bool) {
	f, a := p.fresh, p.fresh.ACI
	w.Given("C_c", "chemistry coefficient", a.Cc, "1", "ACI 347R-14 table 4.2.2.1a(c) (second-hand); pour.binder, pour.retarder (job)")
	w.Given("C_w", "unit weight coefficient", a.Cw, "1", "ACI 347R-14 table 4.2.2.1a(b) (second-hand)")
	if imperial {
		const psf = 4.4482216152605 / (1000 * 0.3048 * 0.3048)
		w.Given("R", "rise rate", float64(f.Given.Rate)*3600/0.3048, "ft/h", "concrete.rise_rate (job)")
		w.Given("T", "temperature of the fresh concrete", float64(f.Given.Temperature)*9/5+32, "degF", "concrete.temperature (job)")
		w.Given("u", "kPa in a psf", psf, "kPa/psf", "definition of pound-force and foot")
		w.Step("p_e", "by the equation", byEquation(a.Equation, "C_c * C_w * (150 + 9000 * R / T)", "C_c * C_w * (150 + 43400 / T + 2800 * R / T)"), "psf", a.Source.String())
		w.Step("p_m", "at least 600 C_w", "max(p_e, 600 * C_w) * u", "kPa", a.Source.String())
		return
	}
	w.Given("R", "rise rate", float64(f.Given.Rate)*3600, "m/h", "concrete.rise_rate (job)")
	w.Given("T", "temperature of the fresh concrete", float64(f.Given.Temperature), "degC", "concrete.temperature (job)")
	w.Step("p_e", "by the equation", byEquation(a.Equation, "C_c * C_w * (7.2 + 785 * R / (T + 17.8))", "C_c * C_w * (7.2 + 1156 / (T + 17.8) + 244 * R / (T + 17.8))"), "kPa", a.Source.String())
	w.Step("p_m", "at least 30 C_w", "max(p_e, 30 * C_w)", "kPa", a.Source.String())
}

func byEquation(e load.Equation, b, c string) string {
	if e == load.EquationB {
		return b
	}
	return c
}

// workedDIN is the greatest pressure of a consistency class.
func (p *poured) workedDIN(w *result.Working) {
	d := p.fresh.DIN
	slope, base, k, least, stiff := d.Row()
	table := d.Source.String()
	w.Given("a", "of the class, by the rise rate", slope, "kPa h/m", table)
	w.Given("c", "of the class", base, "kPa", table)
	w.Given("p_l", "least pressure of the class", least, "kPa", table)
	w.Given("v", "rise rate", float64(*p.job.Concrete.RiseRate)*3600, "m/h", "concrete.rise_rate (job)")
	w.Given("t_e", "end of setting", float64(*p.job.Pour.SetEnd)/3600, "h", "pour.set_end (job)")
	if stiff {
		w.Given("k_1", "of the class, by the end of setting", k, "1/h", table)
		w.Step("K1", "for the end of setting", "1 + k_1 * (t_e - 5)", "1", table)
		w.Step("p_e", "by the class", "(a * v + c) * K1 * w / 25", "kPa", table)
	} else {
		w.Step("K1", "for the end of setting", "t_e / 5", "1", table)
		w.Step("p_e", "by the class", "(c + a * v * K1) * w / 25", "kPa", table)
	}
	w.Step("p_m", "not below the least", "max(p_e, p_l * max(1, w / 25))", "kPa", table)
}

// workedCIRIA is the greatest pressure by CIRIA 108.
func (p *poured) workedCIRIA(w *result.Working) {
	f, c := p.fresh, p.fresh.CIRIA
	from := c.Source.String()
	w.Given("H", "height of form and concrete", f.Top-f.Base, "m", "culvert (job)")
	w.Given("R", "rise rate", float64(*p.job.Concrete.RiseRate)*3600, "m/h", "concrete.rise_rate (job)")
	w.Given("T", "temperature of the fresh concrete", float64(*p.job.Concrete.Temperature), "degC", "concrete.temperature (job)")
	w.Given("C_2", "of the concrete's group", c.C2, "1", from+"; pour.binder, pour.retarder (job)")
	w.Step("K", "for the temperature", "(36 / (T + 16)) ^ 2", "1", from)
	if c.Rule == load.ByLiquidHead {
		w.Step("p_m", "the full head", "w * H", "kPa", from)
		return
	}
	w.Step("p_m", "by the formula, C1 = 1 of a wall", "w * (sqrt(R) + C_2 * K * sqrt(H - sqrt(R)))", "kPa", from)
}

// workedTie is the load of the worst tie.
func workedTie(r statics.Row, side *statics.Side) []result.Line {
	var w result.Working
	w.Given("q", "of the row, a metre of wall", r.Line, "kN/m", "panel on hinge and rows, rigid and limber, with and without braces, solved; the most")
	w.Given("R", "of that the most loaded tie has", side.Ties.Most(), "m", "continuous beam over the ties, solved")
	w.Given("F_a", "thrust on the tie's own area, the most of the row", r.Own, "kN", "pressure over all that is nearer to it than to another tie, integrated")
	w.Step("F", "tie", "max(q * R, F_a)", "kN", "")
	return w.Lines()
}

// workedWaler is a greatest number of a waler.
func workedWaler(q, unit float64, symbol, unitOf, what, last, means, of string) []result.Line {
	var w result.Working
	w.Given("q", "load on the waler, a metre", q, "kN/m", "row of ties under the panel, solved; the most of all rows")
	w.Given(symbol, what, unit, unitOf, "continuous beam, solved")
	w.Step(last, means, "q * "+symbol, of, "")
	return w.Lines()
}

// workedBrace is the force of a link.
func workedBrace(side *statics.Side, br statics.BraceLoad) []result.Line {
	var w result.Working
	w.Given("n", "along the link, a metre of wall", br.Line, "kN/m", "panel on hinge, braces and ties as springs, together and braces alone, rigid and limber, solved; the most")
	w.Given("R", "of that the most loaded bent has", side.Bents.Most(), "m", "continuous beam over the bents, solved")
	w.Step("N", "link", "n * R", "kN", "")
	return w.Lines()
}

// workedSlide is what anchors have to hold.
func (p *poured) workedSlide(s *model.Study, d statics.Slide) []result.Line {
	var w result.Working
	down := -d.Grade
	if d.Bulkhead < 0 {
		down = d.Grade
	}
	w.Given("F", "thrust on the bulkhead, along the cell", float64(d.Thrust.Ahead), "kN", "pressure over the cross-section of this cell, integrated")
	w.Given("F_s", "thrust of the skew, across", math.Abs(float64(d.Thrust.Left)), "kN", "F tan s, s the worse skew of both ends")
	w.Given("W", "weight of the carrier, at most", d.Heavy, "kN", "parts list (gear), heavy end")
	w.Given("i", "grade, falling the way the bulkhead is pushed", down, "1", "alignment (job)")
	w.Step("W_a", "weight along the grade", "W * i / sqrt(1 + i^2)", "kN", "")
	w.Step("D", "what drives the carrier, before or with the concrete", "max(sqrt(W_a^2), sqrt((F + W_a)^2 + F_s^2))", "kN", "")
	if f := s.Job.Pour.Friction; f != nil {
		w.Given("mu", "friction of the plates", float64(*f), "1", "pour.friction: "+s.Job.Pour.FrictionSource)
		w.Given("W_l", "weight of the carrier, at least", d.Light, "kN", "parts list (gear), light end")
		w.Step("E", "left to anchors", "max(0, D - mu * W_l / sqrt(1 + i^2) / 1.5)", "kN", "1.5 on friction: judgement")
		return w.Lines()
	}
	w.Step("E", "left to anchors", "D", "kN", "no friction is counted")
	return w.Lines()
}
