package check

import (
	"math"

	"boxwalk/clearance/result"
)

// workedMiddle is how far a straight pour leaves its alignment.
func (b *bay) workedMiddle() []result.Line {
	var w result.Working
	w.Given("m", "greatest distance of the alignment from the pour's straight line", b.Pour.MidOrdinate, "m", "alignment (job), between the pour's joints")
	return w.Lines()
}

// workedLap is how deep a form's end that reaches across a bend enters one side.
func workedLap(over, turn float64) []result.Line {
	var w result.Working
	w.Given("t", "form beyond the bend, on the outside", over, "m", "form.length (gear), culvert.pours, culvert.lap (job)")
	w.Given("phi", "bend", math.Abs(turn), "rad", "alignment (job)")
	w.Step("d", "how deep its end enters one side", "t * sin(phi)", "m", "geometry")
	return w.Lines()
}

// workedSwept is what a part has left beside a bend: its gap on the straight less what
// it is thrown, square to the face.
func (r *bending) workedSwept(x0, x1 float64, f face, b bowed, straight float64) []result.Line {
	var w result.Working
	rear, front := r.guides()
	w.Given("a_0", "clear of the face on the straight", straight, "m", "geometry of the collapsed carrier")
	w.Given("n", "share of a move sideways that is square to the face", f.n, "1", "culvert.haunch (job)")
	w.Given("phi", "bend", r.turning.all, "rad", "alignment (job), joints under the carrier together")
	in, out := r.beside()
	if b.toward == "inside" {
		at := math.Max(rear, math.Min(front, math.Max(x0, math.Min(x1, (rear+front)/2))))
		w.Given("B", "distance of what is guided along the bend", front-rear, "m", "wheels.at (gear), travel.rollers (job)")
		w.Given("p", "of the part, the place nearest to their middle, from the rear one", at-rear, "m", "geometry")
		w.Given("o", "moved over toward the inside", in, "m", "travel.offset (job)")
		w.Step("q", "from there to the front one", "max(0, B - p)", "m", "")
		w.Step("y", "thrown to the inside", "2 * p * q * tan(phi) / (B + sqrt(B^2 + 4 * p * q * tan(phi)^2)) + o", "m", "geometry: atan(y/p) + atan(y/q) = phi")
	} else {
		w.Given("v", "overhang of the part beyond what is guided", math.Max(0, math.Max(rear-x0, x1-front)), "m", "geometry")
		w.Given("o", "moved over toward the outside", out, "m", "travel.offset (job)")
		w.Step("y", "thrown to the outside", "v * sin(phi) + o", "m", "geometry")
	}
	w.Step("a", "left beside the bend", "a_0 - n * y", "m", "")
	return w.Lines()
}

// workedScrub is the side force on one wheel that slides.
func (r *bending) workedScrub(wheel float64) []result.Line {
	var w result.Working
	w.Given("R", "the most that one wheel carries, on three alone", wheel, "kN", "roll.wheel, rocking, without its factor")
	w.Given("mu", "friction sideways", float64(r.route.job.Travel.Scrub), "1", whose(r.route.job, "travel.scrub"))
	w.Step("Q", "side force on it", "mu * R", "kN", "statics of a wheel that slides")
	return w.Lines()
}

// workedBentPull is the pull that starts the carrier while its wheels scrub.
func (r *bending) workedBentPull() []result.Line {
	var w result.Working
	rear, _ := r.ends()
	r.route.standsPull(&w)
	w.Given("mu", "friction sideways", float64(r.route.job.Travel.Scrub), "1", whose(r.route.job, "travel.scrub"))
	w.Given("phi", "bend", r.turning.all, "rad", "alignment (job), joints under the carrier together")
	w.Given("a", "centre of gravity ahead of the rear wheel line", r.route.centre[0]-rear, "m", r.route.massFrom())
	w.Step("F_s", "what scrubbing adds", "mu * W * max(a / B, 1 - a / B) * tan(phi)", "kN", "statics of wheels that slide sideways")
	w.Step("F_b", "pull that starts it round the bend", "F + F_s", "kN", "")
	return w.Lines()
}
