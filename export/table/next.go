package table

import (
	"slices"

	"boxwalk/clearance"
)

// remedies say, check by check, what usually mends it. They are the trade's
// first thoughts, not a solution worked out for the job.
var remedies = map[string]string{
	"setup.faces":    "compare the section with the gear's panel widths, corner panel and fillers; `set: {foot: ..., closure: ...}` moves them",
	"setup.range":    "the reading and what the gear allows stand above; change the section, the `set:` group, or take gear with the range",
	"setup.rest":     "choose another leg hole (`set: {leg: ...}`) or end the last step with the plates farther up",
	"setup.length":   "shorten the pour or take a longer form; skew adds width x tan(skew) to the longest side",
	"strip.dig":      "change the order or the size of the steps in `sequence:` so that the part moves off its face first",
	"strip.drag":     "let the face leave square to itself first: crack down or draw in a little before moving along it",
	"strip.self":     "change the order, or stop the step before the two parts meet",
	"strip.clear":    "draw the part in farther in the step named, or lower farther before the next one",
	"strip.supports": "move the hanger lines, shorten the rod's tail, or part the halves farther before lowering",
	"strip.level":    "draw the walls in farther before lowering, or keep the jacks of the two sides closer and say so in `tolerance: {jack_level: ...}`",
	"raise.lift":     "state pads and jacks (`lifting:` in the gear file); stronger jacks, a longer stroke, or smaller passes",
	"raise.clear":    "raising takes the collapse back; change the collapse step named",
	"roll.track":     "another wheel gauge (`set: {gauge: ...}`), or steer closer and say so in `travel: {wander: ...}`",
	"roll.support":   "cast the next invert, or lay an apron (`ends:`), before the carrier rolls",
	"roll.bend":      "steer the carrier round the angle point, collapse farther, split the turn over two joints, or end the form at the joint",
	"roll.pull":      "a stronger line, more parts of it, or a lower breakaway that has been measured",
	"roll.hold":      "state a hold-back that holds the carrier on the grade (`travel: {hold_back: {capacity: ...}}`)",
	"roll.tip":       "a wider gauge, or travel lower",
	"roll.bearing":   "let the invert grow older, spread the wheel load, or use more wheels",
	"roll.clear":     "collapse farther; check tolerances that the crew can really hold; see what stays in place ahead",
}

// next is what to do about what does not pass.
func (t *terminal) next() {
	ids := t.troubled()
	if len(ids) == 0 {
		return
	}
	t.print("\n" + t.paint.in(bold, "Next") + "\n")
	for _, id := range ids {
		advice := remedies[id]
		if advice != "" {
			advice += "; "
		}
		t.print(hung("  - ", id+": "+advice+"`boxwalk explain "+id+"` gives formula and limit", t.width))
	}
	if t.open() {
		t.print(hung("  - ", "An open check is not a pass: it could not be decided. Mend what stops it and check again.", t.width))
	}
	if t.result.Cures == nil && t.result.Scope == nil {
		t.print(hung("  - ", "`boxwalk check JOB --cures` looks for one change of one dimension with which the whole job passes.", t.width))
	}
}

// troubled lists the ids that have anything but passes.
func (t *terminal) troubled() []string {
	var out []string
	for _, e := range t.result.Checks {
		if e.Verdict != clearance.Pass && !slices.Contains(out, e.ID) {
			out = append(out, e.ID)
		}
	}
	return out
}

func (t *terminal) open() bool {
	return slices.ContainsFunc(t.result.Checks, func(e clearance.Entry) bool { return e.Verdict == clearance.Open })
}
