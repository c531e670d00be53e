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

// advise is the same advice wherever it fails.
func advise(text string) advice { return func(*bay, Judged) string { return text } }

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
	own := lookUp(e.ID)
	switch {
	case own == nil || own.remedy == nil:
		return ""
	case e.ID == "setup.range" || e.ID == "setup.length":
		return own.remedy(b, e)
	case b.stuck() && (e.Verdict == result.Open || e.ID == "setup.rest"):
		return "first fix what setup.range says: a step cannot be made, and without it this is not known"
	case b.misset() && own.Follows:
		return "first fix what setup.range says: the gear cannot be set to this section, and this number comes from a setting that cannot be made"
	case e.Verdict == result.Open && !b.RollsAway() && (strings.HasPrefix(e.ID, "roll.") || strings.HasPrefix(e.ID, "raise.") || e.ID == "setup.rest"):
		return "let the last step end on the wheels, plates raised, such as drivers: {jack: wheels - 60 mm}"
	}
	if e.Verdict == result.Open && e.Value == nil && strings.Contains(e.Text, "centre of gravity") {
		return "let the centre of gravity lie well between the outer places that carry: wheel lines (wheels.at), bents (form.first, form.spacing) or pads (lifting.pads) that suit the form's length"
	}
	return own.remedy(b, e)
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

// marked is the part at a place, W1L/3; nil if it is none of the carrier's.
func (b *bay) marked(mark string) *carrier.Part {
	for i, p := range b.Carrier.Parts {
		if p.At() == mark && mark != "" {
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
