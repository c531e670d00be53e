package clearance

import "slices"

// Duty is one thing that has to hold before and while a carrier is released, and
// the checks that hold it. No checks: this version has none, and somebody else
// answers for it.
type Duty struct {
	What   string   `json:"what"`
	Checks []string `json:"checks"`
}

// duties are all that a release rests on, so that what a verdict leaves out can be
// said wherever the verdict is. Every check belongs to one of them.
var duties = []Duty{
	{"reach and setting of the carrier", []string{"setup.faces", "setup.range", "setup.rest", "setup.length"}},
	{"collapse clear of concrete, of itself and of what stays", []string{"strip.dig", "strip.drag", "strip.self", "strip.clear", "strip.supports", "strip.level"}},
	{"raising", []string{"raise.lift", "raise.clear"}},
	{"clearance and support on the way", []string{"roll.clear", "roll.track", "roll.support", "roll.bend"}},
	{"pull and restraint", []string{"roll.pull", "roll.hold"}},
	{"tipping on the wheels", []string{"roll.tip"}},
	{"wheels and jacks under the carrier's own weight", []string{"setup.jacks", "roll.wheel"}},
	{"bearing of the wheels on the invert", []string{"roll.bearing"}},
	{"strength of walls and roof at release", nil},
	{"pressure of the pour on panels and walers", nil},
	{"ties and braces under the pour", nil},
	{"uneven filling, sliding and uplift", nil},
	{"roof load on headers, arms, legs and jacks", nil},
	{"hangers or shores that keep the roof", nil},
	{"wind, and stability before the wheels carry", nil},
	{"force to break the bond", nil},
	{"jack plates and lifting jacks on the invert", nil},
	{"anchors of pulling line and restraint, and jerks in them", nil},
	{"safety in stated capacities, which are held to the full", nil},
	{"lifting by crane", nil},
	{"steel, pins and welds of the carrier", nil},
	{"punching and bending of the slabs", nil},
}

// notChecked are the duties that a result leaves to others: those without a check,
// and those of which a check was not asked for.
func notChecked(only []string) []Duty {
	var out []Duty
	for _, d := range duties {
		missed := func(id string) bool { return len(only) > 0 && !matches(id, only) }
		if len(d.Checks) == 0 || slices.ContainsFunc(d.Checks, missed) {
			out = append(out, Duty{d.What, append([]string{}, d.Checks...)})
		}
	}
	return out
}

// notCheckedNames are what the result does not answer for, in the order of the work.
func (r *Result) notCheckedNames() []string {
	var out []string
	for _, d := range r.NotChecked {
		out = append(out, d.What)
	}
	return out
}
