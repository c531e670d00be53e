package check

import (
	"fmt"
	"slices"

	"boxwalk/clearance/result"
	"boxwalk/model"
	"boxwalk/model/carrier"
	"boxwalk/model/geom"
)

// wholeForm is the subject of the rule that the roof governs.
const wholeForm = "the form as a whole"

// roofGoverns asks that nothing of one form is freed before the roof may be: where the
// first step that frees anything of the walls frees, or comes behind one that frees,
// something of the roof, the walls wait for the roof.
func roofGoverns(s *model.Study, b *bay) Judged {
	about := result.Subject{What: wholeForm}
	walls, roof := b.frees(carrier.WallPanel, "ties"), b.frees(carrier.RoofPanel, "fillers")
	if walls >= 0 && roof > walls {
		e := entry("time.roof", about, nil, Limit{Source: "the order of steps"}, result.Min,
			fmt.Sprintf("walls are freed from %q on, the roof from %q on: until then its form stays as it is and carries, and each has its own time", b.Steps[walls].Name, b.Steps[roof].Name))
		e.Unit, e.Limit = "h", nil
		return e
	}
	a := s.Job.Schedule
	if a.WallsAge == nil || a.RoofAge == nil {
		var lacks []string
		if a.WallsAge == nil {
			lacks = append(lacks, "schedule.walls_age, for example 4 d")
		}
		if a.RoofAge == nil {
			lacks = append(lacks, "schedule.roof_age, for example 4 d")
		}
		return open("time.roof", about, "h", "one form carries walls and roof, and when it is freed is not known: write "+listed(lacks), result.Where{})
	}
	step := ""
	if roof >= 0 {
		step = fmt.Sprintf(" (%q frees something of the roof)", b.Steps[roof].Name)
	}
	c := candidate{Value: *result.Exactly(float64(*a.WallsAge) / 3600), text: fmt.Sprintf("one form carries walls and roof%s, so the roof governs: the walls' form is freed %s after casting (schedule.walls_age), the roof's %s (schedule.roof_age)", step, inHours(*a.WallsAge), inHours(*a.RoofAge))}
	e := entry("time.roof", about, []candidate{c}, Limit{Value: float64(*a.RoofAge) / 3600, Source: "ACI 347-04 3.7.2.3, first footnote (read on a trade magazine's page)"}, result.Min, "")
	e.Unit = "h"
	var w result.Working
	w.Given("t", "age of the walls when the first of their form is freed", float64(*a.WallsAge)/3600, "h", "schedule.walls_age of the job")
	e.Working = w.Lines()
	if e.Verdict != result.Pass {
		e.Remedy = "free nothing before the roof may be freed (schedule.walls_age no less than schedule.roof_age), or let steps that free walls alone come first (sequence)"
	}
	return e
}

// frees is the first step in which parts of a role move, or in which something is taken
// off; -1 where none does.
func (b *bay) frees(role carrier.Role, removed string) int {
	for k, s := range b.Steps {
		if slices.Contains(s.Removes, removed) || s.Path != nil && b.moved(k, role) {
			return k
		}
	}
	return -1
}

// moved tells whether a part of a role stands elsewhere after a step than before.
func (b *bay) moved(k int, role carrier.Role) bool {
	return slices.ContainsFunc(b.Carrier.Parts, func(p carrier.Part) bool {
		before := geom.Identity()
		if k > 0 && b.Steps[k-1].Path != nil {
			before = b.Steps[k-1].Pose(p.Body)
		}
		return p.Role == role && b.Steps[k].Pose(p.Body) != before
	})
}
