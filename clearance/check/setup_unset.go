package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/result"
	"boxwalk/model/carrier"
)

// allows is the range of a dimension as a sentence ends with it.
func (b *bay) allows(least, most float64) string {
	return fmt.Sprintf("the gear allows %s to %s", b.mm(least), b.mm(most))
}

// unset says what the gear cannot be set to, farthest out of reach first: what
// is needed and what there is. It is empty where every setting is reached.
func (b *bay) unset() string {
	worst, text := 0.0, ""
	for _, f := range b.Carrier.Findings {
		if out := outOfReach(f); out > worst {
			worst, text = out, fmt.Sprintf("%s of %s is needed and %s", f.Subject, b.mm(f.Value), b.allows(f.Min, f.Max))
			if math.IsInf(out, 1) {
				text = f.Text.Say(b.mm)
			}
		}
	}
	for k, a := range b.Carrier.Adjusters {
		least, most := a.Raised, a.Raised
		for _, s := range b.Steps {
			least, most = math.Min(least, s.Moves[k].Least), math.Max(most, s.Moves[k].Most)
		}
		if out := math.Max(float64(a.Range.Min)-least, most-float64(a.Range.Max)); out > math.Max(worst, rangeSlack) {
			worst, text = out, fmt.Sprintf("%s would have to go from %s to %s and %s", a.Label(), b.mm(least), b.mm(most), b.allows(float64(a.Range.Min), float64(a.Range.Max)))
		}
	}
	return text
}

// outOfReach is by how much a finding lies outside what the gear can do.
func outOfReach(f carrier.Finding) float64 {
	if f.Reached() {
		return 0
	}
	return math.Max(f.Off, -f.Margin())
}

// sayUnset puts in place of a number that nobody can know what keeps it from
// being worked out: the setting that the gear does not reach.
func (b *bay) sayUnset(checks []Judged) {
	why := b.unset()
	if why == "" {
		return
	}
	for i, c := range checks {
		if c.Verdict == result.Open && c.Value != nil && unbounded(*c.Value, c.Sense) {
			checks[i].Text = "not worked out, since the gear cannot be set so: " + why
		}
	}
}

// unbounded tells whether a value has no known end on the side that its limit
// is held against.
func unbounded(v result.Bracket, s result.Sense) bool {
	if s == result.Max {
		return math.IsInf(v.Upper, 1)
	}
	return math.IsInf(v.Lower, -1)
}
