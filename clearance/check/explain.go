package check

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
		"least and greatest reading over every step, enclosed; links by the law of cosines: cos f = (a^2 + b^2 - l^2) / (2ab)", "the gear file's min and max; 0.5 mm off a hole or increment, 1 mm of give in a locked link", "gear file; play of pins: judgement"},
	{"setup.rest", "Raised: wheels off the invert, jacks carry, every plate with its whole outline on placed invert. Collapsed: wheels carry, each tread wholly on placed invert, plates drawn up enough to clear joints and crests.",
		"jack reading against the reading at which the wheels touch; outline of each plate and each wheel's contact against the slab's ends and the low-flow channel", "wheels 10 mm off raised, within 1 mm collapsed; plates 25 mm up; nothing hangs over", "judgement; overhang: statics"},
	{"setup.jacks", "Each screw jack carries its share of the carrier raised, with all that is on it. Own weight only: loads of the pour are not checked.",
		"standing: rigid frame on all jacks, W/n (1 + n ex x/(2 sum x^2) +- 2 ey/gauge), shifted by height x grade and crossfall; worst three: the most on one with any two others carrying (W/2 for a central load)", "the gear's jack.capacity; open where it is not stated", "statics of a rigid frame (derived)"},
	{"setup.length", "The form covers the longest side of the pour in its cell, lap included.",
		"from the rearmost to the foremost corner of the pour in its cell (pour + span x tan(skew) with both ends skewed alike) + lap <= form length", "form length", "geometry"},
	{"strip.dig", "No part enters concrete at any time in any step.",
		"least signed distance over the whole step, certified; while jacks move and carry, the frame leans by what they may differ, and its lean is taken off, both ways at once: jack_level / gauge x arm across + jack_level / L x arm along, L from the outermost bent to the first one beyond the middle of the form; where the roof still bears, upward arms count from its edges", "-0.05 mm (rounding of faces that touch)", "geometry"},
	{"strip.drag", "No face or edge slides on concrete while in contact.",
		"travel along the face while within 0.5 mm of it and opening by less than 1 in 25", "0", "judgement"},
	{"strip.self", "No two bodies or links of the carrier overlap at any time. Seams are checked for overlap, never left out.",
		"least signed distance of every pair that moves against each other, in the frame they share, less lag: tolerance.lag x what each adjuster turned at once moves the two per unit, the one that moves them most left out", "0; seams -0.05 mm", "geometry"},
	{"strip.clear", "While collapsing, what has been released keeps the release gap; collapsed, every zone keeps its travel clearance with tolerances taken off.",
		"least signed distance over the step, less lag: tolerance.lag x what each adjuster turned at once moves the part per unit, the one that moves it most left out; at the end, less the root-sum-square allowance of the zone and crossfall x arm", "release 3 mm; travel 25 mm", "judgement"},
	{"strip.supports", "Hangers, plates, nuts and whatever stays are clear during every step.",
		"least signed distance over the step, less lag as in strip.clear; while jacks move and carry, the lean of strip.dig may use up the gap asked for, and what it takes beyond that is taken off: level, the gap is kept, and leaning, nothing is entered", "3 mm", "judgement; lean: statics of a rigid frame (derived)"},
	{"strip.level", "Any two jacks may differ by as much as the crew can be expected to keep, side to side and along.",
		"gap x gauge / height, least over everything beside a wall; gap / (arm across / gauge + arm along / L), least over every gap, L as in strip.dig; where a part could close its gap by going another way than along it, a search of the whole step finds the number (12 halvings), and the entry says so", "2.5 mm between any two jacks", "judgement; lean: statics of a rigid frame (derived)"},
	{"raise.lift", "Each lifting jack carries what its pad can have to, and lifts as high as the carrier has to go; one pass leaves the frame level enough between pads.",
		"load: the most on one pad with any two other places carrying (W/2 for a central load: rocking on two diagonal ones); stroke: jack raised - wheels + packing; tilt: pass / pad spacing, pass / gauge",
		"the jack's capacity and stroke; 15 mm over 1 m", "statics of a rigid frame (derived); passes of 10 mm are common practice; tilt: judgement, BS 5975 has it for falsework uprights (from memory)"},
	{"raise.clear", "Nothing touches on the way up for the next pour.",
		"the collapse taken back, against everything cast before and the bars ahead, less lag as in strip.clear; the lean of the frame with one pad a pass of lifting (in the last lift lifting.last) above the others may use up the gap asked for, and what it takes beyond that is taken off: pass / gauge x arm across + pass / L x arm along, L from the outermost wheels or bents to the first place beyond the middle; without lifting the jacks differ by jack_level", "3 mm", "judgement; lean: statics of a rigid frame (derived)"},
	{"roll.clear", "Clearance over the whole advance to the next pour in the order of casting, ahead or back, or out over the end, with tolerances taken off; the carrier's own imprint and concrete formed by others told apart.",
		"least signed distance over the advance, less the root-sum-square allowance of the zone, crossfall x arm, cross slope x arm of a twisted invert, and what may lie between two ways of standing on the wheels, swept 2 mm apart in height", "25 mm", "judgement"},
	{"roll.track", "Each tread with its wander stays off haunch toes, kickers and the low-flow channel.",
		"half span - haunch run - (gauge + tread) / 2 - wander; beside a channel: |gauge / 2 - offset| - (channel width + tread) / 2 - wander", "25 mm", "judgement"},
	{"roll.support", "Over the whole advance, and after the last pour until the form is out over the end, every wheel stands on placed invert.",
		"from the wheels to the end of the invert, along each tread; aprons count", "100 mm", "judgement"},
	{"roll.bend", "At angle points the carrier passes: the swept width leaves clearance beside walls and haunches, scrubbing wheels and the line carry what it takes, and the straight form fits the bent line.",
		"swept width: distance on the straight, less the throw square to the face, the root-sum-square allowance and crossfall x arm; throw inside, p and q from the two guides, B apart: h = 2 p q tan(phi) / (B + sqrt(B^2 + 4 p q tan(phi)^2)), (B/2) tan(phi/2) under mid base; outside overhang x sin(phi); a steering offset counts to its side; joints under the carrier at once count as one with all their turns; (told beside it: steered the best way (Lc/4) tan(phi/2) to each side); scrub: wheels slide B phi/2 at each outer line and push friction x the most on one wheel, a line of them W max(a, B - a)/B x friction, a from the rear line to the centre of gravity; pull: starting pull of roll.pull + W max(a, B - a)/B x friction x tan(phi); form across a joint: t sin(phi); mid-ordinate between chord and line",
		"25 mm; the wheel's side capacity; the line's capacity; dig 3 mm; mid-ordinate 10 mm", "geometry and statics (derived); limits: judgement; friction: travel.scrub, default: tyres on dry concrete 0.6 to 0.85, from memory"},
	{"roll.pull", "The line can start the carrier on the grade.",
		"W (sin a + f b cos a), not below 0; f the most rolling coefficient, b breakaway; tan a: the steepest rise on the way + tolerance.invert / wheelbase", "the line's capacity", "statics (derived); travel.rolling.most, travel.breakaway, travel.capacity, each default: judgement"},
	{"roll.hold", "Where the carrier could run, a restraint can hold it, set before plates leave the invert.",
		"wherever tan a > f: W (sin a - f cos a); f the least rolling coefficient; tan a: the steepest grade on the way, up or down, + tolerance.invert / wheelbase", "the restraint's capacity", "statics (derived); travel.rolling.least, default: judgement, the safe end"},
	{"roll.tip", "The collapsed carrier is stable across and along with a margin.",
		"W cos a x lever / (W sin a x height of the centre of gravity); lever to the nearer wheels; tan a along: the steepest grade + tolerance.invert / wheelbase; across: crossfall + tolerance.track_level / gauge", "1.5", "judgement"},
	{"roll.wheel", "A wheel carries its share standing, and the worst one rocking over uneven ground while it rolls. Own weight only: loads of the pour are not checked.",
		"standing: rigid frame on all wheels, W/n (1 + n ex x/(2 sum x^2) +- 2 ey/gauge), shifted by height x slope along and across; rocking: the most on one with any two others carrying (W/2 for a central load) x 1.6", "the gear's wheels.capacity; open where it is not stated", "statics of a rigid frame (derived); factor 1.6 on live load: ACI 318 (from memory), taken for rolling over edges by judgement"},
	{"roll.bearing", "The worst wheel load on the young invert is within what it bears by then: by cylinders, or by its equivalent age.",
		"1.6 x the most on one wheel, rocking as in roll.wheel, <= phi Bn = phi 0.85 f A1 min(sqrt(A2/A1), 2), phi 0.65; A1 = patch x tread; sqrt(A2/A1) = the least of 1 + 2 x edge across / tread, 1 + 2 x 100 mm along / patch and 1 + 4 x invert / the longer of both; f: concrete.invert_strength by cylinders, or fcm - 8 MPa for 3 d < t < 28 d and concrete.strength from 28 d on, fcm = exp(s (1 - sqrt(28/t))) (concrete.strength + 8 MPa), s = 0.20 (R), 0.25 (N), 0.38 (S) by concrete.cement; t: the equivalent age, sum of exp(13.65 - 4000/(273 + T)) dt over concrete.curing, 0 to 80 degC, up to schedule.invert_age; up to 3 d only tests tell", "phi Bn", "ACI 318-19 22.8.3.2, phi and load factor (from memory); EN 1992-1-1 3.1.2(6), its 8 MPa and 3 d (from memory), equivalent age B.10 (second-hand)"},
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

// IDs in the order that tables list them.
func IDs() []string {
	var out []string
	for _, e := range explanations {
		out = append(out, e.ID)
	}
	return out
}
