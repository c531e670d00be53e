package check

// pourGroup is what holds while walls and roof are placed.
var pourGroup = []Check{
	{
		ID: "pour.pressure", Duty: "pressure of the pour on panels and walers",
		Holds:   "Wall panels, corner panels and fillers are stated for the pressure of the fresh concrete, which stands from the kicker (starter wall) to the top of the roof.",
		Formula: "by pour.pressure: fluid w h (1.25 w h pumped up from the base); ACI 347 C_c C_w (7.2 + 785 R/(T + 17.8)), or (7.2 + 1156/(T + 17.8) + 244 R/(T + 17.8)) kPa, at least 30 C_w, in an imperial job by the inch-pound equations; DIN 18218 (a v + b) K1 or b + a v K1, times w/25; CIRIA 108 w (sqrt R + C2 K sqrt(h - sqrt R)), K = (36/(T + 16))^2; never above w h. Sloping and level faces: w h",
		Limit:   "wall.pressure, corner.pressure, roof.filler_pressure of the gear; open where not stated",
		Source:  "hydrostatics (derived); ACI 347R-14, CIRIA Report 108 (second-hand); DIN 18218:2010-01 (from memory)",
		remedy:  pourRemedy("panels stated for more (as their maker states them), or concrete that presses less and is placed slower (pour, concrete.rise_rate in the job file)"),
		judge:   standing((*bay).pressureChecks),
		Part:    Poured,
		Mended:  []Means{},
	},
	{
		ID: "pour.ties", Duty: "ties and braces under the pour",
		Holds:   "Each tie carries the pressure on its own area, out to edges and skewed corners, and what a waler brings to it as a continuous beam.",
		Formula: "max(thrust on all that is nearer to the tie than to another, q x R); q: row of ties under a metre of panel on hinge and rows, with and without braces, rigid or limber; R: reaction of a continuous waler to a unit load where concrete presses. Ties through a wall between two cells are shared: both faces pull alike",
		Limit:   "ties.capacity of the gear; open where not stated",
		Source:  "own area: common practice (derived); continuous beams (derived)",
		remedy:  pourRemedy("stronger ties, or more of them (ties.spacing, more walers), or concrete that presses less (pour, concrete.rise_rate in the job file)"),
		judge:   standing((*bay).tieChecks),
		Part:    Poured,
		Mended:  []Means{},
	},
	{
		ID: "pour.walers", Duty: "pressure of the pour on panels and walers",
		Holds:   "Walers carry bending and shear between the ties, or between bents where there are none; where wall.walers.inertia is stated they do not sag too far.",
		Formula: "moment q m, shear q s, sag q d/(E I); q as in pour.ties; m, s, d: greatest of a continuous waler under a unit load where concrete presses, overhangs included; E 210 GPa",
		Limit:   "wall.walers.moment, wall.walers.shear of the gear, open where not stated; sag 1.6 mm",
		Source:  "continuous beams (derived); sag 1/16 in: lecture notes on form design (read)",
		Limits: []Limit{
			{"pour.walers", "", 0.0015875, "1/16 in: lecture notes on form design (read)", "sag of a waler between ties under the pour"},
		},
		remedy: pourRemedy("stronger walers, ties nearer to each other and to the ends (ties.spacing), or concrete that presses less (pour, concrete.rise_rate in the job file)"),
		judge:  standing((*bay).walerChecks),
		Part:   Poured,
		Mended: []Means{},
	},
	{
		ID: "pour.braces", Duty: "ties and braces under the pour",
		Holds:   "Each link to a wall carries its share of the pressure, as it stands raised; between ties alone and braces alone the worst for it.",
		Formula: "n x R; n: force of the link under a metre of panel on hinge, braces and ties as springs, together and braces alone, rigid or limber; R: reaction of a continuous wall over the bents to a unit load where concrete presses",
		Limit:   "links.axial of the gear; without it, of a slender link with links.steel, Euler's load pi^2 E I/L^2 over 23/12; open where neither is known",
		Source:  "beam on springs (derived); Euler's formula; 23/12: AISC allowable stress design (from memory)",
		remedy:  pourRemedy("stronger links, more bents, or concrete that presses less (pour, concrete.rise_rate in the job file)"),
		judge:   standing((*bay).braceChecks),
		Part:    Poured,
		Mended:  []Means{},
	},
	{
		ID: "pour.even", Duty: "uneven filling, sliding and uplift",
		Holds:   "Ties and frame take the concrete standing higher in one wall of the cell than in the other.",
		Formula: "R (t_full - t_lower); t: what comes to the frame of a metre of wall through hinge and braces, ties holding too, and of the faces above the hinge, full and pour.level_difference lower; R as in pour.braces. Where one wall stands already the thrust goes across into it",
		Limit:   "frame.side of the gear; open where not stated",
		Source:  "beam on springs (derived); pour.level_difference, default: judgement",
		remedy:  pourRemedy("bents that take more sideways (frame.side), ties through both walls, or fill both walls more evenly (pour.level_difference)"),
		judge:   standing((*bay).evenCheck),
		Part:    Poured,
		Mended:  []Means{},
	},
	{
		ID: "lift.float", Duty: "uneven filling, sliding and uplift",
		Holds:   "Fresh concrete does not lift the form: no face slopes over it, or weight holds it down.",
		Formula: "least weight of the carrier over w h x width of the faces that look down on fresh concrete",
		Limit:   "1.5",
		Source:  "hydrostatics (derived); limit: judgement",
		Limits: []Limit{
			{"lift.float", "", 1.5, "judgement", "weight over what fresh concrete lifts"},
		},
		remedy: advise("hold the form down"),
		judge:  standing((*bay).floatCheck),
		Part:   Poured,
		Mended: []Means{},
	},
	{
		ID: "pour.slide", Duty: "uneven filling, sliding and uplift",
		Holds:   "Neither grade nor bulkhead (stop end) makes the carrier slide along or across while concrete is placed.",
		Formula: "sqrt((F + W sin a)^2 + (F tan s)^2) - mu W_l cos a / 1.5; F: thrust on the bulkhead of this cell, none where both ends have one; s the worse skew of both ends; W the carrier at most, W_l at least; mu: pour.friction",
		Limit:   "pour.anchor of the job; open where not stated",
		Source:  "hydrostatics and statics (derived); 1.5 on friction: judgement",
		remedy:  pourRemedy("anchor the carrier (pour.anchor: to the invert or the pour before), or let bulkheads push on something that stands by itself (pour.bulkhead: apart)"),
		judge:   standing((*bay).slideCheck),
		placed:  true,
		Part:    Poured,
		Mended:  []Means{},
	},
}

// pourRemedy is what mends something that is overloaded, or whose capacity nobody states.
func pourRemedy(stronger string) advice {
	return func(_ *bay, e Judged) string {
		switch {
		case e.Lacks != "":
			return "state what it carries, as its owner or maker states it (" + e.Lacks + "), or who answers for the check (covered_by in the job file)"
		case e.Value == nil:
			return "state what is missing; the sentence above names it, and nothing is taken for granted until then"
		}
		return stronger
	}
}
