package fix

import (
	"cmp"
	"math"
	"slices"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
	"boxwalk/model"
)

// canMend tells whether a dimension can have a part in a check.
func canMend(d dimension, id string) bool {
	if len(d.mends) > 0 {
		return slices.Contains(d.mends, id)
	}
	if d.reach && id != "setup.range" && id != "setup.length" {
		return false
	}
	c, _ := check.ByID(id)
	return c.Mended == nil || slices.Contains(c.Mended, d.means)
}

// byItself is the same search for one check alone.
func (t *trials) byItself(r *result.Result, id string) *trials {
	var own result.Result
	for _, c := range r.Checks {
		if c.ID == id {
			own.Checks = append(own.Checks, c)
		}
	}
	out := newTrials(t.study, &own)
	out.goal, out.steps, out.known = id, t.steps, t.known
	return out
}

// AllFixes lists the fixes of the whole job, as FindFixes does, and behind them,
// for each check that does not pass, in the order of the checks, the least single
// changes with which that check passes; up to most for the job and for each. With
// each stands what else then passes no longer; those that break least stand
// first, then as in FindFixes. Checks whose numbers come from a setting that the
// gear does not have are left out: setup.range is to be mended first. Progress,
// which may be nil, is called as dimensions are done.
func AllFixes(s *model.Study, r *result.Result, most int, progress func(done, of int)) []Fix {
	if r.Verdict == result.Pass || most < 1 {
		return nil
	}
	var list []search
	t, all := newTrials(s, r), dimensions(s)
	total, ids := 0, fallen(r)
	for _, id := range ids {
		own := t.byItself(r, id)
		if own.asksSetting() && id != "setup.range" && t.misset(s) {
			continue
		}
		here := func() (*model.Study, bool) { return s, true }
		list = append(list, search{own, own.goalShortfall("", here), own.mending(all)})
		total += len(list[len(list)-1].list)
	}
	done := 0
	var each [][]Fix
	for _, one := range list {
		each = append(each, one.all(r, func() {
			if progress != nil {
				progress(done, total)
			}
			done++
		}))
	}
	var out []Fix
	if len(list) < len(ids) {
		out = FindFixes(s, r, most, nil)
	} else {
		out = t.ofAll(each, most)
	}
	for _, fixes := range each {
		out = append(out, fixes[:min(len(fixes), most)]...)
	}
	return out
}

// misset tells whether the gear has no setting for one of the cells.
func (t *trials) misset(s *model.Study) bool {
	for _, b := range s.Bays {
		if dimensions, _ := b.Carrier.Short(); dimensions > 0 {
			return true
		}
	}
	return false
}

// ofAll are the fixes of the whole job: a change that is one has to be one of
// each check by itself.
func (t *trials) ofAll(each [][]Fix, most int) []Fix {
	now := t.shortfallOf(t.study)
	var out []Fix
	for _, c := range each[0] {
		for _, others := range each[1:] {
			if !slices.ContainsFunc(others, func(o Fix) bool { return o.Key == c.Key && o.Dimension == c.Dimension }) {
				c.dimension.set = nil
			}
		}
		switch ok := c.Whole; {
		case c.dimension.set == nil:
		case ok:
			c.Check = ""
			out = append(out, c)
		default:
			if c, ok = t.fix(c.dimension, now, math.Inf(1)); ok {
				c.Whole = true
				out = append(out, c)
			}
		}
	}
	slices.SortStableFunc(out, easiest)
	return out[:min(len(out), most)]
}

// search is one check to be mended and what may mend it.
type search struct {
	*trials
	now  shortfall
	list []dimension
}

// mending are the dimensions that can have a part in the check looked at.
func (t *trials) mending(list []dimension) []dimension {
	var out []dimension
	for _, d := range list {
		if canMend(d, t.goal) && !(check.PartOf(t.goal) == check.Strips && t.tooLate(d)) {
			out = append(out, d)
		}
	}
	return out
}

// all are the fixes of a check, the first to be told first.
func (s search) all(r *result.Result, tick func()) []Fix {
	var out []Fix
	for _, d := range s.list {
		tick()
		c, ok := s.fix(d, s.now, math.Inf(1))
		if !ok {
			continue
		}
		if c, ok = s.proved(c, r); ok {
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(a, b Fix) int {
		return cmp.Or(cmp.Compare(len(a.Breaks), len(b.Breaks)), easiest(a, b))
	})
	return out
}

// proved checks the whole job with a fix of one check: whether that check
// passes, and what passes no longer.
func (s search) proved(c Fix, r *result.Result) (Fix, bool) {
	study, ok := s.built(c.dimension, c.To)
	if !ok {
		return c, false
	}
	after := check.Run(study, check.Options{Brief: true})
	c.Check, c.Breaks = s.goal, worsened(r, after)
	c.Whole = after.Verdict == result.Pass
	return c, !slices.Contains(fallen(after), s.goal)
}

// fallen are the ids that have anything but passes, in the order of the checks.
func fallen(r *result.Result) []string {
	var out []string
	for _, c := range r.Checks {
		if c.Verdict != result.Pass && !slices.Contains(out, c.ID) {
			out = append(out, c.ID)
		}
	}
	return out
}

// which tells entries apart.
type which struct {
	id    string
	about result.Subject
}

// worsened are the ids of entries that passed, or were not there, and do not pass
// now.
func worsened(before, after *result.Result) []string {
	fell := map[which]bool{}
	for _, c := range before.Checks {
		if c.Verdict != result.Pass {
			fell[which{c.ID, c.Subject}] = true
		}
	}
	var out []string
	for _, c := range after.Checks {
		if c.Verdict != result.Pass && !fell[which{c.ID, c.Subject}] && !slices.Contains(out, c.ID) {
			out = append(out, c.ID)
		}
	}
	return out
}
