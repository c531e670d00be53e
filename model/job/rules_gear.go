package job

import (
	"fmt"
	"math"
	"slices"

	"boxwalk/model/units"
)

// Check holds the rules between the keys of the form: bents lie within it.
func (f *Form) Check(d *Decoder, path string) {
	last := f.First + units.Length(f.Bents-1)*f.Spacing
	if last > f.Length {
		fix := "write a longer form, or bents nearer together"
		if most := int((f.Length-f.First)/f.Spacing) + 1; most >= 2 {
			fix = fmt.Sprintf("write at most %d", most)
		}
		d.FailAt(path+".bents", fmt.Sprintf("puts the last bent at %s, beyond the form", last.Text(d.System())),
			fmt.Sprintf("first %s + %d x %s = %s; the form is %s long", f.First.Text(d.System()), f.Bents-1, f.Spacing.Text(d.System()), last.Text(d.System()), f.Length.Text(d.System())), fix)
	}
}

// Check holds the rules between groups of the gear: what stands along the form
// lies within it, and fillers fit between the bents.
func (g *Gear) Check(d *Decoder, path string) {
	g.checkCounts(d)
	g.checkAcross(d)
	g.checkWheels(d)
	g.checkLifting(d)
	g.checkFillerLength(d)
}

// checkFillerLength asks that the headers of two bents leave room for a filler.
func (g *Gear) checkFillerLength(d *Decoder) {
	if g.Form.Spacing <= g.Frame.Header.Section.X {
		d.FailAt("form.spacing", fmt.Sprintf("%s leaves no room between two headers", g.Form.Spacing.Text(d.System())), "a header is "+g.Frame.Header.Section.X.Text(d.System())+" long along the cell", "write for example 1200 mm")
		return
	}
	if clear := g.Form.Spacing - g.Frame.Header.Section.X; g.Roof.FillerLength > clear {
		d.FailAt("roof.filler_length", fmt.Sprintf("%s cannot come down between two headers", g.Roof.FillerLength.Text(d.System())), fmt.Sprintf("bent spacing %s - header %s = %s", g.Form.Spacing.Text(d.System()), g.Frame.Header.Section.X.Text(d.System()), clear.Text(d.System())), "write at most "+clear.Text(d.System()))
	}
}

// checkWheels asks that the wheels lie along the form, apart from each other and
// below the sills.
func (g *Gear) checkWheels(d *Decoder) {
	sys := d.System()
	for i, at := range g.Wheels.At {
		if at < 0 || at > g.Form.Length {
			d.FailAt(fmt.Sprintf("wheels.at[%d]", i), fmt.Sprintf("%s lies outside the form", at.Text(d.System())), "the form is "+g.Form.Length.Text(d.System())+" long", "write a place between 0 m and "+g.Form.Length.Text(d.System()))
		}
	}
	if len(g.Wheels.At) < 2 {
		d.FailAt("wheels.at", "names fewer than two wheel lines", "a carrier on one wheel line tips", "write two places or more, from the rear end of the form, such as near its two ends")
	}
	for i, a := range g.Wheels.At {
		for k, b := range g.Wheels.At[:i] {
			if gap := units.Length(math.Abs(float64(a - b))); gap < g.Wheels.Diameter {
				d.FailAt(item("wheels.at", i), fmt.Sprintf("%s runs into wheel line %d", a.Text(sys), k+1), fmt.Sprintf("%s apart; a wheel is %s long", gap.Text(sys), g.Wheels.Diameter.Text(sys)), "write places at least "+g.Wheels.Diameter.Text(sys)+" apart")
				return
			}
		}
	}
	if most := g.Wheels.Diameter * flattest; g.Wheels.Patch > most {
		d.FailAt("wheels.patch", fmt.Sprintf("%s is no contact of such a wheel", g.Wheels.Patch.Text(sys)), fmt.Sprintf("a wheel %s in diameter that is pressed flat over more than half of it is no wheel any more", g.Wheels.Diameter.Text(sys)), "write at most "+most.Text(sys)+", as measured under load")
	}
	if radius := g.Wheels.Diameter / 2; g.Wheels.Axle < radius {
		d.FailAt("wheels.axle", fmt.Sprintf("%s puts the wheel into the sill", g.Wheels.Axle.Text(sys)), fmt.Sprintf("half the diameter is %s, and the axle is counted from the sill's underside", radius.Text(sys)), "write at least "+radius.Text(sys))
	}
}

// flattest is the longest contact of a wheel, as a share of its diameter: a tyre
// pressed flat over half its diameter has lost 1 - cos 30 deg = 13 % of its radius;
// judgement.
const flattest = 0.5

// checkAcross asks that what stands under the two legs keeps clear of the other
// side's.
func (g *Gear) checkAcross(d *Decoder) {
	sys, least := d.System(), units.Length(0)
	what := ""
	for _, w := range []struct {
		what string
		wide units.Length
	}{{"sill", g.Frame.Sill.X}, {"leg", g.Frame.Leg.Section}, {"jack plate", g.Jack.Plate.Y}, {"tread", g.Wheels.Tread}} {
		if w.wide > least {
			what, least = w.what, w.wide
		}
	}
	if gauge := g.Frame.Gauge; gauge.Min <= least {
		d.FailAt("frame.gauge.min", fmt.Sprintf("%s puts the two sides into each other", gauge.Min.Text(sys)), fmt.Sprintf("a %s is %s wide", what, least.Text(sys)), "write more than "+least.Text(sys))
	}
	if g.Jack.Screw >= g.Frame.Leg.Section {
		d.FailAt("jack.screw", fmt.Sprintf("%s does not run in the leg", g.Jack.Screw.Text(sys)), "the leg is "+g.Frame.Leg.Section.Text(sys)+" wide", "write less than "+g.Frame.Leg.Section.Text(sys))
	}
}

// Check asks that the least reading keeps the sill above the plate.
func (j *Jack) Check(d *Decoder, path string) {
	if j.Reading.Min <= j.Plate.Z {
		d.FailAt(path+".reading.min", fmt.Sprintf("%s puts the sill into the jack plate", j.Reading.Min.Text(d.System())), "the plate is "+j.Plate.Z.Text(d.System())+" thick, and the reading goes from the sill's underside to the plate's underside", "write more than "+j.Plate.Z.Text(d.System()))
	}
}

// Check asks that the facing is part of the panel's depth.
func (w *WallPanels) Check(d *Decoder, path string) { facingFits(d, path, w.Facing, w.Depth) }

func facingFits(d *Decoder, path string, facing, depth units.Length) {
	if facing >= depth {
		d.FailAt(path+".facing", facing.Text(d.System())+" leaves nothing for the frame", "facing and frame are "+depth.Text(d.System())+" deep together", "write less than "+depth.Text(d.System()))
	}
}

// Check asks that facing, taper and pocket lie within a panel.
func (r *RoofPanels) Check(d *Decoder, path string) {
	sys := d.System()
	facingFits(d, path, r.Facing, r.Depth)
	narrow := slices.Min(r.Widths)
	if r.Taper >= narrow {
		d.FailAt(path+".taper", r.Taper.Text(sys)+" leaves no panel at the underside", "the narrowest panel is "+narrow.Text(sys), "write less than "+narrow.Text(sys))
	}
	if r.Pocket == nil {
		if r.Seal > 0 {
			d.FailAt(path+".seal", r.Seal.Text(sys)+" seals no pocket", "a seal lies round the hanger plate in a pocket of the facing", "give pocket: {length x width x depth}, or leave seal out")
		}
		return
	}
	if r.Pocket.Z >= r.Depth {
		d.FailAt(path+".pocket", r.Pocket.Z.Text(sys)+" cuts through the panel", "the panel is "+r.Depth.Text(sys)+" deep", "write a depth of less than "+r.Depth.Text(sys))
	}
	if r.Pocket.Y/2 >= narrow-r.Taper {
		d.FailAt(path+".pocket", r.Pocket.Y.Text(sys)+" is wider than the panel", fmt.Sprintf("half of it is %s; half the roof less the taper is %s", (r.Pocket.Y/2).Text(sys), (narrow-r.Taper).Text(sys)), "write a width of less than "+(2*(narrow-r.Taper)).Text(sys))
	}
}

// Check asks for a haunch with run and rise, or none, and for a return on it.
func (c *Corner) Check(d *Decoder, path string) {
	sys := d.System()
	if (c.Haunch.X == 0) != (c.Haunch.Y == 0) {
		d.FailAt(path+".haunch", "has a run or a rise of nothing", "", "write 0 x 0 mm where there is no haunch")
		return
	}
	switch {
	case c.Return > 0 && c.Haunch.Y == 0:
		d.FailAt(path+".return", "lies on a haunch that is not there", "the haunch is 0 x 0", "leave return out")
	case c.Return > 0 && c.Return >= c.Haunch.Y:
		d.FailAt(path+".return", c.Return.Text(sys)+" leaves nothing of the corner panel", "the haunch is "+c.Haunch.Y.Text(sys)+" high", "write less than "+c.Haunch.Y.Text(sys))
	}
}

// Check asks that the tubes are longer than what they overlap by.
func (l *Leg) Check(d *Decoder, path string) {
	if short := min(l.Outer, l.Inner); l.Overlap >= short {
		d.FailAt(path+".overlap", l.Overlap.Text(d.System())+" leaves no tube to draw out", "the shorter tube is "+short.Text(d.System())+" long", "write less than "+short.Text(d.System()))
	}
}

// Check asks that the arms run in the tube.
func (h *Header) Check(d *Decoder, path string) {
	if h.Arm == nil {
		return
	}
	sys := d.System()
	if h.Arm.Section.X >= h.Section.X || h.Arm.Section.Y >= h.Section.Y {
		d.FailAt(path+".arm.section", fmt.Sprintf("%s x %s does not run in the tube", h.Arm.Section.X.Text(sys), h.Arm.Section.Y.Text(sys)), fmt.Sprintf("the tube is %s x %s outside", h.Section.X.Text(sys), h.Section.Y.Text(sys)), fmt.Sprintf("write less than %s and %s", h.Section.X.Text(sys), h.Section.Y.Text(sys)))
	}
	if h.Arm.Overlap >= h.Arm.Length {
		d.FailAt(path+".arm.overlap", h.Arm.Overlap.Text(sys)+" leaves no arm to draw out", "the arm is "+h.Arm.Length.Text(sys)+" long", "write less than "+h.Arm.Length.Text(sys))
	}
}

// mostValues bounds the values of a stepped adjuster: a hole every tenth of a
// millimetre over a metre. What is finer is stepless.
const mostValues = 10000

// Check asks that the preferred value and the increment lie in the range. That
// the range runs upward is asked with the kind's needs.
func (a *Adjust) Check(d *Decoder, path string) {
	sys, wide := d.System(), a.Max-a.Min
	if wide < 0 {
		return
	}
	if p := a.Prefer; p != nil && (*p < a.Min || *p > a.Max) {
		d.FailAt(path+".prefer", p.Text(sys)+" lies outside the range", fmt.Sprintf("from %s to %s", a.Min.Text(sys), a.Max.Text(sys)), "write for example "+a.Max.Text(sys))
	}
	switch n := math.Ceil(float64(wide / a.Increment)); {
	case a.Increment == 0 || wide == 0:
	case a.Increment > wide:
		d.FailAt(path+".increment", a.Increment.Text(sys)+" is more than the range", fmt.Sprintf("%s - %s = %s", a.Max.Text(sys), a.Min.Text(sys), wide.Text(sys)), "write at most "+wide.Text(sys)+", or 0 mm where it is stepless")
	case n > mostValues:
		d.FailAt(path+".increment", fmt.Sprintf("makes %.0f values", n), fmt.Sprintf("%s / %s; the most is %d", wide.Text(sys), a.Increment.Text(sys), mostValues), "write 0 mm where it is stepless")
	}
}
