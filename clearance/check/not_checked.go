package check

import (
	"fmt"
	"slices"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/model/diag"
	"boxwalk/model/job"
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
	"time of the pours, gangs and carriers",
	"pressure of the pour on panels and walers",
	"ties and braces under the pour",
	"uneven filling, sliding and uplift",
	"roof load on headers, arms, legs and jacks",
	"headers and arms where ties are slack: braces then draw the walls down on them several times as hard",
	"how far the form springs back into release gaps when the load leaves it",
	"hangers or shores that keep the roof",
	"wind, and stability before the wheels carry",
	"force to break the bond",
	"lifting jacks on the invert",
	"anchors of pulling line and restraint, and jerks in them",
	"whether stated capacities are true, and of the basis stated",
	"lifting by crane",
	"steel, pins and welds of the carrier",
	"punching and bending of the slabs, but under hanger plates",
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
// those of which a check was not asked for, and those of which the job says who covers
// a check and entries were left out for that.
func notChecked(only []string, j *job.Job, leftOut map[string]bool) []result.Duty {
	var out []result.Duty
	missed := func(id string) bool { return len(only) > 0 && !Matches(id, only) || leftOut[id] }
	for _, d := range duties {
		if checks := answeredBy(d); len(checks) == 0 || slices.ContainsFunc(checks, missed) {
			duty := result.Duty{What: d, Checks: checks}
			for _, id := range checks {
				if leftOut[id] {
					duty.CoveredBy = append(duty.CoveredBy, result.Cover{Check: id, By: j.CoveredBy[id]})
				}
			}
			out = append(out, duty)
		}
	}
	return out
}

// covered tells whether an entry is open for a capacity that nobody states, of a check
// that the job says somebody else covers.
func (j Judged) covered(by map[string]string) bool {
	_, is := by[j.ID]
	return is && j.Lacks != ""
}

// UnknownCovers are the keys of covered_by that name no check.
func UnknownCovers(j *job.Job) diag.Problems {
	var out diag.Problems
	for _, id := range job.SortedKeys(j.CoveredBy) {
		if lookUp(id) == nil {
			out = append(out, diag.Problem{Key: "covered_by." + id, Summary: fmt.Sprintf("%q is no check", id), Detail: "checks are " + strings.Join(IDs(), ", "), Fix: "write the id of a check, as 'boxwalk check' prints it"})
		}
	}
	return out
}
