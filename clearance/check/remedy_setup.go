package check

import (
	"fmt"
	"math"

	"boxwalk/clearance/measure"
	"boxwalk/clearance/result"
	"boxwalk/model/carrier"
	"boxwalk/model/culvert"
)

func (b *bay) facesRemedy(e Judged) string {
	if float64(b.Carrier.Gear.Form.Length) < b.Needed-rangeSlack {
		return "the form is shorter than the pour: first fix what setup.length says"
	}
	return "compare the section with the gear's panel heights and widths, corner panel and fillers; `set: {foot: ..., filler: ...}` moves them"
}

// soffitRemedy is for a soffit that stands open where hangers stay; empty where
// nothing about them tells why.
func (b *bay) soffitRemedy(open float64) string {
	g, kept := b.Carrier.Gear, b.Carrier.Kept.Hangers
	if g.Roof.Pocket != nil || kept == nil || !b.hung() {
		return b.pocketRemedy(open)
	}
	if want := g.Form.Spacing - kept.Plate.X; g.Roof.FillerLength < want && float64(want-g.Roof.FillerLength) > b.limits.of("setup.faces").Value {
		return fmt.Sprintf("before and behind each plate the roof is open: filler pieces that reach from plate to plate, bent spacing %s - plate %s = %s (roof.filler_length)",
			b.mm(float64(g.Form.Spacing)), b.mm(float64(kept.Plate.X)), b.mm(float64(want)))
	}
	return ""
}

// pocketRemedy is for a soffit that stands open beside a hanger plate in a
// pocket of a one-piece roof; empty where it is not that.
func (b *bay) pocketRemedy(open float64) string {
	p, plate := b.Carrier.Gear.Roof.Pocket, b.Carrier.Kept.Hangers
	if p == nil {
		return ""
	}
	if plate == nil || !b.hung() {
		return "the panel has pockets (roof.pocket) and no hanger plate fills them: fill them flush before the pour, or take roof.pocket out and use panels without"
	}
	for _, y := range plate.Lines {
		if math.Abs(float64(y)) > float64(p.Y)/2 {
			return fmt.Sprintf("pockets lie on the centreline over every bent, and the plates %s beside it: hang the roof on the centreline (left_in_place.hangers.lines: [0 m])", b.mm(math.Abs(float64(y))))
		}
	}
	if float64(p.X)-float64(plate.Plate.X) > 2*open+measure.ContactTolerance || float64(p.Y)-float64(plate.Plate.Y) > 2*open+measure.ContactTolerance {
		return "not every pocket has a plate in it; fill those without one flush before the pour"
	}
	play := b.pocketPlay()
	return fmt.Sprintf("a pocket has to leave the plate %s of play all round while the roof comes down (strip.supports), and what that leaves open is closed before the pour by a compressible seal round the plate: state its width (roof.seal: %s)",
		b.mm(play), b.atLeast(open))
}

// hung tells whether hangers stay over any bent.
func (b *bay) hung() bool {
	for _, s := range b.Stripped.Solids {
		if s.Zone == culvert.Hanger {
			return true
		}
	}
	return false
}

// rangeRemedy is for readings and steps; what a dimension of the setting needs is told
// with it.
func (b *bay) rangeRemedy(e Judged) string {
	switch {
	case e.Subject.Kind == lockedIn+e.Where.Step:
		return fmt.Sprintf("take the link out of `locked:` in step %q, so that it can follow", e.Where.Step)
	case e.Verdict == result.Fail && e.Subject.Step != "":
		return fmt.Sprintf("change the reading in step %q, or the step before it, so that every link can close", e.Where.Step)
	}
	return b.readingRemedy(e)
}

// settingRemedy goes by the dimension that cannot be reached.
func (b *bay) settingRemedy(of carrier.Dimension) string {
	switch of {
	case carrier.CornerSize:
		return "take gear whose corner panel is made for this haunch (corner.haunch), or build the section with the haunch that it fits"
	case carrier.WallStack:
		return b.stackRemedy()
	case carrier.WallFoot, carrier.KickerReach:
		return "a wall panel of another height (wall.heights) or another reach over the kicker (`set: {foot: ...}`, kicker height)"
	case carrier.FillerWidth:
		c := b.Carrier.Gear.Roof.Filler
		return fmt.Sprintf("a roof panel %s to %s wide (roof.widths): edge of the corner panel %s less the filler's share; or fillers of another width (roof.filler)",
			b.mm(b.Carrier.PanelBeside(float64(c.Max))), b.mm(b.Carrier.PanelBeside(float64(c.Min))), b.mm(b.Carrier.Edge))
	case carrier.RoofWidth:
		return "a roof panel of another width (roof.widths), or fillers of another (`set: {filler: ...}`)"
	case carrier.LegLength, carrier.LegOverlap, carrier.JackReading:
		return heightRemedy
	case carrier.Gauge:
		return "set a gauge that the frame has (`set: {gauge: ...}`)"
	case carrier.ArmOverlap:
		return "longer header arms (frame.header.arm.length) or a longer tube (frame.header.length)"
	}
	return ""
}

const heightRemedy = "another hole of the legs (`set: {leg: ...}`), longer or shorter leg tubes (frame.leg), or packing under the roof (roof.seat)"

func (b *bay) stackRemedy() string {
	top, over := b.Carrier.PlaneTop-float64(b.Carrier.Gear.Corner.Leg), b.Carrier.Gear.Wall.OverKicker
	reach := top - b.Cell.Kicker
	return fmt.Sprintf("wall panels of another height, so that a stack is %s to %s high (wall.heights): %s from the kicker up, and what reaches over it; or another kicker",
		b.mm(reach+float64(over.Min)), b.mm(reach+float64(over.Max)), b.mm(reach))
}

func (b *bay) readingRemedy(e Judged) string {
	if e.Where.Step != "" && !b.turnedIn(e.Where.Step, e.Where.Part) {
		return "it stands so as raised, before any step: gear whose adjuster has that range (links: length, jack.reading, slide.draw), or its pins elsewhere (links: from, to)"
	}
	if e.Where.Step == "" || e.Where.Step == "raised" {
		return "set the gear otherwise (`set:` in the job), or take gear with the range"
	}
	return fmt.Sprintf("another reading in step %q (`sequence:` in the job, `steps:` in the gear), another setting (`set:`), or gear with the range", e.Where.Step)
}

// turnedIn tells whether an adjuster reads otherwise at a step's end than raised.
func (b *bay) turnedIn(step, label string) bool {
	for _, s := range b.Steps {
		for _, m := range s.Moves {
			if a := b.Carrier.Adjusters[m.Adjuster]; s.Name == step && a.Label() == label {
				return math.Abs(m.From-a.Raised) > rangeSlack || math.Abs(m.To-a.Raised) > rangeSlack
			}
		}
	}
	return false
}

func (b *bay) restRemedy(e Judged) string {
	switch e.Subject.What {
	case "wheels raised":
		return fmt.Sprintf("pin the legs shorter, in another hole (`set: {leg: ...}`), so that the jacks stand out to at least %s", b.atLeast(b.Carrier.Wheels+*e.Limit))
	case "wheels collapsed":
		return "let the last steps lower the jacks until the wheels carry (`jack: wheels`)"
	case "plates collapsed":
		return "raise the plates farther in the last step (such as `jack: wheels - 60 mm`)"
	}
	return "choose another leg hole (`set: {leg: ...}`), or end the last step on the wheels with the plates farther up"
}

// overhangRemedy is for what hangs over an edge of the placed invert.
func (b *bay) overhangRemedy(role carrier.Role, over float64, end string) string {
	if end != "" {
		return b.longerApron(end, over)
	}
	what := map[carrier.Role]string{carrier.JackPlate: "jack plates", carrier.Wheel: "wheels"}[role]
	return "another gauge, with which the " + what + " keep clear of the channel (`set: {gauge: ...}`), or lay the channel elsewhere (culvert.channel); what bridges it is for the engineer"
}

func (b *bay) lengthRemedy(e Judged) string {
	short := b.Needed - float64(b.Carrier.Gear.Form.Length)
	text := fmt.Sprintf("shorten the pour by at least %s (culvert.pours) or take a form that much longer (form.length, with its bents)", b.atLeast(short))
	if b.Pour.Lap > 0 {
		text += "; less lap counts too (culvert.lap)"
	}
	return text
}
