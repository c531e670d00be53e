package check

import (
	"slices"

	"boxwalk/clearance/result"
)

// duties are all that a release rests on, so that what a verdict leaves out can be
// said wherever the verdict is. Every check belongs to one of them.
var duties = []result.Duty{
	{What: "reach and setting of the carrier", Checks: []string{"setup.faces", "setup.range", "setup.rest", "setup.length"}},
	{What: "collapse clear of concrete, of itself and of what stays", Checks: []string{"strip.dig", "strip.drag", "strip.self", "strip.clear", "strip.supports", "strip.level"}},
	{What: "raising", Checks: []string{"raise.lift", "raise.clear"}},
	{What: "clearance and support on the way", Checks: []string{"roll.clear", "roll.track", "roll.support", "roll.bend"}},
	{What: "pull and restraint", Checks: []string{"roll.pull", "roll.hold"}},
	{What: "tipping on the wheels", Checks: []string{"roll.tip"}},
	{What: "wheels and jacks under the carrier's own weight", Checks: []string{"setup.jacks", "roll.wheel"}},
	{What: "bearing of the wheels on the invert", Checks: []string{"roll.bearing"}},
	{What: "strength of walls and roof at release"},
	{What: "pressure of the pour on panels and walers"},
	{What: "ties and braces under the pour"},
	{What: "uneven filling, sliding and uplift"},
	{What: "roof load on headers, arms, legs and jacks"},
	{What: "hangers or shores that keep the roof"},
	{What: "wind, and stability before the wheels carry"},
	{What: "force to break the bond"},
	{What: "jack plates and lifting jacks on the invert"},
	{What: "anchors of pulling line and restraint, and jerks in them"},
	{What: "safety in stated capacities, which are held to the full"},
	{What: "lifting by crane"},
	{What: "steel, pins and welds of the carrier"},
	{What: "punching and bending of the slabs"},
}

// notChecked are the duties that a result leaves to others: those without a check,
// and those of which a check was not asked for.
func notChecked(only []string) []result.Duty {
	var out []result.Duty
	for _, d := range duties {
		missed := func(id string) bool { return len(only) > 0 && !Matches(id, only) }
		if len(d.Checks) == 0 || slices.ContainsFunc(d.Checks, missed) {
			out = append(out, result.Duty{What: d.What, Checks: append([]string{}, d.Checks...)})
		}
	}
	return out
}
