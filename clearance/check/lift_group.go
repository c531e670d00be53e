package check

// liftGroup is what is flown by crane; it is the same for all bays and judged once.
var liftGroup = []Check{
	{
		ID: "lift.slings", Duty: "lifting by crane",
		Holds:   "One leg of the slings holds what it may get of everything that is flown.",
		Formula: "m g psi (1/2 + e / D) / cos b: two legs carry it all, D apart corner to corner, the centre of gravity e off their middle at most, legs b from the vertical, psi for jerks; one leg: m g psi; m the most that it may weigh",
		Limit:   "flown.sling",
		Source:  "statics (derived); two of four legs carry: common practice for stiff loads; jerks 1.3: guides on lifting precast concrete (from memory)",
		remedy:  advise("stronger slings, or lifting points farther apart and longer legs, so that they hang steeper (flown: sling, angle, apart)"),
		whole:   slingChecks,
		Mended:  []Means{},
	},
	{
		ID: "lift.points", Duty: "lifting by crane",
		Holds:   "One lifting point holds what its leg may get.",
		Formula: "as lift.slings",
		Limit:   "flown.point",
		Source:  "as lift.slings",
		remedy:  advise("stronger lifting points, or more certain ones: a spreader beam that shares out (flown: point, legs)"),
		whole:   pointChecks,
		Mended:  []Means{},
	},
	{
		ID: "lift.hook", Duty: "lifting by crane",
		Holds:   "The crane lifts it at the greatest radius of the lift.",
		Formula: "m g psi; m the most that it may weigh, what sticks to it included",
		Limit:   "flown.hook",
		Source:  "statics (derived); jerks 1.3: guides on lifting precast concrete (from memory)",
		remedy:  advise("a larger crane, or one that stands nearer (flown: hook, from the crane's table at that radius)"),
		whole:   hookChecks,
		Mended:  []Means{},
	},
}
