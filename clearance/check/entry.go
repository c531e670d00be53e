package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/clearance/statics"
	"boxwalk/clearance/sweep"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
	"boxwalk/model/geom"
	"boxwalk/model/job"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// Judged is an entry with the candidates that it is the worst of, which a proof
// shows, and the place among them of the one that governs; -1 for none.
type Judged struct {
	result.Entry
	From    []candidate
	Governs int
	Lacks   string // key of the capacity that it is open for, because nobody states it
}

// entries are what a result has of what was judged.
func entries(list []Judged) []result.Entry {
	out := make([]result.Entry, len(list))
	for i, c := range list {
		out[i] = c.Entry
	}
	return out
}

// candidate is one number that may govern a check.
type candidate struct {
	Value     result.Bracket
	Allowance float64
	worst     float64
	where     result.Where
	text      string
	remedy    string // of what does not pass; empty for the check's usual one
	// tell gives place and text where only the governing one is worth working out
	tell func() (result.Where, string)
	// working is how the number comes about, where that is a hand formula
	working func() []result.Line
	// of a clearance: whose it is, from what, and whether the two may touch
	Part     int
	Against  int   // by place among the solids, or of the other part; -1 if nothing was near
	Alike    []int // other parts with the same number
	Zone     culvert.Zone
	MayTouch bool
}

// alike is the difference of two margins below which neither governs by
// itself: far below what a search resolves.
const alike = 1e-6

// worst is the place of the candidate that governs: a fail before an open one
// before a pass, and the least margin among equals; the first of those alike.
// -1 if there is none.
func worst(list []candidate, limit float64, s result.Sense) int {
	best, bestRank, bestMargin := -1, 0, 0.0
	for i, c := range list {
		v, margin := result.Judge(c.Value, limit, c.Allowance, s)
		if r := worstFirst[v]; best < 0 || r < bestRank || (r == bestRank && margin < bestMargin-alike) {
			best, bestRank, bestMargin = i, r, margin
		}
	}
	return best
}

// entry is the check that a list of candidates makes.
func entry(id string, subject result.Subject, list []candidate, limit Limit, s result.Sense, nothing string) Judged {
	c := Judged{Entry: result.Entry{ID: id, Subject: subject, Unit: "m", Sense: s, Source: limit.Source}}
	l := limit.Value
	c.Limit = &l
	c.From = list
	if c.Governs = worst(list, l, s); c.Governs < 0 {
		c.Verdict, c.Text = result.Pass, nothing
		return c
	}
	best := list[c.Governs]
	var margin float64
	c.Verdict, margin = result.Judge(best.Value, l, best.Allowance, s)
	if !math.IsInf(margin, 0) {
		c.Margin = &margin
	}
	value := best.Value
	c.Value, c.Allowance, c.WorstCase, c.Where, c.Text = &value, best.Allowance, best.worst, best.where, best.text
	if best.tell != nil {
		c.Where, c.Text = best.tell()
	}
	if best.working != nil {
		c.Working = best.working()
	}
	if c.Verdict != result.Pass {
		c.Remedy = best.remedy
	}
	return c
}

// open is a check that could not be decided.
func open(id string, subject result.Subject, unit, why string, where result.Where) Judged {
	return Judged{Entry: result.Entry{ID: id, Subject: subject, Unit: unit, Where: where, Text: why, Source: "not worked out"}}
}

// where a bracket governs.
func (b *bay) where(step string, part int, zone string, v sweep.Bracket) result.Where {
	w := result.Where{Cell: b.Cell.Number, Pour: b.Pour.Number, Step: step, At: v.At, Zone: zone, Frame: b.Name()}
	if part >= 0 {
		w.Part = b.Carrier.Parts[part].At()
	}
	if v.Against >= 0 {
		pa, pb := v.A, v.B
		w.A, w.B = &pa, &pb
	}
	return w
}

// bay is a bay with what it takes to judge it and to word what is found.
type bay struct {
	*measure.Bay
	imperial bool // the job's units
	limits   Limits
	factors  job.LoadFactors
	kept     *statics.Kept // beams that were solved, for all bays
	pour     *poured       // worked out when first asked for
}

func worded(b *measure.Bay, j *job.Job, l Limits) *bay {
	return &bay{Bay: b, imperial: j.Job.Units == units.Imperial.String(), limits: l, factors: j.LoadFactors}
}

// About is the bay as the subject of a check, and subject something of its carrier.
func (b *bay) About() result.Subject { return result.Subject{Cell: b.Cell.Number, Pour: b.Pour.Number} }

func (b *bay) subject(what string) result.Subject {
	s := b.About()
	s.What = what
	return s
}

// system is the job's units.
func (b *bay) system() units.System {
	if b.imperial {
		return units.Imperial
	}
	return units.Metric
}

// shown tells how numbers of a unit are printed, in sentences as in tables.
func (b *bay) shown(unit string) units.Measure { return units.Shown(unit, b.system()) }

// mm prints metres as the job's units have them: millimetres, or inches.
func (b *bay) mm(v float64) string { return inUnit(v, b.shown("m")) }

// inUnit prints a number to the nearest with its unit; what cannot be known has none.
func inUnit(v float64, m units.Measure) string {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return m.Nearest(v)
	}
	return m.With(m.Nearest(v))
}

// Distance prints metres along the way: in metres, or feet.
func (b *bay) Distance(v float64) string {
	if b.imperial {
		return fmt.Sprintf("%.2f ft", v/0.3048)
	}
	return fmt.Sprintf("%.3f m", v)
}

// force prints kilonewtons as the job's units have them.
func (b *bay) force(f units.Force) string { return inUnit(float64(f), b.shown("kN")) }

// demand prints a force that something has to take, rounded up as the tables do.
func (b *bay) demand(f units.Force) string {
	m := b.shown("kN")
	return m.With(m.Up(float64(f)))
}

// atLeastForce prints a force that is there at least, rounded down as the tables do.
func (b *bay) atLeastForce(v float64) string {
	m := b.shown("kN")
	return m.With(m.Down(v))
}

// against prints a demand and what there is for it, in a unit of a result, so that the
// two read alike only where nothing is wanting.
func (b *bay) against(unit string, demand, have float64) (string, string) {
	e := result.Entry{Unit: unit, Value: result.Exactly(demand), Limit: &have, Sense: result.Max}
	_, margin := result.Judge(*e.Value, have, 0, result.Max)
	e.Margin = &margin
	p := e.Printed(b.system())
	return p.Measure.With(p.Value), p.Measure.With(p.Limit)
}

// told is what an error of a formula says, in the job's units.
func (b *bay) told(err error) string {
	if b.imperial {
		return load.Say(err, units.Imperial)
	}
	return err.Error()
}

// strength prints a strength of concrete, kilopascals within, as the job's units
// have it, rounded down.
func (b *bay) strength(p units.Pressure) string {
	m := b.shown("MPa")
	return m.With(m.Down(float64(p) / 1e3))
}

// strengthUp is strength rounded up: what is asked for.
func (b *bay) strengthUp(p units.Pressure) string {
	m := b.shown("MPa")
	return m.With(m.Up(float64(p) / 1e3))
}

// said is a gap in words: the end of its bracket that is proved, rounded down as the
// tables do, or that it is more.
func (b *bay) said(v result.Bracket) string {
	if math.IsInf(v.Upper, 1) {
		return "more than " + b.roundedDown(v.Lower)
	}
	return b.roundedDown(v.Lower)
}

// deep is how far a part may be inside something: the worse end of a bracket, rounded
// up as the tables do.
func (b *bay) deep(lower float64) string { return b.roundedUp(-lower) }

// roundedDown and roundedUp print metres as mm does, rounded to the side named; an overlap keeps
// its sign.
func (b *bay) roundedDown(v float64) string {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return "unknown"
	}
	return atMost(v, b.imperial)
}

func (b *bay) roundedUp(v float64) string {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return "unknown"
	}
	m := b.shown("m")
	return m.With(m.Up(v))
}

// label of a part.
func (b *bay) label(part int) string { return b.Carrier.Parts[part].Label() }

// first brackets where a part first comes nearer than -below to a solid, in the
// driver's units.
func (b *bay) first(s carrier.Step, part int, other sweep.Part, below float64) *result.First {
	m, a, ok := b.Driver(s, part)
	if !ok {
		return nil
	}
	lo, hi, found := sweep.First(s.Path, sweep.Ground, b.Parts[part], other, 0, 1, below, 1e-4)
	if !found {
		return nil
	}
	at := func(s float64) float64 { return m.From + (m.To-m.From)*s }
	return &result.First{Adjuster: a.Label(), From: m.From, Clear: at(lo), Hit: at(hi), Unit: "m"}
}

// point is a pointer to a copy.
func point(v geom.Vec) *geom.Vec { return &v }
