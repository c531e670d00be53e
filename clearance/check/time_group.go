package check

// timeGroup is what holds of the time since casting; it is the same for all bays and judged
// once for the job.
var timeGroup = []Check{
	{
		ID: "break.bond", Duty: "force to break the bond",
		Holds:   "What draws the form off can break its bond: an adjuster that pulls the walls, the weight that comes down with the roof. An estimate: what the bond is nobody knows before.",
		Formula: "walls: q V / L x l, V the volume that the faces of one side sweep for each metre of the adjuster as its step begins, L the form, l the longest piece that one bent draws; roof: q A against the least weight that comes down; q: release.bond.least to most, everywhere at once",
		Limit:   "pulls of the gear; the weight",
		Source:  "virtual work (derived); bond: judgement, guides on lifting precast concrete take 1 kPa for oiled steel and 2 for varnished timber (from memory)",
		remedy:  advise("state what it pulls (pulls in the gear file), as its maker states it"),
		judge:   standing((*bay).bondChecks),
		Mended:  []Means{},
	},
	{
		ID: "time.walls", Duty: "strength of walls and roof at release",
		Holds:   "When the first of their form is freed the walls have the strength that the specification asks for, and its least time has passed. A strength that is not known never passes.",
		Formula: "strength: concrete.walls_strength by cylinders; or by concrete.calibration: logarithmic a + b log10 M, M = sum of max(0, T - datum) dt in degC h; hyperbolic ultimate k (t - start) / (1 + k (t - start)) or exponential ultimate exp(-(tau / t)^beta), t = sum of exp(-q (1/(T + 273.15) - 1/(reference + 273.15))) dt; or as in roll.bearing from concrete.walls_curing up to schedule.walls_age; between two readings of a file the lower counts. Least time: hours since casting with release.air at 10 degC and above",
		Limit:   "release.walls: strength, share x concrete.strength, least",
		Source:  "the specification, as the job states it; EN 1992-1-1 3.1.2(6), equivalent age B.10 (second-hand); maturity: ASTM C1074 (from memory); hours that count: ACI 347-04 3.7.2.3 (read on a trade magazine's page)",
		remedy:  (*bay).releaseRemedy,
		whole:   wallsChecks,
		Mended:  []Means{},
	},
	{
		ID: "time.roof", Duty: "strength of walls and roof at release",
		Holds:   "When the first of its form is freed the roof has the strength that the specification asks for, and its least time has passed. Where one form carries walls and roof, the roof governs: no step frees anything of both before the roof may be freed.",
		Formula: "as time.walls, with concrete.roof_strength, concrete.roof_curing and schedule.roof_age; schedule.walls_age not before schedule.roof_age, unless steps that free walls alone come first",
		Limit:   "release.roof: strength, share x concrete.strength, least",
		Source:  "as time.walls; the roof governs: ACI 347-04 3.7.2.3, first footnote (read on a trade magazine's page)",
		remedy:  (*bay).releaseRemedy,
		whole:   roofChecks,
		Mended:  []Means{},
	},
	{
		ID: "time.cycle", Duty: "time of the pours, gangs and carriers",
		Holds:   "The pours are done by the day, and follow each other as fast, as the job asks; nothing asked for passes and tells the plan.",
		Formula: "of all work that can begin, what can begin first does, with the gang that is free first: raise, close, pour (one for all that is cast together), harden, free step by step, roll; one carrier in each cell; in working time only, a pour, a step and a roll in one shift; hardening: the longer of walls and roof, by their temperatures or schedule.walls_age, roof_age",
		Limit:   "cycle.finish, cycle.every",
		Source:  "the job; durations that it does not state: common practice (judgement)",
		remedy:  advise("more gangs, longer shifts or more days of work (cycle), or a later finish agreed with whoever set it; the sentence above tells what one more of each would do"),
		whole:   cycleChecks,
		Mended:  []Means{},
	},
}
