package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/clearance/statics"
	"boxwalk/model"
	"boxwalk/model/frame"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// tieChecks hold the most loaded tie of each wall against what a tie takes.
func (b *bay) tieChecks(s *model.Study) []Judged {
	return b.eachWall(s, "pour.ties", "tie", "kN", func(p *poured, w *statics.Side) []Judged {
		what := "tie, " + wallName(w.Side)
		if len(w.Rows) == 0 || w.Ties == nil {
			return []Judged{b.nothing("pour.ties", what, "kN", "no ties run through the "+wallName(w.Side)+": braces hold all")}
		}
		r := worstRow(w, func(r statics.Row) float64 { return r.Tie(w.Ties) })
		e := b.held(holding{id: "pour.ties", about: b.subject(what), where: b.at(whilePoured), unit: "kN", source: "own area, common practice; continuous beams (derived); pressure: " + p.fresh.Source,
			demand: Demand{Pressure: r.Tie(w.Ties)}, rating: b.Carrier.Gear.Rated("ties.capacity", job.Pointed(b.Carrier.Gear.Ties.Capacity)), bearer: "a tie", verb: "takes",
			text: b.tieText(r, w), working: workedTie(r, w)})
		return []Judged{e}
	})
}

// perLength prints kilonewtons per metre: of a metre, or of a foot.
func (b *bay) perLength(v float64) string {
	if b.imperial {
		return b.force(units.Force(v*0.3048)) + " per ft"
	}
	return b.force(units.Force(v)) + " per m"
}

// worstRow is the row of which something is most.
func worstRow(w *statics.Side, of func(statics.Row) float64) statics.Row {
	worst := w.Rows[0]
	for _, r := range w.Rows[1:] {
		if of(r) > of(worst) {
			worst = r
		}
	}
	return worst
}

func (b *bay) tieText(r statics.Row, w *statics.Side) func(load string) string {
	return func(load string) string {
		beam := fmt.Sprintf("the row %s above the invert takes %s of wall and brings %s of it to the tie %s from the rear end: %s",
			b.mm(r.Z), b.perLength(r.Line), b.Distance(w.Ties.Most()), b.mm(w.Ties.At[w.Ties.Worst]-b.Carrier.Rear), b.force(units.Force(r.Line*w.Ties.Most())))
		own := fmt.Sprintf("the most on any tie's own area is %s", b.force(units.Force(r.Own)))
		return fmt.Sprintf("%s; %s; the worst tie takes %s", beam, own, load)
	}
}

// walerChecks hold bending, shear and sag of the waler that has most.
func (b *bay) walerChecks(s *model.Study) []Judged {
	return b.eachWall(s, "pour.walers", "waler", "kNm", func(p *poured, w *statics.Side) []Judged {
		g, run, q := b.Carrier.Gear.Wall.Walers, w.Ties, 0.0
		if run == nil || len(w.Rows) == 0 {
			run = w.Bents
			for _, br := range w.Braces {
				q = math.Max(q, br.Line*math.Cos(br.Angle))
			}
		} else {
			q = worstRow(w, func(r statics.Row) float64 { return r.Line }).Line
		}
		said := func(what string) func(string) string {
			return func(load string) string {
				return fmt.Sprintf("the waler that has most takes %s, as a continuous beam from %s to %s of the form: %s %s", b.perLength(q), b.mm(run.From-b.Carrier.Rear), b.mm(run.To-b.Carrier.Rear), what, load)
			}
		}
		one := func(what, key, unit string, value float64, stated *float64, lines []result.Line) Judged {
			return b.held(holding{id: "pour.walers", about: b.subject("waler, " + wallName(w.Side) + ", " + what), where: b.at(whilePoured), unit: unit, source: "continuous beam (derived); pressure: " + p.fresh.Source,
				demand: Demand{Pressure: value}, rating: b.Carrier.Gear.Rated(key, stated), bearer: "a waler", verb: "takes", text: said(what), working: lines})
		}
		out := []Judged{
			one("bending", "wall.walers.moment", "kNm", q*run.Moment, job.Pointed(g.Moment), workedWaler(q, run.Moment, "m", "m2", "greatest moment of a unit load", "M", "bending moment", "kNm")),
			one("shear", "wall.walers.shear", "kN", q*run.Shear, job.Pointed(g.Shear), workedWaler(q, run.Shear, "s", "m", "greatest shear of a unit load", "V", "shear", "kN")),
		}
		if g.Inertia != nil {
			out = append(out, b.sag(w, run, q, float64(*g.Inertia), said("it sags")))
		}
		return out
	})
}

const youngSteel = statics.Steel // kPa

// sag is the deflection of a waler under the pressure as it is.
func (b *bay) sag(w *statics.Side, run *statics.Run, q, inertia float64, text func(string) string) Judged {
	value, limit := q*run.Sag/(youngSteel*inertia), b.limits.of("pour.walers")
	c := candidate{Value: *result.Exactly(value), where: b.at(whilePoured), text: text(b.roundedUp(value))}
	e := entry("pour.walers", b.subject("waler, "+wallName(w.Side)+", sag"), []candidate{c}, limit, result.Max, "")
	var lines result.Working
	lines.Given("q", "load on the waler, a metre", q, "kN/m", "row of ties under the panel, solved")
	lines.Given("d", "E I times the greatest sag of a unit load", run.Sag, "m4", "continuous beam over the ties, solved")
	lines.Given("E", "Young's modulus of steel", youngSteel, "kPa", "EN 1993-1-1 3.2.6 (from memory)")
	lines.Given("I", "second moment of area", inertia, "m4", "wall.walers.inertia (gear)")
	lines.Step("f", "sag", "q * d / (E * I)", "m", "")
	return e.with(lines.Lines())
}

// braceChecks hold each link to a wall against what it takes.
func (b *bay) braceChecks(s *model.Study) []Judged {
	return b.eachWall(s, "pour.braces", "braces", "kN", func(p *poured, w *statics.Side) []Judged {
		if len(w.Braces) == 0 {
			return []Judged{b.nothing("pour.braces", "braces, "+wallName(w.Side), "kN", "no link runs to the "+wallName(w.Side))}
		}
		var out []Judged
		for _, br := range w.Braces {
			out = append(out, b.braced(p, w, br))
		}
		return out
	})
}

func (b *bay) braced(p *poured, w *statics.Side, br statics.BraceLoad) Judged {
	rating, why := b.braceRating(br)
	text := func(load string) string {
		return fmt.Sprintf("%s long and %.1f deg from level, raised, it takes %s of wall where braces hold all, and of a bent at most %s: %s%s",
			b.mm(br.Length()), math.Abs(br.Angle)*180/math.Pi, b.perLength(br.Line), b.Distance(w.Bents.Most()), load, why)
	}
	return b.held(holding{id: "pour.braces", about: b.subject(br.Link.Name + ", " + w.Side.String()), where: b.at(whilePoured), unit: "kN", text: text,
		source: "beam on springs (derived); pressure: " + p.fresh.Source, demand: Demand{Pressure: br.Load}, rating: rating, bearer: "it", verb: "takes", working: workedBrace(w, br)})
}

// eulerSafety is what Euler's load is over a permissible one: 23/12 of AISC's allowable
// stress design, from memory.
const eulerSafety = 23.0 / 12

// leastYield is the yield stress of the weakest structural steel, kPa: S235, EN 10025
// (from memory). The weaker the steel the more slender a bar must be for Euler's formula.
const leastYield = 235e3

// braceRating is what a link takes, as stated, or by Euler with its stated section where
// it is slender enough for that; why not, where neither tells.
func (b *bay) braceRating(br statics.BraceLoad) (job.Rating, string) {
	g := b.Carrier.Gear
	rating := g.Rated("links.axial", job.Pointed(br.Link.Axial))
	if br.Link.Axial != nil || br.Link.Steel == nil {
		return rating, ""
	}
	area, inertia := float64(br.Link.Steel.A), float64(br.Link.Steel.I)
	bar := frame.Bar{Section: frame.Section{Area: area, Inertia: inertia, Edge: br.Link.Thickness / 2}, Length: units.Length(br.Length()), Factor: 1, Modulus: youngSteel, Yield: leastYield}
	n, err := bar.Euler()
	if err != nil {
		return rating, "; with its section alone it has no value: " + b.told(err)
	}
	load := float64(n.Load) / eulerSafety
	rating.Value, rating.CapacityBasis = &load, job.CapacityBasis{Basis: job.Permissible, Source: "Euler with links.steel over 23/12 (AISC, from memory)"}
	return rating, fmt.Sprintf("; by Euler it buckles at %s", b.force(n.Load))
}

// evenCheck holds what comes to the frame of unequal filling against what a bent takes
// across.
func (b *bay) evenCheck(s *model.Study) []Judged {
	p := b.pouring(s)
	const what = "unequal filling"
	if err := p.unknown(); err != nil {
		return []Judged{b.notKnown("pour.even", what, "kN", err)}
	}
	left, right := p.sides[0], p.sides[1]
	switch {
	case left == nil && right == nil:
		return []Judged{b.nothing("pour.even", what, "kN", "both walls stand already")}
	case left == nil || right == nil:
		return []Judged{b.nothing("pour.even", what, "kN", "one wall stands already: the thrust of the other goes across through frame and panels into it")}
	case left.Bents == nil || right.Bents == nil:
		return []Judged{open("pour.even", b.subject(what), "kN", "no concrete presses on the form there: pour and form do not lie beside each other", b.at(whilePoured))}
	}
	worst, full, less := math.Inf(-1), 0.0, 0.0
	for n := range left.Thrust {
		for _, pair := range [2][2]float64{{left.Thrust[n][0], right.Thrust[n][1]}, {right.Thrust[n][0], left.Thrust[n][1]}} {
			if v := math.Abs(pair[0] - pair[1]); !(v <= worst) {
				worst, full, less = v, pair[0], pair[1]
			}
		}
	}
	run := math.Max(left.Bents.Most(), right.Bents.Most())
	var w result.Working
	w.Given("t_1", "to the frame of a metre of the fuller wall", full, "kN/m", "panel on hinge, braces and ties, solved")
	w.Given("t_2", "of the other, "+b.mm(float64(p.job.Pour.LevelDifference))+" lower", less, "kN/m", "the same at the lower level; pour.level_difference (job)")
	w.Given("R", "of that the most loaded bent has", run, "m", "continuous beam over the bents, solved")
	w.Step("E", "across the cell on one bent", "max(t_1 - t_2, t_2 - t_1) * R", "kN", "")
	text := func(load string) string {
		return fmt.Sprintf("with the concrete of one wall %s above that of the other, %s and %s come to the frame through hinges and braces; the most loaded bent has %s of it and takes %s across the cell",
			b.mm(float64(p.job.Pour.LevelDifference)), b.perLength(full), b.perLength(less), b.Distance(run), load)
	}
	return []Judged{b.held(holding{id: "pour.even", about: b.subject(what), where: b.at(whilePoured), unit: "kN", text: text, source: coefficients("beam on springs (derived); pressure: "+p.fresh.Source, p.job, "pour.level_difference"),
		demand: Demand{Pressure: worst * run}, rating: b.Carrier.Gear.Rated("frame.side", job.Pointed(b.Carrier.Gear.Frame.Side)), bearer: "a bent", verb: "takes", way: " across", working: w.Lines()})}
}
