package fix

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"boxwalk/clearance/result"
	"boxwalk/model"
)

// Fix is one change to one dimension that makes a job pass, or one check of it.
type Fix struct {
	Check     string      // the check that it fixes by itself; empty for the whole job
	Breaks    []string    // ids of which something passes no longer with it; none where it fixes the whole job
	Whole     bool        // the whole job passes with it
	Dimension string      // in words: "the leg tubes", "low brace in step \"wall bottoms in\""
	Ease      result.Ease // who can make the change
	File      string      // job or gear
	Key       string      // key in that file
	From, To  float64     // SI
	Step      float64     // what it was searched to: its increment, or what nobody sets finer
	Stepless  bool        // one Step less no longer passes, and nothing lies between
	dimension dimension
}

// Text is the fix as one sentence in the job's units. The value to change to
// is written as it was tried, to nine digits.
func (c Fix) Text() string {
	d, also := c.dimension, ""
	if d.also != nil {
		also = d.also(d, c.To)
	}
	if d.bring != "" {
		instead := ""
		if c.From != 0 {
			instead = " instead of " + d.exact(c.From)
		}
		return fmt.Sprintf(d.bring, d.exact(c.To)) + instead + also + fmt.Sprintf(" (%s in the %s file%s)", c.Key, c.File, d.stated())
	}
	if c.From == 0 && d.words == "" {
		return fmt.Sprintf("add %s of %s (%s in the %s file)", c.Dimension, d.exact(c.To), c.Key, c.File)
	}
	return fmt.Sprintf("change %s from %s to %s%s (%s in the %s file)", c.Dimension, d.counted(c.From, d.near), d.say(c.To), also, c.Key, c.File)
}

// Row is the fix as a result has it.
func (c Fix) Row() result.FixRow {
	return result.FixRow{Text: c.Text(), Dimension: c.Dimension, Ease: c.Ease, File: c.File, Key: c.Key, CountedFrom: c.dimension.words, Check: c.Check, Breaks: append([]string{}, c.Breaks...), Passes: c.Whole, From: c.From, To: c.To, Unit: c.dimension.unit()}
}

// Size is the change relative to the dimension: 0.1 is a tenth of it. What is
// not there yet changes by the whole of it, 1.
func (c Fix) Size() float64 { return c.dimension.size(c.To) }

// FindFixes lists single changes that make a job pass which does not: first
// those that the crew can make on site with the gear as it is, then those that
// the yard makes, then those of what is cast; among these the smallest relative
// to its dimension first. It keeps the first most of those found, at most one
// for each dimension. Each was found by checking the whole job again with the
// change made; a job that passes, or that no single change within reach fixes,
// has none. What is stepless passes one step farther, too. The result has to be
// of all checks. Progress, which may be nil, is called as dimensions are done.
func FindFixes(s *model.Study, r *result.Result, most int, progress func(done, of int)) []Fix {
	if r.Verdict == result.Pass || most < 1 {
		return nil
	}
	var out []Fix
	t := newTrials(s, r)
	now := t.shortfallOf(s)
	list := t.worthwhile(dimensions(s), r, now)
	for i, d := range list {
		if progress != nil {
			progress(i, len(list))
		}
		within := math.Inf(1)
		if len(out) == most {
			worst := out[most-1]
			if worst.Ease < d.ease {
				break // the dimensions come in that order
			}
			within = worst.Size()
		}
		c, ok := t.fix(d, now, within)
		if !ok {
			continue
		}
		c.Whole = true
		out = append(out, c)
		slices.SortStableFunc(out, easiest)
		out = out[:min(len(out), most)]
	}
	return out
}

// easiest compares by ease, then by size.
func easiest(a, b Fix) int {
	return cmp.Or(cmp.Compare(a.Ease, b.Ease), cmp.Compare(a.Size(), b.Size()))
}

// worthwhile are the dimensions that can have a part in what is missing.
func (t *trials) worthwhile(list []dimension, r *result.Result, now shortfall) []dimension {
	short := map[string]bool{}
	for _, c := range r.Checks {
		if c.Verdict != result.Pass {
			short[c.ID] = true
		}
	}
	capacity := among(short, "roll.pull", "roll.hold", "roll.bearing", "roll.wheel", "setup.jacks")
	var out []dimension
	for _, d := range list {
		switch {
		case len(d.mends) == 0 && capacity:
			// a capacity is short of what the whole carrier weighs: no reading
			// changes that, and steel is not cut to save weight
		case len(d.mends) > 0 && !among(short, d.mends...):
		case d.reach && now.stage > readingsFall:
		case now.stage == stepsFall && t.tooLate(d):
		default:
			out = append(out, d)
		}
	}
	return out
}

// among tells whether there is nothing in a set but these.
func among(set map[string]bool, ids ...string) bool {
	for id := range set {
		if !slices.Contains(ids, id) {
			return false
		}
	}
	return true
}
