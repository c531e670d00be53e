package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/release"
	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/job"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// freed is a part of the form that is to be freed, with what is asked for before.
type freed struct {
	id    string
	key   string // "walls" or "roof"
	asked *job.ReleaseOf
	air   *job.Curing
	hardening
}

func wallsChecks(s *model.Study, b *bay) []Judged {
	return freed{"time.walls", "walls", s.Job.Release.Walls, s.Job.Release.Air, hardening{b, release.Walls(s.Job), "the walls", "when their form is freed", "are", "have",
		"schedule.walls_age", "concrete.walls_curing", "concrete.walls_strength", "8 MPa", "1200 psi", "20 h"}}.checks(s)
}

func roofChecks(s *model.Study, b *bay) []Judged {
	return append(freed{"time.roof", "roof", s.Job.Release.Roof, s.Job.Release.Air, hardening{b, release.Roof(s.Job), "the roof", "when its form is freed", "is", "has",
		"schedule.roof_age", "concrete.roof_curing", "concrete.roof_strength", "21 MPa", "3000 psi", "4 d"}}.checks(s), roofGoverns(s, b))
}

// checks are the strength and the least time that are asked for; one that says so where
// nothing is.
func (f freed) checks(s *model.Study) []Judged {
	a := f.asked
	if a == nil || a.Strength == nil && a.Share == nil && a.Least == nil {
		return []Judged{f.open("", fmt.Sprintf("what the specification asks for before the form of %s is freed is not stated: release.%s, for example {strength: %s}; %s", f.what, f.key, f.example(f.metric, f.imperial), f.practice(s)))}
	}
	var out []Judged
	if e, is := f.strengthCheck(s); is {
		out = append(out, e)
	}
	if a.Least != nil {
		out = append(out, f.leastCheck())
	}
	return out
}

func (f freed) open(what, why string) Judged {
	return open(f.id, result.Subject{What: what}, f.unit(what), why, result.Where{})
}

func (f freed) unit(what string) string {
	if what == leastTime {
		return "h"
	}
	return "MPa"
}

// The two subjects.
const (
	strengthAtRelease = "strength at release"
	leastTime         = "least time"
)

// strengthCheck holds the strength at release against what is asked for; there is none
// where the specification lets the time stand for a strength that is not known.
func (f freed) strengthCheck(s *model.Study) (e Judged, is bool) {
	need, by, why := f.need(s)
	if why != "" {
		return f.open(strengthAtRelease, why), true
	}
	got, why := f.known()
	switch {
	case why != "" && f.asked.TimeAlone != "":
		return e, false
	case why != "":
		return f.open(strengthAtRelease, why), true
	case need == 0:
		return f.open(strengthAtRelease, fmt.Sprintf("the specification is stated to ask for a time only (release.%s.least), and a time is no strength: write release.%s.strength, for example %s, or where it lets the time stand for it release.%s.time_alone", f.key, f.key, f.example(f.metric, f.imperial), f.key)), true
	}
	text := fmt.Sprintf("%s %s; asked for are %s (%s); %s; %s", f.what, got.basis, f.bay.strengthUp(need), by, f.governs(need), f.practice(s))
	e = f.one(strengthAtRelease, float64(got.strength)/1e3, float64(need)/1e3, got.source, text)
	e.Working = f.working()
	return e, true
}

// one is an entry of a number that must not be less than a limit.
func (f freed) one(what string, value, limit float64, source, text string) Judged {
	c := candidate{Value: *result.Exactly(value), text: text}
	e := entry(f.id, result.Subject{What: what}, []candidate{c}, Limit{Value: limit, Source: "the specification, from the job; " + source}, result.Min, "")
	e.Unit = f.unit(what)
	return e
}

// need is the strength that is asked for, the greater of what is stated; 0 where only a
// time is.
func (f freed) need(s *model.Study) (need units.Pressure, by, why string) {
	a := f.asked
	if a.Strength != nil {
		need, by = *a.Strength, fmt.Sprintf("release.%s.strength", f.key)
	}
	if a.Share == nil {
		return need, by, ""
	}
	whole := s.Job.Concrete.Strength
	if whole == nil {
		return 0, "", fmt.Sprintf("%g of the strength at 28 days is asked for (release.%s.share), and that is not stated: write concrete.strength, for example %s", float64(*a.Share), f.key, f.example("30 MPa", "4000 psi"))
	}
	if share := units.Pressure(*a.Share) * *whole; share > need {
		need, by = share, fmt.Sprintf("release.%s.share, %g x %s", f.key, float64(*a.Share), f.bay.strength(*whole))
	}
	return need, by, ""
}

// governs says when the temperatures give the strength, which of what is asked for comes
// last, and when that is.
func (f freed) governs(need units.Pressure) string {
	strong, ok := f.concrete.Earliest(need)
	least, counted := f.leastReached()
	switch {
	case !ok && f.concrete.Tested != nil:
		return "earliest release: when cylinders show it"
	case !ok:
		return "not reached within the temperatures that are told"
	case f.asked.Least == nil:
		return "the strength governs: earliest release " + inHours(strong) + " after casting by its temperatures"
	case !counted:
		return fmt.Sprintf("reached %s after casting by its temperatures; the least time must have passed too", inHours(strong))
	case strong >= least:
		return "the strength governs over the least time: earliest release " + inHours(strong) + " after casting by its temperatures"
	}
	return fmt.Sprintf("reached %s after casting by its temperatures; the least time governs: earliest release %s after casting", inHours(strong), inHours(least))
}

func (f freed) leastReached() (units.Duration, bool) {
	if f.air == nil || f.asked.Least == nil {
		return 0, false
	}
	return release.EarliestCounted(f.air, *f.asked.Least)
}

// leastCheck holds the time that counts against the least that is asked for.
func (f freed) leastCheck() Judged {
	age := f.concrete.Age
	var lacks []string
	if age == nil {
		lacks = append(lacks, f.age+", for example "+f.old)
	}
	if f.air == nil {
		lacks = append(lacks, "release.air, the temperature of the air since casting, for example "+f.example("12 degC", "54 degF"))
	}
	if len(lacks) > 0 {
		return f.open(leastTime, "how much of the time since casting counts is not known: write "+listed(lacks))
	}
	counted, err := release.Counted(f.air, *age)
	if err != nil {
		return f.open(leastTime, fmt.Sprintf("release.air, for %s of %s: %s", f.age, inHours(*age), f.bay.told(err)))
	}
	at, ok := f.leastReached()
	when := "not reached within the temperatures of the air that are told"
	if ok {
		when = "reached " + inHours(at) + " after casting"
	}
	text := fmt.Sprintf("%s of %s after casting count, with air at %s and above (release.air); %s are asked for (release.%s.least), %s", inHoursDown(counted), inHours(*age), f.bay.degrees(10), inHours(*f.asked.Least), f.key, when)
	if f.asked.TimeAlone != "" {
		text += "; where the strength is not known the time stands for it: " + f.asked.TimeAlone
	}
	e := f.one(leastTime, float64(counted)/3600, float64(*f.asked.Least)/3600, "hours that count: ACI 347-04 3.7.2.3 (read on a trade magazine's page)", text)
	var w result.Working
	w.Given("t", "hours since casting with air at 10 degC and above", float64(counted)/3600, "h", "release.air up to "+f.age+", added up")
	e.Working = w.Lines()
	return e
}

// practice tells what is common practice where a specification is silent; nothing is held
// against it.
func (f freed) practice(s *model.Study) string {
	t, what := load.WallStrip(), "walls that carry nothing else"
	if f.key == "roof" {
		span := 0.0
		for _, c := range s.Culvert.Cells {
			span = math.Max(span, 2*c.HalfSpan)
		}
		var err error
		if t, err = load.CarrierStrip(load.Soffit{ClearSpan: units.Length(span)}); err != nil {
			return "common practice where a specification is silent: none for so wide a span, the engineer decides"
		}
		what = "a roof of " + f.bay.Distance(span) + " clear span with the walls on its form"
	}
	return fmt.Sprintf("common practice where a specification is silent: %s with air at %s and above for %s (ACI 347-04 3.7.2.3, read on a trade magazine's page)", inHours(t.Time), f.bay.degrees(10), what)
}

// inHours prints a time since casting to a tenth of an hour, rounded up; from three days
// on in days too.
func inHours(d units.Duration) string { return hoursAndDays(units.Up(float64(d)/3600, 1)) }

// inHoursDown is inHours rounded down: time that counts never reads as more.
func inHoursDown(d units.Duration) string { return hoursAndDays(units.Down(float64(d)/3600, 1)) }

func hoursAndDays(h float64) string {
	text := units.Decimal(h, 1) + " h"
	if h >= 72 {
		text += fmt.Sprintf(" (%.1f d)", h/24)
	}
	return text
}

// releaseRemedy is to wait, or to say what is missing.
func (b *bay) releaseRemedy(e Judged) string {
	if e.Verdict == result.Open {
		return "state what is missing; the sentence above names it, and no strength is taken for granted until then"
	}
	return "wait longer before the form is freed (schedule.walls_age, schedule.roof_age), keep the concrete warmer, or let cylinders kept beside it show the strength (concrete.walls_strength, concrete.roof_strength)"
}
