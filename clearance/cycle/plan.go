package cycle

import "slices"

// Plan is when everything is done.
type Plan struct {
	Rows   []Row   // in the order of their beginning
	Finish float64 // when the last carrier is out
	// Longest is the most time between two pours that follow each other in one cell; 0
	// where no cell has two.
	Longest float64
}

// Make plans a job: of all work that could begin, what can begin first does, with the
// gang that is free first; of those alike what is cast first. False where the calendar
// has no end of free days, or a work does not fit into a shift.
func Make(j Job) (Plan, bool) {
	tasks := j.tasks()
	rows := make([]*Row, len(tasks))
	gangs := [2][]float64{make([]float64, max(1, j.FormGangs)), make([]float64, max(1, j.PourGangs))}
	open := make([]int, len(tasks))
	for i := range open {
		open[i] = i
	}
	var out Plan
	for len(open) > 0 {
		next, row, ok := j.first(tasks, rows, open, gangs)
		if !ok {
			return Plan{}, false
		}
		gangs[group(tasks[next])][row.Gang-1] = row.To
		rows[next] = &row
		open = slices.DeleteFunc(open, func(i int) bool { return i == next })
		out.Finish = max(out.Finish, row.To)
	}
	for _, r := range rows {
		out.Rows = append(out.Rows, *r)
	}
	slices.SortStableFunc(out.Rows, func(a, b Row) int {
		switch {
		case a.From < b.From:
			return -1
		case a.From > b.From:
			return 1
		}
		return 0
	})
	out.Longest = longest(j, rows, tasks)
	return out, true
}

func group(t task) int {
	if t.pouring {
		return 1
	}
	return 0
}

// lookAhead is how many tasks in the order of casting are looked at for one that can
// begin: far more than there are carriers and gangs, so that long jobs stay quick.
const lookAhead = 400

// first is the task of those open that can begin first, with its time.
func (j Job) first(tasks []task, rows []*Row, open []int, gangs [2][]float64) (next int, best Row, ok bool) {
	next = -1
	for _, i := range open[:min(len(open), lookAhead)] {
		t := tasks[i]
		at, last, known := t.ready(rows, j.Cure)
		if !known {
			continue
		}
		gang := soonest(gangs[group(t)])
		free := gangs[group(t)][gang]
		from, to, fits := t.span(j.Calendar, max(at, free))
		if !fits {
			return 0, Row{}, false
		}
		if next >= 0 && (from > best.From || from == best.From && !byTurns(t, tasks[next])) {
			continue
		}
		row := t.Row
		row.Gang, row.From, row.To, row.Ready = gang+1, from, to, at
		row.Waits = waited(t, tasks, last, j.Calendar, at, free, from)
		if row.Waits.First && !row.Waits.Gang {
			row.Ready, row.Waits.Shift = from, false // nobody waits before the first shift
		}
		next, best = i, row
	}
	return next, best, next >= 0
}

// soonest is the gang that is free first.
func soonest(free []float64) int {
	best := 0
	for i, at := range free {
		if at < free[best] {
			best = i
		}
	}
	return best
}

// waited tells what a task waited for.
func waited(t task, tasks []task, last int, c Calendar, ready, free, from float64) Wait {
	w := Wait{First: last < 0, Concrete: t.cured}
	if last >= 0 {
		w.After, w.Cell = tasks[last].Work, tasks[last].Cell
	}
	alone, _, _ := t.span(c, ready)
	w.Shift = alone > ready
	w.Gang = from > alone && free > ready
	return w
}

// longest is the most time from pour to pour in one cell.
func longest(j Job, rows []*Row, tasks []task) float64 {
	last, most := map[int]float64{}, 0.0
	for i, t := range tasks {
		if t.Work != Pour {
			continue
		}
		for _, cell := range j.Castings[t.Casting].Cells {
			if before, ok := last[cell]; ok {
				most = max(most, rows[i].From-before)
			}
			last[cell] = rows[i].From
		}
	}
	return most
}

// Shorter is what a plan would finish at with one more of something.
type Shorter struct {
	FormGang, PourGang, Carriers float64 // finish with one more gang, or two carriers in each cell by turns
}

// With tells what one more gang or carrier would make of a plan.
func With(j Job) Shorter {
	finish := func(j Job) float64 {
		p, ok := Make(j)
		if !ok {
			return 0
		}
		return p.Finish
	}
	form, pour, carriers := j, j, j
	form.FormGangs++
	pour.PourGangs++
	carriers.Carriers = max(1, j.Carriers) + 1
	return Shorter{finish(form), finish(pour), finish(carriers)}
}
