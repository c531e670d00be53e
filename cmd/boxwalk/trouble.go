package main

import (
	"fmt"
	"slices"

	"boxwalk/model/carrier"
	"boxwalk/model/diag"
	"boxwalk/model/job"
)

// trouble puts a fault of the line, of a link or of a shape at its key, and a name that the
// gear does not have at its place: in the job's sequence, or in the gear's steps
// when those are used.
func (r *reading) trouble(t carrier.Trouble) diag.Problem {
	if t.Where == "alignment" {
		return r.jobAt.Problem(joined("alignment", t.Key), t.Summary, "", t.Cure)
	}
	switch t.Where {
	case "gear":
		return r.gearAt.Problem(t.Key, t.Summary, "", t.Cure)
	case "culvert":
		return r.jobAt.Problem(joined(t.Where, t.Key), t.Summary, "", t.Cure)
	}
	if t.Where == "links" {
		i := slices.IndexFunc(r.gear.Links, func(l job.Link) bool { return l.Name == t.Key })
		return r.gearAt.Problem(fmt.Sprintf("links[%d].to", i), t.Summary, "", t.Cure)
	}
	if t.Where == "mass" {
		return r.gearAt.Problem(joined("mass", t.Key), t.Summary, "", t.Cure)
	}
	list, at, path := r.gear.Steps, r.gearAt, "steps"
	step := t.Step
	if len(r.job.Sequence) > 0 {
		list, at, path = r.job.Sequence, r.jobAt, "sequence"
		// what comes off may be the gear's word for a step of that name
		if known := gearStep(r.gear, list[step].Step); t.Where == "removes" && list[step].Removes == nil && known >= 0 {
			list, at, path, step = r.gear.Steps, r.gearAt, "steps", known
		}
	}
	return at.Problem(fmt.Sprintf("%s[%d].%s", path, step, within(list[step], t)), t.Summary, "", t.Cure)
}

// joined is a key below a group; the group itself for none.
func joined(group, key string) string {
	if key == "" {
		return group
	}
	return group + "." + key
}

// gearStep is the place of the last step of that name, which is the one a
// job's step takes its words from; -1 for none.
func gearStep(g *job.Gear, name string) int {
	for i := len(g.Steps) - 1; i >= 0; i-- {
		if g.Steps[i].Step == name {
			return i
		}
	}
	return -1
}

// within is the path of a trouble below its step.
func within(s job.Step, t carrier.Trouble) string {
	list := map[string][]string{"locked": s.Locked, "removes": s.Removes}[t.Where]
	if i := slices.Index(list, t.Key); i >= 0 {
		return fmt.Sprintf("%s[%d]", t.Where, i)
	}
	if t.Where == "drivers" {
		return "drivers." + t.Key
	}
	return t.Where
}
