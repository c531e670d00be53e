package check

import "boxwalk/model"

// setupGroup is what holds before anything moves.
var setupGroup = []Check{
	{
		ID: "setup.faces", Duty: "reach and setting of the carrier",
		Holds:   "Raised panel faces lie on the design faces, and panels, fillers and hanger plates leave no gap between them.",
		Formula: "distance of each faced part from the concrete it forms; widest stretch of wall, haunch and soffit that no face covers",
		Limit:   "3 mm",
		Source:  "judgement",
		Limits: []Limit{
			{"setup.faces", "setup.faces", 0.003, "judgement", "distance of a raised panel face from its design face, and open gap between faces"},
		},
		remedy:  (*bay).facesRemedy,
		judge:   standing(func(b *bay, _ *model.Study) []Judged { return b.faceChecks() }),
		Follows: true,
		Mended:  []Means{Setting, Panels, Steel},
	},
	{
		ID: "setup.range", Duty: "reach and setting of the carrier",
		Holds:   "Every adjuster, raised, collapsed and between, is inside its range and on an available increment; overlaps of arms and legs are at least their minimum; no locked link has to give.",
		Formula: "least and greatest reading over every step, enclosed; links by the law of cosines: cos f = (a^2 + b^2 - l^2) / (2ab)",
		Limit:   "the gear file's min and max; 0.5 mm off a hole or increment, 1 mm of give in a locked link",
		Source:  "gear file; play of pins: judgement",
		remedy:  (*bay).rangeRemedy,
		judge:   standing(func(b *bay, _ *model.Study) []Judged { return b.rangeChecks() }),
	},
	{
		ID: "setup.rest", Duty: "reach and setting of the carrier",
		Holds:   "Raised: wheels clear of the invert, jacks carry, every plate with its whole outline on placed invert. Collapsed: wheels carry, each tread wholly on placed invert, plates raised enough to clear joints and crests.",
		Formula: "jack reading against the reading at which the wheels touch; outline of each plate and each wheel's contact against the slab's ends and the low-flow channel",
		Limit:   "wheels 10 mm clear raised, within 1 mm collapsed; plates 25 mm up; nothing hangs over",
		Source:  "judgement; overhang: statics",
		Limits: []Limit{
			{"setup.rest", "", 0.010, "judgement", "wheels clear of the invert when raised"},
			{"setup.rest.plates", "", 0.025, "judgement", "jack plates clear of the invert when the wheels carry, for joints and crests"},
			{"setup.rest.wheels", "", 0.001, "judgement", "wheels on the invert when they carry"},
		},
		remedy:  (*bay).restRemedy,
		judge:   standing(func(b *bay, s *model.Study) []Judged { return append(b.restChecks(), b.standChecks(s)...) }),
		Follows: true,
		Mended:  []Means{Reading, Setting},
	},
	{
		ID: "setup.jacks", Duty: "wheels and jacks under the carrier's own weight",
		Holds:   "Each screw jack carries its share of the carrier raised, with all that is on it. Own weight only: loads of the pour are held by pour.jacks.",
		Formula: "standing: rigid frame on all jacks, W/n (1 + n ex x/(2 sum x^2) +- 2 ey/gauge), shifted by height x grade and crossfall; worst three: the most on one with any two others carrying (W/2 for a central load)",
		Limit:   "the gear's jack.capacity; open where it is not stated",
		Source:  "statics of a rigid frame (derived)",
		remedy:  capacityRemedy("stronger jacks, or more bents"),
		judge:   standing((*bay).jackChecks),
		placed:  true,
		Mended:  []Means{},
	},
	{
		ID: "setup.length", Duty: "reach and setting of the carrier",
		Holds:   "The form covers the longest side of the pour in its cell, lap included.",
		Formula: "from the rearmost to the foremost corner of the pour in its cell (pour + span x tan(skew) with both ends skewed alike) + lap <= form length",
		Limit:   "form length",
		Source:  "geometry",
		remedy:  (*bay).lengthRemedy,
		judge:   standing(func(b *bay, _ *model.Study) []Judged { return []Judged{b.lengthCheck()} }),
		Mended:  []Means{Steel},
	},
}
