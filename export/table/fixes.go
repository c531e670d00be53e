package table

import (
	"slices"
	"strings"

	"boxwalk/clearance/result"
)

// makers are who makes a change, in words.
var makers = map[result.Ease]string{
	result.OnSite:  "on site",
	result.InYard:  "in the yard",
	result.InWorks: "in what is cast",
}

// fixes are the single changes with which the job passes, where they were asked
// for and it does not, and those with which one check does.
func (t *terminal) fixes() {
	r := t.result
	if r.Fixes == nil || r.Verdict == result.Pass {
		return
	}
	t.print("\n" + t.paint.in(bold, "Fixes") + "\n")
	whole, each := t.split()
	t.fixesOfAll(whole)
	if len(each) > 0 {
		t.print(hung("  ", "These make one check pass, by itself:", t.width))
	}
	for _, c := range each {
		t.print(hung("  - ", c.Check+", "+makers[c.Ease]+": "+c.Text+"; "+t.aftermath(c), t.width))
	}
	if len(r.Fixes) == 0 {
		return
	}
	if slices.ContainsFunc(r.Fixes, func(c result.FixRow) bool { return c.File == "gear" }) {
		t.print(hung("  ", "A change in the gear file is one for every job that uses it.", t.width))
	}
	t.print(hung("  ", "A fix is a change in the files, found by a search over single dimensions, with next to no margin beyond the limits. Whether it can be built and is sound is for the engineer to judge.", t.width))
}

// split tells the fixes of the whole job from those of one check; of these it
// leaves out what stands among the first.
func (t *terminal) split() (whole, each []result.FixRow) {
	for _, c := range t.result.Fixes {
		same := func(w result.FixRow) bool { return w.Text == c.Text }
		switch {
		case c.Check == "":
			whole = append(whole, c)
		case !slices.ContainsFunc(whole, same):
			each = append(each, c)
		}
	}
	return whole, each
}

// aftermath is what the rest does with a fix of one check.
func (t *terminal) aftermath(c result.FixRow) string {
	switch {
	case c.Passes:
		return "with it the whole job passes"
	case len(c.Breaks) == 0:
		return "the rest stays as it was, or gains"
	}
	var passed, failed []string
	for _, id := range c.Breaks {
		if t.fails(id) {
			failed = append(failed, id)
		} else {
			passed = append(passed, id)
		}
	}
	var out []string
	if len(passed) > 0 {
		out = append(out, enumerated(passed, "passes no longer", "pass no longer"))
	}
	if len(failed) > 0 {
		out = append(out, enumerated(failed, "fails", "fail")+" at more places than now")
	}
	return "but then " + strings.Join(out, ", and ")
}

// fails tells whether anything of a check does not pass before a change.
func (t *terminal) fails(id string) bool {
	return slices.ContainsFunc(t.result.Checks, func(e result.Entry) bool { return e.ID == id && e.Verdict != result.Pass })
}

// enumerated names things one after the other with the word for one or for several.
func enumerated(list []string, one, several string) string {
	n := len(list)
	if n == 1 {
		return list[0] + " " + one
	}
	return strings.Join(list[:n-1], ", ") + " and " + list[n-1] + " " + several
}

// fixesOfAll are the fixes of the whole job.
func (t *terminal) fixesOfAll(list []result.FixRow) {
	if len(list) == 0 {
		t.print(hung("  ", "No single change within reach makes the whole job pass. The search tries one dimension at a time: readings of the steps, leg holes and gauge, pulling line, restraint and age of the invert, panels, steel members, what wheels and jacks carry, aprons. It tries no two changes together, no other order of steps, no other limits.", t.width))
		return
	}
	text := "Any one of these changes makes the whole job pass, checked again with the change made."
	if len(list) == 1 {
		text = "This one change makes the whole job pass, checked again with the change made."
	}
	t.print(hung("  ", text, t.width))
	for _, c := range list {
		t.print(hung("  - ", makers[c.Ease]+": "+c.Text, t.width))
	}
}
