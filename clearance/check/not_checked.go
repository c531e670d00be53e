package check

import (
	"slices"

	"boxwalk/clearance/result"
)

// duties are all that a release rests on, in the order of the work, so that what a
// verdict leaves out can be said wherever the verdict is. A check names the one that
// it answers for; somebody else answers for those that no check names.
var duties = []string{
	"reach and setting of the carrier",
	"collapse clear of concrete, of itself and of what stays",
	"raising",
	"clearance and support on the way",
	"pull and restraint",
	"tipping on the wheels",
	"wheels and jacks under the carrier's own weight",
	"bearing of the wheels on the invert",
	"strength of walls and roof at release",
	"pressure of the pour on panels and walers",
	"ties and braces under the pour",
	"uneven filling, sliding and uplift",
	"roof load on headers, arms, legs and jacks",
	"hangers or shores that keep the roof",
	"wind, and stability before the wheels carry",
	"force to break the bond",
	"jack plates and lifting jacks on the invert",
	"anchors of pulling line and restraint, and jerks in them",
	"safety in stated capacities, which are held to the full",
	"lifting by crane",
	"steel, pins and welds of the carrier",
	"punching and bending of the slabs",
	"edges of joints under wheels, plates and lifting pads, and the pull to climb out of them",
}

// answeredBy are the checks that answer for a duty.
func answeredBy(duty string) []string {
	out := []string{}
	for _, c := range table {
		if c.Duty == duty {
			out = append(out, c.ID)
		}
	}
	return out
}

// notChecked are the duties that a result leaves to others: those without a check,
// and those of which a check was not asked for.
func notChecked(only []string) []result.Duty {
	var out []result.Duty
	missed := func(id string) bool { return len(only) > 0 && !Matches(id, only) }
	for _, d := range duties {
		if checks := answeredBy(d); len(checks) == 0 || slices.ContainsFunc(checks, missed) {
			out = append(out, result.Duty{What: d, Checks: checks})
		}
	}
	return out
}
