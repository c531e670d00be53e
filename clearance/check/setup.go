package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/model/carrier"
)

// rangeChecks hold every setting and every reading of every step against what
// the gear can do: the settings one by one, each adjuster with its governing
// step.
func (b *bay) rangeChecks() []Judged {
	var out []Judged
	for _, f := range b.Carrier.Findings {
		out = append(out, b.findingChecks(f)...)
	}
	for k := range b.Carrier.Adjusters {
		out = append(out, b.adjusterChecks(k)...)
	}
	for _, s := range b.Steps {
		out = append(out, b.blockedChecks(s)...)
	}
	return out
}

func (b *bay) at(step string) result.Where {
	return result.Where{Cell: b.Cell.Number, Pour: b.Pour.Number, Step: step, Frame: b.Name()}
}

// rangeSlack covers rounding of readings that stand exactly at an end of their
// range; incrementPlay is how far a reading may lie from a hole or fit.
const (
	rangeSlack    = 1e-6
	incrementPlay = 0.5e-3
)

// findingChecks turn a finding into a lower and an upper limit, and one more
// for its increment.
func (b *bay) findingChecks(f carrier.Finding) []Judged {
	remedy := b.settingRemedy(f.Of)
	// a finding that has no reachable value at all says so with an empty range
	if f.Min > f.Max {
		c := Judged{Entry: result.Entry{ID: "setup.range", Subject: b.subject(f.Subject), Verdict: result.Fail, Value: result.Exactly(f.Value), Unit: "m", Where: b.at(f.State), Text: f.Text.Say(b.mm), Remedy: remedy, Source: "gear"}}
		return []Judged{c}
	}
	if f.Min == f.Max {
		off := []candidate{{Value: *result.Exactly(math.Abs(f.Value - f.Min)), where: b.at(f.State), text: f.Text.Say(b.mm), remedy: remedy}}
		return []Judged{entry("setup.range", b.subject(f.Subject), off, Limit{Value: incrementPlay, Source: "judgement: the play of a pin"}, result.Max, "")}
	}
	text := f.Text.Say(b.mm)
	if !f.Reached() {
		text += "; " + b.allows(f.Min, f.Max)
	}
	one := []candidate{{Value: *result.Exactly(f.Value), where: b.at(f.State), text: text, remedy: remedy}}
	out := []Judged{
		entry("setup.range", b.subject(f.Subject).As("least"), one, Limit{Value: f.Min - rangeSlack, Source: "gear"}, result.Min, ""),
		entry("setup.range", b.subject(f.Subject).As("most"), one, Limit{Value: f.Max + rangeSlack, Source: "gear"}, result.Max, ""),
	}
	if f.Off > rangeSlack {
		text := fmt.Sprintf("%s at %s lies %s from the nearest hole or increment", f.Subject, b.mm(f.Value), b.mm(f.Off))
		out = append(out, entry("setup.range", b.subject(f.Subject).As("increment"), []candidate{{Value: *result.Exactly(f.Off), where: b.at(f.State), text: text, remedy: remedy}},
			Limit{Value: incrementPlay, Source: "judgement: the play of a pin"}, result.Max, ""))
	}
	return out
}

// adjusterChecks are least and greatest reading of one adjuster over all steps.
func (b *bay) adjusterChecks(k int) []Judged {
	a := b.Carrier.Adjusters[k]
	var list []candidate
	for _, s := range b.Steps {
		m := s.Moves[k]
		text := fmt.Sprintf("%s reads %s to %s in step %q; %s", a.Label(), b.roundedDown(m.Least), b.roundedUp(m.Most), s.Name, b.allows(float64(a.Range.Min), float64(a.Range.Max)))
		list = append(list, candidate{Value: result.Between(m.Least, m.Most), where: b.at(s.Name), text: text})
	}
	if len(list) == 0 {
		list = append(list, candidate{Value: *result.Exactly(a.Raised), where: b.at("raised"), text: fmt.Sprintf("%s reads %s raised", a.Label(), b.mm(a.Raised))})
		if a.Jack() {
			list[0].remedy = heightRemedy
		}
	}
	ends := func(pick func(result.Bracket) float64) []candidate {
		out := make([]candidate, len(list))
		for i, c := range list {
			c.Value = *result.Exactly(pick(c.Value))
			c.where.Part = a.Label()
			out[i] = c
		}
		return out
	}
	return []Judged{
		entry("setup.range", b.subject(a.Label()).As("least"), ends(func(v result.Bracket) float64 { return v.Lower }), Limit{Value: float64(a.Range.Min) - rangeSlack, Source: "gear"}, result.Min, ""),
		entry("setup.range", b.subject(a.Label()).As("most"), ends(func(v result.Bracket) float64 { return v.Upper }), Limit{Value: float64(a.Range.Max) + rangeSlack, Source: "gear"}, result.Max, ""),
	}
}

// lockedIn begins the kind of an entry about an adjuster that is locked in a step.
const lockedIn = "locked in "

// blockedChecks are links that stop a step: one that cannot close, and
// followers left locked.
func (b *bay) blockedChecks(s carrier.Step) []Judged {
	var out []Judged
	if s.Stop != nil {
		c := Judged{Entry: result.Entry{ID: "setup.range", Subject: b.About().In(s.Name), Verdict: result.Fail, Unit: "m", Where: b.at(s.Name), Text: s.Stop.Say(b.mm), Source: "law of cosines"}}
		if e := s.Blocked; e != nil {
			c.Value, c.Where.Part = result.Exactly(e.Length), e.Link
		}
		out = append(out, c)
	}
	for _, l := range s.Locked {
		a := b.Carrier.Adjusters[l.Adjuster]
		m := s.Moves[l.Adjuster]
		where := b.at(s.Name)
		where.Part = a.Label()
		text := fmt.Sprintf("%s is locked in step %q but has to give %s: from %s to %s", a.Label(), s.Name, b.mm(l.Give), b.mm(m.From), b.mm(l.Need))
		out = append(out, entry("setup.range", b.subject(a.Label()).As(lockedIn+s.Name), []candidate{{Value: *result.Exactly(l.Give), where: where, text: text}},
			Limit{Value: 1e-3, Source: "judgement: the play of two pins"}, result.Max, ""))
	}
	return out
}

// restChecks are about what the carrier stands on: jacks when raised, wheels
// when collapsed.
func (b *bay) restChecks() []Judged {
	hang := b.Carrier.Jack - b.Carrier.Wheels
	out := []Judged{entry("setup.rest", b.subject("wheels raised"), []candidate{{Value: *result.Exactly(hang), where: b.at("raised"),
		text:    fmt.Sprintf("raised, the wheels hang %s above the level of the invert: jack %s - %s at which the wheels touch", b.roundedDown(hang), b.mm(b.Carrier.Jack), b.mm(b.Carrier.Wheels)),
		working: b.workedHang(b.Carrier.Jack, "J - J_w", "by which the wheels hang above the invert")}},
		b.limits.of("setup.rest"), result.Min, "")}
	if len(b.Steps) == 0 {
		return append(out, open("setup.rest", b.About().As(result.Collapsed), "m", "the gear has no steps", b.at("")))
	}
	last := b.Steps[len(b.Steps)-1]
	if last.Stop != nil {
		return append(out, open("setup.rest", b.About().As(result.Collapsed), "m", "the last step cannot be made: "+last.Stop.Say(b.mm), b.at(last.Name)))
	}
	var wheels, plates []candidate
	for k, a := range b.Carrier.Adjusters {
		if !a.Jack() {
			continue
		}
		to := last.Moves[k].To
		up := math.Max(0, to-b.Carrier.Wheels)
		wheels = append(wheels, candidate{Value: *result.Exactly(up), where: b.at(last.Name),
			text:    fmt.Sprintf("at the end %s reads %s and the wheels touch at %s: they hang %s off the level of the invert", a.Label(), b.mm(to), b.mm(b.Carrier.Wheels), b.mm(up)),
			working: b.workedHang(to, "max(0, J - J_w)", "by which the wheels hang off the invert")})
		clear := math.Max(0, b.Carrier.Wheels-to)
		plates = append(plates, candidate{Value: *result.Exactly(clear), where: b.at(last.Name),
			text:    fmt.Sprintf("at the end the plate of %s stands %s above the level of the invert: %s - %s", a.Label(), b.roundedDown(clear), b.mm(b.Carrier.Wheels), b.mm(to)),
			working: b.workedHang(to, "max(0, J_w - J)", "by which the plates stand above the invert")})
	}
	return append(out,
		entry("setup.rest", b.subject("wheels collapsed"), wheels, b.limits.of("setup.rest.wheels"), result.Max, ""),
		entry("setup.rest", b.subject("plates collapsed"), plates, b.limits.of("setup.rest.plates"), result.Min, ""))
}

// lengthCheck holds the form's length against the longest side of the pour in
// its cell, lap included.
func (b *bay) lengthCheck() Judged {
	have := float64(b.Carrier.Gear.Form.Length)
	left, right := b.Cell.Sides(b.Pour)
	text := fmt.Sprintf("form %s long; pour %s along the left wall face, %s along the right, from corner to corner with a lap of %s it needs %s",
		b.roundedDown(have), b.mm(left), b.mm(right), b.mm(b.Pour.Lap), b.mm(b.Needed))
	return entry("setup.length", b.subject("form length"), []candidate{{Value: *result.Exactly(have), where: b.at("raised"), text: text}},
		Limit{Value: b.Needed, Source: "pour length"}, result.Min, "").with(b.workedLength())
}
