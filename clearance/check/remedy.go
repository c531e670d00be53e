package check

import (
	"fmt"
	"math"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/model/carrier"
)

// advice is what usually mends an entry that does not pass, as the trade thinks
// of it first: no solution worked out for the job. It never is to ask for less:
// limits and tolerances are no fix.
type advice func(b *bay, e Judged) string

// remedies by check. What depends on the place is told where it is measured, in
// the candidate; these are for all the rest.
var remedies = map[string]advice{
	"setup.faces":    (*bay).facesRemedy,
	"setup.range":    (*bay).rangeRemedy,
	"setup.rest":     (*bay).restRemedy,
	"setup.jacks":    capacityRemedy("stronger jacks, or more bents"),
	"setup.length":   (*bay).lengthRemedy,
	"strip.dig":      (*bay).digRemedy,
	"strip.drag":     always("let the face leave square to itself first: ease down or draw in a little, in a step before the one that moves along it (`sequence:` in the job, `steps:` in the gear)"),
	"strip.self":     (*bay).selfRemedy,
	"strip.clear":    (*bay).clearRemedy,
	"strip.supports": (*bay).supportsRemedy,
	"strip.level":    always("draw the walls in farther before this step lowers anything, so that the frame may lean more; or lower less in it, and the rest once the walls are in"),
	"raise.lift":     (*bay).liftRemedy,
	"raise.clear":    (*bay).raiseRemedy,
	"roll.clear":     (*bay).passRemedy,
	"roll.track":     (*bay).trackRemedy,
	"roll.support":   always("lay a longer apron (`ends:`) before the carrier rolls"),
	"roll.bend":      (*bay).bendRemedy,
	"roll.pull":      always("bring a puller that can do it, or more parts of line (travel.capacity: what the whole line can pull, as its maker states it)"),
	"roll.hold":      always("bring a restraint, brake or rope, that holds as much, set before the plates leave the invert (travel.restraint.capacity: as its maker states it)"),
	"roll.tip":       always("a wider gauge (`set: {gauge: ...}`), wheel lines farther apart (wheels.at), or travel lower"),
	"roll.wheel":     capacityRemedy("stronger wheels, or more lines of them (wheels.at)"),
	"roll.bearing":   (*bay).bearingRemedy,
}

func always(text string) advice { return func(*bay, Judged) string { return text } }

// sayRemedies gives each entry that does not pass its remedy, where the place it
// was measured at has told none.
func (b *bay) sayRemedies(checks []Judged) {
	for i, c := range checks {
		if c.Verdict != result.Pass && c.Remedy == "" {
			checks[i].Remedy = b.remedy(c)
		}
	}
}

// remedy of an entry that does not pass. What follows from a setting that cannot
// be made, or from a step that cannot, is no thing to mend by itself.
func (b *bay) remedy(e Judged) string {
	own := remedies[e.ID]
	switch {
	case own == nil:
		return ""
	case e.ID == "setup.range" || e.ID == "setup.length":
		return own(b, e)
	case b.stuck() && (e.Verdict == result.Open || e.ID == "setup.rest"):
		return "mend first what setup.range says: a step cannot be made, and without it this is not known"
	case b.misset() && Follows(e.ID):
		return "mend first what setup.range says: the gear cannot be set to this section, and this number comes from a setting that cannot be made"
	case e.Verdict == result.Open && !b.RollsAway() && (strings.HasPrefix(e.ID, "roll.") || strings.HasPrefix(e.ID, "raise.") || e.ID == "setup.rest"):
		return "let the last step end on the wheels, plates drawn up, such as drivers: {jack: wheels - 60 mm}"
	}
	if e.Verdict == result.Open && e.Value == nil && strings.Contains(e.Text, "centre of gravity") {
		return "let the centre of gravity lie well between the outer places that carry: wheel lines (wheels.at), bents (form.first, form.spacing) or pads (lifting.pads) that suit the form's length"
	}
	return own(b, e)
}

// Follows tells whether the numbers of a check come from how the gear is set.
func Follows(id string) bool {
	return strings.HasPrefix(id, "strip.") || id == "setup.faces" || id == "setup.rest" || id == "raise.clear" || id == "roll.clear"
}

// stuck tells whether a step cannot be made.
func (b *bay) stuck() bool {
	for _, s := range b.Steps {
		if s.Stop != nil {
			return true
		}
	}
	return false
}

// misset tells whether the gear has no setting for the section.
func (b *bay) misset() bool {
	dimensions, _ := b.Carrier.Short()
	return dimensions > 0
}

// marked is the part with a piece mark; nil if it is none of the carrier's.
func (b *bay) marked(mark string) *carrier.Part {
	for i, p := range b.Carrier.Parts {
		if p.Mark == mark && mark != "" {
			return &b.Carrier.Parts[i]
		}
	}
	return nil
}

// atLeast is a length that is to be made up, rounded so that it is enough: to the
// millimetre, or a hundredth of an inch.
func (b *bay) atLeast(v float64) string {
	unit := 1e-3
	if b.imperial {
		unit = 0.254e-3
	}
	return b.mm(math.Ceil(v/unit-1e-6) * unit)
}

// longerApron asks for a slab beyond an end that is more than so much longer, to
// the centimetre or inch that slabs are set out to.
func (b *bay) longerApron(end string, by float64) string {
	unit := 0.010
	if b.imperial {
		unit = 0.0254
	}
	return fmt.Sprintf("lay a longer apron beyond the %s, by %s (ends.%s.apron)", end, b.mm((math.Floor(by/unit+1e-6)+1)*unit), end)
}
