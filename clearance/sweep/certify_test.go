package sweep

import (
	"cmp"
	"math"
	"slices"
)

// job is a scene ready for searches: the parts in trees of boxes, and for each step
// which sets can meet. It is asked in the way of clearance/measure: whoever contends is
// searched, and the contest is the one that a check of a job runs.
type job struct {
	steps   []step
	count   int // of parts
	contest Contest
	part    []Part // those that one part contends with
}

// step is one motion, and the sets that move against each other in it.
type step struct {
	name     string
	m        Motion
	meet     []meeting
	table    []meeting              // what everyPart looks at, if not meet: both orders where both parts count
	exempt   func(a, b int) bool    // pairs that may touch throughout; nil for none
	mates    [][]bool               // by part: those with which it is in contact when the step begins; nil for none
	touching int                    // pairs in contact
	starting bool                   // its start is searched for contacts
	skips    [2]func(a, b int) bool // what is not asked for: of the free pairs, and of those in contact
}

// ready makes its two ways to leave pairs out.
func (st *step) ready() { st.skips = [2]func(a, b int) bool{st.free, st.contact} }

type meeting struct {
	ref           int
	parts, others []*Tree
	mates         []Pair // in contact when the step begins
}

func (st *step) mated(a, b int) bool { return st.mates[a] != nil && st.mates[a][b] }

// free leaves out what may touch and what is in contact.
func (st *step) free(a, b int) bool { return st.exempt != nil && st.exempt(a, b) || st.mated(a, b) }

// contact leaves out all others.
func (st *step) contact(a, b int) bool { return !st.mated(a, b) }

// least brackets the least gap of all pairs of a step that are not in contact.
func (j *job) least(st *step, o Options) Bracket {
	found := begin()
	for i := range st.meet {
		x := &st.meet[i]
		j.contest.Set(st.m, x.ref, x.parts, 0, 1)
		found.add(j, st.m, x.ref, j.contest.Against(x.others, Terms{Skip: st.skips[0], Beyond: -o.Epsilon, Best: found.Upper}), o)
	}
	found.Lower = math.Min(found.Lower, found.Upper)
	return found.Bracket
}

// leastContact brackets the least signed distance of the pairs in contact.
func (j *job) leastContact(st *step, o Options) Bracket {
	found := begin()
	if st.touching == 0 {
		return unknown()
	}
	for i := range st.meet {
		if x := &st.meet[i]; len(x.mates) > 0 {
			j.contest.Set(st.m, x.ref, x.parts, 0, 1)
			found.add(j, st.m, x.ref, j.contest.Among(x.mates, Terms{Beyond: -o.Epsilon, Best: found.Upper}), o)
		}
	}
	found.Lower = math.Min(found.Lower, found.Upper)
	return found.Bracket
}

// answer is what was found so far.
type answer struct{ Bracket }

func begin() answer {
	return answer{Bracket{Lower: math.Inf(1), Upper: math.Inf(1), Against: -1}}
}

// add takes in a contest: whoever contends is searched, one by one.
func (a *answer) add(j *job, m Motion, ref int, found Outcome, o Options) {
	a.Upper, a.Lower = found.Best, math.Min(a.Lower, found.Settled)
	for k := range found.List {
		c := &found.List[k]
		if c.Low >= a.Upper-o.Epsilon {
			a.Lower = math.Min(a.Lower, c.Low)
			continue
		}
		o.Cap = math.Max(0, a.Upper-o.Epsilon)
		j.part = append(j.part[:0], c.B)
		b := Least(m, ref, c.A, j.part, 0, 1, o)
		a.Lower, a.Upper = math.Min(a.Lower, b.Lower), math.Min(a.Upper, b.Upper)
	}
}

// everyPart brackets each part of a step against everything it may meet, and
// its contacts; what stays above the cap counts as that.
func (j *job) everyPart(st *step, o Options, take func(part int, b Bracket)) {
	meet := st.table
	if meet == nil {
		meet = st.meet
	}
	for i := range meet {
		j.partsOf(st, &meet[i], st.skips[0], o, take)
	}
	for i := range st.meet {
		if st.touching > 0 {
			j.partsOf(st, &st.meet[i], st.skips[1], o, func(_ int, b Bracket) { take(-1, b) })
		}
	}
}

// partsOf searches each part of a meeting against those that it may come near.
func (j *job) partsOf(st *step, x *meeting, skip func(a, b int) bool, o Options, take func(part int, b Bracket)) {
	j.contest.Set(st.m, x.ref, x.parts, 0, 1)
	list := j.contest.Against(x.others, Terms{Skip: skip, Best: o.Cap, Given: true}).List
	slices.SortFunc(list, func(a, b Contender) int {
		if a.Part != b.Part {
			return a.Part - b.Part
		}
		return a.Other - b.Other
	})
	for from, to := 0, 0; from < len(list); from = to {
		j.part = j.part[:0]
		for to = from; to < len(list) && list[to].Part == list[from].Part; to++ {
			j.part = append(j.part, list[to].B)
		}
		take(list[from].Part, Least(st.m, x.ref, list[from].A, j.part, 0, 1, o))
	}
}

// touching is the distance up to which two parts touch.
const touching = 1e-6

// findContacts fills the mates of each step with the pairs that touch when it begins.
func (j *job) findContacts() {
	for k := range j.steps {
		st := &j.steps[k]
		st.touching = 0
		st.ready()
		for i := range st.mates {
			clear(st.mates[i])
		}
		if !st.starting {
			continue
		}
		for i := range st.meet {
			x := &st.meet[i]
			x.mates = x.mates[:0]
			j.contest.Set(st.m, x.ref, x.parts, 0, 0)
			list := j.contest.Against(x.others, Terms{Skip: st.exempt, Best: touching, Given: true}).List
			for n := range list {
				c := &list[n]
				j.part = append(j.part[:0], c.B)
				if At(st.m, x.ref, c.A, j.part, 0).Upper <= touching {
					if st.mates[c.Part] == nil {
						st.mates[c.Part] = make([]bool, j.count)
					}
					st.mates[c.Part][c.Other] = true
					st.touching++
					x.mates = append(x.mates, c.Pair)
				}
			}
			slices.SortFunc(x.mates, func(a, b Pair) int { // those of one face together
				return cmp.Or(a.Other-b.Other, a.A.Body-b.A.Body, a.Part-b.Part)
			})
		}
	}
}
