package table

import (
	"slices"

	"boxwalk/clearance"
)

// makers are who makes a change, in words.
var makers = map[clearance.Ease]string{
	clearance.OnSite:  "on site",
	clearance.InYard:  "in the yard",
	clearance.InWorks: "in what is cast",
}

// cures are the single changes with which the job passes, where they were asked
// for and it does not.
func (t *terminal) cures() {
	r := t.result
	if r.Cures == nil || r.Verdict == clearance.Pass {
		return
	}
	t.print("\n" + t.paint.in(bold, "Cures") + "\n")
	if len(r.Cures) == 0 {
		t.print(hung("  ", "No single change within reach makes it pass. The search tries one dimension at a time: readings of the steps, leg holes and gauge, line, hold-back and age of the invert, panels, steel members, aprons. It tries no two changes together, no other order of steps, no other limits.", t.width))
		return
	}
	text := "Any one of these changes makes the whole job pass, checked again with the change made."
	if len(r.Cures) == 1 {
		text = "This one change makes the whole job pass, checked again with the change made."
	}
	t.print(hung("  ", text, t.width))
	for _, c := range r.Cures {
		t.print(hung("  - ", makers[c.Ease]+": "+c.Text, t.width))
	}
	if slices.ContainsFunc(r.Cures, func(c clearance.CureRow) bool { return c.File == "gear" }) {
		t.print(hung("  ", "A change in the gear file is one for every job that uses it.", t.width))
	}
	t.print(hung("  ", "A cure is a change in the files, found by a search over single dimensions, with next to no margin beyond the limits. Whether it can be built and is sound is for the engineer to judge.", t.width))
}
