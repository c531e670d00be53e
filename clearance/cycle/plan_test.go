package cycle

import (
	"math"
	"math/rand"
	"testing"
)

// weekdays of ten hours, from a Monday.
func week() Calendar {
	return Calendar{From: 7, To: 17, Works: [7]bool{true, true, true, true, true}}
}

func one(pours int) Job {
	j := Job{Carriers: 1, FormGangs: 1, PourGangs: 1, Raise: 4, Close: 6, Pour: 5, Steps: []float64{1, 1, 2}, Roll: 2, Cure: 20, Calendar: week()}
	for p := 1; p <= pours; p++ {
		j.Castings = append(j.Castings, Casting{Pour: p, Cells: []int{1}})
	}
	return j
}

// By hand. Monday: raise 7 to 11, close 11 to 17. Tuesday: pour 7 to 12, hard Wednesday
// at 8: free 8 to 12, roll 12 to 14, raise 14 to 17 and Thursday 7 to 8, close 8 to 14.
// The second pour of 5 h does not fit before 17: Friday 7 to 12, hard Saturday at 8:
// free Monday 7 to 11, roll 11 to 13.
func TestTwoPoursByHand(t *testing.T) {
	p, ok := Make(one(2))
	if !ok {
		t.Fatal("no plan")
	}
	want := []struct {
		work     Work
		from, to float64
	}{{Raise, 7, 11}, {Close, 11, 17}, {Pour, 31, 36}, {Free, 56, 60}, {Roll, 60, 62}, {Raise, 62, 80}, {Close, 80, 86}, {Pour, 103, 108}, {Free, 175, 179}, {Roll, 179, 181}}
	if len(p.Rows) != len(want) {
		t.Fatal(p.Rows)
	}
	for i, w := range want {
		if r := p.Rows[i]; r.Work != w.work || r.From != w.from || r.To != w.to {
			t.Errorf("row %d is %v %v to %v, want %v", i, r.Work, r.From, r.To, w)
		}
	}
	if p.Finish != 181 || p.Longest != 103-31 {
		t.Errorf("finish %v, longest %v", p.Finish, p.Longest)
	}
	if w := p.Rows[3].Waits; !w.Concrete || w.Gang || w.Shift || p.Rows[3].Ready != 56 {
		t.Errorf("free waits %+v", w)
	}
	if w := p.Rows[8].Waits; !w.Concrete || !w.Shift || p.Rows[8].Ready != 128 {
		t.Errorf("free waits %+v from %v", w, p.Rows[8].Ready)
	}
	// the Monday free: a day later
	j := one(2)
	j.Calendar.Free = map[int]bool{7: true}
	if p, _ = Make(j); p.Finish != 181+24 {
		t.Errorf("finish %v", p.Finish)
	}
}

func TestWorkThatFitsIntoNoShiftHasNoPlan(t *testing.T) {
	j := one(1)
	j.Pour = 10.5
	if _, ok := Make(j); ok {
		t.Error("a pour of 10.5 h is planned in shifts of 10 h")
	}
	j = one(1)
	j.Calendar.Works = [7]bool{}
	if _, ok := Make(j); ok {
		t.Error("a plan without a working day")
	}
}

// random is a small job.
func random(rnd *rand.Rand) Job {
	hours := func(most int) float64 { return 0.5 * float64(1+rnd.Intn(2*most)) }
	j := Job{Carriers: 1, FormGangs: 1 + rnd.Intn(2), PourGangs: 1, Raise: hours(12), Close: hours(12), Pour: hours(9), Steps: []float64{hours(2), hours(2)}, Roll: hours(4), Cure: hours(60), Calendar: week()}
	j.Calendar.Weekday = rnd.Intn(7)
	if rnd.Intn(2) == 0 {
		j.Castings = []Casting{{1, []int{1}}, {2, []int{1}}}
	} else {
		j.Castings = []Casting{{1, []int{1, 2}}, {2, []int{1}}}
	}
	return j
}

// What holds of every plan, by walking through it in quarters of an hour: work in working
// time only and as much of it as it takes, no gang at two places, nothing before what it
// follows, nothing of the form touched while the concrete hardens.
func TestAPlanKeepsItsRules(t *testing.T) {
	rnd := rand.New(rand.NewSource(3))
	for n := range 200 {
		j := random(rnd)
		p, ok := Make(j)
		if !ok {
			t.Fatalf("case %d has no plan: %+v", n, j)
		}
		busy := map[[2]int]bool{} // group and gang at a quarter
		ends := map[[3]int]float64{}
		for _, r := range p.Rows {
			takes := map[Work]float64{Raise: j.Raise, Close: j.Close, Pour: j.Pour, Free: sum(j.Steps), Roll: j.Roll}[r.Work]
			worked := 0.0
			for q := int(4 * r.From); q < int(4*r.To); q++ {
				at := float64(q) / 4
				day, hour := int(math.Floor(at/24)), at-24*math.Floor(at/24)
				if weekday := (j.Calendar.Weekday + day) % 7; weekday < 5 && hour >= 7 && hour < 17 {
					worked += 0.25
				}
				kind := 0
				if r.Work == Pour {
					kind = 1
				}
				key := [2]int{kind*100 + r.Gang, q}
				if busy[key] {
					t.Fatalf("case %d: gang %d is at two places at hour %v", n, r.Gang, at)
				}
				busy[key] = true
			}
			if slack := worked - takes; slack < 0 || r.Work != Free && slack > 1e-9 {
				t.Errorf("case %d: %v of pour %d has %v h of work between %v and %v, takes %v", n, r.Work, r.Pour, worked, r.From, r.To, takes)
			}
			ends[[3]int{r.Casting, r.Cell, int(r.Work)}] = r.To
		}
		for _, r := range p.Rows {
			follows := func(casting, cell int, w Work, plus float64) {
				if end, ok := ends[[3]int{casting, cell, int(w)}]; ok && r.From < end+plus-1e-9 {
					t.Errorf("case %d: %v of pour %d begins at %v before %v ends at %v + %v", n, r.Work, r.Pour, r.From, w, end, plus)
				}
			}
			switch r.Work {
			case Raise:
				follows(r.Casting-1, r.Cell, Roll, 0)
			case Close:
				follows(r.Casting, r.Cell, Raise, 0)
			case Pour:
				for _, cell := range j.Castings[r.Casting].Cells {
					follows(r.Casting, cell, Close, 0)
				}
			case Free:
				follows(r.Casting, 0, Pour, j.Cure)
			case Roll:
				follows(r.Casting, r.Cell, Free, 0)
			}
		}
	}
}

// best is the earliest finish of all orders in which the tasks can be given to gangs, by
// trying every one.
func best(j Job) float64 {
	tasks := j.tasks()
	rows := make([]*Row, len(tasks))
	gangs := [2][]float64{make([]float64, j.FormGangs), make([]float64, j.PourGangs)}
	least := math.Inf(1)
	var try func(left int, finish float64)
	try = func(left int, finish float64) {
		if finish >= least {
			return
		}
		if left == 0 {
			least = finish
			return
		}
		for i, t := range tasks {
			if rows[i] != nil {
				continue
			}
			at, _, known := t.ready(rows, j.Cure)
			if !known {
				continue
			}
			g := gangs[group(t)]
			k := soonest(g)
			free := g[k]
			_, to, _ := t.span(j.Calendar, math.Max(at, free))
			rows[i], g[k] = &Row{To: to}, to
			try(left-1, math.Max(finish, to))
			rows[i], g[k] = nil, free
		}
	}
	try(len(tasks), 0)
	return least
}

// The plan is no order of doing things among many only: of small jobs it is the best of
// all orders, or within a shift of it.
func TestAPlanIsNearlyTheBestOfAllOrders(t *testing.T) {
	rnd := rand.New(rand.NewSource(5))
	same := 0
	for n := range 60 {
		j := random(rnd)
		p, _ := Make(j)
		least := best(j)
		switch {
		case p.Finish < least-1e-9:
			t.Errorf("case %d finishes at %v, before the best of all orders %v", n, p.Finish, least)
		case len(j.Castings[0].Cells) == 1 && p.Finish > least+1e-9:
			t.Errorf("case %d: one cell finishes at %v, the best is %v", n, p.Finish, least)
		case p.Finish > least+72: // a shift, and a week end
			t.Errorf("case %d finishes at %v, the best is %v: %+v", n, p.Finish, least, j)
		case p.Finish <= least+1e-9:
			same++
		}
	}
	if same < 45 {
		t.Errorf("only %d of 60 plans are the best", same)
	}
}

// In one cell with one gang more of anything that takes time never ends earlier.
func TestLongerWorkNeverEndsEarlier(t *testing.T) {
	base, _ := Make(one(3))
	for name, change := range map[string]func(j *Job){"raise": func(j *Job) { j.Raise += 1.5 }, "close": func(j *Job) { j.Close += 3 }, "pour": func(j *Job) { j.Pour += 2 },
		"cure": func(j *Job) { j.Cure += 7 }, "step": func(j *Job) { j.Steps = []float64{1, 2, 2} }, "roll": func(j *Job) { j.Roll += 4 }, "shorter shift": func(j *Job) { j.Calendar.To = 16 }} {
		j := one(3)
		change(&j)
		if p, ok := Make(j); !ok || p.Finish < base.Finish {
			t.Errorf("%s: %v before %v", name, p.Finish, base.Finish)
		}
	}
}

// Two cells that mirror each other are done alike.
func TestCellsOfAPourAreAlikeWithAGangEach(t *testing.T) {
	j := one(0)
	j.FormGangs, j.Castings = 2, []Casting{{1, []int{1, 2}}, {2, []int{1, 2}}}
	p, _ := Make(j)
	single, _ := Make(one(2))
	if p.Finish != single.Finish {
		t.Errorf("two cells with two gangs finish at %v, one with one at %v", p.Finish, single.Finish)
	}
	if with := With(j); with.FormGang != p.Finish || with.PourGang != p.Finish {
		t.Errorf("a gang that has nothing to do shortens: %+v", with)
	}
	j.FormGangs = 1
	slow, _ := Make(j)
	if with := With(j); slow.Finish <= p.Finish || with.FormGang != p.Finish {
		t.Errorf("one gang finishes at %v, one more at %v", slow.Finish, with.FormGang)
	}
}
