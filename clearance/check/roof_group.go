package check

// roofGroup is what holds while the roof is poured, and while it hangs.
var roofGroup = []Check{
	{
		ID: "pour.roof", Duty: "roof load on headers, arms, legs and jacks",
		Holds:   "While the roof is poured, span by span along the cell and strip by strip across it in any order, roof panels and stringers carry slab, haunches, form, people and equipment, and stringers, headers and arms sag within their limit.",
		Formula: "panels: unit weight x slab + live + form; a stringer's line: panels as beams over their stringers, fillers half on each neighbour; moment, shear and sag of a beam over all bents, each span poured and loaded or not: w c, c solved exactly; sag over E I, E 210 GPa",
		Limit:   "roof.pressure, roof.stringers.moment and shear; open where not stated; sag: pour.sag x span, 1/360 of it by default",
		Source:  "statics (derived); least loads: pour.roof.rule; sag: L/360 of formwork members (read in lecture notebooks)",
		Limits: []Limit{
			{"pour.sag", "pour.sag", 0.00278, "1/360, read in lecture notebooks on formwork", "sag of stringers, headers and arms under the pour, over 1 m of their span"},
		},
		remedy: (*bay).roofRemedy,
		judge:  whileRoofPoured((*roofPoured).roofChecks),
		Mended: []Means{Setting},
	},
	{
		ID: "pour.header", Duty: "roof load on headers, arms, legs and jacks",
		Holds:   "Each header's tube carries what stringers, walls and arms bring to it, on two legs and the job's shores; each arm carries as a cantilever from the tube's end, held by a couple between that end and its own inner end.",
		Formula: "tube: beam on legs and shores, every strip across and span along poured and loaded or not; arm: sum of load x lever beyond the tube's end; inside the tube that moment over the overlap",
		Limit:   "frame.header.moment and shear, frame.header.arm.moment and shear; open where not stated",
		Source:  "statics (derived)",
		remedy:  (*bay).roofRemedy,
		judge:   whileRoofPoured((*roofPoured).headerChecks),
		Mended:  []Means{Setting},
	},
	{
		ID: "pour.jacks", Duty: "roof load on headers, arms, legs and jacks",
		Holds:   "Legs, screw jacks at their reading, roof jacks and shores carry the pour; no jack lifts while one half of the roof is poured first; the jack plates stay within what the invert bears by then.",
		Formula: "most on a leg from its header + H h / gauge + weights; H = the greater of 2 % of the dead load and 1.5 kN/m (100 lb/ft) at soffit height h; plates: 1.6 x the jack's load <= phi Bn as in roll.bearing, spread no further than the pour's joints, the channel and the outside of the walls",
		Limit:   "frame.leg.axial, jack.capacity at its reading, roof_jack.capacity, pour.shores capacity; open where not stated; phi Bn",
		Source:  "statics (derived); sideways load: ACI 347 (read in lecture notebooks that cite SP-4; 1.5 kN/m from memory); bearing: ACI 318-19 22.8.3.2 (from memory)",
		remedy:  (*bay).roofRemedy,
		judge:   whileRoofPoured((*roofPoured).jackChecks),
		Mended:  []Means{Setting, Stated},
	},
	{
		ID: "pour.hangers", Duty: "hangers or shores that keep the roof",
		Holds:   "When the carrier has left, rods, plates and the beams above carry the young roof with people on it, and the concrete under plates and beams bears it at its strength by then.",
		Formula: "slab strip across: beam on wall, hanger lines, wall (effective span of EN 1992-1-1 5.3.2.2), a line along: beam over its hangers, every part of it loaded or not; plate: 6 F (a - n)/8 / ((b - d) t^2); bearing: 1.6 F <= phi 0.85 f A, phi 0.65; punching: 1.6 F <= phi 0.22 sqrt(f) b0 h, phi 0.60, b0 = 2 (a + b + 2 h), less beside the pour's end; beam above: simple beam from wall top to wall top",
		Limit:   "left_in_place.hangers: rod_capacity, plate_stress, beam; open where not stated; phi Vn, phi Bn",
		Source:  "statics (derived); ACI 318-19 22.8.3.2 and plain concrete of ACI 318-14 14.5.5, load factor 1.6 (from memory)",
		remedy:  advise("more hangers (more lines, bents nearer together), stronger rods, plates and beams above, or wait for more strength (schedule.roof_age)"),
		judge:   standing((*bay).hangerChecks),
		Mended:  []Means{Stated},
	},
}
