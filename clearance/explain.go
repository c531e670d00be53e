package clearance

// Explanation is what a check means, its formula, limit and source.
type Explanation struct {
	ID      string
	Holds   string
	Formula string
	Limit   string
	Source  string
}

// explanations in the order that tables list the checks.
var explanations = []Explanation{
	{"setup.faces", "Raised panel faces lie on the design faces, and panels, fillers and hanger plates leave no gap between them.",
		"distance of each faced part from the concrete it forms; widest stretch of wall, haunch and soffit that no face covers", "3 mm", "judgement"},
	{"setup.range", "Every adjuster, raised, collapsed and between, is inside its range and on an available increment; overlaps of arms and legs are at least their minimum; no locked link has to give.",
		"least and greatest reading over every step, enclosed; links by the law of cosines: cos f = (a^2 + b^2 - l^2) / (2ab)", "the gear file's min and max", "gear file"},
	{"setup.rest", "Raised: wheels off the invert, jacks carry, every plate with its whole outline on placed invert. Collapsed: wheels carry, each tread wholly on placed invert, plates drawn up enough to clear joints and crests.",
		"jack reading against the reading at which the wheels touch; outline of each plate and each wheel's contact against the slab's ends and the low-flow channel", "wheels 10 mm off; plates 25 mm up; nothing hangs over", "judgement; overhang: statics"},
	{"setup.jacks", "Each screw jack carries its share of the carrier raised, with all that is on it. Own weight only: loads of the pour are not checked.",
		"standing: rigid frame on all jacks, W/n (1 + n ex x/(2 sum x^2) +- 2 ey/gauge), shifted by height x grade and crossfall; worst three: the most on one with any two others carrying (W/2 for a central load)", "the gear's jack.capacity; open where it is not stated", "statics of a rigid frame (derived)"},
	{"setup.length", "The form covers the longest side of the pour in its cell, lap included.",
		"pour + width x tan(skew) + lap <= form length", "form length", "geometry"},
	{"strip.dig", "No part enters concrete at any time in any step.",
		"least signed distance over the whole step, certified; while jacks move, level/gauge x arm is taken off", "-0.05 mm (rounding of faces that touch)", "geometry"},
	{"strip.drag", "No face or edge slides on concrete while in contact.",
		"travel along the face while within 0.5 mm of it and opening by less than 1 in 25", "0", "judgement"},
	{"strip.self", "No two bodies or links of the carrier overlap at any time. Seams are checked for overlap, never left out.",
		"least signed distance of every pair that moves against each other, in the frame they share", "0; seams -0.05 mm", "geometry"},
	{"strip.clear", "While collapsing, what has been released keeps the release gap; collapsed, every zone keeps its travel clearance with tolerances taken off.",
		"least signed distance over the step, less lag; at the end, less the root-sum-square allowance", "release 3 mm; travel 25 mm", "judgement"},
	{"strip.supports", "Hangers, plates, nuts and whatever stays are clear during every step.",
		"least signed distance over the step, less lag", "3 mm", "judgement"},
	{"strip.level", "The jacks of the two sides may differ by as much as the crew can be expected to keep.",
		"gap x gauge / height, least over everything beside a wall", "2.5 mm side to side", "judgement"},
	{"raise.lift", "Each lifting jack carries what its pad can have to, and lifts as high as the carrier has to go; one pass leaves the frame level enough between pads.",
		"load: the most on one pad with any two other places carrying (W/2 for a central load: rocking on two diagonal ones); stroke: jack raised - wheels + packing; tilt: pass / pad spacing, pass / gauge",
		"the jack's capacity and stroke; 15 mm over 1 m", "statics of a rigid frame (derived); passes of 10 mm are common practice; tilt: judgement, BS 5975 has it for falsework uprights (from memory)"},
	{"raise.clear", "Nothing touches on the way up for the next pour.",
		"the collapse taken back, against everything cast before and the bars ahead", "3 mm", "judgement"},
	{"roll.clear", "Clearance over the whole advance to the next pour in the order of casting, ahead or back, or out over the end, with tolerances taken off; the carrier's own imprint and concrete formed by others told apart.",
		"least signed distance over the advance, less the root-sum-square allowance of the zone", "25 mm", "judgement"},
	{"roll.track", "Each tread with its wander stays off haunch toes, kickers and the low-flow channel.",
		"half span - haunch run - (gauge + tread) / 2 - wander", "25 mm", "judgement"},
	{"roll.support", "Over the whole advance, and after the last pour until the form is out over the end, every wheel stands on placed invert.",
		"from the wheels to the end of the invert, along each tread; aprons count", "100 mm", "judgement"},
	{"roll.bend", "At angle points the carrier passes: the swept width leaves clearance beside walls and haunches, scrubbing wheels and the line carry what it takes, and the straight form fits the bent line.",
		"inside (B/2) tan(phi/2) under mid base, outside overhang x sin(phi), steered (Lc/4) tan(phi/2) to each side; wheels slide B phi/2 at each outer line and push friction x load; added pull W max(a, B - a)/B x friction x tan(phi); form across a joint: t sin(phi); mid-ordinate between chord and line",
		"25 mm; the wheel's side capacity; the line's capacity; dig 3 mm; mid-ordinate 10 mm", "geometry and statics (derived); limits: judgement; sideways friction: from memory"},
	{"roll.pull", "The line can start the carrier on the grade.",
		"W (sin a + f cos a) with the most rolling coefficient x breakaway; tan a: the steepest rise + tolerance.invert / wheelbase", "the line's capacity", "statics; coefficients from the job"},
	{"roll.hold", "Where the carrier could run, a hold-back can hold it, set before plates leave the invert.",
		"wherever tan a > the least rolling coefficient: W (sin a - f cos a); tan a: the steepest grade, up or down, + tolerance.invert / wheelbase", "the hold-back's capacity", "statics; coefficients from the job"},
	{"roll.tip", "The collapsed carrier is stable across and along with a margin.",
		"W cos a x lever / (W sin a x height of the centre of gravity); tan a along: the steepest grade + tolerance.invert / wheelbase; across: crossfall + tolerance.track_level / gauge", "1.5", "judgement"},
	{"roll.wheel", "A wheel carries its share standing, and the worst one rocking over uneven ground while it rolls. Own weight only: loads of the pour are not checked.",
		"standing: rigid frame on all wheels, W/n (1 + n ex x/(2 sum x^2) +- 2 ey/gauge), shifted by height x slope along and across; rocking: the most on one with any two others carrying (W/2 for a central load) x 1.6", "the gear's wheels.capacity; open where it is not stated", "statics of a rigid frame (derived); factor 1.6 on live load: ACI 318 (from memory), taken for rolling over edges by judgement"},
	{"roll.bearing", "The worst wheel load on the young invert is within its bearing strength at that age.",
		"rocking on two diagonal wheels; phi 0.85 f'c A1 sqrt(A2/A1); strength gain by EN 1992-1-1", "phi Bn", "ACI 318 (from memory); EN 1992-1-1 3.1.2"},
}

// Explain finds the explanation of a check.
func Explain(id string) (Explanation, bool) {
	for _, e := range explanations {
		if e.ID == id {
			return e, true
		}
	}
	return Explanation{}, false
}

// CheckIDs in the order that tables list them.
func CheckIDs() []string {
	var out []string
	for _, e := range explanations {
		out = append(out, e.ID)
	}
	return out
}
