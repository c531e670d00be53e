package check

import "boxwalk/clearance/measure"

// stripGroup is what holds while the carrier collapses, and collapsed.
func stripGroup() []Check {
	return []Check{
		{
			ID: "strip.dig", Duty: "collapse clear of concrete, of itself and of what stays",
			Holds:   "No part enters concrete at any time in any step.",
			Formula: "least signed distance over the whole step, certified; while jacks move and carry, the frame leans by what they may differ, and its lean is taken off, both ways at once: jack_level / gauge x arm across + jack_level / L x arm along, L from the outermost bent to the first one beyond the middle of the form; where the roof still bears, upward arms count from its edges",
			Limit:   "-0.05 mm (rounding of faces that touch)",
			Source:  "geometry",
			Limits: []Limit{
				{"strip.dig", "", -measure.ContactTolerance, "rounding", "no part enters concrete; a face that touches by design may show rounding"},
			},
			remedy:  (*bay).digRemedy,
			step:    each((*bay).digCheck),
			Part:    Strips,
			Follows: true,
			Proved:  true,
		},
		{
			ID: "strip.drag", Duty: "collapse clear of concrete, of itself and of what stays",
			Holds:   "No face or edge slides on concrete while in contact.",
			Formula: "travel along the face while within 0.5 mm of it and opening by less than 1 in 25",
			Limit:   "0",
			Source:  "judgement",
			Limits: []Limit{
				{"strip.drag", "strip.drag", 0, "judgement", "sliding of a face or an edge while in contact"},
			},
			remedy:  advise("let the face leave square to itself first: ease down or draw in a little, in a step before the one that moves along it (`sequence:` in the job, `steps:` in the gear)"),
			step:    each((*bay).dragCheck),
			Part:    Strips,
			Follows: true,
		},
		{
			ID: "strip.self", Duty: "collapse clear of concrete, of itself and of what stays",
			Holds:   "No two bodies or links of the carrier overlap at any time. Seams are checked for overlap, never left out.",
			Formula: "least signed distance of every pair that moves against each other, in the frame they share, less lag: tolerance.lag x what each adjuster turned at once moves the two per unit, the one that moves them most left out",
			Limit:   "0; seams -0.05 mm",
			Source:  "geometry",
			Limits: []Limit{
				{"strip.self", "", 0, "geometry", "no two bodies or links of the carrier overlap"},
				{"strip.self.seams", "", -measure.ContactTolerance, "rounding", "seams may touch and never overlap"},
			},
			remedy:  (*bay).selfRemedy,
			step:    (*bay).selfChecks,
			Part:    Strips,
			Follows: true,
			Proved:  true,
		},
		{
			ID: "strip.clear", Duty: "collapse clear of concrete, of itself and of what stays",
			Holds:   "While collapsing, what has been released keeps the release gap; collapsed, every zone keeps its travel clearance with tolerances taken off.",
			Formula: "least signed distance over the step, less lag: tolerance.lag x what each adjuster turned at once moves the part per unit, the one that moves it most left out; at the end, less the root-sum-square allowance of the zone and crossfall x arm",
			Limit:   "release 3 mm; travel 25 mm",
			Source:  "judgement",
			Limits: []Limit{
				{"strip.release", "strip.release", 0.003, "judgement", "release gap while collapsing"},
				{"strip.clear", "strip.clear", 0.025, "judgement", "travel clearance when collapsed"},
			},
			remedy:  (*bay).clearRemedy,
			step:    (*bay).clearChecks,
			Part:    Strips,
			Follows: true,
			Proved:  true,
		},
		{
			ID: "strip.supports", Duty: "collapse clear of concrete, of itself and of what stays",
			Holds:   "Hangers, plates, nuts and whatever stays are clear during every step.",
			Formula: "least signed distance over the step, less lag as in strip.clear; while jacks move and carry, the lean of strip.dig may use up the gap asked for, and what it takes beyond that is taken off: level, the gap is kept, and leaning, nothing is entered",
			Limit:   "3 mm",
			Source:  "judgement; lean: statics of a rigid frame (derived)",
			Limits: []Limit{
				{"strip.supports", "strip.release", 0.003, "judgement", "hangers, plates and nuts stay clear"},
			},
			remedy:  (*bay).supportsRemedy,
			step:    (*bay).supportsChecks,
			Part:    Strips,
			Follows: true,
			Proved:  true,
		},
		{
			ID: "strip.level", Duty: "collapse clear of concrete, of itself and of what stays",
			Holds:   "Any two jacks may differ by as much as the crew can be expected to keep, side to side and along.",
			Formula: "gap x gauge / height, least over everything beside a wall; gap / (arm across / gauge + arm along / L), least over every gap, L as in strip.dig; where a part could close its gap by going another way than along it, a search of the whole step finds the number (12 halvings), and the entry says so",
			Limit:   "2.5 mm between any two jacks",
			Source:  "judgement; lean: statics of a rigid frame (derived)",
			remedy:  advise("draw the walls in farther before this step lowers anything, so that the frame may lean more; or lower less in it, and the rest once the walls are in"),
			step:    (*bay).levelChecks,
			some:    true,
			Part:    Strips,
			Follows: true,
		},
	}
}
