package check

import (
	"slices"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/carrier"
)

// Check is one thing that is held: what it means, what it is held against, how it is
// judged, what mends it and what proves it. Whatever lists or explains checks reads the
// table of them.
type Check struct {
	ID      string
	Duty    string // of a release that it answers for
	Holds   string // what holds where it passes
	Formula string
	Limit   string
	Source  string
	Limits  []Limit // with their defaults; none where files or formulas set the limit

	Part    Part    // of the measuring that its numbers come from
	Follows bool    // its numbers come from how the gear is set
	Mended  []Means // what kinds of change can have a part in mending it; nil for any
	Proved  bool    // a proof shows its numbers; the others are worked by hand formulas

	remedy advice
	step   func(b *bay, s carrier.Step, r measure.StepGaps) []Judged // in one step of the collapse
	some   bool                                                      // only some steps have it, and what cannot be made is none
	judge  func(c *Check, r *Examined, s *model.Study) []Judged      // at a bay; stepwise where step tells
	placed bool                                                      // it hangs on where along the line the bay lies
	whole  func(s *model.Study, b *bay) []Judged                     // of the job as a whole, once, in place of judge
}

// Means is a kind of change, by what it changes.
type Means int

// The kinds of change.
const (
	Reading Means = iota // of an adjuster in a step
	Setting              // the leg's hole, the gauge
	Stated               // a line, a jack, an age: what is brought or waited for
	Panels
	Steel
	Apron
)

// table is made as the program starts, since what judges a check also looks up limits
// in it.
var table []Check

func init() {
	table = slices.Concat(setupGroup, pourGroup, roofGroup, stripGroup, raiseGroup, rollGroup, timeGroup, standGroup, liftGroup)
}

// Table is all checks in the order that lists have them; nobody writes to it.
func Table() []Check { return table }

// ByID finds a check.
func ByID(id string) (Check, bool) {
	c := lookUp(id)
	if c == nil {
		return Check{}, false
	}
	return *c, true
}

// lookUp finds a check; nil where there is none of that id.
func lookUp(id string) *Check {
	for i := range table {
		if table[i].ID == id {
			return &table[i]
		}
	}
	return nil
}

// IDs in the order of the table.
func IDs() []string {
	var out []string
	for _, c := range table {
		out = append(out, c.ID)
	}
	return out
}

// at judges the check at a bay.
func (c *Check) at(r *Examined, s *model.Study) []Judged {
	switch {
	case c.whole != nil:
		return c.whole(s, r.bay)
	case c.step != nil:
		return c.steps(r)
	}
	return c.judge(c, r, s)
}

// steps judges the check in every step of the collapse.
func (c *Check) steps(r *Examined) []Judged {
	var out []Judged
	for k, s := range r.bay.Steps {
		switch {
		case s.Stop == nil:
			out = append(out, c.step(r.bay, s, r.Found.Strip[k])...)
		case !c.some:
			out = append(out, open(c.ID, r.bay.About().In(s.Name), "m", "the step cannot be made: "+s.Stop.Say(r.bay.mm), r.bay.at(s.Name)))
		}
	}
	return out
}

// each is a step's check that is one entry.
func each(f func(b *bay, s carrier.Step, r measure.StepGaps) Judged) func(b *bay, s carrier.Step, r measure.StepGaps) []Judged {
	return func(b *bay, s carrier.Step, r measure.StepGaps) []Judged { return []Judged{f(b, s, r)} }
}

// onTheWay judges a check by hand formulas of the way to the next pour; of what they
// give, the entries of that check are taken.
func onTheWay(f func(r *route, s *model.Study) []Judged) func(c *Check, r *Examined, s *model.Study) []Judged {
	return func(c *Check, r *Examined, s *model.Study) []Judged {
		if !r.bay.RollsAway() {
			return []Judged{open(c.ID, r.bay.subject("advance"), "m", "the collapse does not end on the wheels, so the carrier cannot roll", r.bay.underway())}
		}
		return slices.DeleteFunc(f(r.way(s), s), func(e Judged) bool { return e.ID != c.ID })
	}
}

// standing judges a check from the bay alone.
func standing(f func(b *bay, s *model.Study) []Judged) func(c *Check, r *Examined, s *model.Study) []Judged {
	return func(_ *Check, r *Examined, s *model.Study) []Judged { return f(r.bay, s) }
}

// found judges a check from what was measured.
func found(f func(r *Examined) []Judged) func(c *Check, r *Examined, s *model.Study) []Judged {
	return func(_ *Check, r *Examined, _ *model.Study) []Judged { return f(r) }
}

// judgeAll judges the checks that hang on where the bay lies, or those that do not, as
// far as they are wanted.
func (r *Examined) judgeAll(s *model.Study, placed bool, wanted func(c *Check) bool) []Judged {
	var out []Judged
	for i := range table {
		if c := &table[i]; c.whole == nil && c.placed == placed && wanted(c) {
			for _, e := range c.at(r, s) {
				if e.covered(s.Job.CoveredBy) {
					r.leftOut = append(r.leftOut, c.ID)
				} else {
					out = append(out, e)
				}
			}
		}
	}
	return out
}

// worstFirst is how verdicts stand in lists.
var worstFirst = map[result.Verdict]int{result.Fail: 0, result.Open: 1, result.Pass: 2}
