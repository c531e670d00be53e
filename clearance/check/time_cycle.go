package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"boxwalk/clearance/cycle"
	"boxwalk/clearance/release"
	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/job"
	"boxwalk/model/units"
)

// planning is a job's plan as it is asked for.
type planning struct {
	s    *model.Study
	of   cycle.Job
	plan cycle.Plan
	cure string // where the time to harden is from
	why  string // there is none
}

// planOf plans a job that asks for it.
func planOf(s *model.Study) planning {
	p := planning{s: s}
	c := s.Job.Cycle
	cure, from, why := cures(s)
	if why != "" {
		p.why = why
		return p
	}
	p.cure = from
	hours := func(d units.Duration) float64 { return float64(d) / 3600 }
	p.of = cycle.Job{Castings: castings(s), Carriers: 1, FormGangs: c.FormGangs, PourGangs: c.PourGangs, Raise: hours(c.Raise), Close: hours(c.Close), Pour: hours(c.Pour), Roll: hours(c.Roll),
		Steps: steps(s), Cure: hours(cure), Calendar: calendar(c)}
	var ok bool
	if p.plan, ok = cycle.Make(p.of); !ok {
		p.why = "work does not fit into the shifts, or no working day comes: more hours a day (cycle.from, cycle.to), more days (cycle.days, cycle.free), or steps that take less (takes)"
	}
	return p
}

// calendar of a job, from the day of its start; without one that is a Monday.
func calendar(c *job.Cycle) cycle.Calendar {
	out := cycle.Calendar{From: float64(c.From) / 3600, To: float64(c.To) / 3600, Works: c.Works(), Free: map[int]bool{}}
	if c.Start == nil {
		return out
	}
	out.Weekday = c.Start.Weekday()
	for _, d := range c.Free {
		out.Free[d.Number()-c.Start.Number()] = true
	}
	return out
}

// castings are the pours as they are cast, with the cells that each casts.
func castings(s *model.Study) []cycle.Casting {
	at := map[[2]int]int{} // by place in the order and pour
	var out []cycle.Casting
	var places []int
	for _, cell := range s.Culvert.Cells {
		for _, p := range s.Culvert.PoursIn(cell) {
			key := [2]int{p.Cast, p.Number}
			i, ok := at[key]
			if !ok {
				i = len(out)
				at[key] = i
				out, places = append(out, cycle.Casting{Pour: p.Number}), append(places, p.Cast)
			}
			out[i].Cells = append(out[i].Cells, cell.Number)
		}
	}
	order := make([]int, len(out))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return places[a] - places[b] })
	sorted := make([]cycle.Casting, len(out))
	for i, k := range order {
		sorted[i] = out[k]
	}
	return sorted
}

// steps are how long those of the collapse take; one that the wheels take over in is laid
// out as two and counts once. A job's step that has a name of the gear's takes as long.
func steps(s *model.Study) []float64 {
	list, known := s.Job.Sequence, map[string]*units.Duration{}
	if len(list) == 0 {
		list = s.Gear.Steps
	}
	for _, one := range s.Gear.Steps {
		known[one.Step] = one.Takes
	}
	var out []float64
	for _, one := range list {
		takes := &s.Job.Cycle.Step
		if of := known[one.Step]; of != nil {
			takes = of
		}
		if one.Takes != nil {
			takes = one.Takes
		}
		out = append(out, float64(*takes)/3600)
	}
	return out
}

// cures is how long the concrete hardens before anything of the form is freed: until
// what the specification asks for is reached by its temperatures, or as long as the job
// states, the longer of walls and roof.
func cures(s *model.Study) (cure units.Duration, from, why string) {
	for _, f := range []struct {
		key   string
		of    release.Concrete
		asked *job.ReleaseOf
	}{{"walls", release.Walls(s.Job), s.Job.Release.Walls}, {"roof", release.Roof(s.Job), s.Job.Release.Roof}} {
		at, told := units.Duration(0), ""
		if f.of.Age != nil {
			at, told = *f.of.Age, "schedule."+f.key+"_age"
		}
		if f.of.Tested == nil && f.asked != nil && f.asked.Strength != nil && f.asked.Share == nil && f.asked.Least == nil {
			if reached, ok := f.of.Earliest(*f.asked.Strength); ok {
				at, told = reached, "time."+f.key+", by its temperatures"
			}
		}
		if told == "" {
			return 0, "", "how long the concrete hardens before the form is freed is not known: write schedule." + f.key + "_age, for example 4 d"
		}
		if at >= cure {
			cure, from = at, told
		}
	}
	return cure, from, ""
}

// cycleChecks hold the finish and the time from pour to pour against what the job asks.
func cycleChecks(s *model.Study, b *bay) []Judged {
	c := s.Job.Cycle
	if c == nil {
		return []Judged{b.noPlan("the job asks for no plan (cycle)")}
	}
	p := planOf(s)
	if p.why != "" {
		return []Judged{open("time.cycle", result.Subject{What: "plan"}, "h", p.why, result.Where{})}
	}
	var out []Judged
	if c.Finish != nil {
		limit := 24 * float64(c.Finish.Number()-c.Start.Number()+1)
		out = append(out, p.judged(b, "finish", p.plan.Finish, limit, fmt.Sprintf("the last carrier is out %s, %s after the beginning of %s; asked for is the end of %s (cycle.finish)", p.moment(p.plan.Finish), hoursAndDays(units.Up(p.plan.Finish, 1)), c.Start, c.Finish)))
	}
	if c.Every != nil {
		limit := float64(*c.Every) / 3600
		if p.plan.Longest == 0 {
			out = append(out, b.noPlan("no cell has two pours that follow each other"))
		} else {
			out = append(out, p.judged(b, "from pour to pour", p.plan.Longest, limit, fmt.Sprintf("from one pour to the next in a cell it is %s at most; asked for are %s (cycle.every)", hoursAndDays(units.Up(p.plan.Longest, 1)), hoursAndDays(units.Down(limit, 1)))))
		}
	}
	if len(out) == 0 {
		out = append(out, b.noPlan(p.told("the last carrier is out "+p.moment(p.plan.Finish)+"; no day of finish and no time from pour to pour is asked for (cycle.finish, cycle.every)")))
	}
	return out
}

func (b *bay) noPlan(text string) Judged {
	e := entry("time.cycle", result.Subject{What: "plan"}, nil, Limit{Source: "the job"}, result.Max, text)
	e.Unit, e.Limit = "h", nil
	return e
}

// judged is an entry of the plan.
func (p planning) judged(b *bay, what string, value, limit float64, text string) Judged {
	c := candidate{Value: *result.Exactly(value), text: p.told(text)}
	e := entry("time.cycle", result.Subject{What: what}, []candidate{c}, Limit{Value: limit, Source: "the job; durations: the job or common practice (judgement)"}, result.Max, "")
	e.Unit = "h"
	var w result.Working
	w.Given("t", map[string]string{"finish": "finish, since midnight of the first day"}[what]+map[string]string{"from pour to pour": "the longest from pour to pour in one cell"}[what], value, "h", "the plan, row by row (cycle.csv)")
	return e.with(w.Lines())
}

// told adds to a sentence what the plan rests on, who waits, and what would shorten it.
func (p planning) told(text string) string {
	form, pour, concrete := p.waits()
	text += fmt.Sprintf("; the form is freed %s after placing (%s); it waits %s for the concrete, %s for form gangs and %s for pour gangs, added up", hoursAndDays(units.Up(p.of.Cure, 1)), p.cure, hoursOf(concrete), hoursOf(form), hoursOf(pour))
	return text + p.shorter()
}

func hoursOf(h float64) string { return fmt.Sprintf("%.1f h", h) }

// waits adds up what work waited for.
func (p planning) waits() (form, pour, concrete float64) {
	for _, r := range p.plan.Rows {
		if r.Waits.Concrete {
			concrete += p.of.Cure
		}
		switch {
		case r.Waits.Gang && r.Work == cycle.Pour:
			pour += r.From - r.Ready
		case r.Waits.Gang:
			form += r.From - r.Ready
		}
	}
	return form, pour, concrete
}

// shorter tells what one more of something makes of the finish.
func (p planning) shorter() string {
	with := cycle.With(p.of)
	var out []string
	for _, one := range []struct {
		what   string
		finish float64
	}{{"one more form gang", with.FormGang}, {"one more pour gang", with.PourGang}, {"two carriers in each cell that cast by turns, where they need not pass each other,", with.Carriers}} {
		if saves := p.plan.Finish - one.finish; one.finish > 0 && saves > 0.05 {
			out = append(out, fmt.Sprintf("with %s it is out %s earlier", one.what, hoursAndDays(units.Down(saves, 1))))
		}
	}
	if len(out) == 0 {
		return "; one more gang or carrier alone shortens nothing"
	}
	return "; " + strings.Join(out, ", ")
}

// moment is a time of the plan in words: date and time, or day and time.
func (p planning) moment(h float64) string {
	day := int(math.Floor(h / 24))
	minutes := int(math.Ceil((h-24*float64(day))*60 - 1e-6))
	if minutes == 24*60 {
		day, minutes = day+1, 0
	}
	clock := fmt.Sprintf("%02d:%02d", minutes/60, minutes%60)
	if start := p.s.Job.Cycle.Start; start != nil {
		return job.DateOf(start.Number()+day).String() + " " + clock
	}
	return fmt.Sprintf("day %d %s", day+1, clock)
}

// planRows are the plan for results and tables; none where none is asked for.
func planRows(s *model.Study) []result.PlanRow {
	if s.Job.Cycle == nil {
		return nil
	}
	p := planOf(s)
	var out []result.PlanRow
	for _, r := range p.plan.Rows {
		gang := "form gang"
		if r.Work == cycle.Pour {
			gang = "pour gang"
		}
		out = append(out, result.PlanRow{Pour: r.Pour, Cell: r.Cell, Work: r.Work.String(), Gang: fmt.Sprintf("%s %d", gang, r.Gang), From: r.From, To: r.To,
			Begins: p.moment(r.From), Ends: p.moment(r.To), Waited: r.From - r.Ready, For: p.waitedFor(r)})
	}
	return out
}

// waitedFor says what a piece of work waited for.
func (p planning) waitedFor(r cycle.Row) string {
	var out []string
	switch w := r.Waits; {
	case w.First:
	case w.Concrete:
		out = append(out, "the concrete to harden")
	case w.Cell > 0:
		out = append(out, fmt.Sprintf("%s in cell %d", w.After, w.Cell))
	}
	if r.From > r.Ready+1e-9 {
		if r.Waits.Gang {
			out = append(out, "a gang")
		}
		if r.Waits.Shift {
			out = append(out, "working time")
		}
	}
	return strings.Join(out, ", then ")
}
