package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/clearance/statics"
	"boxwalk/model/carrier"
	"boxwalk/model/job"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// onForm tells what lies on a square metre of the form.
func (p *roofPoured) onForm() string {
	return fmt.Sprintf("slab %s thick, people and equipment %s, form %s", p.mm(p.Cell.Roof), p.pressure(float64(p.loads.Live)), p.pressure(p.roof.Form))
}

// line prints a load along a metre.
func (p *roofPoured) line(v float64) string { return inUnit(v, p.shown("kN/m")) }

func (p *roofPoured) pressure(v float64) string { return inUnit(v, p.shown("kPa")) }

// roofChecks hold panels and stringers.
func (p *roofPoured) roofChecks() []Judged {
	g, r := p.Carrier.Gear, p.roof
	concrete := float64(p.poured.Concrete) * r.Thickness
	line := r.Seats[r.AsIs.Stringer.Seat].Line(p.poured).Sum()
	over := fmt.Sprintf("the stringer that carries most has %s, over bents %s apart with any spans poured: ", p.line(line), p.mm(r.Spacing))
	bending := g.Rated("roof.stringers.moment", job.Pointed(g.Roof.Stringers.Moment))
	return []Judged{
		p.holds(carries{id: "pour.roof", rest: "roof panels", unit: "kPa", rating: g.Rated("roof.pressure", job.Pointed(g.Roof.Pressure)), bearer: "a roof panel", verb: "carries",
			of: func(statics.Numbers) statics.Load {
				return statics.Load{Dead: r.Form, Concrete: concrete, Live: float64(p.loads.Live)}
			},
			text: p.onForm(), lines: func(w *result.Working) {
				w.Step("p", "on a square metre of the panels", "gamma_c * t + q + g_f", "kPa", "")
			}}),
		p.holds(carries{id: "pour.roof", rest: "stringers, bending", unit: "kNm", rating: bending, bearer: "a stringer", verb: "carries",
			of: func(n statics.Numbers) statics.Load { return n.Stringer.Moment }, text: over + "moment", lines: func(w *result.Working) { p.workedStringer(w, p.by(bending).Stringer.Seat) }}),
		p.holds(carries{id: "pour.roof", rest: "stringers, shear", unit: "kN", rating: g.Rated("roof.stringers.shear", job.Pointed(g.Roof.Stringers.Shear)), bearer: "a stringer", verb: "carries",
			of: func(n statics.Numbers) statics.Load { return n.Stringer.Shear }, text: over + "shear", symbol: "V", means: "shear of a stringer, the greatest"}),
		p.stringerSag(),
		p.tubeSag(),
	}
}

// workedStringer is how a stringer's moment comes about.
func (p *roofPoured) workedStringer(w *result.Working, place int) {
	r, seat := p.roof, p.roof.Seats[place]
	w.Given("g_s", "weight of the stringer and of the form on it", seat.Dead, "kN/m", "parts list (gear), heavy end")
	w.Given("A_s", "section of concrete that may lie on it", seat.Area, "m2", "solved: panels as beams over their stringers, haunch and half filler with them")
	w.Given("b_s", "breadth of soffit that may lie on it", seat.Width, "m", "solved: as A_s")
	w.Step("w", "its load where the pour lies", "g_s + gamma_c * A_s + q * b_s", "kN/m", "")
	w.Step("w_o", "its load beyond", "g_s + q * b_s", "kN/m", "")
	w.Given("e", "people along the pour's ends", float64(p.poured.Edge), "kN/m", p.rule)
	how := fmt.Sprintf("solved: beam over %d bents, any spans loaded", len(p.Carrier.Bents))
	w.Given("c_p", "moment of 1 kN/m where the pour lies", r.Along.In.Moment, "m2", how)
	w.Given("c_o", "moment of 1 kN/m beyond", r.Along.Out.Moment, "m2", how)
	w.Given("c_e", "moment of 1 kN at the pour's ends", r.Along.Ends.Moment, "m", how)
	w.Step("M", "moment of the stringer", "w * c_p + w_o * c_o + e * b_s * c_e", "kNm", "")
}

// sagLimit is the sag that a span may have.
func (p *roofPoured) sagLimit(span float64) Limit {
	l := p.limits.of("pour.sag")
	l.Value *= span
	return l
}

// allowedSag tells the limit as a share of the span, which is the same in any unit.
func (p *roofPoured) allowedSag(span float64) string {
	share := p.limits.of("pour.sag").Value
	return fmt.Sprintf("%.3g of %s, about 1/%.0f", share, p.mm(span), 1/share)
}

// springsBack is what a sag means for the collapse.
const springsBack = "when the load leaves, the form springs back by as much into the release gaps, which strip.clear does not count"

// sags is the entry of a sag, from E I times it in kN m³ and the stiffness behind it.
func (p *roofPoured) sags(rest, what string, span float64, parts []sagging) Judged {
	var sum float64
	var w result.Working
	w.Given("E", "modulus of steel", steelModulus, "kPa", "EN 1993-1-1 3.2.6 (memory)")
	text := ""
	for i, s := range parts {
		if s.inertia == nil {
			e := open("pour.roof", p.subject(rest), "m", fmt.Sprintf("how far %s under the pour is not known: give %s in the gear file", what, s.key), p.at("raised"))
			e.Lacks = s.key
			return e
		}
		n := i + 1
		w.Given(fmt.Sprintf("K_%d", n), "E I times the sag "+s.of, s.k.Sum(), "kNm3", "solved, the worst, without factors")
		w.Given(fmt.Sprintf("I_%d", n), "second moment of area "+s.whose, float64(*s.inertia), "m4", s.key+" (gear)")
		if i > 0 {
			text += " + "
		}
		text += fmt.Sprintf("K_%d / (E * I_%d)", n, n)
		sum += s.k.Sum() / (steelModulus * float64(*s.inertia))
	}
	w.Step("s", "sag", text, "m", "")
	c := candidate{Value: *result.Exactly(w.Value("s")), where: p.at("raised"), text: fmt.Sprintf("%s %s under the pour; allowed is %s; %s", what, p.roundedUp(sum), p.allowedSag(span), springsBack), working: w.Lines}
	return entry("pour.roof", p.subject(rest), []candidate{c}, p.sagLimit(span), result.Max, "")
}

// sagging is a part of a sag.
type sagging struct {
	of, whose, key string
	k              statics.Load
	inertia        *units.Inertia
}

func (p *roofPoured) stringerSag() Judged {
	return p.sags("stringers, sag", "stringers sag", p.roof.Spacing, []sagging{{"of a stringer", "of a stringer", "roof.stringers.inertia", p.roof.AsIs.Stringer.Sag, p.Carrier.Gear.Roof.Stringers.Inertia}})
}

// tubeSag is the sag of the headers: of the tube between its legs, or with arms of their
// outermost seat, which stands out twice as far as a span would reach to it.
func (p *roofPoured) tubeSag() Judged {
	h, b := p.Carrier.Gear.Frame.Header, p.roof.AsIs.Bent
	if p.roof.ArmOverlap() == 0 {
		return p.sags("headers, sag", "headers sag", p.Carrier.Gauge, []sagging{{"of the tube", "of the tube", "frame.header.inertia", b.TubeSag, h.Inertia}})
	}
	out := 2 * (p.roof.Outermost() - p.Carrier.Gauge/2)
	if out <= 0 {
		return p.sags("headers, sag", "headers sag", p.Carrier.Gauge, []sagging{{"of the tube", "of the tube", "frame.header.inertia", b.TubeSag, h.Inertia}})
	}
	return p.sags("headers, sag", "the arms' outermost seats sag", out, []sagging{
		{"of the seat by the tube that turns", "of the tube", "frame.header.inertia", b.TubeTip, h.Inertia},
		{"of the seat by the arm that bends", "of an arm", "frame.header.arm.inertia", b.Tip, h.Arm.Inertia},
	})
}

// headerChecks hold tubes and arms.
func (p *roofPoured) headerChecks() []Judged {
	if p.walls != nil {
		return []Judged{p.notKnown("pour.header", "header", "kN", p.walls)}
	}
	g := p.Carrier.Gear
	h := g.Frame.Header
	brings := fmt.Sprintf("walls hang on it with %s each, drawn down by braces beside the ties with up to %s; tube on legs %s apart%s, any widths and spans poured: ", p.line(p.roof.Weights.Wall), p.demand(units.Force(p.poured.Walls.Down)), p.mm(p.Carrier.Gauge), p.onShores())
	tube := func(rest, unit, symbol, key string, v *float64, of func(b statics.Bent) statics.Load) carries {
		return carries{id: "pour.header", rest: "header, " + rest, unit: unit, rating: g.Rated(key, v), bearer: "a header", verb: "carries", symbol: symbol, means: rest + " of a header, the greatest",
			of: func(n statics.Numbers) statics.Load { return of(n.Bent) }, text: brings + map[string]string{"kNm": "moment", "kN": "shear"}[unit]}
	}
	out := []Judged{
		p.shored(tube("bending", "kNm", "M", "frame.header.moment", job.Pointed(h.Moment), func(b statics.Bent) statics.Load { return b.TubeMoment })),
		p.shored(tube("shear", "kN", "V", "frame.header.shear", job.Pointed(h.Shear), func(b statics.Bent) statics.Load { return b.TubeShear })),
	}
	if h.Arm == nil || p.roof.ArmOverlap() == 0 {
		return out
	}
	b := p.roof.AsIs.Bent
	arm := tube("", "kNm", "M", "frame.header.arm.moment", job.Pointed(h.Arm.Moment), func(b statics.Bent) statics.Load { return b.ArmMoment })
	arm.rest, arm.bearer, arm.means = "arm, bending", "an arm", "moment of an arm at the tube's end"
	arm.text = fmt.Sprintf("%s on an arm beyond the tube, %s out on the average: moment", p.demand(units.Force(b.ArmLoad.Sum())), p.mm(b.ArmMoment.Sum()/b.ArmLoad.Sum()))
	shear := tube("", "kN", "V", "frame.header.arm.shear", job.Pointed(h.Arm.Shear), func(b statics.Bent) statics.Load { return b.ArmShear })
	shear.rest, shear.bearer, shear.means = "arm, shear", "an arm", "shear of an arm, beyond the tube or in it"
	shear.text = fmt.Sprintf("%s on an arm beyond the tube; in it %s, the moment over %s of overlap; the greater", p.demand(units.Force(b.ArmLoad.Sum())), p.demand(units.Force(b.ArmHold.Sum())), p.mm(p.roof.ArmOverlap()))
	return append(out, p.holds(arm), p.holds(shear))
}

// onShores tells of shores under the headers.
func (p *roofPoured) onShores() string {
	if n := len(p.poured.Shores); n > 0 {
		return fmt.Sprintf(" and on %d shores (pour.shores)", n)
	}
	return ""
}

// shored is the entry of a header, with the places at which shores would do where it is
// not enough by itself.
func (p *roofPoured) shored(c carries) Judged {
	e := p.holds(c)
	if e.Verdict == result.Fail {
		e.Remedy = p.wouldDo(c)
	}
	return e
}

// wouldDo looks for shores under the headers with which they carry the pour.
func (p *roofPoured) wouldDo(c carries) string {
	half := float64(p.Carrier.Gear.Frame.Header.Length) / 2
	for _, places := range [][]float64{{0}, {-half, half}, {-half, 0, half}} {
		with := p.poured
		with.Shores = append(append([]float64{}, with.Shores...), places...)
		roof, err := statics.RoofOf(p.Bay.Bay, with, p.kept)
		if err != nil {
			continue
		}
		l := c.of(roof.AsIs).Sum()
		if c.rating.Basis == job.Factored {
			l = c.of(roof.Factored).By(with.Factors)
		}
		if l > *c.rating.Value {
			continue
		}
		var text string
		var most float64
		for i, y := range places {
			if i > 0 {
				text += ", "
			}
			text += "{at: " + p.written(y) + "}"
			most = math.Max(most, roof.AsIs.Bent.Shores[len(p.poured.Shores)+i].Sum())
		}
		return fmt.Sprintf("shores under every header, pour: {shores: [%s]}, each for %s and the invert under it; or stronger headers, or bents nearer together", text, p.demand(units.Force(most)))
	}
	return "stronger headers and arms, or bents nearer together; shores under the tube do not bring it down far enough"
}

// written is a place as a file has it.
func (p *roofPoured) written(v float64) string { return units.Length(v).Text(p.system()) }

// jackChecks hold legs, jacks, roof jacks, shores and plates.
func (p *roofPoured) jackChecks() []Judged {
	g := p.Carrier.Gear
	header := p.roof.AsIs.Bent.Header.Sum()
	text := fmt.Sprintf("%s from the header, any widths and spans poured, with %s sideways at the soffit over %s of gauge and their own weight", p.demand(units.Force(header)), p.line(float64(p.poured.Sideways)), p.mm(p.Carrier.Gauge))
	out := []Judged{
		p.holds(carries{id: "pour.jacks", rest: "legs", unit: "kN", rating: g.Rated("frame.leg.axial", job.Pointed(g.Frame.Leg.Axial)), bearer: "a leg", verb: "carries", symbol: "N", means: "on a leg, the most",
			of: func(n statics.Numbers) statics.Load { return n.Bent.Leg }, text: text}),
		p.holds(carries{id: "pour.jacks", rest: "screw jacks", unit: "kN", rating: g.Rated("jack.capacity", jackCarries(g.Jack.Capacity, p.Carrier.Jack)), bearer: "a jack at " + p.mm(p.Carrier.Jack), verb: "carries", symbol: "N", means: "on a jack, the most",
			of: func(n statics.Numbers) statics.Load { return n.Bent.Jack }, text: text}),
		p.liftCheck(),
	}
	if g.RoofJack != nil {
		out = append(out, p.holds(carries{id: "pour.jacks", rest: "roof jacks", unit: "kN", rating: g.Rated("roof_jack.capacity", job.Pointed(g.RoofJack.Capacity)), bearer: "a roof jack", verb: "carries", symbol: "N", means: "on a roof jack, the most",
			of: func(n statics.Numbers) statics.Load { return n.Bent.Seat }, text: "a stringer brings to one seat, any widths and spans poured"}))
	}
	for i, s := range p.study.Job.Pour.Shores {
		out = append(out, p.holds(carries{id: "pour.jacks", rest: fmt.Sprintf("shore %d", i+1), unit: "kN", rating: p.study.Job.Rated("pour.shores.capacity", job.Pointed(s.Capacity)), bearer: "a shore", verb: "carries", symbol: "N", means: "on a shore, the most",
			of: func(n statics.Numbers) statics.Load { return n.Bent.Shores[i] }, text: "the header brings to a shore " + p.written(float64(s.At)) + " left of the centreline, which does not give"}))
	}
	return append(out, p.plateCheck())
}

// liftCheck asks that no jack lifts while one half of the roof is poured first.
func (p *roofPoured) liftCheck() Judged {
	least := p.roof.AsIs.Bent.Least
	var w result.Working
	w.Given("N", "on a jack, the least", least, "kN", "solved: light end of all weights, the left or right half of the roof poured and loaded from end to end, both or none")
	c := candidate{Value: *result.Exactly(least), where: p.at("raised"), text: "with one half of the roof poured before the other a jack still carries " + p.atLeastForce(least), working: w.Lines,
		remedy: "pour both halves of the roof together, or a wider gauge (`set: {gauge: ...}`)"}
	e := entry("pour.jacks", p.subject("least on a jack"), []candidate{c}, Limit{Source: "statics: a jack does not hold down"}, result.Min, "")
	e.Unit = "kN"
	return e
}

// plateCheck holds the jack plates against the invert that they stand on.
func (p *roofPoured) plateCheck() Judged {
	about, where := p.subject("jack plates on the invert"), p.at("raised")
	invert, why := (&route{bay: p.bay, job: p.study.Job}).invert()
	if why != "" {
		return open("pour.jacks", about, "kN", why, where)
	}
	jack, plate := units.Force(p.roof.AsIs.Bent.Jack.Sum()), p.Carrier.Gear.Jack.Plate
	along, across := p.edges()
	patch := load.Patch{Along: plate.X, Across: plate.Y, EdgeAlong: units.Length(along), EdgeAcross: units.Length(across), Depth: units.Length(p.Cell.Invert)}
	v, err := patch.OnConcrete(jack, invert.strength, load.ACIBasis())
	if err != nil {
		return open("pour.jacks", about, "kN", fmt.Sprintf("the invert %s: %v", invert.basis, err), where)
	}
	need, bears := p.against("kN", float64(v.Demand), float64(v.Capacity))
	var w result.Working
	p.shared(&w, "N", "on a jack, the most", "kN", p.roof.AsIs.Bent.Jack)
	w.Given("gamma", "load factor", load.LiveFactor, "1", "ACI 318 on live load (from memory), on all of it")
	w.Step("F", "factored", "gamma * N", "kN", "")
	c := candidate{Value: *result.Exactly(w.Value("F")), where: where, working: w.Lines, text: fmt.Sprintf("a jack brings %s; with its factor %s on a plate of %s x %s, %s from the nearest joint and %s from the nearest edge across; the invert %s when wheels run on it, which is before the pour, and bears %s",
		p.demand(jack), need, p.mm(float64(plate.X)), p.mm(float64(plate.Y)), p.mm(along), p.mm(across), invert.basis, bears)}
	e := entry("pour.jacks", about, []candidate{c}, Limit{Value: float64(v.Capacity), Source: v.Source.String() + "; strength: " + invert.source}, result.Max, "")
	e.Unit = "kN"
	return e
}

// edges are how far the jack plates stand from the pour's joints, and from the outside of
// the walls or the channel; 0 where one stands on it.
func (p *roofPoured) edges() (along, across float64) {
	along = math.Inf(1)
	rear, front := p.Cell.Ends(p.Pour)
	across = p.Cell.HalfSpan + math.Min(p.Cell.Left, p.Cell.Right)
	for _, part := range p.Carrier.Parts {
		if part.Role != carrier.JackPlate {
			continue
		}
		box := part.Box()
		for _, y := range [2]float64{box.Min[1], box.Max[1]} {
			for _, x := range [2]float64{rear.At(y, 0), front.At(y, 0)} {
				along = math.Min(along, math.Max(0, math.Max(box.Min[0]-x, x-box.Max[0])))
			}
			across = math.Min(across, p.Cell.HalfSpan+math.Min(p.Cell.Left, p.Cell.Right)-math.Abs(y))
		}
		if ch := p.Cell.Channel; ch.Exists() {
			across = math.Min(across, math.Max(box.Min[1]-(ch.Offset+ch.Width/2), (ch.Offset-ch.Width/2)-box.Max[1]))
		}
	}
	return along, math.Max(0, across)
}

// roofRemedy is what usually mends what the pour overloads.
func (b *bay) roofRemedy(e Judged) string {
	if e.Lacks != "" {
		return fmt.Sprintf("state it from its maker's or owner's papers (%s), or who covers it (covered_by: {%s: ...})", e.Lacks, e.ID)
	}
	switch e.ID {
	case "pour.roof":
		return "stronger panels or stringers, more of them, or bents nearer together"
	case "pour.header":
		return "stronger headers and arms, or bents nearer together"
	}
	return "stronger legs, jacks or plates, a shorter reading by the next leg hole (`set: {leg: ...}`), more bents, or an older invert"
}
