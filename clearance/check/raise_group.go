package check

// raiseGroup is what holds while it is raised for the next pour.
var raiseGroup = []Check{
	{
		ID: "raise.lift", Duty: "raising",
		Holds:   "Each lifting jack carries what its pad can have to, and lifts as high as the carrier has to go; one pass leaves the frame level enough between pads.",
		Formula: "load: the most on one pad with any two other places carrying (W/2 for a central load: rocking on two diagonal ones), shifted by height x (grade + pass / pad spacing) along and x (crossfall + pass / gauge) across; stroke: jack raised - wheels + packing; tilt: pass / pad spacing, pass / gauge",
		Limit:   "the jack's capacity and stroke; 15 mm over 1 m",
		Source:  "statics of a rigid frame (derived); passes of 10 mm are common practice; tilt: judgement, BS 5975 has it for falsework uprights (from memory)",
		Limits: []Limit{
			{"raise.lift", "raise.lift", 0.015, "judgement; BS 5975 has it for falsework uprights, from memory", "out of level over 1 m while pads are lifted one after the other"},
		},
		remedy: (*bay).liftRemedy,
		judge:  standing((*bay).liftChecks),
		placed: true,
		Mended: []Means{Setting},
	},
	{
		ID: "raise.clear", Duty: "raising",
		Holds:   "Nothing touches on the way up for the next pour.",
		Formula: "the collapse taken back, against everything cast before and the bars ahead, less lag as in strip.clear; the lean of the frame with one pad a pass of lifting (in the last lift lifting.last) above the others may use up the gap asked for, and what it takes beyond that is an allowance: pass / gauge x arm across + pass / L x arm along, L from the outermost wheels or bents to the first place beyond the middle; without lifting the jacks differ by jack_level",
		Limit:   "3 mm",
		Source:  "judgement; lean: statics of a rigid frame (derived)",
		Limits: []Limit{
			{"raise.clear", "strip.release", 0.003, "judgement", "nothing touches on the way up"},
		},
		remedy:  (*bay).raiseRemedy,
		judge:   found(func(r *Examined) []Judged { return r.bay.raiseChecks(r.Found.Raising) }),
		Part:    Raises,
		Follows: true,
		Proved:  true,
	},
}
