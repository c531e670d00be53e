package check

// standGroup is what holds while the carrier stands free: raised before the concrete
// comes, while it is freed, and parked; and what its lines are made fast to.
var standGroup = []Check{
	{
		ID: "stand.tip", Duty: "wind, and stability before the wheels carry",
		Holds:   "Raised, at the end of every step, and parked on its wheels the carrier does not tip, across or along, under wind or a notional load.",
		Formula: "W cos a x lever / (W sin a x height of the centre of gravity + H z), H z the greater of 2.5 % of W at the top, and wind on the outline at its middle with 1 % of W at the top; lever to the outermost bents or wheels, W the least that it may weigh against wind; tan a: the grade + tolerance.invert / base along, crossfall + tolerance.track_level / gauge across",
		Limit:   "1.5",
		Source:  "statics (derived); notional load and 1 %: BS 5975, wind: ACI 347 (both from memory); margin: judgement",
		Limits: []Limit{
			{"stand.tip", "", 1.5, "judgement", "restoring over overturning moment, standing free"},
		},
		remedy: advise("guy the carrier, or lower and collapse it before such a wind (stand.wind: what the site has, with its source in the record of the job); a wider gauge (`set: {gauge: ...}`)"),
		judge:  standing((*bay).standTipChecks),
		placed: true,
		Mended: []Means{Setting},
	},
	{
		ID: "stand.slide", Duty: "wind, and stability before the wheels carry",
		Holds:   "Standing on its jack plates and parked on its wheels the carrier does not slide along the cell; across, kickers and walls stand on both sides of it.",
		Formula: "W sin a + the greater of 2.5 % of W, and wind on the outline end-on + 1 % of W, <= stand.friction x W cos a / 1.5 + stand.anchor on the plates (W the most against the least), <= travel.restraint.capacity + stand.chocks parked; a factored capacity counts over its load factor; friction counts only where it is stated",
		Limit:   "what holds it",
		Source:  "statics, dry friction (derived); notional load and 1 %: BS 5975, wind: ACI 347 (both from memory); 1.5 on friction: judgement",
		remedy:  advise("anchor or guy the carrier along the cell (stand.anchor), chock the wheels (stand.chocks), or state the friction of the plates and where it is from (stand.friction)"),
		judge:   standing((*bay).standSlideChecks),
		placed:  true,
		Mended:  []Means{},
	},
	{
		ID: "roll.anchor", Duty: "anchors of pulling line and restraint, and jerks in them",
		Holds:   "What the pulling line and the restraint are made fast to holds them, jerks counted.",
		Formula: "pull that starts the carrier, or what the restraint has to take, x parts x snatch <= capacity of the anchor",
		Limit:   "anchors.line.capacity, anchors.restraint.capacity",
		Source:  "statics (derived); snatch 2: a load let go suddenly onto a line",
		remedy:  advise("a stronger anchor, or one more (anchors.line.capacity, anchors.restraint.capacity: fixing in the young concrete included, as whoever designed it states it)"),
		judge:   onTheWay((*route).anchorChecks),
		placed:  true,
		Mended:  []Means{},
	},
}
