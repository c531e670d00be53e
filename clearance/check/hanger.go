package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/release"
	"boxwalk/clearance/result"
	"boxwalk/clearance/statics"
	"boxwalk/model"
	"boxwalk/model/job"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// hung is a young roof on its hangers when the carrier has left.
type hung struct {
	*bay
	job     *job.Job
	hangers *job.Hangers
	on      *statics.Hanging
	load    statics.Load // kN, on the hanger that has the most
}

// hangerChecks hold the hangers of a bay, and say so where there are none.
func (b *bay) hangerChecks(s *model.Study) []Judged {
	h := s.Job.LeftInPlace.Hangers
	if h == nil {
		e := entry("pour.hangers", b.subject("hangers"), nil, Limit{Source: "the job"}, result.Max,
			"no hangers are left in place: before the ties come out somebody confirms by name that shores stand, or that the engineer of record has said in writing that the roof carries itself (steps.txt)")
		e.Unit, e.Limit = "kN", nil
		return []Judged{e}
	}
	c := statics.HangingCase{Concrete: s.Job.Concrete.UnitWeight + s.Job.Pour.Roof.Bars, Live: h.Live, Bears: math.Min(b.Cell.Left, b.Cell.Right) / 2}
	if h.Beam != nil {
		c.Beam = float64(h.Beam.Mass) * gravity / 1000
		if h.Beam.FromFace != nil {
			c.Bears = float64(*h.Beam.FromFace)
		}
	}
	on, err := statics.HangingOf(b.Bay.Bay, c, b.kept)
	if err != nil {
		return []Judged{open("pour.hangers", b.subject("hangers"), "kN", "what hangs on a hanger is not known: "+b.told(err), b.at(""))}
	}
	u := hung{b, s.Job, h, on, on.Hanger}
	out := []Judged{u.rod(), u.plate()}
	out = append(out, u.concrete()...)
	return append(out, u.above()...)
}

// hangs tells how the load of a hanger comes about, and what nobody judges here.
func (u hung) hangs() string {
	return fmt.Sprintf("slab %s thick with %s on it, %s from wall to wall; line %d has %s of it, and one hanger %s of its line",
		u.mm(u.Cell.Roof), inUnit(float64(u.on.Case.Live), u.shown("kPa")), u.mm(u.on.Span), u.on.Line+1, u.mm(u.on.Width[u.on.Line]), u.Distance(u.on.Reach[u.on.Line]))
}

// toEngineer names what the engineer of record judges.
func (u hung) toEngineer() string {
	return fmt.Sprintf("a line of hangers bends the young slab by up to %s on a breadth of %s, over hangers where no steel may lie for it: that is for the engineer of record", inUnit(u.on.Moment.Sum(), u.shown("kNm")), u.mm(1))
}

func (u hung) rated(key string, v *float64) job.Rating {
	return u.job.Rated("left_in_place.hangers."+key, v)
}

// worked is the working of the most on one hanger.
func (u hung) worked() *result.Working {
	var w result.Working
	j, i := u.job, u.on.Line
	w.Given("gamma_f", "unit weight of the concrete, as fresh", float64(j.Concrete.UnitWeight), "kN/m3", whose(j, "concrete.unit_weight"))
	w.Given("gamma_s", "what its bars add", float64(j.Pour.Roof.Bars), "kN/m3", whose(j, "pour.roof.bars"))
	w.Given("q", "people and equipment on the young roof", float64(u.on.Case.Live), "kPa", whose(j, "left_in_place.hangers.live"))
	how := fmt.Sprintf("solved: slab over wall, %d hanger lines and wall, clear of clamps", len(u.on.Lines))
	w.Given("A_h", "section of slab on the hanger line", u.on.Area[i], "m2", how)
	w.Given("b_h", "breadth of people on the hanger line, at most", u.on.Width[i], "m", how+", every part loaded or not")
	w.Given("r_h", "length of its line on one hanger, at most", u.on.Reach[i], "m", fmt.Sprintf("solved: line over %d hangers, from one end of the pour to the other", len(u.on.At)))
	w.Step("F", "on one hanger", "((gamma_f + gamma_s) * A_h + q * b_h) * r_h", "kN", "")
	return &w
}

// carried begins the working of what a hanger hands on.
func (u hung) carried() *result.Working {
	var w result.Working
	w.Given("F", "on one hanger", u.load.Sum(), "kN", "as worked for the rods")
	return &w
}

// holds is the entry of what hangs against what its bearer is stated for.
func (u hung) holds(rest, unit, key string, v *float64, l statics.Load, bearer, verb, text string, w []result.Line) Judged {
	return u.held(holding{id: "pour.hangers", about: u.subject(rest), where: u.at(""), unit: unit, demand: demandHung(l), rating: u.rated(key, v), bearer: bearer, verb: verb,
		text: func(load string) string { return text + " = " + load }, source: "statics (derived)", working: w})
}

// demandHung is a load of what hangs: hardened concrete is dead weight.
func demandHung(l statics.Load) Demand {
	return Demand{Dead: l.Dead + l.Concrete, Live: l.Live}
}

func (u hung) rod() Judged {
	return u.holds("rods", "kN", "rod_capacity", job.Pointed(u.hangers.RodCapacity), u.load, "a rod", "carries", u.toEngineer()+"; "+u.hangs()+": a rod pulls", u.worked().Lines())
}

// form is the plate as its formulas have it; the hole is the rod's, and 2 mm of play
// (judgement).
func (u hung) form() load.HangerPlate {
	p := u.hangers.Plate
	return load.HangerPlate{Along: p.X, Across: p.Y, Thickness: p.Z, Nut: min(u.hangers.Nut, p.X, p.Y), Hole: u.hangers.Rod + 0.002}
}

func (u hung) plate() Judged {
	f := u.form()
	one, err := f.Bending(1)
	if err != nil {
		return open("pour.hangers", u.subject("plates, bending"), "MPa", u.told(err), u.at(""))
	}
	w := u.carried()
	a, b := f.Along, f.Across
	if (a-f.Nut)/(b-f.Hole) < (b-f.Nut)/(a-f.Hole) {
		a, b = b, a
	}
	w.Given("a", "side of the plate that bends", float64(a), "m", "left_in_place.hangers.plate (job)")
	w.Given("b", "its other side", float64(b), "m", "left_in_place.hangers.plate (job)")
	w.Given("t_p", "its thickness", float64(f.Thickness), "m", "left_in_place.hangers.plate (job)")
	w.Given("n", "nut that holds it", float64(f.Nut), "m", whose(u.job, "left_in_place.hangers.nut"))
	w.Given("d", "hole for the rod", float64(f.Hole), "m", "left_in_place.hangers.rod and 2 mm of play (judgement)")
	w.Given("F_MN", "the same in MN", w.Value("F")/1000, "MN", "F")
	w.Step("sigma", "bending stress", "6 * F_MN * (a - n) / 8 / ((b - d) * t_p^2)", "MPa", "")
	takes := job.Pointed(u.hangers.PlateStress)
	if takes != nil {
		*takes /= 1000
	}
	return u.holds("plates, bending", "MPa", "plate_stress", takes, u.load.Times(float64(one)/1000), "a plate", "takes",
		fmt.Sprintf("a plate of %s x %s x %s under %s bends with", u.mm(float64(f.Along)), u.mm(float64(f.Across)), u.mm(float64(f.Thickness)), u.demand(units.Force(u.load.Sum()))), w.Lines())
}

// roofStrength is the strength of the young roof when the carrier leaves.
func (u hung) roofStrength() (hardened, string) {
	return hardening{u.bay, release.Roof(u.job), "the roof", "when it hangs", "is", "has",
		"schedule.roof_age", "concrete.roof_curing", "concrete.roof_strength", "21 MPa", "3000 psi", "4 d"}.known()
}

// concrete holds the young slab over the plates: bearing and punching.
func (u hung) concrete() []Judged {
	roof, why := u.roofStrength()
	if why != "" {
		return []Judged{open("pour.hangers", u.subject("slab over the plates"), "kN", why, u.at(""))}
	}
	f, edge := u.form(), units.Length(u.nearestEnd())
	area := float64(f.Along)*float64(f.Across) - math.Pi/4*float64(f.Hole*f.Hole)
	bears, err := load.BearingStrength(roof.strength, area, area, load.PhiACI)
	out := []Judged{u.withstands("plates, bearing", bears, err, roof, load.BearingSource(), fmt.Sprintf("on %s x %s of soffit", u.mm(float64(f.Along)), u.mm(float64(f.Across))))}
	punch, err := f.PunchingPlain(roof.strength, units.Length(u.Cell.Roof), edge)
	return append(out, u.withstands("plates, punching", punch, err, roof, load.PunchingSource(),
		fmt.Sprintf("through %s of slab, %s round at half its thickness off the plate, the nearest %s from an end of the pour", u.mm(u.Cell.Roof), u.mm(float64(f.Perimeter(units.Length(u.Cell.Roof), edge))), u.mm(float64(edge)))))
}

// withstands is the entry of a hanger's load with its factor against the young concrete.
func (u hung) withstands(rest string, has units.Force, err error, roof hardened, source load.Source, text string) Judged {
	w := u.carried()
	w.Given("gamma", "load factor", load.LiveFactor, "1", "ACI 318 on live load (from memory), on all of it")
	w.Step("F_u", "factored", "gamma * F", "kN", "")
	return u.young(rest, w, "F_u", has, err, roof, source, text)
}

// young is the entry of the last line of a working against young concrete.
func (u hung) young(rest string, w *result.Working, last string, has units.Force, err error, roof hardened, source load.Source, text string) Judged {
	if err != nil {
		return open("pour.hangers", u.subject(rest), "kN", "the roof "+roof.basis+": "+u.told(err), u.at(""))
	}
	need, can := u.against("kN", w.Value(last), float64(has))
	c := candidate{Value: *result.Exactly(w.Value(last)), where: u.at(""), working: w.Lines, text: fmt.Sprintf("with its factor %s %s; the roof %s and withstands %s", need, text, roof.basis, can)}
	e := entry("pour.hangers", u.subject(rest), []candidate{c}, Limit{Value: float64(has), Source: source.String() + "; strength: " + roof.source}, result.Max, "")
	e.Unit = "kN"
	return e
}

// nearestEnd is how near the middle of a plate lies to an end of the pour.
func (u hung) nearestEnd() float64 {
	near := math.Inf(1)
	rear, front := u.Cell.Ends(u.Pour)
	for _, x := range u.on.At {
		for _, y := range u.on.Lines {
			near = math.Min(near, math.Min(x-rear.At(y, 0), front.At(y, 0)-x))
		}
	}
	return math.Max(0, math.Min(near, 100))
}

// above holds the beams above and what they bear on.
func (u hung) above() []Judged {
	b := u.hangers.Beam
	if b == nil {
		e := open("pour.hangers", u.subject("beams above"), "kNm", "what the rods hang from is not stated: give left_in_place.hangers.beam, for example {moment: 30 kNm, shear: 80 kN, bears: 200 x 150 mm}, in the job file", u.at(""))
		e.Lacks = "left_in_place.hangers.beam"
		return []Judged{e}
	}
	on := u.on.Beam
	text := fmt.Sprintf("a beam of %s from wall top to wall top, with %s on its worst hanger: ", u.mm(on.Span), u.demand(units.Force(u.load.Sum())))
	return []Judged{
		u.holds("beams above, bending", "kNm", "beam.moment", job.Pointed(b.Moment), on.Moment, "a beam", "carries", text+"moment", u.workedBeam("M", "moment of a beam above", "kNm", on.Moment)),
		u.holds("beams above, shear", "kN", "beam.shear", job.Pointed(b.Shear), on.Shear, "a beam", "carries", text+"shear", u.workedBeam("V", "shear of a beam above", "kN", on.Shear)),
		u.wallTop(),
	}
}

// workedBeam is the working of a number of the beam above, solved.
func (u hung) workedBeam(symbol, means, unit string, l statics.Load) []result.Line {
	var w result.Working
	u.solvedBeam(&w, symbol, means, unit, l)
	return w.Lines()
}

func (u hung) solvedBeam(w *result.Working, symbol, means, unit string, l statics.Load) {
	const from = "simple beam, every hanger with its most"
	w.Given(symbol+"_G", "of that from the beam itself", l.Dead, unit, from+", beam.mass")
	w.Given(symbol+"_C", "from the slab", l.Concrete, unit, from)
	w.Given(symbol+"_Q", "from people and equipment", l.Live, unit, from)
	w.Step(symbol, means, fmt.Sprintf("%[1]s_G + %[1]s_C + %[1]s_Q", symbol), unit, "")
}

// wallTop holds what the beam above bears on: the young concrete over a wall.
func (u hung) wallTop() Judged {
	roof, why := u.roofStrength()
	if why != "" {
		return open("pour.hangers", u.subject("beams above on the wall tops"), "kN", why, u.at(""))
	}
	b := u.hangers.Beam.Bears
	area := float64(b.X) * float64(b.Y)
	has, err := load.BearingStrength(roof.strength, area, area, load.PhiACI)
	w := &result.Working{}
	u.solvedBeam(w, "R", "on one wall top", "kN", u.on.Beam.Bears)
	w.Given("gamma", "load factor", load.LiveFactor, "1", "ACI 318 on live load (from memory), on all of it")
	w.Step("R_u", "factored", "gamma * R", "kN", "")
	return u.young("beams above on the wall tops", w, "R_u", has, err, roof, load.BearingSource(), fmt.Sprintf("on %s x %s of a wall's top", u.mm(float64(b.X)), u.mm(float64(b.Y))))
}
