package check

import (
	"fmt"
	"slices"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/model/job"
)

// Demand is what something has to take, by what it comes from, in one unit.
type Demand struct{ Dead, Live, Pressure, Wind float64 }

// total is the demand as it is.
func (d Demand) total() float64 { return d.Dead + d.Live + d.Pressure + d.Wind }

// factored is the demand with each share multiplied by its load factor.
func (d Demand) factored(f job.LoadFactors) float64 {
	return d.Dead*float64(f.Dead) + d.Live*float64(f.Live) + d.Pressure*float64(f.Pressure) + d.Wind*float64(f.Wind)
}

// holding is a demand that is held against a capacity that a file states.
type holding struct {
	id     string
	about  result.Subject
	where  result.Where
	unit   string
	demand Demand
	rating job.Rating
	bearer string                   // what takes it, such as "a wheel"
	verb   string                   // what it does, such as "carries"
	way    string                   // and which way, such as " sideways"; may be empty
	text   func(load string) string // how the demand, as it is printed, comes about
	note   string                   // in brackets at the end; may be empty
	source string                   // of the demand
	remedy string                   // of what fails; empty for the check's usual one

	working []result.Line // of the demand's total, which its last line is; may be nil
}

// held is the entry of a demand against a stated capacity: loads as they are against
// a permissible one, multiplied by the job's load factors against a factored one.
// What is not stated is not taken for granted: without capacity or basis the entry is
// open, with the demand as its value, and names the key. This is the only place
// that holds a demand against a capacity.
func (b *bay) held(h holding) Judged {
	switch {
	case h.rating.Value == nil:
		e := b.unheld(h, fmt.Sprintf("the %s does not say what %s %s%s: give %s in the %s file", h.rating.File, h.bearer, h.verb, h.way, h.rating.Key, h.rating.File))
		e.Lacks = h.rating.Key
		return e
	case h.rating.Basis == "":
		e := b.unheld(h, fmt.Sprintf("%s %s %s%s, but the %s file does not say whether its capacities are permissible or factored: give capacities.basis there",
			h.bearer, h.verb, inUnit(*h.rating.Value, b.shown(h.unit)), h.way, h.rating.File))
		e.Remedy = fmt.Sprintf("state whose numbers the capacities are and of what basis (capacities: {basis: permissible, source: ...} in the %s file)", h.rating.File)
		return e
	}
	value := h.demand.total()
	if h.rating.Basis == job.Factored {
		value = h.demand.factored(b.factors)
	}
	demand, has := b.against(h.unit, value, *h.rating.Value)
	text := h.text(demand)
	if h.rating.Basis == job.Factored {
		text = fmt.Sprintf("%s; factored %s = %s", h.text(b.upward(h.unit, h.demand.total())), b.factorWords(h.unit, h.demand), demand)
	}
	c := candidate{Value: *result.Exactly(value), where: h.where, remedy: h.remedy, text: fmt.Sprintf("%s; %s %s %s%s%s", text, h.bearer, h.verb, has, h.way, bracketed(h.note))}
	e := entry(h.id, h.about, []candidate{c}, Limit{Value: *h.rating.Value, Source: h.source + "; " + ratingSource(h.rating)}, result.Max, "")
	e.Unit = h.unit
	return e.with(b.workedLoad(h))
}

// unheld is a demand without a capacity that it can be held against.
func (b *bay) unheld(h holding, why string) Judged {
	total := h.demand.total()
	e := Judged{Governs: -1, Entry: result.Entry{ID: h.id, Subject: h.about, Value: result.Exactly(total), Unit: h.unit, Sense: result.Max, Where: h.where, Source: h.source,
		Text: fmt.Sprintf("%s; %s%s", h.text(b.upward(h.unit, total)), why, bracketed(h.note))}}
	return e.with(h.working)
}

// ratingSource is whose number a capacity is, and of what basis.
func ratingSource(r job.Rating) string {
	return fmt.Sprintf("capacity: %s, %s, %s", r.Key, r.Basis, r.Source)
}

// loadShare is one of the parts of a demand with its load factor.
type loadShare struct {
	what      string
	value, by float64
}

func (b *bay) shares(d Demand) []loadShare {
	all := []loadShare{{"dead", d.Dead, float64(b.factors.Dead)}, {"live", d.Live, float64(b.factors.Live)}, {"pressure", d.Pressure, float64(b.factors.Pressure)}, {"wind", d.Wind, float64(b.factors.Wind)}}
	return slices.DeleteFunc(all, func(s loadShare) bool { return s.value == 0 })
}

// workedLoad is the working of a demand, which goes on to what it is when factored.
func (b *bay) workedLoad(h holding) []result.Line {
	shares := b.shares(h.demand)
	if len(h.working) == 0 || h.rating.Basis != job.Factored || len(shares) == 0 {
		return h.working
	}
	lines := slices.Clone(h.working)
	total, sum, text := lines[len(lines)-1].Symbol, 0.0, ""
	for i, s := range shares {
		symbol := total
		if len(shares) > 1 {
			symbol = "E_" + s.what
			lines = append(lines, result.Line{Symbol: symbol, Means: "of that " + s.what + " load", Value: s.value, Unit: h.unit, From: "share of " + total})
		}
		factor := "gamma_" + s.what
		lines = append(lines, result.Line{Symbol: factor, Means: "load factor, " + s.what, Value: s.by, Unit: "1", From: "load_factors." + s.what + " (job)"})
		sum += s.by * s.value
		if i > 0 {
			text += " + "
		}
		text += factor + " * " + symbol
	}
	return append(lines, result.Line{Symbol: "E_d", Means: "factored", Formula: text, Value: sum, Unit: h.unit})
}

// factorWords are the shares of a demand, each times its factor.
func (b *bay) factorWords(unit string, d Demand) string {
	var out []string
	for _, s := range b.shares(d) {
		out = append(out, fmt.Sprintf("%s (%s) x %.4g", b.upward(unit, s.value), s.what, s.by))
	}
	if out == nil {
		return b.upward(unit, 0)
	}
	return strings.Join(out, " + ")
}

// upward prints a number that something has to take, rounded up as the tables do.
func (b *bay) upward(unit string, v float64) string {
	m := b.shown(unit)
	return m.With(m.Up(v))
}

func bracketed(note string) string {
	if note == "" {
		return ""
	}
	return " (" + note + ")"
}
