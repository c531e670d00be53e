package check

import (
	"fmt"
	"math"
	"strings"

	"boxwalk/clearance/result"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// ground is how the ground may slope under a carrier, rise over run: along between two
// slopes, across by so much either way; and where these come from.
type ground struct {
	least, most, across      float64
	fromAlong, fromAcross    string
	what, one, fromPlace     string // what it stands on: wheels, a wheel, and the key of their places
	others                   string // what carries beside one where only three do
	lines                    []units.Length
	worstStanding, worstRock load.Worst
}

// underWheels is the ground of the way under the wheels, with what was worked out of
// it.
func (r *route) underWheels(s shared) ground {
	tracks := fmt.Sprintf("alignment.crossfall + tolerance.track_level (%s) / gauge", r.bay.Tol.Source("track_level"))
	return ground{least: r.least, most: r.most, across: r.acrossSlope(), fromAlong: "grades of the way (alignment.profile), with tolerance.invert over the wheelbase", fromAcross: tracks,
		what: "wheels", one: "wheel", others: "wheel", fromPlace: "wheels.at (gear)", lines: s.on.Lines, worstStanding: s.standing, worstRock: s.rocking}
}

// underJacks is the ground under the jacks of a raised carrier.
func (r *route) underJacks(s shared, grade float64) ground {
	return ground{least: grade, most: grade, across: r.bay.Crossfall, fromAlong: "grade of the pour (alignment.profile)", fromAcross: "alignment.crossfall (job)",
		what: "jacks", one: "jack", others: "jack", fromPlace: "bents (gear)", lines: s.on.Lines, worstStanding: s.standing, worstRock: s.rocking}
}

// fromRear is a place along the carrier from the rear end of its form, as the gear file
// has it.
func (r *route) fromRear(x units.Length) float64 { return float64(x) - r.bay.Carrier.Rear }

// standsCentre is where the plumb line through the centre of gravity meets the ground
// when one place carries the most.
func (r *route) standsCentre(w *result.Working, g ground, most load.Worst) {
	off, from := "c_l - u_y - h * i_a", r.massFrom()
	if r.left(most) {
		off = "c_l + u_y + h * i_a"
	}
	w.Given("c_0", "centre of gravity from the rear end of the form", r.centre[0]-r.bay.Carrier.Rear, "m", from)
	w.Given("u_x", "how far it may be off that, either way", r.unsure[0], "m", from)
	w.Given("h", "its height above the ground, at most", r.centre[2], "m", from)
	w.Given("i_l", "least slope along, up positive", g.least, "1", g.fromAlong)
	w.Given("i_m", "greatest slope along", g.most, "1", g.fromAlong)
	w.Given("X_1", "place of the "+g.one+" that carries the most, from the rear end", r.fromRear(most.Line), "m", g.fromPlace)
	w.Step("c_r", "where its plumb line meets the ground, rearmost", "c_0 - u_x - h * i_m", "m", "")
	w.Step("c_f", "where its plumb line meets the ground, foremost", "c_0 + u_x - h * i_l", "m", "")
	w.Step("c_x", "of these, the place nearest to that "+g.one, "min(max(X_1, c_r), c_f)", "m", "")
	w.Given("c_l", "centre of gravity left of the middle", settled(r.centre[1]), "m", from)
	w.Given("u_y", "how far it may be off that, either way", r.unsure[1], "m", from)
	w.Given("i_a", "slope across, either way", g.across, "1", g.fromAcross)
	w.Step("c_y", "where its plumb line meets the ground, left of the middle", off, "m", "")
	w.Given("b", "gauge", r.bay.Carrier.Gauge, "m", "set: gauge")
}

// left tells on which side of its place the centre of gravity is taken.
func (r *route) left(most load.Worst) bool { return float64(most.Off) >= r.centre[1] }

// workedStanding is the most on one place of a rigid frame that stands on all.
func (r *route) workedStanding(g ground) []result.Line {
	var w result.Working
	r.standsStanding(&w, g)
	return w.Lines()
}

func (r *route) standsStanding(w *result.Working, g ground) {
	var mean, squares float64
	var places []string
	for _, x := range g.lines {
		mean += r.fromRear(x) / float64(len(g.lines))
		places = append(places, fmt.Sprintf("%.4g", r.fromRear(x)))
	}
	for _, x := range g.lines {
		squares += (r.fromRear(x) - mean) * (r.fromRear(x) - mean)
	}
	from := g.fromPlace + ": at " + strings.Join(places, ", ") + " m from the rear end"
	r.standsWeight(w)
	r.standsCentre(w, g, g.worstStanding)
	w.Given("n", "lines of "+g.what+", one left and one right each", float64(len(g.lines)), "1", from)
	w.Given("X_m", "mean of their places", mean, "m", from)
	w.Given("S", "sum of the squares of their distances from it", squares, "m2", from)
	sign := "-"
	if g.worstStanding.Left {
		sign = "+"
	}
	w.Step("R", "the most that one "+g.one+" carries, standing", "W / (2 * n) * (1 + n * (c_x - X_m) * (X_1 - X_m) / S "+sign+" 2 * c_y / b)", "kN", "statics of a rigid frame on equal supports")
}

// workedRocking is the most on one place where three carry alone, times a factor.
func (r *route) workedRocking(g ground, factor float64) []result.Line {
	var w result.Working
	r.standsRocking(&w, g)
	if factor != 1 {
		w.Given("gamma", "factor for rolling over edges", factor, "1", "live load of ACI 318, from memory; taken for it by judgement")
		w.Step("F", "with its factor", "gamma * R", "kN", "")
	}
	return w.Lines()
}

func (r *route) standsRocking(w *result.Working, g ground) {
	most := g.worstRock
	r.standsWeight(w)
	r.standsCentre(w, g, most)
	half := map[bool]string{true: "b / 2", false: "-b / 2"}
	w.Step("Y_1", "that "+g.one+" left of the middle", half[most.Left], "m", "")
	for i, other := range most.With {
		n := i + 2
		w.Given(fmt.Sprintf("X_%d", n), "a "+g.others+" that carries beside it, from the rear end", r.fromRear(other[0]), "m", g.fromPlace)
		w.Step(fmt.Sprintf("Y_%d", n), "left of the middle", half[other[1] > 0], "m", "")
	}
	for i, pair := range [3][2]int{{2, 3}, {3, 1}, {1, 2}} {
		w.Step(fmt.Sprintf("A_%d", i+1), fmt.Sprintf("moment of place %d and the plumb line about place %d, for a unit of load", pair[0], pair[1]),
			fmt.Sprintf("(X_%[1]d - c_x) * (Y_%[2]d - c_y) - (X_%[2]d - c_x) * (Y_%[1]d - c_y)", pair[0], pair[1]), "m2", "")
	}
	w.Step("R", "the most that one "+g.one+" carries, on three alone", "W * A_1 / (A_1 + A_2 + A_3)", "kN", "statics: moments about the axis through the two others")
}

// workedTipping is restoring over overturning moment one way.
func (r *route) workedTipping(way string) []result.Line {
	var w result.Working
	from := r.massFrom()
	w.Given("h", "height of the centre of gravity, at most", r.centre[2], "m", from)
	if way == "across" {
		w.Given("b", "gauge", r.bay.Carrier.Gauge, "m", "set: gauge")
		w.Given("c_l", "centre of gravity left of the middle", settled(r.centre[1]), "m", from)
		w.Given("u_y", "how far it may be off that, either way", r.unsure[1], "m", from)
		w.Step("l", "lever to the nearer wheels", "b / 2 - abs(c_l) - u_y", "m", "")
		w.Given("i_c", "crossfall", math.Abs(float64(r.job.Alignment.Crossfall)), "1", "alignment.crossfall (job)")
		w.Given("d_t", "tolerance of the tracks' level", r.bay.Tol.Value("track_level"), "m", "tolerance.track_level: "+r.bay.Tol.Source("track_level"))
		w.Step("i", "slope across", "i_c + d_t / b", "1", "")
	} else {
		lines := r.wheelLines()
		w.Given("c_0", "centre of gravity from the rear end of the form", r.centre[0]-r.bay.Carrier.Rear, "m", from)
		w.Given("u_x", "how far it may be off that, either way", r.unsure[0], "m", from)
		w.Given("X_r", "rear wheel line from the rear end", r.fromRear(lines[0]), "m", "wheels.at (gear)")
		w.Given("X_f", "front wheel line from the rear end", r.fromRear(lines[len(lines)-1]), "m", "wheels.at (gear)")
		w.Step("l", "lever to the nearer wheel line", "min(c_0 - X_r, X_f - c_0) - u_x", "m", "")
		r.standsOff(&w)
		r.standsSteepest(&w)
	}
	w.Step("nu", "restoring over overturning moment", "l / (h * i)", "1", "statics: W cos a l / (W sin a h), tan a = i")
	return w.Lines()
}

// settled is a length without what rounding leaves of nothing, which no reader of a
// working can do anything with: below a millionth of a micrometre.
func settled(v float64) float64 {
	if math.Abs(v) < 1e-12 {
		return 0
	}
	return v
}
