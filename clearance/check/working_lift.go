package check

import (
	"math"

	"boxwalk/clearance/result"
	"boxwalk/model/job"
	"boxwalk/model/load"
	"boxwalk/model/units"
)

// workedLift is the most that the lifting jack under one pad can have to carry.
func (r *route) workedLift(l *job.Lifting, grade float64, most load.Worst) []result.Line {
	along, across := math.Abs(grade)+float64(l.Pass)/float64(nearest(l.Pads)), math.Abs(r.bay.Crossfall)+float64(l.Pass)/r.bay.Carrier.Gauge
	g := ground{least: -along, most: along, across: across, worstRock: most, one: "pad", others: "pad, wheel or jack", fromPlace: "lifting.pads, wheels.at, bents (gear)",
		fromAlong: "grade of the pour, either way, + lifting.pass / distance of the pads", fromAcross: "alignment.crossfall + lifting.pass / gauge"}
	var w result.Working
	r.standsRocking(&w, g)
	return w.Lines()
}

// workedStroke is the stroke that a lifting jack needs.
func (r *route) workedStroke(l *job.Lifting) []result.Line {
	var w result.Working
	w.Given("J", "jack reading raised", r.bay.Carrier.Jack, "m", "setting")
	w.Given("J_w", "jack reading at which the wheels touch", r.bay.Carrier.Wheels, "m", "gear")
	w.Given("p", "packing and play before it carries", float64(l.Packing), "m", "lifting.packing (gear)")
	w.Step("s", "stroke needed", "max(0, J - J_w) + p", "m", "")
	return w.Lines()
}

// workedTilt is the slope between neighbouring pads.
func workedTilt(pass, apart units.Length) []result.Line {
	var w result.Working
	w.Given("p", "pass: one pad above the next", float64(pass), "m", "lifting.pass (gear)")
	w.Given("a", "distance of the two", float64(apart), "m", "lifting.pads; gauge")
	w.Given("l", "length over which it is told", 1, "m", "limits.raise.lift is over a metre")
	w.Step("t", "out of level over that length", "l * p / a", "m", "geometry")
	return w.Lines()
}

// workedDiffer is what a vertex beside a wall leaves between jacks.
func (b *bay) workedDiffer(gap, height float64) func() []result.Line {
	return func() []result.Line {
		var w result.Working
		w.Given("a", "gap to the wall, least in the step", gap, "m", "geometry of the step")
		w.Given("b", "gauge", b.Carrier.Gauge, "m", "set: gauge")
		w.Given("z", "height of the vertex above the invert, at most", height, "m", "geometry of the step")
		w.Step("d", "difference between jacks that closes the gap", "a * b / z", "m", "geometry: the frame turns about its feet")
		return w.Lines()
	}
}

// workedLength is the form's length, after what the pour needs.
func (b *bay) workedLength() []result.Line {
	var w result.Working
	w.Given("P", "pour in its cell, rearmost to foremost corner", b.Needed-b.Pour.Lap, "m", "culvert.pours, culvert.skew (job)")
	w.Given("l", "lap over the pour before", b.Pour.Lap, "m", "culvert.lap (job)")
	w.Step("N", "length needed, the limit", "P + l", "m", "")
	w.Given("L", "length of the form", float64(b.Carrier.Gear.Form.Length), "m", "form.length (gear)")
	return w.Lines()
}

// workedHang is by how much the wheels hang off the level of the invert, or plates
// stand above it: one reading of the jacks less another.
func (b *bay) workedHang(jack float64, formula, means string) func() []result.Line {
	return func() []result.Line {
		var w result.Working
		w.Given("J", "jack reading", jack, "m", "setting, steps")
		w.Given("J_w", "jack reading at which the wheels touch", b.Carrier.Wheels, "m", "gear")
		w.Step("a", means, formula, "m", "")
		return w.Lines()
	}
}

// workedTrack is how far the treads run from what is beside them.
func (r *route) workedTrack() []result.Line {
	var w result.Working
	w.Given("s", "span of the cell", 2*r.bay.Cell.HalfSpan, "m", "culvert.span (job)")
	run := 0.0
	if r.bay.Cell.Bottom.Exists() {
		run = r.bay.Cell.Bottom.Run
	}
	w.Given("r", "run of the bottom haunch", run, "m", "culvert.haunch (job)")
	w.Given("b", "gauge", r.bay.Carrier.Gauge, "m", "set: gauge")
	w.Given("t", "width of a tread", float64(r.bay.Carrier.Gear.Wheels.Tread), "m", "wheels.tread (gear)")
	w.Step("a", "from the treads' outer edge to toe or wall", "s / 2 - r - (b + t) / 2", "m", "")
	return w.Lines()
}

// workedChannel is how far the nearer tread runs from the low-flow channel.
func (r *route) workedChannel() []result.Line {
	var w result.Working
	c := r.bay.Cell.Channel
	w.Given("o", "channel's middle left of the cell's", c.Offset, "m", "culvert.channel.offset (job)")
	w.Given("v", "width of the channel", c.Width, "m", "culvert.channel.width (job)")
	w.Given("b", "gauge", r.bay.Carrier.Gauge, "m", "set: gauge")
	w.Given("t", "width of a tread", float64(r.bay.Carrier.Gear.Wheels.Tread), "m", "wheels.tread (gear)")
	w.Step("a", "from the nearer tread to the channel's edge", "min(abs(b / 2 - o), abs(b / 2 + o)) - v / 2 - t / 2", "m", "")
	return w.Lines()
}

// workedSupport is what is left between a wheel line at the end of its way and the end
// of the invert.
func (r *route) workedSupport(wheel, left float64, outlet bool) []result.Line {
	var w result.Working
	end, formula := wheel-left, "x_w - x_e"
	if outlet {
		end, formula = wheel+left, "x_e - x_w"
	}
	w.Given("x_w", "outer wheel line at the end of its way, from the rear end of the pour", wheel, "m", "wheels.at (gear), way rolled")
	w.Given("x_e", "end of the placed invert along the nearer tread, from there", end, "m", "culvert.pours, culvert.skew, ends (job)")
	w.Step("a", "left", formula, "m", "")
	return w.Lines()
}

// workedJoint is the joint's gap, after the widest that a wheel bridges.
func workedJoint(radius, gap float64) []result.Line {
	var w result.Working
	w.Given("r", "radius of a wheel", radius, "m", "wheels.diameter / 2 (gear)")
	w.Given("d", "dip that a wheel takes", jointDip, "m", "judgement")
	w.Step("g_m", "widest joint that it bridges, the limit", "2 * sqrt(d * (2 * r - d))", "m", "geometry: chord of a sagitta")
	w.Given("g", "joints are open by", gap, "m", "culvert.joint_gap (job)")
	return w.Lines()
}
