package cycle

import "slices"

// Work is a kind of work.
type Work uint8

// The kinds of work, in the order in which they follow each other.
const (
	Raise Work = iota
	Close
	Pour
	Free // the collapse, step by step
	Roll
)

// String names the work.
func (w Work) String() string {
	return [...]string{"raise", "close", "pour", "free", "roll"}[min(w, Roll)]
}

// Casting is what is cast together: one pour in one or several cells.
type Casting struct {
	Pour  int
	Cells []int
}

// Job is what is planned.
type Job struct {
	Castings             []Casting // in the order of casting
	Carriers             int       // in each cell, at least 1; they cast by turns
	FormGangs, PourGangs int
	Raise, Close, Pour   float64   // h
	Steps                []float64 // h, of the collapse; each is not left half done
	Roll                 float64   // h
	Cure                 float64   // h from the end of placing until the form may be freed
	Calendar             Calendar
}

// Row is one piece of work as planned.
type Row struct {
	Casting  int // place in Job.Castings
	Pour     int
	Cell     int // 0: all cells of the casting
	Work     Work
	Gang     int // number, from 1
	From, To float64
	Ready    float64 // when all that it follows was done
	Waits    Wait    // what came last of that, and what it waited for from then on
}

// Wait tells what a work waited for.
type Wait struct {
	Concrete bool // the concrete came last: it had to harden
	After    Work // else this work came last
	Cell     int  // of that work; 0 for a pour
	First    bool // nothing came before
	Gang     bool // then for a gang
	Shift    bool // then for working time
}

// task is a piece of work before it has its time.
type task struct {
	Row
	takes   float64
	chunks  []float64 // each not left half done; nil: it may be left over night
	pouring bool      // by a gang that places concrete
	after   []int     // tasks, by place
	cured   bool      // what it follows has to harden first
}

// tasks are all pieces of work, in the order of casting.
func (j Job) tasks() []task {
	var out []task
	rolled := map[[2]int]int{} // the last roll of a carrier: by cell and number
	cast := map[int]int{}      // castings so far, by cell
	add := func(t task) int {
		out = append(out, t)
		return len(out) - 1
	}
	for n, c := range j.Castings {
		var closed []int
		for _, cell := range c.Cells {
			at := Row{Casting: n, Pour: c.Pour, Cell: cell}
			carrier := [2]int{cell, cast[cell] % max(1, j.Carriers)}
			cast[cell]++
			raise := task{Row: at, takes: j.Raise}
			if before, ok := rolled[carrier]; ok {
				raise.after = []int{before}
			}
			at.Work = Close
			closed = append(closed, add(task{Row: at, takes: j.Close, after: []int{add(raise)}}))
		}
		pour := add(task{Row: Row{Casting: n, Pour: c.Pour, Work: Pour}, takes: j.Pour, chunks: []float64{j.Pour}, pouring: true, after: closed})
		for _, cell := range c.Cells {
			at := Row{Casting: n, Pour: c.Pour, Cell: cell, Work: Free}
			free := add(task{Row: at, takes: sum(j.Steps), chunks: j.Steps, after: []int{pour}, cured: true})
			at.Work = Roll
			carrier := [2]int{cell, (cast[cell] - 1) % max(1, j.Carriers)}
			rolled[carrier] = add(task{Row: at, takes: j.Roll, chunks: []float64{j.Roll}, after: []int{free}})
		}
	}
	return out
}

func sum(list []float64) float64 {
	total := 0.0
	for _, v := range list {
		total += v
	}
	return total
}

// span is when a work ready at t begins and ends.
func (t task) span(c Calendar, at float64) (from, to float64, ok bool) {
	if t.chunks == nil {
		return c.done(at, t.takes)
	}
	from, to, ok = at, at, true
	for i, chunk := range t.chunks {
		var start float64
		if start, to, ok = c.whole(to, chunk); !ok {
			return 0, 0, false
		}
		if i == 0 {
			from = start
		}
	}
	return from, to, true
}

// ready is when all that a task follows is done, and which of it came last.
func (t task) ready(rows []*Row, cure float64) (at float64, last int, ok bool) {
	last = -1
	for _, a := range t.after {
		r := rows[a]
		if r == nil {
			return 0, -1, false
		}
		if done := r.To; last < 0 || done > at {
			at, last = done, a
		}
	}
	if t.cured {
		at += cure
	}
	return at, last, true
}

// byTurns orders tasks that could begin at the same time: what is cast first, then from
// the left, then what comes first in the work.
func byTurns(a, b task) bool {
	return slices.Compare([]int{a.Casting, int(a.Work), a.Cell}, []int{b.Casting, int(b.Work), b.Cell}) < 0
}
