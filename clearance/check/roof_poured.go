package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/clearance/statics"
	"boxwalk/model"
	"boxwalk/model/job"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// steelModulus in kPa: 210 GPa (EN 1993-1-1 3.2.6, from memory).
const steelModulus = 210e6

// roofPoured is a bay while its roof is poured.
type roofPoured struct {
	*bay
	study  *model.Study
	loads  load.Vertical
	rule   string // whose least loads, with how far that was read
	poured statics.RoofCase
	roof   *statics.Roof
	why    string // roof is not known
	walls  error  // why it is not known what the walls' braces bring
}

// whileRoofPoured judges a check of the roof under the pour.
func whileRoofPoured(f func(p *roofPoured) []Judged) func(c *Check, r *Examined, s *model.Study) []Judged {
	return func(c *Check, r *Examined, s *model.Study) []Judged {
		if r.pouring == nil {
			r.pouring = roofPouredOf(r.bay, s)
		}
		p := r.pouring
		if p.why != "" {
			return []Judged{open(c.ID, p.subject("roof"), "kN", p.why, p.at("raised"))}
		}
		return f(p)
	}
}

// roofPouredOf works out what comes on a bay's roof form, and where it goes.
func roofPouredOf(b *bay, s *model.Study) *roofPoured {
	p := &roofPoured{bay: b, study: s}
	err := p.loading()
	if err == nil {
		p.roof, err = statics.RoofOf(b.Bay.Bay, p.poured, b.kept)
	}
	if err != nil {
		p.why = "what the roof brings to its form is not known: " + b.told(err)
	}
	return p
}

// loading is what comes on the form by the job's rule.
func (p *roofPoured) loading() error {
	j, c := p.study.Job, p.Carrier
	form := units.Pressure(statics.Weigh(c).Soffit / (2 * c.Half))
	slab := load.Roof{Thickness: units.Length(p.Cell.Roof), UnitWeight: j.Concrete.UnitWeight + j.Pour.Roof.Bars, Form: form, Live: j.Pour.Roof.Live,
		Carts: map[string]load.Carts{"none": load.NoCarts, "hand": load.HandCarts, "motorised": load.MotorCarts}[j.Pour.Roof.Carts]}
	edge, err := p.leastLoads(slab)
	if err != nil {
		return err
	}
	sideways, err := load.SlabBracing(p.system(), p.loads.Dead, units.Length(2*c.Half))
	factors := statics.Load{Dead: float64(p.factors.Dead), Concrete: float64(p.factors.Pressure), Live: float64(p.factors.Live)}
	p.poured = statics.RoofCase{Concrete: slab.UnitWeight, Live: p.loads.Live, Edge: edge, Sideways: sideways.Load, Factors: factors}
	p.poured.Walls, p.walls = p.draws()
	for _, s := range j.Pour.Shores {
		p.poured.Shores = append(p.poured.Shores, float64(s.At))
	}
	return err
}

// draws are what the braces of both walls do to what they hang on, the more of the two.
func (p *roofPoured) draws() (w statics.WallDraws, err error) {
	pour := p.bay.pouring(p.study)
	if err := pour.unknown(); err != nil {
		return w, err
	}
	for _, side := range pour.sides {
		if side == nil {
			continue
		}
		w.Down, w.Lift = math.Max(w.Down, side.Shared[0]), math.Min(w.Lift, side.Shared[1])
		for _, b := range side.Braces {
			if pin := b.Link.From; b.Angle < 0 && pin.AboveHeader != nil && pin.Body == "frame" {
				w.Pin, w.Pinned = math.Abs(b.Far[1]), true
			}
		}
	}
	return w, nil
}

// leastLoads are the loads by the job's rule: live is what brings them up to its least
// total, too.
func (p *roofPoured) leastLoads(slab load.Roof) (edge load.LineLoad, err error) {
	switch p.study.Job.Pour.Roof.Rule {
	case "California":
		p.loads, err = slab.California()
	case "AASHTO":
		var works load.BridgeWorks
		works, err = load.AASHTOTemporary(slab.Thickness)
		if err != nil {
			return 0, err
		}
		// 20 psf of people at least, beside which its total may ask for more
		slab.Live = max(slab.Live, leastAASHTO)
		p.loads, err = slab.California()
		p.loads.Source = works.Source
		p.loads.Total, edge = max(p.loads.Total, works.Total), works.Edge
	default:
		p.loads, err = slab.ACI347(p.system())
	}
	p.loads.Live = p.loads.Total - p.loads.Dead
	p.rule = p.loads.Source.String()
	return edge, err
}

// leastAASHTO is 20 lb/ft² in kPa, see load.AASHTOTemporary.
const leastAASHTO = 20 * 0.45359237 * 9.80665e-3 / (0.3048 * 0.3048)

// demand is a load of the statics as loads with their factors are told apart: fresh
// concrete on the soffit is its pressure.
func demand(l statics.Load) Demand {
	return Demand{Dead: l.Dead, Pressure: l.Concrete, Live: l.Live}
}

// by picks the numbers that govern under a capacity's basis.
func (p *roofPoured) by(r job.Rating) statics.Numbers {
	if r.Basis == job.Factored {
		return p.roof.Factored
	}
	return p.roof.AsIs
}

// bearer is something that carries a share of the pour.
type carries struct {
	id, rest, unit string
	of             func(n statics.Numbers) statics.Load
	rating         job.Rating
	bearer, verb   string
	text           string // how the load comes about
	symbol, means  string // of its working
	lines          func(w *result.Working)
	remedy         string
}

// holds is the entry of a share of the pour against what its bearer is stated for.
func (p *roofPoured) holds(c carries) Judged {
	l := c.of(p.by(c.rating))
	return p.held(holding{id: c.id, about: p.subject(c.rest), where: p.at("raised"), unit: c.unit, demand: demand(l), rating: c.rating,
		bearer: c.bearer, verb: c.verb, text: func(load string) string { return c.text + " = " + load }, source: "statics; loads: " + p.rule,
		working: p.worked(c, l), remedy: c.remedy})
}

// worked is the working of a share of the pour: by its own lines, or by what comes from
// dead weight, concrete and live load as it was solved.
func (p *roofPoured) worked(c carries, l statics.Load) []result.Line {
	var w result.Working
	if c.lines != nil {
		p.given(&w)
		c.lines(&w)
		return w.Lines()
	}
	p.shared(&w, c.symbol, c.means, c.unit, l)
	return w.Lines()
}

// given begins a working with what lies on a square metre of the form.
func (p *roofPoured) given(w *result.Working) {
	j := p.study.Job
	w.Given("gamma_f", "unit weight of the fresh concrete", float64(j.Concrete.UnitWeight), "kN/m3", whose(j, "concrete.unit_weight"))
	w.Given("gamma_s", "what its bars add", float64(j.Pour.Roof.Bars), "kN/m3", whose(j, "pour.roof.bars"))
	w.Step("gamma_c", "unit weight of the concrete with its bars", "gamma_f + gamma_s", "kN/m3", "")
	w.Given("t", "thickness of the slab", p.Cell.Roof, "m", "culvert.roof (job)")
	w.Given("q", "people and equipment", float64(p.loads.Live), "kPa", p.rule)
	w.Given("g_f", "panels, fillers and what lies on them", p.roof.Form, "kPa", "parts list (gear), heavy end")
}

// shared ends a working with a solved load and what it comes from.
func (p *roofPoured) shared(w *result.Working, symbol, means, unit string, l statics.Load) {
	const from = "solved: any spans and strips poured and loaded, the worst"
	w.Given(symbol+"_G", "from form and carrier", l.Dead, unit, from)
	w.Given(symbol+"_C", fmt.Sprintf("from concrete of %.4g kN/m3", float64(p.poured.Concrete)), l.Concrete, unit, from)
	w.Given(symbol+"_Q", fmt.Sprintf("from %.4g kPa of people and from the side", float64(p.poured.Live)), l.Live, unit, from)
	w.Step(symbol, means, fmt.Sprintf("%[1]s_G + %[1]s_C + %[1]s_Q", symbol), unit, "")
}
