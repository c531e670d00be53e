package job

import (
	"fmt"
	"math"

	"boxwalk/model/units"
)

// padsApart is the least distance between two lifting pads: room for one jack;
// judgement.
const padsApart units.Length = 0.100

// checkLifting asks that the pads lie along the form one after the other, free
// of wheels and jack plates, so that a jack can be set under the sill there.
func (g *Gear) checkLifting(d *Decoder) {
	if g.Lifting == nil {
		return
	}
	sys, pads := d.System(), g.Lifting.Pads
	for i, x := range pads {
		path := item("lifting.pads", i)
		switch {
		case x > g.Form.Length:
			d.FailAt(path, x.Text(sys)+" lies outside the form", "the form is "+g.Form.Length.Text(sys)+" long", "write a place between 0 m and "+g.Form.Length.Text(sys))
		case i > 0 && x-pads[i-1] < padsApart-1e-9:
			d.FailAt(path, fmt.Sprintf("%s does not follow the pad before it", x.Text(sys)), fmt.Sprintf("the pad before stands at %s; a jack needs %s", pads[i-1].Text(sys), padsApart.Text(sys)), "write the pads in order, from the rear end")
		default:
			g.checkPadFree(d, path, x)
		}
	}
}

// checkPadFree asks that no wheel and no jack plate stands where a jack is set.
func (g *Gear) checkPadFree(d *Decoder, path string, x units.Length) {
	sys := d.System()
	near := func(at, half units.Length) bool { return math.Abs(float64(x-at)) < float64(half)-1e-9 }
	for k, at := range g.Wheels.At {
		if half := g.Wheels.Diameter / 2; near(at, half) {
			d.FailAt(path, fmt.Sprintf("%s lies over wheel line %d", x.Text(sys), k+1), fmt.Sprintf("the wheel stands from %s to %s", (at-half).Text(sys), (at+half).Text(sys)), "write a place between wheels and jacks")
			return
		}
	}
	for n := range g.Form.Bents {
		at, half := g.Form.First+units.Length(n)*g.Form.Spacing, g.Jack.Plate.X/2
		if near(at, half) {
			d.FailAt(path, fmt.Sprintf("%s lies over the screw jack of bent %d", x.Text(sys), n+1), fmt.Sprintf("its plate stands from %s to %s", (at-half).Text(sys), (at+half).Text(sys)), "write a place between wheels and jacks")
			return
		}
	}
}

// Check asks that the jack can lift one pass beyond its packing.
func (l *Lifting) Check(d *Decoder, path string) {
	sys := d.System()
	if need := l.Packing + l.Pass; l.Stroke < need {
		d.FailAt(path+".stroke", l.Stroke.Text(sys)+" does not lift one pass", fmt.Sprintf("packing %s + pass %s = %s", l.Packing.Text(sys), l.Pass.Text(sys), need.Text(sys)), "write at least "+need.Text(sys))
	}
	if l.Last != nil && *l.Last > l.Pass {
		d.FailAt(path+".last", l.Last.Text(sys)+" is more than the passes before it", "pass is "+l.Pass.Text(sys), "write at most "+l.Pass.Text(sys)+", or leave it out")
	}
}
